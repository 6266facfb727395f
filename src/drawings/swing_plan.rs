//! Plan of an opening to scale: wall, frame, leaves shut and open, arms in both positions, headers, devices, floor that must be
//! free, dimensions.
//!
//! In: an opening as it is drawn, a frame. Out: a drawing to the largest usual scale that fits. May not know: jobs, pages.
//!
//! The plan is that of `engineering`: the wall along x, the first room, which is the outside, below it, the second above; the
//! wall's middle is y = 0. An arm stands where the linkage says, in inches from the hinge axis.

use rust_decimal::prelude::ToPrimitive;

use super::Frame;
use super::board::{Board, Titled};
use super::dimension::{Beside, Span, string};
use super::drawn::{DrawnHeader, DrawnLeaf, DrawnOpening};
use super::floor;
use super::pen::*;
use super::ruler::Ruler;
use super::scales::usual;
use crate::engineering::{ArmOnHeader, Hand, HingeAxis, Joint, PlanEnd, Room};
use crate::measure::{Angle, Length};
use crate::shapes::{Anchor, Drawing, Extent, Point, Shape, at};

/// Depth of a frame that nobody measured, 6 in (common practice, no source); never dimensioned.
const DEPTH: f64 = 6.0;
/// How far the wall goes on beside the frame, and the length of a drive, in inches.
const BEYOND: f64 = 14.0;
const DRIVE: f64 = 11.0;
/// Length of the arrow at which power enters, in points.
const SUPPLY: f64 = 12.0;

/// A plan at one scale.
pub(super) struct PlanView<'a> {
    pub of: &'a DrawnOpening,
    /// Points for an inch.
    pub scale: f64,
    /// Width of the opening, and half of the frame's depth, in inches.
    pub total: f64,
    pub half: f64,
}

/// The plan of an opening; nothing where not even the smallest scale fits the frame.
pub fn swing_plan(of: &DrawnOpening, frame: Frame, ruler: &Ruler) -> Option<Drawing> {
    usual(of.inch).iter().find_map(|scale| {
        let half = of.frame.depth.map_or(DEPTH, Length::to_inches_f64) / 2.0;
        let view = PlanView { of, scale: scale.points, total: of.starts().1, half };
        let board = view.board(ruler, frame.text)?;
        board.finish(frame, Titled { title: format!("{}: plan", of.mark), alt: view.in_words(), scale: scale.words })
    })
}

impl PlanView<'_> {
    /// From inches to paper.
    pub fn point(&self, x: f64, y: f64) -> Point {
        at(x * self.scale, y * self.scale)
    }

    fn board<'r, 'f>(&self, ruler: &'r Ruler<'f>, text: f64) -> Option<Board<'r, 'f>> {
        let mut board = Board::new(ruler, text);
        self.wall(&mut board);
        for (number, header) in self.of.headers.iter().enumerate() {
            self.header(&mut board, number, header);
        }
        for number in 0..self.of.leaves.len() {
            self.leaf(&mut board, number);
        }
        floor::draw(self, &mut board);
        for (number, leaf) in self.of.leaves.iter().enumerate() {
            self.hand(&mut board, number, leaf).then_some(())?;
        }
        floor::label(self, &mut board).then_some(())?;
        self.names(&mut board);
        self.dimensions(&mut board);
        Some(board)
    }

    fn wall(&self, board: &mut Board) {
        let face = self.of.face();
        let (low, high) = floor::reach(self);
        let (bottom, top) = (-self.half * self.scale, self.half * self.scale);
        let piece = |from: f64, to: f64| {
            let (left, right) = (from * self.scale, to * self.scale);
            [
                filled(left, bottom, right, top, WALL),
                line(&[at(left, bottom), at(right, bottom)], OUTLINE),
                line(&[at(left, top), at(right, top)], OUTLINE),
            ]
        };
        let jamb = |from: f64| rectangle(from * self.scale, bottom, (from + face) * self.scale, top, OUTLINE);
        let left = piece(low.min(-face - BEYOND), -face);
        let right = piece(self.total + face, high.max(self.total + face + BEYOND));
        board.draw("wall", left.into_iter().chain(right).collect());
        board.draw("frame", vec![jamb(-face), jamb(self.total)]);
    }

    /// The linkage's frame of a leaf: hinge axis, the way along the shut leaf, and the way to the header's room. A leaf without
    /// a header is seen from the room of the first header.
    pub fn stand(&self, number: usize) -> Stand {
        let leaf = &self.of.leaves[number];
        let header = self.of.header_over(number).or(self.of.headers.first());
        let room = header.map_or(leaf.hang.into.other(), |it| it.room);
        let toward = room.sign() as f64;
        let thick = leaf.thickness.to_inches_f64();
        let reveal = self.of.frame.reveal.map_or(self.half - thick / 2.0, Length::to_inches_f64);
        let into = leaf.hang.into == room;
        // From the axis to the face on the header's side: as the arm's mechanism has it.
        let face = match (leaf.axis, into) {
            (HingeAxis::PullFace, true) => 0.0,
            (HingeAxis::PullFace, false) => thick,
            (HingeAxis::Offset, true) => -OFFSET,
            (HingeAxis::Offset, false) => thick + OFFSET,
            (HingeAxis::Center, _) => thick / 2.0,
        };
        let along = if leaf.hang.hinges == PlanEnd::First { 1.0 } else { -1.0 };
        let axis = (self.of.edges(number).0, toward * (self.half - reveal - face));
        Stand { axis, along, toward, face, thick, turn: if into { 1.0 } else { -1.0 } }
    }

    /// A joint of the linkage's frame on paper.
    pub fn joint(&self, stand: &Stand, joint: Joint) -> Point {
        self.point(stand.axis.0 + stand.along * joint.x, stand.axis.1 + stand.toward * joint.y)
    }

    fn leaf(&self, board: &mut Board, number: usize) {
        let leaf = &self.of.leaves[number];
        let stand = self.stand(number);
        let n = number + 1;
        let width = leaf.width.to_inches_f64();
        let degrees = in_degrees(leaf.opens_to);
        let blade = |degrees: f64| -> Vec<Point> {
            let corners = [
                (0.0, stand.face),
                (width, stand.face),
                (width, stand.face - stand.thick),
                (0.0, stand.face - stand.thick),
            ];
            corners.map(|(x, y)| self.joint(&stand, turned(x, y, stand.turn * degrees))).to_vec()
        };
        let polygon = |points: Vec<Point>, stroke| Shape::Line { points, closed: true, stroke };
        board.draw(format!("leaf {n} shut"), vec![polygon(blade(0.0), DASHED)]);
        board.draw(format!("swing {n}"), vec![self.swing(&stand, width, degrees)]);
        board.draw(format!("leaf {n} open"), vec![polygon(blade(degrees), OUTLINE)]);
        // No label stands on the open leaf, where it is about square to the wall.
        let open = Extent::of_points(&blade(degrees));
        open.filter(|it| it.width() < self.scale * 8.0).into_iter().for_each(|it| board.take(it));
        let axis = self.point(stand.axis.0, stand.axis.1);
        board.draw(format!("hinge {n}"), vec![circle(axis, 1.6, OUTLINE)]);
        if let Some(arm) = &leaf.arm {
            for (word, angle, stroke) in [("shut", Angle::degrees(0), DASHED), ("open", leaf.opens_to, OUTLINE)] {
                let shapes = self.arm(&stand, arm, angle, stroke);
                if !shapes.is_empty() {
                    board.draw(format!("arm {n} {word}"), shapes);
                }
            }
        }
    }

    fn swing(&self, stand: &Stand, width: f64, degrees: f64) -> Shape {
        let center = self.point(stand.axis.0, stand.axis.1);
        let from = if stand.along > 0.0 { 0.0 } else { 180.0 };
        // Counterclockwise where along, toward and turn have an even number of signs between them.
        let sweep = degrees * stand.along * stand.toward * stand.turn;
        Shape::Arc { center, radius: width * self.scale, from, sweep, stroke: THIN }
    }

    /// An arm where the linkage puts it: spindle, elbow and pin, or spindle, roller and track.
    fn arm(&self, stand: &Stand, arm: &ArmOnHeader, angle: Angle, stroke: crate::shapes::Stroke) -> Vec<Shape> {
        let Some(stands) = arm.stand(angle) else { return Vec::new() };
        let joints: Vec<Point> = [Some(stands.spindle), stands.elbow, Some(stands.end)]
            .into_iter()
            .flatten()
            .map(|it| self.joint(stand, it))
            .collect();
        let mut shapes = vec![line(&joints, stroke)];
        shapes.extend(joints.iter().map(|it| circle(*it, 1.1, OUTLINE)));
        if let ArmOnHeader::Pull(pull) = arm {
            let away = (pull.axis_to_face + pull.track_out).to_inches_f64();
            let end =
                |along: Length| self.joint(stand, turned(along.to_inches_f64(), away, stand.turn * in_degrees(angle)));
            shapes.push(line(&[end(pull.track_from), end(pull.track_to)], stroke));
        }
        shapes
    }

    fn hand(&self, board: &mut Board, number: usize, leaf: &DrawnLeaf) -> bool {
        let stand = self.stand(number);
        let width = leaf.width.to_inches_f64();
        let letters = leaf.hand.map_or("hand not known", Hand::letters);
        let words =
            if self.of.leaves.len() > 1 { format!("{letters}, leaf {}", number + 1) } else { letters.to_owned() };
        let center = self.joint(&stand, turned(width * 0.62, 0.0, stand.turn * 42.0));
        board.label(format!("hand {}", number + 1), (center, 0.0), 1, &words, true)
    }

    fn header(&self, board: &mut Board, number: usize, header: &DrawnHeader) {
        let n = number + 1;
        let sign = header.room.sign() as f64;
        let (from, to) = self.of.header_ends(header);
        let deep = header.depth.to_inches_f64();
        let near = if header.concealed { self.half - deep } else { self.half };
        let (a, b) = (self.point(from, sign * near), self.point(to, sign * (near + deep)));
        let (bottom, top) = (a.y.min(b.y), a.y.max(b.y));
        let stroke = if header.concealed { DASHED } else { OUTLINE };
        board.draw(format!("header {n}"), vec![rectangle(a.x, bottom, b.x, top, stroke)]);
        for leaf in &header.drives {
            let stand = self.stand(*leaf);
            let long = DRIVE.min(self.of.leaves[*leaf].width.to_inches_f64() * 0.4);
            let x = stand.axis.0.clamp(from, to);
            let (one, other) = (x * self.scale, (x + stand.along * long) * self.scale);
            let inset = (top - bottom) * 0.2;
            let block = filled(one.min(other), bottom + inset, one.max(other), top - inset, 0.75);
            board.draw(format!("drive {}", leaf + 1), vec![block]);
        }
        self.supply(board, header, n, &Extent { left: a.x, bottom, right: b.x, top });
    }

    /// An arrow into the end of a header at which power enters; from the room where a device stands beside that end.
    fn supply(&self, board: &mut Board, header: &DrawnHeader, n: usize, covers: &Extent) {
        let sign = header.room.sign() as f64;
        let first = header.room.end_at(header.supply_end) == PlanEnd::First;
        let (end, inward) = if first { (covers.left, 1.0) } else { (covers.right, -1.0) };
        let middle = (covers.bottom + covers.top) / 2.0;
        let beside = Extent::of_points(&[at(end, middle), at(end - inward * SUPPLY, middle)]).map(|it| it.grown(2.0));
        let far = if sign > 0.0 { covers.top } else { covers.bottom };
        let is_free = |it: &Extent| !floor::stands_in(self, it);
        // From the room, as near to the end as no device on the jamb is in the way.
        let from_room = |step: i32| at(end + inward * (5.0 + 6.0 * f64::from(step)), far);
        let arrow_at =
            |tip: &Point| Extent::of_points(&[*tip, at(tip.x, tip.y + sign * SUPPLY)]).map(|it| it.grown(2.0));
        let (tip, along) = match beside.filter(is_free) {
            Some(_) => (at(end, middle), (inward, 0.0)),
            None => {
                let mut tips = (0..4).map(from_room);
                let free = tips.find(|tip| arrow_at(tip).is_some_and(|it| is_free(&it)));
                (free.unwrap_or_else(|| from_room(0)), (0.0, -sign))
            }
        };
        let tail = at(tip.x - along.0 * SUPPLY, tip.y - along.1 * SUPPLY);
        board.draw(format!("supply {n}"), vec![line(&[tail, tip], HEAVY), arrow(tip, along.0, along.1)]);
        Extent::of_points(&[tip, tail]).into_iter().for_each(|it| board.take(it.grown(2.0)));
    }

    /// Names of the rooms, beyond everything in them.
    fn names(&self, board: &mut Board) {
        let size = board.text;
        for room in [Room::First, Room::Second] {
            let Some(all) = board.extent() else { return };
            let words = format!("{} ({})", self.of.room(room), DrawnOpening::side_word(room));
            let y = if room == Room::First { all.bottom - size * 1.1 } else { all.top + size * 0.5 };
            board.write(
                format!("room {}", DrawnOpening::side_word(room)),
                bold(at(self.total * self.scale / 2.0, y), words, size, Anchor::Middle),
            );
        }
    }

    fn dimensions(&self, board: &mut Board) {
        let of = self.of;
        let face = of.face() * self.scale;
        let mut upright = floor::depths(self);
        if let Some(depth) = of.frame.depth {
            let half = self.half * self.scale;
            upright.push(Span {
                name: "depth of frame".to_owned(),
                from: -half,
                to: half,
                near: (-face, -face),
                figure: of.short(depth),
            });
        }
        let (below, above) = floor::widths(self);
        let Some(all) = board.extent() else { return };
        string(board, Beside::Below, all.bottom, below);
        string(board, Beside::Above, all.top, above);
        let Some(all) = board.extent() else { return };
        // The frame's depth at the left, what the floor asks for at the right.
        let (left, right) = upright.into_iter().partition(|it: &Span| it.name == "depth of frame");
        string(board, Beside::Left, all.left, left);
        string(board, Beside::Right, all.right, right);
    }

    /// The plan in words.
    fn in_words(&self) -> String {
        let of = self.of;
        let mut words = vec![format!("Plan of {}; {}, the outside, is below the wall.", of.mark, of.room(Room::First))];
        for (number, leaf) in of.leaves.iter().enumerate() {
            let letters = leaf.hand.map_or("hand not known", Hand::letters);
            let into = of.room(leaf.hang.into);
            let opens = in_degrees(leaf.opens_to);
            words.push(format!("Leaf {}: {letters}, swings into {into}, opens to {opens} degrees.", number + 1));
        }
        for (number, header) in of.headers.iter().enumerate() {
            let end = super::edge_word(header.supply_end);
            words.push(format!(
                "Header {} in {}: power entry at its {end} end, facing it.",
                number + 1,
                of.room(header.room)
            ));
        }
        words.extend(floor::in_words(of));
        words.join(" ")
    }
}

/// The axis of an offset pivot stands 3/4 in before the pull face (from memory; the same as in `engineering`).
const OFFSET: f64 = 0.75;

/// The linkage's frame of a leaf on the plan.
pub(super) struct Stand {
    /// The hinge axis, in inches of the plan.
    pub axis: (f64, f64),
    /// The way along the shut leaf: 1 to the second end, -1 to the first.
    pub along: f64,
    /// The way to the header's room.
    pub toward: f64,
    /// From the axis to the leaf's face on the header's side.
    face: f64,
    thick: f64,
    /// 1 where the leaf turns toward the header, -1 where away.
    turn: f64,
}

/// A point of the linkage's frame, turned about the hinge axis.
fn turned(x: f64, y: f64, degrees: f64) -> Joint {
    let (sin, cos) = libm::sincos(degrees.to_radians());
    Joint { x: x * cos - y * sin, y: x * sin + y * cos }
}

/// An angle in degrees.
fn in_degrees(angle: Angle) -> f64 {
    angle.to_degrees().to_f64().unwrap_or(90.0)
}

#[cfg(test)]
#[path = "swing_plan_tests.rs"]
mod tests;
