//! The few strokes that every drawing of this room is made with.
//!
//! In: points. Out: shapes in the room's line weights. May not know: what is drawn.

use crate::shapes::{Anchor, Part, Point, Shape, Stroke, at};

/// Outlines of what is built.
pub(super) const OUTLINE: Stroke = Stroke { width: 0.5, gray: 0.0, dash: None };
/// The floor, and what brings power.
pub(super) const HEAVY: Stroke = Stroke { width: 1.0, gray: 0.0, dash: None };
/// What moves, and dimension lines.
pub(super) const THIN: Stroke = Stroke { width: 0.3, gray: 0.0, dash: None };
/// What is hidden, or stands elsewhere at another time.
pub(super) const DASHED: Stroke = Stroke { width: 0.4, gray: 0.0, dash: Some((3.0, 2.0)) };
/// Gray of cut walls.
pub(super) const WALL: f64 = 0.82;

/// A part of a name.
pub(super) fn part(name: impl Into<String>, shapes: Vec<Shape>) -> Part {
    Part { name: name.into(), shapes }
}

/// A line through points.
pub(super) fn line(points: &[Point], stroke: Stroke) -> Shape {
    Shape::Line { points: points.to_vec(), closed: false, stroke }
}

/// The corners of an upright rectangle.
pub(super) fn corners(left: f64, bottom: f64, right: f64, top: f64) -> Vec<Point> {
    vec![at(left, bottom), at(right, bottom), at(right, top), at(left, top)]
}

/// The outline of an upright rectangle.
pub(super) fn rectangle(left: f64, bottom: f64, right: f64, top: f64, stroke: Stroke) -> Shape {
    Shape::Line { points: corners(left, bottom, right, top), closed: true, stroke }
}

/// An upright rectangle, filled.
pub(super) fn filled(left: f64, bottom: f64, right: f64, top: f64, gray: f64) -> Shape {
    Shape::Fill { points: corners(left, bottom, right, top), gray }
}

/// A whole circle.
pub(super) fn circle(center: Point, radius: f64, stroke: Stroke) -> Shape {
    Shape::Arc { center, radius, from: 0.0, sweep: 360.0, stroke }
}

/// A line of text.
pub(super) fn text(point: Point, words: impl Into<String>, size: f64, anchor: Anchor) -> Shape {
    Shape::Text { at: point, text: words.into(), size, bold: false, anchor, turn: 0.0 }
}

/// A line of bold text.
pub(super) fn bold(point: Point, words: impl Into<String>, size: f64, anchor: Anchor) -> Shape {
    Shape::Text { at: point, text: words.into(), size, bold: true, anchor, turn: 0.0 }
}

/// An arrow head at `tip`, pointing along a direction of length one.
pub(super) fn arrow(tip: Point, dx: f64, dy: f64) -> Shape {
    let (length, half) = (5.0, 1.7);
    let back = at(tip.x - dx * length, tip.y - dy * length);
    let points = vec![tip, at(back.x - dy * half, back.y + dx * half), at(back.x + dy * half, back.y - dx * half)];
    Shape::Fill { points, gray: 0.0 }
}
