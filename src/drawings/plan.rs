//! Plan sketch of an opening: wall, leaves shut and open, swing, observer, hands, headers with drive and supply ends.
//!
//! In: how leaves hang, widths, angles, headers, names of rooms. Out: a drawing to the largest usual scale that fits.
//! May not know: jobs, catalogs; see `opening` for the way from there to here.
//!
//! The plan is that of `engineering`: the wall along x, the first room below it on the page, the second above.

use super::pen::*;
use super::{Frame, Ruler};
use crate::engineering::{Edge, Hand, Hang, OperatorSide, PlanEnd, Room, plan};
use crate::fonts::Faces;
use crate::measure::Length;
use crate::shapes::{Anchor, Drawing, NOT_TO_SCALE, Part, Point, Shape, at};

/// A leaf of the sketch.
#[derive(Clone, Debug)]
pub struct PlanLeaf {
    /// How it hangs.
    pub hang: Hang,
    /// Its width.
    pub width: Length,
    /// The angle to which it opens, in degrees.
    pub opens_to: f64,
    /// The side its operator is on; none for a leaf without a drive.
    pub operator: Option<OperatorSide>,
    /// Its hand.
    pub hand: Option<Hand>,
}

/// A header of the sketch.
#[derive(Clone, Debug)]
pub struct PlanHeader {
    /// Positions of the leaves it spans.
    pub leaves: Vec<usize>,
    /// The room it hangs in.
    pub room: Room,
    /// The end at which power enters, seen from its own room.
    pub supply_end: Edge,
    /// How far it stands off the wall.
    pub depth: Length,
}

/// What a plan sketch shows.
#[derive(Clone, Debug)]
pub struct PlanSketch {
    /// The opening's mark.
    pub mark: String,
    /// The room of the observer.
    pub outside: Room,
    /// Names of the first and the second room.
    pub rooms: [String; 2],
    /// Thickness of the wall or depth of the frame.
    pub wall: Length,
    /// Leaves.
    pub leaves: Vec<PlanLeaf>,
    /// Headers.
    pub headers: Vec<PlanHeader>,
    /// Hinge line to spindle, and hinge line to the arm's bracket on the leaf.
    pub arm_offsets: Option<(Length, Length)>,
    /// Whether the scale is stated in inches to the foot.
    pub inch: bool,
}

/// Usual scales: points of paper for an inch of building, and what is printed. Inches to the foot, then metric.
const INCH_SCALES: [(f64, &str); 6] = [
    (6.0, "1 in = 1 ft"),
    (4.5, "3/4 in = 1 ft"),
    (3.0, "1/2 in = 1 ft"),
    (2.25, "3/8 in = 1 ft"),
    (1.5, "1/4 in = 1 ft"),
    (1.125, "3/16 in = 1 ft"),
];
const METRIC_SCALES: [(f64, &str); 5] =
    [(7.2, "1 : 10"), (3.6, "1 : 20"), (2.88, "1 : 25"), (1.44, "1 : 50"), (0.72, "1 : 100")];
/// Width of a jamb's face and thickness of a leaf in the sketch, in inches.
const JAMB: f64 = 2.0;
const LEAF: f64 = 1.75;
/// Length of a drive in the sketch, in inches.
const DRIVE: f64 = 11.0;
/// What a room's name may take of the frame's width in the faces that ship with the tool; others run wider.
const NAMES: f64 = 0.8;

/// A sketch on its frame: where an inch of building stands on paper.
struct Sheet<'a> {
    of: &'a PlanSketch,
    frame: Frame,
    scale: f64,
    /// Paper x of the first end of the opening, paper y of the wall line.
    origin: Point,
    /// Where each leaf starts along the wall, in inches.
    starts: Vec<f64>,
    /// Width of the opening in inches.
    total: f64,
    wall: f64,
}

impl PlanSketch {
    /// Draws the sketch.
    pub fn draw(&self, frame: Frame) -> Drawing {
        let (starts, total) = self.starts();
        // At either side the words at a header's ends; above and below a room's name, and the observer on the outside.
        let side = frame.text * 4.4;
        let names = frame.text * 2.0;
        let watcher = frame.text * 2.4;
        let beyond = |room: Room| names + if self.outside == room { watcher } else { 0.0 };
        let height = |scale: f64| -> f64 {
            Room::ALL.into_iter().map(|room| self.reach(room, scale, frame.text) + beyond(room)).sum()
        };
        let fits = |scale: &f64| total * scale + 2.0 * side <= frame.width && height(*scale) <= frame.height;
        let scales: &[(f64, &str)] = if self.inch { &INCH_SCALES } else { &METRIC_SCALES };
        let stated = scales.iter().copied().find(|(scale, _)| fits(scale));
        // Nothing usual fits: as small as the width asks, and taller than the frame if it must be.
        let (scale, words) = stated.unwrap_or(((frame.width - 2.0 * side) / total, NOT_TO_SCALE));
        let below = self.reach(Room::First, scale, frame.text) + beyond(Room::First);
        let above = self.reach(Room::Second, scale, frame.text) + beyond(Room::Second);
        let origin = at((frame.width - total * scale) / 2.0, below);
        let wall = self.wall.to_inches_f64();
        let sheet =
            Sheet { of: self, frame: Frame { height: below + above, ..frame }, scale, origin, starts, total, wall };
        Drawing {
            title: format!("Plan of {}", self.mark),
            alt: self.in_words(),
            scale: words.to_owned(),
            width: frame.width,
            height: below + above,
            parts: sheet.parts(),
        }
    }

    /// Where each leaf starts along the wall, and the width of all: hinges at the first end come first.
    fn starts(&self) -> (Vec<f64>, f64) {
        super::drawn::starts(self.leaves.iter().map(|leaf| (leaf.hang.hinges, leaf.width)))
    }

    /// How far anything stands out from the wall line into a room, in points; a header with two lines of words beyond it.
    fn reach(&self, room: Room, scale: f64, text: f64) -> f64 {
        let wall = self.wall.to_inches_f64() / 2.0;
        let leaves = self.leaves.iter().filter(|leaf| leaf.hang.into == room).map(|leaf| leaf.width.to_inches_f64());
        let headers = self.headers.iter().filter(|it| it.room == room);
        let headers = headers.map(|it| (wall + it.depth.to_inches_f64()) * scale + text * 2.2);
        leaves.map(|width| width * scale).chain(headers).fold(wall * scale, f64::max)
    }

    /// The sketch in words, for someone who cannot see it.
    fn in_words(&self) -> String {
        let outside = self.name(self.outside);
        let mut words = vec![format!("Plan of {}, seen from {outside}.", self.mark)];
        for (at, leaf) in self.leaves.iter().enumerate() {
            let letters = leaf.hand.map_or("hand not known", Hand::letters);
            let edge = edge_word(self.outside.edge_of(leaf.hang.hinges));
            let into = self.name(leaf.hang.into);
            let drive = if leaf.operator.is_some() { "" } else { ", no drive" };
            words.push(format!("Leaf {}: {letters}, hinges at the {edge}, swings into {into}{drive}.", at + 1));
        }
        for header in &self.headers {
            let room = self.name(header.room);
            let supply = edge_word(header.supply_end);
            words.push(format!("Header in {room}, power entry at its {supply} end, facing it."));
        }
        words.join(" ")
    }

    fn name(&self, room: Room) -> &str {
        match room {
            Room::First => &self.rooms[0],
            Room::Second => &self.rooms[1],
        }
    }
}

/// The word of an edge.
pub fn edge_word(edge: Edge) -> &'static str {
    match edge {
        Edge::Left => "left",
        Edge::Right => "right",
    }
}

impl Sheet<'_> {
    fn parts(&self) -> Vec<Part> {
        let mut parts = vec![self.walls(), self.jambs()];
        for (number, header) in self.of.headers.iter().enumerate() {
            parts.extend(self.header(number, header));
        }
        for (number, leaf) in self.of.leaves.iter().enumerate() {
            parts.extend(self.leaf(number, leaf));
        }
        parts.push(self.observer());
        parts.push(self.names());
        parts
    }

    fn point(&self, x: f64, y: f64) -> Point {
        at(self.origin.x + self.scale * x, self.origin.y + self.scale * y)
    }

    fn box_of(&self, x1: f64, y1: f64, x2: f64, y2: f64) -> (f64, f64, f64, f64) {
        let (a, b) = (self.point(x1.min(x2), y1.min(y2)), self.point(x1.max(x2), y1.max(y2)));
        (a.x, a.y, b.x, b.y)
    }

    fn walls(&self) -> Part {
        let half = self.wall / 2.0;
        let piece = |from: f64, to: f64| {
            let (_, bottom, _, top) = self.box_of(0.0, -half, 0.0, half);
            [
                filled(from, bottom, to, top, WALL),
                line(&[at(from, bottom), at(to, bottom)], OUTLINE),
                line(&[at(from, top), at(to, top)], OUTLINE),
            ]
        };
        let margin = self.frame.text;
        let left = piece(margin, self.point(-JAMB, 0.0).x);
        let right = piece(self.point(self.total + JAMB, 0.0).x, self.frame.width - margin);
        part("wall", left.into_iter().chain(right).collect())
    }

    fn jambs(&self) -> Part {
        let half = self.wall / 2.0;
        let jamb = |from: f64, to: f64| {
            let (left, bottom, right, top) = self.box_of(from, -half, to, half);
            rectangle(left, bottom, right, top, OUTLINE)
        };
        part("frame", vec![jamb(-JAMB, 0.0), jamb(self.total, self.total + JAMB)])
    }

    fn leaf(&self, number: usize, leaf: &PlanLeaf) -> Vec<Part> {
        let n = number + 1;
        let width = leaf.width.to_inches_f64();
        let start = self.starts[number];
        let (hinge_x, shut_from, outward) = match leaf.hang.hinges {
            PlanEnd::First => (start, 0.0, 1.0),
            PlanEnd::Second => (start + width, 180.0, -1.0),
        };
        let into = leaf.hang.into.sign() as f64;
        // Counterclockwise where the hinge is at the first end and the leaf goes up, and where both are the other way.
        let sweep = leaf.opens_to * outward * into;
        let hinge = self.point(hinge_x, 0.0);
        let shut = blade(hinge, shut_from, width * self.scale, LEAF * self.scale);
        let open = blade(hinge, shut_from + sweep, width * self.scale, LEAF * self.scale);
        let swing = Shape::Arc { center: hinge, radius: width * self.scale, from: shut_from, sweep, stroke: THIN };
        let pin = Shape::Fill { points: octagon(hinge, (LEAF * self.scale).max(2.0)), gray: 0.0 };
        let mut parts = vec![
            part(format!("leaf {n} shut"), vec![Shape::Line { points: shut, closed: true, stroke: DASHED }]),
            part(format!("swing {n}"), vec![swing]),
            part(format!("leaf {n} open"), vec![Shape::Line { points: open, closed: true, stroke: OUTLINE }]),
            part(format!("hinge {n}"), vec![pin]),
            self.hand(n, leaf, hinge_x + outward * width * 0.52, into * width * 0.47),
        ];
        parts.extend(self.arm(n, leaf, hinge_x, outward));
        parts
    }

    fn hand(&self, n: usize, leaf: &PlanLeaf, x: f64, y: f64) -> Part {
        let letters = leaf.hand.map_or("hand ?", Hand::letters);
        let size = self.frame.text;
        let center = self.point(x, y);
        let mut shapes = vec![bold(center, letters, size, Anchor::Middle)];
        if self.of.leaves.len() > 1 {
            shapes.push(text(at(center.x, center.y - size * 1.15), format!("leaf {n}"), size, Anchor::Middle));
        }
        part(format!("hand {n}"), shapes)
    }

    /// The arm, leaf shut: two levers of a push arm, or the one lever of a pull arm with its track on the leaf.
    fn arm(&self, n: usize, leaf: &PlanLeaf, hinge_x: f64, outward: f64) -> Option<Part> {
        let (spindle, bracket) = self.of.arm_offsets?;
        let operator = leaf.operator?;
        let header = self.of.headers.iter().find(|it| it.leaves.contains(&(n - 1)))?;
        let sign = header.room.sign() as f64;
        let middle = self.wall / 2.0 + header.depth.to_inches_f64() / 2.0;
        let from = self.point(hinge_x + outward * spindle.to_inches_f64(), sign * middle);
        let to = self.point(hinge_x + outward * bracket.to_inches_f64(), 0.0);
        let shapes = match operator {
            OperatorSide::Push => {
                let elbow = at(from.x + (to.x - from.x) * 0.62, from.y + sign * middle * self.scale * 0.55);
                vec![line(&[from, elbow, to], OUTLINE), circle(from, 1.6, OUTLINE), circle(elbow, 1.2, OUTLINE)]
            }
            OperatorSide::Pull => {
                let track = self.point(hinge_x + outward * (bracket.to_inches_f64() + 8.0), 0.0);
                let lift = sign * LEAF * self.scale;
                let rail = [at(from.x, to.y + lift), at(track.x, to.y + lift)];
                vec![line(&[from, at(to.x, to.y + lift)], OUTLINE), line(&rail, OUTLINE), circle(from, 1.6, OUTLINE)]
            }
        };
        Some(part(format!("arm {n}"), shapes))
    }

    fn header(&self, number: usize, header: &PlanHeader) -> Vec<Part> {
        let n = number + 1;
        let span = |leaf: &usize| {
            let start = self.starts[*leaf];
            (start, start + self.of.leaves[*leaf].width.to_inches_f64())
        };
        let spans: Vec<(f64, f64)> = header.leaves.iter().map(span).collect();
        let from = spans.iter().map(|span| span.0).fold(f64::INFINITY, f64::min);
        let to = spans.iter().map(|span| span.1).fold(0.0, f64::max);
        let sign = header.room.sign() as f64;
        let (near, far) = (sign * self.wall / 2.0, sign * (self.wall / 2.0 + header.depth.to_inches_f64()));
        let (left, bottom, right, top) = self.box_of(from - JAMB / 2.0, near, to + JAMB / 2.0, far);
        let mut parts = vec![part(
            format!("header {n}"),
            vec![filled(left, bottom, right, top, 1.0), rectangle(left, bottom, right, top, OUTLINE)],
        )];
        let supply = header.room.end_at(header.supply_end);
        let mut ends = [(PlanEnd::First, Vec::new()), (PlanEnd::Second, Vec::new())];
        for leaf in &header.leaves {
            let Some(drive) = self.drive(*leaf, header) else { continue };
            ends[drive.1 as usize].1.push("drive");
            parts.push(drive.0);
        }
        ends[supply as usize].1.insert(0, "supply");
        // Over one leaf of a pair an end may land at the meeting stile, where another header begins.
        let inner = |end: PlanEnd| match end {
            PlanEnd::First => from > JAMB,
            PlanEnd::Second => to < self.total - JAMB,
        };
        let sides = (left, bottom, right, top);
        parts.push(self.supply(n, supply, sides, (header.room, inner(supply))));
        let labels = ends.into_iter().filter(|(_, words)| !words.is_empty());
        let labels = labels.flat_map(|(end, words)| self.label(&words, end, sides, (header.room, inner(end))));
        parts.push(part(format!("ends {n}"), labels.collect()));
        parts
    }

    /// The drive of a leaf, at the hinge end of its header, and that end of the plan.
    fn drive(&self, leaf: usize, header: &PlanHeader) -> Option<(Part, PlanEnd)> {
        let of = &self.of.leaves[leaf];
        let middle = self.wall / 2.0 + header.depth.to_inches_f64() / 2.0;
        let points = plan(of.hang, of.operator?, of.width, Length::ZERO);
        let x = self.starts[leaf] + points.drive.x.to_inches_f64();
        let y = header.room.sign() as f64 * middle;
        let inward = if of.hang.hinges == PlanEnd::First { 1.0 } else { -1.0 };
        let half = header.depth.to_inches_f64() * 0.3;
        let long = DRIVE.min(of.width.to_inches_f64() * 0.4);
        let (left, bottom, right, top) = self.box_of(x, y - half, x + inward * long, y + half);
        let end = of.hang.hinges;
        Some((part(format!("drive {}", leaf + 1), vec![filled(left, bottom, right, top, 0.45)]), end))
    }

    /// An arrow into the end of a header at which power enters; from the room where the end has another header beside it.
    fn supply(&self, n: usize, end: PlanEnd, sides: (f64, f64, f64, f64), (room, inner): (Room, bool)) -> Part {
        let (left, bottom, right, top) = sides;
        let (x, inward) = if end == PlanEnd::First { (left, 1.0) } else { (right, -1.0) };
        let (tip, dx, dy) = match (inner, room) {
            (false, _) => (at(x, (bottom + top) / 2.0), inward, 0.0),
            (true, Room::First) => (at(x + inward * 6.0, bottom), 0.0, 1.0),
            (true, Room::Second) => (at(x + inward * 6.0, top), 0.0, -1.0),
        };
        let tail = at(tip.x - dx * 11.0, tip.y - dy * 11.0);
        part(format!("supply {n}"), vec![line(&[tail, tip], OUTLINE), arrow(tip, dx, dy)])
    }

    /// The words at an end of a header: beyond it, one below the other away from the wall; at an inner end, over it.
    fn label(
        &self,
        words: &[&str],
        end: PlanEnd,
        sides: (f64, f64, f64, f64),
        (room, inner): (Room, bool),
    ) -> Vec<Shape> {
        let (left, bottom, right, top) = sides;
        let size = self.frame.text;
        let up = room == Room::Second;
        let (x, anchor) = match (end, inner) {
            (PlanEnd::First, false) => (left - 3.0, Anchor::End),
            (PlanEnd::Second, false) => (right + 3.0, Anchor::Start),
            (PlanEnd::First, true) => (left + 10.0, Anchor::Start),
            (PlanEnd::Second, true) => (right - 10.0, Anchor::End),
        };
        let first = if up { top + 1.5 } else { bottom - size * 0.75 - 1.5 };
        let step = if up { size * 1.1 } else { -size * 1.1 };
        let lines = words.iter().enumerate();
        lines.map(|(row, word)| text(at(x, first + step * row as f64), *word, size, anchor)).collect()
    }

    /// The observer on the outside, looking at the door.
    fn observer(&self) -> Part {
        let size = self.frame.text;
        let first = self.of.outside == Room::First;
        let toward = if first { 1.0 } else { -1.0 };
        let edge = if first { size * 1.5 } else { self.frame.height - size * 1.5 };
        let x = self.frame.width / 2.0;
        let head = at(x, edge + toward * size * 0.75);
        let tip = at(x, head.y + toward * size * 1.75);
        let shoulders = [
            at(x - size * 0.8, head.y - toward * size * 0.15),
            at(x - size * 0.45, head.y - toward * size * 0.5),
            at(x + size * 0.45, head.y - toward * size * 0.5),
            at(x + size * 0.8, head.y - toward * size * 0.15),
        ];
        let shapes = vec![
            circle(head, size * 0.4, OUTLINE),
            line(&shoulders, OUTLINE),
            line(&[at(x, head.y + toward * size * 0.4), tip], THIN),
            arrow(tip, 0.0, toward),
        ];
        part("observer", shapes)
    }

    fn names(&self) -> Part {
        let size = self.frame.text;
        let x = self.frame.width / 2.0;
        let faces = Faces::built_in();
        let ruler = Ruler::new(&faces);
        let holds = |name: &str| ruler.width(name, size, true) <= NAMES * self.frame.width;
        let name = |room: Room| {
            let side = if room == self.of.outside { "outside" } else { "inside" };
            shortened(self.of.name(room), &format!(" ({side})"), holds)
        };
        let shapes = vec![
            bold(at(x, size * 0.3), name(Room::First), size, Anchor::Middle),
            bold(at(x, self.frame.height - size), name(Room::Second), size, Anchor::Middle),
        ];
        part("rooms", shapes)
    }
}

/// A name and what follows it, the name cut where there is no room for all of it: it stands whole in the head of its sheet.
fn shortened(name: &str, end: &str, holds: impl Fn(&str) -> bool) -> String {
    let whole = format!("{name}{end}");
    if holds(&whole) {
        return whole;
    }
    let letters: Vec<char> = name.chars().collect();
    let cut = |keep: usize| format!("{}…{end}", letters[..keep].iter().collect::<String>().trim_end());
    (0..letters.len()).rev().map(cut).find(|it| holds(it)).unwrap_or(whole)
}

/// The four corners of a leaf from its hinge along a direction in degrees, its thickness split on both sides.
fn blade(hinge: Point, degrees: f64, length: f64, thick: f64) -> Vec<Point> {
    let radians = degrees.to_radians();
    let (cos, sin) = (libm::cos(radians), libm::sin(radians));
    let corner =
        |along: f64, across: f64| at(hinge.x + along * cos - across * sin, hinge.y + along * sin + across * cos);
    let half = thick / 2.0;
    vec![corner(0.0, -half), corner(length, -half), corner(length, half), corner(0.0, half)]
}

/// A small octagon, which prints as a dot.
fn octagon(center: Point, radius: f64) -> Vec<Point> {
    let cut = radius * 0.414_213_562;
    [
        (radius, cut),
        (cut, radius),
        (-cut, radius),
        (-radius, cut),
        (-radius, -cut),
        (-cut, -radius),
        (cut, -radius),
        (radius, -cut),
    ]
    .map(|(x, y)| at(center.x + x, center.y + y))
    .to_vec()
}

#[cfg(test)]
#[path = "plan_tests.rs"]
mod tests;
