//! Where arms are fixed, in exact lengths, and the mechanism that they make.
//!
//! In: lengths from catalog and survey. Out: mechanisms in inches. May not know: who gave the lengths.

use super::super::header::OperatorSide;
use super::super::safe_rounding::{number, radians};
use super::lever::Lever;
use super::plane::Vector;
use super::track::Track;
use crate::measure::{Angle, Length, Unit};

/// Where the axis of the hinges lies in the thickness of the leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HingeAxis {
    /// In the pull face: butt and continuous hinges (common practice, no source; the knuckle stands a little proud).
    PullFace,
    /// 3/4 in before the pull face: offset pivots (from memory).
    Offset,
    /// In the middle of the leaf: center pivots.
    Center,
}

/// From the hinge axis to the face of the leaf on the operator's side; below none where the axis stands before the face.
pub fn axis_to_face(thickness: Length, axis: HingeAxis, side: OperatorSide) -> Length {
    let half = Length::nanometres(thickness.to_nanometres() / 2);
    let offset = Length::sixty_fourths(48);
    match (axis, side) {
        (HingeAxis::PullFace, OperatorSide::Push) => thickness,
        (HingeAxis::PullFace, OperatorSide::Pull) => Length::ZERO,
        (HingeAxis::Offset, OperatorSide::Push) => thickness + offset,
        (HingeAxis::Offset, OperatorSide::Pull) => -offset,
        (HingeAxis::Center, _) => half,
    }
}

/// A double-lever arm that pushes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PushArm {
    /// From the hinge axis to the spindle, along the wall.
    pub spindle_along: Length,
    /// From the face that the header hangs on to the spindle.
    pub spindle_out: Length,
    /// From the hinge axis to the pin of the leaf's bracket, along the leaf.
    pub pin_along: Length,
    /// From the leaf's face to the pin.
    pub pin_out: Length,
    /// Length of the main arm, center to center.
    pub main: Length,
    /// Angle of the main arm to the wall while the leaf is shut, from the direction of the latch edge.
    pub shut: Angle,
    /// From the hinge axis to the leaf's face.
    pub axis_to_face: Length,
    /// How far the leaf's face stands back from the face that the header hangs on.
    pub reveal: Length,
}

impl PushArm {
    /// The mechanism with the rod that fits it.
    pub(in crate::engineering) fn lever(&self) -> Option<Lever> {
        let spindle = self.axis_to_face + self.reveal + self.spindle_out;
        let spindle = Vector::new(inches(self.spindle_along)?, inches(spindle)?);
        let pin = Vector::new(inches(self.pin_along)?, inches(self.axis_to_face + self.pin_out)?);
        Some(Lever::fitted(spindle, pin, inches(self.main)?, -1.0, radians(number(self.shut, Unit::Degree)?)))
    }
}

/// A slide-track arm that pulls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PullArm {
    /// From the hinge axis to the spindle, along the wall.
    pub spindle_along: Length,
    /// From the face that the header hangs on to the spindle.
    pub spindle_out: Length,
    /// Length of the arm, from spindle to roller.
    pub main: Length,
    /// From the leaf's face to the line on which the roller runs.
    pub track_out: Length,
    /// Where the roller's way begins, from the hinge axis along the leaf.
    pub track_from: Length,
    /// Where it ends.
    pub track_to: Length,
    /// From the hinge axis to the leaf's face.
    pub axis_to_face: Length,
    /// How far the leaf's face stands back from the face that the header hangs on.
    pub reveal: Length,
}

impl PullArm {
    /// The mechanism.
    pub(in crate::engineering) fn track(&self) -> Option<Track> {
        let spindle = self.axis_to_face + self.reveal + self.spindle_out;
        Some(Track {
            spindle: Vector::new(inches(self.spindle_along)?, inches(spindle)?),
            main: inches(self.main)?,
            offset: inches(self.axis_to_face + self.track_out)?,
            start: inches(self.track_from)?,
            end: inches(self.track_to)?,
        })
    }
}

pub(super) fn inches(length: Length) -> Option<f64> {
    number(length, Unit::Inch)
}
