//! What is wrong, where, and what to type instead.
//!
//! In: a code of a room's registry, places in the input files, and what was asked and found, as text.
//! Out: findings as data, sorted and without doubles; excerpts for the terminal and JSON from the same data.
//! May not know: doors, money, pages, or how any file is read.

mod code;
mod files;
mod finding;
mod json;
mod paper;
mod place;
mod positions;
mod show;
#[cfg(test)]
mod show_tests;
mod summed;

pub use code::{Code, Severity};
pub use files::{FileId, Files, Unread};
pub use finding::{Finding, Findings, Remedy, Subject, some_listed};
pub use json::as_json;
pub use paper::{Paper, Papers};
pub use place::{Label, Place, Span};
pub use positions::{Position, Positions};
pub use show::{as_text, tally};
