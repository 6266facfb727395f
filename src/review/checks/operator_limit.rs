//! An opening beyond the dimensions, weights and listings of its operator.
//!
//! In: an opening. Out: `operator-limit`. May not know: how a weight is estimated; where nobody gave one, the estimate is
//! compared and says so.

use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::catalog::Operator;
use crate::engineering::Room;
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity};
use crate::input::Standing;
use crate::job::{Exposure, Rating};
use crate::measure::{Angle, Length, Measure, Quantity, Style, Weight};
use crate::mechanics::leaf_weight;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An opening beyond the limits of its operator.
pub static CODE: Code = Code {
    id: "operator-limit",
    severity: Severity::Warning,
    says: "{found}; operator limit: {asked}",
    why: "Beyond its limits an operator wears out, does not close, or does not fit. Its manufacturer may \
          approve the use; then accept this with that approval.",
    example: "operator = \"brace-1\"   # leaves to 48 in\nleaf = { width = \"50 in\" }",
    blocks: Papers::NONE,
};

/// A value beyond a limit.
struct Beyond {
    place: Place,
    found: String,
    asked: String,
    margin: Option<String>,
}

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(operator) = opening.operator.filter(|_| opening.is_powered()) else { return };
    let leaves = opening.powered().flat_map(|leaf| of_leaf(&leaf, operator)).collect::<Vec<_>>();
    for beyond in leaves.into_iter().chain(of_frame(opening, operator)).chain(of_place(opening, operator)) {
        findings.push(finding(opening, operator, beyond));
    }
}

/// Width, weight and angle of a leaf.
fn of_leaf(leaf: &LeafContext, operator: &Operator) -> Vec<Beyond> {
    let mut beyond = Vec::new();
    if let Some(width) = leaf.entry.width.given() {
        let what = leaf.words(format!("a leaf {} wide", leaf.of.length(width.value)));
        beyond.extend(over(leaf.of, width.value, operator.widest, &width.place, &what));
        beyond.extend(under(leaf.of, width.value, operator.narrowest, &width.place, &what));
    }
    beyond.extend(weight(leaf, operator));
    if let (Some(angle), Some(most)) = (leaf.entry.opens_to.given(), operator.opens_to)
        && angle.value > most
    {
        let print = |angle: Angle| angle.print(1, Style::Plain);
        beyond.push(Beyond {
            place: angle.place.clone(),
            found: leaf.words(format!("a leaf that opens to {}", print(angle.value))),
            asked: format!("{} or less", print(most)),
            margin: Some(format!("{} too far", print(Angle::degrees(angle.value.to_degrees() - most.to_degrees())))),
        });
    }
    beyond
}

/// The weight that was given or surveyed, else the estimate from what the leaf is made of.
fn weight(leaf: &LeafContext, operator: &Operator) -> Option<Beyond> {
    let known = leaf_weight(leaf.entry).filter(|known| known.weight > operator.heaviest)?;
    let entry = leaf.entry;
    let place = entry.weight.place().or(entry.made.place()).cloned()?;
    let how = match (&known.estimated, entry.weight.given().map(|given| &given.standing)) {
        (Some(basis), _) => format!(", estimated: {basis}"),
        (None, Some(Standing::Surveyed { .. })) => ", surveyed".to_owned(),
        _ => String::new(),
    };
    Some(Beyond {
        place,
        found: leaf.words(format!("a leaf of {}{how}", leaf.of.weight(known.weight))),
        asked: format!("{} or less", leaf.of.weight(operator.heaviest)),
        margin: heavier(leaf.of, known.weight, operator.heaviest),
    })
}

/// Room for the header, and how deep the leaf stands.
fn of_frame(opening: &OpeningContext, operator: &Operator) -> Vec<Beyond> {
    let Some(frame) = opening.opening.entry.frame.get() else { return Vec::new() };
    let words = |what: &str, length: Length| format!("{what} of {}", opening.length(length));
    let room = frame.head_room.given().and_then(|given| {
        under(opening, given.value, operator.head_room, &given.place, &words("headroom", given.value))
    });
    let clearance = frame.face_clearance.given().and_then(|given| {
        under(opening, given.value, operator.face_clearance, &given.place, &words("face clearance", given.value))
    });
    let reveal = frame.reveal.given().and_then(|given| {
        over(opening, given.value, operator.deepest_reveal, &given.place, &words("a reveal", given.value))
    });
    [room, clearance, reveal].into_iter().flatten().collect()
}

/// Labeled openings, and headers outdoors.
fn of_place(opening: &OpeningContext, operator: &Operator) -> Vec<Beyond> {
    let entry = &opening.opening.entry;
    let mut beyond = Vec::new();
    if let Some(rating) = entry.rating.given().filter(|given| given.value != Rating::None && !operator.fire_listed) {
        beyond.push(Beyond {
            place: rating.place.clone(),
            found: format!("a labeled opening ({})", rating.value),
            asked: "unlabeled openings only, not listed for fire doors".to_owned(),
            margin: None,
        });
    }
    // The outside, the key side, of an exterior opening is the outdoors (common practice, no source).
    let outdoors = opening.powered().any(|leaf| leaf.header().is_some_and(|header| header.room == Room::First));
    if let Some(exposure) = entry.exposure.given().filter(|given| given.value == Exposure::Exterior)
        && outdoors
        && !operator.outdoors
    {
        beyond.push(Beyond {
            place: exposure.place.clone(),
            found: "header outdoors".to_owned(),
            asked: "indoor use only".to_owned(),
            margin: None,
        });
    }
    beyond
}

fn over(opening: &OpeningContext, value: Length, most: Length, place: &Place, found: &str) -> Option<Beyond> {
    (value > most).then(|| Beyond {
        place: place.clone(),
        found: found.to_owned(),
        asked: format!("{} or less", opening.length(most)),
        margin: Some(format!("{} too much", opening.length(value - most))),
    })
}

fn under(opening: &OpeningContext, value: Length, least: Length, place: &Place, found: &str) -> Option<Beyond> {
    (value < least).then(|| Beyond {
        place: place.clone(),
        found: found.to_owned(),
        asked: format!("{} or more", opening.length(least)),
        margin: Some(format!("{} short", opening.length(least - value))),
    })
}

fn heavier(opening: &OpeningContext, value: Weight, most: Weight) -> Option<String> {
    let grams = value.quantity().value().checked_sub(most.quantity().value())?;
    let more = Weight::of(Quantity::new(grams, Weight::DIMENSION))?;
    Some(format!("{} too heavy", opening.weight(more)))
}

fn finding(opening: &OpeningContext, operator: &Operator, beyond: Beyond) -> Finding {
    let mut finding = CHECK
        .finding(opening.subject())
        .at(beyond.place)
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(beyond.found)
        .asked(beyond.asked);
    finding.margin = beyond.margin;
    finding
        .advise("choose another operator or change the opening; if the supplier approves, accept this with that reason")
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound, with};

    /// Text at the place, what was found, and the margin, of the one thing told.
    fn reported(bench: &Fixture) -> (String, String, String) {
        let (finding, at) = bench.one(&CHECK);
        (at, finding.found, finding.margin.unwrap_or_default())
    }

    fn row(at: &str, found: &str, margin: &str) -> (String, String, String) {
        (format!("\"{at}\""), found.to_owned(), margin.to_owned())
    }

    #[test]
    fn an_opening_at_every_limit_passes() {
        sound().passes(&CHECK);
        for width in ["48 in", "30 in"] {
            let leaf = format!("leaf = {{ width = \"{width}\", weight = \"250 lb\" }}");
            let frame = "frame = { head_room = \"6 1/4 in\", face_clearance = \"5 1/2 in\", reveal = \"8 in\" }";
            with(&format!("{leaf}\n{frame}")).passes(&CHECK);
        }
        with("leaf = { width = \"50 in\", powered = false }").passes(&CHECK);
    }

    #[test]
    fn leaves_beyond_width_and_weight_are_reported() {
        let leaf = |value: &str| reported(&with(&format!("leaf = {{ {value} }}")));
        assert_eq!(leaf("width = \"50 in\""), row("50 in", "a leaf 4 ft 2 in wide", "2 in too much"));
        assert_eq!(leaf("width = \"29 1/2 in\""), row("29 1/2 in", "a leaf 2 ft 5 1/2 in wide", "1/2 in short"));
        assert_eq!(leaf("weight = \"251.5 lb\""), row("251.5 lb", "a leaf of 251.5 lb", "1.5 lb too heavy"));
        let angle = sound().catalog_but("entry = \"1/2\"", "entry = \"1/2\"\nopens_to = \"80 deg\"");
        assert_eq!(reported(&angle), row("90 deg", "a leaf that opens to 90 deg", "10 deg too far"));
    }

    /// A weight that nobody gave is estimated from leaf construction, and the finding says from what.
    #[test]
    fn an_estimated_weight_beyond_the_limit_is_reported_with_its_basis() {
        let estimated = sound().but("weight = \"150 lb\"\n", "");
        estimated.passes(&CHECK);
        let (finding, at) = estimated.catalog_but("heaviest = \"250 lb\"", "heaviest = \"60 lb\"").one(&CHECK);
        assert_eq!(at, "\"hollow metal\"");
        assert!(finding.found.contains("lb, estimated: "), "{}", finding.found);
        assert_eq!(finding.asked, "60 lb or less");
        assert!(finding.margin.is_some_and(|it| it.ends_with("too heavy")));
    }

    #[test]
    fn frames_without_room_are_reported() {
        let frame = |value: &str| reported(&with(&format!("frame = {{ {value} }}")));
        assert_eq!(frame("head_room = \"6 in\""), row("6 in", "headroom of 6 in", "1/4 in short"));
        assert_eq!(frame("face_clearance = \"5 in\""), row("5 in", "face clearance of 5 in", "1/2 in short"));
        assert_eq!(frame("reveal = \"8 1/16 in\""), row("8 1/16 in", "a reveal of 8 1/16 in", "1/16 in too much"));
    }

    #[test]
    fn labels_and_weather_are_reported_where_the_operator_is_not_made_for_them() {
        let labeled = with("rating = \"45 min\"");
        labeled.passes(&CHECK);
        let unlisted = labeled.catalog_but("fire_listed = true", "fire_listed = false");
        assert_eq!(reported(&unlisted), row("45 min", "a labeled opening (45 min)", ""));
        // The leaf swings away from outside, so its push arm puts the header outdoors and a pull arm indoors.
        assert_eq!(reported(&with("exposure = \"exterior\"")), row("exterior", "header outdoors", ""));
        with("exposure = \"exterior\"\nleaf = { arm = \"pull arm\" }").passes(&CHECK);
        with("exposure = \"exterior\"").catalog_but("entry =", "outdoors = true\nentry =").passes(&CHECK);
    }

    #[test]
    fn millimetre_jobs_are_reported_in_millimetres() {
        let bench = with("leaf = { width = \"1250 mm\" }").but("[site.main]", "units = \"mm\"\n[site.main]");
        assert_eq!(reported(&bench), row("1250 mm", "a leaf 1250 mm wide", "30.8 mm too much"));
    }
}
