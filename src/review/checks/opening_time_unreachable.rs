//! A low-energy leaf whose operator cannot be set as slow as the leaf asks.
//!
//! In: a leaf. Out: `opening-time-unreachable`. May not know: what the operator is set to.

use super::{Check, CheckScope, LeafContext, TIMES};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::mechanics::leaf_times;
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: Some(TIMES), over: CheckScope::Leaf(look) };

/// An operator that stays too fast for its leaf.
pub static CODE: Code = Code {
    id: "opening-time-unreachable",
    severity: Severity::Warning,
    says: "low-energy opening time of at least {asked} required; slowest setting of the operator {found}",
    why: "A wide or heavy leaf has too much kinetic energy when it opens fast; the minimum opening time depends on its width and weight.",
    example: "energy = \"low energy\"\nleaf = { width = \"48 in\", weight = \"240 lb\" }   # operator: slowest = \"4 s\"",
    blocks: Papers::NONE,
};

/// The times are from memory.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let Some(slowest) = operator.mechanics.as_ref().and_then(|it| it.slowest) else { return };
    let Some(times) = leaf_times(&leaf.of.opening.entry, leaf.entry, operator) else { return };
    if slowest >= times.opening.least {
        return;
    }
    let place = leaf.entry.weight.place().or(leaf.entry.width.place());
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(place))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.of.time(slowest))
        .asked(format!("{} {}", leaf.of.time(times.opening.least), times.opening.to.words()))
        .margin(format!("{} too fast", leaf.of.time(less(times.opening.least, slowest))));
    findings.push(
        finding.advise("choose an operator with a slower setting, or weigh the leaf where its weight is estimated"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    /// 36 in and 150 lb ask for 3.5 s, 48 in and 240 lb for 6 s (table I and its formula, from memory).
    #[test]
    fn an_operator_slow_enough_passes_and_a_fast_one_is_reported() {
        sound().passes(&CHECK);
        let slow = |time: &str| with_mechanics("").catalog_but("slowest = \"9 s\"", &format!("slowest = \"{time}\""));
        slow("3.5 s").passes(&CHECK);
        slow("3 s").and("energy = \"low energy\"").one(&CHECK);
        let heavy = slow("5.5 s").and("leaf = { width = \"48 in\", weight = \"240 lb\" }");
        let (finding, at) = heavy.one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"240 lb\"", "5.5 s"));
        assert!(finding.asked.starts_with("6 s from closed to back-check"), "{}", finding.asked);
        heavy.and("").but("powered = true", "powered = false").passes(&CHECK);
    }
}
