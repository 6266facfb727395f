//! What a person types of the mechanics of an operator and of fasteners: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: formulas.

use super::words::*;
use crate::input::{Count, Text, record};
use crate::measure::{Angle, Duration, Force, Length, Torque};
use crate::money::Percent;

record! {
    /// A rod, and how it is cut. Its length at a measured reveal follows from the push arm.
    pub struct RodEntry as "rod" blocks(packet) => Rod {
        /// Lengths as delivered, center to center.
        lengths: Vec<Length>, needed, "[\"26 in\", \"30 in\"]";
        /// The shortest to which it may be cut.
        shortest: Length, needed, "18 in";
        /// End that may be cut; the other is kept.
        cut_end: RodEnd, needed, "joint end";
        /// How far the cut may be off.
        tolerance: Length, needed, "1/8 in";
    }
}

record! {
    /// A double-lever arm that pushes, in the plan.
    pub struct PushArmEntry as "push arm" blocks(bid, recap, schedule, packet) => PushData {
        /// From the face that the header hangs on to the spindle.
        spindle_out: Length, needed, "2 1/2 in";
        /// From the leaf's face to the pin of its bracket.
        pin_out: Length, needed, "3/4 in";
        /// Main arm, center to center.
        main: Length, needed, "13 in";
        /// Angle of the main arm to the wall, from the latch side, with the leaf shut.
        shut: Angle, needed, "90 deg";
        /// Width of arm and rod.
        width: Length, needed, "1 in";
    }
}

record! {
    /// A slide-track arm that pulls, in the plan.
    pub struct PullArmEntry as "pull arm" blocks(bid, recap, schedule, packet) => PullData {
        /// From the face that the header hangs on to the spindle; of a concealed operator, from the hinge axis.
        spindle_out: Length, needed, "2 1/2 in";
        /// Arm, from spindle to roller.
        main: Length, needed, "15 1/2 in";
        /// From the leaf's face to the line of the roller; of a concealed operator, from the hinge axis.
        track_out: Length, needed, "1 1/8 in";
        /// Where the roller's way begins, from the hinge axis along the leaf.
        track_from: Length, needed, "13 in";
        /// Where it ends.
        track_to: Length, needed, "25 in";
        /// Width of the arm.
        width: Length, needed, "1 in";
    }
}

record! {
    /// The back of a header: where fasteners go, and what they go through.
    pub struct BackEntry as "back" blocks(bid, recap, schedule, packet) => BackData {
        /// How far the header reaches beyond the hinge line, and as far beyond the leaf at its other end.
        past_hinge: Length, needed, "2 in";
        /// Lower row of holes, above the lower edge.
        lower_row: Length, needed, "1 in";
        /// Upper row of holes, above the lower edge.
        upper_row: Length, needed, "5 in";
        /// From the ends to the first holes.
        edge: Length, needed, "1 1/2 in";
        /// How far the arm lies below the lower edge.
        arm_below: Length, needed, "1/2 in";
        /// Thickness of the back in mils of sheet steel.
        mils: Count, needed, ["0" to "999"], "68";
    }
}

record! {
    /// Torques, times and arms of an operator: what its formulas need.
    pub struct MechanicsEntry as "mechanics" blocks(bid, recap, schedule, packet) => Mechanics {
        /// Torque that it gives at the spindle while it opens.
        torque: Torque, needed, "45 lbf ft";
        /// Torque at the spindle while it stalls.
        stall: Torque, needed, "60 lbf ft";
        /// Torque at the spindle that its spring or closer takes.
        spring: Torque, needed, "14 lbf ft";
        /// Part of the torque that arm and joints hand on.
        efficiency: Percent, needed, "85 %";
        /// Where back-check starts, as delivered.
        back_check: Angle, "75 deg";
        /// Opening time as delivered.
        opens_in: Duration, "4 s";
        /// Slowest opening time it can be set to.
        slowest: Duration, "12 s";
        /// Longest hold-open it can be set to.
        holds_to: Duration, "30 s";
        /// Its push arm.
        push: PushArmEntry, "{ spindle_out = \"2 1/2 in\", pin_out = \"3/4 in\" }";
        /// Its pull arm.
        pull: PullArmEntry, "{ spindle_out = \"2 1/2 in\", main = \"15 1/2 in\" }";
        /// The back of its header.
        back: BackEntry, "{ past_hinge = \"2 in\", lower_row = \"1 in\" }";
    }
}

record! {
    /// A fastener for headers in one substrate, with what it may carry.
    pub struct FastenerEntry as "fastener" => HeaderFastener {
        /// What it is.
        name: Text, needed, "#14 x 3 in wood screw";
        /// What it goes into.
        into: Substrate, needed, "wood";
        /// How its strength is calculated.
        sort: FastenerSort, needed, "wood screw";
        /// Diameter.
        diameter: Length, "0.242 in";
        /// Thread in the wood, without a tapered tip.
        thread: Length, "2 in";
        /// Diameter of head or washer.
        head: Length, "0.34 in";
        /// Tested strength in shear, without safety factor.
        tested_shear: Force, "2330 lbf";
        /// Tested strength in tension, without safety factor.
        tested_tension: Force, "2325 lbf";
        /// Where its data come from, or the report to look up.
        source: Text, needed, "NDS 12.2-2";
    }
}
