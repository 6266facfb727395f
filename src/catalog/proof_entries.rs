//! What a person types of proofs: certificates, listings, licences, samples.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether references hold, or any job.

use super::entries::SheetMarkEntry;
use super::paper_words::*;
use super::words::*;
use crate::input::{CountFromOne, Date, Flag, Formula, Id, Text, record};

record! {
    /// A proof that goes with a submittal: what it shows, where it is needed, and the paper that gives it. Without a date it is
    /// one that is needed and not in hand.
    pub struct ProofEntry as "proof" blocks(submittal) {
        /// What kind of proof.
        kind: ProofKind, needed, "listing for the use";
        /// What it shows, in plain words.
        says: Text, needed, "Operators listed for power-operated swing doors";
        /// Items that it is for; with neither items nor groups it is for the contractor.
        items: Vec<Id>, "[\"hdr-low\", \"drv-low\"]";
        /// Groups of items that it is for.
        groups: Vec<Group>, "[\"drive\"]";
        /// Whether it is needed only where the owner's profile asks for its kind.
        if_asked: Flag, "true";
        /// What its condition ranges over; left out, it is needed wherever its items are.
        per: Entity, "opening";
        /// Condition. Where it cannot be decided, the proof counts as needed.
        when: Formula, "opening.rating != \"none\"";
        /// Its number.
        number: Text, "L-20417";
        /// Who gave it.
        by: Text, "Corbel Testing Office";
        /// Its date.
        date: Date, "2026-03-02";
        /// Last day on which it holds.
        expires: Date, "2028-03-01";
        /// The certificate itself, a PDF, from the catalog's folder; it is enclosed in the submittal.
        sheet: Text, "sheets/label.pdf";
        /// Pages of it that are enclosed; left out, all.
        sheet_pages: Vec<CountFromOne>, ["1" to "9999"], "[1, 2]";
        /// What is marked on it.
        sheet_marks: Vec<SheetMarkEntry>, "";
    }
}
