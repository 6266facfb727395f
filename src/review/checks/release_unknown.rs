//! A powered leaf of which nobody says what lets it go.
//!
//! In: a leaf. Out: `release-unknown`. May not know: what the answer costs.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Release;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A powered leaf whose release is not known.
pub static CODE: Code = Code {
    id: "release-unknown",
    severity: Severity::Warning,
    says: "latch release not identified: {found}",
    why: "An electric strike, latch retraction and a lock by others differ in price, wiring and trade; until \
          the question is answered the price includes none of them.",
    example: "leaf = { powered = true, latch = \"rim exit device\", release = \"unknown\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let (latch, release) = (&leaf.entry.latch, &leaf.entry.release);
    let unknown = release.get() == Some(&Release::Unknown) && leaf.held_shut() != Some(false);
    let unsaid = release.is_absent() && latch.is_absent();
    if !leaf.powered() || !(unknown || unsaid) {
        return;
    }
    let found = match latch.get() {
        Some(latch) => format!("{latch}, release unknown"),
        None if unsaid => "neither latch nor release is given".to_owned(),
        None => "release unknown".to_owned(),
    };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(release.place().cloned().unwrap_or_else(|| leaf.place()))
        .found(leaf.words(found))
        .asked("the latch, its release and the trade that provides it");
    findings.push(finding.advise("ask, and write latch = \"…\" and release = \"…\" of the leaf"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn a_known_release_and_a_leaf_without_latch_pass() {
        sound().passes(&CHECK);
        with(r#"leaf = { latch = "no latch", release = "unknown" }"#).passes(&CHECK);
        with(r#"leaf = { powered = false, release = "unknown" }"#).passes(&CHECK);
    }

    #[test]
    fn unknown_is_a_question() {
        let (finding, at) = with(r#"leaf = { release = "unknown" }"#).one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"unknown\"", "mortise lock, release unknown"));
    }

    #[test]
    fn nothing_said_is_a_question() {
        let silent = sound().but("latch = \"mortise lock\"\n", "").but("release = \"electric strike\"\n", "");
        let (finding, at) = silent.one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("true", "neither latch nor release is given"));
    }
}
