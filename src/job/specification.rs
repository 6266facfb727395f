//! The checked paragraphs of the specification.
//!
//! In: nothing. Out: plain types. May not know: whether a paragraph is met.

use super::submittal_entries::SubmittalPart;
use crate::catalog::{Entity, Group};
use crate::findings::Place;
use crate::input::{Formula, Given};

/// A paragraph of the specification.
#[derive(Clone, Debug)]
pub struct Paragraph {
    /// Section of the project manual; empty where neither paragraph nor job names one.
    pub section: String,
    /// Number in the section.
    pub number: String,
    /// What it asks.
    pub asks: String,
    /// How it is answered.
    pub answer: Answer,
    /// Parts of a submittal that it asks for.
    pub submits: Vec<SubmittalPart>,
    /// Groups that it speaks of; none speaks of all.
    pub groups: Vec<Group>,
    /// What is said where it is not met.
    pub statement: Option<Deviation>,
    /// Where it stands.
    pub place: Place,
}

/// How a paragraph is answered.
#[derive(Clone, Debug)]
pub enum Answer {
    /// By hand: it is met.
    Complies,
    /// By hand: it is not.
    Deviates,
    /// By hand: it does not concern this work, for a reason.
    NotApplicable(String),
    /// By a condition, tried on every entity of a kind.
    Tried {
        /// The kind.
        per: Entity,
        /// The condition, not yet parsed.
        holds: Given<Formula>,
    },
}

/// What is offered where a paragraph is not met.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deviation {
    /// What is offered.
    pub offers: String,
    /// Why.
    pub because: String,
    /// What it does to the cost.
    pub cost: String,
    /// What it does to the time.
    pub time: String,
    /// What it does to other trades.
    pub trades: String,
}

impl Paragraph {
    /// What it is called: section and number.
    pub fn name(&self) -> String {
        format!("{} {}", self.section, self.number).trim().to_owned()
    }
}
