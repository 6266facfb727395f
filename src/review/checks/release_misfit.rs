//! A release that does not let go the latch it stands beside.
//!
//! In: a leaf. Out: `release-misfit`. May not know: which product; a special one is a reason to accept this.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{LatchKind, Release};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A release that does not fit the latch.
pub static CODE: Code = Code {
    id: "release-misfit",
    severity: Severity::Warning,
    says: "a {found} does not release {asked}",
    why: "An electric strike releases a bolt in the frame, latch retraction the bolts of an exit device, an electrified lock its own. A mismatch is found at installation, or the takeoff has no item for it and the price lacks it.",
    example: "leaf = { latch = \"vertical rod exit device\", release = \"electric strike\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let (Some(latch), Some(release)) = (leaf.entry.latch.given(), leaf.entry.release.given()) else { return };
    let fits = releases_for(latch.value);
    let ours = matches!(release.value, Release::Strike | Release::Retraction | Release::ElectrifiedLock);
    if !leaf.powered() || !ours || latch.value == LatchKind::None || fits.contains(&release.value) {
        return;
    }
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(release.place.clone())
        .near(latch.place.clone(), "latch")
        .found(release.value.word())
        .asked(leaf.words(latch.value));
    findings.push(match fits.first() {
        Some(fit) => finding.type_at(release.place.clone(), fit.word()),
        None => finding.type_at(release.place.clone(), Release::Others.word()),
    });
}

/// The releases of ours that fit a latch (common practice, no source).
pub fn releases_for(latch: LatchKind) -> &'static [Release] {
    match latch {
        LatchKind::Cylindrical | LatchKind::Mortise => &[Release::Strike, Release::ElectrifiedLock],
        LatchKind::RimExit => &[Release::Retraction, Release::Strike],
        LatchKind::RodExit => &[Release::Retraction],
        LatchKind::None | LatchKind::FlushBolts | LatchKind::Magnet => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, with};

    fn pair_of(latch: &str, release: &str) -> Fixture {
        with(&format!("leaf = {{ latch = \"{latch}\", release = \"{release}\" }}"))
    }

    #[test]
    fn releases_that_fit_pass() {
        for (latch, release) in [
            ("mortise lock", "electric strike"),
            ("cylindrical latch", "electrified lock"),
            ("rim exit device", "electric strike"),
            ("rim exit device", "latch retraction"),
            ("vertical rod exit device", "latch retraction"),
            ("electromagnet", "held by others"),
            ("flush bolts", "unknown"),
            ("no latch", "electric strike"),
        ] {
            pair_of(latch, release).passes(&CHECK);
        }
    }

    #[test]
    fn releases_that_do_not_fit_are_reported_with_one_that_does() {
        for (latch, release, right) in [
            ("vertical rod exit device", "electric strike", "latch retraction"),
            ("mortise lock", "latch retraction", "electric strike"),
            ("rim exit device", "electrified lock", "latch retraction"),
            ("flush bolts", "electric strike", "held by others"),
            ("electromagnet", "electric strike", "held by others"),
        ] {
            let (finding, at) = pair_of(latch, release).one(&CHECK);
            assert_eq!((at, remedy(&finding)), (format!("\"{release}\""), right), "{latch}");
        }
    }
}
