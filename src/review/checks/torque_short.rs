//! A leaf that asks more torque of its drive than it gives.
//!
//! In: a leaf. Out: `torque-short`. May not know: what the drive is set to.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::mechanics::spindle_use;
use crate::review::printing::less;
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A drive that is too weak for its leaf.
pub static CODE: Code = Code {
    id: "torque-short",
    severity: Severity::Warning,
    says: "required starting torque {found}; operator torque {asked}",
    why: "A drive without reserve stops short in wind, and its opening time no longer matches its setting.",
    example: "air = { pressure = \"0.25 in wg\" }   # operator: torque = \"30 lbf ft\"",
    blocks: Papers::NONE,
};

/// Inertia, air, spring and friction through the torque ratio of the arm (formulas of the room engineering).
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let entry = &leaf.of.opening.entry;
    let Some(used) = spindle_use(entry, leaf.entry, operator).filter(|it| it.part > Decimal::ONE) else { return };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(entry.air.place().or(leaf.entry.weight.place()).or(leaf.entry.width.place())))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.words(leaf.of.torque(used.demand.spindle)))
        .asked(leaf.of.torque(used.rating))
        .margin(format!("{} short", leaf.of.torque(less(used.demand.spindle, used.rating))));
    findings.push(finding.advise("choose a stronger operator, or have the air pressure at this opening balanced"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with_mechanics};

    #[test]
    fn a_leaf_in_still_air_passes_and_one_under_pressure_is_reported() {
        sound().passes(&CHECK);
        with_mechanics("").passes(&CHECK);
        // 3 x 7 ft at 0.8 in of water: 5.2 x 0.8 x 21 x 1.5 is 131 lbf ft at the leaf (statics).
        let (finding, at) = with_mechanics("air = { pressure = \"0.8 in wg\" }").one(&CHECK);
        assert!(at.contains("0.8 in wg"), "{at}");
        assert_eq!(finding.asked, "45 lbf ft");
        let pounds: f64 = finding.found.trim_end_matches(" lbf ft").parse().unwrap();
        assert!(pounds > 131.0 / 2.0 && pounds < 131.0, "{pounds}");
        // 45 mph are 5.184 lbf/ft², near 1 in of water.
        assert_eq!(with_mechanics("air = { wind = \"45 mph\" }").reported(&CHECK).len(), 1);
    }
}
