//! How a header is held, as its layout of holes and the preparation table tell it.
//!
//! In: sources, a header. Out: rows and columns of holes, how many fasteners and which. May not know: how strong they are; review
//! calculates that, and takeoff buys by the same answer.

use super::super::Sources;
use crate::catalog::{Group, Substrate};
use crate::drawings::DrawnBack;
use crate::engineering::Pattern;
use crate::measure::{Dimension, Length, Noun};
use crate::mechanics::{HeaderHold, HeldBy, NotCalculated, stud_spacing};
use crate::takeoff::EntityRef;

/// The back of a header, by the positions of opening and header; nothing where the operator's data do not tell.
pub(super) fn back(sources: &Sources, at: usize, number: usize) -> Option<DrawnBack> {
    let work = sources.takeoff.arrangement.openings.get(at)?;
    let operator = work.operator?;
    let data = operator.mechanics.as_ref()?.back.as_ref()?;
    let hold = work.headers.get(number)?.hold.as_ref()?;
    let plate = piece(sources, EntityRef::Header(at, number), Group::Plate);
    let plated = is_plated(sources, at, number);
    let frame = work.opening.entry.frame.get();
    // Screws of a header that hangs on a plate go into the plate.
    let on_studs = frame.filter(|it| it.fixed_to.get() == Some(&Substrate::SteelStud) && hold.plate_screws() == 0);
    Some(DrawnBack {
        lower_row: data.lower_row,
        upper_row: data.upper_row,
        edge: data.edge,
        spindle: operator.spindle_offset,
        bracket: operator.bracket_offset,
        columns: hold.columns(),
        plate,
        plated,
        words: words(hold, plate.is_some() || (plated && hold.dropped().is_some())),
        studs: on_studs.map(stud_spacing),
    })
}

/// Whether a plate of any kind is taken off for a header.
fn is_plated(sources: &Sources, at: usize, number: usize) -> bool {
    let here = sources.takeoff.lines_of(EntityRef::Header(at, number));
    let mut items = here.filter_map(|line| sources.catalog.items.get(&*line.item));
    items.any(|item| item.group == Group::Plate)
}

/// How many fasteners of which sort, in how many columns and into what, and whether that is calculated. `plated` says that
/// the plate which it needs is taken off.
fn words(hold: &HeaderHold, plated: bool) -> String {
    let name = hold.fastener.map_or("fastener", |it| it.name.as_str());
    let fails = match (hold.fails(), hold.plate()) {
        (true, Some(_)) => "; not sufficient: backing between studs required",
        (true, None) => "; not sufficient: backing or a stronger fastener required",
        (false, _) => "",
    };
    match &hold.by {
        HeldBy::OwnNumber(count, why) => own_number(*count, *why, name, plated),
        HeldBy::Screws(pattern) => {
            let through = if plated { ", through the plate" } else { "" };
            format!("{}{through}{fails}", of_pattern(pattern, name))
        }
        HeldBy::Plate { screws, plate } => {
            let into = if plated { "the plate" } else { "a plate, which is not in the takeoff: call before drilling" };
            format!("{} screws into {into}; plate: {}{fails}", screws.count(), of_pattern(&plate.held, name))
        }
    }
}

fn of_pattern(pattern: &Pattern, name: &str) -> String {
    format!("{} × {name}, {} of {}", pattern.count, Noun::COLUMN.len(pattern.columns as usize), pattern.rows)
}

/// The operator's own number, and why it is no other.
fn own_number(count: u32, why: Option<NotCalculated>, name: &str, plated: bool) -> String {
    let unknown = |what: &str| format!("{count} screws as allowance, not calculated: {what}; call before drilling");
    match why {
        None => unknown("substrate behind the header, or its arm, not known"),
        Some(NotCalculated::ByReport) => {
            format!("{count} × {name}, quantity per operator; anchor per evaluation report")
        }
        Some(NotCalculated::StudsUnknown) => unknown("stud thickness not known"),
        Some(NotCalculated::NoFastener) => unknown("no fastener for this substrate"),
        Some(NotCalculated::NoData) => unknown(&format!("dimensions of {name} missing")),
        Some(NotCalculated::StudsApart) => unknown("stud spacing too wide, also for a plate"),
        Some(NotCalculated::Dropped(_)) => {
            let into = if plated { "its drop plate" } else { "a drop plate, which is not in the takeoff" };
            format!(
                "{count} screws into {into}; plate: {count} × {name}, allowance, not calculated; call before drilling"
            )
        }
    }
}

/// The length of the first piece of a group that the takeoff has at an entity.
pub(super) fn piece(sources: &Sources, of: EntityRef, group: Group) -> Option<Length> {
    let lines = sources.takeoff.lines_of(of);
    let of_group = lines.filter(|line| sources.catalog.items.get(&*line.item).is_some_and(|item| item.group == group));
    let mut quantities = of_group.map(|line| sources.takeoff.ledger.value(line.quantity));
    quantities.find(|it| it.dimension() == Dimension::LENGTH).and_then(Length::nearest)
}
