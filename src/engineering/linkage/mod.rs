//! Arms between drive and leaf as planar mechanisms: length of the rod, reach, torque ratio, dead points, clearances.
//!
//! In: places of spindle, bracket and track from the hinge axis, lengths of arms, angle of the open leaf. Out: the cut of a
//! rod, the course of a swing, and what is wrong with it. May not know: operators, openings.
//!
//! Frame: the hinge axis is the origin, x runs along the shut leaf, y toward the side on which the header hangs.

mod course;
mod lever;
mod place;
mod plane;
mod reaction;
mod rod;
mod stand;
mod swing;
mod track;

#[cfg(test)]
mod course_tests;
#[cfg(test)]
mod linkage_tests;

pub use course::{AtAngle, Course, LinkageFault, Obstacle};
pub use place::{HingeAxis, PullArm, PushArm, axis_to_face};
pub use rod::{RodCut, RodFault};
pub use stand::{ArmStand, Joint};

pub(super) use plane::Vector;
pub(super) use reaction::{ArmForce, Reacts, blown, stalled};
