//! Courses of swings, each followed once.
//!
//! In: an arm, the angle of the open leaf, the arm's width. Out: the course, shared. May not know: openings, operators.

use std::sync::Arc;

use super::kept::Kept;
use crate::engineering::{ArmOnHeader, Course};
use crate::measure::{Angle, Length};

/// Everything that a course follows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct Inputs {
    arm: ArmOnHeader,
    open: Angle,
    width: Length,
    scales: [u32; 2],
}

impl Inputs {
    fn of(arm: ArmOnHeader, open: Angle, width: Length) -> Self {
        let shut = match arm {
            ArmOnHeader::Push(arm) => arm.shut,
            ArmOnHeader::Pull(_) => Angle::default(),
        };
        Inputs { arm, open, width, scales: [open, shut].map(|angle| angle.to_degrees().scale()) }
    }
}

static COURSES: Kept<Inputs, Option<Arc<Course>>> = Kept::new();

/// The course of an arm to an angle of the leaf; `width` is the width of arm and rod. Nothing where a length is missing.
pub(super) fn course(arm: ArmOnHeader, open: Angle, width: Length) -> Option<Arc<Course>> {
    COURSES.of(Inputs::of(arm, open, width), |_| {
        let followed = match arm {
            ArmOnHeader::Push(arm) => arm.course(open, width),
            ArmOnHeader::Pull(arm) => arm.course(open, width),
        };
        followed.map(Arc::new)
    })
}
