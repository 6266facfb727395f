//! An arm that runs into the leaf, the frame's stop or a wall beside the hinges.
//!
//! In: a leaf. Out: `arm-collides`. May not know: signs, sprinklers and lights; those are in the survey.

use super::{Check, CheckScope, LeafContext};
use crate::engineering::{LinkageFault, Obstacle};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::Style;
use crate::mechanics::swept;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// An arm in the way of something.
pub static CODE: Code = Code {
    id: "arm-collides",
    severity: Severity::Warning,
    says: "{found}; {asked}",
    why: "The elbow of the arm swings out beyond the header; contact bends the arm.",
    example: "frame = { side_wall = \"1 in\" }   # pull arm: reaches 2 in beyond the hinges",
    blocks: Papers::NONE,
};

/// Clearance is common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let entry = &leaf.of.opening.entry;
    let Some(swept) = swept(entry, leaf.entry, operator) else { return };
    let hits = swept.course.faults.iter().filter_map(|fault| match fault {
        LinkageFault::Collides { with, by } => {
            let what = if *with == Obstacle::Leaf { "the leaf" } else { "the stop of the frame" };
            let (deep, at) = (leaf.of.length(by.value), by.at.print(1, Style::Plain));
            let found = format!("arm overlaps {what} by {deep} at {at}");
            Some((found, format!("{deep} overlap"), leaf.entry.arm.place()))
        }
        _ => None,
    });
    let wall = entry.frame.get().and_then(|it| it.side_wall.given());
    let wall = wall.filter(|given| given.value < swept.course.past_hinges).map(|given| {
        let past = leaf.of.length(swept.course.past_hinges);
        let found = format!("arm projects {past} beyond the hinges; wall at {}", leaf.of.length(given.value));
        let short = leaf.of.length(swept.course.past_hinges - given.value);
        (found, format!("{short} short"), Some(&given.place))
    });
    for (found, margin, place) in hits.chain(wall) {
        let finding = CHECK
            .finding(leaf.of.subject())
            .at(leaf.of.place_or_own(place))
            .near(operator.place.clone(), format!("operator {}", operator.id))
            .found(leaf.words(found))
            .asked("the arm must swing clear")
            .margin(margin);
        findings.push(finding.advise("choose the other arm or another operator, or reduce the opening angle"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    #[test]
    fn an_arm_that_swings_free_passes_and_one_at_a_wall_is_reported() {
        sound().passes(&CHECK);
        with_mechanics("").passes(&CHECK);
        let pull = |wall: &str| {
            with_mechanics(&format!("leaf = {{ arm = \"pull arm\" }}\nframe = {{ side_wall = \"{wall}\" }}"))
        };
        pull("8 in").passes(&CHECK);
        let (finding, at) = pull("1/2 in").one(&CHECK);
        assert_eq!(at, "\"1/2 in\"");
        assert!(finding.found.contains("beyond the hinges"), "{}", finding.found);
    }
}
