//! Rules and tasks: what is taken off, and the labor of it.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use crate::catalog::words::*;
use crate::findings::Place;
use crate::measure::{Duration, Unit};
use crate::rules;

/// A condition with the place of its text.
#[derive(Clone, Debug)]
pub struct When {
    /// The checked condition.
    pub condition: rules::Condition,
    /// Where it stands.
    pub place: Place,
}

/// A formula with the place of its text.
#[derive(Clone, Debug)]
pub struct Amount {
    /// The checked formula.
    pub formula: rules::Formula,
    /// Where it stands.
    pub place: Place,
}

/// What a rule takes off.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// An item, by id.
    Item(String),
    /// A task, by id.
    Task(String),
}

/// A checked rule.
#[derive(Clone, Debug)]
pub struct Rule {
    /// Its id.
    pub id: String,
    /// What it ranges over.
    pub per: Entity,
    /// The item whose lines it ranges over, with `per` item.
    pub of: Option<String>,
    /// The operator it belongs to, where it stands inside one: a condition of its own.
    pub operator: Option<String>,
    /// Condition.
    pub when: Option<When>,
    /// What it takes off.
    pub target: Target,
    /// How much; none is one.
    pub quantity: Option<Amount>,
    /// Why.
    pub because: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// Labor, and what the installer is told.
#[derive(Clone, Debug)]
pub struct Task {
    /// Id.
    pub id: String,
    /// Plain words.
    pub name: String,
    /// Visit.
    pub visit: VisitKind,
    /// Phase.
    pub phase: Phase,
    /// Order inside the phase.
    pub order: u32,
    /// Trade's id.
    pub trade: String,
    /// People.
    pub crew: Option<Amount>,
    /// Hours of the clock for one unit.
    pub hours: Duration,
    /// Unit of the quantity.
    pub unit: Unit,
    /// Where the hours come from.
    pub source: String,
    /// Steps.
    pub steps: Vec<String>,
    /// Tools.
    pub tools: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Hold point.
    pub hold: Option<String>,
    /// Where it stands.
    pub place: Place,
    /// Where its hours stand.
    pub hours_place: Place,
}
