//! Pure formulas and published tables of doors, operators and raceways.
//!
//! In: measures and plain facts. Out: measures and counts; every function says its formula, units and source.
//! May not know: jobs, catalogs, money, findings. What is marked "from memory" or "common practice" is for a warning or
//! a check on the site, never for a hard rule.

mod bends;
mod conduit_fill;
mod entries;
mod hand;
mod header;
mod leaf_motion;
mod leaf_weight;
mod sticks;
mod supports;

pub use bends::{BendFault, MOST_BETWEEN_PULL_POINTS, pull_boxes};
pub use conduit_fill::{Conductor, Fill, FillFault, FilledRaceway, fill, most_of_one, smallest_size};
pub use entries::{Entry, TradeSize, entry, hole};
pub use hand::{Edge, Hand, Hang, PlanEnd, Room, Swing};
pub use header::{HeaderPlace, OperatorSide, Plan, PlanPoint, header_place, plan};
pub use leaf_motion::{LowEnergyTime, hold_open, kinetic_energy, low_energy_time, opening_time_to_90};
pub use leaf_weight::{EstimatedWeight, FaceGauge, GlassThickness, glass, hollow_metal_faces, solid_core_wood};
pub use sticks::{couplings, sticks};
pub use supports::{Raceway, supports_between, supports_with_pull_boxes};
