//! Editions of codes and standards, checked.
//!
//! In: nothing. Out: plain types. May not know: how they were typed, or any job.

use crate::catalog::{Approach, ClauseKnown, ClauseOf, LeafFace, MoreWhen};
use crate::findings::Place;
use crate::input::Date;
use crate::measure::Length;

/// An edition.
#[derive(Clone, Debug)]
pub struct Edition {
    /// Id.
    pub id: String,
    /// Name, as findings cite it.
    pub name: String,
    /// Date.
    pub date: Date,
    /// Where it was read.
    pub source: String,
    /// Whether the clear width counts one leaf alone.
    pub one_leaf: bool,
    /// Grounds in a box that count as one, each further a quarter; none where all count as one.
    pub grounds_as_one: Option<u32>,
    /// Clauses.
    pub clauses: Vec<Clause>,
    /// Maneuvering clearances.
    pub maneuvers: Vec<Maneuver>,
    /// Triggers of automatic doors.
    pub triggers: Vec<Trigger>,
    /// Where it stands.
    pub place: Place,
}

/// A clause.
#[derive(Clone, Debug)]
pub struct Clause {
    /// What it is about.
    pub of: ClauseOf,
    /// Not less.
    pub least: Option<Length>,
    /// Not more.
    pub most: Option<Length>,
    /// Up to this depth.
    pub depth: Option<Length>,
    /// Number.
    pub number: String,
    /// How well it is known.
    pub known: ClauseKnown,
    /// Where it stands.
    pub place: Place,
}

/// A row of maneuvering clearances.
#[derive(Clone, Debug)]
pub struct Maneuver {
    /// Approach.
    pub approach: Approach,
    /// Side of the leaf.
    pub side: LeafFace,
    /// Depth.
    pub deep: Length,
    /// Width beyond latch or hinge.
    pub beyond: Length,
    /// Added depth.
    pub more_deep: Length,
    /// Added width.
    pub more_beyond: Length,
    /// When; none is never.
    pub more_when: Option<MoreWhen>,
    /// Added on the exterior side of an exterior door.
    pub exterior_beyond: Length,
    /// Clause.
    pub number: String,
}

/// A trigger of automatic doors.
#[derive(Clone, Debug)]
pub struct Trigger {
    /// Use groups.
    pub groups: Vec<String>,
    /// Occupant load above which it holds.
    pub above: u32,
}

impl Edition {
    /// A clause as findings cite it: edition, number, and how well it is known where that is not by reading it.
    pub fn cite(&self, number: &str, known: ClauseKnown) -> String {
        match known {
            ClauseKnown::Read => format!("{} {number}", self.name),
            ClauseKnown::Secondary => format!("{} {number} (secondary)", self.name),
            ClauseKnown::Memory => format!("{} {number} (from memory)", self.name),
        }
    }
}
