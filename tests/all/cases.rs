//! Bad input: each case is a folder, and what it must be told stands in it.
//!
//! In: `tests/cases/<name>/`: a job, its tables, its catalog, and the findings they must raise: in a comment
//! `# expect: code …` on the line above the faulty one, or, for files that hold no comments, in `expected.txt` as
//! `code file:line`. Out: every finding that is missing or too many, of every case at once.
//! May not know: sentences; a finding is its code, file and line.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use hingewright::findings::{Files, Finding, Place};
use hingewright::pipeline;

/// How often a finding is expected or made: code, file and line.
type Tally = BTreeMap<(String, String, usize), i32>;

fn cases() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases")
}

/// The snapshot of a case: what stands in its folder and in the shared catalog, by paths from the folder of cases.
fn snapshot(name: &str) -> Files {
    let mut files = Vec::new();
    gather(&cases().join(name), name, &mut files);
    gather(&cases().join("_catalog"), "_catalog", &mut files);
    Files::new(files)
}

fn gather(folder: &Path, named: &str, files: &mut Vec<(String, Vec<u8>)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = format!("{named}/{}", path.file_name().unwrap().to_str().unwrap());
        match path.is_dir() {
            true => gather(&path, &name, files),
            false => files.push((name, fs::read(&path).unwrap())),
        }
    }
}

/// What a case must be told.
fn expected(name: &str, files: &Files) -> Tally {
    let mut tally = Tally::new();
    for file in files.ids() {
        let (path, Ok(text)) = (files.path(file), files.text(file)) else { continue };
        for (at, line) in text.lines().enumerate() {
            if path.ends_with("/expected.txt") {
                let (code, place) = line.split_once(' ').unwrap();
                let (path, line) = place.rsplit_once(':').unwrap();
                *tally.entry((code.into(), format!("{name}/{path}"), line.parse().unwrap())).or_default() += 1;
            } else if let Some(codes) = line.trim().strip_prefix("# expect:") {
                for code in codes.split_whitespace() {
                    *tally.entry((code.into(), path.into(), at + 2)).or_default() += 1;
                }
            }
        }
    }
    tally
}

fn key(files: &Files, finding: &Finding) -> (String, String, usize) {
    let (file, byte) = match finding.place() {
        Some(Place::Text { file, span }) => (*file, span.start as usize),
        Some(Place::File(file)) => (*file, 0),
        _ => return (finding.code.id.into(), "nowhere".into(), 0),
    };
    let line = files.bytes(file)[..byte].iter().filter(|byte| **byte == b'\n').count() + 1;
    (finding.code.id.into(), files.path(file).into(), line)
}

/// Names of the cases, in order.
fn names() -> Vec<String> {
    let entries = fs::read_dir(cases()).unwrap();
    let mut names: Vec<String> = entries.map(|it| it.unwrap().file_name().into_string().unwrap()).collect();
    names.retain(|name| name != "_catalog");
    names.sort();
    names
}

#[test]
fn every_case_is_reported_exactly_what_it_must_be() {
    let names = names();
    let mut wrong = Vec::new();
    for name in &names {
        let files = snapshot(name);
        let mut tally = expected(name, &files);
        for finding in pipeline::check(&files, &format!("{name}/job.toml")).iter() {
            *tally.entry(key(&files, finding)).or_default() -= 1;
        }
        for ((code, path, line), count) in tally.into_iter().filter(|(_, count)| *count != 0) {
            let what = if count > 0 { "missing" } else { "too many" };
            wrong.push(format!("{path}:{line}: {code}: {} {what}", count.abs()));
        }
    }
    assert!(wrong.is_empty(), "{} of {} cases:\n{}", wrong.len(), names.len(), wrong.join("\n"));
}

/// One fault a case would not show that reading goes on after the first.
#[test]
fn many_cases_hold_many_faults() {
    let mut many = 0;
    for name in names() {
        let tally = expected(&name, &snapshot(&name));
        let codes: BTreeSet<&String> = tally.keys().map(|(code, ..)| code).collect();
        let files: BTreeSet<&String> = tally.keys().map(|(_, path, _)| path).collect();
        many += usize::from(codes.len() >= 5 && files.len() >= 3);
    }
    assert!(names().len() >= 40, "{} cases", names().len());
    assert!(many >= 10, "{many} cases hold five kinds of faults over job, table and catalog");
}
