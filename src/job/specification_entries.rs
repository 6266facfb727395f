//! What a person types of the specification: its paragraphs, and how each is met.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether a condition can be parsed, or what it comes to.

use super::submittal_entries::SubmittalPart;
use crate::catalog::{Entity, Group};
use crate::input::{Formula, Text, record, vocabulary};

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

record! {
    /// A paragraph of the specification: what it asks, and an answer by hand or a condition that is tried.
    pub struct ParagraphEntry as "paragraph" blocks(submittal) {
        /// The section of the project manual; left out, the job's.
        section: Text, "08 71 13";
        /// Its number in the section.
        number: Text, needed, "2.2.A";
        /// What it asks, in the words of the specification or shorter.
        asks: Text, needed, "Headers no higher than 6 in.";
        /// An answer by hand; left out where a condition is tried.
        answer: ParagraphAnswer, "complies";
        /// What the condition is tried on.
        per: Entity, "header";
        /// The condition that holds wherever the paragraph is met.
        holds: Formula, "operator.height <= 6 in";
        /// Parts of a submittal that it asks for; the transmittal names it beside them.
        submits: Vec<SubmittalPart>, "[\"product data\"]";
        /// Groups of items that it speaks of; left out, all of the section.
        groups: Vec<Group>, "[\"header\"]";
        /// Where it deviates: what is offered instead.
        offers: Text, "A header 7 1/2 in high at the openings named.";
        /// Why it deviates, or why it does not concern this work.
        because: Text, "The leaf is heavier than the low header moves.";
        /// What the deviation does to the cost; left out, nothing.
        cost: Text, "none";
        /// What it does to the time; left out, nothing.
        time: Text, "none";
        /// What it does to the work of other trades; left out, nothing.
        trades: Text, "none";
    }
}

/// Whether a condition was typed of something else than an entity that stands on the site.
pub fn tried_on(per: Entity) -> bool {
    !matches!(per, Entity::Item | Entity::Visit)
}
