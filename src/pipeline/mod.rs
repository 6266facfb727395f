//! Files in, papers out.
//!
//! In: one snapshot of files.
//! Out: findings and papers as bytes.
//! May not know: the disk, the clock, the terminal.

mod binding;
mod codes;
mod compare;
mod drafts;
mod earlier;
mod earlier_hands;
mod explain;
mod file_names;
mod issue;
mod makers_sheets;
mod names;
mod net;
mod paper_kinds;
mod record;
mod render;
mod sheets;
mod starter;
mod table;
mod templates;
mod theme;
mod views;

pub use compare::{Compared, Headed, Reissue, compare};
pub use explain::{Depth, ExplainedLine, Explanation, explain};
pub use file_names::paper_of_file;
pub use issue::{Form, Issue, IssuedPaper, PaperStore, Progress, issue, issue_to};
pub use net::{caught, silence_panics};
pub use record::{Copies, RecordFiles, Recording, earlier_copy, fault_of_copy, recorded, recorded_before};
pub use sheets::pages_of_sheets;
pub use starter::starter;
pub use table::TakeoffTable;
pub use templates::{TEMPLATE_FOLDER, built_in_templates};

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;
use sha2::{Digest, Sha256};

use crate::catalog::{self, Catalog};
use crate::documents::{self, PricedAnswer};
use crate::estimate::{self, AlternatePrice, Estimate, Interaction};
use crate::findings::{Code, Files, Findings};
use crate::fonts::Faces;
use crate::input::Reader;
use crate::issues::Record;
use crate::job::{Job, JobNames, Typed};
use crate::measure::System;
use crate::money::Money;
use crate::review::{self, AcceptedFinding, ReviewedJob};
use crate::takeoff::{self, Takeoff};
use crate::typeset::Theme;

/// A file or a folder that a job names and that must be in the snapshot.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RequiredFile {
    /// A file.
    File(String),
    /// The `.toml` files that stand directly in a folder.
    Folder(String),
    /// A file of somebody else's, a PDF or a font, which is asked for only once the catalog is there.
    Enclosure(String),
    /// A file or folder that is named by a path from the root.
    FromRoot(String),
}

impl RequiredFile {
    /// Its path.
    pub fn path(&self) -> &str {
        match self {
            RequiredFile::File(path)
            | RequiredFile::Folder(path)
            | RequiredFile::Enclosure(path)
            | RequiredFile::FromRoot(path) => path,
        }
    }
}

/// What a job file names, and the record of its issues, which may not be there, from a snapshot that holds at least the job
/// file; with its catalog in it also what that names. Faults are left to [`load`].
pub fn required_files(files: &Files, job_path: &str) -> Vec<RequiredFile> {
    let Some(file) = files.find(job_path) else { return Vec::new() };
    let names = JobNames::read(&mut Reader::new(files), file);
    let folder = names.catalog_folder().map(|(folder, _)| RequiredFile::Folder(folder));
    let sheets = names.catalog_folder().map(|(folder, _)| enclosures_named(files, &folder));
    let sheets = sheets.into_iter().flatten();
    let record = RequiredFile::File(record::path_of(job_path));
    let from_root = names.from_root();
    let whole = |it: RequiredFile| match from_root.iter().any(|path| path == it.path()) {
        true => RequiredFile::FromRoot(it.path().to_owned()),
        false => it,
    };
    names.tables().into_iter().map(RequiredFile::File).chain(folder).map(whole).chain([record]).chain(sheets).collect()
}

/// What the files of a catalog name to be enclosed, once they are in the snapshot.
pub fn enclosures_named(files: &Files, catalog_folder: &str) -> Vec<RequiredFile> {
    makers_sheets::may_be_named(files, catalog_folder).into_iter().map(RequiredFile::Enclosure).collect()
}

/// The number of a job, which names the folder of its papers; none where its job file does not give one.
pub fn job_number(files: &Files, job_path: &str) -> Option<String> {
    JobNames::read(&mut Reader::new(files), files.find(job_path)?).number().map(str::to_owned)
}

/// A job and its catalog, read and checked.
#[derive(Debug)]
pub struct Loaded {
    /// The catalog.
    pub catalog: Catalog,
    /// The folder that its files stand in.
    pub catalog_folder: String,
    /// The look of its papers.
    pub theme: Theme,
    /// The faces that they are set in.
    pub faces: Faces,
    /// The job; none where its own table cannot be read.
    pub job: Option<Job>,
    /// What names its state.
    pub state: State,
    /// SHA-256 of the files that the catalog names to be enclosed, in hex, by their paths there.
    pub sheets: BTreeMap<String, String>,
    /// Everything found so far, in file order.
    pub findings: Findings,
    /// What was issued before.
    pub record: Record,
}

/// What names the state of a job and its catalog. It is empty where a job was read for its figures alone and nothing was recorded.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// What the job file holds that belongs to no opening, by key; with it the digests of the files that are enclosed.
    pub elsewhere: BTreeMap<String, String>,
    /// SHA-256 over the values of job and catalog in canonical order and the files that are enclosed, in hex: the same however the
    /// files of job and catalog are wrapped.
    pub fingerprint: String,
    /// The same without transmittals: what was sent and came back goes on after the issue and changes none of its papers' facts.
    pub values: String,
}

impl State {
    fn of(typed: &Typed, catalog: &Catalog, sheets: &BTreeMap<String, String>, system: System) -> State {
        let mut elsewhere = typed.elsewhere(system);
        elsewhere.extend(sheets.iter().map(|(path, digest)| (sheet_field(path), short(digest).to_owned())));
        let of_sheets: Vec<(String, String)> =
            sheets.iter().map(|(path, it)| (sheet_field(path), it.clone())).collect();
        let typed_values = typed.values();
        let all = || typed_values.iter().chain(&catalog.values).chain(&of_sheets);
        let fingerprint = digest_of(all());
        let values = digest_of(all().filter(|(path, _)| !path.starts_with("job.transmittal")));
        State { elsewhere, fingerprint, values }
    }
}

/// What a job is read for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Purpose {
    /// Figures and findings: no digest is made but where an issue was recorded, and nothing of what belongs to no opening is kept.
    Figures,
    /// Papers, records and comparisons, which name the state they were made from.
    Papers,
}

/// Reads and checks a job and its catalog from a whole snapshot. `job_path` must be in it.
pub fn load(files: &Files, job_path: &str) -> Option<Loaded> {
    load_for(Purpose::Papers, files, job_path)
}

fn load_for(purpose: Purpose, files: &Files, job_path: &str) -> Option<Loaded> {
    let file = files.find(job_path)?;
    let mut reader = Reader::new(files);
    let typed = Typed::read(&mut reader, file);
    let sheets = &takeoff::sheet;
    let (catalog_folder, catalog) = match typed.names().catalog_folder() {
        Some((folder, place)) => (folder.clone(), catalog::read(&mut reader, &folder, place.as_ref(), sheets)),
        None => (String::new(), Catalog { is_missing: true, ..Catalog::default() }),
    };
    let (record, found) = record::record_of(files, job_path);
    let sheets = makers_sheets::digests(files, &catalog_folder, &catalog);
    let is_named = purpose == Purpose::Papers || !record.issues.is_empty();
    let state = if is_named { State::of(&typed, &catalog, &sheets, reader.system()) } else { State::default() };
    let job = typed.check(&mut reader, &catalog);
    let mut findings = reader.into_findings();
    findings.extend(found);
    if let Some(changed) = job.as_ref().and_then(|job| record::changed_since(&record, &job.head, &state.values)) {
        findings.push(changed);
    }
    let theme = theme::theme(&catalog, &mut findings);
    let faces = theme::faces(&catalog, &catalog_folder, files, &mut findings);
    Some(Loaded { catalog, catalog_folder, theme, faces, job, state, sheets, findings, record })
}

/// What the bytes of an enclosed file are called among the values.
const SHEET: &str = "enclosed file ";

fn sheet_field(path: &str) -> String {
    format!("{SHEET}{path}")
}

/// A digest as it is printed.
fn short(digest: &str) -> &str {
    digest.get(..12).unwrap_or(digest)
}

/// SHA-256 over paths and values, each ended by a byte that no text holds.
fn digest_of<'v>(values: impl Iterator<Item = &'v (String, String)>) -> String {
    let mut digest = Sha256::new();
    for (path, value) in values {
        digest.update(path.as_bytes());
        digest.update([0]);
        digest.update(value.as_bytes());
        digest.update([0]);
    }
    hex(digest.finalize().as_slice())
}

/// Bytes in hex.
fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A job taken off and priced.
pub struct Priced<'j> {
    /// The takeoff; its ledger holds every figure.
    pub takeoff: Takeoff<'j>,
    /// The price; none where it cannot be worked out.
    pub estimate: Option<Estimate>,
    /// Alternates.
    pub alternates: Vec<AlternatePrice>,
    /// Alternates that together come to something else than their sum.
    pub interactions: Vec<Interaction>,
    /// Other answers to open questions, where they are priced.
    pub answers: Vec<PricedAnswer>,
    /// What taking off and pricing found.
    pub findings: Findings,
}

/// Takes off and prices a reviewed job, and every alternate alone and two by two.
pub fn price<'j>(reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> Priced<'j> {
    let mut priced = price_base(reviewed, catalog);
    price_alternates(&mut priced, reviewed, catalog);
    priced
}

/// Takes off and prices a reviewed job without its alternates.
fn price_base<'j>(reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> Priced<'j> {
    let mut findings = Findings::default();
    let mut takeoff = takeoff::take_off(reviewed, catalog, &mut findings);
    let estimate = estimate::price(&mut takeoff, reviewed.job(), catalog, &mut findings);
    Priced { takeoff, estimate, alternates: Vec::new(), interactions: Vec::new(), answers: Vec::new(), findings }
}

/// Prices every alternate of a job alone and two by two, each as a job of its own.
fn price_alternates(priced: &mut Priced, reviewed: &ReviewedJob, catalog: &Catalog) {
    let job = reviewed.job();
    let Some(base) = priced.estimate.as_ref().map(|estimate| estimate.bid) else { return };
    priced.takeoff.ledger.freeze();
    let findings = &mut priced.findings;
    let bids: BTreeMap<Vec<usize>, Money> = sets(job.alternates.len())
        .into_iter()
        .filter_map(|set| {
            let varied = reviewed.varied(job.with_alternates(&set));
            Some((set, bid_of(&priced.takeoff, &varied, catalog, findings)?))
        })
        .collect();
    match estimate::price_alternates(job, &mut priced.takeoff.ledger, base, &bids) {
        Ok((alternates, interactions)) => {
            priced.alternates = alternates;
            priced.interactions = interactions;
        }
        Err(fault) => priced.findings.push(estimate::no_price(&fault, &job.head.place)),
    }
}

/// Prices what other answers to open questions change, each as a job of its own. An answer that has no price is left out: its
/// question then says what rests on it.
fn price_answers(priced: &mut Priced, reviewed: &ReviewedJob, catalog: &Catalog) {
    let Some(base) = priced.estimate.as_ref().map(|it| priced.takeoff.ledger.value(it.bid).value()) else { return };
    priced.takeoff.ledger.freeze();
    let answers = documents::answers(reviewed, catalog, &priced.takeoff);
    let each = answers.into_par_iter().filter_map(|answer| {
        let bid = bid_of(&priced.takeoff, &reviewed.varied(answer.job), catalog, &mut Findings::default())?;
        let change = Money::dollars(bid.to_dollars().checked_sub(base)?);
        Some(PricedAnswer { topic: answer.topic, words: answer.words, change })
    });
    priced.answers = each.collect();
}

/// Everything that is wrong with a job: read, reviewed, taken off and priced.
pub fn check(files: &Files, job_path: &str) -> Findings {
    let (_, findings) = net::worked::<()>(Purpose::Figures, (files, job_path), |loaded| {
        let mut findings = loaded.findings;
        let Some(job) = loaded.job else { return (None, findings.sorted()) };
        let reviewed = review::review(job, &loaded.catalog, &mut findings);
        let mut priced = price(&reviewed, &loaded.catalog);
        gather(&mut findings, &mut priced, &reviewed, &loaded.catalog);
        file_names::check((&reviewed, &loaded.catalog, &priced.takeoff), &mut findings);
        makers_sheets::enclosed(
            files,
            (&loaded.catalog_folder, &loaded.catalog),
            (&priced.takeoff, reviewed.job()),
            &mut findings,
        );
        (None, conclude(findings, &reviewed, &codes_of_papers()).0)
    });
    findings
}

/// Adds what taking off and pricing found, and the ages of the prices used.
fn gather(findings: &mut Findings, priced: &mut Priced, reviewed: &ReviewedJob, catalog: &Catalog) {
    findings.extend(std::mem::take(&mut priced.findings));
    if let Some(estimate) = &priced.estimate {
        let absences = review::absences(reviewed.job(), catalog);
        documents::price_absences(findings, &absences, &priced.takeoff, estimate);
    }
    let used: BTreeSet<&str> = priced.takeoff.lines.iter().map(|line| &*line.item).collect();
    findings.extend(review::price_ages(reviewed.job(), catalog, used.into_iter()));
}

/// Everything that was found, in file order, and apart from it what the job accepts. `unheard` are codes of rooms that have
/// not said their part.
fn conclude(findings: Findings, reviewed: &ReviewedJob, unheard: &[&Code]) -> (Findings, Vec<AcceptedFinding>) {
    let (left, accepted) = review::accept(findings.sorted(), reviewed.job(), unheard);
    (left.sorted(), accepted)
}

/// Whether the making of papers raises a code, which `check` may not.
pub fn is_of_papers(code: &Code) -> bool {
    codes_of_papers().contains(&code) || codes::CODES.contains(&code)
}

/// Codes that only the making of papers raises.
fn codes_of_papers() -> Vec<&'static Code> {
    let rooms = [crate::documents::CODES, crate::fonts::CODES, &crate::markup::CODES, &crate::typeset::CODES];
    [rooms.concat(), crate::pdf::CODES.to_vec(), net::CODES.to_vec(), vec![&codes::HAND_CHANGED]].concat()
}

/// What `written` makes of the takeoff of a job as a table, and what was found; nothing where the job cannot be read.
pub fn takeoff_table<T>(files: &Files, job_path: &str, written: impl Fn(&TakeoffTable) -> T) -> (Option<T>, Findings) {
    net::worked(Purpose::Figures, (files, job_path), |loaded| {
        let mut findings = loaded.findings;
        let made = loaded.job.map(|job| {
            let reviewed = review::review(job, &loaded.catalog, &mut findings);
            let takeoff = takeoff::take_off(&reviewed, &loaded.catalog, &mut findings);
            written(&TakeoffTable::of(&takeoff, &loaded.catalog))
        });
        (made, findings.sorted())
    })
}

/// Every alternate alone, and every two.
fn sets(alternates: usize) -> Vec<Vec<usize>> {
    let alone = (0..alternates).map(|at| vec![at]);
    let pairs = (0..alternates).flat_map(|a| (a + 1..alternates).map(move |b| vec![a, b]));
    alone.chain(pairs).collect()
}

/// The bid of a job that was made of a reviewed one. What the takeoff finds there concerns no paper of the base bid; a line
/// without a price holds the alternate's, and with it the bid that offers it.
fn bid_of(base: &Takeoff, reviewed: &ReviewedJob, catalog: &Catalog, findings: &mut Findings) -> Option<Money> {
    let mut takeoff = takeoff::take_off_varied(base, reviewed, catalog);
    let bid = estimate::bid(&mut takeoff, reviewed.job(), catalog, findings)?;
    Some(Money::dollars(takeoff.ledger.value(bid).value()))
}

/// Every code that any room raises.
pub fn codes() -> Vec<&'static Code> {
    let shop = [
        crate::input::CODES,
        crate::rules::CODES,
        crate::catalog::CODES,
        crate::job::CODES,
        &crate::review::CODES,
        crate::takeoff::CODES,
        crate::estimate::CODES,
        crate::issues::CODES,
        crate::pdf_import::CODES,
        codes::CODES,
    ];
    [shop.concat(), codes_of_papers()].concat()
}
