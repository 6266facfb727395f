//! The checked record to the text of its file.
//!
//! In: the issues. Out: TOML, the same for the same issues, which reads back as the same issues.
//! May not know: where it is written.

use super::model::{Issued, Record};
use crate::input::quoted;

/// What stands above the first issue.
const HEAD: &str = "# What was issued of this job. Hingewright writes it; keep it, and the folder of copies beside it, with the job file.\n";

/// The record as a file.
pub fn text(record: &Record) -> String {
    let mut out = HEAD.to_owned();
    record.issues.iter().for_each(|issue| put(&mut out, issue));
    out
}

fn put(out: &mut String, issue: &Issued) {
    let Issued { revision, date, fingerprint, values, job, copies, changes, held, papers, place: _ } = issue;
    let list = |all: &[String]| all.iter().map(|it| quoted(it)).collect::<Vec<_>>();
    out.push_str(&format!("\n[[issue]]\nrevision = {}\ndate = {date}\n", quoted(revision)));
    out.push_str(&format!("fingerprint = {}\nvalues = {}\n", quoted(fingerprint), quoted(values)));
    out.push_str(&format!("job = {}\ncopies = {}\n", quoted(job), quoted(copies)));
    if !changes.is_empty() {
        out.push_str(&format!("changes = [\n    {},\n]\n", list(changes).join(",\n    ")));
    }
    if !held.is_empty() {
        out.push_str(&format!("held = [{}]\n", list(held).join(", ")));
    }
    for paper in papers {
        let (file, sha256) = (quoted(&paper.file), quoted(&paper.sha256));
        out.push_str(&format!("\n[[issue.paper]]\nfile = {file}\nsha256 = {sha256}\n"));
    }
}
