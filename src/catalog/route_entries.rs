//! What a person types of routes that are assumed: field table.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: any job.

use super::wired_words::{RouteEnd, RunKind};
use crate::input::{Count, Flag, record};
use crate::measure::Length;

record! {
    /// What is assumed of the route to a header or a device where nobody has laid one out.
    pub struct AssumedRouteEntry as "assumed route" blocks(bid, recap, schedule, packet) => AssumedRoute[place = to] {
        /// What it ends at.
        to: RouteEnd, needed, "header";
        /// Kind of raceway.
        kind: RunKind, needed, "EMT";
        /// Length that is carried for what is not known of it: to the panel, where the owner's profile carries no other, or inside the wall.
        carried: Length, needed, "40 ft";
        /// Whether the distance of a device along its wall is added.
        along: Flag, needed, "true";
        /// That distance where it is not given.
        distance: Length, needed, "4 ft";
        /// Whether the way up from the device, or from the head of the leaf, to the ceiling is added.
        up: Flag, needed, "true";
        /// Height of a ceiling that is not given.
        ceiling: Length, needed, "10 ft";
        /// Bends, in degrees.
        bends: Vec<Count>, needed, ["1" to "360"], "[90, 90]";
    }
}
