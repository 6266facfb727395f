//! Shop drawings: an index, a sheet an opening, and the wiring of every site.
//!
//! In: sources, faces to measure texts with. Out: the view of the paper with its drawings. May not know: pages.

mod branch;
mod holding;
mod opening;
mod run_words;
mod shown;
mod sites;
mod terminations;
mod wiring;

use std::collections::BTreeMap;

use serde::Serialize;

use super::schedule::{OperationView, operations};
use super::{ConditionEvaluator, Count, Draft, Letterhead, Sources, counts, letterhead};
use crate::drawings::Ruler;
use crate::fonts::Faces;
use crate::measure::{Length, Measure, Unit, rounded};
use opening::OpeningSheet;
pub(super) use opening::{holes_title, scale_words};
pub(super) use shown::shown;
use sites::{RiserSheet, risers};
use terminations::{TerminalView, TerminationsView, terminals, terminations};

/// Shop drawings.
#[derive(Clone, Debug, Serialize)]
pub struct DrawingsView {
    /// Head and foot.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// The area for a stamp; none where the owner asks for none.
    pub stamp: Option<StampView>,
    /// Width of the column at the right of every sheet, as an extent.
    pub column: String,
    /// The sheets in order.
    pub index: Vec<IndexRow>,
    /// Number of the first sheet.
    pub first: String,
    /// Sheets of openings.
    pub openings: Vec<OpeningSheet>,
    /// Where the centers of signs stand, in words; empty where no edition says.
    pub signs: String,
    /// Openings that could not be drawn, and why.
    pub undrawn: Vec<UndrawnRow>,
    /// Risers of sites.
    pub risers: Vec<RiserSheet>,
    /// Line runs of sites that are on no riser, in words.
    pub left: Vec<String>,
    /// Terminations of openings.
    pub terminations: Vec<TerminationsView>,
    /// The terminals that they name.
    pub terminals: Vec<TerminalView>,
    /// Number of their sheet.
    pub terminations_number: String,
    /// What openings do in each state.
    pub operations: Vec<OperationView>,
    /// Number of the sheet that says so.
    pub operations_number: String,
}

/// The empty area for a stamp.
#[derive(Clone, Debug, Serialize)]
pub struct StampView {
    /// Width, as an extent.
    pub width: String,
    /// Height, as an extent.
    pub height: String,
}

/// A sheet in the index.
#[derive(Clone, Debug, Serialize)]
pub struct IndexRow {
    /// Its number.
    pub number: String,
    /// The block it begins with.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// More about it.
    pub about: String,
}

/// An opening without drawings.
#[derive(Clone, Debug, Serialize)]
pub struct UndrawnRow {
    /// Its mark.
    pub mark: String,
    /// What is not known.
    pub missing: String,
}

/// Least width of the column at the right of a sheet, in points.
const LEAST_COLUMN: f64 = 300.0;
/// Size of texts in drawings, in points.
const TEXT: f64 = 7.5;

/// How much room the drawings of a sheet have: an eleven by seventeen inch page in the look that ships with the tool, less its
/// running lines, title, title block and captions.
#[derive(Clone, Copy)]
struct Room {
    /// Width of each of two drawings side by side, and of the column at their right.
    half: f64,
    column: f64,
    /// Height of the row of elevations, of the row below it, and of the drawing above a stamp.
    upper: f64,
    lower: f64,
    above_stamp: f64,
}

impl Room {
    fn beside(stamp: Option<(Length, Length)>) -> Room {
        let points = |length: Length| length.to_inches_f64() * 72.0;
        let column = stamp.map_or(LEAST_COLUMN, |(width, _)| points(width).max(LEAST_COLUMN));
        let half = (WIDTH - column - 2.0 * GUTTER) / 2.0;
        let left = stamp.map_or(ROWS, |(_, height)| ROWS - points(height) - STAMP_AROUND);
        let lower = ROWS - 2.0 * CAPTION - ELEVATIONS;
        Room { half, column, upper: ELEVATIONS, lower, above_stamp: left.clamp(60.0, ROWS / 2.0 - CAPTION) }
    }
}

/// Width of the text of such a page, space between columns, height left to two rows, and what a caption takes.
const WIDTH: f64 = 1116.0;
const GUTTER: f64 = 18.0;
const ROWS: f64 = 580.0;
const CAPTION: f64 = 40.0;
/// Height of elevations: a usual leaf with a header over it, and two levels of dimensions, at 3/8 in to the foot.
const ELEVATIONS: f64 = 262.0;
/// What stands around a stamp besides it: a caption of three lines, gaps.
const STAMP_AROUND: f64 = 58.0;

/// Makes the shop drawings.
pub fn drawing_set(sources: &Sources, faces: &Faces) -> Draft<DrawingsView> {
    let ruler = Ruler::new(faces);
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    let stamp = profile.and_then(|it| it.stamp);
    let room = Room::beside(stamp);
    let all = &sources.takeoff.arrangement.openings;
    let mut drawings = BTreeMap::new();
    let (mut openings, mut undrawn): (Vec<OpeningSheet>, Vec<UndrawnRow>) = (Vec::new(), Vec::new());
    let mut next = 2;
    for (at, work) in all.iter().enumerate() {
        match shown::shown(sources, at, work) {
            Ok(of) => {
                let number = format!("D-{next}");
                openings.extend(opening::sheets(sources, work, &number, &of, (room, &ruler), &mut drawings));
                next += 1;
            }
            Err(missing) => {
                undrawn.push(UndrawnRow { mark: work.opening.mark.clone(), missing: missing.join(", ") });
            }
        }
    }
    let every: Vec<usize> = (0..all.len()).collect();
    let (risers, left) = risers(sources, next, (room, &ruler), &mut drawings);
    let terminations: Vec<TerminationsView> = every.iter().filter_map(|at| terminations(sources, *at)).collect();
    let operations = operations(sources, &ConditionEvaluator::new(sources), &every);
    let drawn = next + risers.len();
    let (terminations_number, operations_number) = (format!("D-{drawn}"), format!("D-{}", drawn + 1));
    let mut index: Vec<IndexRow> = openings.iter().map(OpeningSheet::row).collect();
    index.extend(risers.iter().map(RiserSheet::row));
    if !terminations.is_empty() {
        index.push(row(&terminations_number, "terminations", "Terminations, point to point", "all conductors"));
    }
    if !operations.is_empty() {
        index.push(row(&operations_number, "operations", "Sequence of operation", "all states, all openings"));
    }
    let view = DrawingsView {
        head: letterhead(sources, "Shop drawings"),
        counts: counts(sources, None),
        stamp: stamp.map(|(width, height)| StampView { width: extent(width), height: extent(height) }),
        column: format!("{}pt", room.column),
        index,
        first: "D-1".to_owned(),
        openings,
        signs: shown::signs(sources),
        undrawn,
        risers,
        left,
        terminals: terminals(sources),
        terminations,
        terminations_number,
        operations,
        operations_number,
    };
    Draft::drawn(view, drawings)
}

/// A row of the index.
fn row(number: &str, id: &str, title: &str, about: &str) -> IndexRow {
    let [number, id, title, about] = [number, id, title, about].map(str::to_owned);
    IndexRow { number, id, title, about }
}

/// A length as an extent of the markup, exact to a thousandth of an inch.
pub(super) fn extent(length: Length) -> String {
    let inches = length.quantity().number_of(Unit::Inch).map(|it| rounded(it, 3).normalize());
    format!("{}in", inches.unwrap_or_default())
}
