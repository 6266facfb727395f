//! Jobs and catalogs for the tests of rooms that may not read files themselves.
//!
//! In: the text of a job file and of a catalog. Out: both checked. May not know: which test asks.

use super::{Job, Typed};
use crate::catalog::{self, Catalog};
use crate::findings::{Files, Finding};
use crate::input::Reader;

/// Reads and checks a job file and a catalog without rules, with whatever they were told.
///
/// # Panics
/// If nothing comes of the job.
pub fn read(job: &str, catalog: &str) -> (Job, Catalog, Vec<Finding>) {
    read_with(job, catalog, &catalog::fixtures::no_facts)
}

/// The same with rules, checked against sheets of facts.
///
/// # Panics
/// If nothing comes of the job.
pub fn read_with(job: &str, catalog: &str, sheets: catalog::Sheets) -> (Job, Catalog, Vec<Finding>) {
    let texts = [("job.toml", job), ("catalog/catalog.toml", catalog)];
    let files = Files::new(texts.map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec())));
    let mut reader = Reader::new(&files);
    let typed = Typed::read(&mut reader, files.find("job.toml").expect("it was put there"));
    let catalog = catalog::read(&mut reader, "catalog", None, sheets);
    let job = typed.check(&mut reader, &catalog);
    let findings: Vec<Finding> = reader.into_findings().iter().cloned().collect();
    (job.unwrap_or_else(|| panic!("{findings:#?}")), catalog, findings)
}
