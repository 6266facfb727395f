//! Facts of headers and drives.
//!
//! In: headers and drives of the arrangement. Out: scribes. May not know: rules.

use rust_decimal::Decimal;

use crate::engineering::{Edge, low_energy_time};
use crate::ledger::Reason;
use crate::measure::{Measure, Quantity, Unit, Weight};
use crate::takeoff::arrangement::{DriveWork, HeaderWork, OpeningWork};
use crate::takeoff::book::Scribe;

/// The word for an end of a header.
pub fn edge_word(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "left",
        Edge::Right => "right",
    }
}

/// Facts of a header.
pub(in crate::takeoff) fn header(of: Option<(&HeaderWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| format!("{}, header {}", opening.opening.mark, it.number));
    let mut scribe = Scribe::new("header", about);
    let width = of.and_then(|(it, opening)| Some((it.leaf_width?.quantity(), width_reason(it, opening)?)));
    scribe.number("header.leaf_width", Unit::Inch, "sum of the leaf widths it spans", width);
    scribe.counted("header.leaves", "leaves it spans", of.map(|(it, _)| it.leaves.len()));
    scribe.counted("header.drives", "drives in it", of.map(|(it, _)| it.drives.len()));
    scribe.vocabulary("header.side", "side of the opening it hangs on", of.and_then(|(it, _)| it.side));
    let supply = of.and_then(|(it, _)| it.supply_end).map(edge_word);
    scribe.word(
        "header.supply_end",
        &Edge::ALL.map(edge_word),
        "end at which power enters, seen from its room",
        supply,
    );
    let weight = of.and_then(|(it, opening)| header_weight(it, opening));
    scribe.number("header.weight", Unit::Pound, "weight with its drives", weight);
    scribe
}

/// The reason of a sum of widths: the first leaf's own entry.
fn width_reason(header: &HeaderWork, opening: &OpeningWork) -> Option<Reason> {
    let given = opening.leaves.get(*header.leaves.first()?)?.entry.width.given()?;
    let standing = super::super::book::standing_words(&given.standing);
    Some(Reason::Entry { place: given.place.clone(), standing })
}

/// Weight of a header with its drives: so much a foot over the leaf widths, and each drive.
pub(in crate::takeoff) fn header_weight(header: &HeaderWork, opening: &OpeningWork) -> Option<(Quantity, Reason)> {
    let operator = opening.operator?;
    let feet = header.leaf_width?.to_feet();
    let per_foot = operator.header_weight.number_of(Unit::Pound)?.checked_mul(feet)?;
    let drives = operator.drive_weight.number_of(Unit::Pound)?.checked_mul(Decimal::from(header.drives.len()))?;
    let weight = Weight::new(per_foot.checked_add(drives)?, Unit::Pound)?;
    let basis = "header weight a foot over the leaf widths, and each drive, by the catalog's operator";
    Some((weight.quantity(), Reason::Clause(basis.to_owned())))
}

/// Facts of a drive.
pub(in crate::takeoff) fn drive(of: Option<(&DriveWork, &OpeningWork)>) -> Scribe {
    let about = of.map_or(String::new(), |(it, opening)| format!("{}, drive {}", opening.opening.mark, it.number));
    let mut scribe = Scribe::new("drive", about);
    scribe.vocabulary("drive.arm", "its arm", of.and_then(|(it, _)| it.arm));
    let end = of.and_then(|(it, _)| it.end).map(edge_word);
    scribe.word("drive.end", &Edge::ALL.map(edge_word), "end of the header it stands at, seen from its room", end);
    let time = of.and_then(|(it, opening)| {
        let leaf = &opening.leaves[it.leaf];
        let time = low_energy_time(*leaf.entry.width.get()?, leaf.weight.as_ref()?.weight)?.required;
        let clause =
            "low-energy opening time to backcheck or 80 degrees, from memory: D √W / 133, up to the half second";
        Some((time.quantity(), Reason::Clause(clause.to_owned())))
    });
    scribe.number("drive.opening_time", Unit::Second, "least opening time of a low-energy leaf", time);
    scribe
}
