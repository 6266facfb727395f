//! What is wrong, where, and what to type instead.
//!
//! In: a code of a room's registry, places in the input files, and what was asked and found, as text.
//! Out: findings as data, sorted and without doubles; excerpts for the terminal and JSON from the same data.
//! May not know: doors, money, pages, or how any file is read.

mod code;
mod files;
mod finding;
mod paper;
mod place;

pub use code::{Code, Severity};
pub use files::{FileId, Files};
pub use finding::{Finding, Findings, Remedy, Subject};
pub use paper::{Paper, Papers};
pub use place::{Label, Place, Span};
