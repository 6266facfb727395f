//! Catalog files to checked items, operators, tasks, rules, rates and owner profiles.
//!
//! In: the catalog's files.
//! Out: a checked catalog and findings.
//! May not know: any job.
