//! What only the site can answer, sentence by sentence.
//!
//! In: findings, the openings of a site. Out: rows, each with a box for everything that it is asked of. May not know: pages.

use serde::Serialize;

use super::super::Sources;
use crate::findings::{Finding, Severity, Subject};

/// A check that only the site can answer, with everything there that it is asked of.
#[derive(Clone, Debug, Serialize)]
pub struct CheckRow {
    /// Marks, or `site`; each has a box of its own.
    pub marks: Vec<String>,
    /// What is checked.
    pub says: String,
}

/// Findings that only the site can answer, each sentence once with all that it is said of.
pub(super) fn checks(sources: &Sources, site: usize, openings: &[usize]) -> Vec<CheckRow> {
    let all = &sources.takeoff.arrangement;
    let works = openings.iter().filter_map(|at| all.openings.get(*at));
    let marks: Vec<&str> = works.map(|work| work.opening.mark.as_str()).collect();
    let Some(id) = all.sites.get(site).map(|site| &site.id) else { return Vec::new() };
    let mut rows: Vec<CheckRow> = Vec::new();
    for finding in sources.findings.iter().filter(|finding| finding.code.severity == Severity::FieldVerify) {
        let mark = match &finding.subject {
            Subject::Opening(mark) if marks.contains(&mark.as_str()) => mark.clone(),
            Subject::Site(of) if of == id => "site".to_owned(),
            _ => continue,
        };
        let says = check_words(&of_these(sources, finding, &marks), &mark);
        match rows.iter_mut().find(|row| row.says == says) {
            Some(row) if row.marks.contains(&mark) => {}
            Some(row) => row.marks.push(mark),
            None => rows.push(CheckRow { marks: vec![mark], says }),
        }
    }
    // Findings come in file order; a crew goes by the order of the openings.
    let place = |mark: &String| marks.iter().position(|it| it == mark);
    rows.iter_mut().for_each(|row| row.marks.sort_by_key(place));
    rows.sort_by_key(|row| row.marks.first().and_then(place).unwrap_or(marks.len()));
    rows
}

/// The finding without openings that have no sheet here, such as those of an alternate, where it lists openings.
fn of_these(sources: &Sources, finding: &Finding, marks: &[&str]) -> Finding {
    let listed: Vec<&str> = finding.found.split(", ").collect();
    if listed.iter().any(|mark| sources.reviewed.job().opening(mark).is_none()) {
        return finding.clone();
    }
    let here: Vec<&str> = listed.into_iter().filter(|mark| marks.contains(mark)).collect();
    finding.clone().found(here.join(", "))
}

/// What is checked, without the mark where the sentence begins with it: the mark stands before it.
fn check_words(finding: &Finding, mark: &str) -> String {
    // Some sentences hold what is asked; the others need it beside them.
    let said = finding.asked.is_empty() || finding.code.says.contains("{asked}");
    let asked = if said { String::new() } else { format!("; required: {}", finding.asked) };
    let sentence = finding.sentence();
    let bare = sentence.strip_prefix(mark).and_then(|rest| rest.strip_prefix(' ')).unwrap_or(&sentence);
    format!("{bare}{asked}")
}
