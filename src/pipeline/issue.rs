//! `issue`: the papers of a job as bytes, those that are held left out.
//!
//! In: a snapshot, the papers asked for. Out: papers with file names, what was held, and a plain record of it all.
//! May not know: the disk.

use std::sync::atomic::{AtomicUsize, Ordering};

use super::earlier::{self, Earlier};
use super::earlier_hands;
use super::paper_kinds::{kind_of, papers_where, with_held};
use super::render::{PaperRenderer, RenderSetup};
use super::{
    Loaded, Purpose, codes_of_papers, conclude, file_names, gather, makers_sheets, net, price, price_answers, short,
    templates,
};
use crate::comparison::State;
use crate::documents::Sources;
use crate::findings::{Files, Findings, Paper, Papers};
use crate::markup::Templates;
use crate::review;

/// What a paper was written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Pages, for the printer and the desk.
    Pdf,
    /// One file for a browser, on a phone or a desk.
    Html,
    /// Its lines as a table, for a spreadsheet.
    Csv,
}

impl Form {
    /// What the names of its files end with.
    pub fn extension(self) -> &'static str {
        match self {
            Form::Pdf => "pdf",
            Form::Html => "html",
            Form::Csv => "csv",
        }
    }
}

/// Takes files of papers as they are made, from any thread. What it writes away need not be kept in memory until the last is made.
pub trait PaperStore: Sync {
    /// Takes a file; what is to be kept in the issue is given back, nothing where the store has it.
    fn put(&self, name: &str, bytes: Vec<u8>) -> Vec<u8>;
}

/// Keeps every file in the issue.
struct InMemory;

impl PaperStore for InMemory {
    fn put(&self, _: &str, bytes: Vec<u8>) -> Vec<u8> {
        bytes
    }
}

/// A paper that was made.
#[derive(Debug)]
pub struct IssuedPaper {
    /// Which.
    pub paper: Paper,
    /// What it was written as.
    pub form: Form,
    /// Its file name.
    pub name: String,
    /// Digest of its bytes, in hexadecimal digits.
    pub sha256: String,
    /// Its bytes; none where the store of the issue took them.
    pub bytes: Vec<u8>,
    /// Its pages, from 1, on which something is marked as changed since the issue before.
    pub revised: Vec<usize>,
}

/// What came of an issue.
#[derive(Debug)]
pub struct Issue {
    /// Number of the job, which names the folder of its papers.
    pub number: String,
    /// Papers, in order.
    pub papers: Vec<IssuedPaper>,
    /// Papers that were asked for and held.
    pub held: Vec<Paper>,
    /// A plain record of what was issued.
    pub record: String,
    /// What changed since the issue that was recorded before, in short lines; nothing where there is none.
    pub changes: Vec<String>,
}

impl Issue {
    /// The papers of a form, in order.
    pub fn of_form(&self, form: Form) -> impl Iterator<Item = &IssuedPaper> {
        self.papers.iter().filter(move |paper| paper.form == form)
    }
}

/// Makes the papers asked for. Nothing comes of a job whose own table cannot be read.
pub fn issue(
    files: &Files,
    job_path: &str,
    wanted: Papers,
    template_folder: Option<&str>,
) -> (Option<Issue>, Findings) {
    issue_to(files, job_path, (wanted, template_folder), &InMemory, &|_| {})
}

/// How far an issue has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// The job is read; it is reviewed, taken off and priced now.
    Read,
    /// So many kinds of papers are made, of so many.
    Papers(usize, usize),
}

/// The same into a store, and says how far it has come. Reports come from any thread. The store may be given files of papers that
/// are held in the end: what the issue does not list is not issued.
pub fn issue_to(
    files: &Files,
    job_path: &str,
    wanted: (Papers, Option<&str>),
    store: &dyn PaperStore,
    report: &(dyn Fn(Progress) + Sync),
) -> (Option<Issue>, Findings) {
    net::worked(Purpose::Papers, (files, job_path), |loaded| {
        report(Progress::Read);
        issue_loaded(loaded, (files, job_path), wanted, (store, report))
    })
}

fn issue_loaded(
    loaded: Loaded,
    (files, job_path): (&Files, &str),
    (wanted, template_folder): (Papers, Option<&str>),
    (store, report): (&dyn PaperStore, &(dyn Fn(Progress) + Sync)),
) -> (Option<Issue>, Findings) {
    let mut findings = loaded.findings;
    let Some(job) = loaded.job else { return (None, findings.sorted()) };
    let earlier = earlier::open(files, job_path, (&loaded.record, &job.head), &mut findings);
    let reviewed = review::review(job, &loaded.catalog, &mut findings);
    let mut priced = price(&reviewed, &loaded.catalog);
    gather(&mut findings, &mut priced, &reviewed, &loaded.catalog);
    file_names::check((&reviewed, &loaded.catalog, &priced.takeoff), &mut findings);
    if let Some(folder) = template_folder {
        templates::check(files, folder, &mut findings);
    }
    let enclosures = makers_sheets::enclosed(
        files,
        (&loaded.catalog_folder, &loaded.catalog),
        (&priced.takeoff, reviewed.job()),
        &mut findings,
    );
    if wanted.has(Paper::Questions) || wanted.has(Paper::Recap) {
        price_answers(&mut priced, &reviewed, &loaded.catalog);
    }
    let mut held = findings.blocked();
    if priced.estimate.is_none() {
        held = held.with(papers_where(|kind| kind.needs_estimate));
    }
    let held = with_held(held);
    let texts = templates::sources(files, template_folder);
    let mut of_templates = Findings::default();
    let templates = Templates::load(templates::as_sources(&texts), &mut of_templates);
    findings.extend(of_templates);
    let said = findings.clone().sorted();
    let before = earlier.as_ref().map(Earlier::priced);
    let now = State {
        job: reviewed.job(),
        catalog: &loaded.catalog,
        takeoff: &priced.takeoff,
        estimate: priced.estimate.as_ref(),
        alternates: &priced.alternates,
        findings: &said,
        elsewhere: &loaded.state.elsewhere,
    };
    let since = before.as_ref().map(|it| it.since(now)).unwrap_or_default();
    if let Some(before) = &before {
        let was = &before.price().takeoff;
        findings.extend(earlier_hands::changed(was, &priced.takeoff, &since.renaming));
    }
    let said = findings.clone().sorted();
    let changes = since.changes;
    let revisions = match &before {
        Some(_) => earlier::revisions(&loaded.record, &reviewed.job().head, &changes),
        None => Vec::new(),
    };
    let setup =
        RenderSetup { templates, faces: loaded.faces, theme: loaded.theme, fingerprint: &loaded.state.fingerprint };
    let (made, all) = (AtomicUsize::new(0), wanted.iter().filter(|paper| !held.has(*paper)).count());
    let count = || report(Progress::Papers(made.fetch_add(1, Ordering::Relaxed) + 1, all));
    report(Progress::Papers(0, all));
    let renderer = |findings, accepted| PaperRenderer {
        count: &count,
        store,
        setup: &setup,
        sources: Sources {
            reviewed: &reviewed,
            catalog: &loaded.catalog,
            takeoff: &priced.takeoff,
            findings,
            accepted,
            fingerprint: short(&loaded.state.fingerprint),
            revisions: &revisions,
            enclosures: &enclosures,
        },
        priced: &priced,
        before: before.as_ref(),
        renaming: &since.renaming,
    };
    // Some print what was accepted, of the other papers' findings too: they are made last.
    let list = |last| wanted.iter().filter(move |it| kind_of(*it).prints_acceptances == last && !held.has(*it));
    let mut made = renderer(&said, &[]).papers(list(false).collect());
    findings.extend(std::mem::take(&mut made.findings));
    let (left, accepted) = conclude(findings.clone(), &reviewed, &codes_of_papers());
    let last = renderer(&left, &accepted);
    let of_last = last.papers(list(true).collect());
    findings.extend(of_last.findings);
    let held = held.with(made.held).with(of_last.held);
    made.papers.extend(of_last.papers);
    // Of a paper in several files all are held if one is.
    made.papers.retain(|paper| !held.has(paper.paper));
    made.papers.sort_by_key(|paper| paper.paper);
    let number = reviewed.job().head.number.clone();
    let held: Vec<Paper> = wanted.iter().filter(|paper| held.has(*paper)).collect();
    let record = record(&last.sources, &loaded.state.fingerprint, &made.papers, &held);
    // Where a paper was not made, its room had no say.
    let unheard = if wanted == Papers::ALL && held.is_empty() { Vec::new() } else { codes_of_papers() };
    let (findings, _) = conclude(findings, &reviewed, &unheard);
    (Some(Issue { number, papers: made.papers, held, record, changes }), findings)
}

/// The record of an issue: plain lines, the same for the same input.
fn record(sources: &Sources, fingerprint: &str, papers: &[IssuedPaper], held: &[Paper]) -> String {
    let head = &sources.reviewed.job().head;
    let revision = head.revision.as_deref().unwrap_or("-");
    let mut out = format!(
        "job {}\nrevision {revision}\ndated {}\nfingerprint of the values {fingerprint}\n",
        head.number, head.date
    );
    for paper in papers {
        out.push_str(&format!("issued {} sha256 {}\n", paper.name, paper.sha256));
    }
    for paper in held {
        out.push_str(&format!("held {}\n", paper.word()));
    }
    out
}
