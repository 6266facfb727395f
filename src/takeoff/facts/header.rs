//! Facts of headers and drives.
//!
//! In: headers and drives of the arrangement. Out: writers of their facts. May not know: rules.

use rust_decimal::Decimal;

use crate::engineering::Edge;
use crate::ledger::Reason;
use crate::measure::{Length, Measure, Quantity, Unit, Weight};
use crate::mechanics::{hold_open_asked, leaf_times};
use crate::takeoff::arrangement::{DriveWork, HeaderWork, OpeningWork};
use crate::takeoff::fact_set::FactSetWriter;

/// The word for an end of a header.
pub fn edge_word(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "left",
        Edge::Right => "right",
    }
}

/// Facts of a header.
pub(in crate::takeoff) fn header(of: Option<(&HeaderWork, &OpeningWork)>) -> FactSetWriter {
    let about = of.map(|(it, opening)| format!("{}, header {}", opening.opening.mark, it.number));
    let mut writer = FactSetWriter::new("header", about);
    let width = of.and_then(|(it, opening)| Some((it.leaf_width?.quantity(), width_reason(it, opening)?)));
    writer.number("header.leaf_width", Unit::Inch, "sum of the leaf widths it spans", width);
    let height = of.and_then(|(it, opening)| tallest(it, opening));
    writer.number("header.leaf_height", Unit::Inch, "height of the tallest leaf it spans", height);
    writer.counted("header.leaves", "leaves it spans", of.map(|(it, _)| it.leaves.len()));
    writer.counted("header.free_ends", "ends that no other header adjoins", of.map(|(it, _)| it.free_ends));
    writer.counted("header.drives", "drives in it", of.map(|(it, _)| it.drives.len()));
    writer.vocabulary("header.side", "side of the opening it is mounted on", of.and_then(|(it, _)| it.side));
    let supply = of.and_then(|(it, _)| it.supply_end).map(edge_word);
    writer.word(
        "header.supply_end",
        &Edge::ALL.map(edge_word),
        "end at which power enters, seen from its room",
        supply,
    );
    let plate = of.map(|(it, _)| it.hold.as_ref().and_then(|hold| hold.plate()).map(|plate| plate.length));
    writer.flag("header.plate_needed", "whether it needs a reinforcement plate", plate.map(|it| it.is_some()));
    let long = plate.map(|it| {
        let basis = "the header and one spacing of studs, where its screws do not hold without a plate";
        (it.unwrap_or(Length::ZERO).quantity(), Reason::Clause(basis.to_owned().into()))
    });
    writer.number("header.plate_length", Unit::Inch, "length of that plate; none where it needs none", long);
    let weight = of.and_then(|(it, opening)| header_weight(it, opening));
    writer.number("header.weight", Unit::Pound, "weight with its drives", weight);
    writer
}

/// The reason of a sum of widths: the first leaf's own entry.
fn width_reason(header: &HeaderWork, opening: &OpeningWork) -> Option<Reason> {
    let given = opening.leaves.get(*header.leaves.first()?)?.entry.width.given()?;
    let standing = super::super::fact_set::standing_words(&given.standing);
    Some(Reason::Entry { place: given.place.clone(), standing })
}

/// Height of the tallest leaf under a header; not known where that of any is not.
fn tallest(header: &HeaderWork, opening: &OpeningWork) -> Option<(Quantity, Reason)> {
    let heights = header.leaves.iter().map(|at| opening.leaves.get(*at)?.entry.height.given());
    let heights: Option<Vec<_>> = heights.collect();
    let given = heights?.into_iter().max_by_key(|given| given.value)?;
    let standing = super::super::fact_set::standing_words(&given.standing);
    Some((given.value.quantity(), Reason::Entry { place: given.place.clone(), standing }))
}

/// Weight of a header with its drives: so much a foot over the leaf widths, and each drive.
pub(in crate::takeoff) fn header_weight(header: &HeaderWork, opening: &OpeningWork) -> Option<(Quantity, Reason)> {
    let operator = opening.operator?;
    let feet = header.leaf_width?.to_feet();
    let per_foot = operator.header_weight.number_of(Unit::Pound)?.checked_mul(feet)?;
    let drives = operator.drive_weight.number_of(Unit::Pound)?.checked_mul(Decimal::from(header.drives.len()))?;
    let weight = Weight::new(per_foot.checked_add(drives)?, Unit::Pound)?;
    let basis = "header weight a foot over the leaf widths, and each drive, by the catalog's operator";
    Some((weight.quantity(), Reason::Clause(basis.to_owned().into())))
}

/// Facts of a drive.
pub(in crate::takeoff) fn drive(of: Option<(&DriveWork, &OpeningWork)>) -> FactSetWriter {
    let about = of.map(|(it, opening)| format!("{}, drive {}", opening.opening.mark, it.number));
    let mut writer = FactSetWriter::new("drive", about);
    writer.vocabulary("drive.arm", "its arm", of.and_then(|(it, _)| it.arm));
    let end = of.and_then(|(it, _)| it.end).map(edge_word);
    writer.word("drive.end", &Edge::ALL.map(edge_word), "end of the header it is at, seen from its room", end);
    timing(&mut writer, of);
    writer
}

/// Times of the leaf that it moves; a leaf of full energy has none of them.
fn timing(writer: &mut FactSetWriter, of: Option<(&DriveWork, &OpeningWork)>) {
    let times = of
        .and_then(|(it, opening)| leaf_times(&opening.opening.entry, opening.leaves[it.leaf].entry, opening.operator?));
    let by = |clause: &str| Reason::Clause(clause.to_owned().into());
    let time = times.map(|it| {
        let clause =
            "low-energy opening time to backcheck or 80 degrees, from memory: D √W / 133, up to the half second";
        (it.opening.least.quantity(), by(clause))
    });
    writer.number("drive.opening_time", Unit::Second, "least opening time of a low-energy leaf", time);
    let total = times.and_then(|it| it.opening_in_all).map(|it| {
        let clause = "low-energy opening time to 90 degrees, from memory: 2 s, 1.5 s or 1 s more as back-check starts at \
                      60, 70 or 80 degrees";
        (it.least.quantity(), by(clause))
    });
    writer.number("drive.full_opening_time", Unit::Second, "least opening time to 90 degrees, low energy", total);
    let hold = of.and_then(|(it, opening)| {
        let hold = hold_open_asked(&opening.opening.entry, it.leaf + 1)?;
        let clause = "hold-open for the farthest device of the leaf, from memory: 5 s, and 1 s for each started foot \
                      beyond 5 ft";
        Some((hold.quantity(), by(clause)))
    });
    writer.number("drive.hold_open", Unit::Second, "hold-open that its farthest device requires, low energy", hold);
}
