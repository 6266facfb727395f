//! Elevation of an opening from one of its rooms: floor, frame, leaves, header, devices, signs, drops of conduit, dimensions.
//!
//! In: an opening as it is drawn, a room, a frame. Out: a drawing to the largest usual scale that fits.
//! May not know: jobs, pages.
//!
//! In inches x runs along the wall to the viewer's right from his left end of the opening, y up from the floor.

use super::board::{Board, Titled};
use super::dimension::{Beside, Span, string};
use super::drawn::{DrawnHeader, DrawnOpening};
use super::outlets::{self, Placed};
use super::pen::*;
use super::ruler::Ruler;
use super::scales::{Scale, usual};
use super::{DrawnLeaf, Frame};
use crate::engineering::{Edge, Room};
use crate::measure::Length;
use crate::shapes::{Drawing, Extent, Point, Shape, at};

/// Length of a drive in the drawing, in inches.
const DRIVE: f64 = 11.0;
/// Half of a sign's width, in inches: a disc of 6 in (common practice, no source).
const SIGN: f64 = 3.0;
/// How far floor and wall go on beside the frame, in inches.
const BEYOND: f64 = 6.0;

/// An elevation at one scale.
pub(super) struct View<'a> {
    pub of: &'a DrawnOpening,
    pub room: Room,
    /// Points for an inch.
    pub scale: f64,
    /// Width of the opening in inches.
    pub total: f64,
}

/// The elevations of an opening from both rooms, the outside first, at one scale; nothing where not even the smallest scale fits
/// the frame of each.
pub fn elevations(of: &DrawnOpening, frame: Frame, ruler: &Ruler) -> Option<[Drawing; 2]> {
    usual(of.inch).iter().find_map(|scale| {
        let [first, second] = Room::ALL.map(|room| from_room(of, room, *scale, (frame, ruler)));
        Some([first?, second?])
    })
}

/// The elevation from a room at one scale, where it fits its frame.
fn from_room(of: &DrawnOpening, room: Room, scale: Scale, (frame, ruler): (Frame, &Ruler)) -> Option<Drawing> {
    let view = View { of, room, scale: scale.points, total: of.starts().1 };
    let board = view.board(ruler, frame.text)?;
    let title = format!("{}: elevation from {}", of.mark, of.room(room));
    board.finish(frame, Titled { title, alt: view.in_words(), scale: scale.words })
}

impl View<'_> {
    /// From inches along the wall from the first end, and above the floor, to paper.
    pub fn point(&self, x: f64, y: f64) -> Point {
        let seen = if self.room == Room::First { x } else { self.total - x };
        at(seen * self.scale, y * self.scale)
    }

    /// Both sides of a stretch of the wall on paper, left first.
    fn sides(&self, from: f64, to: f64) -> (f64, f64) {
        let (a, b) = (self.point(from, 0.0).x, self.point(to, 0.0).x);
        (a.min(b), a.max(b))
    }

    fn board<'r, 'f>(&self, ruler: &'r Ruler<'f>, text: f64) -> Option<Board<'r, 'f>> {
        let mut board = Board::new(ruler, text);
        let devices = outlets::placed(self);
        self.frame(&mut board, &devices);
        for number in 0..self.of.leaves.len() {
            self.leaf(&mut board, number);
        }
        for (number, header) in self.of.headers.iter().enumerate().filter(|(_, it)| it.room == self.room) {
            self.header(&mut board, number, header);
        }
        outlets::draw(self, &mut board, &devices).then_some(())?;
        self.across(&mut board, &devices);
        self.upright(&mut board, &devices);
        Some(board)
    }

    /// Floor and frame.
    fn frame(&self, board: &mut Board, devices: &[Placed]) {
        let face = self.of.face();
        let top = self.of.height().to_inches_f64();
        let reach = devices.iter().map(|it| it.at.x);
        let ends = self.sides(-face - BEYOND, self.total + face + BEYOND);
        let (left, right) = reach.fold(ends, |all, x| (all.0.min(x - 8.0), all.1.max(x + 8.0)));
        board.draw("floor", vec![line(&[at(left, 0.0), at(right, 0.0)], HEAVY)]);
        let (outer, inner) = (self.sides(-face, self.total + face), self.sides(0.0, self.total));
        let (over, under) = ((top + face) * self.scale, top * self.scale);
        let outline = [at(outer.0, 0.0), at(outer.0, over), at(outer.1, over), at(outer.1, 0.0)];
        let opening = [at(inner.0, 0.0), at(inner.0, under), at(inner.1, under), at(inner.1, 0.0)];
        board.draw("frame", vec![line(&outline, OUTLINE), line(&opening, OUTLINE)]);
    }

    fn leaf(&self, board: &mut Board, number: usize) {
        let leaf = &self.of.leaves[number];
        let (hinge, latch) = self.of.edges(number);
        let top = leaf.height.to_inches_f64();
        let (left, right) = self.sides(hinge, latch);
        let n = number + 1;
        board.draw(format!("leaf {n}"), vec![rectangle(left, 0.0, right, top * self.scale, OUTLINE)]);
        // The lines of the swing meet at the hinges, dashed where the leaf goes away from the viewer (common practice, no
        // source).
        let stroke = if leaf.hang.into == self.room { THIN } else { DASHED };
        let swing = [self.point(latch, top), self.point(hinge, top / 2.0), self.point(latch, 0.0)];
        board.draw(format!("swing {n}"), vec![line(&swing, stroke)]);
        if let Some((low, high)) = self.of.signs.filter(|_| leaf.operator.is_some()) {
            let center = self.point((hinge + latch) / 2.0, (low.to_inches_f64() + high.to_inches_f64()) / 2.0);
            let radius = SIGN * self.scale;
            board.draw(format!("sign {n}"), vec![circle(center, radius, OUTLINE), circle(center, radius * 0.6, THIN)]);
            board.take(Extent::around(center, radius));
        }
    }

    fn header(&self, board: &mut Board, number: usize, header: &DrawnHeader) {
        let (from, to) = self.of.header_ends(header);
        let (left, right) = self.sides(from, to);
        let low = self.of.underside(header).to_inches_f64() * self.scale;
        let high = low + header.height.to_inches_f64() * self.scale;
        let n = number + 1;
        let stroke = if header.concealed { DASHED } else { OUTLINE };
        let mut shapes = Vec::new();
        if !header.concealed {
            shapes.push(filled(left, low, right, high, 1.0));
        }
        shapes.push(rectangle(left, low, right, high, stroke));
        board.draw(format!("header {n}"), shapes);
        board.take(Extent { left, bottom: low, right, top: high });
        for leaf in &header.drives {
            board.draw(format!("drive {}", leaf + 1), vec![self.drive(*leaf, (low, high), (left, right))]);
        }
        let (x, inward) = if header.supply_end == Edge::Left { (left, 1.0) } else { (right, -1.0) };
        let tip = at(x + inward * 4.0, high);
        let tail = at(tip.x, high + 14.0);
        board.draw(format!("supply {n}"), vec![line(&[tail, tip], HEAVY), arrow(tip, 0.0, -1.0)]);
        board.take(Extent { left: tip.x - 2.0, bottom: high, right: tip.x + 2.0, top: tail.y });
    }

    /// The drive, at the hinge end of its leaf.
    fn drive(&self, leaf: usize, (low, high): (f64, f64), (left, right): (f64, f64)) -> Shape {
        let (hinge, latch) = self.of.edges(leaf);
        let inward = if self.point(latch, 0.0).x > self.point(hinge, 0.0).x { 1.0 } else { -1.0 };
        let x = self.point(hinge, 0.0).x.clamp(left + 1.0, right - 1.0);
        let long = DRIVE.min((hinge - latch).abs() * 0.4) * self.scale;
        let inset = (high - low) * 0.2;
        let (a, b) = (x, x + inward * long);
        filled(a.min(b), low + inset, a.max(b), high - inset, 0.6)
    }

    /// Dimensions along the floor and along the headers.
    fn across(&self, board: &mut Board, devices: &[Placed]) {
        let ordered = |a: f64, b: f64| if a < b { (a, b) } else { (b, a) };
        let mut spans = Vec::new();
        for (number, leaf) in self.of.leaves.iter().enumerate() {
            let (hinge, latch) = self.of.edges(number);
            let (from, to) = self.sides(hinge, latch);
            let name = format!("width of leaf {}", number + 1);
            spans.push(Span { name, from, to, near: (0.0, 0.0), figure: self.of.size(leaf.width) });
        }
        let mut reported: Vec<(usize, Length)> = Vec::new();
        for device in devices.iter().filter(|it| it.in_place) {
            let Some(distance) = device.of.distance.filter(|it| !reported.contains(&(device.of.leaf, *it))) else {
                continue;
            };
            reported.push((device.of.leaf, distance));
            let latch = self.point(self.of.edges(device.of.leaf).1, 0.0).x;
            let (from, to) = ordered(latch, device.wanted);
            let name = format!("distance of {}", device.of.id);
            spans.push(Span { name, from, to, near: (0.0, 0.0), figure: self.of.size(distance) });
        }
        let below = board.extent().map_or(0.0, |it| it.bottom.min(0.0));
        string(board, Beside::Below, below, spans);
        let mut over = Vec::new();
        for (number, header) in self.of.headers.iter().enumerate().filter(|(_, it)| it.room == self.room) {
            let Some(length) = header.length else { continue };
            let (from, to) = self.of.header_ends(header);
            let (from, to) = self.sides(from, to);
            let top = (self.of.underside(header) + header.height).to_inches_f64() * self.scale;
            let name = format!("length of header {}", number + 1);
            over.push(Span { name, from, to, near: (top, top), figure: self.of.size(length) });
        }
        let above = board.extent().map_or(0.0, |it| it.top);
        string(board, Beside::Above, above, over);
    }

    /// Dimensions above the floor.
    fn upright(&self, board: &mut Board, devices: &[Placed]) {
        let Some(all) = board.extent() else { return };
        let (left, right) = self.sides(0.0, self.total);
        let mut spans: [Vec<Span>; 2] = [Vec::new(), Vec::new()];
        let mut add = |beside: usize, name: String, height: Length, near: f64| {
            let figure = self.of.size(height);
            let known = spans[beside].iter_mut().find(|it| it.figure == figure);
            match known {
                // Of two at one height the one nearer to the string has the line.
                Some(span) => {
                    let nearer = if beside == 0 { near.min(span.near.1) } else { near.max(span.near.1) };
                    span.near = (span.near.0, nearer);
                }
                None => {
                    let floor = if beside == 0 { all.left } else { all.right };
                    let to = height.to_inches_f64() * self.scale;
                    spans[beside].push(Span { name, from: 0.0, to, near: (floor, near), figure });
                }
            }
        };
        for (number, leaf) in self.of.leaves.iter().enumerate() {
            add(0, format!("height of leaf {}", number + 1), leaf.height, left);
        }
        for (number, header) in self.of.headers.iter().enumerate().filter(|(_, it)| it.room == self.room) {
            let (from, to) = self.of.header_ends(header);
            let name = format!("underside of header {}", number + 1);
            add(0, name, self.of.underside(header), self.sides(from, to).0);
        }
        for device in devices {
            let Some(height) = device.of.height else { continue };
            let beside = usize::from(device.at.x > (left + right) / 2.0);
            add(beside, format!("height of {}", device.of.id), height, device.at.x);
        }
        let [of_left, of_right] = spans;
        string(board, Beside::Left, all.left, of_left);
        string(board, Beside::Right, all.right, of_right);
    }

    /// The elevation in words.
    fn in_words(&self) -> String {
        let of = self.of;
        let mut words = vec![format!(
            "Elevation of {} from {}, the {}.",
            of.mark,
            of.room(self.room),
            DrawnOpening::side_word(self.room)
        )];
        words.extend(of.leaves.iter().enumerate().map(|(at, leaf)| self.leaf_words(at, leaf)));
        for (at, header) in of.headers.iter().enumerate().filter(|(_, it)| it.room == self.room) {
            let length = header.length.map_or("length not known".to_owned(), |it| format!("{} long", of.size(it)));
            let under = of.size(of.underside(header));
            let end = super::edge_word(header.supply_end);
            words.push(format!(
                "Header {}: {length}, underside {under} above the floor, power entry at its {end} end.",
                at + 1
            ));
        }
        words.extend(outlets::in_words(self));
        words.join(" ")
    }

    fn leaf_words(&self, number: usize, leaf: &DrawnLeaf) -> String {
        let edge = super::edge_word(self.room.edge_of(leaf.hang.hinges));
        let swing = if leaf.hang.into == self.room { "toward" } else { "away from" };
        let drive = if leaf.operator.is_some() { "" } else { ", without a drive" };
        let (width, height) = (self.of.size(leaf.width), self.of.size(leaf.height));
        format!(
            "Leaf {}: {width} wide, {height} high, hinges at the {edge}, swings {swing} the viewer{drive}.",
            number + 1
        )
    }
}

#[cfg(test)]
#[path = "elevation_tests.rs"]
mod tests;
