//! The review sheet: what the review found, one sheet a site.
//!
//! In: sources. Out: a view of finished strings. May not know: prices, pages.

use serde::Serialize;

use super::finding_groups::{FindingGroup, group_findings, sentence};
use super::printing::listed;
use super::{Count, Letterhead, Sources, clause_marks, counts, letterhead};
use crate::findings::{Finding, Severity, Subject};
use crate::review::ALL_HERE;

/// One thing found, with every opening where it was.
#[derive(Clone, Debug, Serialize)]
pub struct FoundRow {
    /// The sentence.
    pub says: String,
    /// Clause and edition; empty where none asks.
    pub clause: String,
    /// By how much it fails; empty where that cannot be said.
    pub margin: String,
    /// Where.
    pub marks: String,
}

/// A warning that was accepted.
#[derive(Clone, Debug, Serialize)]
pub struct AcceptedRow {
    /// The sentence.
    pub says: String,
    /// Where.
    pub marks: String,
    /// Why it is all right.
    pub reason: String,
}

/// An edition that the job was reviewed against.
#[derive(Clone, Debug, Serialize)]
pub struct EditionRow {
    /// Its name.
    pub name: String,
    /// Its date.
    pub date: String,
    /// Where it was read.
    pub source: String,
}

/// The sheet of a site, or of the job.
#[derive(Clone, Debug, Serialize)]
pub struct ReviewSheet {
    /// Name of the site.
    pub name: String,
    /// Contradictions that hold papers.
    pub held: Vec<FoundRow>,
    /// What the bid clarifies.
    pub clarified: Vec<FoundRow>,
    /// What is looked at on the site.
    pub on_site: Vec<FoundRow>,
}

/// The view of the review sheet.
#[derive(Clone, Debug, Serialize)]
pub struct ReviewView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// Editions.
    pub editions: Vec<EditionRow>,
    /// Key of the marks beside clauses; empty where none has one.
    pub clause_key: String,
    /// What is said of the job as a whole, its panels and runs.
    pub job: ReviewSheet,
    /// Sites, in the order of work.
    pub sites: Vec<ReviewSheet>,
    /// Warnings accepted.
    pub accepted: Vec<AcceptedRow>,
}

/// The view of the review sheet.
pub fn review_sheet(sources: &Sources) -> ReviewView {
    let job = sources.reviewed.job();
    let editions = job.head.rules.iter().filter_map(|id| sources.catalog.editions.get(id));
    let accepted = sources.accepted.iter().map(|it| AcceptedRow {
        says: sentence(&it.finding),
        marks: mark(&it.finding),
        reason: it.reason.clone(),
    });
    let job_sheet = sheet(sources, None);
    let site_sheets: Vec<ReviewSheet> =
        (0..sources.takeoff.arrangement.sites.len()).map(|at| sheet(sources, Some(at))).collect();
    let rows = std::iter::once(&job_sheet).chain(&site_sheets);
    let rows = rows.flat_map(|it| it.held.iter().chain(&it.clarified).chain(&it.on_site));
    let clause_key = clause_marks::key(rows.map(|row| row.clause.as_str()));
    ReviewView {
        head: letterhead(sources, "Review sheet"),
        counts: counts(sources, None),
        editions: editions
            .map(|it| EditionRow { name: it.name.clone(), date: it.date.to_string(), source: it.source.clone() })
            .collect(),
        clause_key,
        job: job_sheet,
        sites: site_sheets,
        accepted: accepted.collect(),
    }
}

fn sheet(sources: &Sources, site: Option<usize>) -> ReviewSheet {
    let name = match site {
        Some(at) => sources.takeoff.arrangement.sites.get(at).map_or_else(String::new, |site| site.name.clone()),
        None => "The job as a whole".to_owned(),
    };
    let of = |severity| rows(sources, site, severity);
    let mut on_site = if site.is_none() { everywhere(sources) } else { Vec::new() };
    on_site.extend(of(Severity::FieldVerify));
    let on_site = by_clause(on_site);
    ReviewSheet { name, held: of(Severity::Error), clarified: of(Severity::Warning), on_site }
}

/// Rows of one clause behind one another, in the order of the first of each; the clause stands after the last of them.
fn by_clause(rows: Vec<FoundRow>) -> Vec<FoundRow> {
    let mut groups: Vec<Vec<FoundRow>> = Vec::new();
    for row in rows {
        let is_of = |group: &Vec<FoundRow>| group.first().is_some_and(|first| first.clause == row.clause);
        match groups.iter_mut().find(|group| !row.clause.is_empty() && is_of(group)) {
            Some(group) => group.push(row),
            None => groups.push(vec![row]),
        }
    }
    for group in &mut groups {
        let last = group.len().saturating_sub(1);
        group.iter_mut().take(last).for_each(|row| row.clause.clear());
    }
    groups.into_iter().flatten().collect()
}

/// What makes a check of one site the same as that of another: its code, what is asked and the clause.
fn is_alike(one: &Finding, other: &Finding) -> bool {
    let by_site = |it: &Finding| matches!(it.subject, Subject::Site(_)) && it.code.severity == Severity::FieldVerify;
    by_site(one) && by_site(other) && one.code == other.code && one.asked == other.asked && one.clause == other.clause
}

/// Whether a check of a site is asked alike at another: then it stands once, on the first page.
fn is_everywhere(sources: &Sources, finding: &Finding) -> bool {
    sources.findings.iter().any(|it| is_alike(it, finding) && it.subject != finding.subject)
}

/// The checks that more than one site asks alike, each once with the openings of all.
fn everywhere(sources: &Sources) -> Vec<FoundRow> {
    let mut reported: Vec<Finding> = Vec::new();
    for finding in sources.findings.iter().filter(|it| is_everywhere(sources, it)) {
        let site = site_of(sources, &finding.subject).and_then(|at| sources.takeoff.arrangement.sites.get(at));
        let found = match site {
            Some(site) => {
                let here = format!("all of {}", site.name);
                finding.found.replacen(ALL_HERE, &here, 1)
            }
            None => finding.found.clone(),
        };
        match reported.iter_mut().find(|it| is_alike(it, finding)) {
            Some(known) => known.found = format!("{}; {found}", known.found),
            None => reported.push(finding.clone().found(found)),
        }
    }
    // What every site asks of all its powered openings names none of them.
    for finding in &mut reported {
        let of_all = |it: &&Finding| is_alike(it, finding) && it.found == ALL_HERE;
        if sources.findings.iter().filter(of_all).count() == sources.takeoff.arrangement.sites.len() {
            finding.found = "every powered opening".to_owned();
        }
    }
    let row = |it: Finding| FoundRow {
        says: sentence(&it),
        clause: clause_marks::marked(it.clause.as_deref().unwrap_or_default()),
        margin: String::new(),
        marks: String::new(),
    };
    reported.into_iter().map(row).collect()
}

/// Findings of a severity at a site, alike ones in one row.
fn rows(sources: &Sources, site: Option<usize>, severity: Severity) -> Vec<FoundRow> {
    // What papers say of their own making, and of the files that they enclose, is the office's affair.
    let of_making = super::CODES.iter().chain(crate::pdf_import::CODES);
    let of_papers = |finding: &Finding| of_making.clone().any(|code| code.id == finding.code.id);
    let here = |finding: &&Finding| {
        finding.code.severity == severity
            && site_of(sources, &finding.subject) == site
            && !of_papers(finding)
            && !is_everywhere(sources, finding)
    };
    let here = sources.findings.iter().filter(here).map(|finding| (finding, None));
    let row = |it: FindingGroup| FoundRow { marks: it.openings(), says: it.says, clause: it.clause, margin: it.margin };
    group_findings(sources, here).into_iter().map(row).collect()
}

/// Shortfalls of openings against a clause, alike ones in one row. An acceptance is ours and does not bind a reviewer: what was
/// accepted stands among them.
pub(super) fn shortfalls(sources: &Sources) -> Vec<FoundRow> {
    let sites = 0..sources.takeoff.arrangement.sites.len();
    let mut all: Vec<FoundRow> = Vec::new();
    for row in sites.flat_map(|at| rows(sources, Some(at), Severity::Warning)) {
        if row.clause.is_empty() || row.marks.is_empty() {
            continue;
        }
        match all.iter_mut().find(|known| known.says == row.says && known.clause == row.clause) {
            Some(known) => known.marks = listed([known.marks.clone(), row.marks], ", "),
            None => all.push(row),
        }
    }
    all
}

/// The site that a subject belongs to, by position; none for what belongs to no one site.
fn site_of(sources: &Sources, subject: &Subject) -> Option<usize> {
    let job = sources.reviewed.job();
    let id = match subject {
        Subject::Site(id) => id.as_str(),
        Subject::Opening(mark) => job.opening(mark)?.site.as_str(),
        Subject::Entry("panel", id) => job.panels.get(id)?.site.as_str(),
        Subject::Entry("run", number) => job.runs.iter().find(|run| run.number.to_string() == *number)?.site.as_str(),
        _ => return None,
    };
    sources.takeoff.arrangement.sites.iter().position(|site| site.id == id)
}

fn mark(finding: &Finding) -> String {
    match &finding.subject {
        Subject::Opening(mark) => mark.clone(),
        _ => String::new(),
    }
}
