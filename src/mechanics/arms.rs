//! The arm of a leaf as a mechanism: from the operator's data, the reveal and how the leaf hangs.
//!
//! In: opening, leaf, operator. Out: arms, the course of their swing, the cut of a rod. May not know: findings.

use std::sync::Arc;

use super::courses::course;
use crate::catalog::{Arm, Mount, Operator};
use crate::engineering::{
    ArmOnHeader, Course, HingeAxis, OperatorSide, PullArm, PushArm, RodCut, RodFault, axis_to_face,
};
use crate::job::{Hanging, LeafEntry, OpeningEntry};
use crate::measure::{Angle, Length};

/// A rod is cut to the sixteenth of an inch.
const SIXTEENTH: Length = Length::sixty_fourths(4);

/// An arm and the course of its swing.
#[derive(Clone, Debug)]
pub struct Swept {
    /// The arm.
    pub arm: ArmOnHeader,
    /// The course to the open angle.
    pub course: Arc<Course>,
}

/// The angle that is checked: a full 90 degrees, and more where the leaf opens further (common practice, no source).
pub fn open_angle(leaf: &LeafEntry) -> Angle {
    let square = Angle::degrees(90);
    leaf.opens_to.get().copied().unwrap_or(square).max(square)
}

/// The arm of a leaf and the course of its swing; nothing where a value is missing.
pub fn swept(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<Swept> {
    let mechanics = operator.mechanics.as_ref()?;
    let (arm, width) = match leaf.arm.get()? {
        Arm::Push => (ArmOnHeader::Push(push_arm(opening, leaf, operator)?), mechanics.push.as_ref()?.width),
        Arm::Pull => (ArmOnHeader::Pull(pull_arm(opening, leaf, operator)?), mechanics.pull.as_ref()?.width),
    };
    Some(Swept { arm, course: course(arm, open_angle(leaf), width)? })
}

/// The rod of a push arm at the reveal of the opening.
pub fn rod_cut(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<Result<RodCut, RodFault>> {
    if leaf.arm.get() != Some(&Arm::Push) {
        return None;
    }
    let rod = operator.rod.as_ref()?;
    Some(push_arm(opening, leaf, operator)?.rod(&rod.lengths, rod.shortest, SIXTEENTH))
}

fn push_arm(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<PushArm> {
    let data = operator.mechanics.as_ref()?.push.as_ref()?;
    let (axis_to_face, reveal) = place(opening, leaf, OperatorSide::Push)?;
    Some(PushArm {
        spindle_along: operator.spindle_offset,
        spindle_out: data.spindle_out,
        pin_along: operator.bracket_offset,
        pin_out: data.pin_out,
        main: data.main,
        shut: data.shut,
        axis_to_face,
        reveal,
    })
}

fn pull_arm(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<PullArm> {
    let data = operator.mechanics.as_ref()?.pull.as_ref()?;
    let (axis_to_face, reveal) = place(opening, leaf, OperatorSide::Pull)?;
    Some(PullArm {
        spindle_along: operator.spindle_offset,
        spindle_out: data.spindle_out,
        main: data.main,
        track_out: data.track_out,
        track_from: data.track_from,
        track_to: data.track_to,
        axis_to_face,
        reveal,
    })
}

/// From the hinge axis to the leaf's face, and the reveal; a concealed operator is measured from the axis itself.
fn place(opening: &OpeningEntry, leaf: &LeafEntry, side: OperatorSide) -> Option<(Length, Length)> {
    if opening.mount.get() == Some(&Mount::Concealed) {
        return Some((Length::ZERO, Length::ZERO));
    }
    let axis = match leaf.hangs.get()? {
        Hanging::Butt | Hanging::Continuous => HingeAxis::PullFace,
        Hanging::OffsetPivot => HingeAxis::Offset,
        Hanging::CenterPivot => HingeAxis::Center,
    };
    Some((axis_to_face(*leaf.thickness.get()?, axis, side), *opening.frame.get()?.reveal.get()?))
}
