//! What suppliers of doors and frames must prepare for us: a row an opening, and layouts of holes, alike ones once.
//!
//! In: openings as they are drawn, takeoff lines. Out: rows, drawings by their keys. May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Package;
use crate::catalog::{Entity, Group};
use crate::documents::drawing_set::{holes_title, piece, shown};
use crate::documents::heading::heading;
use crate::documents::printing::{Printing, listed, or_dash};
use crate::documents::schedule::as_found;
use crate::drawings::{Frame, Ruler, hole_layout};
use crate::job::SubmittalPart;
use crate::lettering::Faces;
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
    let rows = powered().map(|(at, work)| row(package, at, work)).collect();
    let layouts = layouts(package, powered().map(|(at, _)| at), &Ruler::new(faces), drawings);
    (rows, layouts.chunks(IN_A_ROW).map(<[_]>::to_vec).collect())
}

fn row(package: &Package, at: usize, work: &OpeningWork) -> PreparedRow {
    let sources = package.sources;
    let printing = Printing::of(sources.cleared.job());
    let of = heading(sources, at);
    let headers = work.headers.iter().enumerate().map(|(number, header)| {
        let room = header.side.and_then(|side| work.room(side)).unwrap_or("room not known");
        let long = piece(sources, EntityRef::Header(at, number), Group::Header).map(|it| printing.size(it));
        let family =
            work.operator.map(|it| format!("{} high, {} deep", printing.short(it.height), printing.short(it.depth)));
        let parts = [Some(format!("in {room}")), long.map(|it| format!("{it} long")), family];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    });
    let supply = work.headers.iter().map(|header| match header.supply_end {
        Some(end) => format!("{} end, hole {} in", edge_word(end), or_dash(work.operator.map(|it| it.entry.as_str()))),
        None => "end not known".to_owned(),
    });
    let found = as_found(sources).into_iter().nth(at);
    PreparedRow {
        name: format!("prepared.{}", of.mark),
        mark: of.mark,
        hand: of.hand,
        size: of.size,
        header: listed(headers, "; "),
        behind: listed(fixings(package, at, true), "; "),
        leaf: listed(fixings(package, at, false), "; "),
        power: listed(supply, "; "),
        templates: found
            .map_or_else(String::new, |it| format!("door: {}; frame: {}", it.door_template, it.frame_template)),
    }
}

/// Plates and fasteners at the header's joints, or at the arm's, with how many.
fn fixings(package: &Package, at: usize, of_header: bool) -> Vec<String> {
    let sources = package.sources;
    let works = &sources.takeoff.arrangement.openings[at];
    let here = |of: EntityRef| match of {
        EntityRef::Fixing(opening, which) => {
            opening == at && matches!(works.fixings[which], FixingWork::Header(_)) == of_header
        }
        EntityRef::Header(opening, _) => opening == at && of_header,
        EntityRef::Leaf(opening, _) | EntityRef::Drive(opening, _) => opening == at && !of_header,
        _ => false,
    };
    // What is used up over other items, such as bits, is nothing that anybody prepares for.
    let of_itself = |rule: usize| sources.catalog.rules[rule].per != Entity::Item;
    let lines = sources.takeoff.lines.iter().filter(|line| here(line.of) && of_itself(line.rule));
    let printing = Printing::of(sources.cleared.job());
    let mut told: Vec<String> = Vec::new();
    for line in lines {
        let Some(item) = sources.catalog.items.get(&line.item) else { continue };
        if matches!(item.group, Group::Plate | Group::Fastener) {
            let quantity = sources.takeoff.ledger.value(line.quantity);
            let much = match printing.piece(quantity) {
                piece if piece.is_empty() => printing.quantity(quantity, item.unit),
                piece => piece,
            };
            told.push(format!("{much} {}", item.name));
        }
    }
    told.dedup();
    told
}

/// Layouts of holes; those that show the same are one drawing with the marks of all.
fn layouts(
    package: &Package,
    openings: impl Iterator<Item = usize>,
    ruler: &Ruler,
    drawings: &mut BTreeMap<String, Drawing>,
) -> Vec<PreparedDrawing> {
    let mut found: Vec<(Drawing, String, Vec<String>)> = Vec::new();
    for at in openings {
        let Ok(of) = shown(package.sources, at) else { continue };
        for header in 0..of.headers.len() {
            let Some(drawing) = hole_layout(&of, header, FRAME, ruler) else { continue };
            let words = holes_title(&of, header);
            match found.iter_mut().find(|(known, told, _)| known.parts == drawing.parts && *told == words) {
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
            caption: format!("{}. {words} {}.", marks.join(", "), drawing.scale),
            width: format!("{}pt", FRAME.width),
        };
        drawings.insert(key, drawing);
        sheet
    });
    each.collect()
}
