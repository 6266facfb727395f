//! Wires, supplies and batteries of items.
//!
//! In: their records. Out: checked values. May not know: formulas, jobs.

use rust_decimal::Decimal;

use crate::catalog::model::{Gives, TransmitterBattery, Wire};
use crate::catalog::wiring_entries::{BatteryEntry, GivesEntry, WireEntry};

pub(super) fn wire(entry: &WireEntry) -> Option<Wire> {
    Some(Wire {
        awg: entry.awg.get()?.get(),
        solid: entry.solid.or(false),
        ohms: entry.milliohms.get().map(|it| Decimal::new(i64::from(it.get()), 3)),
        friction: entry.friction.get().map(|it| it.ratio()),
        most_pull: entry.most_pull.cloned(),
    })
}

pub(super) fn gives(entry: &GivesEntry) -> Option<Gives> {
    Some(Gives {
        volts: entry.volts.cloned()?,
        amps: entry.amps.cloned()?,
        outputs: entry.outputs.get().map_or(1, |it| it.get().max(1)),
        staggered: entry.staggered.or(false),
        class_two: entry.class_two.or(true),
    })
}

pub(super) fn battery(entry: &BatteryEntry) -> Option<TransmitterBattery> {
    Some(TransmitterBattery {
        capacity: entry.capacity.get()?.get(),
        rest: entry.rest.get()?.get(),
        sending: entry.sending.cloned()?,
        sends_for: entry.sends_for.cloned()?,
        self_discharge: entry.self_discharge.get().map_or(Decimal::ZERO, |it| it.ratio()),
        uses: entry.uses.get()?.get(),
    })
}
