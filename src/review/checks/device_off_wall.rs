//! A device on a wall whose distance ends on a leaf or on the frame.
//!
//! In: an opening. Out: `device-off-wall`. May not know: how large the device is.

use super::{Check, CheckScope, LeafContext, OpeningContext};
use crate::engineering::PlanEnd;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceEntry, DeviceMount};
use crate::measure::Length;
use crate::review::access::device_words;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A device where there is no wall.
pub static CODE: Code = Code {
    id: "device-off-wall",
    severity: Severity::Warning,
    says: "the {found}, where there is no wall; the wall begins at {asked}",
    why: "The box is cut in at the given distance. The distance is from the latch edge of the leaf that the device opens; at a pair it first crosses the other leaf.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", distance = \"1 in\" }]   # on a frame of 2 in",
    blocks: Papers::NONE,
};

/// Plain sense. A sensor over the leaf has a wall behind it at any distance.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let tallest = opening.leaves().filter_map(|leaf| leaf.entry.height.cloned()).max();
    let on_wall = |device: &&DeviceEntry| device.mount.get() == Some(&DeviceMount::Wall) && device.wall.is_absent();
    for device in opening.opening.entry.device.list().iter().filter(on_wall) {
        let over_head = device.height.get().zip(tallest.as_ref()).is_some_and(|(height, leaf)| height > leaf);
        let Some(distance) = device.distance.given().filter(|_| !over_head) else { continue };
        let Some(least) = wall_begins(opening, device).filter(|least| distance.value < *least) else { continue };
        let found = format!("{} is {} from the latch edge", device_words(device), opening.length(distance.value));
        let finding = CHECK
            .finding(opening.subject())
            .at(distance.place.clone())
            .found(found)
            .asked(opening.length(least))
            .margin(format!("{} short", opening.length(least - distance.value)));
        findings.push(finding.advise(
            "write its distance from the latch edge of the leaf that it opens, including the other leaf and the frame, or change its mounting",
        ));
    }
}

/// Where the wall begins, from the latch edge of the leaf that a device opens: of several the nearest. Nothing where how one of
/// them hangs, or the width of what lies beyond it, is not known.
fn wall_begins(opening: &OpeningContext, device: &DeviceEntry) -> Option<Length> {
    let opened = |leaf: &LeafContext| match device.leaf.get() {
        Some(number) => leaf.number == number.get() as usize,
        None => leaf.powered(),
    };
    let face = opening.opening.entry.frame.get().and_then(|frame| frame.face.cloned()).unwrap_or(Length::ZERO);
    let each = opening.leaves().filter(opened).map(|leaf| Some(beyond(&leaf)? + face));
    each.collect::<Option<Vec<Length>>>()?.into_iter().min()
}

/// The width of the leaves beyond the latch edge of one.
fn beyond(leaf: &LeafContext) -> Option<Length> {
    let (before, after) = leaf.of.opening.leaves.split_at(leaf.number - 1);
    let others = match leaf.hang()?.hinges {
        PlanEnd::First => &after[1..],
        PlanEnd::Second => before,
    };
    others.iter().map(|it| it.width.cloned()).sum()
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn plate(more: &str) -> Fixture {
        with(&format!(r#"device = [{{ kind = "push plate", side = "outside", {more} }}]"#))
    }

    /// Leaves of 3 ft, the second hung at its far edge.
    const PAIR: &str = r#"leaf = [{ hinges = "left" }, { hinges = "right" }]"#;

    /// The frame has a face of 2 in.
    #[test]
    fn a_plate_on_the_face_of_the_frame_is_reported() {
        plate(r#"mount = "wall", distance = "2 in""#).passes(&CHECK);
        plate(r#"mount = "jamb", distance = "1 in""#).passes(&CHECK);
        plate(r#"mount = "post", distance = "1 in""#).passes(&CHECK);
        plate(r#"mount = "wall""#).passes(&CHECK);
        plate(r#"mount = "wall", height = "8 ft 0 in", distance = "1 in""#).passes(&CHECK);
        let (finding, at) = plate(r#"mount = "wall", distance = "1 in""#).one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"1 in\"", "2 in"));
        assert_eq!(finding.margin.as_deref(), Some("1 in short"));
    }

    /// Beyond the latch edge of either leaf lies the other, 36 in wide, and the face of 2 in.
    #[test]
    fn a_plate_on_the_other_leaf_of_a_pair_is_reported() {
        for leaf in ["", ", leaf = 1", ", leaf = 2"] {
            let at = |inches: u32| plate(&format!(r#"mount = "wall", distance = "{inches} in"{leaf}"#)).and(PAIR);
            at(38).passes(&CHECK);
            assert_eq!(at(24).one(&CHECK).0.margin.as_deref(), Some("1 ft 2 in short"), "{leaf}");
        }
    }

    /// Two leaves hung at their left edges: beyond the latch edge of the second is the wall, beyond that of the first it.
    #[test]
    fn leaves_that_follow_each_other_count_by_the_nearest_wall() {
        let follow = r#"leaf = [{ hinges = "left" }, { hinges = "left" }]"#;
        plate(r#"mount = "wall", distance = "24 in""#).and(follow).passes(&CHECK);
        plate(r#"mount = "wall", distance = "24 in", leaf = 2"#).and(follow).passes(&CHECK);
        plate(r#"mount = "wall", distance = "24 in", leaf = 1"#).and(follow).one(&CHECK);
    }
}
