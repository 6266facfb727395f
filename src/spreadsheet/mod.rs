//! Plain tables as the files that spreadsheets open.
//!
//! In: heads and rows of finished text. Out: CSV bytes.
//! May not know: what the columns mean; numbers arrive as text, so that nothing is rounded here.

mod csv;

pub use csv::csv;

/// A plain table of finished text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// Heads of its columns.
    pub heads: Vec<&'static str>,
    /// Its rows, each as long as the heads.
    pub rows: Vec<Vec<String>>,
}
