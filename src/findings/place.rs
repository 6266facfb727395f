//! Where in the input a finding stands.
//!
//! In: file numbers and byte ranges. Out: places with an order: file, then position.
//! May not know: what was read there.

use super::FileId;

/// A range of bytes in a file, end excluded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span from the byte offsets that parsers use; input files stay below 4 GiB.
    pub fn new(start: usize, end: usize) -> Self {
        Span { start: start as u32, end: end as u32 }
    }
}

/// A place in the input. Sorts by kind, file and position.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Bytes of a file.
    Text {
        /// The file.
        file: FileId,
        /// The bytes.
        span: Span,
    },
    /// A file as a whole: empty, or not text.
    File(FileId),
}

impl Place {
    /// A place in a file's text, by byte offsets.
    pub fn text(file: FileId, start: usize, end: usize) -> Self {
        Place::Text { file, span: Span::new(start, end) }
    }
}

/// A place with a few words on what stands there, for the excerpt; the first of a finding needs none.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// What stands there, such as `first written here`.
    pub says: String,
}
