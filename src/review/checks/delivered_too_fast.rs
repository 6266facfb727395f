//! A low-energy leaf whose operator comes set faster than the leaf may open.
//!
//! In: a leaf. Out: `delivered-too-fast`. May not know: what it is set to on site.

use super::{Check, CheckScope, FIRST_SWING, LeafContext};
use crate::engineering::{Ramp, Slab};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::Angle;
use crate::mechanics::{leaf_times, leaf_weight};
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some(FIRST_SWING), over: CheckScope::Leaf(look) };

/// An operator that is slowed down before its leaf is let go.
pub static CODE: Code = Code {
    id: "delivered-too-fast",
    severity: Severity::FieldVerify,
    says: "as delivered it opens in {found}; set {asked} before first cycle",
    why: "The first cycle runs at the factory setting. Energy at peak speed is listed beside the average; the \
          limit is a time.",
    example: "energy = \"low energy\"\nleaf = { weight = \"200 lb\" }   # operator: opens_in = \"3 s\"",
    blocks: Papers::NONE,
};

/// The times are from memory; the peak is taken with a fifth of the time to gather speed (common practice, no source).
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|_| leaf.powered()) else { return };
    let Some(delivered) = operator.mechanics.as_ref().and_then(|it| it.opens_in) else { return };
    let Some(times) = leaf_times(&leaf.of.opening.entry, leaf.entry, operator) else { return };
    if delivered >= times.opening.least {
        return;
    }
    let slab = leaf.entry.width.get().zip(leaf_weight(leaf.entry)).map(|(width, it)| Slab::new(*width, it.weight));
    let angle = Angle::degrees(80);
    let energies = slab.and_then(|slab| {
        let average = slab.average_energy(angle, delivered)?;
        let peak = slab.peak_energy(angle, delivered, Ramp::FIFTH)?;
        Some(format!(", energy {} on average, {} at the peak", leaf.of.energy(average), leaf.of.energy(peak)))
    });
    let found = format!("{}{}", leaf.of.time(delivered), energies.unwrap_or_default());
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(leaf.of.place_or_own(leaf.entry.weight.place().or(leaf.entry.width.place())))
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.words(found))
        .asked(format!("{} or slower to back-check or 80°", leaf.of.time(times.opening.least)))
        .margin(format!("{} too fast", leaf.of.time(less(times.opening.least, delivered))));
    findings.push(finding.advise("reduce the opening speed first, then cycle the leaf and time it"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::with_mechanics;

    /// 36 in, 150 lb: 3.5 s (table I, from memory); in 3 s 1.515 lbf·ft on average (arithmetic), 2.367 at the peak.
    #[test]
    fn a_fast_delivery_is_reported_with_its_energies() {
        with_mechanics("").passes(&CHECK);
        let fast = with_mechanics("").catalog_but("opens_in = \"4 s\"", "opens_in = \"3 s\"");
        let (finding, _) = fast.one(&CHECK);
        assert_eq!(finding.found, "3 s, energy 1.52 lbf ft on average, 2.37 lbf ft at the peak");
        assert!(finding.asked.starts_with("3.5 s or slower to back-check or 80°"), "{}", finding.asked);
    }
}
