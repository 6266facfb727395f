//! The issue that was recorded before, opened again from its copies, so that papers mark what changed since.
//!
//! In: a snapshot that holds the copies. Out: what the earlier papers were made from, and what changed, in short lines.
//! May not know: how a mark looks.

use std::collections::BTreeMap;

use super::record::standing_copy;
use super::{Priced, SHEET, gather, load, price};
use crate::catalog::Catalog;
use crate::comparison::{self, Renaming, State};
use crate::documents::{Revision, Sources};
use crate::findings::{Files, Findings};
use crate::issues::Record;
use crate::job::Head;
use crate::review::{self, ReviewedJob};

/// The earlier state of a job, read and reviewed.
pub(super) struct Earlier {
    catalog: Catalog,
    elsewhere: BTreeMap<String, String>,
    reviewed: ReviewedJob,
    findings: Findings,
}

/// The same, taken off and priced.
pub(super) struct EarlierPriced<'e> {
    earlier: &'e Earlier,
    priced: Priced<'e>,
    findings: Findings,
}

/// What changed since an earlier state.
#[derive(Default)]
pub(super) struct ChangesSince {
    /// In short lines.
    pub changes: Vec<String>,
    /// The names that renumbered openings go by now.
    pub renaming: Renaming,
}

/// Opens the last issue recorded before the job's revision. A job without a revision has no mark to set, and is
/// compared with nothing.
pub(super) fn open(
    files: &Files,
    job_path: &str,
    (record, head): (&Record, &Head),
    findings: &mut Findings,
) -> Option<Earlier> {
    let issue = record.before(Some(head.revision.as_deref()?)).last()?;
    let copy = standing_copy(files, job_path, issue, findings)?;
    let loaded = load(files, &copy)?;
    let (mut job, mut found) = (loaded.job?, loaded.findings);
    // Another letter and another day are no change of what a paper says.
    job.head.revision.clone_from(&head.revision);
    job.head.date = head.date;
    let reviewed = review::review(job, &loaded.catalog, &mut found);
    Some(Earlier { catalog: loaded.catalog, elsewhere: loaded.state.elsewhere, reviewed, findings: found })
}

impl Earlier {
    /// Takes it off and prices it.
    pub(super) fn priced(&self) -> EarlierPriced<'_> {
        let mut priced = price(&self.reviewed, &self.catalog);
        let mut findings = self.findings.clone();
        gather(&mut findings, &mut priced, &self.reviewed, &self.catalog);
        EarlierPriced { earlier: self, priced, findings: findings.sorted() }
    }
}

impl EarlierPriced<'_> {
    /// What its papers would be made from, with the fingerprint and the revisions of the papers they are compared with.
    pub(super) fn sources<'s>(&'s self, now: &Sources<'s>) -> Sources<'s> {
        Sources {
            reviewed: &self.earlier.reviewed,
            catalog: &self.earlier.catalog,
            takeoff: &self.priced.takeoff,
            findings: &self.findings,
            accepted: &[],
            fingerprint: now.fingerprint,
            revisions: now.revisions,
            enclosures: now.enclosures,
        }
    }

    /// Its price.
    pub(super) fn price(&self) -> &Priced<'_> {
        &self.priced
    }

    /// What changed since.
    pub(super) fn since(&self, now: State) -> ChangesSince {
        let was = State {
            job: self.earlier.reviewed.job(),
            catalog: &self.earlier.catalog,
            takeoff: &self.priced.takeoff,
            estimate: self.priced.estimate.as_ref(),
            alternates: &self.priced.alternates,
            findings: &self.findings,
            elsewhere: &self.earlier.elsewhere,
        };
        let compared = comparison::compare(was, now);
        let changed = compared.elsewhere.iter().filter_map(|it| it.field.strip_prefix(SHEET));
        let sheets: Vec<&str> = changed.collect();
        let mut lines = comparison::summary(&compared);
        lines.extend((!sheets.is_empty()).then(|| format!("Enclosed: {}", sheets.join(", "))));
        ChangesSince { changes: lines, renaming: compared.renaming() }
    }
}

/// The revisions of a job for the cover of its papers: those recorded, then its own.
pub(super) fn revisions(record: &Record, head: &Head, changes: &[String]) -> Vec<Revision> {
    let own = head.revision.as_deref().unwrap_or_default();
    let mut all: Vec<Revision> = record
        .before(head.revision.as_deref())
        .iter()
        .map(|it| Revision { name: it.revision.clone(), date: it.date.to_string(), changes: it.changes.clone() })
        .collect();
    all.push(Revision { name: own.to_owned(), date: head.date.to_string(), changes: changes.to_vec() });
    for (at, revision) in all.iter_mut().enumerate().filter(|(_, it)| it.changes.is_empty()) {
        revision.changes.push(if at == 0 { "First issue" } else { "Texts and drawings; see the marks" }.to_owned());
    }
    all
}
