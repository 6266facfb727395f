//! Two doors of a vestibule that stand too close.
//!
//! In: an opening with its partner. Out: `series-short`. May not know: other doors of the room between.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::engineering::series_needed;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Opening, Swing};
use crate::measure::Length;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Doors in series that stand too close.
pub static CODE: Code = Code {
    id: "series-short",
    severity: Severity::Warning,
    says: "clear distance between doors: {found}; required: {asked}",
    why: "A person between two doors in series must be clear of the leaf that swings in. The distance is an existing condition; the bid lists it and is issued.",
    example: "vestibule = { partner = \"101B\", distance = \"6 ft 4 in\" }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(vestibule) = opening.opening.entry.vestibule.get() else { return };
    let (Some(other), Some(distance)) = (opening.partner, vestibule.distance.given()) else { return };
    let reported_there = other.entry.vestibule.get().is_some_and(|it| it.distance.given().is_some());
    let Some(widths) = swinging_in(opening.opening, other) else { return };
    if reported_there && other.mark < opening.opening.mark {
        return;
    }
    let short = opening.asked(ClauseOf::Series).into_iter().filter_map(|asked| {
        let turning = asked.edition.clauses.iter().find(|it| it.of == ClauseOf::SeriesTurning).and_then(|it| it.least);
        let needed = series_needed(asked.clause.least?, &widths, turning);
        (distance.value < needed).then_some((needed, asked))
    });
    let Some((needed, asked)) = short.max_by_key(|it| it.0) else { return };
    let swings = if widths.len() == 1 { "one leaf swings" } else { "both leaves swing" };
    let finding = CHECK
        .finding(opening.subject())
        .at(distance.place.clone())
        .found(opening.inches(distance.value))
        .asked(format!("{}, as {} between doors", opening.inches(needed), swings))
        .margin(format!("{} short", opening.inches(needed - distance.value)))
        .clause(asked.cite());
    findings.push(
        finding
            .advise(format!("swing the leaves out of the space, or ask the owner; the other door is {}", other.mark)),
    );
}

/// Widths of the leaves that swing into the room between, the widest of each opening; nothing where it is not known which
/// room that is, or how a leaf swings.
fn swinging_in(one: &Opening, other: &Opening) -> Option<Vec<Length>> {
    let room = one.entry.between.list().iter().find(|room| other.entry.between.list().contains(room))?;
    let mut widths = Vec::new();
    for opening in [one, other] {
        let outside = opening.entry.outside.get()?;
        let inward = if outside.as_str() == room.as_str() { Swing::Toward } else { Swing::Away };
        let mut widest = None;
        for leaf in &opening.leaves {
            if *leaf.swing.get()? == inward {
                widest = widest.max(Some(*leaf.width.get()?));
            }
        }
        widths.extend(widest);
    }
    Some(widths)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, under};

    /// Two openings in series; both of 3 ft leaves.
    fn series(distance: &str, first: &str, second: &str) -> Fixture {
        let other = format!(
            "[[opening]]\nmark = \"102\"\nkind = \"plain\"\nbetween = [\"Lobby\", \"Hall\"]\noutside = \"Lobby\"\n\
             vestibule = {{ partner = \"101\", distance = \"{distance}\" }}\nleaf = {{ swing = \"{second}\" }}"
        );
        under(
            "ada-2010",
            &format!(
                "vestibule = {{ partner = \"102\", distance = \"{distance}\" }}\nleaf = {{ swing = \"{first}\" }}\n{other}"
            ),
        )
    }

    /// ADA 2010 404.2.6 (read): 48 in, and 36 in for each leaf that swings in: 48, 84, 120.
    #[test]
    fn each_leaf_that_swings_in_asks_for_its_width() {
        // Street is the outside of 101, so that `away` swings into the lobby; of 102 the lobby is the outside.
        series("120 in", "away", "toward").passes(&CHECK);
        series("84 in", "away", "away").passes(&CHECK);
        series("48 in", "toward", "away").passes(&CHECK);
        let (finding, at) = series("119 in", "away", "toward").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"119 in\"", Some("1 in short")));
        assert!(remedy(&finding).contains("102"));
        series("83 in", "toward", "toward").one(&CHECK);
    }
}
