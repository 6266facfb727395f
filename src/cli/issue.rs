//! `issue`: the papers of a job, written to `output/<job number>/`.
//!
//! In: a job's path, the papers asked for. Out: files on disk, a line each on standard output.
//! May not know: how a paper is made.
//!
//! A file is written under a temporary name and renamed, so that nobody ever sees half of one. Papers that an earlier issue
//! wrote and this one was asked for and did not make move to `superseded/`: a stale packet is worse than none.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};

use super::check::{ended, report};
use super::{Ended, record, snapshot, terminal};
use crate::findings::{Paper, Papers};
use crate::pipeline::{self, Issue};

/// Name of the record of what was issued.
const RECORD: &str = "issued.txt";

/// What is issued, and whether it is recorded.
#[derive(Clone, Copy)]
pub struct From<'a> {
    /// The job file.
    pub job: &'a Path,
    /// Folder of templates of one's own.
    pub templates: Option<&'a Path>,
    /// Whether the issue is kept beside the job.
    pub record: bool,
}

/// Runs the command. No paper named means every paper.
pub fn run(from: From, papers: &[Paper], folder: &Path) -> Ended {
    let template_folder = from.templates.map(snapshot::typed);
    let snapshot = snapshot::of_job_with_templates(from.job, template_folder.as_deref());
    let Some((path, files)) = snapshot else { return Ended::CouldNotRun };
    let recording = from.record.then(|| record::begin(&files, &path));
    if let Some(None) = recording {
        return Ended::Held;
    }
    let wanted = if papers.is_empty() { Papers::ALL } else { Papers::of(papers) };
    let (issue, findings) = pipeline::issue(&files, &path, wanted, template_folder.as_deref());
    report(&findings, &files);
    let Some(issue) = issue else {
        terminal::complain("hingewright: nothing was issued: the job's own table cannot be read\n");
        return Ended::Held;
    };
    let written = write(&issue, wanted, folder).and_then(|lines| match recording.flatten() {
        // A revision under which nothing went out is still free.
        Some(_) if issue.papers.is_empty() => Ok(lines + "recorded nothing: no paper was written\n"),
        Some(recording) => Ok(lines + &record::write(&recording.keep(&issue))?),
        None => Ok(lines),
    });
    match written {
        Ok(lines) => terminal::print(&lines),
        Err((path, fault)) => {
            terminal::complain(&format!("hingewright: cannot write `{}`: {fault}\n", path.display()));
            return Ended::CouldNotRun;
        }
    }
    if issue.held.is_empty() { ended(&findings) } else { Ended::Held }
}

/// A name that is safe as a folder: letters, digits, `-`, `_` and `.`; never empty, never only dots.
fn safe(number: &str) -> String {
    let legal = |it: char| if it.is_ascii_alphanumeric() || matches!(it, '-' | '_' | '.') { it } else { '-' };
    let name: String = number.chars().map(legal).collect();
    if name.trim_matches('.').is_empty() { "job".to_owned() } else { name }
}

/// Writes the papers and says what it wrote.
fn write(issue: &Issue, wanted: Papers, root: &Path) -> Result<String, (PathBuf, io::Error)> {
    let folder = root.join(safe(&issue.number));
    std::fs::create_dir_all(&folder).map_err(|fault| (folder.clone(), fault))?;
    let earlier = earlier(&folder);
    let mut out = String::new();
    for paper in &issue.papers {
        write_file(&folder, &paper.name, &paper.bytes)?;
        let marked = match paper.revised.as_slice() {
            [] => String::new(),
            [page] => format!(", changes marked on page {page}"),
            pages => format!(", changes marked on pages {}", ranges(pages)),
        };
        out.push_str(&format!("wrote {}{marked}\n", folder.join(&paper.name).display()));
    }
    let now: BTreeSet<&str> = issue.papers.iter().map(|paper| paper.name.as_str()).collect();
    for name in earlier.iter().filter(|name| !now.contains(name.as_str()) && asked_for(name, wanted)) {
        supersede(&folder, name)?;
        out.push_str(&format!("moved {} to superseded: it is no longer made\n", folder.join(name).display()));
    }
    for paper in &issue.held {
        out.push_str(&format!("held {}: see the findings\n", paper.word()));
    }
    let kept: Vec<&String> =
        earlier.iter().filter(|name| !now.contains(name.as_str()) && !asked_for(name, wanted)).collect();
    let kept: String = kept.iter().map(|name| format!("kept {name} of an earlier issue\n")).collect();
    write_file(&folder, RECORD, (issue.record.clone() + &kept).as_bytes())?;
    Ok(out)
}

/// Numbers in order, those that follow one another from the first to the last: `1, 4-6`.
fn ranges(numbers: &[usize]) -> String {
    let runs = numbers.chunk_by(|one, next| one + 1 == *next);
    let run = |run: &[usize]| match run {
        [first, .., last] => format!("{first}-{last}"),
        one => one.iter().map(usize::to_string).collect(),
    };
    runs.map(run).collect::<Vec<_>>().join(", ")
}

/// Papers that the folder's record names.
fn earlier(folder: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(folder.join(RECORD)).unwrap_or_default();
    let named = text.lines().filter_map(|line| {
        let rest = line.strip_prefix("issued ").or_else(|| line.strip_prefix("kept "))?;
        rest.split(' ').next().map(str::to_owned)
    });
    named.filter(|name| folder.join(name).is_file()).collect()
}

/// Whether a file belongs to a paper that was asked for: its name starts with the paper's word.
fn asked_for(name: &str, wanted: Papers) -> bool {
    wanted.iter().any(|paper| name.starts_with(paper.word()))
}

fn supersede(folder: &Path, name: &str) -> Result<(), (PathBuf, io::Error)> {
    let aside = folder.join("superseded");
    std::fs::create_dir_all(&aside).map_err(|fault| (aside.clone(), fault))?;
    std::fs::rename(folder.join(name), aside.join(name)).map_err(|fault| (aside.join(name), fault))
}

/// Writes a file under a temporary name and renames it.
pub fn write_file(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), (PathBuf, io::Error)> {
    let path = folder.join(name);
    let temporary = folder.join(format!(".{name}.writing"));
    let done = std::fs::write(&temporary, bytes).and_then(|()| std::fs::rename(&temporary, &path));
    if done.is_err() {
        let _ = std::fs::remove_file(&temporary);
    }
    done.map_err(|fault| (path, fault))
}
