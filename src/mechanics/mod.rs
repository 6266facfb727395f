//! The mechanics of doors: what formulas say of an opening's weights, times, arms, forces and fasteners, from the values of job and catalog.
//!
//! In: entries of openings and leaves, operators, fasteners. Out: results of formulas; nothing where a value is missing.
//! May not know: findings; what a paper prints.

mod air;
mod arms;
mod courses;
mod hold;
mod kept;
mod mount;
mod times;
mod weight;

pub use air::{SpindleUse, force_by_hand, pressure, spindle_use};
pub use arms::{Swept, open_angle, rod_cut, swept};
pub use hold::{HeaderHold, HeldBy, header_hold};
pub use mount::{Calculated, Mounting, NotCalculated, PlateAdvice, mounting, stud_spacing};
pub use times::{hold_open_asked, is_low_energy, leaf_times, time_offered};
pub use weight::{LeafWeight, leaf_weight};
