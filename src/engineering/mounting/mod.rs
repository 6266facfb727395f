//! What holds a header to what is behind it: loads, groups of fasteners, their strength by substrate, plates.
//!
//! In: header, arm, torques, fasteners. Out: the used part of the fasteners, their number and pattern, the length of a plate.
//! May not know: jobs, kits. Wood and sheet steel are calculated; threaded inserts, masonry and concrete are not: no public
//! value holds for them, and the fastener's own published report is looked up on site.

mod group;
mod header;
mod pattern;
mod steel_stud;
mod strength;
mod wood;

pub use header::{ArmOnHeader, HeaderLoads, HeaderMount, LoadCase};
pub use pattern::{Landing, Pattern, Spread, Used, hangs_below_head, plate_length};
pub use strength::{Fastener, SheetSteel, Strength, stud_sheet};
