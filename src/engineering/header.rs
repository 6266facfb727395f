//! Where the header of an operator hangs and which of its ends is which.
//!
//! In: how the leaf hangs, which side of it the operator is on. Out: room, drive end, supply end, bracket hand, and the
//! points of the plan. May not know: which product the operator is.

use crate::measure::Length;

use super::{Edge, Hang, PlanEnd, Room};

/// The side of the leaf on which the operator is mounted: a choice, not a consequence of the hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OperatorSide {
    /// The side that a person pushes: the leaf swings away from the header.
    Push,
    /// The side that a person pulls: the leaf swings under the header.
    Pull,
}

impl OperatorSide {
    /// Both sides.
    pub const ALL: [OperatorSide; 2] = [OperatorSide::Push, OperatorSide::Pull];
}

/// Where a header hangs; left and right are as seen from its own side, by a person who faces it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HeaderPlace {
    /// The room it hangs in.
    pub room: Room,
    /// The end at the hinges, where the drive sits.
    pub drive_end: Edge,
    /// The other end, where the supply comes in. Above one leaf of a pair it may land at the meeting stile.
    pub supply_end: Edge,
    /// The hand of the mounting brackets: it follows the drive end, not the letters of the hand (common practice, no
    /// source).
    pub bracket: Edge,
}

/// The place of the header of a leaf.
pub fn header_place(hang: Hang, operator: OperatorSide) -> HeaderPlace {
    let room = match operator {
        OperatorSide::Pull => hang.into,
        OperatorSide::Push => hang.into.other(),
    };
    let drive_end = room.edge_of(hang.hinges);
    HeaderPlace { room, drive_end, supply_end: drive_end.other(), bracket: drive_end }
}

/// A point of the plan: x along the wall from the first end, y into the second room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlanPoint {
    /// Along the wall.
    pub x: Length,
    /// Across it.
    pub y: Length,
}

/// The points of a leaf and its header in the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Plan {
    /// Hinge point, on the wall line.
    pub hinge: PlanPoint,
    /// Leaf edge when it is shut, on the wall line.
    pub shut: PlanPoint,
    /// Leaf edge when it stands open at 90 degrees: the other end of the arc.
    pub arc_end: PlanPoint,
    /// Drive, at the hinge end of the header.
    pub drive: PlanPoint,
    /// Supply, at the other end of the header.
    pub supply: PlanPoint,
    /// Where the header hangs.
    pub header: HeaderPlace,
}

/// The plan of a leaf of the given width whose header's centre line is `off_wall` from the wall line.
pub fn plan(hang: Hang, operator: OperatorSide, width: Length, off_wall: Length) -> Plan {
    let header = header_place(hang, operator);
    let (near, far) = match hang.hinges {
        PlanEnd::First => (Length::ZERO, width),
        PlanEnd::Second => (width, Length::ZERO),
    };
    let at = |x: Length, y: Length| PlanPoint { x, y };
    let header_y = off_wall * header.room.sign();
    Plan {
        hinge: at(near, Length::ZERO),
        shut: at(far, Length::ZERO),
        arc_end: at(near, width * hang.into.sign()),
        drive: at(near, header_y),
        supply: at(far, header_y),
        header,
    }
}
