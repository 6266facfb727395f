//! An opening with all that stands at it, put together; what can be asked of it.
//!
//! In: an opening of a reviewed job. Out: its leaves, headers, drives, devices, boxes, fixings. May not know: other openings.

use super::deriving::{boxes, devices, drives, form, hands, headers};
use super::{FixingWork, LeafWork, OpeningWork};
use crate::catalog::{Arm, Catalog};
use crate::engineering::{Edge, Hang, OperatorSide, Room, Swing as Sense};
use crate::job::{HingeEdge, Job, LatchKind, LeafEntry, Opening, Release, Side, Swing};
use crate::measure::Length;
use crate::mechanics::leaf_weight;

impl<'j> OpeningWork<'j> {
    pub(super) fn of(opening: &'j Opening, job: &'j Job, catalog: &'j Catalog) -> Option<Self> {
        let site = job.sites.get(&opening.site)?;
        let operator = opening.entry.operator.get().and_then(|id| catalog.operators.get(id.as_str()));
        let mut leaves: Vec<LeafWork> =
            opening.leaves.iter().enumerate().map(|(at, entry)| LeafWork::of(at + 1, entry)).collect();
        let form = form(&leaves);
        hands(form, &mut leaves);
        let headers = headers(opening, &leaves, operator, catalog);
        let drives = drives(&headers, &leaves);
        let jurisdictions: Vec<_> =
            job.head.jurisdictions.iter().filter_map(|id| catalog.jurisdictions.get(id)).collect();
        let heights: &[Length] =
            jurisdictions.iter().find(|it| !it.plate_heights.is_empty()).map_or(&[], |it| &it.plate_heights);
        let (groups, devices) = devices(opening, heights);
        let boxes = boxes(&headers, &devices);
        let fixings =
            (0..headers.len()).map(FixingWork::Header).chain((0..drives.len()).map(FixingWork::Arm)).collect();
        Some(OpeningWork {
            opening,
            site,
            operator,
            form,
            leaves,
            headers,
            drives,
            groups,
            devices,
            boxes,
            fixings,
            standby_power: jurisdictions.iter().any(|it| it.standby_power),
        })
    }

    /// Number of powered leaves.
    pub fn powered_leaves(&self) -> usize {
        self.leaves.iter().filter(|leaf| leaf.powered).count()
    }

    /// The room a side of the opening belongs to, by its name.
    pub fn room(&self, side: Side) -> Option<&str> {
        let outside = self.opening.entry.outside.get()?.as_str();
        match side {
            Side::Outside => Some(outside),
            Side::Inside => {
                self.opening.entry.between.list().iter().map(|room| room.as_str()).find(|room| *room != outside)
            }
        }
    }
}

impl<'j> LeafWork<'j> {
    fn of(number: usize, entry: &'j LeafEntry) -> Self {
        let powered = entry.powered.or(false);
        LeafWork { number, entry, hand: None, weight: leaf_weight(entry), powered }
    }

    /// How it hangs, where the facts tell it. The outside is the plan's first room.
    pub fn hang(&self) -> Option<Hang> {
        let hinges = match self.entry.hinges.get()? {
            HingeEdge::Left => Edge::Left,
            HingeEdge::Right => Edge::Right,
        };
        let swing = match self.entry.swing.get()? {
            Swing::Toward => Sense::Toward,
            Swing::Away => Sense::Away,
        };
        Some(Hang::seen_from(Room::First, hinges, swing))
    }

    /// What lets its latch go; a leaf without a latch has nothing to release.
    pub fn release(&self) -> Option<Release> {
        let without = (self.entry.latch.get() == Some(&LatchKind::None)).then_some(Release::NoLatch);
        if self.entry.release.is_absent() { without } else { self.entry.release.cloned() }
    }

    /// The side of the leaf its operator is on.
    pub fn operator_side(&self) -> Option<OperatorSide> {
        Some(match self.entry.arm.get()? {
            Arm::Push => OperatorSide::Push,
            Arm::Pull => OperatorSide::Pull,
        })
    }
}
