//! What a person types of the specification: its paragraphs, and how each is met.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether a condition can be parsed, or what it comes to.

use super::submittal_entries::SubmittalPart;
use crate::catalog::{Entity, Group};
use crate::input::{Formula, Given, Text, record, vocabulary};

vocabulary! {
    /// How a paragraph of the specification is met, as answered by hand.
    pub enum ParagraphAnswer {
        /// As it is asked.
        Complies = "complies",
        /// Otherwise, which is stated.
        Deviates = "deviates",
        /// It does not concern this work, for a reason.
        NotApplicable = "not applicable",
    }
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

record! {
    /// A paragraph of the specification: what it asks, and an answer by hand or a condition that is tried.
    pub struct ParagraphEntry as "paragraph" blocks(submittal) => Paragraph[place] {
        /// The section of the project manual; left out, the job's.
        section: Text, apart, "08 71 13";
        /// Its number in the section.
        number: Text, needed, "2.2.A";
        /// What it asks, in the words of the specification or shorter.
        asks: Text, needed, "Headers no higher than 6 in.";
        /// An answer by hand; left out where a condition is tried.
        answer: ParagraphAnswer, apart, "complies";
        /// What the condition is tried on.
        per: Entity, apart, "header";
        /// The condition that holds wherever the paragraph is met.
        holds: Formula, apart, "operator.height <= 6 in";
        /// Parts of a submittal that it asks for; the transmittal names it beside them.
        submits: Vec<SubmittalPart>, "[\"product data\"]";
        /// Groups of items that it speaks of; left out, all of the section.
        groups: Vec<Group>, "[\"header\"]";
        /// Where it deviates: what is offered instead.
        offers: Text, apart, "A header 7 1/2 in high at the openings named.";
        /// Why it deviates, or why it does not concern this work.
        because: Text, apart, "The leaf is heavier than the low header moves.";
        /// What the deviation does to the cost; left out, nothing.
        cost: Text, apart, "none";
        /// What it does to the time; left out, nothing.
        time: Text, apart, "none";
        /// What it does to the work of other trades; left out, nothing.
        trades: Text, apart, "none";
    } with {
        /// The section of the project manual; empty where neither paragraph nor job names one.
        section: String,
        /// How it is answered.
        answer: Answer,
        /// What is said where it is not met.
        statement: Option<Deviation>,
    }
}

impl Paragraph {
    /// What it is called: section and number.
    pub fn name(&self) -> String {
        format!("{} {}", self.section, self.number).trim().to_owned()
    }
}

/// Whether a condition was typed of something else than an entity that stands on the site.
pub fn tried_on(per: Entity) -> bool {
    !matches!(per, Entity::Item | Entity::Visit)
}
