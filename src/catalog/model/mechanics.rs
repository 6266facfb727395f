//! Mechanics of operators, and fasteners of headers.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed, formulas.

use rust_decimal::Decimal;

use crate::catalog::words::*;
use crate::findings::Place;
use crate::measure::{Angle, Duration, Force, Length, Torque};

/// A rod and how it is cut.
#[derive(Clone, Debug)]
pub struct Rod {
    /// Lengths as delivered.
    pub lengths: Vec<Length>,
    /// The shortest to which it may be cut.
    pub shortest: Length,
    /// End that may be cut.
    pub cut_end: RodEnd,
    /// Tolerance of the cut.
    pub tolerance: Length,
}

/// A double-lever arm.
#[derive(Clone, Debug)]
pub struct PushData {
    /// Face of the header's wall to spindle.
    pub spindle_out: Length,
    /// Leaf's face to pin.
    pub pin_out: Length,
    /// Main arm.
    pub main: Length,
    /// Angle of the main arm with the leaf shut.
    pub shut: Angle,
    /// Width of arm and rod.
    pub width: Length,
}

/// A slide-track arm.
#[derive(Clone, Debug)]
pub struct PullData {
    /// Face of the header's wall, or hinge axis where concealed, to spindle.
    pub spindle_out: Length,
    /// Arm.
    pub main: Length,
    /// Leaf's face, or hinge axis where concealed, to the roller's line.
    pub track_out: Length,
    /// Start of the roller's way.
    pub track_from: Length,
    /// End of the roller's way.
    pub track_to: Length,
    /// Width of the arm.
    pub width: Length,
}

/// The back of a header.
#[derive(Clone, Debug)]
pub struct BackData {
    /// Beyond the hinge line.
    pub past_hinge: Length,
    /// Lower row of holes.
    pub lower_row: Length,
    /// Upper row of holes.
    pub upper_row: Length,
    /// Ends to first holes.
    pub edge: Length,
    /// Arm below the lower edge.
    pub arm_below: Length,
    /// Mils of its steel.
    pub mils: u32,
}

/// Torques, times and arms.
#[derive(Clone, Debug)]
pub struct Mechanics {
    /// Torque at the spindle.
    pub torque: Torque,
    /// Stall torque at the spindle.
    pub stall: Torque,
    /// Torque of spring or closer at the spindle.
    pub spring: Torque,
    /// Part handed on by arm and joints, 1 for all.
    pub efficiency: Decimal,
    /// Where back-check starts.
    pub back_check: Option<Angle>,
    /// Opening time as delivered.
    pub opens_in: Option<Duration>,
    /// Slowest opening time.
    pub slowest: Option<Duration>,
    /// Longest hold-open.
    pub holds_to: Option<Duration>,
    /// Push arm.
    pub push: Option<PushData>,
    /// Pull arm.
    pub pull: Option<PullData>,
    /// Back of the header.
    pub back: Option<BackData>,
}

/// A fastener of headers.
#[derive(Clone, Debug)]
pub struct HeaderFastener {
    /// Id.
    pub id: String,
    /// Plain words.
    pub name: String,
    /// What it goes into.
    pub into: Substrate,
    /// How its strength is calculated.
    pub sort: FastenerSort,
    /// Diameter.
    pub diameter: Option<Length>,
    /// Thread in the wood.
    pub thread: Option<Length>,
    /// Head or washer.
    pub head: Option<Length>,
    /// Tested shear.
    pub tested_shear: Option<Force>,
    /// Tested tension.
    pub tested_tension: Option<Force>,
    /// Where its data come from.
    pub source: String,
    /// Where it stands.
    pub place: Place,
}
