//! What is in the bid, what is not, what it rests on, and what the review noticed.
//!
//! In: the catalog's notes with their conditions, statements of the job, findings. Out: sentences with parties and openings.
//! May not know: prices.

use super::ScopeLine;
use crate::catalog::NoteKind;
use crate::documents::Sources;
use crate::documents::conditions::{ConditionEvaluator, Unknown};
use crate::documents::finding_groups::{FindingGroup, group_findings};
use crate::documents::printing::listed;
use crate::findings::{Finding, Severity, Subject};
use crate::job::{PowerKnown, StatementKind};
use crate::review::is_asked_of_others;
use crate::takeoff::RULE_UNDECIDED;

/// Lines of the catalog whose condition holds somewhere, with the openings where it does, then those added by hand.
pub(super) fn scope(
    sources: &Sources,
    conditions: &ConditionEvaluator,
    kind: NoteKind,
    by_hand: StatementKind,
) -> Vec<ScopeLine> {
    let takeoff = sources.takeoff;
    let mut lines = Vec::new();
    for note in sources.catalog.notes.iter().filter(|note| note.kind == kind) {
        let entities = takeoff.entities(note.per);
        let holding: Vec<_> =
            entities.iter().filter(|of| conditions.holds(note.when.as_ref(), **of, Unknown::Yes)).copied().collect();
        if holding.is_empty() {
            continue;
        }
        let mut marks: Vec<&str> = Vec::new();
        let works = holding.iter().filter_map(|of| takeoff.arrangement.openings.get(of.opening()?));
        for mark in works.map(|work| work.opening.mark.as_str()) {
            if !marks.contains(&mark) {
                marks.push(mark);
            }
        }
        let all = takeoff.arrangement.openings.iter().map(|work| work.opening.mark.as_str());
        let openings = shortest(&marks, &all.collect::<Vec<_>>());
        lines.push(ScopeLine { says: note.says.clone(), by: party(sources, note.by.as_deref()), openings });
    }
    let added = sources.reviewed.job().statements.iter().filter(|it| it.kind == by_hand);
    lines.extend(added.map(|it| ScopeLine {
        says: it.says.clone(),
        by: it.by.as_ref().map(|by| party_or_words(sources, by)).unwrap_or_default(),
        openings: String::new(),
    }));
    lines
}

/// Marks as a sentence names them: none where they are all, all but a few where few are missing.
fn shortest(marks: &[&str], all: &[&str]) -> String {
    let missing: Vec<&str> = all.iter().copied().filter(|mark| !marks.contains(mark)).collect();
    match missing.len() {
        0 => String::new(),
        few if few * 2 < marks.len() => format!("all but {}", missing.join(", ")),
        _ => marks.join(", "),
    }
}

fn party(sources: &Sources, id: Option<&str>) -> String {
    id.and_then(|id| sources.catalog.parties.get(id)).map(|party| party.name.clone()).unwrap_or_default()
}

/// The name of a party, where a statement gives its id; else the words as typed.
fn party_or_words(sources: &Sources, by: &str) -> String {
    sources.catalog.parties.get(by).map_or_else(|| by.to_owned(), |party| party.name.clone())
}

pub(super) fn exclusions(sources: &Sources, conditions: &ConditionEvaluator) -> Vec<ScopeLine> {
    let mut lines = scope(sources, conditions, NoteKind::Exclusion, StatementKind::Exclusion);
    let aside = sources.reviewed.job().set_aside.iter().map(|aside| ScopeLine {
        says: format!("Opening {} is excluded from this bid: {}.", aside.mark, aside.reason.trim_end_matches('.')),
        by: "To be decided by owner".to_owned(),
        openings: aside.mark.clone(),
    });
    lines.extend(aside);
    lines
}

/// Clarifications and assumptions, first among them power that is not field-verified.
pub(super) fn clarifications(sources: &Sources, conditions: &ConditionEvaluator) -> Vec<ScopeLine> {
    let assumed: Vec<&str> = sources
        .takeoff
        .arrangement
        .openings
        .iter()
        .filter(|work| !work.drives.is_empty())
        .filter(|work| {
            let known = work.opening.entry.power.get().and_then(|power| power.known.cloned());
            matches!(known, None | Some(PowerKnown::Assumed | PowerKnown::None))
        })
        .map(|work| work.opening.mark.as_str())
        .collect();
    let mut lines = Vec::new();
    if !assumed.is_empty() {
        lines.push(ScopeLine {
            says: "Power at these openings is assumed or absent: not field-verified or shown on drawings.".to_owned(),
            by: String::new(),
            openings: assumed.join(", "),
        });
    }
    lines.extend(scope(sources, conditions, NoteKind::Clarification, StatementKind::Clarification));
    lines
}

/// Warnings about openings and sites; those accepted, with the reason.
pub(super) fn noticed(sources: &Sources) -> Vec<ScopeLine> {
    let warnings = sources.findings.iter().filter(|finding| finding.code.severity == Severity::Warning);
    let accepted = sources.accepted.iter().map(|accepted| (&accepted.finding, Some(accepted.reason.as_str())));
    let here = |subject: &Subject| matches!(subject, Subject::Opening(_) | Subject::Site(_));
    let all = warnings.map(|finding| (finding, None)).chain(accepted);
    let reported =
        group_findings(sources, all.filter(|(finding, _)| concerns_the_owner(finding) && here(&finding.subject)));
    let line = |it: FindingGroup| {
        let accepted = it.reason.map(|reason| format!(" Accepted: {}.", reason.trim_end_matches('.')));
        let openings = listed(it.of.iter().map(|subject| place_of(sources, subject)), ", ");
        ScopeLine { says: it.says + &accepted.unwrap_or_default(), by: it.clause, openings }
    };
    reported.into_iter().map(line).collect()
}

/// An opening by its mark, a site by its name.
fn place_of(sources: &Sources, subject: &Subject) -> String {
    match subject {
        Subject::Site(id) => sources.reviewed.job().sites.get(id).map(|site| site.name.clone()).unwrap_or_default(),
        Subject::Opening(mark) => mark.clone(),
        _ => String::new(),
    }
}

/// Whether a warning is for the owner to read: a shortfall against a clause or a limit, or something left out of the price.
/// What is not known yet is said among the clarifications.
fn concerns_the_owner(finding: &Finding) -> bool {
    let left_out = *finding.code == RULE_UNDECIDED || is_asked_of_others(finding.code);
    finding.clause.is_some() || finding.margin.is_some() || left_out
}
