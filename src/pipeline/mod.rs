//! Files in, papers out.
//!
//! In: one snapshot of files.
//! Out: findings and papers as bytes.
//! May not know: the disk, the clock, the terminal.

use crate::catalog::{self, Catalog};
use crate::findings::{Code, Files, Findings};
use crate::job::{Job, Typed};
use crate::reading::Reader;
use crate::takeoff;

/// A file or a folder that a job names and that must be in the snapshot.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wanted {
    /// A file.
    File(String),
    /// The `.toml` files that stand directly in a folder.
    Folder(String),
}

/// What a job file names, from a snapshot that holds at least the job file. Faults are left to [`load`].
pub fn wanted(files: &Files, job_path: &str) -> Vec<Wanted> {
    let Some(file) = files.find(job_path) else { return Vec::new() };
    let typed = Typed::read(&mut Reader::new(files), file);
    let folder = typed.catalog_folder().map(|(folder, _)| Wanted::Folder(folder));
    typed.tables().into_iter().map(Wanted::File).chain(folder).collect()
}

/// A job and its catalog, read and checked.
#[derive(Debug)]
pub struct Loaded {
    /// The catalog.
    pub catalog: Catalog,
    /// The job; none where its own table cannot be read.
    pub job: Option<Job>,
    /// Everything found so far, in file order.
    pub findings: Findings,
}

/// Reads and checks a job and its catalog from a whole snapshot. `job_path` must be in it.
pub fn load(files: &Files, job_path: &str) -> Option<Loaded> {
    let file = files.find(job_path)?;
    let mut reader = Reader::new(files);
    let typed = Typed::read(&mut reader, file);
    let sheets = &takeoff::sheet;
    let catalog = match typed.catalog_folder() {
        Some((folder, place)) => catalog::read(&mut reader, &folder, place.as_ref(), sheets),
        None => Catalog::default(),
    };
    let job = typed.check(&mut reader, &catalog);
    Some(Loaded { catalog, job, findings: reader.into_findings() })
}

/// Every code that any room raises.
pub fn codes() -> Vec<&'static Code> {
    [
        crate::reading::CODES,
        crate::rules::CODES,
        crate::catalog::CODES,
        crate::job::CODES,
        crate::takeoff::CODES,
        crate::lettering::CODES,
        &crate::markup::CODES,
        &crate::typeset::CODES,
        crate::pdf::CODES,
    ]
    .concat()
}
