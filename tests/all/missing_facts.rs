//! The law of the missing fact: taking out any one thing that was typed never makes a bid cheaper, and never drops a line of work,
//! without a finding.
//!
//! In: the demo's job and catalog, the jobs worked by hand, generated jobs, each with one thing taken out. Out: what was lost
//! without a word; the tests want none but what may vanish freely. May not know: how a price comes about. Arithmetic, no source.

mod catalog;
mod free;
pub mod generated;

use std::collections::BTreeMap;
use std::path::Path;

use hingewright::findings::Files;
use rayon::prelude::*;

use crate::counts::{below, random, share};
use crate::demo;
use crate::one_out::{Texts, Typed, typed, without};
use crate::silence::{Outcome, outcome, silence};

/// Things that a sample takes out.
const SAMPLE: u64 = 24;

/// Jobs that are generated, each for one removal.
const GENERATED: u64 = 200;

/// A job with all its files, and what it comes to whole.
pub struct Whole {
    pub name: &'static str,
    pub texts: Texts,
    pub job: &'static str,
    outcome: Outcome,
}

impl Whole {
    fn of(name: &'static str, texts: Texts, job: &'static str) -> Self {
        let outcome = outcome(&files(&texts, &BTreeMap::new()), job);
        assert!(!outcome.held && outcome.bid.is_some(), "{name}: {:?}", outcome.findings);
        Whole { name, texts, job, outcome }
    }

    /// What taking out one thing loses without a word; nothing where that may be.
    fn lost(&self, one: &Typed) -> Option<String> {
        if free::reason(&self.texts, one).is_some() {
            return None;
        }
        let changed = BTreeMap::from([(one.file.clone(), without(&self.texts[&one.file], &one.what))]);
        let changed = outcome(&files(&self.texts, &changed), self.job);
        let lost = silence(&self.outcome, &changed)?;
        Some(format!("{} {one}: ${} and {:?}; {:?}", self.name, lost.dollars, lost.lines, lost.words))
    }
}

pub fn files(texts: &Texts, changed: &BTreeMap<String, String>) -> Files {
    let text =
        |(path, text): (&String, &String)| (path.clone(), changed.get(path).unwrap_or(text).clone().into_bytes());
    Files::new(texts.iter().map(text))
}

/// The demo, and the jobs worked by hand.
pub fn wholes() -> Vec<Whole> {
    let worked = ["single", "single-mixed", "pair", "pair-existing", "egress", "egress-circuits", "sites"];
    let of_hand = worked.into_iter().map(|name| {
        let mut texts = Texts::new();
        gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/jobs").join(name), "", &mut texts);
        Whole::of(name, texts, "job.toml")
    });
    let mut demo_texts = demo::texts();
    demo_texts.retain(|path, _| !path.ends_with("held.toml"));
    std::iter::once(Whole::of("demo", demo_texts, demo::JOB)).chain(of_hand).collect()
}

fn gather(folder: &Path, named: &str, texts: &mut Texts) {
    for entry in std::fs::read_dir(folder).expect("a job worked by hand") {
        let path = entry.expect("an entry of it").path();
        let name = format!("{named}{}", path.file_name().expect("a name").to_string_lossy());
        if path.is_dir() {
            gather(&path, &format!("{name}/"), texts);
        } else if name.ends_with(".toml") {
            texts.insert(name, std::fs::read_to_string(&path).expect("a text"));
        }
    }
}

fn hold(wholes: &[Whole], some: Vec<(usize, Typed)>) {
    let lost: Vec<String> = some.into_par_iter().filter_map(|(at, one)| wholes[at].lost(&one)).collect();
    assert!(lost.is_empty(), "{} things:\n{}", lost.len(), lost.join("\n"));
}

/// Whether a file is one of the job's own; the others are those of its catalog.
pub fn is_of_job(path: &str) -> bool {
    path.starts_with("catalog_demo/job/") || path == "job.toml"
}

/// Everything that is typed in the jobs, or in their catalogs, each with the position of its job.
fn everything(wholes: &[Whole], files: fn(&str) -> bool) -> Vec<(usize, Typed)> {
    let each = wholes.iter().enumerate();
    each.flat_map(|(at, whole)| {
        let own: Texts =
            whole.texts.iter().filter(|(path, _)| files(path)).map(|(a, b)| (a.clone(), b.clone())).collect();
        typed(&own).into_iter().map(move |one| (at, one))
    })
    .collect()
}

#[test]
fn a_sample_of_facts_left_out_is_never_cheaper_without_a_word() {
    let wholes = wholes();
    let all = everything(&wholes, is_of_job);
    let mut random = random(61);
    hold(&wholes, (0..SAMPLE).map(|_| all[below(&mut random, all.len() as u64) as usize].clone()).collect());
}

/// HINGEWRIGHT_SHARE=3/7 walks the third of seven shares.
#[test]
#[ignore = "takes minutes; .ci runs it"]
fn no_fact_left_out_is_cheaper_without_a_word() {
    let wholes = wholes();
    let all = everything(&wholes, is_of_job);
    assert!(all.len() > 4_000, "{} things", all.len());
    let in_share = share();
    hold(&wholes, all.into_iter().enumerate().filter(|(at, _)| in_share(*at)).map(|(_, one)| one).collect());
}

#[test]
#[ignore = "takes minutes; .ci runs a part of it"]
fn no_entry_of_a_catalog_left_out_is_cheaper_without_a_word() {
    let wholes = wholes();
    let all = everything(&wholes, |path| !is_of_job(path) && path.ends_with(".toml"));
    assert!(all.len() > 1_000, "{} things", all.len());
    let in_share = share();
    hold(&wholes, all.into_iter().enumerate().filter(|(at, _)| in_share(*at)).map(|(_, one)| one).collect());
}

#[test]
fn so_it_is_with_generated_jobs() {
    let mut random = random(67);
    let jobs: Vec<(u64, u64)> = (0..GENERATED).map(|job| (job, below(&mut random, 1 << 32))).collect();
    let lost = |(seed, at): (u64, u64)| {
        let texts = generated::job(seed);
        let whole = Whole::of("generated", texts, generated::JOB);
        let own: Texts = whole
            .texts
            .iter()
            .filter(|(path, _)| *path == generated::JOB)
            .map(|(a, b)| (a.clone(), b.clone()))
            .collect();
        let all = typed(&own);
        whole.lost(&all[(at % all.len() as u64) as usize])
    };
    let lost: Vec<String> = jobs.into_par_iter().filter_map(lost).collect();
    assert!(lost.is_empty(), "{} things:\n{}", lost.len(), lost.join("\n"));
}
