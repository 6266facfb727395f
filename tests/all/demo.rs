//! The demo job for tests: read from the disk once, priced and issued once, and copies of it with a few words changed.
//!
//! In: the demo's files. Out: texts, snapshots, priced jobs, papers read back. May not know: what is tested with them.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

use hingewright::catalog::Catalog;
use hingewright::documents::{Count, Sources, counts};
use hingewright::estimate::{self, Estimate};
use hingewright::findings::{Files, Findings, Paper, Papers};
use hingewright::job::Job;
use hingewright::ledger::FigureId;
use hingewright::measure::Unit;
use hingewright::pipeline::{self, Form, Issue, Priced};
use hingewright::review::{self, ReviewedJob};
use hingewright::takeoff::{self, Takeoff};
use rust_decimal::Decimal;

use crate::pdf_reader::Pdf;

/// The job file, as a person at the top of the project names it.
pub const JOB: &str = "catalog_demo/job/job.toml";

/// Folders of the demo.
pub const FOLDERS: [&str; 2] = ["catalog_demo", "catalog_demo/job"];

/// Files by path.
pub type Texts = BTreeMap<String, String>;

/// The demo's files as they stand on the disk.
pub fn texts() -> Texts {
    static TEXTS: OnceLock<Texts> = OnceLock::new();
    let read = || {
        let mut texts = Texts::new();
        for folder in FOLDERS {
            for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap() {
                let path = entry.unwrap().path();
                let name = path.file_name().unwrap().to_str().unwrap().to_owned();
                if name.ends_with(".toml") || name.ends_with(".csv") {
                    texts.insert(format!("{folder}/{name}"), std::fs::read_to_string(&path).unwrap());
                }
            }
        }
        texts
    };
    TEXTS.get_or_init(read).clone()
}

/// Changes words of a file that stand there exactly once.
pub fn replace(texts: &mut Texts, file: &str, from: &str, to: &str) {
    let text = texts.get_mut(file).unwrap_or_else(|| panic!("no file {file}"));
    assert_eq!(text.matches(from).count(), 1, "`{from}` in {file}");
    *text = text.replace(from, to);
}

/// A snapshot of files, with the templates that ship with the tool. A copy of the demo's catalog has its sheets beside it too.
pub fn snapshot(texts: &Texts) -> Files {
    let own = texts.iter().map(|(path, text)| (path.clone(), text.clone().into_bytes()));
    let copies = texts.keys().filter_map(|path| path.strip_suffix("/items-devices.toml")).filter(|it| *it != FOLDER);
    let of_copy = |copy: &str| -> Vec<(String, Vec<u8>)> {
        sheets().into_iter().map(|(path, bytes)| (path.replacen(FOLDER, copy, 1), bytes)).collect()
    };
    let of_copies: Vec<_> = copies.flat_map(of_copy).collect();
    Files::new(own.chain(sheets()).chain(of_copies).chain(pipeline::built_in_templates()))
}

/// The folder of the demo's catalog.
const FOLDER: &str = "catalog_demo";

/// Makers' own sheets of the demo's catalog.
pub fn sheets() -> Vec<(String, Vec<u8>)> {
    let folder = "catalog_demo/sheets";
    let entries = std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap();
    let read = |path: std::path::PathBuf| {
        let name = format!("{folder}/{}", path.file_name().unwrap().to_str().unwrap());
        (name, std::fs::read(path).unwrap())
    };
    entries.map(|entry| read(entry.unwrap().path())).collect()
}

/// A job that was read and reviewed, with its catalog.
pub struct Read {
    pub job: Job,
    pub catalog: Catalog,
    pub fingerprint: String,
}

/// Reads a job. Nothing may be found that stops it from being read.
pub fn read(texts: &Texts) -> Read {
    let loaded = pipeline::load(&snapshot(texts), JOB).unwrap();
    let found: Vec<String> = loaded.findings.iter().map(|it| format!("{}: {}", it.code.id, it.sentence())).collect();
    let job = loaded.job.unwrap_or_else(|| panic!("{found:#?}"));
    assert_eq!(found, Vec::<String>::new());
    Read { job, catalog: loaded.catalog, fingerprint: loaded.state.fingerprint }
}

impl Read {
    /// The job after the review.
    pub fn reviewed(&self) -> ReviewedJob {
        clear(self.job.clone(), &self.catalog)
    }
}

/// A job after the review.
pub fn clear(job: Job, catalog: &Catalog) -> ReviewedJob {
    review::review(job, catalog, &mut Findings::default())
}

/// Takes off a job.
pub fn taken_off<'j>(reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> Takeoff<'j> {
    takeoff::take_off(reviewed, catalog, &mut Findings::default())
}

/// Takes off and prices a job, without its alternates.
pub fn estimated<'j>(reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> (Takeoff<'j>, Estimate) {
    let mut takeoff = taken_off(reviewed, catalog);
    let estimate = estimate::price(&mut takeoff, reviewed.job(), catalog, &mut Findings::default()).unwrap();
    (takeoff, estimate)
}

/// The counts of a takeoff: of the whole job, and of one site.
pub fn counted(reviewed: &ReviewedJob, catalog: &Catalog, takeoff: &Takeoff, site: Option<usize>) -> Vec<Count> {
    of_sources(reviewed, catalog, takeoff, |sources| counts(sources, site))
}

/// What papers are made of when nothing was found, recorded or enclosed.
pub fn of_sources<T>(
    reviewed: &ReviewedJob,
    catalog: &Catalog,
    takeoff: &Takeoff,
    make: impl FnOnce(&Sources) -> T,
) -> T {
    let (findings, enclosures) = (Findings::default(), BTreeMap::new());
    make(&Sources {
        reviewed,
        catalog,
        takeoff,
        findings: &findings,
        accepted: &[],
        fingerprint: "",
        revisions: &[],
        enclosures: &enclosures,
    })
}

/// A figure as a number of dollars.
pub fn dollars(takeoff: &Takeoff, figure: FigureId) -> Decimal {
    takeoff.ledger.value(figure).number_of(Unit::Dollar).unwrap()
}

/// All papers of a job.
pub fn issue(texts: &Texts) -> Issue {
    pipeline::issue(&snapshot(texts), JOB, Papers::ALL, None).0.unwrap()
}

/// The demo, priced and issued.
pub struct Demo {
    pub catalog: &'static Catalog,
    pub reviewed: &'static ReviewedJob,
    pub priced: Priced<'static>,
    pub fingerprint: String,
    pub issue: Issue,
    /// Papers read back, by file name.
    pub pdfs: BTreeMap<String, Pdf>,
}

impl Demo {
    /// The estimate.
    pub fn estimate(&self) -> &Estimate {
        self.priced.estimate.as_ref().unwrap()
    }

    /// A paper that is one file.
    pub fn pdf(&self, paper: Paper) -> &Pdf {
        let issued = self.issue.of_form(Form::Pdf).find(|it| it.paper == paper).unwrap();
        &self.pdfs[&issued.name]
    }
}

/// The demo, priced and issued once for all tests.
pub fn demo() -> &'static Demo {
    static DEMO: OnceLock<Demo> = OnceLock::new();
    DEMO.get_or_init(|| {
        let texts = texts();
        let read = read(&texts);
        // What is taken off points into the job and the catalog; all three live until the tests end.
        let reviewed: &'static ReviewedJob = Box::leak(Box::new(read.reviewed()));
        let catalog: &'static Catalog = Box::leak(Box::new(read.catalog));
        let issue = issue(&texts);
        let pdfs = issue.of_form(Form::Pdf).map(|it| (it.name.clone(), Pdf::read(&it.bytes))).collect();
        Demo {
            catalog,
            reviewed,
            priced: pipeline::price(reviewed, catalog),
            fingerprint: read.fingerprint,
            issue,
            pdfs,
        }
    })
}

#[test]
fn the_demo_issues_every_paper_that_can_be_made() {
    let demo = demo();
    assert!(demo.issue.held.is_empty(), "{:?}", demo.issue.held);
    for paper in Paper::ALL {
        assert!(demo.issue.papers.iter().any(|it| it.paper == paper), "no {}", paper.word());
    }
    for paper in &demo.issue.papers {
        assert!(paper.name.starts_with(paper.paper.word()), "{} names its paper", paper.name);
        assert!(demo.issue.record.contains(&format!("issued {} sha256 ", paper.name)), "{}", demo.issue.record);
    }
}
