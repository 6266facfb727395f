//! Pure formulas and published tables.
//!
//! In: measures.
//! Out: measures, each with formula and source.
//! May not know: jobs, catalogs, files.
