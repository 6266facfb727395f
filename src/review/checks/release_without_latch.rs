//! A release bought for a leaf that nothing holds.
//!
//! In: a leaf. Out: `release-without-latch`. May not know: prices.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Release;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A release for no latch.
pub static CODE: Code = Code {
    id: "release-without-latch",
    severity: Severity::Warning,
    says: "{found} is given, and the leaf has no latch",
    why: "A release with power transfer, cable and power supply would have no function, or the latch was omitted.",
    example: "leaf = { latch = \"no latch\", release = \"electric strike\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(release) = leaf.entry.release.given() else { return };
    let ours = matches!(release.value, Release::Strike | Release::Retraction | Release::ElectrifiedLock);
    let (true, Some(false), Some(latch)) = (ours, leaf.held_shut(), leaf.entry.latch.place()) else { return };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(release.place.clone())
        .near(latch.clone(), "latch")
        .found(leaf.words(release.value))
        .asked("a latch for each release");
    findings.push(finding.type_at(release.place.clone(), Release::NoLatch.word()));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    #[test]
    fn a_latch_with_a_release_and_no_latch_without_one_pass() {
        sound().passes(&CHECK);
        with(r#"leaf = { latch = "no latch", release = "no latch" }"#).passes(&CHECK);
        with(r#"leaf = { latch = "no latch", release = "held by others" }"#).passes(&CHECK);
    }

    #[test]
    fn a_release_without_a_latch_is_reported() {
        for release in ["electric strike", "latch retraction", "electrified lock"] {
            let (finding, at) = with(&format!(r#"leaf = {{ latch = "no latch", release = "{release}" }}"#)).one(&CHECK);
            assert_eq!((at, remedy(&finding)), (format!("\"{release}\""), "no latch"));
        }
    }
}
