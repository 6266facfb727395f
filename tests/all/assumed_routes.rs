//! Routes that are assumed: a run that is typed as the catalog assumes it comes to the same, and a job whose runs are all typed has
//! none assumed.
//!
//! In: generated jobs without their runs, and with runs typed as they were assumed. Out: the same bid, the same lines of work, one
//! finding a site. May not know: how a route is assumed. Arithmetic, no source.

use std::fmt::Write;

use hingewright::findings::Files;
use hingewright::job::{Run, RunClass};
use hingewright::pipeline;
use rayon::prelude::*;

use crate::missing_facts::generated;
use crate::one_out::Texts;
use crate::silence::{Outcome, outcome};

/// Jobs that are generated.
const JOBS: u64 = 100;

fn files(texts: &Texts) -> Files {
    Files::new(texts.iter().map(|(path, text)| (path.clone(), text.clone().into_bytes())))
}

/// The job without a run.
fn bare(mut texts: Texts) -> Texts {
    let job = texts.get_mut(generated::JOB).expect("the job");
    let blocks: Vec<&str> = job.split("\n[[").filter(|block| !block.starts_with("run]]")).collect();
    *job = blocks.join("\n[[");
    texts
}

/// The runs of a job as read.
fn runs(texts: &Texts) -> Vec<Run> {
    let loaded = pipeline::load(&files(texts), generated::JOB).expect("a job file");
    loaded.job.expect("a job").runs
}

/// Runs as a person types them.
fn typed(runs: &[Run]) -> String {
    let mut text = String::new();
    for run in runs {
        let class = if run.class == RunClass::Line { "line" } else { "low" };
        let (wet, plenum) = (run.entry.wet.or(false), run.entry.plenum.or(false));
        write!(
            text,
            "\n[[run]]\nfrom = \"{}\"\nto = \"{}\"\nkind = \"{}\"\nlength = \"{} ft\"\nbends = {:?}\nclass = \"{class}\"\nwet = {wet}\nplenum = {plenum}\n",
            run.from,
            run.to,
            run.kind,
            run.length.to_feet(),
            run.bends,
        )
        .expect("a text takes more");
    }
    text
}

fn says(outcome: &Outcome) -> usize {
    outcome.findings.keys().filter(|it| it.starts_with("route-assumed ")).count()
}

#[test]
fn a_run_typed_as_it_was_assumed_comes_to_the_same() {
    let differ = |seed: u64| {
        let whole = generated::job(seed);
        assert!(runs(&whole).iter().all(|run| run.assumed.is_none()), "{seed}: all are typed");
        let bare = bare(whole);
        let assumed = runs(&bare);
        assert!(!assumed.is_empty() && assumed.iter().all(|run| run.assumed.is_some()), "{seed}: none is typed");
        let mut laid = bare.clone();
        laid.get_mut(generated::JOB).expect("the job").push_str(&typed(&assumed));
        let (before, after) = (outcome(&files(&bare), generated::JOB), outcome(&files(&laid), generated::JOB));
        assert_eq!((says(&before), says(&after)), (1, 0), "{seed}");
        (before.bid.is_none() || before.bid != after.bid || before.lines != after.lines)
            .then(|| format!("{seed}: {:?} and {:?}", before.bid, after.bid))
    };
    let differ: Vec<String> = (0..JOBS).into_par_iter().filter_map(differ).collect();
    assert!(differ.is_empty(), "{differ:#?}");
}

/// 45 ft to the panel and from the head of a leaf of 7 ft up to a ceiling at 9 ft, up to the foot: 47 ft, worked by hand from the
/// demo's catalog. To a plate at 36 in, 30 in from the leaf: 5 ft, 2 ft 6 in, 6 ft, together 13 ft 6 in, carried as 14 ft.
#[test]
fn an_assumed_length_is_made_of_its_parts() {
    let runs = runs(&bare(generated::job(1)));
    let feet = |class: RunClass| runs.iter().find(|it| it.class == class).map(|it| it.length.to_feet().to_string());
    assert_eq!(feet(RunClass::Line).as_deref(), Some("47"));
    if let Some(low) = feet(RunClass::Low) {
        assert_eq!(low, "14");
    }
}
