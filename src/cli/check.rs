//! `check`: everything that is wrong with a job.
//!
//! In: a job's path. Out: findings on standard output. May not know: how they came about.

use std::path::Path;

use super::arguments::Format;
use super::snapshot::{self, Source};
use super::{Outcome, terminal};
use crate::findings::{Files, Finding, Findings, Severity, as_json, as_text};
use crate::pipeline;

/// Runs the command.
pub fn run(source: Source, format: Format) -> Outcome {
    let Some((path, files)) = snapshot::of_job(source) else { return Outcome::CouldNotRun };
    let findings = pipeline::check(&files, &path);
    match format {
        Format::Text => terminal::print(&as_text(&findings, &files, terminal::color_of_output())),
        Format::Json => terminal::print(&(as_json(&findings, &files) + "\n")),
    }
    ended(&findings)
}

/// Prints findings on standard error, where the command's own output goes to standard output.
pub fn report(findings: &Findings, files: &Files) {
    if !findings.is_empty() {
        terminal::complain(&as_text(findings, files, terminal::color_of_errors()));
    }
}

/// Prints in full what holds a paper, and what `check` does not say because only the making of papers finds it; of the rest the
/// command that lists it.
pub fn report_what_holds(findings: &Findings, files: &Files, job: &Path) {
    let is_full = |it: &Finding| it.code.severity == Severity::Error || pipeline::is_of_papers(it.code);
    let (full, rest): (Vec<&Finding>, Vec<&Finding>) = findings.iter().partition(|it| is_full(it));
    let mut shown = Findings::default();
    full.into_iter().cloned().for_each(|it| shown.push(it));
    report(&shown, files);
    if !rest.is_empty() {
        terminal::complain(&format!("`hingewright check {}` lists warnings and field verifications\n", job.display()));
    }
}

/// Held if any paper is.
pub fn ended(findings: &Findings) -> Outcome {
    if findings.blocked().iter().next().is_some() { Outcome::Held } else { Outcome::Done }
}
