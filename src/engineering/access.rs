//! Geometry of getting through a door: clear widths, room to maneuver, doors in series, reach.
//!
//! In: measures of an opening and limits of an edition. Out: measures and shortfalls. May not know: any limit by itself;
//! editions are data that callers bring.

use crate::measure::Length;

/// What a standard asks, or what is there: depth before the leaf and width beyond its latch or hinges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorRoom {
    /// Depth, perpendicular to the wall.
    pub deep: Length,
    /// Width beyond.
    pub beyond: Length,
}

/// What makes a clearance grow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grows {
    /// Nothing.
    Never,
    /// A closer.
    WithCloser,
    /// A closer and a latch.
    WithCloserAndLatch,
}

/// A row of a table of maneuvering clearances.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ManeuverRow {
    /// What every leaf needs.
    pub least: FloorRoom,
    /// What is added when it grows.
    pub more: FloorRoom,
    /// When it grows.
    pub grows: Grows,
    /// What is added beyond on the exterior side of an exterior door.
    pub exterior_beyond: Length,
}

/// A leaf as a table of clearances asks of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ManeuverLeaf {
    /// Whether something closes it.
    pub closer: bool,
    /// Whether something latches it.
    pub latch: bool,
    /// Whether the side is the exterior one of an exterior door.
    pub exterior: bool,
}

impl ManeuverRow {
    /// What a leaf needs by this row.
    pub fn needed(&self, leaf: ManeuverLeaf) -> FloorRoom {
        let grows = match self.grows {
            Grows::Never => false,
            Grows::WithCloser => leaf.closer,
            Grows::WithCloserAndLatch => leaf.closer && leaf.latch,
        };
        let more = if grows { self.more } else { FloorRoom { deep: Length::ZERO, beyond: Length::ZERO } };
        let exterior = if leaf.exterior { self.exterior_beyond } else { Length::ZERO };
        FloorRoom { deep: self.least.deep + more.deep, beyond: self.least.beyond + more.beyond + exterior }
    }
}

/// What is missing of a clearance: nothing where one of the rows, which are alternatives, is met or there is none; else the
/// row that misses least, and by how much.
pub fn maneuver_shortfall(
    rows: &[ManeuverRow],
    leaf: ManeuverLeaf,
    found: FloorRoom,
) -> Option<(FloorRoom, FloorRoom)> {
    let missing = |needed: FloorRoom| FloorRoom {
        deep: (needed.deep - found.deep).max(Length::ZERO),
        beyond: (needed.beyond - found.beyond).max(Length::ZERO),
    };
    let each = rows.iter().map(|row| row.needed(leaf)).map(|needed| (needed, missing(needed)));
    each.min_by_key(|(_, missing)| missing.deep + missing.beyond)
        .filter(|(_, missing)| missing.deep + missing.beyond > Length::ZERO)
}

/// Clear width of one leaf at 90 degrees, as far as it follows from the leaf: its width less its thickness and 3/4 in for
/// the stop and the gap at the hinges (common practice, no source): what is measured on the site stands above it. A leaf on
/// pivots away from its edge leaves less, so nothing is said for one.
pub fn clear_width_at_90(width: Length, thickness: Length) -> Length {
    (width - thickness - Length::sixty_fourths(48)).max(Length::ZERO)
}

/// Distance that doors in series need between them, both shut: the clear distance and the width of each leaf that swings
/// into the space; where a turning space is asked for as well, that space clear of the leaves that swing in, if it is more.
pub fn series_needed(clear: Length, swinging_in: &[Length], turning: Option<Length>) -> Length {
    let widths: Length = swinging_in.iter().copied().sum();
    (clear + widths).max(turning.map_or(Length::ZERO, |turning| turning + widths))
}

/// A limit of reach: up to a depth of what is reached over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReachLimit {
    /// The depth up to which it holds.
    pub depth: Length,
    /// Lowest.
    pub low: Length,
    /// Highest.
    pub high: Length,
}

/// Why a device is out of reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReachFault {
    /// Too low, by so much.
    Low(ReachLimit, Length),
    /// Too high, by so much.
    High(ReachLimit, Length),
    /// Behind something deeper than any limit allows, by so much over the deepest.
    Deep(ReachLimit, Length),
}

/// Whether a device can be reached: limits by rising depth, the first that covers the depth decides.
pub fn reach_fault(limits: &[ReachLimit], over: Length, height: Length) -> Option<ReachFault> {
    let Some(limit) = limits.iter().find(|limit| over <= limit.depth) else {
        return limits.last().map(|last| ReachFault::Deep(*last, over - last.depth));
    };
    if height < limit.low {
        return Some(ReachFault::Low(*limit, limit.low - height));
    }
    (height > limit.high).then(|| ReachFault::High(*limit, height - limit.high))
}

/// How much of a floor space, centered on a device beside the latch, lies within the swing of the leaf: half its width less
/// the device's distance from the latch edge. The arc of a leaf reaches no further along the wall than its latch edge.
/// Nothing where it is clear. Centering is not required federally; a space that is moved away from the leaf is as good.
pub fn floor_in_swing(space: Length, distance: Length) -> Option<Length> {
    // Half is rounded up to the next nanometre.
    let half = Length::nanometres((space.to_nanometres() + 1).div_euclid(2));
    (distance < half).then(|| half - distance)
}

#[cfg(test)]
mod tests;
