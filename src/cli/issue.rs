//! `issue`: the papers of a job, written to `output/<job number>/`.
//!
//! In: a job's path, the papers asked for. Out: files on disk, a line each on standard output.
//! May not know: how a paper is made, or how a folder is changed whole.

use std::path::Path;

use super::check::{ended, report_what_holds};
use super::papers::PapersFolder;
use super::progress::ProgressLine;
use super::record::RecordFolder;
use super::snapshot::{self, Source};
use super::writing::Fault;
use super::{Outcome, terminal};
use crate::findings::{Findings, Paper, Papers, Severity, some_listed};
use crate::pipeline;

/// What is issued, and how.
#[derive(Clone, Copy)]
pub struct IssueRequest<'a> {
    /// The job file, and what may be read.
    pub source: Source<'a>,
    /// Folder of templates of one's own.
    pub templates: Option<&'a Path>,
    /// Whether the issue is kept beside the job.
    pub record: bool,
    /// Whether progress and the papers written go unsaid.
    pub quiet: bool,
}

/// Runs the command. No paper named means every paper.
pub fn run(from: IssueRequest, papers: &[Paper], output: &Path) -> Outcome {
    run_or_say(from, papers, output).unwrap_or_else(|says| {
        terminal::complain(&says);
        Outcome::CouldNotRun
    })
}

/// The same, or what stood in the way, in words.
fn run_or_say(from: IssueRequest, papers: &[Paper], output: &Path) -> Result<Outcome, String> {
    // Both folders are taken before anything is read or made, so that nothing that another process writes is mixed in.
    let record = match from.record {
        true => RecordFolder::open(from.source.job)?,
        false => None,
    };
    let template_folder = from.templates.map(snapshot::typed);
    let snapshot = snapshot::of_job_with_templates(from.source, template_folder.as_deref());
    let Some((path, files)) = snapshot else { return Ok(Outcome::CouldNotRun) };
    let recording = match record {
        Some(folder) => match folder.begin(&files, &path)? {
            Some(recording) => Some(recording),
            None => return Ok(Outcome::Held),
        },
        None => None,
    };
    let folder = pipeline::job_number(&files, &path).map(|number| PapersFolder::open(output, &number)).transpose()?;
    let wanted = if papers.is_empty() { Papers::ALL } else { Papers::of(papers) };
    let progress = ProgressLine::new(from.quiet);
    let cannot = |(path, fault): Fault| format!("hingewright: cannot write `{}`: {fault}\n", path.display());
    let unread = "hingewright: nothing was issued: the job's own table or its catalog cannot be read\n";
    let Some(folder) = folder else {
        let (_, findings) = pipeline::issue(&files, &path, wanted, template_folder.as_deref());
        report_what_holds(&findings, &files, from.source.job);
        terminal::complain(unread);
        return Ok(Outcome::Held);
    };
    let store = folder.store().map_err(cannot)?;
    let asked = (wanted, template_folder.as_deref());
    let (issue, findings) = pipeline::issue_to(&files, &path, asked, &store, &|it| progress.show(it));
    drop(progress);
    report_what_holds(&findings, &files, from.source.job);
    let Some(issue) = issue else {
        terminal::complain(unread);
        return Ok(Outcome::Held);
    };
    let mut lines = String::new();
    match recording {
        // A revision under which nothing went out is still free.
        Some(_) if issue.papers.is_empty() => {
            lines += &folder.put(&issue, store, wanted).map_err(cannot)?;
            lines += "recorded nothing: no paper was written\n";
        }
        Some(recording) => {
            let kept = recording.copy(&issue).map_err(cannot)?;
            lines += &folder.put(&issue, store, wanted).map_err(cannot)?;
            lines += &kept.write().map_err(cannot)?;
        }
        None => lines += &folder.put(&issue, store, wanted).map_err(cannot)?,
    }
    let mut lines = if from.quiet { without_papers(&lines) } else { lines };
    for paper in &issue.held {
        lines += &format!("held {}: {}\n", paper.word(), because(*paper, &findings));
    }
    for paper in papers.iter().filter(|it| !issue.held.contains(it)) {
        if !issue.papers.iter().any(|written| written.paper == *paper) {
            lines += &format!("wrote no {}: the job has nothing for one\n", paper.word());
        }
    }
    terminal::print(&lines);
    Ok(if issue.held.is_empty() { ended(&findings) } else { Outcome::Held })
}

/// Why a paper is held: the codes of what holds it, in the order of the findings.
fn because(paper: Paper, findings: &Findings) -> String {
    let errors = findings.iter().filter(|it| it.code.severity == Severity::Error && it.blocks.has(paper));
    let mut codes: Vec<&str> = Vec::new();
    for finding in errors {
        if !codes.contains(&finding.code.id) {
            codes.push(finding.code.id);
        }
    }
    if codes.is_empty() { "it has no price".to_owned() } else { some_listed(&codes) }
}

/// The lines but those of papers that were written.
fn without_papers(lines: &str) -> String {
    lines.split_inclusive('\n').filter(|line| !line.starts_with("wrote ")).collect()
}
