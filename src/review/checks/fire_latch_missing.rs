//! A labeled leaf without a bolt that latches it.
//!
//! In: a leaf. Out: `fire-latch-missing`. May not know: devices that latch a leaf in a fire only.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{LatchKind, LeafRole, Rating};

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some("NFPA 80 (2016) 6.4.4.3 (secondary)"), over: CheckScope::Leaf(look) };

/// A labeled leaf without an active latch bolt.
pub static CODE: Code = Code {
    id: "fire-latch-missing",
    severity: Severity::Warning,
    says: "a leaf labeled {asked} has {found}",
    why: "Pressure in a fire opens an unlatched leaf. Singles and active leaves need an active latch bolt that is not held retracted. A leaf that is latched in a fire by a detector-activated device is permitted; then accept this with that reason.",
    example: "rating = \"45 min\"\nleaf = { latch = \"no latch\" }",
    blocks: Papers::NONE,
};

fn look(leaf: &LeafContext, findings: &mut Findings) {
    let rating = leaf.of.opening.entry.rating.given().filter(|given| given.value != Rating::None);
    let inactive = leaf.entry.role.get() == Some(&LeafRole::Inactive);
    let (Some(rating), Some(latch)) = (rating.filter(|_| !inactive), leaf.entry.latch.given()) else { return };
    let found = match latch.value {
        LatchKind::None => "nothing",
        LatchKind::Magnet => "an electromagnet, which releases on alarm",
        _ => return,
    };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(latch.place.clone())
        .near(rating.place.clone(), "label")
        .found(leaf.words(found))
        .asked(rating.value.word());
    findings.push(finding.advise(
        "write the existing latch, price a latch with its release, or accept this with the device that latches it in a fire",
    ));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn latched(rating: &str, latch: &str, role: &str) -> Fixture {
        let release = if latch == "electromagnet" { "held by others" } else { "no latch" };
        with(&format!(
            "rating = \"{rating}\"\nleaf = {{ latch = \"{latch}\", release = \"{release}\", role = \"{role}\" }}"
        ))
    }

    /// NFPA 80 (2016) 6.4.4.3 (thebuildingcodeforum.com, secondary).
    #[test]
    fn an_active_labeled_leaf_has_a_bolt() {
        latched("90 min", "mortise lock", "active").passes(&CHECK);
        latched("none", "no latch", "active").passes(&CHECK);
        latched("90 min", "no latch", "inactive").passes(&CHECK);
        let (finding, at) = latched("90 min", "no latch", "active").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"no latch\"", "nothing"));
        latched("20 min", "electromagnet", "active").one(&CHECK);
    }
}
