//! Checks that turned: what is found now and was not, and what was found and is no more.
//!
//! In: findings of two states of a job. Out: what was raised, what cleared, what stayed with other words. May not know: what
//! a check looks at.

use std::collections::BTreeMap;

use serde::Serialize;

use super::renaming::Renaming;
use crate::findings::{Finding, Findings, Subject};

/// A finding in finished words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// How grave it is.
    pub severity: String,
    /// Its code.
    pub code: String,
    /// What it is about, by its name now.
    pub about: String,
    /// The sentence.
    pub says: String,
}

/// Checks that turned.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Turned {
    /// Found now, and not before.
    pub raised: Vec<Verdict>,
    /// Found before, and not now.
    pub reviewed: Vec<Verdict>,
    /// Found in both, with other words: as they stand now.
    pub reworded: Vec<Verdict>,
}

impl Turned {
    /// Whether none turned.
    pub fn is_empty(&self) -> bool {
        self.raised.is_empty() && self.reviewed.is_empty() && self.reworded.is_empty()
    }
}

/// Sentences by code and subject.
type FindingsBySubject<'f> = BTreeMap<(&'static str, Subject), Vec<(&'f Finding, String)>>;

pub(super) fn compare(before: &Findings, after: &Findings, now: &Renaming) -> Turned {
    let (was, is) = (said(before, now), said(after, &Renaming::none()));
    let verdicts = |said: &FindingsBySubject, other: &FindingsBySubject| {
        let gone = said.iter().filter(|(key, _)| !other.contains_key(*key));
        gone.flat_map(|(key, all)| all.iter().map(move |it| verdict(key, it))).collect()
    };
    let words = |all: &[(&Finding, String)]| all.iter().map(|it| it.1.clone()).collect::<Vec<_>>();
    let reworded = is.iter().filter(|(key, all)| was.get(*key).is_some_and(|old| words(old) != words(all)));
    let reworded = reworded.flat_map(|(key, all)| {
        let old = was.get(key).map(|old| words(old)).unwrap_or_default();
        all.iter().filter(move |it| !old.contains(&it.1)).map(move |it| verdict(key, it))
    });
    Turned { raised: verdicts(&is, &was), reviewed: verdicts(&was, &is), reworded: reworded.collect() }
}

fn said<'f>(findings: &'f Findings, now: &Renaming) -> FindingsBySubject<'f> {
    let mut said = FindingsBySubject::new();
    for finding in findings.iter() {
        let subject = match &finding.subject {
            Subject::Opening(mark) => Subject::Opening(now.mark(mark)),
            other => other.clone(),
        };
        said.entry((finding.code.id, subject)).or_default().push((finding, now.words(&finding.sentence())));
    }
    said
}

fn verdict((code, subject): &(&'static str, Subject), (finding, says): &(&Finding, String)) -> Verdict {
    Verdict {
        severity: finding.code.severity.word().to_owned(),
        code: (*code).to_owned(),
        about: subject.to_string(),
        says: says.clone(),
    }
}
