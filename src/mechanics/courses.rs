//! Courses of swings, each followed once.
//!
//! In: an arm, the angle of the open leaf, the arm's width. Out: the course, shared. May not know: openings, operators.
//!
//! Many doors are alike, and checks, takeoff, drawings, alternates and answers all ask for the same arm. A course follows from
//! its inputs and from nothing else, so it is kept by them, for as long as the program runs. What is kept is only ever looked
//! up, never walked, and so changes no result and no order.

use std::sync::{Arc, LazyLock, PoisonError, RwLock};

use rustc_hash::FxHashMap;

use crate::engineering::{ArmOnHeader, Course};
use crate::measure::{Angle, Length};

/// Everything that a course follows from. Angles that are equal may have been typed with different numbers of decimals, and
/// those go into the formulas too; so that it never matters which of them came first, their scales are part of the inputs.
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

/// Courses that are kept at once, at about 300 bytes each; one job has a few hundred.
const MOST_KEPT: usize = 1 << 16;

static KEPT: LazyLock<RwLock<FxHashMap<Inputs, Option<Arc<Course>>>>> = LazyLock::new(RwLock::default);

/// The course of an arm to an angle of the leaf; `width` is the width of arm and rod. Nothing where a length is missing.
pub(super) fn course(arm: ArmOnHeader, open: Angle, width: Length) -> Option<Arc<Course>> {
    let inputs = Inputs::of(arm, open, width);
    // A thread that panicked while it held the lock left whole entries behind: they are inserted in one step.
    if let Some(known) = KEPT.read().unwrap_or_else(PoisonError::into_inner).get(&inputs) {
        return known.clone();
    }
    let followed = match arm {
        ArmOnHeader::Push(arm) => arm.course(open, width),
        ArmOnHeader::Pull(arm) => arm.course(open, width),
    };
    let followed = followed.map(Arc::new);
    let mut kept = KEPT.write().unwrap_or_else(PoisonError::into_inner);
    if kept.len() >= MOST_KEPT {
        kept.clear();
    }
    kept.insert(inputs, followed.clone());
    followed
}
