//! Findings as papers tell them: alike ones once, in the order of the openings.
//!
//! In: findings, the openings of the job. Out: sentences, each with everything that it is said of. May not know: which paper
//! tells them, pages.

use super::bid::sentence_case;
use super::{Sources, clause_marks};
use crate::findings::{Finding, Subject};

/// A sentence, with everything that it is said of.
pub(super) struct FindingGroup<'f> {
    /// The sentence, without the mark of an opening at its head.
    pub says: String,
    /// Clause and edition; empty where none asks.
    pub clause: String,
    /// By how much it fails; empty where that cannot be said.
    pub margin: String,
    /// Why it is all right, where it was accepted.
    pub reason: Option<&'f str>,
    /// What it is said of, openings in their order.
    pub of: Vec<&'f Subject>,
}

impl FindingGroup<'_> {
    /// Whether nothing differs but what it is said of. One that fails by more is another.
    fn is_alike(&self, other: &FindingGroup) -> bool {
        (&self.says, &self.clause, &self.margin, self.reason)
            == (&other.says, &other.clause, &other.margin, other.reason)
    }

    /// The openings it is said of; empty where it is said of none.
    pub fn openings(&self) -> String {
        let marks: Vec<&str> = self.of.iter().filter_map(|subject| mark(subject)).collect();
        marks.join(", ")
    }

    /// Openings by their marks, anything else by what it is and its name.
    pub fn subjects(&self) -> String {
        let name = |subject: &&Subject| mark(subject).map_or_else(|| subject.to_string(), str::to_owned);
        let names: Vec<String> = self.of.iter().map(name).collect();
        names.join(", ")
    }
}

/// Findings as papers tell them, those accepted with the reason. What is found alike of several is told once.
pub(super) fn group_findings<'f>(
    sources: &Sources,
    findings: impl Iterator<Item = (&'f Finding, Option<&'f str>)>,
) -> Vec<FindingGroup<'f>> {
    let mut findings: Vec<(&Finding, Option<&str>)> = findings.collect();
    findings.sort_by_cached_key(|(finding, _)| Place::of(sources, &finding.subject));
    let mut all: Vec<FindingGroup> = Vec::new();
    for (finding, reason) in findings {
        let text = |slot: &Option<String>| slot.clone().unwrap_or_default();
        let one = FindingGroup {
            says: sentence(finding),
            clause: clause_marks::marked(&text(&finding.clause)),
            margin: text(&finding.margin).replace("lbf ft", "lbf\u{b7}ft"),
            reason,
            of: vec![&finding.subject],
        };
        match all.iter_mut().find(|it| it.is_alike(&one)) {
            Some(known) if known.of.contains(&&finding.subject) => {}
            Some(known) => known.of.push(&finding.subject),
            None => all.push(one),
        }
    }
    all
}

/// Where papers tell of something: openings site by site, those of alternates after the others, then sites, then entries by name,
/// since in which file of the catalog an entry stands is nobody's choice.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    Opening { site: usize, alternate: bool, at: usize },
    Other,
    Site(usize),
    Entry(&'static str, String),
}

impl Place {
    fn of(sources: &Sources, subject: &Subject) -> Self {
        let (job, all) = (sources.reviewed.job(), &sources.takeoff.arrangement);
        let site = |id: &str| all.sites.iter().position(|it| it.id == id).unwrap_or(all.sites.len());
        match subject {
            Subject::Opening(mark) => {
                let bid = sources.takeoff.opening_at(mark);
                let at = bid.or_else(|| job.openings.iter().position(|it| it.mark == *mark)).unwrap_or(usize::MAX);
                let site = job.opening(mark).map_or(all.sites.len(), |it| site(&it.site));
                Place::Opening { site, alternate: bid.is_none(), at }
            }
            Subject::Site(id) => Place::Site(site(id)),
            Subject::Entry(kind, id) => Place::Entry(kind, id.clone()),
            Subject::Job | Subject::Template(_) => Place::Other,
        }
    }
}

fn mark(subject: &Subject) -> Option<&str> {
    match subject {
        Subject::Opening(mark) => Some(mark),
        _ => None,
    }
}

/// The sentence, without the opening's own mark, so that what is said alike of several is one row.
pub(super) fn sentence(finding: &Finding) -> String {
    // A terminal has ASCII alone; on a page the unit has its dot.
    let said = finding.sentence().replace("lbf ft", "lbf\u{b7}ft");
    let after = match &finding.subject {
        Subject::Opening(mark) => said.strip_prefix(mark.as_str()).filter(|after| after.starts_with(' ')),
        _ => None,
    };
    let said = after.map_or(said.clone(), |after| format!("this opening{after}"));
    let said = said.strip_suffix(" at leaf 1").or(said.strip_suffix(" at leaf 2")).unwrap_or(&said);
    sentence_case(said)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fails_by_more_is_reported_apart() {
        let (one, two) = (Subject::Opening("101".to_owned()), Subject::Opening("102".to_owned()));
        let group_findings = |of, margin: &str| FindingGroup {
            says: "The frame is too shallow".to_owned(),
            clause: String::new(),
            margin: margin.to_owned(),
            reason: None,
            of: vec![of],
        };
        assert!(group_findings(&one, "1 in short").is_alike(&group_findings(&two, "1 in short")));
        assert!(!group_findings(&one, "1 in short").is_alike(&group_findings(&two, "2 in short")));
        let accepted = FindingGroup { reason: Some("agreed"), ..group_findings(&two, "1 in short") };
        assert!(!group_findings(&one, "1 in short").is_alike(&accepted));
    }
}
