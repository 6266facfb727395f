//! A low-energy leaf that has to stay open longer than its operator holds it.
//!
//! In: a leaf. Out: `hold-open-short`. May not know: what the operator is set to.

use super::{Check, CheckScope, HOLD_OPEN, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::mechanics::hold_open_asked;
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some(HOLD_OPEN), over: CheckScope::Leaf(look) };

/// An operator that lets go too early.
pub static CODE: Code = Code {
    id: "hold-open-short",
    severity: Severity::Warning,
    says: "the farthest device requires a hold-open time of {asked}; operator maximum {found}",
    why: "A person using a distant device needs time to reach the leaf; it must not close on them.",
    example: "device = [{ kind = \"push plate\", distance = \"40 ft\", side = \"outside\", mount = \"post\" }]",
    blocks: Papers::NONE,
};

/// 5 s, and 1 s for each started foot beyond 5 ft, is from memory.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let Some(holds_to) = operator.mechanics.as_ref().and_then(|it| it.holds_to) else { return };
    let entry = &leaf.of.opening.entry;
    let Some(asked) = hold_open_asked(entry, leaf.number).filter(|asked| *asked > holds_to) else { return };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(entry.device.place()))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.of.time(holds_to))
        .asked(leaf.of.time(asked))
        .margin(format!("{} short", leaf.of.time(less(asked, holds_to))));
    findings
        .push(finding.advise("move the device nearer to the leaf, or choose an operator with a longer hold-open time"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::with_mechanics;

    fn plates(first: &str, second: &str) -> String {
        let plate = |at: &str| {
            format!("{{ kind = \"push plate\", side = \"outside\", mount = \"wall\", distance = \"{at}\" }}")
        };
        format!("device = [{}, {}]", plate(first), plate(second))
    }

    /// 12 ft ask for 5 s and 7 s more (appendix, from memory); the operator holds 30 s; 31 ft ask for 31 s.
    #[test]
    fn the_farthest_device_governs() {
        with_mechanics(&plates("4 ft", "12 ft")).passes(&CHECK);
        let (finding, _) = with_mechanics(&plates("31 ft", "2 ft")).one(&CHECK);
        assert_eq!((finding.found.as_str(), finding.asked.as_str()), ("30 s", "31 s"));
        with_mechanics(&plates("31 ft", "2 ft"))
            .but("energy = \"low energy\"", "energy = \"full energy\"")
            .passes(&CHECK);
    }
}
