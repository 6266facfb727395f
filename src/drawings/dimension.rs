//! Strings of dimensions beside what they measure: each at the nearest level where neither its line nor its figure meets
//! another.
//!
//! In: stretches along one side of a drawing, with their figures. Out: lines, ticks and figures on a board, and how far they
//! reach. May not know: what is measured.
//!
//! The shortest stretch stands nearest. A figure that is longer than its stretch stands beyond one of its ends, on the same
//! line, and takes that room from others. Extension lines of longer stretches run under figures of shorter ones, whose
//! white ground interrupts them.

use super::board::Board;
use super::pen::{OUTLINE, THIN, line};
use crate::shapes::{Anchor, Point, Shape, at};

/// The side of a drawing on which a string stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Beside {
    Below,
    Above,
    Left,
    Right,
}

/// A stretch to be measured.
#[derive(Clone, Debug)]
pub(super) struct Span {
    /// What it measures, which names its part of the drawing.
    pub name: String,
    /// Where it starts and ends along the string, in points.
    pub from: f64,
    pub to: f64,
    /// Where what is measured stands across the string, at either end: extension lines begin there.
    pub near: (f64, f64),
    /// The figure.
    pub figure: String,
}

/// Where a stretch came to stand.
#[derive(Clone, Debug)]
struct Laid {
    span: Span,
    level: usize,
    /// The middle of its figure along the string.
    middle: f64,
    /// What line and figure take along the string.
    takes: (f64, f64),
}

/// Between a figure and the end of its stretch or another figure.
const AIR: f64 = 2.0;
/// Where the first line stands, and how far apart lines stand, by the size of figures.
const FIRST: f64 = 1.5;
const STEP: f64 = 1.45;

/// Draws a string along a side, its levels counted from a coordinate across it.
pub(super) fn string(board: &mut Board, beside: Beside, from: f64, spans: Vec<Span>) {
    for laid in lay(board, spans) {
        draw(board, beside, from, &laid);
    }
}

fn lay(board: &Board, mut spans: Vec<Span>) -> Vec<Laid> {
    let length = |span: &Span| span.to - span.from;
    spans.sort_by(|a, b| length(a).total_cmp(&length(b)).then(a.from.total_cmp(&b.from)).then(a.name.cmp(&b.name)));
    let mut all: Vec<Laid> = Vec::new();
    for span in spans {
        let width = board.ruler.width(&span.figure, board.text, false);
        let tries = places(&span, width);
        // A level higher than all is always free, so one is found.
        let found = (0..=all.len()).find_map(|level| {
            let here = |it: &&Laid| it.level == level;
            let free = |(_, takes): &(f64, (f64, f64))| all.iter().filter(here).all(|other| apart(other.takes, *takes));
            tries.iter().copied().find(free).map(|place| (level, place))
        });
        if let Some((level, (middle, takes))) = found {
            all.push(Laid { span, level, middle, takes });
        }
    }
    all
}

/// Where a figure may stand: over its stretch, or beyond either end.
fn places(span: &Span, width: f64) -> Vec<(f64, (f64, f64))> {
    let inside = (span.from + span.to) / 2.0;
    if width + 2.0 * AIR <= span.to - span.from {
        return vec![(inside, (span.from, span.to))];
    }
    let after = span.to + AIR + width / 2.0;
    let before = span.from - AIR - width / 2.0;
    vec![(after, (span.from, after + width / 2.0 + AIR)), (before, (before - width / 2.0 - AIR, span.to))]
}

/// Lines may share an end.
fn apart(one: (f64, f64), other: (f64, f64)) -> bool {
    one.1 <= other.0 + 0.01 || other.1 <= one.0 + 0.01
}

fn draw(board: &mut Board, beside: Beside, from: f64, laid: &Laid) {
    let out = board.text * (FIRST + STEP * laid.level as f64);
    let outward = match beside {
        Beside::Below | Beside::Left => -1.0,
        Beside::Above | Beside::Right => 1.0,
    };
    let level = from + outward * out;
    let upright = matches!(beside, Beside::Left | Beside::Right);
    let place = |along: f64, across: f64| if upright { at(across, along) } else { at(along, across) };
    let span = &laid.span;
    let reach = span.from.min(laid.middle).min(span.to);
    let end = span.to.max(laid.middle).max(span.from);
    let extension =
        |along: f64, near: f64| line(&[place(along, near + outward * 1.5), place(along, level + outward * 2.0)], THIN);
    let shapes = vec![
        extension(span.from, span.near.0),
        extension(span.to, span.near.1),
        line(&[place(reach, level), place(end, level)], THIN),
        tick(place(span.from, level)),
        tick(place(span.to, level)),
    ];
    board.draw(format!("dimension {}", span.name), shapes);
    let turn = if upright { 90.0 } else { 0.0 };
    // The figure stands over its line as it is read: above a level one, left of an upright one.
    let over = if upright { level - board.text * 0.3 } else { level + board.text * 0.3 };
    let shape = Shape::Text {
        at: place(laid.middle, over),
        text: span.figure.clone(),
        size: board.text,
        bold: false,
        anchor: Anchor::Middle,
        turn,
    };
    board.write(format!("figure {}", span.name), shape);
}

/// An architect's tick.
fn tick(end: Point) -> Shape {
    line(&[at(end.x - 1.8, end.y - 1.8), at(end.x + 1.8, end.y + 1.8)], OUTLINE)
}
