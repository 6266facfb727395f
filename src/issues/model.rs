//! The checked record.
//!
//! In: nothing. Out: types. May not know: where the record stands on the disk.

use crate::findings::Place;
use crate::input::Date;

/// A file that went out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct IssuedFile {
    /// Its name in the folder of papers.
    pub file: String,
    /// SHA-256 of its bytes, in hex.
    pub sha256: String,
}

/// One issue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Issued {
    /// Revision of the job.
    pub revision: String,
    /// Date of its papers.
    pub date: Date,
    /// Fingerprint of the values of job and catalog.
    pub fingerprint: String,
    /// The same without transmittals.
    pub values: String,
    /// The copy of the job file, from the folder of the record.
    pub job: String,
    /// SHA-256 over the copies, in hex.
    pub copies: String,
    /// What changed since the issue before, in short lines.
    pub changes: Vec<String>,
    /// Papers that were asked for and held.
    pub held: Vec<String>,
    /// Files that went out. One that was made twice with other bytes stands twice.
    pub papers: Vec<IssuedFile>,
    /// Where the record names the revision; nothing for an issue that is not written yet.
    pub place: Option<Place>,
}

/// Every issue, the oldest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Record {
    /// The issues.
    pub issues: Vec<Issued>,
}

impl Record {
    /// The issue of a revision.
    pub fn of(&self, revision: &str) -> Option<&Issued> {
        self.issues.iter().find(|it| it.revision == revision)
    }

    /// The issues before one of this revision, the oldest first: all where none is of it.
    pub fn before(&self, revision: Option<&str>) -> &[Issued] {
        let own = self.issues.iter().position(|it| Some(it.revision.as_str()) == revision);
        &self.issues[..own.unwrap_or(self.issues.len())]
    }

    /// Adds an issue, or to the issue of its revision the files that it has not yet; tells whether that changed anything.
    pub fn add(&mut self, issue: Issued) -> bool {
        let Some(known) = self.issues.iter_mut().find(|it| it.revision == issue.revision) else {
            self.issues.push(issue);
            return true;
        };
        let before = known.clone();
        let made = |paper: &str| issue.papers.iter().any(|it| it.file.starts_with(paper));
        known.held.retain(|paper| !made(paper));
        let held = issue.held.iter().filter(|paper| !before.held.contains(paper));
        known.held.extend(held.cloned());
        let new = issue.papers.iter().filter(|it| !before.papers.contains(it));
        known.papers.extend(new.cloned());
        *known != before
    }
}
