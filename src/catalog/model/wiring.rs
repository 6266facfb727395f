//! Wires, supplies and batteries of items.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed, formulas.

use rust_decimal::Decimal;

use crate::measure::{Amps, Duration, Force, Volts};

/// The wire of a conductor or a cable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wire {
    /// Size.
    pub awg: u32,
    /// One wire rather than strands.
    pub solid: bool,
    /// Ohms of one conductor for 1,000 ft, where its maker gives them.
    pub ohms: Option<Decimal>,
    /// Friction in raceway.
    pub friction: Option<Decimal>,
    /// The most it may be pulled with.
    pub most_pull: Option<Force>,
}

/// What a supply gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gives {
    /// Volts.
    pub volts: Volts,
    /// Amps in all.
    pub amps: Amps,
    /// Outputs that are limited apart, at least one.
    pub outputs: u32,
    /// Starts its loads one after the other.
    pub staggered: bool,
    /// Is a class 2 source.
    pub class_two: bool,
}

/// The battery of a transmitter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TransmitterBattery {
    /// Capacity in mAh.
    pub capacity: u32,
    /// Current at rest in microamperes.
    pub rest: u32,
    /// Current while it sends.
    pub sending: Amps,
    /// How long it sends for one use.
    pub sends_for: Duration,
    /// Part of its capacity that it loses by itself in a year.
    pub self_discharge: Decimal,
    /// Uses a day.
    pub uses: u32,
}
