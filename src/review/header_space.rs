//! The space above and before a doorway that a header on the wall fills, and how far something that hangs there is in it.
//!
//! In: an opening with its leaves, its operator. Out: the space, how far an obstruction reaches into it. May not know: findings, papers.

use crate::catalog::Operator;
use crate::job::{LeafEntry, Mount, ObstructionEntry, OpeningEntry};
use crate::measure::Length;

/// The space of a header: from the wall out to a depth, from the floor up to a height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeaderSpace {
    /// Top of the space above the floor: underside of the header and the head room that its operator needs.
    pub top: Length,
    /// From the wall out.
    pub depth: Length,
}

/// How an obstruction stands to the space of a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clearance {
    /// Its height is not measured, or the space is not known.
    Unknown,
    /// It hangs above the space, or before it.
    Clear,
    /// Its underside is so much lower than the top of the space.
    Short(Length),
}

impl HeaderSpace {
    /// The space of the header of an opening. None where it hangs in the frame, or where it is not known how high: the underside is
    /// as measured, else the top of the frame's face above the tallest leaf.
    pub fn of(entry: &OpeningEntry, leaves: &[LeafEntry], operator: &Operator) -> Option<HeaderSpace> {
        if entry.mount.get() == Some(&Mount::Concealed) {
            return None;
        }
        let frame_top = || {
            let height = leaves.iter().filter_map(|leaf| leaf.height.cloned()).max()?;
            height.checked_plus(entry.frame.get()?.face.cloned()?)
        };
        let measured = entry.access.get().and_then(|access| access.under_header.cloned());
        let underside = measured.or_else(frame_top)?;
        Some(HeaderSpace { top: underside.checked_plus(operator.head_room)?, depth: operator.face_clearance })
    }

    /// How an obstruction stands to it. One whose distance is not typed hangs on the wall.
    pub fn clearance_of(&self, of: &ObstructionEntry) -> Clearance {
        if of.distance.is_bad() {
            return Clearance::Unknown;
        }
        let Some(underside) = of.underside.cloned() else { return Clearance::Unknown };
        if of.distance.or(Length::ZERO) >= self.depth || underside >= self.top {
            Clearance::Clear
        } else {
            Clearance::Short(self.top - underside)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::fixtures::with;

    /// The sound leaf is 7 ft high under a face of 2 in; its operator needs 6 1/4 in of head room and 5 1/2 in of depth: a space up
    /// to 92 1/4 in, and 5 1/2 in deep.
    #[test]
    fn an_obstruction_is_measured_against_the_space() {
        let at = |says: &str| {
            let (job, catalog) = with(&format!("frame = {{ in_the_way = [{says}] }}")).read();
            let opening = &job.openings[0];
            let operator = &catalog.operators[opening.entry.operator.get().unwrap().as_str()];
            let space = HeaderSpace::of(&opening.entry, &opening.leaves, operator).unwrap();
            let frame = opening.entry.frame.get().unwrap();
            (space, space.clearance_of(&frame.in_the_way.list()[0]))
        };
        let inches = |of: i64, quarters: i64| Length::inches(of) + Length::sixty_fourths(16 * quarters);
        let (space, _) = at("\"exit sign\"");
        assert_eq!((space.top, space.depth), (inches(92, 1), inches(5, 2)));
        assert_eq!(at("\"exit sign\"").1, Clearance::Unknown);
        let sign = |more: &str| at(&format!("{{ what = \"exit sign\", {more} }}")).1;
        assert_eq!(sign("underside = \"90 in\""), Clearance::Short(inches(2, 1)));
        assert_eq!(sign("underside = \"92 1/4 in\""), Clearance::Clear);
        assert_eq!(sign("underside = \"90 in\", distance = \"5 1/2 in\""), Clearance::Clear);
        assert_eq!(sign("underside = \"90 in\", distance = \"5 1/4 in\""), Clearance::Short(inches(2, 1)));
    }
}
