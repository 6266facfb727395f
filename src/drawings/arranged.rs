//! From an opening of the takeoff to what its drawings are computed from.
//!
//! In: an opening as the takeoff arranged it. Out: what is drawn, or what is not known and would have to be. Lengths of headers,
//! arms, holes, clearances are for the caller to add. May not know: which paper shows it.

use super::drawn::*;
use crate::catalog::Mount;
use crate::engineering::{HingeAxis, Room, clear_width_at_90};
use crate::job::{DeviceMount, Hanging, Link, Side};
use crate::measure::{Angle, Length};
use crate::takeoff::{DeviceWork, HeaderWork, LeafWork, OpeningWork, room_of};

impl DrawnOpening {
    /// An opening as it is drawn; or what nobody knows of it, in words.
    pub fn of(work: &OpeningWork, inch: bool) -> Result<Self, Vec<&'static str>> {
        let mut missing = Vec::new();
        let mut leaves: Vec<DrawnLeaf> = work.leaves.iter().filter_map(|it| leaf(it, &mut missing)).collect();
        if leaves.is_empty() {
            missing.push("leaves");
        }
        missing.dedup();
        if !missing.is_empty() {
            return Err(missing);
        }
        let name = |side: Side| work.room(side).unwrap_or("room not given").to_owned();
        let entry = &work.opening.entry;
        let typed = entry.frame.get();
        let frame = DrawnFrame {
            face: typed.and_then(|it| it.face.cloned()),
            depth: typed.and_then(|it| it.depth.cloned()),
            reveal: typed.and_then(|it| it.reveal.cloned()),
            head_room: typed.and_then(|it| it.head_room.cloned()),
            face_clearance: typed.and_then(|it| it.face_clearance.cloned()),
            under_header: entry.access.get().and_then(|it| it.under_header.cloned()),
            ceiling: entry.ceiling.get().and_then(|it| it.height.cloned()),
        };
        // What was measured stands above what follows from the leaves.
        let mut measured = entry.access.get().and_then(|it| it.clear_width.cloned());
        if measured.is_some() {
            leaves.iter_mut().for_each(|leaf| leaf.clear = None);
        }
        if let [only] = leaves.as_mut_slice() {
            only.clear = measured.take().filter(|_| only.operator.is_some()).or(only.clear);
        }
        let first = work.leaves.iter().position(|it| it.powered).unwrap_or(0);
        Ok(DrawnOpening {
            mark: work.opening.mark.clone(),
            rooms: [name(Side::Outside), name(Side::Inside)],
            inch,
            headers: work.headers.iter().filter_map(|it| header(work, it)).collect(),
            clear: measured,
            devices: work.devices.iter().filter_map(|it| device(it, first, leaves.len())).collect(),
            leaves,
            frame,
            signs: None,
            clearances: Vec::new(),
            floor_space: None,
            vestibule: None,
        })
    }
}

fn leaf(work: &LeafWork, missing: &mut Vec<&'static str>) -> Option<DrawnLeaf> {
    let entry = work.entry;
    let mut length = |value: Option<Length>, name: &'static str| {
        if value.is_none() {
            missing.push(name);
        }
        value
    };
    let width = length(entry.width.cloned(), "leaf width");
    let height = length(entry.height.cloned(), "leaf height");
    let thickness = length(entry.thickness.cloned(), "leaf thickness");
    let hang = work.hang();
    if hang.is_none() {
        missing.push("hinges or swing");
    }
    Some(DrawnLeaf {
        hang: hang?,
        width: width?,
        height: height?,
        thickness: thickness?,
        axis: match entry.hangs.get() {
            Some(Hanging::OffsetPivot) => HingeAxis::Offset,
            Some(Hanging::CenterPivot) => HingeAxis::Center,
            Some(Hanging::Butt | Hanging::Continuous) | None => HingeAxis::PullFace,
        },
        opens_to: entry.opens_to.cloned().unwrap_or(Angle::degrees(90)),
        operator: if work.powered { work.operator_side() } else { None },
        hand: work.hand,
        arm: None,
        clear: clear(work, width?, thickness?),
    })
}

/// The clear width that a powered leaf leaves at 90 degrees, by its size. A leaf on pivots away from its edge leaves less, so
/// nothing is said for one.
fn clear(work: &LeafWork, width: Length, thickness: Length) -> Option<Length> {
    let entry = work.entry;
    let at_edge = matches!(entry.hangs.get()?, Hanging::Butt | Hanging::Continuous | Hanging::OffsetPivot);
    let far = entry.opens_to.cloned().unwrap_or(Angle::degrees(90)) >= Angle::degrees(90);
    (work.powered && at_edge && far).then(|| clear_width_at_90(width, thickness))
}

fn header(work: &OpeningWork, header: &HeaderWork) -> Option<DrawnHeader> {
    let operator = work.operator?;
    Some(DrawnHeader {
        leaves: header.leaves.clone(),
        drives: header.drives.clone(),
        room: room_of(header.side?),
        supply_end: header.supply_end?,
        length: None,
        height: operator.height,
        depth: operator.depth,
        concealed: work.opening.entry.mount.get() == Some(&Mount::Concealed),
        back: None,
        fixed_to: work.opening.entry.frame.get().and_then(|it| it.fixed_to.get()).map(|it| it.word()),
        needs: (operator.head_room, operator.face_clearance),
    })
}

fn device(work: &DeviceWork, first: usize, leaves: usize) -> Option<DrawnDevice> {
    let entry = work.entry;
    let mount = *entry.mount.get()?;
    let leaf = entry.leaf.get().and_then(|it| usize::try_from(it.get()).ok()?.checked_sub(1)).unwrap_or(first);
    let reached = match (entry.link.or(Link::Wired), mount) {
        (Link::Wireless, _) => Reached::Radio,
        (Link::Wired, DeviceMount::Header | DeviceMount::Leaf) => Reached::Harness,
        (Link::Wired, _) => Reached::Cable,
    };
    Some(DrawnDevice {
        wall: entry.wall.cloned(),
        id: work.id.clone(),
        kind: *entry.kind.get()?,
        room: entry.side.get().map_or(Room::First, |side| room_of(*side)),
        mount,
        leaf: leaf.min(leaves.saturating_sub(1)),
        height: work.height,
        distance: entry.distance.cloned(),
        reached,
    })
}
