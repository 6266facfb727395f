//! Sheets of the wiring risers of sites.
//!
//! In: sources, the room on a sheet. Out: views of sheets and their drawings. May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::super::Sources;
use super::wiring::{Wiring, wiring};
use super::{GUTTER, IndexRow, Room, TEXT, WIDTH};
use crate::drawings::{Frame, Ruler, riser};
use crate::shapes::Drawing;

/// A sheet of a riser.
#[derive(Clone, Debug, Serialize)]
pub struct RiserSheet {
    /// Number of the sheet.
    pub number: String,
    /// The block it begins with.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Key of the drawing; empty where there is none.
    pub key: String,
    /// What it shows, in words.
    pub alt: String,
    /// Width of the drawing, as an extent.
    pub width: String,
    /// The openings whose headers it shows.
    pub openings: String,
}

impl RiserSheet {
    /// Its row of the index.
    pub(super) fn row(&self) -> IndexRow {
        IndexRow {
            number: self.number.clone(),
            id: self.id.clone(),
            title: self.title.clone(),
            about: self.openings.clone(),
        }
    }
}

/// Height of a riser’s frame: what a sheet leaves under its title. A page shrinks what is higher than nine tenths of it.
const HEIGHT: f64 = 560.0;

/// The riser sheets of every site, numbered from `first`, and line runs that are on none.
pub(super) fn risers(
    sources: &Sources,
    first: usize,
    (room, ruler): (Room, &Ruler),
    drawings: &mut BTreeMap<String, Drawing>,
) -> (Vec<RiserSheet>, Vec<String>) {
    let (mut sheets, mut left): (Vec<RiserSheet>, Vec<String>) = (Vec::new(), Vec::new());
    for (at, site) in sources.takeoff.arrangement.sites.iter().enumerate() {
        let Wiring { trees, left: numbers } = wiring(sources, at);
        if !numbers.is_empty() {
            left.push(format!("{}: runs {}", site.name, numbers.join(", ")));
        }
        if trees.is_empty() {
            continue;
        }
        let frame = Frame { width: WIDTH - room.column - GUTTER, height: HEIGHT, text: TEXT };
        let title = format!("Wiring riser, {}", site.name);
        let drawn = riser(&title, &trees, frame, ruler);
        if drawn.is_none() {
            left.push(format!("{}: the riser does not fit its sheet; names are too long", site.name));
        }
        for (place, drawing) in drawn.into_iter().flatten().enumerate() {
            let number = first + sheets.len();
            // Not by the sheet's number, which changes with every opening that comes: an issue is compared with the one before.
            let key = format!("riser.{}.{}", site.id, place + 1);
            sheets.push(RiserSheet {
                number: format!("D-{number}"),
                id: key.clone(),
                title: drawing.title.clone(),
                key: key.clone(),
                alt: drawing.alt.clone(),
                width: format!("{}pt", frame.width),
                openings: openings_on(sources, &drawing),
            });
            drawings.insert(key, drawing);
        }
    }
    (sheets, left)
}

/// The openings whose headers stand on a drawing, not only on the way to others.
fn openings_on(sources: &Sources, drawing: &Drawing) -> String {
    let marks = sources.takeoff.arrangement.openings.iter().map(|it| it.opening.mark.as_str());
    let shown = marks.filter(|mark| {
        let header = format!("node {mark} header");
        drawing.parts.iter().any(|part| part.name.starts_with(&header))
    });
    shown.collect::<Vec<_>>().join(", ")
}
