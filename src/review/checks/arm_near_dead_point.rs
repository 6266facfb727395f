//! An arm that stands near a dead point, or pulls along the leaf rather than across it.
//!
//! In: a leaf. Out: `arm-near-dead-point`. May not know: what wears out first.

use super::{Check, CheckScope, LeafContext};
use crate::engineering::LinkageFault;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::{Angle, Style};
use crate::mechanics::swept;
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// An arm near a dead point.
pub static CODE: Code = Code {
    id: "arm-near-dead-point",
    severity: Severity::Warning,
    says: "{found}; required: {asked}",
    why: "Near dead center a little slack, or a leaf pushed further by wind, locks or flips the arm; a rod in \
          line with the leaf loads the hinges instead of turning the leaf.",
    example: "leaf = { opens_to = \"110 deg\" }   # arm and rod come into line at 112",
    blocks: Papers::NONE,
};

/// 30 degrees of transmission are from memory; 5 degrees from a dead point are common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let angle = |it: Angle| it.print(1, Style::Plain);
    let Some(swept) = swept(&leaf.of.opening.entry, leaf.entry, operator) else { return };
    for fault in &swept.course.faults {
        let (found, asked, short) = match fault {
            LinkageFault::DeadPoint { at, nearest } => (
                format!("arm and rod in line (dead center) at {}", angle(*at)),
                format!("{} or more, with the leaf open to {}", angle(*nearest), angle(swept.course.open)),
                less(*nearest, *at),
            ),
            LinkageFault::Transmission { least, asked } => (
                format!("at {} the arm is at {} to the leaf", angle(least.at), angle(least.value)),
                format!("{} or more", angle(*asked)),
                less(*asked, least.value),
            ),
            _ => continue,
        };
        let finding = CHECK
            .finding(leaf.of.subject())
            .at(leaf.of.place_or_own(leaf.entry.opens_to.place().or(leaf.entry.arm.place())))
            .near(operator.place.clone(), format!("operator {}", operator.id))
            .found(leaf.words(found))
            .asked(asked)
            .margin(format!("{} short", angle(short)));
        findings.push(
            finding.advise("reduce the opening angle or choose another arm; consult the supplier before ordering"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    #[test]
    fn a_usual_swing_passes_and_a_wide_one_is_reported() {
        sound().passes(&CHECK);
        with_mechanics("").passes(&CHECK);
        let (finding, at) = with_mechanics("leaf = { opens_to = \"130 deg\" }").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"130 deg\"", "30 deg or more"));
        // A main arm of 10 1/2 in at 65 degrees comes into line a few degrees beyond 90 (worked apart from this code).
        let short = with_mechanics("")
            .catalog_but("main = \"13 in\", shut = \"90 deg\"", "main = \"10 1/2 in\", shut = \"65 deg\"");
        assert!(
            short.reported(&CHECK).iter().any(|it| it.found.contains("in line (dead center)")),
            "{:#?}",
            short.reported(&CHECK)
        );
    }
}
