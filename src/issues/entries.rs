//! What the record of issues holds: field tables.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether the values make sense together.

use crate::input::{Date, Id, Text, record};

record! {
    /// A file of an issue.
    pub struct FileEntry as "paper" {
        /// Its name in the folder of papers.
        file: Text, needed, "schedule.pdf";
        /// SHA-256 of its bytes, in hex.
        sha256: Text, needed, "5f70…";
    }
}

record! {
    /// One issue.
    pub struct IssueEntry as "issue" {
        /// Revision of the job.
        revision: Id, needed, "A";
        /// Date of its papers.
        date: Date, needed, "2026-12-08";
        /// SHA-256 over the values of job and catalog, in hex; its first figures stand in the foot of the papers.
        fingerprint: Text, needed, "5f70…";
        /// The same without transmittals, which go on after the issue.
        values: Text, needed, "5f70…";
        /// The copy of the job file, from the record.
        job: Text, needed, "job.issued/A/job.toml";
        /// SHA-256 over the copies, so that nobody takes changed ones for what was issued.
        copies: Text, needed, "5f70…";
        /// What changed since the issue before, in short lines.
        changes: Vec<Text>, "[\"101A: operator\"]";
        /// Papers that were asked for and held.
        held: Vec<Id>, "[\"packet\"]";
        /// Files that went out.
        paper: Vec<FileEntry>, "";
    }
}

record! {
    /// The record of issues.
    pub struct RecordEntry as "record of issues" {
        /// Every issue, the oldest first.
        issue: Vec<IssueEntry>, "";
    }
}
