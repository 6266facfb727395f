//! What a person types of wires, supplies and batteries of items: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: formulas.

use rust_decimal::Decimal;

use super::words::Group;
use crate::input::{Count, Flag, record};
use crate::measure::{Amps, Duration, Force, Volts};
use crate::money::Percent;

record! {
    /// The wire of an item that is a conductor, or a cable of several.
    pub struct WireEntry as "wire" => #[derive(Copy)] Wire {
        /// Size.
        awg: Count, needed, ["0" to "40"], "12";
        /// Whether each conductor is one wire; left out, it is stranded.
        solid: Flag, default(false), "false";
        /// Milliohms of one conductor for 1,000 ft, by its maker, for a size that the published table does not hold.
        milliohms: Count, ["0" to "200000"], "16500";
        /// Friction in raceway, by its maker's data.
        friction: Percent, "40 %";
        /// The most that a bundle of it may be pulled with, by its maker's data.
        most_pull: Force, "150 lbf";
    }
}

impl Wire {
    /// Ohms of one conductor for 1,000 ft, where its maker gives them.
    pub fn ohms(&self) -> Option<Decimal> {
        self.milliohms.map(|it| Decimal::new(i64::from(it), 3))
    }
}

record! {
    /// What an item that is a supply gives.
    pub struct GivesEntry as "gives" => Gives {
        /// Volts.
        volts: Volts, needed, "24 V";
        /// Amps of all its outputs together.
        amps: Amps, needed, "4 A";
        /// Outputs that are limited apart; left out, one.
        outputs: Count, default(1), ["0" to "64"], "4";
        /// Whether it starts its loads one after the other.
        staggered: Flag, default(false), "true";
        /// Whether it is a class 2 source; left out, yes.
        class_two: Flag, default(true), "true";
        /// Groups of items that it feeds; left out, latch releases, and what is there already and takes our power.
        feeds: Vec<Group>, "[\"sensor\"]";
    }
}

impl Gives {
    /// Whether it feeds items of a group.
    pub fn feeds_group(&self, group: Group) -> bool {
        if self.feeds.is_empty() { group == Group::LatchRelease } else { self.feeds.contains(&group) }
    }
}

record! {
    /// The battery of an item that sends by radio, and what draws on it.
    pub struct BatteryEntry as "battery" => #[derive(Copy)] TransmitterBattery {
        /// Capacity in mAh.
        capacity: Count, needed, ["0" to "500000"], "1000";
        /// Current at rest, in microamperes.
        rest: Count, needed, ["0" to "500000"], "5";
        /// Current while it sends.
        sending: Amps, needed, "0.04 A";
        /// How long it sends for one use.
        sends_for: Duration, needed, "0.5 s";
        /// Part of its capacity that it loses by itself in a year.
        self_discharge: Percent, default(Percent::new(0)), "2 %";
        /// Uses a day, where the job does not say.
        uses: Count, needed, ["0" to "50000"], "200";
    }
}
