//! The sound job of one opening for tests, with other words in its head, its table or its catalog.
//!
//! In: words. Out: the job read, reviewed and taken off, and what was found. May not know: what is tested with it.

use hingewright::catalog::Catalog;
use hingewright::findings::{Files, Finding, Findings};
use hingewright::review::{self, ReviewedJob};
use hingewright::takeoff::{self, Takeoff};
use hingewright::{pipeline, pipeline::Loaded};

const JOB: &str = include_str!("../cases/nothing-wrong/job.toml");
const CATALOG: &str = include_str!("../cases/_catalog/catalog.toml");
const EDITIONS: &str = include_str!("../../catalog_demo/editions.toml");

/// Words for the job's head, the table of its one opening (or what stands after it), the operator and the catalog.
#[derive(Clone, Copy, Default)]
pub struct Words<'w> {
    pub head: &'w str,
    pub job: &'w str,
    pub operator: &'w str,
    pub catalog: &'w str,
}

/// A job that was reviewed, and what was found of it.
pub struct Sound {
    pub reviewed: ReviewedJob,
    pub catalog: Catalog,
    pub findings: Findings,
}

fn loaded(words: Words) -> Loaded {
    let job = JOB.replace("profile = \"town\"\n", &format!("profile = \"town\"\n{}\n", words.head));
    let own = CATALOG.replace("arm_screws = 4\n", &format!("arm_screws = 4\n{}\n", words.operator));
    let texts = [
        ("cases/a/job.toml", format!("{job}\n{}\n", words.job)),
        ("cases/_catalog/catalog.toml", format!("{own}\n{EDITIONS}\n{}\n", words.catalog)),
    ];
    let files = Files::new(texts.map(|(path, text)| (path.to_owned(), text.into_bytes())));
    pipeline::load(&files, "cases/a/job.toml").unwrap()
}

/// What reading the job finds.
pub fn read(words: Words) -> Vec<Finding> {
    loaded(words).findings.iter().cloned().collect()
}

impl Sound {
    /// The job with these words, reviewed. Reading it must find nothing.
    pub fn with(words: Words) -> Sound {
        let loaded = loaded(words);
        let read: Vec<String> = loaded.findings.iter().map(Finding::sentence).collect();
        assert!(read.is_empty(), "{read:#?}");
        let mut findings = Findings::default();
        let reviewed = review::review(loaded.job.unwrap(), &loaded.catalog, &mut findings);
        Sound { reviewed, catalog: loaded.catalog, findings }
    }

    /// The job taken off; what that finds is added to what the review found.
    pub fn take_off(&self) -> (Takeoff<'_>, Findings) {
        let mut findings = self.findings.clone();
        (takeoff::take_off(&self.reviewed, &self.catalog, &mut findings), findings)
    }

    /// What was found under a code.
    pub fn reported(&self, code: &str) -> Vec<&Finding> {
        self.findings.iter().filter(|it| it.code.id == code).collect()
    }
}

/// What a review finds under a code of the job with these words.
pub fn reported(code: &str, words: Words) -> Vec<Finding> {
    Sound::with(words).reported(code).into_iter().cloned().collect()
}
