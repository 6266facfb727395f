//! Drawings to operators of a content stream.
//!
//! In: shapes in points of their frame, y upward, and where the frame stands. Out: paths and words on the page.
//! May not know: what is drawn.

use std::sync::Arc;

use super::content::Pen;
use super::numbers::{Cp, decimal, row};
use crate::fonts::Run;
use crate::markup::Mp;
use crate::shapes::{Anchor, Drawing, Point, Shape, Stroke, at};

/// The frame of a drawing on its page.
struct Frame {
    left: f64,
    bottom: f64,
    scale: f64,
}

impl Frame {
    fn place(&self, point: Point) -> (Cp, Cp) {
        (Cp::points(self.left + self.scale * point.x), Cp::points(self.bottom + self.scale * point.y))
    }

    fn extent(&self, points: f64) -> Cp {
        Cp::points(self.scale * points)
    }
}

/// The rectangle that a drawing takes on a page: left, bottom, right, top.
pub(super) fn frame_box(x: Mp, y: Mp, width: Mp, drawing: &Drawing, page_height: Mp) -> [Cp; 4] {
    let height = Mp::from_points(width.as_points() * drawing.height / drawing.width);
    [Cp::of(x), Cp::of(page_height - y - height), Cp::of(x + width), Cp::of(page_height - y)]
}

impl Pen<'_> {
    /// Draws a drawing into a frame of the given upper left corner and width.
    pub(super) fn drawing(&mut self, x: Mp, y: Mp, width: Mp, drawing: &Arc<Drawing>) {
        let scale = width.as_points() / drawing.width;
        let top = f64::from(self.upward(y).0) / 100.0;
        let frame = Frame { left: x.as_points(), bottom: top - scale * drawing.height, scale };
        let words = self.words;
        let mut runs = words.of_drawing(drawing).iter();
        for shape in drawing.parts.iter().flat_map(|part| &part.shapes) {
            match shape {
                Shape::Line { points, closed, stroke } => {
                    let points: Vec<_> = points.iter().map(|point| frame.place(*point)).collect();
                    self.stroked(&frame, stroke, |pen| pen.line(&points), *closed);
                }
                Shape::Arc { center, radius, from, sweep, stroke } => {
                    let curve = arc(*center, *radius, *from, *sweep);
                    self.stroked(&frame, stroke, |pen| pen.curve(&frame, &curve), false);
                }
                Shape::Fill { points, gray } => {
                    let points: Vec<_> = points.iter().map(|point| frame.place(*point)).collect();
                    self.fill_gray(per_mille(*gray));
                    self.line(&points);
                    self.operator(b"f");
                }
                Shape::Text { at, size, anchor, turn, .. } => {
                    if let Some(run) = runs.next() {
                        self.word(&frame, run, (*at, *size, *anchor, *turn));
                    }
                }
            }
        }
    }

    fn stroked(&mut self, frame: &Frame, stroke: &Stroke, path: impl FnOnce(&mut Self), closed: bool) {
        self.stroke_gray(per_mille(stroke.gray));
        self.line_width(frame.extent(stroke.width));
        if let Some((dash, gap)) = stroke.dash {
            self.out.push(b'[');
            row(&mut self.out, &[frame.extent(dash), frame.extent(gap)]);
            self.operator(b"]0 d");
        }
        path(self);
        self.operator(if closed { b"s" } else { b"S" });
        if stroke.dash.is_some() {
            self.operator(b"[]0 d");
        }
    }

    fn curve(&mut self, frame: &Frame, points: &[Point]) {
        for (at, group) in std::iter::once(&points[..1]).chain(points[1..].chunks_exact(3)).enumerate() {
            for point in group {
                let (x, y) = frame.place(*point);
                row(&mut self.out, &[x, y]);
            }
            self.operator(if at == 0 { b"m" } else { b"c" });
        }
    }

    /// A word of a drawing, turned about its anchor.
    fn word(&mut self, frame: &Frame, run: &Arc<Run>, (anchor_at, size, anchor, turn): (Point, f64, Anchor, f64)) {
        let size = size * frame.scale;
        let length = f64::from(self.alphabet.length(run)) / 1000.0 * size;
        let back = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => length / 2.0,
            Anchor::End => length,
        };
        let (sin, cos) = sin_cos(turn);
        let x = Cp::points(frame.left + frame.scale * anchor_at.x - back * cos);
        let y = Cp::points(frame.bottom + frame.scale * anchor_at.y - back * sin);
        self.fill_gray(0);
        self.enter_text();
        for part in [cos, sin, -sin, cos] {
            decimal(&mut self.out, (part * 100_000.0).round() as i64, 100_000);
            self.out.push(b' ');
        }
        row(&mut self.out, &[x, y]);
        self.operator(b"Tm");
        self.show(run, (size * 1000.0).round() as i32);
        self.leave_text();
    }
}

fn per_mille(gray: f64) -> u16 {
    (gray.clamp(0.0, 1.0) * 1000.0).round() as u16
}

/// Sine and cosine of an angle in degrees; exact at quarter turns.
fn sin_cos(degrees: f64) -> (f64, f64) {
    match degrees.rem_euclid(360.0) {
        0.0 => (0.0, 1.0),
        90.0 => (1.0, 0.0),
        180.0 => (0.0, -1.0),
        270.0 => (-1.0, 0.0),
        turn => libm::sincos(turn.to_radians()),
    }
}

/// An arc as Bézier curves: its start, then two control points and an end for each quarter or less.
///
/// Control points stand at 4/3 tan(angle / 4) of the radius along the tangents, the usual approximation (common practice,
/// no source); for a quarter it strays from the circle by less than 0.03 percent of the radius.
fn arc(center: Point, radius: f64, from: f64, sweep: f64) -> Vec<Point> {
    let pieces = (sweep.abs() / 90.0).ceil().max(1.0);
    let step = sweep / pieces;
    let reach = 4.0 / 3.0 * libm::tan(step.to_radians() / 4.0) * radius;
    let on = |degrees: f64| {
        let (sin, cos) = sin_cos(degrees);
        (at(center.x + radius * cos, center.y + radius * sin), at(-sin * reach, cos * reach))
    };
    let mut points = vec![on(from).0];
    for piece in 0..pieces as usize {
        let (start, leaving) = on(from + step * piece as f64);
        let (end, arriving) = on(from + step * (piece + 1) as f64);
        points.push(at(start.x + leaving.x, start.y + leaving.y));
        points.push(at(end.x - arriving.x, end.y - arriving.y));
        points.push(end);
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arc_stays_on_its_circle_and_ends_where_it_should() {
        for (from, sweep) in [(0.0, 90.0), (30.0, -270.0), (180.0, 360.0), (10.0, 5.0)] {
            let points = arc(at(1.0, 2.0), 10.0, from, sweep);
            let distance = |x: f64, y: f64| libm::hypot(x - 1.0, y - 2.0);
            let mut start = points[0];
            for curve in points[1..].chunks_exact(3) {
                for step in 0..=16 {
                    let t = f64::from(step) / 16.0;
                    let mix = |a: f64, b: f64, c: f64, d: f64| {
                        let u = 1.0 - t;
                        u * u * u * a + 3.0 * u * u * t * b + 3.0 * u * t * t * c + t * t * t * d
                    };
                    let x = mix(start.x, curve[0].x, curve[1].x, curve[2].x);
                    let y = mix(start.y, curve[0].y, curve[1].y, curve[2].y);
                    assert!((distance(x, y) - 10.0).abs() < 0.003, "{from} {sweep} {t}");
                }
                start = curve[2];
            }
            let (sin, cos) = sin_cos(from + sweep);
            assert!((start.x - 1.0 - 10.0 * cos).abs() < 1e-9 && (start.y - 2.0 - 10.0 * sin).abs() < 1e-9);
        }
    }
}
