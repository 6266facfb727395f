//! Catalog files to checked items, operators, tasks, rules, rates and owner profiles.
//!
//! In: the catalog's files and the sheets of facts.
//! Out: a checked catalog and findings.
//! May not know: any job.

mod check;
pub mod codes;
mod conditions;
mod edition_entries;
mod entries;
mod file_entries;
#[cfg(test)]
pub mod fixtures;
mod mechanics_entries;
mod model;
mod operator_entries;
mod paper_entries;
mod paper_words;
mod profile_entries;
mod proof_entries;
mod rate_entries;
mod route_entries;
mod sheet_entries;
mod terminal_entries;
mod theme_entries;
mod wired_words;
mod wiring_entries;
mod words;

pub use check::{Sheets, read};
pub use codes::CODES;
pub use conditions::*;
pub use edition_entries::*;
pub use entries::*;
pub use file_entries::*;
pub use mechanics_entries::*;
pub use model::*;
pub use operator_entries::*;
pub use paper_entries::*;
pub use paper_words::*;
pub use profile_entries::*;
pub use proof_entries::*;
pub use rate_entries::*;
pub use route_entries::*;
pub use sheet_entries::*;
pub use terminal_entries::*;
pub use theme_entries::*;
pub use wired_words::*;
pub use wiring_entries::*;
pub use words::*;
