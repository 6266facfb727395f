//! What a person types of the maker's own sheets and of certificates: what is marked on them.
//!
//! In: nothing. Out: a record that `input` fills, and the checked types. May not know: what the file holds.

use crate::findings::Place;
use crate::input::{CountFromOne, Text, record};
use crate::money::Percent;

record! {
    /// Words in the margin of the maker's sheet, with an arrow: which of what it offers is meant.
    pub struct SheetMarkEntry as "sheet mark" {
        /// Page of the sheet; left out, the first.
        page: CountFromOne, ["1" to "9999"], "1";
        /// How far down the page it points.
        at: Percent, needed, "35 %";
        /// What it says.
        says: Text, needed, "Selected: square, hard-wired";
    }
}

/// A maker's own sheet about an item, or the certificate of a proof, to be enclosed.
#[derive(Clone, Debug)]
pub struct MakersSheet {
    /// The file, from the catalog's folder.
    pub path: String,
    /// Which of its pages, from 1; none means all.
    pub pages: Vec<u16>,
    /// What is marked on it.
    pub marks: Vec<SheetMark>,
    /// Where it is named.
    pub place: Place,
}

/// Words in the margin of such a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetMark {
    /// Which page, from 1.
    pub page: u16,
    /// How far down the page it points, from nothing to the whole.
    pub at: Percent,
    /// What it says.
    pub says: String,
}
