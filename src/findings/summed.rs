//! Findings that differ in their places alone, summed up after the first ten.
//!
//! In: findings in file order. Out: the same, those beyond the tenth counted with it. May not know: how they are shown.

use std::collections::BTreeMap;

use super::{Finding, Findings, Place, Subject};

/// Of findings that are alike so many are told.
const TOLD: usize = 10;

/// A finding, and how many more are like it.
#[derive(Debug)]
pub(super) struct Summed<'f> {
    pub(super) finding: &'f Finding,
    /// How many more there are that are not told.
    pub(super) more: usize,
    /// Where the last of them stands, where that is known.
    pub(super) last: Option<&'f Place>,
}

impl Summed<'_> {
    /// How many more there are, in words, and where to look for them; nothing where there is none.
    pub(super) fn words(&self, show: impl FnOnce(&Place) -> String) -> Option<String> {
        let last = self.last.map(|place| format!(", the last at {}", show(place))).unwrap_or_default();
        (self.more > 0).then(|| format!("{} more that differ in their place alone{last}", self.more))
    }
}

/// What findings have in common that are alike: code, subject, what was found and asked.
type Alike<'f> = (&'static str, &'f Subject, &'f str, &'f str);

/// All findings in the order they have; of those that are alike the first ten, the others counted with the tenth.
pub(super) fn summed(findings: &Findings) -> Vec<Summed<'_>> {
    let mut out: Vec<Summed<'_>> = Vec::new();
    // How many there were, and where in the list the last told of them stands.
    let mut known: BTreeMap<Alike<'_>, (usize, usize)> = BTreeMap::new();
    for finding in findings.iter() {
        let alike = (finding.code.id, &finding.subject, finding.found.as_str(), finding.asked.as_str());
        let (count, at) = known.entry(alike).or_default();
        *count += 1;
        match out.get_mut(*at).filter(|_| *count > TOLD) {
            Some(tenth) => {
                tenth.more += 1 + finding.more;
                tenth.last = finding.place();
            }
            None => {
                *at = out.len();
                out.push(Summed { finding, more: finding.more, last: None });
            }
        }
    }
    out
}
