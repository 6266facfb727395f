//! A latch that is let go by an operator which does not wait for it.
//!
//! In: a leaf. Out: `release-before-motion`. May not know: what the delay is set to on site.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{LatchKind, Release};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// Motion before the latch is free.
pub static CODE: Code = Code {
    id: "release-before-motion",
    severity: Severity::Warning,
    says: "the {found} is released, and operator {asked} has no release delay",
    why: "The latch releases first, then the leaf moves. A drive that starts at once pushes against the latch \
          bolt, and a loaded bolt does not release.",
    example: "leaf = { latch = \"mortise lock\", release = \"electric strike\" }   # operator: no release_delay",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(operator) = leaf.of.operator.filter(|it| leaf.powered() && it.release_delay.is_none()) else { return };
    let latch = leaf.entry.latch.get().filter(|it| **it != LatchKind::None);
    let (Some(latch), Some(release)) = (latch, leaf.entry.release.given()) else { return };
    if !matches!(release.value, Release::Strike | Release::Retraction | Release::ElectrifiedLock) {
        return;
    }
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(release.place.clone())
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(leaf.words(latch.word()))
        .asked(operator.id.clone());
    findings
        .push(finding.advise("choose an operator with a release delay, and write its release_delay in the catalog"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn waits(leaf: &str, delay: &str) -> Fixture {
        with(leaf).catalog_but("release_delay = \"2 s\"\n", delay)
    }

    #[test]
    fn the_latch_is_let_go_before_the_leaf_moves() {
        waits("", "release_delay = \"0.5 s\"\n").passes(&CHECK);
        let (finding, at) = waits("", "").one(&CHECK);
        assert_eq!((finding.found.as_str(), at.as_str()), ("mortise lock", "\"electric strike\""));
        waits("leaf = { latch = \"no latch\", release = \"no latch\" }", "").passes(&CHECK);
        waits("leaf = { release = \"held by others\" }", "").passes(&CHECK);
    }
}
