//! A release that is there and stays, and that was not tested.
//!
//! In: an opening. Out: `release-unproven`. May not know: supplies, cables.

use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::ExistingEntry;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A release that is there and was not tested.
pub static CODE: Code = Code {
    id: "release-unproven",
    severity: Severity::FieldVerify,
    says: "{found} stays, and its release is not proven; asked: {asked}",
    why: "A release that does not work is found at the first opening under power: the drive pushes against a latched leaf. At the survey the test takes a minute.",
    example: "leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\" }] }",
    blocks: Papers::NONE,
};

/// The releases of powered leaves that stay.
pub(super) fn releases<'j>(opening: &OpeningContext<'j>) -> Vec<(String, &'j ExistingEntry)> {
    let of = |leaf: LeafContext<'_, 'j>| {
        let entry: &'j _ = leaf.entry;
        let kept = entry.existing.list().iter().filter(|it| it.is_release_that_stays());
        let named = |it: &'j ExistingEntry| Some((leaf.words(format!("the existing {}", it.what.get()?)), it));
        kept.filter_map(named).collect::<Vec<_>>()
    };
    opening.powered().flat_map(of).collect()
}

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    for (named, it) in releases(opening) {
        if it.proven.is_bad() || it.proven.or(false) {
            continue;
        }
        let place = opening.place_or_own(it.proven.place().or(it.what.place()));
        let finding = CHECK.finding(opening.subject()).at(place).found(named).asked("ten releases out of ten");
        findings.push(finding.advise("have it released ten times at the survey, and write proven = true"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound, with};

    fn strike(more: &str) -> Fixture {
        with(&format!("rating = \"90 min\"\nleaf = {{ existing = [{{ what = \"electric strike\", {more} }}] }}"))
    }

    #[test]
    fn a_release_that_stays_is_proven() {
        sound().passes(&CHECK);
        strike("becomes = \"remove\"").passes(&CHECK);
        strike("becomes = \"reuse\", proven = true").passes(&CHECK);
        let (finding, at) = strike("becomes = \"reuse\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"electric strike\"", "the existing electric strike"));
        let (_, at) = strike("becomes = \"reuse\", proven = false").one(&CHECK);
        assert_eq!(at, "false");
    }
}
