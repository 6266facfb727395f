//! Text to a located tree to values, through field tables.
//!
//! In: the text of TOML and CSV files, and tables of fields.
//! Out: slots (absent, bad, given with place and standing) and findings for every fault.
//! May not know: what a field is used for.
//!
//! A room declares its records with `record!` and its closed lists of words with `vocabulary!`, makes a [`Reader`] over
//! the snapshot, reads files with [`Reader::toml`] and [`Reader::csv`], resolves kinds with [`chain`] and [`inherit_kind`],
//! looks up what is named with [`References`], and takes the checked types that the records declare. Keys are field names.

mod checked;
pub mod codes;
mod csv_text;
mod date;
#[cfg(test)]
mod fault_tests;
mod field;
mod heads;
mod kinds;
#[cfg(test)]
mod law_tests;
mod lists;
mod measured;
mod named;
pub mod naming;
mod nearest;
mod number;
mod plain;
mod quoting;
mod reader;
pub mod record;
mod references;
mod scalar;
mod slot;
mod starter;
#[cfg(test)]
mod tests;
mod text;
mod toml_text;
mod tree;
mod unread;
mod vocabulary;
mod walk;

pub(crate) use checked::{checked, held};
pub use codes::CODES;
pub use date::{Date, DateTime};
pub use field::{AnySlot, Field, FieldInfo, Shape, Spelling, Taking, Word};
pub use kinds::{chain, inherit_kind};
pub use lists::EachOrList;
pub use measured::SignedMoney;
pub use named::Named;
pub use nearest::nearest;
pub use number::{Count, CountFromOne, Flag, Ratio};
pub use plain::Plain;
pub use quoting::quoted;
pub use reader::Reader;
pub(crate) use record::record;
pub use record::{Record, RecordInfo};
#[cfg(test)]
pub(crate) use references::assert_targets;
pub use references::{Names, Origin, References};
pub(crate) use scalar::scalar_fields;
pub use scalar::{Fix, Raw, Refusal, Scalar, read_scalar, scalar_shape};
pub use slot::{Given, Slot, Standing};
pub use starter::{Live, starter};
pub use text::{Formula, Id, Text};
pub use tree::{Entry, Node, Table, Tree, Written};
pub use unread::unread;
pub(crate) use vocabulary::vocabulary;
pub use vocabulary::{Vocabulary, read_word};
pub use walk::Walk;
