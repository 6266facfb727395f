//! Where an arm stands in the plan at an angle of the leaf.
//!
//! In: an arm, an angle. Out: its joints in inches, in the frame of `linkage`; nothing where it does not reach.
//! May not know: drawings, scales.

use super::super::mounting::ArmOnHeader;
use super::super::safe_rounding::{number, radians};
use super::plane::Vector;
use crate::measure::{Angle, Unit};

/// A joint in the plan, in inches: `x` along the shut leaf from the hinge axis, `y` toward the side of the header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joint {
    /// Along the shut leaf.
    pub x: f64,
    /// Toward the side of the header.
    pub y: f64,
}

/// The joints of an arm at one angle of the leaf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmStand {
    /// The spindle of the drive.
    pub spindle: Joint,
    /// Where main arm and rod meet; none of a track arm.
    pub elbow: Option<Joint>,
    /// The pin of the bracket on the leaf, or the roller in its track.
    pub end: Joint,
}

impl ArmOnHeader {
    /// Where its joints stand while the leaf is open by an angle.
    pub fn stand(&self, open: Angle) -> Option<ArmStand> {
        let phi = radians(number(open, Unit::Degree)?);
        match self {
            ArmOnHeader::Push(arm) => {
                let lever = arm.lever()?;
                let state = lever.at(phi)?;
                Some(ArmStand { spindle: joint(lever.spindle), elbow: Some(joint(state.elbow)), end: joint(state.pin) })
            }
            ArmOnHeader::Pull(arm) => {
                let track = arm.track()?;
                let state = track.at(phi)?;
                Some(ArmStand { spindle: joint(track.spindle), elbow: None, end: joint(state.roller) })
            }
        }
    }
}

fn joint(point: Vector) -> Joint {
    Joint { x: point.x, y: point.y }
}

#[cfg(test)]
mod tests {
    use super::super::{PullArm, PushArm};
    use super::*;
    use crate::measure::Length;

    fn far(a: Joint, b: Joint) -> f64 {
        libm::hypot(a.x - b.x, a.y - b.y)
    }

    /// A rigid linkage keeps its lengths: main arm and rod are as long open as shut, and the pin turns about the hinge axis
    /// with the leaf (plane geometry).
    #[test]
    fn a_push_arm_keeps_its_lengths_and_its_pin_turns_with_the_leaf() {
        let arm = PushArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(1),
            pin_along: Length::inches(25),
            pin_out: Length::ZERO,
            main: Length::sixty_fourths(13 * 64 + 32),
            shut: Angle::degrees(75),
            axis_to_face: Length::sixty_fourths(96),
            reveal: Length::sixty_fourths(96),
        };
        let at = |degrees: u32| ArmOnHeader::Push(arm).stand(Angle::degrees(degrees)).unwrap();
        let (shut, open) = (at(0), at(90));
        let (one, other) = (shut.elbow.unwrap(), open.elbow.unwrap());
        assert!((far(shut.spindle, one) - 13.5).abs() < 1e-9 && (far(open.spindle, other) - 13.5).abs() < 1e-9);
        assert!((far(one, shut.end) - far(other, open.end)).abs() < 1e-9);
        // Spindle 1.5 + 1.5 + 1 from the axis; the pin at (25, 1.5), turned by -90 degrees at (1.5, -25).
        assert_eq!((shut.spindle.x, shut.spindle.y), (9.0, 4.0));
        assert!(far(shut.end, Joint { x: 25.0, y: 1.5 }) < 1e-9 && far(open.end, Joint { x: 1.5, y: -25.0 }) < 1e-9);
    }

    #[test]
    fn the_roller_of_a_pull_arm_stays_on_its_track() {
        let arm = PullArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(3),
            main: Length::inches(17),
            track_out: Length::sixty_fourths(80),
            track_from: Length::inches(10),
            track_to: Length::inches(28),
            axis_to_face: Length::ZERO,
            reveal: Length::ZERO,
        };
        let at = |degrees: u32| ArmOnHeader::Pull(arm).stand(Angle::degrees(degrees)).unwrap();
        let (shut, open) = (at(0), at(90));
        assert!((far(shut.spindle, shut.end) - 17.0).abs() < 1e-9 && (far(open.spindle, open.end) - 17.0).abs() < 1e-9);
        // The track runs 1 1/4 in before the leaf's face: above it shut, to its hinge side at a right angle.
        assert!((shut.end.y - 1.25).abs() < 1e-9 && (open.end.x + 1.25).abs() < 1e-9, "{open:?}");
    }
}
