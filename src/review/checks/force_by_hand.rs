//! A leaf that is hard to push open when its power is off.
//!
//! In: a leaf. Out: `force-by-hand`, of the force that is calculated with the operator, or of the one measured today where that is
//! more. May not know: why a leaf binds.

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
    let calculated = force_by_hand(entry, leaf.entry, operator);
    let measured = leaf.entry.opening_force.given().filter(|today| calculated.is_none_or(|force| today.value > force));
    let Some(force) = measured.map(|today| today.value).or(calculated) else { return };
    let Some(most) = Force::new(Decimal::from(STANDARD), Unit::PoundForce).filter(|most| force > *most) else { return };
    let found = match measured {
        Some(_) => format!("{}, measured today", leaf.of.force(force)),
        None => leaf.of.force(force),
    };
    let place = measured.map(|today| &today.place).or(entry.air.place()).or(leaf.entry.width.place());
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(place))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.words(found))
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
        with_mechanics("leaf = { opening_force = \"12 lbf\" }").passes(&CHECK);
        let (finding, at) = with_mechanics("leaf = { opening_force = \"34 lbf\" }").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"34 lbf\"", "34 lbf, measured today"));
        assert_eq!(finding.margin.as_deref(), Some("4 lbf above the lower limit"));
        // 5.2 x 0.5 x 3 x 21 / (2 (3 - 1/12)) is 28.1 lbf of air at 1 in from the edge (IBC 909.6.2, Eq. 9-1), the spring
        // comes on top.
        let (finding, at) = with_mechanics("air = { pressure = \"0.5 in wg\" }").one(&CHECK);
        assert!(at.contains("0.5 in wg"), "{at}");
        let pounds: f64 = finding.found.trim_end_matches(" lbf").parse().unwrap();
        assert!(pounds > 28.1 && pounds < 50.0, "{pounds}");
    }
}
