//! Job file, openings table and survey records to a checked job.
//!
//! In: the job's files and a checked catalog.
//! Out: a checked job and findings.
//! May not know: quantities, prices, pages.
