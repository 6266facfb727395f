//! How a header is held, as its layout of holes shows it.
//!
//! In: sources, a header. Out: rows and columns of holes, what the fasteners are. May not know: how strong they are; review
//! reckons that.

use super::super::Sources;
use super::shown::piece;
use crate::catalog::{Group, Substrate};
use crate::drawings::DrawnBack;
use crate::engineering::Pattern;
use crate::review::{Mounting, Reckoned, Unreckoned, mounting, stud_spacing};
use crate::takeoff::EntityRef;

/// The back of a header, by the positions of opening and header; nothing where the operator's data do not tell.
pub(super) fn back(sources: &Sources, at: usize, number: usize) -> Option<DrawnBack> {
    let work = &sources.takeoff.arrangement.openings[at];
    let operator = work.operator?;
    let data = operator.mechanics.as_ref()?.back.as_ref()?;
    let leaf = work.leaves.get(*work.headers[number].drives.first()?)?;
    let plate = piece(sources, EntityRef::Header(at, number), Group::Plate);
    let found = mounting(work.opening, leaf.entry, operator, sources.catalog);
    let (columns, words) = match &found {
        Some(found) => holes(found, plate.is_some()),
        None => {
            (None, "not reckoned: what is behind the header, or its arm, is not known; ask before drilling".to_owned())
        }
    };
    let plated = sources.takeoff.lines.iter().any(|line| {
        line.of == EntityRef::Header(at, number)
            && sources.catalog.items.get(&line.item).is_some_and(|item| item.group == Group::Plate)
    });
    let frame = work.opening.entry.frame.get();
    let on_studs = frame.filter(|it| it.fixed_to.get() == Some(&Substrate::SteelStud) && plate.is_none());
    Some(DrawnBack {
        lower_row: data.lower_row,
        upper_row: data.upper_row,
        edge: data.edge,
        spindle: operator.spindle_offset,
        bracket: operator.bracket_offset,
        columns,
        plate,
        plated,
        words,
        studs: on_studs.map(stud_spacing),
    })
}

/// Columns of holes, and the fasteners in words.
fn holes(found: &Mounting, plated: bool) -> (Option<u32>, String) {
    let name = found.fastener.map_or("fastener", |it| it.name.as_str());
    match &found.result {
        Ok(reckoned) if plated => through_plate(reckoned, name),
        Ok(reckoned) => {
            let pattern = reckoned.own.filter(Pattern::holds).unwrap_or(reckoned.least);
            let fails = if pattern.holds() { "" } else { "; not enough: a plate is needed" };
            (Some(pattern.columns), format!("{}{fails}", of_pattern(&pattern, name)))
        }
        Err(why) => (None, unreckoned(*why, name)),
    }
}

/// Screws of the header go into a plate, those of the plate into what is behind it.
fn through_plate(reckoned: &Reckoned, name: &str) -> (Option<u32>, String) {
    let pattern = reckoned.own.unwrap_or(reckoned.least);
    let behind =
        reckoned.plate.as_ref().map_or_else(String::new, |it| format!("; plate: {}", of_pattern(&it.held, name)));
    (Some(pattern.columns), format!("{} screws into the plate{behind}", pattern.count))
}

fn of_pattern(pattern: &Pattern, name: &str) -> String {
    format!("{} × {name}, {} columns of {}", pattern.count, pattern.columns, pattern.rows)
}

fn unreckoned(why: Unreckoned, name: &str) -> String {
    match why {
        Unreckoned::ByReport => format!("{name}: number and spacing by the fastener's own report"),
        Unreckoned::StudsUnknown => "not reckoned: thickness of the studs is not known; ask before drilling".to_owned(),
        Unreckoned::NoFastener => "not reckoned: no fastener for what is behind; ask before drilling".to_owned(),
        Unreckoned::NoData => format!("{name}: not reckoned, dimensions are wanting; ask before drilling"),
    }
}
