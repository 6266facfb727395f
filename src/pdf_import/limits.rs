//! Limits of a file that is read.
//!
//! In: nothing. Out: sizes and counts. May not know: what was read.

/// The largest file, in bytes.
pub(super) const LARGEST_FILE: usize = 64 << 20;

/// The most pages that a file may have.
pub(super) const MOST_PAGES: usize = 400;

/// How deep lists and dictionaries may stand in one another, and objects refer to objects.
pub(super) const DEEPEST: usize = 64;
