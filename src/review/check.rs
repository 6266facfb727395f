//! What a check is: a code, a clause, and what it looks at.
//!
//! In: job, catalog and openings as checks see them. Out: findings of one code.
//! May not know: which checks there are.

use super::absence::AbsenceCheck;
use super::contexts::{LeafContext, OpeningContext};
use super::pair::PairCheck;
use super::sites::SiteCheck;
use crate::catalog::Catalog;
use crate::findings::{Code, Finding, Findings, Subject};
use crate::job::{Job, Opening};

/// One check of the review.
pub(super) struct Check {
    /// The code that it raises.
    pub code: &'static Code,
    /// The clause that asks, with its edition; none where the trade or plain sense does. Stands in `CLAUSES.md`.
    pub clause: Option<&'static str>,
    /// What it looks at.
    pub over: CheckScope,
}

/// What a check looks at, and how.
pub(super) enum CheckScope {
    /// The whole job.
    Job(fn(&Job, &Catalog, &mut Findings)),
    /// Each opening.
    Opening(fn(&OpeningContext, &mut Findings)),
    /// Each leaf of each opening.
    Leaf(fn(&LeafContext, &mut Findings)),
    /// All openings of a site at once.
    Site(SiteCheck),
    /// All openings, for a fact that is left out, site by site.
    Absence(AbsenceCheck),
    /// A fact that is stated at two places.
    Pair(PairCheck),
}

impl Check {
    /// A finding of this check: its code and its clause.
    pub fn finding(&self, subject: Subject) -> Finding {
        let finding = Finding::new(self.code, subject);
        match self.clause {
            Some(clause) => finding.clause(clause),
            None => finding,
        }
    }

    /// Looks at everything that it is about: a check of an opening or a leaf at the openings that are `asked` for, every other
    /// at all of them.
    pub fn look(
        &self,
        (job, catalog): (&Job, &Catalog),
        openings: &[OpeningContext],
        asked: impl Fn(&Opening) -> bool,
        findings: &mut Findings,
    ) {
        let each = openings.iter().filter(|it| asked(it.opening));
        match &self.over {
            CheckScope::Job(look) => look(job, catalog, findings),
            CheckScope::Site(site) => site.look(self, openings, findings),
            CheckScope::Absence(absence) => absence.look(self, openings, findings),
            CheckScope::Pair(pair) => pair.look(self, (job, catalog), openings, asked, findings),
            CheckScope::Opening(look) => each.for_each(|opening| look(opening, findings)),
            CheckScope::Leaf(look) => each.flat_map(OpeningContext::leaves).for_each(|leaf| look(&leaf, findings)),
        }
    }
}
