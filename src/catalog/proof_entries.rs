//! What a person types of proofs: certificates, listings, licences, samples.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold, or any job.

use super::conditions::When;
use super::entries::Item;
use super::paper_words::*;
use super::sheet_entries::{MakersSheet, SheetMarkEntry};
use super::words::*;
use crate::input::{CountFromOne, Date, Flag, Formula, Id, Text, record};

record! {
    /// A proof that goes with a submittal: what it shows, where it is needed, and the paper that gives it. Without a date it is
    /// one that is needed and not in hand.
    pub struct ProofEntry as "proof" blocks(submittal) => Proof[place] {
        /// What kind of proof.
        kind: ProofKind, needed, "listing for the use";
        /// What it shows, in plain words.
        says: Text, needed, "Operators listed for power-operated swing doors";
        /// Items that it is for; with neither items nor groups it is for the contractor.
        items: Vec<Id>, refers(item), "[\"hdr-low\", \"drv-low\"]";
        /// Groups of items that it is for.
        groups: Vec<Group>, "[\"drive\"]";
        /// Whether it is needed only where the owner's profile asks for its kind.
        if_asked: Flag, default(false), "true";
        /// What its condition ranges over; left out, it is needed wherever its items are.
        per: Entity, "opening";
        /// Condition. Where it cannot be decided, the proof counts as needed.
        when: Formula, apart, "opening.rating != \"none\"";
        /// Its number.
        number: Text, "L-20417";
        /// Who gave it.
        by: Text, "Corbel Testing Office";
        /// Its date.
        date: Date, "2026-03-02";
        /// Last day on which it holds.
        expires: Date, "2028-03-01";
        /// The certificate itself, a PDF, from the catalog's folder; it is enclosed in the submittal.
        sheet: Text, apart, "sheets/label.pdf";
        /// Pages of it that are enclosed; left out, all.
        sheet_pages: Vec<CountFromOne>, apart, ["1" to "9999"], "[1, 2]";
        /// What is marked on it.
        sheet_marks: Vec<SheetMarkEntry>, apart, "";
    } with {
        /// Id.
        id: String,
        /// Condition.
        when: Option<When>,
        /// The certificate itself, to be enclosed.
        sheet: Option<MakersSheet>,
    }
}

impl Proof {
    /// Whether it is for the contractor and not for anything furnished.
    pub fn is_of_the_firm(&self) -> bool {
        self.items.is_empty() && self.groups.is_empty()
    }

    /// Whether it is for an item.
    pub fn is_for(&self, item: &Item) -> bool {
        self.items.contains(&item.id) || self.groups.contains(&item.group)
    }
}
