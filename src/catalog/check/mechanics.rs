//! Mechanics of operators, rods and fasteners.
//!
//! In: their records. Out: checked values. May not know: formulas, jobs.

use super::{Check, words};
use crate::catalog::mechanics_entries::{BackEntry, MechanicsEntry, PullArmEntry, PushArmEntry, RodEntry};
use crate::catalog::model::{BackData, HeaderFastener, Mechanics, PullData, PushData, Rod};

impl Check<'_, '_, '_> {
    /// Fasteners in order of their ids.
    pub(super) fn fasteners(&self) -> Vec<HeaderFastener> {
        let each = self.all.fastener.members().filter_map(|(id, entry)| {
            Some(HeaderFastener {
                id: id.to_owned(),
                name: words(&entry.name)?,
                into: entry.into.cloned()?,
                sort: entry.sort.cloned()?,
                diameter: entry.diameter.cloned(),
                thread: entry.thread.cloned(),
                head: entry.head.cloned(),
                tested_shear: entry.tested_shear.cloned(),
                tested_tension: entry.tested_tension.cloned(),
                source: words(&entry.source)?,
                place: entry.written_at.clone()?,
            })
        });
        let mut all: Vec<HeaderFastener> = each.collect();
        all.sort_by(|a, b| a.id.cmp(&b.id));
        all
    }
}

pub(super) fn rod(entry: &RodEntry) -> Option<Rod> {
    Some(Rod {
        lengths: entry.lengths.cloned()?,
        shortest: entry.shortest.cloned()?,
        cut_end: entry.cut_end.cloned()?,
        tolerance: entry.tolerance.cloned()?,
    })
}

pub(super) fn mechanics(entry: &MechanicsEntry) -> Option<Mechanics> {
    Some(Mechanics {
        torque: entry.torque.cloned()?,
        stall: entry.stall.cloned()?,
        spring: entry.spring.cloned()?,
        efficiency: entry.efficiency.get()?.ratio(),
        back_check: entry.back_check.cloned(),
        opens_in: entry.opens_in.cloned(),
        slowest: entry.slowest.cloned(),
        holds_to: entry.holds_to.cloned(),
        push: entry.push.get().and_then(push),
        pull: entry.pull.get().and_then(pull),
        back: entry.back.get().and_then(back),
    })
}

fn push(entry: &PushArmEntry) -> Option<PushData> {
    Some(PushData {
        spindle_out: entry.spindle_out.cloned()?,
        pin_out: entry.pin_out.cloned()?,
        main: entry.main.cloned()?,
        shut: entry.shut.cloned()?,
        width: entry.width.cloned()?,
    })
}

fn pull(entry: &PullArmEntry) -> Option<PullData> {
    Some(PullData {
        spindle_out: entry.spindle_out.cloned()?,
        main: entry.main.cloned()?,
        track_out: entry.track_out.cloned()?,
        track_from: entry.track_from.cloned()?,
        track_to: entry.track_to.cloned()?,
        width: entry.width.cloned()?,
    })
}

fn back(entry: &BackEntry) -> Option<BackData> {
    Some(BackData {
        past_hinge: entry.past_hinge.cloned()?,
        lower_row: entry.lower_row.cloned()?,
        upper_row: entry.upper_row.cloned()?,
        edge: entry.edge.cloned()?,
        arm_below: entry.arm_below.cloned()?,
        mils: entry.mils.get()?.get(),
    })
}
