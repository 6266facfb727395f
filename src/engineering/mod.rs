//! Pure formulas and published tables of doors, operators and raceways.
//!
//! In: measures and plain facts. Out: measures and counts; every function says its formula, units and source.
//! May not know: jobs, catalogs, money, findings. What is marked "from memory" or "common practice" is for a warning or
//! a check on the site, never for a hard rule.

mod access;
mod air_pressure;
mod battery;
mod bends;
mod box_fill;
mod branch_circuits;
mod conductors;
mod conduit_fill;
mod couplings;
mod entries;
mod hand;
mod header;
mod leaf_energy;
mod leaf_motion;
mod leaf_weight;
mod linkage;
mod low_voltage;
mod mounting;
mod opening_torque;
mod pulls;
#[cfg(test)]
mod random_tests;
mod safe_rounding;
mod shortest_path;
mod staged_access;
mod supplies;
mod supports;
mod voltage_drop;

pub use access::{
    FloorRoom, Grows, ManeuverLeaf, ManeuverRow, ReachFault, ReachLimit, clear_width_at_90, floor_in_swing,
    maneuver_shortfall, reach_fault, series_needed,
};
pub use air_pressure::{PushedLeaf, stack_pressure, wind_pressure};
pub use battery::{Battery, battery_years};
pub use bends::{BendFault, MOST_BETWEEN_PULL_POINTS, pull_boxes};
pub use box_fill::{BoxContent, GroundRule, header_box, volume_needed};
pub use branch_circuits::{
    CircuitLoad, USUAL_BREAKER, breaker_poles, design_amps, same_nominal, same_service, share_circuits,
};
pub use conductors::{Conductor, Strands};
pub use conduit_fill::{Fill, FillFault, FilledRaceway, fill, smallest_size};
pub use couplings::couplings;
pub use entries::{Entry, TradeSize, entry, hole};
pub use hand::{Edge, Hand, Hang, PlanEnd, Room, Swing};
pub use header::{HeaderPlace, OperatorSide, Plan, PlanPoint, header_place, plan};
pub use leaf_energy::{Ramp, Slab};
pub use leaf_motion::{
    LeafTime, LowEnergyTime, LowEnergyTimes, MeasuredTo, hold_open, hold_open_of, low_energy_time, low_energy_times,
    opening_time_to_90,
};
pub use leaf_weight::{
    EstimatedWeight, FaceGauge, GlassThickness, LeafHardware, glass, hollow_metal_faces, solid_core_wood,
};
pub use linkage::{
    ArmStand, AtAngle, Course, HingeAxis, Joint, LinkageFault, Obstacle, PullArm, PushArm, RodCut, RodFault,
    axis_to_face,
};
pub use low_voltage::{Branch, TreeFault, volts_at_ends};
pub use mounting::{
    ArmOnHeader, Fastener, HeaderLoads, HeaderMount, Landing, LoadCase, Pattern, SheetSteel, Spread, Strength, Used,
    hangs_below_head, plate_length, stud_sheet,
};
pub use opening_torque::{LeafDemand, SpindleDemand};
pub use pulls::{FREE_AT_BOX, FREE_AT_HEADER, Pull, Stretch, easier_pull, pull, pull_length};
pub use shortest_path::RunGraph;
pub use staged_access::{
    DevicePlace, Door, OfferedTime, Placed, StageFault, Travel, Works, credential_window, stage_faults, walking_time,
};
pub use supplies::{CLASS_TWO_VOLT_AMPERES, CLASS_TWO_VOLTS, SupplyDemand, SupplyLoad, class_two_amps, supply_demand};
pub use supports::{Raceway, supports_between, supports_with_pull_boxes};
pub use voltage_drop::{Drop, drop_of_current, loop_ohms};
