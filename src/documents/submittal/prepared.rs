//! What suppliers of doors and frames must prepare for us: a row an opening, and layouts of holes, alike ones once.
//!
//! In: openings as they are drawn, takeoff lines. Out: rows, drawings by their keys. May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Package;
use crate::catalog::{Entity, Group};
use crate::documents::drawing_set::{holes_title, scale_words, shown};
use crate::documents::heading::heading;
use crate::documents::printing::{Printing, listed, or_dash};
use crate::documents::schedule::{AsFoundRow, as_found};
use crate::drawings::{DrawnOpening, Frame, Ruler, hole_layout};
use crate::fonts::Faces;
use crate::job::SubmittalPart;
use crate::shapes::Drawing;
use crate::takeoff::{EntityRef, FixingWork, OpeningWork, edge_word};

/// What is prepared at an opening.
#[derive(Clone, Debug, Serialize)]
pub struct PreparedRow {
    /// Name of the row, such as `prepared.101A`.
    pub name: String,
    /// Mark.
    pub mark: String,
    /// Hand.
    pub hand: String,
    /// Size of the leaves.
    pub size: String,
    /// Header: the room it hangs in, its length, height and depth.
    pub header: String,
    /// What the frame or wall must have behind it.
    pub behind: String,
    /// What the leaf must have for the arm.
    pub leaf: String,
    /// Where power enters.
    pub power: String,
    /// Templates: of the door, of the frame.
    pub templates: String,
}

/// A layout of holes, for all openings of which it is alike.
#[derive(Clone, Debug, Serialize)]
pub struct PreparedDrawing {
    /// The drawing's key.
    pub key: String,
    /// What it shows, in words.
    pub alt: String,
    /// Openings and scale.
    pub caption: String,
    /// Its width, as an extent.
    pub width: String,
}

/// Frame of a layout, in points: two beside each other on a page that lies, two rows of them with their captions. Its figures
/// are as large as the text around it, unlike those of a shop drawing.
const FRAME: Frame = Frame { width: 330.0, height: 165.0, text: 9.0 };
const IN_A_ROW: usize = 2;

/// Rows by opening, and layouts row by row.
pub(super) fn prepared(
    package: &Package,
    faces: &Faces,
    drawings: &mut BTreeMap<String, Drawing>,
) -> (Vec<PreparedRow>, Vec<Vec<PreparedDrawing>>) {
    if !package.holds(SubmittalPart::Templates) {
        return Default::default();
    }
    let works = &package.sources.takeoff.arrangement.openings;
    let powered = || works.iter().enumerate().filter(|(_, work)| !work.headers.is_empty());
    let found = as_found(package.sources);
    let rows = powered().map(|(at, work)| row(package, (at, work), found.get(at))).collect();
    let layouts = layouts(package, powered().map(|(at, _)| at), &Ruler::new(faces), drawings);
    (rows, layouts.chunks(IN_A_ROW).map(<[_]>::to_vec).collect())
}

fn row(package: &Package, (at, work): (usize, &OpeningWork), found: Option<&AsFoundRow>) -> PreparedRow {
    let sources = package.sources;
    let printing = Printing::of(sources.reviewed.job());
    let of = heading(sources, work);
    // As the layouts of holes have them, so that table and drawing never differ.
    let drawn = shown(sources, at, work).ok();
    let headers = work.headers.iter().enumerate().map(|(number, header)| {
        let room = header.side.and_then(|side| work.room(side)).unwrap_or("room not given");
        let long = drawn.as_ref().and_then(|it| it.headers.get(number)?.length).map(|it| printing.size(it));
        let family =
            work.operator.map(|it| format!("{} high, {} deep", printing.short(it.height), printing.short(it.depth)));
        let parts = [Some(format!("in {room}")), long.map(|it| format!("{it} long")), family];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    });
    let supply = work.headers.iter().map(|header| match header.supply_end {
        Some(end) => format!("{} end, {} in hole", edge_word(end), or_dash(work.operator.map(|it| it.entry.as_str()))),
        None => "end not known".to_owned(),
    });
    PreparedRow {
        name: format!("prepared.{}", of.mark),
        mark: of.mark,
        hand: of.hand,
        size: of.size,
        header: listed(headers, "; "),
        behind: behind(package, at, drawn.as_ref()),
        leaf: listed(in_the_leaf(package, at), "; "),
        power: listed(supply, "; "),
        templates: found
            .map_or_else(String::new, |it| format!("door: {}; frame: {}", it.door_template, it.frame_template)),
    }
}

/// Plates and fasteners behind each header of an opening: plates as taken off, fasteners as the layout of holes tells them.
fn behind(package: &Package, at: usize, drawn: Option<&DrawnOpening>) -> String {
    let headers = drawn.map(|it| it.headers.as_slice()).unwrap_or_default();
    let mut each = headers.iter().enumerate().map(|(number, header)| {
        let plates = taken(package, Group::Plate, at, |of| of == EntityRef::Header(at, number));
        let fasteners = header.back.iter().map(|it| it.words.clone()).filter(|_| !header.concealed);
        listed(plates.into_iter().chain(fasteners), "; ")
    });
    let first = each.next();
    let more: Vec<String> = each.collect();
    match first {
        Some(first) if !more.is_empty() && more.iter().all(|it| *it == first) => format!("each header: {first}"),
        Some(first) => listed(std::iter::once(first).chain(more), " / "),
        None => listed([], ""),
    }
}

/// Plates and fasteners that the arms of an opening need in its leaves, leaf by leaf where there are several.
fn in_the_leaf(package: &Package, at: usize) -> Vec<String> {
    let Some(work) = package.sources.takeoff.arrangement.openings.get(at) else { return Vec::new() };
    let moves = |drive: usize, leaf: usize| work.drives.get(drive).is_some_and(|drive| drive.leaf == leaf);
    let of_leaf = |leaf: usize| {
        let here = |of: EntityRef| match of {
            EntityRef::Fixing(opening, which) => {
                opening == at && matches!(work.fixings.get(which), Some(FixingWork::Arm(drive)) if moves(*drive, leaf))
            }
            EntityRef::Leaf(opening, own) => opening == at && own == leaf,
            EntityRef::Drive(opening, drive) => opening == at && moves(drive, leaf),
            _ => false,
        };
        taken(package, Group::Plate, at, here)
            .into_iter()
            .chain(taken(package, Group::Fastener, at, here))
            .collect::<Vec<_>>()
    };
    let each: Vec<Vec<String>> = (0..work.leaves.len()).map(of_leaf).collect();
    let several = each.iter().filter(|it| !it.is_empty()).count() > 1;
    match each.as_slice() {
        [first, rest @ ..] if several && rest.iter().all(|it| it == first) => {
            vec![format!("each leaf: {}", first.join("; "))]
        }
        all if several => {
            all.iter().enumerate().map(|(at, it)| format!("leaf {}: {}", at + 1, it.join("; "))).collect()
        }
        all => all.concat(),
    }
}

/// What was taken off of a group at some entities of an opening, with how many.
fn taken(package: &Package, group: Group, opening: usize, here: impl Fn(EntityRef) -> bool) -> Vec<String> {
    let sources = package.sources;
    // What is used up over other items, such as bits, is nothing that anybody prepares for.
    let of_itself = |rule: usize| sources.catalog.rules.get(rule).is_some_and(|rule| rule.per != Entity::Item);
    let lines = sources.takeoff.lines_at(opening).filter(|line| here(line.of) && of_itself(line.rule));
    let printing = Printing::of(sources.reviewed.job());
    let each = lines.filter_map(|line| {
        let item = sources.catalog.items.get(&*line.item).filter(|it| it.group == group)?;
        let quantity = sources.takeoff.ledger.value(line.quantity);
        let much = match printing.piece(quantity) {
            piece if piece.is_empty() => printing.quantity(quantity, item.unit),
            piece => piece,
        };
        Some(format!("{much} {}", item.name))
    });
    each.collect()
}

/// Hole layouts; those that show the same are one drawing with the marks of all.
fn layouts(
    package: &Package,
    openings: impl Iterator<Item = usize>,
    ruler: &Ruler,
    drawings: &mut BTreeMap<String, Drawing>,
) -> Vec<PreparedDrawing> {
    let mut found: Vec<(Drawing, String, Vec<String>)> = Vec::new();
    for at in openings {
        let Some(work) = package.sources.takeoff.arrangement.openings.get(at) else { continue };
        let Ok(of) = shown(package.sources, at, work) else { continue };
        for header in 0..of.headers.len() {
            let Some(drawing) = hole_layout(&of, header, FRAME, ruler) else { continue };
            let words = holes_title(&of, header);
            match found.iter_mut().find(|(known, reported, _)| known.parts == drawing.parts && *reported == words) {
                Some((_, _, marks)) => marks.push(of.mark.clone()),
                None => found.push((drawing, words, vec![of.mark.clone()])),
            }
        }
    }
    let each = found.into_iter().enumerate().map(|(at, (drawing, words, marks))| {
        let key = format!("prepared-{}", at + 1);
        let sheet = PreparedDrawing {
            key: key.clone(),
            alt: drawing.alt.clone(),
            caption: format!("{}. {words} {}.", marks.join(", "), scale_words(&drawing)),
            width: format!("{}pt", FRAME.width),
        };
        drawings.insert(key, drawing);
        sheet
    });
    each.collect()
}
