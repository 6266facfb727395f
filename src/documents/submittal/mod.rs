//! A submittal package: what goes to the reviewer under one section of the project manual, in one file.
//!
//! In: sources, a transmittal of the job. Out: the view of the package with its drawings; what other papers are bound behind it.
//! May not know: pages, prices.
//!
//! What a public owner wants in it: a transmittal of one section, the contractor's certification, every deviation declared, the
//! product data, certificates, warranty and maintenance data (USACE ENG Form 4025-R and its notes 1 to 9, read; VA 08 71 13,
//! 1.3 to 1.5, read; UFGS 01 33 00, read). Nothing in it is a cost or a price.

mod compliance;
mod cut_sheet;
mod cut_sheets;
mod lines;
mod operators;
mod prepared;
mod product_sheet;
mod products;
mod proofs;
mod sending;
mod upkeep;

use std::collections::BTreeMap;

use serde::Serialize;

pub use compliance::{ComplianceRow, DeviationRow};
pub use cut_sheet::CutSheet;
pub use lines::TransmittalLine;
pub use prepared::{PreparedDrawing, PreparedRow};
pub use products::ProductGroup;
pub use proofs::ProofRow;
pub use sending::Sending;
pub use upkeep::{Upkeep, Warranty};

use super::drawing_set::drawing_set;
use super::review_sheet::{FoundRow, shortfalls};
use super::{Count, Draft, DrawingsView, Letterhead, ScheduleView, Sources, counts, letterhead, schedule};
use crate::fonts::Faces;
use crate::job::{Submittal, SubmittalPart, Transmittal};
use crate::measure::Noun;
use crate::takeoff::EntityRef;

/// A submittal package.
#[derive(Clone, Debug, Serialize)]
pub struct SubmittalView {
    /// Head and foot.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// What is sent, to whom, as the how-manyeth time.
    pub sending: Sending,
    /// The lines of the transmittal.
    pub lines: Vec<TransmittalLine>,
    /// Width and height of the reviewer's stamp, as extents; empty where the owner asks for none.
    pub stamp: Vec<String>,
    /// Paragraphs of the section with our answers; empty where the package holds none.
    pub compliance: Vec<ComplianceRow>,
    /// Deviations, in the order of their paragraphs.
    pub deviations: Vec<DeviationRow>,
    /// Shortfalls against codes that the review found.
    pub shortfalls: Vec<FoundRow>,
    /// Key of the marks beside their clauses; empty where none has one.
    pub clause_key: String,
    /// Product data by group of items.
    pub products: Vec<ProductGroup>,
    /// Suppliers' own sheets, whose pages are enclosed.
    pub cut_sheets: Vec<CutSheet>,
    /// Certificates whose pages are enclosed.
    pub certificates: Vec<CutSheet>,
    /// Proofs.
    pub proofs: Vec<ProofRow>,
    /// Proofs that are missing or hold no longer, each named.
    pub gaps: Vec<String>,
    /// The warranty.
    pub warranty: Vec<Warranty>,
    /// Maintenance data.
    pub upkeep: Vec<Upkeep>,
    /// What doors and frames of others are prepared for.
    pub prepared: Vec<PreparedRow>,
    /// Hole layouts, alike ones once, row by row.
    pub layouts: Vec<Vec<PreparedDrawing>>,
    /// Papers bound behind the package.
    pub bound: Vec<BoundPaper>,
}

/// A paper that is bound behind the package.
#[derive(Clone, Debug, Serialize)]
pub struct BoundPaper {
    /// The block with which it begins.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its revision and date.
    pub revision: String,
    /// Which part of the submittal it is.
    #[serde(skip)]
    pub part: SubmittalPart,
}

/// A package before it is set: its own pages, and the papers to be bound behind them.
#[derive(Clone, Debug)]
pub struct PackageDraft {
    /// Section and number of its transmittal, which stay the same when it is sent again.
    pub transmittal: String,
    /// Its own pages.
    pub front: Draft<SubmittalView>,
    /// The hardware schedule, where the package holds it.
    pub schedule: Option<Draft<ScheduleView>>,
    /// The shop drawings, where the package holds them.
    pub drawings: Option<Draft<DrawingsView>>,
}

impl PackageDraft {
    /// The keys of the files that it encloses pages of.
    pub fn encloses(&self) -> impl Iterator<Item = &str> {
        let view = &self.front.view;
        view.cut_sheets.iter().chain(&view.certificates).flat_map(|sheet| &sheet.pages).map(|page| page.key.as_str())
    }
}

/// A part of a package by itself: the transmittal, its submittal, and which of its parts go under its section.
pub(super) struct Package<'a> {
    sources: &'a Sources<'a>,
    transmittal: &'a Transmittal,
    submittal: &'a Submittal,
    own: bool,
}

impl Package<'_> {
    /// Whether a part goes with it.
    fn holds(&self, part: SubmittalPart) -> bool {
        self.submittal.parts.contains(&part) && (self.own || !part.shows_openings())
    }
}

/// The transmittals of a job that have something to send, by position.
pub fn packages(sources: &Sources) -> Vec<usize> {
    let job = sources.reviewed.job();
    let sends = |transmittal: &Transmittal| {
        let submittal = job.submittals.iter().find(|it| it.id == transmittal.submittal);
        let goods = !products::items(sources, &transmittal.section).is_empty();
        goods && submittal.is_some_and(|it| job.submits_under(it, &transmittal.section))
    };
    job.transmittals.iter().enumerate().filter(|(_, it)| sends(it)).map(|(at, _)| at).collect()
}

/// The number of a package as the owner's profile prints it, fit for the name of a file.
pub fn package_stem(sources: &Sources, transmittal: usize) -> String {
    let transmittal = sources.reviewed.job().transmittals.get(transmittal);
    let number = transmittal.map(|it| sending::number(sources, it)).unwrap_or_default();
    let safe = |letter: char| if letter.is_ascii_alphanumeric() || ".-_".contains(letter) { letter } else { '-' };
    format!("submittal-{}", number.chars().map(safe).collect::<String>())
}

/// Makes the package of a transmittal, by position; nothing where its submittal is not known.
pub fn submittal(sources: &Sources, transmittal: usize, faces: &Faces) -> Option<PackageDraft> {
    let job = sources.reviewed.job();
    let transmittal = job.transmittals.get(transmittal)?;
    let submittal = job.submittals.iter().find(|it| it.id == transmittal.submittal)?;
    let own = job.head.section.as_deref() == Some(&transmittal.section);
    let package = Package { sources, transmittal, submittal, own };
    let mut drawings = BTreeMap::new();
    let mut bound = Vec::new();
    for (part, id, title) in [
        (SubmittalPart::Schedule, "part-schedule", "Hardware schedule"),
        (SubmittalPart::ShopDrawings, "part-drawings", "Shop drawings"),
    ] {
        if package.holds(part) {
            let revision = format!("revision {}, {}", job.head.revision_word(), job.head.date);
            bound.push(BoundPaper { id: id.to_owned(), title: title.to_owned(), revision, part });
        }
    }
    let (compliance, deviations) = compliance::rows(&package);
    let shortfalls = if own && package.holds(SubmittalPart::Compliance) { shortfalls(sources) } else { Vec::new() };
    let products = if package.holds(SubmittalPart::ProductData) { products::groups(&package) } else { Vec::new() };
    let certificates = cut_sheets::certificates(&package);
    let (proofs, gaps) = proofs::rows(&package, &certificates);
    let (prepared, layouts) = prepared::prepared(&package, faces, &mut drawings);
    let upkeep = upkeep::upkeep(&package);
    let warranty = upkeep::warranty(&package);
    let shown = package.holds(SubmittalPart::ShopDrawings).then(|| drawing_set(sources, faces));
    let sheets = shown.as_ref().map_or_else(String::new, |set| sheets(&set.view));
    let mut head = letterhead(sources, &format!("Submittal {}", sending::number(sources, transmittal)));
    head.section = transmittal.section.clone();
    let mut view = SubmittalView {
        head,
        counts: counts(sources, None),
        sending: sending::sending(&package),
        lines: Vec::new(),
        stamp: stamp(sources),
        compliance,
        deviations,
        clause_key: super::clause_marks::key(shortfalls.iter().map(|row| row.clause.as_str())),
        shortfalls,
        products,
        cut_sheets: cut_sheets::cut_sheets(&package),
        certificates,
        proofs,
        gaps,
        warranty,
        upkeep,
        prepared,
        layouts,
        bound,
    };
    view.lines = lines::lines(&package, &view, &sheets);
    compliance::point(&package, &mut view.compliance, &view.lines);
    let schedule = package.holds(SubmittalPart::Schedule).then(|| schedule(sources));
    let transmittal = format!("{}, {}", transmittal.section, transmittal.number);
    Some(PackageDraft { transmittal, front: Draft::drawn(view, drawings), schedule, drawings: shown })
}

/// The numbers of the shop drawings' sheets.
fn sheets(set: &DrawingsView) -> String {
    match set.index.last() {
        Some(last) => format!("{} to {}", set.first, last.number),
        None => set.first.clone(),
    }
}

/// Sorts of places that are told once before all their numbers.
const SORTS: [(&str, Noun); 3] = [("run", Noun::RUN), ("circuit", Noun::CIRCUIT), ("panel", Noun::PANEL)];

/// Places in one line: marks of openings and names; runs, circuits and panels by their numbers, as on the sheets of their sites.
fn places(sources: &Sources, at: &[EntityRef]) -> String {
    let names = sources.takeoff.names_of(at);
    let of_sort = |name: &str, sort: &str| Some(name.strip_prefix(sort)?.strip_prefix(' ')?.to_owned());
    let sorted = |name: &str| SORTS.iter().any(|(sort, _)| of_sort(name, sort).is_some());
    let others = names.iter().filter(|name| !sorted(name)).map(|name| (*name).to_owned());
    let numbered = SORTS.iter().filter_map(|(sort, noun)| {
        let numbers: Vec<String> = names.iter().filter_map(|name| of_sort(name, sort)).collect();
        let word = noun.beside(numbers.len() as u64);
        let reported = if *sort == "circuit" { by_panel(&numbers) } else { numbers.join(", ") };
        (!numbers.is_empty()).then(|| format!("{word} {reported}"))
    });
    others.chain(numbered).collect::<Vec<_>>().join(", ")
}

/// Numbers of circuits in one line, after the panels that they have in common.
fn by_panel(numbers: &[String]) -> String {
    let mut panels: Vec<(&str, Vec<&str>)> = Vec::new();
    for (panel, number) in numbers.iter().map(|it| it.rsplit_once('-').unwrap_or(("", it))) {
        match panels.last_mut().filter(|(last, _)| *last == panel) {
            Some((_, all)) => all.push(number),
            None => panels.push((panel, vec![number])),
        }
    }
    let each = panels.into_iter().map(|(panel, numbers)| match panel {
        "" => numbers.join(", "),
        panel => format!("{panel}: {}", numbers.join(", ")),
    });
    each.collect::<Vec<_>>().join("; ")
}

fn stamp(sources: &Sources) -> Vec<String> {
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    let stamp = profile.and_then(|it| it.stamp);
    stamp.map_or_else(Vec::new, |(width, height)| {
        vec![super::drawing_set::extent(width), super::drawing_set::extent(height)]
    })
}

#[cfg(test)]
mod tests {
    use super::by_panel;

    #[test]
    fn circuits_are_reported_after_their_panel() {
        let reported = |numbers: &[&str]| by_panel(&numbers.iter().map(|it| (*it).to_owned()).collect::<Vec<_>>());
        assert_eq!(reported(&["LP-C1-4", "LP-C1-6", "LP-C2-3"]), "LP-C1: 4, 6; LP-C2: 3");
        assert_eq!(reported(&["7"]), "7", "a circuit without a panel");
        assert_eq!(reported(&[]), "");
    }
}
