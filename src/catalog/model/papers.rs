//! Firm, parties, responsibilities, notes, sequences, faults: what papers say.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use super::When;
use crate::catalog::paper_words::*;
use crate::catalog::words::*;
use crate::findings::Place;

/// The contractor whose papers these are.
#[derive(Clone, Debug, Default)]
pub struct Firm {
    /// Name.
    pub name: String,
    /// Address.
    pub address: String,
    /// Telephone.
    pub phone: String,
    /// Mail address.
    pub mail: String,
    /// Licences.
    pub licences: Vec<String>,
    /// Subcontractors named on the bid.
    pub subcontractors: Vec<String>,
}

/// Written where a party would stand, for what nobody does.
pub const NOBODY: &str = "none";

/// A party of the matrix.
#[derive(Clone, Debug)]
pub struct Party {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Short form.
    pub short: String,
    /// Order.
    pub order: u32,
}

/// A row of the responsibility matrix. A cell is a party's id; none where the row has no such work.
#[derive(Clone, Debug)]
pub struct Responsibility {
    /// Id.
    pub id: String,
    /// What the row is about.
    pub name: String,
    /// Order.
    pub order: u32,
    /// Furnish, install, wire, terminate, program, test.
    pub cells: [Option<String>; 6],
}

/// The heads of the matrix' cells, in order.
pub const RESPONSIBILITY_CELLS: [&str; 6] = ["furnish", "install", "wire", "terminate", "program", "test"];

/// A line that papers print when its condition holds.
#[derive(Clone, Debug)]
pub struct Note {
    /// Id.
    pub id: String,
    /// Kind.
    pub kind: NoteKind,
    /// The line.
    pub says: String,
    /// Party's id.
    pub by: Option<String>,
    /// What it ranges over.
    pub per: Entity,
    /// Condition.
    pub when: Option<When>,
    /// Order.
    pub order: u32,
}

/// What somebody else must do before we can.
#[derive(Clone, Debug)]
pub struct Need {
    /// Id.
    pub id: String,
    /// Id of the party that does it.
    pub of: String,
    /// What, in a few words.
    pub what: String,
    /// What, as it is to be done.
    pub says: String,
    /// What it ranges over.
    pub per: Entity,
    /// Condition.
    pub when: Option<When>,
    /// Heads of columns, and the facts under them.
    pub tell: Vec<(String, String)>,
    /// The visit before which it must be done.
    pub before: VisitKind,
    /// Order.
    pub order: u32,
}

/// What happens in a state.
#[derive(Clone, Debug)]
pub struct Sequence {
    /// Id.
    pub id: String,
    /// State.
    pub state: DoorState,
    /// Condition over the opening.
    pub when: Option<When>,
    /// What happens.
    pub says: String,
    /// Order.
    pub order: u32,
}

/// A symptom and its checks.
#[derive(Clone, Debug)]
pub struct Fault {
    /// Id.
    pub id: String,
    /// Symptom.
    pub symptom: String,
    /// Checks, cheapest first.
    pub checks: Vec<String>,
    /// Order.
    pub order: u32,
}

/// A value of the theme, not yet read: what it may be is for the print wing to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThemeValue {
    /// Its key.
    pub key: &'static str,
    /// What is written.
    pub value: String,
    /// Where.
    pub place: Option<Place>,
}
