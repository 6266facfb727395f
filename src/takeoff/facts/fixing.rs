//! Facts of fixings: what headers and arms go into, how many fasteners they take, and why as many.
//!
//! In: fixings of the arrangement. Out: writers of their facts. May not know: rules.

use rust_decimal::Decimal;

use super::count;
use crate::engineering::Pattern;
use crate::findings::Place;
use crate::ledger::Reason;
use crate::measure::{Quantity, Unit};
use crate::mechanics::{HeldBy, NotCalculated};
use crate::takeoff::arrangement::{FixingWork, OpeningWork};
use crate::takeoff::fact_set::FactSetWriter;

/// Facts of a fixing.
pub(in crate::takeoff) fn fixing(of: Option<(&FixingWork, &OpeningWork)>) -> FactSetWriter {
    let about = of.map(|(it, opening)| it.name(opening));
    let mut writer = FactSetWriter::new("fixing", about);
    let is_header = of.map(|(it, _)| matches!(it, FixingWork::Header(_)));
    let word = is_header.map(|header| if header { "header" } else { "arm" });
    writer.word("fixing.of", &["header", "arm"], "what it fixes", word);
    let substrate = of.and_then(|(it, opening)| it.substrate(opening));
    writer.vocabulary("fixing.substrate", "substrate of a header", substrate);
    writer.vocabulary("fixing.leaf_made", "substrate of an arm", of.and_then(|(it, opening)| it.leaf_made(opening)));
    let needed = |count: fn(&FixingWork, &OpeningWork) -> Option<u32>| {
        of.and_then(|(it, opening)| Some((Quantity::count(count(it, opening)?), reason(it, opening)?)))
    };
    let screws = "fasteners needed, with those of a plate that the header needs";
    writer.number("fixing.screws", Unit::Each, screws, needed(FixingWork::screws));
    let of_plate = "those of them that hold the plate";
    writer.number("fixing.plate_screws", Unit::Each, of_plate, needed(FixingWork::plate_screws));
    let kit = of.and_then(|(it, opening)| it.kit(opening)).map(|(it, place)| count(it, place));
    writer.number("fixing.kit", Unit::Each, "fasteners of the kit that stay in the joint", kit);
    writer.number("fixing.short", Unit::Each, "fasteners needed beyond the kit", needed(FixingWork::short));
    writer
}

/// Why a fixing takes as many as it does: calculated, or the operator's own number.
fn reason(of: &FixingWork, opening: &OpeningWork) -> Option<Reason> {
    let place = &opening.operator?.place;
    let Some(hold) = of.hold(opening) else { return Some(own_number(place, "")) };
    let name = hold.fastener.map_or("fastener", |it| it.name.as_str());
    let fails = if hold.fails() { "; not sufficient" } else { "" };
    Some(match &hold.by {
        HeldBy::OwnNumber(_, why) => own_number(place, not_calculated(*why)),
        HeldBy::Screws(pattern) => Reason::Clause(format!("calculated: {}{fails}", holding(pattern, name)).into()),
        HeldBy::Plate { screws, plate } => {
            let (count, held) = (screws.count(), holding(&plate.held, name));
            let says = format!("calculated: {count} into a plate, quantity per operator; the plate by {held}{fails}");
            Reason::Clause(says.into())
        }
    })
}

fn own_number(place: &Place, why: &str) -> Reason {
    Reason::Entry { place: place.clone(), standing: format!("quantity per operator{why}") }
}

/// A pattern with the part of it that is used.
fn holding(of: &Pattern, name: &str) -> String {
    let part = (of.used.part * Decimal::ONE_HUNDRED).ceil().normalize();
    let (count, columns, rows, case) = (of.count, of.columns, of.rows, of.used.case.words());
    format!("{count} × {name} in {columns} columns of {rows}, of which {case} uses {part}%")
}

/// Why nothing is calculated, in words that follow on.
fn not_calculated(why: Option<NotCalculated>) -> &'static str {
    match why {
        None => "; substrate behind the header, or its arm, not known",
        Some(NotCalculated::ByReport) => "; anchor per evaluation report",
        Some(NotCalculated::StudsUnknown) => "; stud thickness not known",
        Some(NotCalculated::NoFastener) => "; the catalog has no fastener for this substrate",
        Some(NotCalculated::NoData) => "; dimensions of the fastener missing",
        Some(NotCalculated::StudsApart) => "; stud spacing too wide",
        Some(NotCalculated::Dropped(_)) => " into a drop plate, and as many as allowance for the plate",
    }
}
