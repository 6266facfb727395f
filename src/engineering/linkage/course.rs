//! The course of a swing: how far an arm reaches, how well it turns the leaf, and how near it comes to what is around it.
//!
//! In: an arm, the angle of the open leaf. Out: least and greatest values with the angles at which they occur, rounded the
//! safe way, and faults. May not know: operators, openings.
//!
//! The arm is placed once every half degree; every value is read off those places, and the least of each is narrowed down
//! between its neighbors. Limits of transmission are from memory of texts on mechanisms; distance from a dead point and
//! clearance are common practice, no source.

use rust_decimal::Decimal;

use super::super::safe_rounding::{degrees, down, length_down, length_up, number, radians};
use super::lever::{Lever, LeverState};
use super::place::{PullArm, PushArm, inches};
use super::plane::Vector;
use super::swing::Swing;
use crate::measure::{Angle, Length, Unit};

/// Least angle of transmission through the swing, 30 degrees (from memory).
const LEAST_TRANSMISSION: i64 = 30;
/// How far the open leaf stays from a dead point, in degrees (common practice, no source).
const FROM_DEAD_POINT: i64 = 5;
/// How far the stop of the frame stands into the opening, 5/8 in (common practice, no source).
const STOP_DEPTH: f64 = 0.625;
/// Results are told to the sixteenth of an inch.
const SIXTEENTH: Length = Length::sixty_fourths(4);

/// A value and the angle of the leaf at which it occurs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AtAngle<T> {
    /// The value.
    pub value: T,
    /// The angle of the leaf, to a tenth of a degree.
    pub at: Angle,
}

/// The course of a swing from shut to an angle.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// The angle to which it was followed.
    pub open: Angle,
    /// Least torque at the leaf for one at the spindle, down to a thousandth.
    pub least_ratio: AtAngle<Decimal>,
    /// The same while the leaf is shut.
    pub shut_ratio: Decimal,
    /// Least angle of transmission, down to a tenth of a degree: of the rod to the leaf, or of the arm to the track.
    pub least_transmission: AtAngle<Angle>,
    /// Least distance of arm and rod from the leaf or the frame's stop, less half of their width, down to a sixteenth; below
    /// none they collide. Nothing for a track arm, which lies over the leaf.
    pub clearance: Option<AtAngle<Length>>,
    /// How far the arm reaches beyond the hinge line on the header's side, up to a sixteenth; none where it does not.
    pub past_hinges: Length,
    /// What is wrong with it.
    pub faults: Vec<LinkageFault>,
}

/// What an arm may run into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Obstacle {
    /// The face of the leaf.
    Leaf,
    /// The stop of the frame at the hinges.
    Stop,
}

/// What is wrong with the course of a swing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkageFault {
    /// Arm and rod do not reach the bracket, or the arm the track.
    OutOfReach {
        /// The angle of the leaf from which on.
        from: Angle,
    },
    /// Arm and rod come into line too near to the open leaf.
    DeadPoint {
        /// The angle of the leaf at which they are in line.
        at: Angle,
        /// The nearest at which they should be.
        nearest: Angle,
    },
    /// The rod pulls along the leaf rather than across it.
    Transmission {
        /// The least angle.
        least: AtAngle<Angle>,
        /// The least that is good practice.
        asked: Angle,
    },
    /// Arm or rod run into something.
    Collides {
        /// What.
        with: Obstacle,
        /// How deep, and where.
        by: AtAngle<Length>,
    },
    /// The roller leaves its way.
    OffTrack {
        /// How far, and where.
        by: AtAngle<Length>,
    },
}

impl PushArm {
    /// The course with the rod that fits the reveal. `width` is the width of arm and rod. Nothing where a length is missing.
    pub fn course(&self, open: Angle, width: Length) -> Option<Course> {
        let lever = self.lever()?;
        let most = radians(number(open, Unit::Degree)?);
        let (half, face) = (inches(width)? / 2.0, inches(self.axis_to_face)?);
        let wall = inches(self.axis_to_face + self.reveal)?;
        let swing = Swing::of(most, |phi| lever.at(phi));
        let mut faults: Vec<LinkageFault> = Vec::new();
        if swing.end < most {
            faults.push(LinkageFault::OutOfReach { from: angle_down(swing.end)? });
        }
        let nearest = Angle::degrees(open.to_degrees() + Decimal::from(FROM_DEAD_POINT));
        let margin = radians(number(nearest, Unit::Degree)?);
        let dead = lever.dead_points(margin).into_iter().next();
        let dead = dead.filter(|_| swing.end >= most).and_then(angle_down);
        faults.extend(dead.map(|at| LinkageFault::DeadPoint { at, nearest }));
        let ratio = swing.least(|_, it| it.ratio);
        let transmission = swing.least(|_, it| it.transmission);
        let leaf = swing.least(|phi, it| leaf_distance(&lever, phi, it, face) - half);
        let stop = swing.least(|_, it| stop_distance(&lever, it, face, wall) - half);
        for (with, found) in [(Obstacle::Leaf, leaf), (Obstacle::Stop, stop)] {
            faults.extend(found.filter(|it| it.0 < 0.0).and_then(depth).map(|by| LinkageFault::Collides { with, by }));
        }
        let nearest = [leaf, stop].into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0));
        let past = swing.least(|_, it| if it.elbow.y > wall { it.elbow.x } else { f64::INFINITY });
        let least_transmission = angle_at(transmission?)?;
        faults.extend(weak(least_transmission));
        Some(Course {
            open,
            least_ratio: ratio_at(ratio?)?,
            shut_ratio: down(lever.at(0.0)?.ratio, 3)?,
            least_transmission,
            clearance: nearest.and_then(clearance),
            past_hinges: length_up((half - past?.0).max(0.0), SIXTEENTH)?,
            faults,
        })
    }
}

impl PullArm {
    /// The course of the track arm. `width` is the width of the arm. Nothing where a length is missing.
    pub fn course(&self, open: Angle, width: Length) -> Option<Course> {
        let track = self.track()?;
        let most = radians(number(open, Unit::Degree)?);
        let half = inches(width)? / 2.0;
        let swing = Swing::of(most, |phi| track.at(phi));
        let mut faults: Vec<LinkageFault> = Vec::new();
        if swing.end < most {
            faults.push(LinkageFault::OutOfReach { from: angle_down(swing.end)? });
        }
        let inside = swing.least(|_, it| -track.beyond(it))?;
        if inside.0 < 0.0 {
            faults.extend(depth(inside).map(|by| LinkageFault::OffTrack { by }));
        }
        let least_transmission = angle_at(swing.least(|_, it| it.drive)?)?;
        faults.extend(weak(least_transmission));
        let past = swing.least(|_, it| it.roller.x.min(track.spindle.x))?;
        Some(Course {
            open,
            least_ratio: ratio_at(swing.least(|_, it| it.ratio)?)?,
            shut_ratio: down(track.at(0.0)?.ratio, 3)?,
            least_transmission,
            clearance: None,
            past_hinges: length_up((half - past.0).max(0.0), SIXTEENTH)?,
            faults,
        })
    }
}

/// Distance of the elbow from the leaf's face, where it is over the leaf.
fn leaf_distance(lever: &Lever, phi: f64, state: &LeverState, face: f64) -> f64 {
    let elbow = state.elbow.turned(-lever.sense * phi);
    if elbow.x > 0.0 { elbow.y - face } else { f64::INFINITY }
}

/// Least distance of arm and rod from the two corners of the frame's stop at the hinges.
fn stop_distance(lever: &Lever, state: &LeverState, face: f64, wall: f64) -> f64 {
    let corners = [Vector::new(STOP_DEPTH, face), Vector::new(STOP_DEPTH, wall)];
    let near =
        |corner: Vector| corner.to_segment(lever.spindle, state.elbow).min(corner.to_segment(state.elbow, state.pin));
    near(corners[0]).min(near(corners[1]))
}

fn angle_down(phi: f64) -> Option<Angle> {
    down(degrees(phi), 1).map(Angle::degrees)
}

fn angle_at((value, at): (f64, f64)) -> Option<AtAngle<Angle>> {
    Some(AtAngle { value: angle_down(value)?, at: angle_down(at)? })
}

fn ratio_at((value, at): (f64, f64)) -> Option<AtAngle<Decimal>> {
    Some(AtAngle { value: down(value, 3)?, at: angle_down(at)? })
}

fn clearance((value, at): (f64, f64)) -> Option<AtAngle<Length>> {
    Some(AtAngle { value: length_down(value, SIXTEENTH)?, at: angle_down(at)? })
}

/// A value below none as a depth above it.
fn depth((value, at): (f64, f64)) -> Option<AtAngle<Length>> {
    Some(AtAngle { value: length_up(-value, SIXTEENTH)?, at: angle_down(at)? })
}

fn weak(least: AtAngle<Angle>) -> Option<LinkageFault> {
    let asked = Angle::degrees(LEAST_TRANSMISSION);
    (least.value < asked).then_some(LinkageFault::Transmission { least, asked })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked arm of `linkage_tests`, at an angle of the main arm.
    fn arm(shut: i64) -> PushArm {
        PushArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(1),
            pin_along: Length::inches(25),
            pin_out: Length::ZERO,
            main: Length::sixty_fourths(13 * 64 + 32),
            shut: Angle::degrees(shut),
            axis_to_face: Length::sixty_fourths(96),
            reveal: Length::sixty_fourths(96),
        }
    }

    const WIDE: Length = Length::inches(1);

    /// The worked figures of `linkage_tests`: at 90° transmission 39.295 and ratio 1.4537, least at the open leaf.
    #[test]
    fn a_sound_arm_has_no_fault() {
        let course = arm(75).course(Angle::degrees(90), WIDE).unwrap();
        assert_eq!(course.faults, []);
        assert_eq!(course.shut_ratio, Decimal::new(1873, 3));
        assert_eq!(course.least_transmission.value, Angle::degrees(Decimal::new(392, 1)));
        assert!(course.least_ratio.value <= Decimal::new(1454, 3));
        assert!(course.clearance.unwrap().value > Length::inches(2));
    }

    /// At 110° the worked transmission is 25.58.
    #[test]
    fn a_wide_swing_pulls_along_the_leaf() {
        let course = arm(75).course(Angle::degrees(110), WIDE).unwrap();
        let least = AtAngle { value: Angle::degrees(Decimal::new(255, 1)), at: Angle::degrees(110) };
        assert_eq!(course.faults, [LinkageFault::Transmission { least, asked: Angle::degrees(30) }]);
    }

    /// The rod of 16.9398 does not reach at 100° (worked, `linkage_tests`), and stands near the dead point at 90.
    #[test]
    fn a_short_rod_does_not_reach_and_is_reported_before() {
        let course = arm(60).course(Angle::degrees(100), WIDE).unwrap();
        assert!(matches!(course.faults[0], LinkageFault::OutOfReach { from } if from < Angle::degrees(100)));
        let near = arm(60).course(Angle::degrees(92), WIDE).unwrap();
        assert!(near.faults.iter().any(|it| matches!(it, LinkageFault::DeadPoint { .. })), "{:?}", near.faults);
    }

    /// An arm so long that its elbow passes through the shut leaf's plane at the open angle.
    #[test]
    fn an_elbow_that_runs_into_the_leaf_is_reported() {
        let folded = PushArm { shut: Angle::degrees(-60), ..arm(75) };
        let course = folded.course(Angle::degrees(60), WIDE).unwrap();
        let hit = course.faults.iter().any(|it| matches!(it, LinkageFault::Collides { with: Obstacle::Leaf, .. }));
        assert!(hit, "{:?}", course.faults);
    }

    /// The worked track arm: the roller runs from 25.91 in out to 26.5 and back to 16.56 in between 0 and 90 degrees.
    #[test]
    fn a_track_too_short_is_left() {
        let pull = |from: i64| PullArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(3),
            main: Length::inches(17),
            track_out: Length::sixty_fourths(80),
            track_from: Length::inches(from),
            track_to: Length::inches(27),
            axis_to_face: Length::ZERO,
            reveal: Length::ZERO,
        };
        let sound = pull(16).course(Angle::degrees(90), WIDE).unwrap();
        assert_eq!(sound.faults, []);
        // 9 + 17 cos 127.081° is -1.249; half an inch of arm beyond it.
        assert_eq!(sound.past_hinges, Length::sixty_fourths(112));
        let left = pull(18).course(Angle::degrees(90), WIDE).unwrap();
        assert!(matches!(left.faults[..], [LinkageFault::OffTrack { .. }]), "{:?}", left.faults);
    }
}
