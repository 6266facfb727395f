//! From an opening of the takeoff to its plan sketch.
//!
//! In: an opening as the takeoff arranged it. Out: its plan; none while a width, hinge edge or swing is not known.
//! May not know: which paper shows it.

use rust_decimal::prelude::ToPrimitive;

use super::{Frame, PlanHeader, PlanLeaf, PlanSketch};
use crate::engineering::Room;
use crate::job::Side;
use crate::measure::Length;
use crate::shapes::Drawing;
use crate::takeoff::{LeafWork, OpeningWork, room_of};

/// The plan sketch of an opening, the outside below.
pub fn opening_plan(work: &OpeningWork, inch: bool, frame: Frame) -> Option<Drawing> {
    let leaves: Option<Vec<PlanLeaf>> = work.leaves.iter().map(leaf).collect();
    let typed = work.opening.entry.frame.get();
    let depth = work.operator.map_or(Length::inches(5), |operator| operator.depth);
    let headers = work.headers.iter().filter_map(|header| {
        Some(PlanHeader {
            leaves: header.leaves.clone(),
            room: room_of(header.side?),
            supply_end: header.supply_end?,
            depth,
        })
    });
    let name = |side: Side| work.room(side).unwrap_or("not given").to_owned();
    let sketch = PlanSketch {
        mark: work.opening.mark.clone(),
        outside: Room::First,
        rooms: [name(Side::Outside), name(Side::Inside)],
        wall: typed.and_then(|it| it.depth.cloned()).unwrap_or(Length::inches(6)),
        leaves: leaves?,
        headers: headers.collect(),
        arm_offsets: work.operator.map(|operator| (operator.spindle_offset, operator.bracket_offset)),
        inch,
    };
    (!sketch.leaves.is_empty()).then(|| sketch.draw(frame))
}

fn leaf(work: &LeafWork) -> Option<PlanLeaf> {
    let angle = work.entry.opens_to.get().and_then(|angle| angle.to_degrees().to_f64());
    Some(PlanLeaf {
        hang: work.hang()?,
        width: *work.entry.width.get()?,
        opens_to: angle.unwrap_or(90.0),
        operator: if work.powered { work.operator_side() } else { None },
        hand: work.hand,
    })
}
