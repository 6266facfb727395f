//! Proofs: what shows that something offered is what it is said to be.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use super::{MakersSheet, When};
use crate::catalog::paper_words::*;
use crate::catalog::words::*;
use crate::findings::Place;
use crate::input::Date;

/// A proof, and where it is needed.
#[derive(Clone, Debug)]
pub struct Proof {
    /// Id.
    pub id: String,
    /// Kind.
    pub kind: ProofKind,
    /// What it shows.
    pub says: String,
    /// Items that it is for.
    pub items: Vec<String>,
    /// Groups that it is for.
    pub groups: Vec<Group>,
    /// Needed only where the owner asks for its kind.
    pub if_asked: bool,
    /// What its condition ranges over.
    pub per: Option<Entity>,
    /// Condition.
    pub when: Option<When>,
    /// Number.
    pub number: Option<String>,
    /// Who gave it.
    pub by: Option<String>,
    /// Date; none while it is not in hand.
    pub date: Option<Date>,
    /// Last day on which it holds.
    pub expires: Option<Date>,
    /// The certificate itself, to be enclosed.
    pub sheet: Option<MakersSheet>,
    /// Where it stands.
    pub place: Place,
}

impl Proof {
    /// Whether it is for the contractor and not for anything furnished.
    pub fn is_of_the_firm(&self) -> bool {
        self.items.is_empty() && self.groups.is_empty()
    }

    /// Whether it is for an item.
    pub fn is_for(&self, item: &super::Item) -> bool {
        self.items.contains(&item.id) || self.groups.contains(&item.group)
    }
}
