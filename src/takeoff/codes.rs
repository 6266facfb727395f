//! Codes of findings that the takeoff raises.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use super::checks::CHECKED;
use super::submitting::{NO_TRANSMITTAL, NOTHING_TO_SEND, REVIEWS_DO_NOT_FIT};
use crate::findings::{Code, Paper, Papers, Severity};

/// A rule gave less than nothing.
pub static NEGATIVE_QUANTITY: Code = Code {
    id: "negative-quantity",
    severity: Severity::Error,
    says: "a rule gives a negative quantity: {found}",
    why: "A quantity below zero would lower the price for something that has to be bought.",
    example: "quantity = \"fixing.kit - fixing.screws\"",
    blocks: Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]),
};

/// A rule cannot be decided for want of facts.
pub static RULE_UNDECIDED: Code = Code {
    id: "rule-undecided",
    severity: Severity::Warning,
    says: "not known: {found}; left out: {asked}",
    why: "A quantity that depends on an unknown fact is not in the price; the bid states so until the fact is given.",
    example: "leaf = { width = \"3 ft 0 in\" }   # and a rule asks for leaf.height",
    blocks: Papers::NONE,
};

/// A rule has no result.
pub static RULE_NO_RESULT: Code = Code {
    id: "rule-no-result",
    severity: Severity::Error,
    says: "a rule has no result: {found}",
    why: "A line that cannot be computed cannot be priced.",
    example: "quantity = \"1 / (leaf.number - 1)\"",
    blocks: Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]),
};

/// Codes of rules, and of submittals against what was taken off.
const OF_RULES: [&Code; 6] =
    [&NEGATIVE_QUANTITY, &RULE_UNDECIDED, &RULE_NO_RESULT, &NO_TRANSMITTAL, &NOTHING_TO_SEND, &REVIEWS_DO_NOT_FIT];

/// The codes of this room.
pub static CODES: &[&Code] = &all();

const fn all() -> [&'static Code; OF_RULES.len() + CHECKED.len()] {
    let mut all = [OF_RULES[0]; OF_RULES.len() + CHECKED.len()];
    let mut at = 0;
    while at < all.len() {
        all[at] = if at < OF_RULES.len() { OF_RULES[at] } else { CHECKED[at - OF_RULES.len()] };
        at += 1;
    }
    all
}
