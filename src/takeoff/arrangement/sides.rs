//! The sides of an opening as rooms of the plan.
//!
//! In: a side or a room. Out: the other. May not know: any one opening.

use crate::engineering::Room;
use crate::job::Side;

/// The side of the opening a room of the plan is on.
pub fn side_of(room: Room) -> Side {
    match room {
        Room::First => Side::Outside,
        Room::Second => Side::Inside,
    }
}

/// The room of the plan on a side of the opening.
pub fn room_of(side: Side) -> Room {
    match side {
        Side::Outside => Room::First,
        Side::Inside => Room::Second,
    }
}
