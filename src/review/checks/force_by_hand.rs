//! A leaf that is hard to push open when its power is off.
//!
//! In: a leaf. Out: `force-by-hand`. May not know: what is measured on site.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::{Force, Unit};
use crate::mechanics::force_by_hand;
use crate::review::printing::less;
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// More force than a hand is to need.
pub static CODE: Code = Code {
    id: "force-by-hand",
    severity: Severity::Warning,
    says: "manual force to start the leaf with power off: {found}, 1 in from the latch edge; {asked}",
    why: "A powered leaf must also serve as egress without power.",
    example: "air = { pressure = \"0.35 in wg\" }",
    blocks: Papers::NONE,
};

/// The stricter of two limits, 30 lbf of the low-energy and full-energy standards (secondary); the clause allows 50 (read).
const STANDARD: i64 = 30;

fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let entry = &leaf.of.opening.entry;
    let Some(force) = force_by_hand(entry, leaf.entry, operator) else { return };
    let Some(most) = Force::new(Decimal::from(STANDARD), Unit::PoundForce).filter(|most| force > *most) else { return };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(entry.air.place().or(leaf.entry.width.place())))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.words(leaf.of.force(force)))
        .asked("30 lbf maximum by the power door standards, 50 lbf by the clause")
        .margin(format!("{} above the lower limit", leaf.of.force(less(force, most))));
    findings.push(
        finding.advise("choose a lighter spring or a wider leaf, or have the air pressure balanced; measure on site"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    #[test]
    fn a_light_spring_passes_and_pressure_is_reported() {
        sound().passes(&CHECK);
        with_mechanics("").passes(&CHECK);
        // 5.2 x 0.5 x 3 x 21 / (2 (3 - 1/12)) is 28.1 lbf of air at 1 in from the edge (IBC 909.6.2, Eq. 9-1), the spring
        // comes on top.
        let (finding, at) = with_mechanics("air = { pressure = \"0.5 in wg\" }").one(&CHECK);
        assert!(at.contains("0.5 in wg"), "{at}");
        let pounds: f64 = finding.found.trim_end_matches(" lbf").parse().unwrap();
        assert!(pounds > 28.1 && pounds < 50.0, "{pounds}");
    }
}
