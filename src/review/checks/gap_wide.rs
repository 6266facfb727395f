//! A labeled leaf with more air around it than a fire door may have.
//!
//! In: a leaf. Out: `gap-wide`. May not know: how a gap is closed.

use super::{Check, CheckScope, LeafContext};
use crate::catalog::{ClauseOf, LeafMade};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Rating;
use crate::measure::Length;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A gap above the limit.
pub static CODE: Code = Code {
    id: "gap-wide",
    severity: Severity::Warning,
    says: "{found}; {asked} maximum around a labeled leaf",
    why: "Flame and smoke pass a wide gap. An operator does not change it; the owner is notified before \
          installation, so that the existing condition is on record.",
    example: "rating = \"90 min\"\nleaf = { gap = \"1/4 in\" }",
    blocks: Papers::NONE,
};

/// What a steel leaf may have more than the limit at head, jambs and meeting edge: 1/16 in (NFPA 80 4.8.4.1, secondary).
const MORE_OF_STEEL: Length = Length::sixty_fourths(4);
/// Under a leaf: 3/4 in (NFPA 80 6.3.1.7.1, secondary).
pub(super) const UNDERCUT: Length = Length::sixty_fourths(48);

fn look(leaf: &LeafContext, findings: &mut Findings) {
    let opening = leaf.of;
    if opening.opening.entry.rating.get().is_none_or(|it| *it == Rating::None) {
        return;
    }
    let Some(asked) = opening.first_asked(ClauseOf::FireGaps) else { return };
    let Some(around) = asked.clause.most else { return };
    let steel = leaf.entry.made.get() == Some(&LeafMade::HollowMetal);
    let around = if steel { around + MORE_OF_STEEL } else { around };
    let each = [("gap", &leaf.entry.gap, around), ("undercut", &leaf.entry.undercut, UNDERCUT)];
    for (what, slot, most) in each {
        let Some(given) = slot.given().filter(|given| given.value > most) else { continue };
        let finding = CHECK
            .finding(opening.subject())
            .at(given.place.clone())
            .found(leaf.words(format!("{what} of {}", opening.inches(given.value))))
            .asked(opening.inches(most))
            .margin(format!("{} too wide", opening.inches(given.value - most)))
            .clause(asked.cite());
        findings.push(
            finding.advise("notify the owner before installation; repair is by the door supplier or the label service"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    fn labeled(leaf: &str) -> Fixture {
        under("nfpa-80-2016", &format!("rating = \"90 min\"\nalarm_release = true\nleaf = {{ {leaf} }}"))
    }

    /// NFPA 80 2016 6.3.1.7.1 and 4.8.4.1 (secondary): 1/8 in, of steel 1/16 in more; 3/4 in at the floor.
    #[test]
    fn gaps_of_labeled_leaves() {
        labeled("gap = \"3/16 in\", undercut = \"3/4 in\"").passes(&CHECK);
        labeled("made = \"wood\", gap = \"1/8 in\"").passes(&CHECK);
        under("nfpa-80-2016", "leaf = { gap = \"1/2 in\" }").passes(&CHECK);
        let (finding, at) = labeled("gap = \"1/4 in\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"1/4 in\"", Some("1/16 in too wide")));
        labeled("made = \"wood\", gap = \"3/16 in\"").one(&CHECK);
        assert_eq!(labeled("undercut = \"7/8 in\"").one(&CHECK).1, "\"7/8 in\"");
    }
}
