//! A powered leaf that is held shut, with nothing that lets it go.
//!
//! In: a leaf. Out: `latch-without-release`. May not know: what others' systems do.

use super::{Check, CheckScope, LeafContext, OPENING_PAPERS};
use crate::findings::{Code, Findings, Severity};
use crate::job::{LatchKind, Release};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A powered leaf with a latch and nothing that releases it.
pub static CODE: Code = Code {
    id: "latch-without-release",
    severity: Severity::Error,
    says: "powered leaf with {found} and no latch release",
    why: "The drive would push against the latch bolt until the motor stalls; release, power transfer and power \
          supply would be missing from the price.",
    example: "leaf = { powered = true, latch = \"mortise lock\", release = \"no latch\" }",
    blocks: OPENING_PAPERS,
};

/// Common practice, no source. An electromagnet holds as a bolt does; a release that is not known is a question of its
/// own.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let release = &leaf.entry.release;
    let released = release.is_bad() || release.get().is_some_and(|it| *it != Release::NoLatch);
    let (true, Some(true), Some(latch)) = (leaf.powered() && !released, leaf.held_shut(), leaf.entry.latch.given())
    else {
        return;
    };
    let finding = CHECK.finding(leaf.of.subject()).found(leaf.words(latch.value)).asked("a release for each latch");
    let remedy = usual_release(latch.value);
    findings.push(match release.place() {
        Some(place) => {
            finding.at(place.clone()).near(latch.place.clone(), "latch").type_at(place.clone(), remedy.word())
        }
        None => finding.at(latch.place.clone()).advise(format!("write release = \"{}\"", remedy.word())),
    });
}

/// The release that usually goes with a latch (common practice, no source).
fn usual_release(latch: LatchKind) -> Release {
    match latch {
        LatchKind::RimExit | LatchKind::RodExit => Release::Retraction,
        LatchKind::Magnet => Release::Others,
        LatchKind::None | LatchKind::Cylindrical | LatchKind::Mortise | LatchKind::FlushBolts => Release::Strike,
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    #[test]
    fn a_released_latch_no_latch_and_an_unpowered_leaf_pass() {
        sound().passes(&CHECK);
        with(r#"leaf = { latch = "no latch", release = "no latch" }"#).passes(&CHECK);
        with(r#"leaf = { powered = false, release = "no latch" }"#).passes(&CHECK);
        with(r#"leaf = { release = "unknown" }"#).passes(&CHECK);
    }

    #[test]
    fn every_latch_needs_a_release() {
        for (latch, release) in [
            ("cylindrical latch", "electric strike"),
            ("mortise lock", "electric strike"),
            ("rim exit device", "latch retraction"),
            ("vertical rod exit device", "latch retraction"),
            ("flush bolts", "electric strike"),
            ("electromagnet", "held by others"),
        ] {
            let (finding, at) = with(&format!(r#"leaf = {{ latch = "{latch}", release = "no latch" }}"#)).one(&CHECK);
            assert_eq!((at.as_str(), finding.found.as_str(), remedy(&finding)), ("\"no latch\"", latch, release));
        }
    }

    #[test]
    fn a_release_that_no_one_gives_is_reported_at_the_latch() {
        let (finding, at) = sound().but("release = \"electric strike\"\n", "").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"mortise lock\"", "write release = \"electric strike\""));
    }
}
