//! What a person types of the papers' own words: firm, finishes, parties, responsibilities, notes, sequences, faults.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold, or any job.

use super::conditions::When;
use super::paper_words::*;
use super::words::*;
use crate::input::{Count, Formula, Id, Text, record};

record! {
    /// A party of the responsibility matrix.
    pub struct PartyEntry as "party" blocks(bid, schedule) => Party {
        /// Its name.
        name: Text, needed, "General contractor";
        /// Short form for the matrix.
        short: Text, needed, "GC";
        /// Order in the key.
        order: Count, default(u32::MAX), ["0" to "9999"], "1";
    } with {
        /// Id.
        id: String,
    }
}

/// Written where a party would be, for what no one does.
pub const NO_PARTY: &str = "none";

/// The heads of the responsibility matrix' cells, in order.
pub const RESPONSIBILITY_CELLS: [&str; 6] = ["furnish", "install", "wire", "terminate", "program", "test"];

record! {
    /// A row of the responsibility matrix; each cell is the id of a party, or `none` where the row has no such work.
    pub struct ResponsibilityEntry as "responsibility" blocks(bid) => Responsibility {
        /// What the row is about.
        name: Text, needed, "Line-voltage circuit and breaker";
        /// Its order.
        order: Count, needed, ["0" to "9999"], "10";
        /// Who furnishes.
        furnish: Id, apart refers(party, none), "us";
        /// Who installs.
        install: Id, apart refers(party, none), "us";
        /// Who wires.
        wire: Id, apart refers(party, none), "electrician";
        /// Who terminates.
        terminate: Id, apart refers(party, none), "electrician";
        /// Who programs.
        program: Id, apart refers(party, none), "none";
        /// Who tests.
        test: Id, apart refers(party, none), "us";
    } with {
        /// Id.
        id: String,
        /// A cell each of [`RESPONSIBILITY_CELLS`]: the id of a party, none where the row has no such work.
        cells: [Option<String>; 6],
    }
}

record! {
    /// A line that papers print when its condition holds for some entity.
    pub struct NoteEntry as "note" blocks(bid, schedule, packet) => Note {
        /// What kind of line.
        kind: NoteKind, needed, "exclusion";
        /// The line.
        says: Text, needed, "Relocation of exit signs, sprinkler heads, detectors and cameras.";
        /// Who is expected to do it, for an exclusion: id of a party.
        by: Id, refers(party), "gc";
        /// What it ranges over.
        per: Entity, needed, "opening";
        /// Condition.
        when: Formula, apart, "count(opening.in_the_way) > 0";
        /// Its order among its kind.
        order: Count, needed, ["0" to "9999"], "10";
    } with {
        /// Id.
        id: String,
        /// Condition.
        when: Option<When>,
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
    pub struct NeedEntry as "need" blocks(needs) => Need {
        /// Who: id of a party.
        of: Id, needed refers(party), "gc";
        /// What, in a few words.
        what: Text, needed, "Backing behind headers";
        /// The same as it is to be done, in a sentence or two.
        says: Text, needed, "Solid backing in the wall over the whole length of the header.";
        /// What it ranges over.
        per: Entity, needed, "header";
        /// Condition. Where it cannot be decided, the need is told as one to be confirmed.
        when: Formula, apart, "opening.fixed_to = \"steel stud\"";
        /// What is told of each place.
        tell: Vec<NeedFactEntry>, apart, "[{ head = \"Length\", fact = \"header.leaf_width\" }]";
        /// The visit before which it must be done.
        before: VisitKind, needed, "set";
        /// Its order among those of its party.
        order: Count, needed, ["0" to "9999"], "10";
    } with {
        /// Id.
        id: String,
        /// Condition.
        when: Option<When>,
        /// Heads of columns, and the facts under them.
        tell: Vec<(String, String)>,
    }
}

record! {
    /// What happens at an opening in one of its states.
    pub struct SequenceEntry as "sequence" blocks(schedule, packet) => Sequence {
        /// The state.
        state: DoorState, needed, "loss of power";
        /// Condition over the opening.
        when: Formula, apart, "opening.rating != \"none\"";
        /// What happens.
        says: Text, needed, "Leaf closes by spring and latches.";
        /// Lower comes first; the first whose condition holds is printed.
        order: Count, needed, ["0" to "9999"], "10";
    } with {
        /// Id.
        id: String,
        /// Condition.
        when: Option<When>,
    }
}

record! {
    /// A symptom and its checks, cheapest first.
    pub struct FaultEntry as "fault" blocks(packet) => Fault {
        /// What is seen.
        symptom: Text, needed, "Operator does not run";
        /// What to check, cheapest first.
        checks: Vec<Text>, needed default(Vec::new()), "[\"mode switch\", \"breaker\"]";
        /// Its order.
        order: Count, needed, ["0" to "9999"], "10";
    } with {
        /// Id.
        id: String,
    }
}

record! {
    /// The contractor whose papers these are.
    pub struct FirmEntry as "firm" => #[derive(Default)] Firm {
        /// Its name.
        name: Text, needed default(String::new()), "Tallow Door & Power";
        /// Its address.
        address: Text, needed default(String::new()), "3 Mill Lane, Alder Row";
        /// Its telephone.
        phone: Text, needed default(String::new()), "555-0100";
        /// Its mail address.
        mail: Text, default(String::new()), "bids@example.org";
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
