//! One header that its arms put on both sides of the wall.
//!
//! In: an opening. Out: `arm-side-conflict`. May not know: which operator hangs there.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::catalog::Arm;
use crate::findings::{Code, Findings, Severity};
use crate::review::contexts::side_word;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Powered leaves under one header that put it on two sides.
pub static CODE: Code = Code {
    id: "arm-side-conflict",
    severity: Severity::Error,
    says: "the arms place one header on both sides: {found}",
    why: "A push arm requires the header on the push side, a pull arm on the pull side. Two leaves that swing \
          the same way need the same arm; a double egress pair needs one of each.",
    example: "headers = \"one header\"\nleaf = [{ swing = \"away\", arm = \"push arm\" }, { swing = \"away\", arm = \"pull arm\" }]",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    if !opening.shares_a_header() {
        return;
    }
    let placed = |leaf: super::LeafContext| {
        let arm = leaf.entry.arm.given()?.clone();
        Some((leaf.number, leaf.header()?.room, arm))
    };
    let mut leaves = opening.powered().filter_map(placed);
    let Some((first, room, first_arm)) = leaves.next() else { return };
    for (number, other, arm) in leaves.filter(|(_, other, _)| *other != room) {
        let found = format!(
            "{} by the {} of leaf {first}, {} by the {} of leaf {number}",
            side_word(room),
            first_arm.value,
            side_word(other),
            arm.value
        );
        let right = if arm.value == Arm::Push { Arm::Pull } else { Arm::Push };
        let finding = CHECK
            .finding(opening.subject())
            .at(arm.place.clone())
            .near(first_arm.place.clone(), format!("leaf {first}"))
            .found(found)
            .asked(side_word(room));
        findings.push(finding.type_at(arm.place.clone(), right.word()));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn pair(swings: [&str; 2], arms: [&str; 2]) -> Fixture {
        with(&format!(
            r#"leaf = [{{ hinges = "left", swing = "{}", arm = "{}" }}, {{ hinges = "right", swing = "{}", arm = "{}" }}]"#,
            swings[0], arms[0], swings[1], arms[1]
        ))
    }

    #[test]
    fn arms_that_agree_pass() {
        pair(["away", "away"], ["push arm", "push arm"]).passes(&CHECK);
        pair(["toward", "away"], ["push arm", "pull arm"]).passes(&CHECK);
        pair(["away", "away"], ["push arm", "pull arm"]).and(r#"headers = "header per leaf""#).passes(&CHECK);
    }

    #[test]
    fn arms_that_differ_are_reported_at_the_second() {
        let (finding, at) = pair(["away", "away"], ["push arm", "pull arm"]).one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"pull arm\"", "push arm"));
        assert_eq!(finding.found, "outside by the push arm of leaf 1, inside by the pull arm of leaf 2");
        pair(["toward", "away"], ["push arm", "push arm"]).one(&CHECK);
    }
}
