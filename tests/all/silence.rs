//! What a job comes to, and what a change of it takes away without a word.
//!
//! In: a snapshot of files. Out: its base bid, its lines of work, its findings; what of them is gone and by how much.
//! May not know: what was changed.
//!
//! A finding is a word about what is gone where it holds the bid, or where it names what is missing, what is assumed for it and
//! what of the price depends on it.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::documents;
use hingewright::estimate;
use hingewright::findings::{Files, Finding, Findings, Paper, Severity};
use hingewright::measure::Unit;
use hingewright::{pipeline, review, takeoff};
use rust_decimal::Decimal;

/// What a job comes to.
pub struct Outcome {
    /// The base bid; none where it cannot be worked out or is held.
    pub bid: Option<Decimal>,
    /// Lines of work, how many of each: each item and each task, at each opening or site.
    pub lines: BTreeMap<String, usize>,
    /// Findings, without their places, and whether each is a whole word about what is gone.
    pub findings: BTreeMap<String, bool>,
    /// Whether something holds the bid.
    pub held: bool,
}

fn says(finding: &Finding) -> (String, bool) {
    let held = finding.code.severity == Severity::Error && finding.blocks.has(Paper::Bid);
    let whole = !finding.found.is_empty() && !finding.asked.is_empty() && finding.price.is_some();
    let text = format!("{} {:?}: {} [{}]", finding.code.id, finding.subject, finding.sentence(), finding.more);
    (text, held || whole)
}

/// Reads, reviews, takes off and prices a job, without its alternates.
pub fn outcome(files: &Files, job: &str) -> Outcome {
    let mut findings = Findings::default();
    let mut made = Outcome { bid: None, lines: BTreeMap::new(), findings: BTreeMap::new(), held: true };
    if let Some(loaded) = pipeline::load(files, job) {
        findings.extend(loaded.findings);
        if let Some(job) = loaded.job {
            let reviewed = review::review(job, &loaded.catalog, &mut findings);
            let mut taken = takeoff::take_off(&reviewed, &loaded.catalog, &mut findings);
            // Entities are renumbered when one is gone, and rules too: a line goes by where it is.
            let place = |of: takeoff::EntityRef| {
                let opening = of.opening().map(|at| taken.arrangement.openings[at].opening.mark.as_str());
                let site = taken.site_of(of).map(|at| taken.arrangement.sites[at].id.as_str());
                opening.or(site).unwrap_or("the job").to_owned()
            };
            let materials = taken.lines.iter().map(|line| format!("{} at {}", line.item, place(line.of)));
            let hours =
                taken.labor.iter().filter_map(|line| Some(format!("{} at {}", line.task.as_ref()?, place(line.of))));
            materials.chain(hours).for_each(|line| *made.lines.entry(line).or_default() += 1);
            let estimate = estimate::price(&mut taken, reviewed.job(), &loaded.catalog, &mut findings);
            if let Some(estimate) = &estimate {
                let absences = review::absences(reviewed.job(), &loaded.catalog);
                documents::price_absences(&mut findings, &absences, &taken, estimate);
            }
            made.bid = estimate.and_then(|it| taken.ledger.value(it.bid).number_of(Unit::Dollar));
            let used: BTreeSet<&str> = taken.lines.iter().map(|line| &*line.item).collect();
            findings.extend(review::price_ages(reviewed.job(), &loaded.catalog, used.into_iter()));
            findings = review::accept(findings.sorted(), reviewed.job(), &[]).0.sorted();
        }
    } else {
        made.findings.insert("unreadable".to_owned(), true);
    }
    made.held = made.bid.is_none() || findings.blocked().has(Paper::Bid);
    made.findings.extend(findings.iter().map(says));
    made
}

/// What a change took away without a whole word: how much of the bid, and which lines of work.
pub struct Silence {
    /// What the bid lost.
    pub dollars: Decimal,
    /// Lines that are gone.
    pub lines: Vec<String>,
    /// Findings that came up and lack what is assumed or what of the price depends on it.
    pub words: Vec<String>,
}

/// What a job lost against another without a whole word that the other did not have; nothing where it is not cheaper and no line
/// is gone. Work for which other work of the same place stands, and which together is dearer, is not gone: a circuit that is there
/// becomes a new one.
pub fn silence(whole: &Outcome, changed: &Outcome) -> Option<Silence> {
    let new = || changed.findings.iter().filter(|(text, _)| !whole.findings.contains_key(*text));
    if new().any(|(_, is_whole)| *is_whole) {
        return None;
    }
    let dollars = whole.bid.unwrap_or_default() - changed.bid.unwrap_or_default();
    let place = |line: &str| line.split_once(" at ").map(|(_, place)| place.to_owned());
    let more = |(line, count): &(&String, &usize)| whole.lines.get(*line).is_none_or(|was| was < *count);
    let came: BTreeSet<Option<String>> = changed.lines.iter().filter(more).map(|(line, _)| place(line)).collect();
    let replaced = |line: &&String| dollars < Decimal::ZERO && came.contains(&place(line));
    let gone = whole.lines.keys().filter(|line| !changed.lines.contains_key(*line));
    let lines: Vec<String> = gone.filter(|line| !replaced(line)).cloned().collect();
    let words = new().map(|(text, _)| text.clone()).collect();
    (dollars > Decimal::ZERO || !lines.is_empty()).then_some(Silence { dollars, lines, words })
}
