//! Layout of holes behind a header, for its hand: rows and columns of fasteners, hinge line, spindle, bracket, plate.
//!
//! In: an opening as it is drawn, one of its headers, a frame. Out: a drawing to the largest usual scale that fits; nothing
//! where the operator's back or the header's length is not known. May not know: jobs, pages.
//!
//! As seen by a person who faces the wall in the header's room. In inches x runs to his right from the left end of the header,
//! y up from its lower edge. Columns are spread evenly between the first and the last hole, as `engineering` calculates them.

use super::Frame;
use super::board::{Board, Titled};
use super::dimension::{Beside, Span, string};
use super::drawn::{DrawnBack, DrawnHeader, DrawnOpening};
use super::pen::*;
use super::ruler::Ruler;
use super::scales::usual;
use crate::engineering::Room;
use crate::measure::{Length, Noun};
use crate::shapes::{Drawing, Point, Stroke, at};

/// Radius of a hole, in points: holes are not to scale.
const HOLE: f64 = 1.6;
/// Hinge lines and the line of spindles.
const CENTER: Stroke = Stroke { width: 0.3, gray: 0.0, dash: Some((6.0, 1.5)) };

struct View<'a> {
    of: &'a DrawnOpening,
    header: &'a DrawnHeader,
    back: &'a DrawnBack,
    length: Length,
    scale: f64,
}

/// Columns of holes from the left end, and their spacing.
struct Columns {
    places: Vec<f64>,
    spacing: Length,
    /// Whether they go into studs, wherever those are found: drawn in the middle, told by their spacing alone.
    on_studs: bool,
}

/// The layout of holes behind a header, by position.
pub fn hole_layout(of: &DrawnOpening, header: usize, frame: Frame, ruler: &Ruler) -> Option<Drawing> {
    let header = of.headers.get(header)?;
    let (back, length) = (header.back.as_ref()?, header.length?);
    usual(of.inch).iter().find_map(|scale| {
        let view = View { of, header, back, length, scale: scale.points };
        let board = view.board(ruler, frame.text)?;
        let title = format!("{}: hole layout", of.mark);
        board.finish(frame, Titled { title, alt: view.in_words(), scale: scale.words })
    })
}

impl View<'_> {
    fn point(&self, x: f64, y: f64) -> Point {
        at(x * self.scale, y * self.scale)
    }

    /// From the header's left end, in inches, to a place along the wall that the plan counts from its first end.
    fn seen(&self, x: f64) -> f64 {
        let (from, to) = self.of.header_ends(self.header);
        if self.header.room == Room::First { x - from } else { to - x }
    }

    fn rows(&self) -> Vec<Length> {
        let mut rows = vec![self.back.lower_row, self.back.upper_row];
        rows.dedup();
        rows
    }

    fn columns(&self) -> Option<Columns> {
        let count = self.back.columns.filter(|it| *it >= 2)?;
        let spaces = i64::from(count) - 1;
        let studs = self.back.studs;
        let free = self.length - self.back.edge * 2;
        let spacing = studs.unwrap_or(Length::nanometres(free.to_nanometres() / spaces));
        let step = studs.map_or(free.to_inches_f64() / spaces as f64, Length::to_inches_f64);
        let first = (self.length.to_inches_f64() - step * spaces as f64) / 2.0;
        let places = (0..=spaces).map(|at| first + step * at as f64).collect();
        Some(Columns { places, spacing, on_studs: studs.is_some() })
    }

    fn board<'r, 'f>(&self, ruler: &'r Ruler<'f>, text: f64) -> Option<Board<'r, 'f>> {
        let mut board = Board::new(ruler, text);
        let tall = self.header.height.to_inches_f64();
        let end = self.point(self.length.to_inches_f64(), tall);
        if let Some(plate) = self.back.plate {
            let more = (plate - self.length).to_inches_f64() / 2.0 * self.scale;
            board.draw("plate", vec![rectangle(-more, 0.0, end.x + more, end.y, DASHED)]);
        }
        board.draw("header", vec![rectangle(0.0, 0.0, end.x, end.y, OUTLINE)]);
        for leaf in &self.header.drives {
            self.lines_of(&mut board, *leaf, end.y);
        }
        if let Some(columns) = self.columns() {
            for (number, row) in self.rows().iter().enumerate() {
                let holes = columns.places.iter().map(|x| circle(self.point(*x, row.to_inches_f64()), HOLE, OUTLINE));
                board.draw(format!("row {}", number + 1), holes.collect());
            }
        }
        self.dimensions(&mut board);
        Some(board)
    }

    /// Hinge line, spindle and bracket of a leaf.
    fn lines_of(&self, board: &mut Board, leaf: usize, tall: f64) {
        let (hinge, _) = self.of.edges(leaf);
        let n = leaf + 1;
        let x = self.seen(hinge) * self.scale;
        board.draw(format!("hinge line {n}"), vec![line(&[at(x, -6.0), at(x, tall + 3.0)], CENTER)]);
        let spindle = at(self.seen(self.along(leaf, self.back.spindle)) * self.scale, 0.0);
        let shapes = vec![circle(spindle, 2.4, OUTLINE), line(&[at(spindle.x, -6.0), at(spindle.x, 5.0)], THIN)];
        board.draw(format!("spindle {n}"), shapes);
        let bracket = self.seen(self.along(leaf, self.back.bracket)) * self.scale;
        board.draw(format!("bracket {n}"), vec![line(&[at(bracket, -9.0), at(bracket, -2.0)], HEAVY)]);
    }

    /// A place so far from a leaf's hinge line toward its latch edge, in inches of the plan.
    fn along(&self, leaf: usize, far: Length) -> f64 {
        let (hinge, latch) = self.of.edges(leaf);
        hinge + (latch - hinge).signum() * far.to_inches_f64()
    }

    fn dimensions(&self, board: &mut Board) {
        let of = self.of;
        let tall = self.header.height.to_inches_f64() * self.scale;
        let long = self.length.to_inches_f64() * self.scale;
        let span = |name: String, a: f64, b: f64, near: f64, figure: String| Span {
            name,
            from: a.min(b),
            to: a.max(b),
            near: (near, near),
            figure,
        };
        let mut above = vec![span("length of header".to_owned(), 0.0, long, tall, of.size(self.length))];
        if let Some(columns) = self.columns() {
            let ends = columns.places.first().zip(columns.places.last()).map(|(a, b)| (a * self.scale, b * self.scale));
            if let Some((first, last)) = ends {
                let spaces = columns.places.len() - 1;
                let spacing = of.short(columns.spacing);
                let figure = match (columns.on_studs, spaces) {
                    (true, _) => format!("{}, {spacing} apart", Noun::STUD.len(spaces + 1)),
                    (false, 1) => spacing,
                    (false, _) => format!("{spaces} equal spaces of {spacing}"),
                };
                if !columns.on_studs {
                    above.push(span("edge".to_owned(), 0.0, first, tall, of.short(self.back.edge)));
                }
                above.push(span("columns".to_owned(), first, last, tall, figure));
            }
        }
        if let Some(plate) = self.back.plate {
            let more = (plate - self.length).to_inches_f64() / 2.0 * self.scale;
            above.push(span(
                "length of plate".to_owned(),
                -more,
                long + more,
                tall,
                format!("{} plate", of.size(plate)),
            ));
        }
        let mut below = Vec::new();
        for leaf in &self.header.drives {
            let n = leaf + 1;
            let hinge = self.seen(of.edges(*leaf).0) * self.scale;
            let places = [("spindle", self.back.spindle), ("bracket", self.back.bracket)];
            for (word, far) in places {
                let x = self.seen(self.along(*leaf, far)) * self.scale;
                below.push(span(format!("{word} {n}"), hinge, x, -6.0, format!("{} to {word}", of.short(far))));
            }
            let end = if hinge < long / 2.0 { 0.0 } else { long };
            let beyond = (hinge - end).abs() / self.scale;
            if beyond > 0.01 {
                below.push(span(
                    format!("past hinge {n}"),
                    hinge,
                    end,
                    0.0,
                    format!("{} to hinge line", of.short(self.past_hinge())),
                ));
            }
        }
        let Some(all) = board.extent() else { return };
        string(board, Beside::Above, all.top, above);
        string(board, Beside::Below, all.bottom, below);
        let Some(all) = board.extent() else { return };
        let rows = self.rows();
        let each = rows.iter().enumerate().map(|(at, row)| {
            let to = row.to_inches_f64() * self.scale;
            let near = self.columns().map_or(0.0, |it| it.places[0] * self.scale);
            Span { name: format!("row {}", at + 1), from: 0.0, to, near: (0.0, near), figure: of.short(*row) }
        });
        let height = Span {
            name: "height of header".to_owned(),
            from: 0.0,
            to: tall,
            near: (long, long),
            figure: of.short(self.header.height),
        };
        string(board, Beside::Left, all.left, each.collect());
        string(board, Beside::Right, all.right, vec![height]);
    }

    /// From a free end of the header to the edge of its leaves: what it is longer than they are, in equal parts.
    fn past_hinge(&self) -> Length {
        let leaves: Length = self.header.leaves.iter().map(|it| self.of.leaves[*it].width).sum();
        let ends = if self.of.free_ends(self.header) == (true, true) { 2 } else { 1 };
        Length::nanometres((self.length - leaves).to_nanometres() / ends).abs()
    }

    /// The layout in words.
    fn in_words(&self) -> String {
        let of = self.of;
        let mut words = vec![format!(
            "Hole layout behind the header of {}, seen from {}: header {} long, {} high.",
            of.mark,
            of.room(self.header.room),
            of.size(self.length),
            of.short(self.header.height)
        )];
        if let Some(columns) = self.columns() {
            let rows: Vec<String> = self.rows().into_iter().map(|row| of.short(row)).collect();
            let stand = if columns.on_studs {
                "each on a stud, located on site".to_owned()
            } else {
                format!("the first {} from each end", of.short(self.back.edge))
            };
            words.push(format!(
                "{}, {stand}, spaced {}; rows {} above the lower edge.",
                Noun::COLUMN.len(columns.places.len()),
                of.short(columns.spacing),
                rows.join(" and ")
            ));
        }
        words.push(format!("Fasteners: {}.", self.back.words));
        words.join(" ")
    }
}

#[cfg(test)]
#[path = "holes_tests.rs"]
mod tests;
