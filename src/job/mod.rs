//! Job file, openings table and survey records to a checked job.
//!
//! In: the job's files and a checked catalog.
//! Out: a checked job and findings.
//! May not know: quantities, prices, pages.

mod alternates;
mod check;
pub mod codes;
mod entries;
mod file_entries;
#[cfg(test)]
pub mod fixtures;
mod model;
mod price_entries;
mod remeasured;
mod site_entries;
#[cfg(test)]
pub(crate) mod sound;
mod specification_entries;
mod submittal_entries;
mod submittals;
mod words;

pub use check::{JobNames, Typed, folder_of, join};
pub use codes::CODES;
pub use entries::*;
pub use file_entries::*;
pub use model::*;
pub use price_entries::*;
pub use remeasured::*;
pub use site_entries::*;
pub use specification_entries::*;
pub use submittal_entries::*;
pub use submittals::*;
pub use words::*;
