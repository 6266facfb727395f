//! The hand that a schedule gives, against the one that follows from outside, hinges and swing.
//!
//! In: a leaf. Out: `hand-contradicts`. May not know: which of the two is right.

use super::{Check, CheckScope, LeafContext, OPENING_PAPERS};
use crate::engineering::{Hand, Room};
use crate::findings::{Code, Findings, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A hand that contradicts the facts.
pub static CODE: Code = Code {
    id: "hand-contradicts",
    severity: Severity::Error,
    says: "the hand is given as {found}; hinges and swing give {asked}",
    why: "Brackets and arms are ordered by hand, and a wrong hand is found at installation. LH and RHR are one \
          leaf seen from its two sides, so a wrong hand often means that the outside is the other room.",
    example: "leaf = { hinges = \"left\", swing = \"away\", hand = \"RH\" }",
    blocks: OPENING_PAPERS,
};

/// The hand is read from the outside; in a double egress from the side the leaf swings toward (common practice, no
/// source).
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(given) = leaf.entry.hand.given() else { return };
    let (Some(typed), Some(hang), Some(double)) =
        (Hand::parse(given.value.word()), leaf.hang(), leaf.of.double_egress())
    else {
        return;
    };
    let hand = if double { hang.hand_in_double_egress() } else { hang.hand(Room::First) };
    if typed == hand {
        return;
    }
    let mut finding = CHECK
        .finding(leaf.of.subject())
        .at(given.place.clone())
        .found(leaf.words(typed.letters()))
        .asked(hand.letters());
    let facts = [(leaf.entry.hinges.place(), "hinges"), (leaf.entry.swing.place(), "swing")];
    for (place, says) in facts {
        finding = match place {
            Some(place) => finding.near(place.clone(), says),
            None => finding,
        };
    }
    findings.push(finding.type_at(given.place.clone(), hand.letters()));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    #[test]
    fn letters_that_follow_from_the_facts_pass() {
        for (facts, hand) in [
            (r#"hinges = "left", swing = "away""#, "LH"),
            (r#"hinges = "right", swing = "away""#, "RH"),
            (r#"hinges = "left", swing = "toward""#, "LHR"),
            (r#"hinges = "right", swing = "toward""#, "RHR"),
        ] {
            with(&format!(r#"leaf = {{ {facts}, hand = "{hand}" }}"#)).passes(&CHECK);
        }
        sound().passes(&CHECK);
    }

    #[test]
    fn a_leaf_read_from_its_other_side_is_reported() {
        let (finding, at) = with(r#"leaf = { hand = "RHR" }"#).one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str(), remedy(&finding)), ("\"RHR\"", "RHR", "LH"));
    }

    /// Each leaf of a double egress is read from the side it swings toward: both RHR here, not RHR and RH.
    #[test]
    fn a_double_egress_is_read_from_the_side_each_leaf_swings_toward() {
        let pair = |first: &str, second: &str| {
            with(&format!(
                r#"leaf = [{{ hinges = "left", swing = "away", hand = "{first}" }},
                    {{ hinges = "right", swing = "toward", hand = "{second}" }}]"#
            ))
        };
        pair("RHR", "RHR").passes(&CHECK);
        let (finding, at) = pair("LH", "RHR").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str(), remedy(&finding)), ("\"LH\"", "LH at leaf 1", "RHR"));
    }
}
