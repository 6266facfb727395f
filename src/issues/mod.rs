//! The record of what was issued, kept beside the job: one table an issue.
//!
//! In: the record's file; a new issue. Out: the issues, and findings where the file cannot be trusted; the file's new text.
//! May not know: what a job, a catalog or a paper holds; they come as fingerprints, digests and names.

mod codes;
mod entries;
mod model;
mod read;
mod revision;
mod text;

pub use codes::{
    CODES, COPY_CHANGED, COPY_NOT_THERE, NO_REVISION, NOT_COPIED, NOT_RECORDED, OTHER_VALUES, REVISION_TAKEN,
};
pub use model::{Issued, IssuedFile, Record};
pub use read::read;
pub use revision::next;
pub use text::text;
