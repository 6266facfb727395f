//! An arm that does not reach: no rod for the reveal, no reach to the open angle, a roller that leaves its track.
//!
//! In: a leaf. Out: `arm-out-of-reach`. May not know: what an installer would make of it.

use super::{Check, CheckScope, LeafContext};
use crate::engineering::{LinkageFault, RodFault};
use crate::findings::{Code, Findings, Paper, Papers, Severity};
use crate::measure::{Angle, Style};
use crate::mechanics::{open_angle, rod_cut, swept};
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// An arm that cannot be mounted.
pub static CODE: Code = Code {
    id: "arm-out-of-reach",
    severity: Severity::Error,
    says: "{found}; required opening: {asked}",
    why: "The rod, arm or track of this operator does not fit the reveal, the leaf and the opening angle. No \
          rod can be cut to fit.",
    example: "frame = { reveal = \"11 in\" }   # operator: rods to 30 in",
    blocks: Papers::of(&[Paper::Packet]),
};

/// The open position that is checked is a full 90 degrees (common practice, no source).
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let entry = &leaf.of.opening.entry;
    let angle = |it: Angle| it.print(1, Style::Plain);
    let rod = rod_cut(entry, leaf.entry, operator).and_then(Result::err).map(|fault| match fault {
        RodFault::Short { needed, longest } => (
            format!("reveal requires a {} rod; longest available {}", leaf.of.length(needed), leaf.of.length(longest)),
            Some(format!("{} short", leaf.of.length(needed - longest))),
        ),
        RodFault::Stub { needed, shortest } => (
            format!(
                "reveal requires a {} rod; shortest available {}",
                leaf.of.length(needed),
                leaf.of.length(shortest)
            ),
            Some(format!("{} too long", leaf.of.length(shortest - needed))),
        ),
        RodFault::NoGeometry => ("arm geometry not possible".to_owned(), None),
    });
    let faults = swept(entry, leaf.entry, operator).map(|it| it.course.faults.clone()).unwrap_or_default();
    let swing = faults.into_iter().filter_map(|fault| match fault {
        LinkageFault::OutOfReach { from } => Some((
            format!("arm opens the leaf to {} only", angle(from)),
            Some(format!("{} short", angle(less(open_angle(leaf.entry), from)))),
        )),
        LinkageFault::OffTrack { by } => Some((
            format!("roller leaves the track by {} at {}", leaf.of.length(by.value), angle(by.at)),
            Some(format!("{} off its track", leaf.of.length(by.value))),
        )),
        _ => None,
    });
    let place = entry.frame.get().and_then(|it| it.reveal.place()).or(leaf.entry.arm.place());
    for (found, margin) in rod.into_iter().chain(swing) {
        let mut finding = CHECK
            .finding(leaf.of.subject())
            .at(leaf.of.place_or_own(place))
            .near(operator.place.clone(), format!("operator {}", operator.id))
            .found(leaf.words(found))
            .asked(angle(open_angle(leaf.entry)));
        finding.margin = margin;
        findings.push(finding.advise("verify reveal and leaf thickness; then choose another arm or operator"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    /// Geometry of the arm in `bench`, checked against the worked arms of the room engineering.
    #[test]
    fn an_arm_that_reaches_passes_and_one_that_does_not_is_reported() {
        sound().passes(&CHECK);
        with_mechanics("").passes(&CHECK);
        with_mechanics("leaf = { arm = \"pull arm\" }").passes(&CHECK);
        let (finding, at) = with_mechanics("frame = { reveal = \"14 in\" }").one(&CHECK);
        assert_eq!(at, "\"14 in\"");
        assert!(finding.found.contains("longest available 2 ft 6 in"), "{}", finding.found);
        let narrow = with_mechanics("leaf = { arm = \"pull arm\" }")
            .catalog_but("track_from = \"13 in\"", "track_from = \"21 in\"");
        assert!(narrow.one(&CHECK).0.found.contains("leaves the track"));
        // Main arm 10 in at 50 degrees: the rod of 16.3 in is in line with it near 60 (worked apart from this code).
        let folded = with_mechanics("")
            .catalog_but("main = \"13 in\", shut = \"90 deg\"", "main = \"10 in\", shut = \"50 deg\"");
        let folded = folded.catalog_but("shortest = \"18 in\"", "shortest = \"12 in\"");
        assert!(folded.reported(&CHECK).iter().any(|it| it.found.ends_with(" only")));
    }
}
