//! Codes of findings that the record of issues raises.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use crate::findings::{Code, Papers, Severity};

/// A job without a revision cannot be recorded.
pub static NO_REVISION: Code = Code {
    id: "no-revision",
    severity: Severity::Error,
    says: "the job has no revision, and an issue is recorded by its revision",
    why: "Issued papers are identified by their revision; without one no later issue can show what changed.",
    example: "[job]\nnumber = \"2611-04\"   # issued with --record, and no revision",
    blocks: Papers::ALL,
};

/// An issue of the same revision was recorded with other values.
pub static REVISION_TAKEN: Code = Code {
    id: "revision-taken",
    severity: Severity::Error,
    says: "{found} with other values",
    why: "Two different issues under one revision cannot be distinguished by their readers.",
    example: "[job]\nrevision = \"A\"   # recorded, changed, and to be recorded as A again",
    blocks: Papers::ALL,
};

/// The job differs from what was recorded under its revision.
pub static OTHER_VALUES: Code = Code {
    id: "revision-changed",
    severity: Severity::Warning,
    says: "{found} with other values, and papers would carry that revision again",
    why: "A reader of the recorded issue sees the same revision letter on a different paper.",
    example: "[job]\nrevision = \"A\"   # recorded, and changed since",
    blocks: Papers::NONE,
};

/// A revision that the record does not hold.
pub static NOT_RECORDED: Code = Code {
    id: "not-recorded",
    severity: Severity::Error,
    says: "{found}",
    why: "An earlier issue can be opened again only where it was recorded.",
    example: "hingewright compare job.toml --from C   # where A and B are recorded",
    blocks: Papers::NONE,
};

/// A recorded issue whose copies are gone or were changed.
pub static COPY_NOT_THERE: Code = Code {
    id: "copy-not-there",
    severity: Severity::Warning,
    says: "{found}, so that papers do not mark what changed since",
    why: "What changed is found by opening the recorded issue again, which needs its copies as they were recorded.",
    example: "[[issue]]\njob = \"job.issued/A/job.toml\"   # a folder that was moved away",
    blocks: Papers::NONE,
};

/// Input that cannot be copied so that the copy says the same.
pub static NOT_COPIED: Code = Code {
    id: "not-copied",
    severity: Severity::Error,
    says: "the job's files cannot be copied so that the copy says the same",
    why: "An issue is recorded with its files, so that it can be opened again; a file named by a path from the root is not among them.",
    example: "[job]\nopenings = \"/home/jobs/openings.csv\"",
    blocks: Papers::ALL,
};

/// A revision that the record holds twice.
pub(super) static TWO_ISSUES: Code = Code {
    id: "two-issues",
    severity: Severity::Error,
    says: "revision {found} is recorded twice",
    why: "The issue to compare a job of this revision with is not known.",
    example: "[[issue]]\nrevision = \"A\"\n\n[[issue]]\nrevision = \"A\"",
    blocks: Papers::ALL,
};

/// A digest that is none.
pub(super) static NOT_A_DIGEST: Code = Code {
    id: "not-a-digest",
    severity: Severity::Error,
    says: "`{found}` is not a SHA-256 in hex",
    why: "An issue is identified by it.",
    example: "[[issue]]\nfingerprint = \"5f7\"",
    blocks: Papers::ALL,
};

/// Copies that nothing can be compared with.
pub static COPY_CHANGED: Code = Code {
    id: "copy-changed",
    severity: Severity::Error,
    says: "{found}, so that nothing is compared with them",
    why: "Changes since an issue are found from its copies as recorded; other copies would show changes from an issue that never was.",
    example: "hingewright compare job.toml, after an edit in job.issued/A",
    blocks: Papers::NONE,
};

/// A copy that stands outside of the record's folder.
pub(super) static COPY_ELSEWHERE: Code = Code {
    id: "copy-elsewhere",
    severity: Severity::Error,
    says: "the copy `{found}` is not beside the record",
    why: "A copy outside of the job's folder is not moved, kept or lost together with the record.",
    example: "[[issue]]\njob = \"../other/job.toml\"",
    blocks: Papers::ALL,
};

/// The codes of this room.
pub static CODES: &[&Code] = &[
    &NO_REVISION,
    &REVISION_TAKEN,
    &OTHER_VALUES,
    &NOT_RECORDED,
    &COPY_NOT_THERE,
    &COPY_CHANGED,
    &NOT_COPIED,
    &TWO_ISSUES,
    &NOT_A_DIGEST,
    &COPY_ELSEWHERE,
];
