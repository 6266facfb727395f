//! What the drawings of an opening are computed from: exact lengths, with nothing in it that nobody knows.
//!
//! In: an opening of the takeoff. Out: plain data. May not know: frames, scales; what review calculates is added by whoever has it.

use crate::engineering::{
    ArmOnHeader, Edge, FloorRoom, Hand, Hang, HingeAxis, OperatorSide, PlanEnd, Room, hangs_below_head,
};
use crate::job::{DeviceKind, DeviceMount, DeviceWall};
use crate::measure::{Angle, Finest, Length, LengthForm, Style};

/// An opening as it is drawn.
#[derive(Clone, Debug)]
pub struct DrawnOpening {
    /// The opening's mark.
    pub mark: String,
    /// Names of the first room, which is the outside, and the second.
    pub rooms: [String; 2],
    /// Whether figures are feet and inches.
    pub inch: bool,
    /// Leaves.
    pub leaves: Vec<DrawnLeaf>,
    /// Headers.
    pub headers: Vec<DrawnHeader>,
    /// Frame and surroundings.
    pub frame: DrawnFrame,
    /// Devices.
    pub devices: Vec<DrawnDevice>,
    /// Clear width of a pair as measured; that of a single leaf is the leaf's own.
    pub clear: Option<Length>,
    /// Lowest and highest place of the centers of signs; none where no edition says.
    pub signs: Option<(Length, Length)>,
    /// Room to maneuver that a clause asks for.
    pub clearances: Vec<DrawnClearance>,
    /// Clear floor at a device: width along the wall and depth; none where no edition asks for it.
    pub floor_space: Option<(Length, Length)>,
    /// The room between two doors, the other door, and the clear distance to it, both shut.
    pub vestibule: Option<(Room, String, Length)>,
}

/// A leaf.
#[derive(Clone, Debug)]
pub struct DrawnLeaf {
    /// How it hangs.
    pub hang: Hang,
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
    /// Thickness.
    pub thickness: Length,
    /// The axis about which it turns.
    pub axis: HingeAxis,
    /// The angle to which it opens.
    pub opens_to: Angle,
    /// The side its operator is on; none for a leaf without a drive.
    pub operator: Option<OperatorSide>,
    /// Its hand.
    pub hand: Option<Hand>,
    /// Its arm as a mechanism; none where that is not known.
    pub arm: Option<ArmOnHeader>,
    /// Clear width that it leaves at 90 degrees; none where it has no drive, does not open so far, or that is not known.
    pub clear: Option<Length>,
}

/// A header.
#[derive(Clone, Debug)]
pub struct DrawnHeader {
    /// Positions of the leaves it spans.
    pub leaves: Vec<usize>,
    /// Positions of the leaves whose drives it carries.
    pub drives: Vec<usize>,
    /// The room it hangs in.
    pub room: Room,
    /// The end at which power enters, seen from its own room.
    pub supply_end: Edge,
    /// Length; none where nobody says it.
    pub length: Option<Length>,
    /// Height and depth of the box.
    pub height: Length,
    /// Depth of the box.
    pub depth: Length,
    /// Whether it lies in the head of the frame.
    pub concealed: bool,
    /// Its holes; none where the operator's data do not tell.
    pub back: Option<DrawnBack>,
    /// What is behind it.
    pub fixed_to: Option<&'static str>,
    /// Head room that it needs above the frame, and depth before the wall.
    pub needs: (Length, Length),
}

/// The back of a header: where it is fixed.
#[derive(Clone, Debug)]
pub struct DrawnBack {
    /// Rows of holes above its lower edge.
    pub lower_row: Length,
    /// The upper row.
    pub upper_row: Length,
    /// From its ends to the first holes.
    pub edge: Length,
    /// Hinge line to spindle, along the wall.
    pub spindle: Length,
    /// Hinge line to the bracket on the leaf.
    pub bracket: Length,
    /// Columns of fasteners; none where none is calculated.
    pub columns: Option<u32>,
    /// A plate behind it, longer than it: its length.
    pub plate: Option<Length>,
    /// Whether a plate of any kind is taken off for it.
    pub plated: bool,
    /// What the fasteners are, or why there are none.
    pub words: String,
    /// Spacing of the studs that the columns go into, wherever they are found; none where they go in anywhere.
    pub studs: Option<Length>,
}

/// Frame and surroundings.
#[derive(Clone, Copy, Debug, Default)]
pub struct DrawnFrame {
    /// Width of its face.
    pub face: Option<Length>,
    /// Its depth.
    pub depth: Option<Length>,
    /// How far the leaf stands back from the face that carries the header.
    pub reveal: Option<Length>,
    /// Height free above it.
    pub head_room: Option<Length>,
    /// Depth free before it.
    pub face_clearance: Option<Length>,
    /// Height of the header's underside, where it was measured.
    pub under_header: Option<Length>,
    /// Height of the ceiling on the header's side.
    pub ceiling: Option<Length>,
}

/// How a device reaches the operator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reached {
    /// By cable in raceway or on supports.
    Cable,
    /// By a harness inside header or leaf.
    Harness,
    /// By radio.
    Radio,
}

/// A device.
#[derive(Clone, Debug)]
pub struct DrawnDevice {
    /// Its id.
    pub id: String,
    /// What it is.
    pub kind: DeviceKind,
    /// The room it stands in.
    pub room: Room,
    /// What it is fixed to.
    pub mount: DeviceMount,
    /// The wall it is on, where that is not the door's; then no view of the door's wall shows it.
    pub wall: Option<DeviceWall>,
    /// Position of the leaf that it opens; of several, the first.
    pub leaf: usize,
    /// Height of its center.
    pub height: Option<Length>,
    /// Distance from the latch edge of its leaf.
    pub distance: Option<Length>,
    /// How it reaches the operator.
    pub reached: Reached,
}

/// Room to maneuver before a leaf, for a person who comes straight at it.
#[derive(Clone, Debug)]
pub struct DrawnClearance {
    /// The room.
    pub room: Room,
    /// Position of the leaf.
    pub leaf: usize,
    /// Depth before the wall, and width beyond the latch edge.
    pub asked: FloorRoom,
}

/// Width of a frame's face where nobody measured it, 2 in (common practice, no source); never dimensioned.
const FACE: Length = Length::inches(2);

/// Where each leaf starts along a wall, in inches from the first end, and the width of all, from hinges and widths. Hinges at
/// the first end come first.
pub(super) fn starts(leaves: impl Iterator<Item = (PlanEnd, Length)>) -> (Vec<f64>, f64) {
    let leaves: Vec<(PlanEnd, Length)> = leaves.collect();
    let mut order: Vec<usize> = (0..leaves.len()).collect();
    order.sort_by_key(|leaf| leaves[*leaf].0);
    let mut starts = vec![0.0; leaves.len()];
    let mut x = 0.0;
    for leaf in order {
        starts[leaf] = x;
        x += leaves[leaf].1.to_inches_f64();
    }
    (starts, x)
}

impl DrawnOpening {
    /// Where each leaf starts along the wall, in inches from the first end, and the width of all. Hinges at the first end come
    /// first.
    pub(super) fn starts(&self) -> (Vec<f64>, f64) {
        starts(self.leaves.iter().map(|leaf| (leaf.hang.hinges, leaf.width)))
    }

    /// The height of the tallest leaf.
    pub fn height(&self) -> Length {
        self.leaves.iter().map(|leaf| leaf.height).max().unwrap_or(Length::ZERO)
    }

    /// The name of a room.
    pub fn room(&self, room: Room) -> &str {
        let [first, second] = &self.rooms;
        if room == Room::First { first } else { second }
    }

    /// The word of a room's side.
    pub(super) fn side_word(room: Room) -> &'static str {
        if room == Room::First { "outside" } else { "inside" }
    }

    /// A size as papers print it: feet and inches, or millimetres.
    pub fn size(&self, length: Length) -> String {
        let form = match self.inch {
            true if length.abs() < Length::feet(1) => LengthForm::Inches,
            true => LengthForm::FeetInches,
            false => LengthForm::Millimetres,
        };
        length.print(form, Finest::Sixteenth, Style::Page)
    }

    /// A short dimension: inches, or millimetres.
    pub fn short(&self, length: Length) -> String {
        let form = if self.inch { LengthForm::Inches } else { LengthForm::Millimetres };
        length.print(form, Finest::ThirtySecond, Style::Page)
    }

    /// The face of the frame in inches.
    pub(super) fn face(&self) -> f64 {
        self.frame.face.unwrap_or(FACE).to_inches_f64()
    }

    /// Height of a header's lower edge: as measured, or above the head of the frame, or in it.
    pub fn underside(&self, header: &DrawnHeader) -> Length {
        let above = if header.concealed { Length::ZERO } else { self.frame.face.unwrap_or(FACE) };
        self.frame.under_header.unwrap_or(self.height() + above)
    }

    /// Whether a header hangs as a whole below the head of the frame, where nothing is behind it but a plate.
    pub fn is_dropped(&self, header: &DrawnHeader) -> bool {
        !header.concealed && hangs_below_head(self.underside(header), header.height, self.height())
    }

    /// The x of a leaf's hinge axis and of its latch edge, in inches from the first end.
    pub(super) fn edges(&self, leaf: usize) -> (f64, f64) {
        let start = self.starts().0[leaf];
        let end = start + self.leaves[leaf].width.to_inches_f64();
        match self.leaves[leaf].hang.hinges {
            PlanEnd::First => (start, end),
            PlanEnd::Second => (end, start),
        }
    }

    /// Both ends of a header along the wall, in inches from the first end: over its leaves, and beyond them at its free ends.
    pub(super) fn header_ends(&self, header: &DrawnHeader) -> (f64, f64) {
        let (from, to) = self.over(header);
        let longer = header.length.map_or(0.0, |length| length.to_inches_f64() - (to - from));
        match self.free_ends(header) {
            (true, false) => (from - longer, to),
            (false, true) => (from, to + longer),
            _ => (from - longer / 2.0, to + longer / 2.0),
        }
    }

    /// The outer edges of the leaves under a header.
    fn over(&self, header: &DrawnHeader) -> (f64, f64) {
        let edges = header.leaves.iter().flat_map(|leaf| <[f64; 2]>::from(self.edges(*leaf)));
        edges.fold((f64::INFINITY, f64::NEG_INFINITY), |all, it| (all.0.min(it), all.1.max(it)))
    }

    /// Whether the first and the second end of a header are free of another one in the same room.
    pub(super) fn free_ends(&self, header: &DrawnHeader) -> (bool, bool) {
        let own = self.over(header).0;
        let others = self.headers.iter().filter(|it| it.room == header.room && it.leaves != header.leaves);
        others.fold(
            (true, true),
            |(first, second), it| {
                if self.over(it).0 > own { (first, false) } else { (false, second) }
            },
        )
    }

    /// The header over a leaf.
    pub(super) fn header_over(&self, leaf: usize) -> Option<&DrawnHeader> {
        self.headers.iter().find(|header| header.leaves.contains(&leaf))
    }

    /// How far a device stands from the first end along the wall, in inches, and whether it is where its distance says. A
    /// distance that ends on a leaf or beyond the drawing puts it just beside the frame.
    pub(super) fn device_x(&self, device: &DrawnDevice) -> (f64, bool) {
        let (hinge, latch) = self.edges(device.leaf.min(self.leaves.len() - 1));
        let outward = (latch - hinge).signum();
        let (low, high) = (-self.face(), self.starts().1 + self.face());
        let beside = if outward > 0.0 { high + BESIDE } else { low - BESIDE };
        match device.mount {
            DeviceMount::Jamb => {
                (if outward > 0.0 { high - self.face() / 2.0 } else { low + self.face() / 2.0 }, false)
            }
            DeviceMount::Leaf => ((hinge + latch) / 2.0, false),
            DeviceMount::Header => ((low + high) / 2.0, false),
            DeviceMount::Wall | DeviceMount::Post | DeviceMount::Desk => match device.distance {
                Some(distance) => {
                    let x = latch + outward * distance.to_inches_f64();
                    let on_wall = x < low - 1.0 || x > high + 1.0;
                    let near = x > low - MOST_BESIDE && x < high + MOST_BESIDE;
                    if on_wall && near { (x, true) } else { (beside, false) }
                }
                None => (beside, false),
            },
        }
    }
}

/// Where a device without a place stands, and the farthest place that is drawn, in inches from the frame.
const BESIDE: f64 = 10.0;
const MOST_BESIDE: f64 = 96.0;
