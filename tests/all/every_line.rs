//! Every line out: each line and each cell of the demo's jobs and catalog deleted, doubled and emptied, one at a time, through `issue`.
//!
//! In: the demo with one thing changed. Out: changes that end in a fault of the program, or that hold a paper without a word.
//! May not know: what any line says. `cargo test` tries a seeded sample; the whole walk is ignored there and run in release.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use hingewright::findings::{Files, Paper, Papers, Severity};
use hingewright::pipeline;
use rayon::prelude::*;

use crate::counts::{below, random, share};
use crate::demo;

/// The demo's job with most openings, whose own lines are tried with it.
const LARGE: &str = "catalog_demo/job/job.toml";

/// The demo's job with few openings, with which its own lines and those of the catalog are tried.
const SMALL: &str = "catalog_demo/revised/job.toml";

/// One change in so many is tried with every paper, the others with one each, in turn.
const ALL_PAPERS: usize = 24;

/// Changes that a sample tries.
const SAMPLE: u64 = 30;

type Bytes = BTreeMap<String, Arc<[u8]>>;

/// What is done to a line or a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum How {
    Deleted,
    Doubled,
    Emptied,
}

/// A change: of which file, where, and what stands there instead.
struct Change {
    file: String,
    span: std::ops::Range<usize>,
    how: How,
    instead: String,
}

impl std::fmt::Display for Change {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} bytes {}..{} {:?}", self.file, self.span.start, self.span.end, self.how)
    }
}

/// The texts of the demo, and everything that they name.
fn files() -> (BTreeMap<String, String>, Bytes) {
    let mut texts = demo::texts();
    let revised = Path::new(env!("CARGO_MANIFEST_DIR")).join(SMALL);
    texts.insert(SMALL.to_owned(), std::fs::read_to_string(revised).expect("the revised job"));
    let snapshot = demo::snapshot(&texts);
    let bytes = snapshot.ids().map(|file| (snapshot.path(file).to_owned(), Arc::from(snapshot.bytes(file)))).collect();
    (texts, bytes)
}

/// Every change of every line and cell, in order.
fn changes(texts: &BTreeMap<String, String>) -> Vec<Change> {
    let mut all = Vec::new();
    for (file, text) in texts {
        let mut change = |span: std::ops::Range<usize>, how, instead: String| {
            all.push(Change { file: file.clone(), span, how, instead });
        };
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let start = at;
            at += line.len();
            if line.trim().is_empty() || line.trim_start().starts_with('#') {
                continue;
            }
            change(start..at, How::Deleted, String::new());
            change(start..at, How::Doubled, line.repeat(2));
            if file.ends_with(".csv") {
                change(start..at, How::Emptied, ",".repeat(line.matches(',').count()) + "\n");
                let mut cell = start;
                for text in line.trim_end().split(',') {
                    let end = cell + text.len();
                    let with_comma = (end + 1).min(at);
                    change(cell..with_comma, How::Deleted, String::new());
                    change(cell..end, How::Doubled, format!("{text},{text}"));
                    if !text.is_empty() {
                        change(cell..end, How::Emptied, String::new());
                    }
                    cell = end + 1;
                }
            } else if let Some((key, _)) = line.split_once('=') {
                change(start..at, How::Emptied, format!("{key}= \"\"\n"));
            } else {
                change(start..at, How::Emptied, "\n".to_owned());
            }
        }
    }
    all
}

/// The job that a file is tried with.
fn job_of(file: &str) -> &'static str {
    if file.starts_with("catalog_demo/job/") { LARGE } else { SMALL }
}

/// What is wrong with the outcome of a change; nothing where papers or findings come of it.
fn wrong(texts: &BTreeMap<String, String>, bytes: &Bytes, (at, change): (usize, &Change)) -> Option<String> {
    let text = &texts[&change.file];
    let changed = format!("{}{}{}", &text[..change.span.start], change.instead, &text[change.span.end..]);
    let others = bytes.iter().filter(|(path, _)| **path != change.file).map(|(path, it)| (path.clone(), it.to_vec()));
    let snapshot = Files::new(others.chain([(change.file.clone(), changed.into_bytes())]));
    let wanted = match at % ALL_PAPERS {
        0 => Papers::ALL,
        _ => Papers::of(&[Paper::ALL[at % Paper::ALL.len()]]),
    };
    let issue = || pipeline::issue(&snapshot, job_of(&change.file), wanted, None);
    let (issue, findings) = match pipeline::caught(issue) {
        Ok(made) => made,
        Err(said) => return Some(format!("{change}: {said}")),
    };
    let fault = findings.iter().find(|it| matches!(it.code.id, "job-not-worked" | "paper-not-made"));
    if let Some(fault) = fault {
        return Some(format!("{change}: {}", fault.sentence()));
    }
    let said = findings.iter().any(|it| it.code.severity == Severity::Error);
    let without_word = |held: &[Paper]| !held.is_empty() && !said;
    match issue {
        None if !said => Some(format!("{change}: nothing is made and nothing said")),
        Some(issue) if without_word(&issue.held) => Some(format!("{change}: {:?} held without a word", issue.held)),
        Some(issue)
            if issue.papers.is_empty() && issue.held.is_empty() && wanted != Papers::of(&[Paper::Submittal]) =>
        {
            Some(format!("{change}: nothing is made and nothing held"))
        }
        _ => None,
    }
}

fn hold(texts: &BTreeMap<String, String>, bytes: &Bytes, some: Vec<(usize, &Change)>) {
    let found: Vec<String> = some.into_par_iter().filter_map(|one| wrong(texts, bytes, one)).collect();
    assert!(found.is_empty(), "{} changes:\n{}", found.len(), found.join("\n"));
}

#[test]
fn a_sample_of_lines_out_ends_in_papers_or_findings() {
    let (texts, bytes) = files();
    let all = changes(&texts);
    let mut random = random(23);
    let some = (0..SAMPLE).map(|_| below(&mut random, all.len() as u64) as usize);
    hold(&texts, &bytes, some.map(|at| (at, &all[at])).collect());
}

/// HINGEWRIGHT_SHARE=3/7 walks the third of seven shares.
#[test]
#[ignore = "takes many minutes; .ci runs it in release"]
fn every_line_out_ends_in_papers_or_findings() {
    let (texts, bytes) = files();
    let all = changes(&texts);
    assert!(all.len() > 20_000, "{} changes", all.len());
    let in_share = share();
    hold(&texts, &bytes, all.iter().enumerate().filter(|(at, _)| in_share(*at)).collect());
}
