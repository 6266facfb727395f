//! What a person types of the papers' own words: firm, finishes, parties, responsibilities, notes, sequences, faults.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether references hold, or any job.

use super::paper_words::*;
use super::words::*;
use crate::input::{Count, Formula, Id, Text, record};

record! {
    /// A party of the responsibility matrix.
    pub struct PartyEntry as "party" blocks(bid, schedule) {
        /// Its name.
        name: Text, needed, "General contractor";
        /// Short form for the matrix.
        short: Text, needed, "GC";
        /// Order in the key.
        order: Count, ["0" to "9999"], "1";
    }
}

record! {
    /// A row of the responsibility matrix; each cell is the id of a party, or `none` where the row has no such work.
    pub struct ResponsibilityEntry as "responsibility" blocks(bid) {
        /// What the row is about.
        name: Text, needed, "Line-voltage circuit and breaker";
        /// Its order.
        order: Count, needed, ["0" to "9999"], "10";
        /// Who furnishes.
        furnish: Id, "us";
        /// Who installs.
        install: Id, "us";
        /// Who wires.
        wire: Id, "electrician";
        /// Who terminates.
        terminate: Id, "electrician";
        /// Who programs.
        program: Id, "none";
        /// Who tests.
        test: Id, "us";
    }
}

record! {
    /// A line that papers print when its condition holds for some entity.
    pub struct NoteEntry as "note" blocks(bid, schedule, packet) {
        /// What kind of line.
        kind: NoteKind, needed, "exclusion";
        /// The line.
        says: Text, needed, "Relocation of exit signs, sprinkler heads, detectors and cameras.";
        /// Who is expected to do it, for an exclusion: id of a party.
        by: Id, "gc";
        /// What it ranges over.
        per: Entity, needed, "opening";
        /// Condition.
        when: Formula, "count(opening.in_the_way) > 0";
        /// Its order among its kind.
        order: Count, needed, ["0" to "9999"], "10";
    }
}

record! {
    /// A fact that a need tells, and what its column is called.
    pub struct NeedFactEntry as "need's fact" blocks(needs) {
        /// Head of its column.
        head: Text, needed, "Length";
        /// The fact, as rules name it.
        fact: Text, needed, "header.leaf_width";
    }
}

record! {
    /// What somebody else must do before we can do our part.
    pub struct NeedEntry as "need" blocks(needs) {
        /// Who: id of a party.
        of: Id, needed, "gc";
        /// What, in a few words.
        what: Text, needed, "Backing behind headers";
        /// The same as it is to be done, in a sentence or two.
        says: Text, needed, "Solid backing in the wall over the whole length of the header.";
        /// What it ranges over.
        per: Entity, needed, "header";
        /// Condition. Where it cannot be decided, the need is told as one to be confirmed.
        when: Formula, "opening.fixed_to = \"steel stud\"";
        /// What is told of each place.
        tell: Vec<NeedFactEntry>, "[{ head = \"Length\", fact = \"header.leaf_width\" }]";
        /// The visit before which it must be done.
        before: VisitKind, needed, "set";
        /// Its order among those of its party.
        order: Count, needed, ["0" to "9999"], "10";
    }
}

record! {
    /// What happens at an opening in one of its states.
    pub struct SequenceEntry as "sequence" blocks(schedule, packet) {
        /// The state.
        state: DoorState, needed, "loss of power";
        /// Condition over the opening.
        when: Formula, "opening.rating != \"none\"";
        /// What happens.
        says: Text, needed, "Leaf closes by spring and latches.";
        /// Lower comes first; the first whose condition holds is printed.
        order: Count, needed, ["0" to "9999"], "10";
    }
}

record! {
    /// A symptom and its checks, cheapest first.
    pub struct FaultEntry as "fault" blocks(packet) {
        /// What is seen.
        symptom: Text, needed, "Operator does not run";
        /// What to check, cheapest first.
        checks: Vec<Text>, needed, "[\"mode switch\", \"breaker\"]";
        /// Its order.
        order: Count, needed, ["0" to "9999"], "10";
    }
}

record! {
    /// The contractor whose papers these are.
    pub struct FirmEntry as "firm" {
        /// Its name.
        name: Text, needed, "Tallow Door & Power";
        /// Its address.
        address: Text, needed, "3 Mill Lane, Alder Row";
        /// Its telephone.
        phone: Text, needed, "555-0100";
        /// Its mail address.
        mail: Text, "bids@example.org";
        /// Licences that papers print.
        licences: Vec<Text>, "[\"contractor 000000\"]";
        /// Subcontractors named on the bid.
        subcontractors: Vec<Text>, blocks(bid), "[\"Bright Mill Electric, EC-000\"]";
    }
}

record! {
    /// A finish that headers and arms may have.
    pub struct FinishEntry as "finish" blocks(bid, recap, schedule, packet) {
        /// Its name.
        name: Text, needed, "clear anodized";
    }
}
