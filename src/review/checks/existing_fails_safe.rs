//! A strike of a labeled opening that is there, stays, and releases when power fails.
//!
//! In: an opening. Out: `existing-fails-safe`. May not know: listings.

use super::release_unproven::releases;
use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{ExistingKind, FailState, Rating};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A strike of a labeled opening that releases without power.
pub static CODE: Code = Code {
    id: "existing-fails-safe",
    severity: Severity::Warning,
    says: "{found} stays and releases when power fails; the opening is labeled {asked}",
    why: "A fire door must stay latched with its power gone. At a labeled opening a strike is fail secure and listed for the use (from memory).",
    example: "rating = \"90 min\"\nleaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\", fails = \"fail safe\" }] }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let rating = opening.opening.entry.rating.given().filter(|given| given.value != Rating::None);
    let Some(rating) = rating else { return };
    for (named, it) in releases(opening) {
        let strike = it.what.get() == Some(&ExistingKind::Strike);
        let Some(fails) = it.fails.given().filter(|given| strike && given.value == FailState::Safe) else { continue };
        let finding = CHECK
            .finding(opening.subject())
            .at(fails.place.clone())
            .near(rating.place.clone(), "label")
            .found(named)
            .asked(rating.value.word());
        findings
            .push(finding.advise("replace it by one that is fail secure and listed, or correct what its label says"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn strike(more: &str) -> Fixture {
        with(&format!("rating = \"90 min\"\nleaf = {{ existing = [{{ what = \"electric strike\", {more} }}] }}"))
    }

    /// From memory: electric strikes of labeled openings are fail secure.
    #[test]
    fn a_labeled_opening_stays_latched_without_power() {
        strike("becomes = \"reuse\", fails = \"fail secure\"").passes(&CHECK);
        strike("becomes = \"remove\", fails = \"fail safe\"").passes(&CHECK);
        strike("becomes = \"reuse\", fails = \"fail safe\"").but("90 min", "none").passes(&CHECK);
        let (finding, at) = strike("becomes = \"reuse\", fails = \"fail safe\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"fail safe\"", "90 min"));
    }
}
