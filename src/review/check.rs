//! What a check is: a code, a clause, and what it looks at.
//!
//! In: job, catalog and openings as checks see them. Out: findings of one code.
//! May not know: which checks there are.

use super::seen::{LeafSeen, OpeningSeen};
use crate::catalog::Catalog;
use crate::findings::{Code, Finding, Findings, Subject};
use crate::job::Job;

/// One check of the review.
pub(super) struct Check {
    /// The code that it raises.
    pub code: &'static Code,
    /// The clause that asks, with its edition; none where the trade or plain sense does. Stands in `CLAUSES.md`.
    pub clause: Option<&'static str>,
    /// What it looks at.
    pub over: Over,
}

/// What a check looks at, and how.
pub(super) enum Over {
    /// The whole job.
    Job(fn(&Job, &Catalog, &mut Findings)),
    /// Each opening.
    Opening(fn(&OpeningSeen, &mut Findings)),
    /// Each leaf of each opening.
    Leaf(fn(&LeafSeen, &mut Findings)),
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

    /// Looks at everything that it is about.
    pub fn look(&self, job: &Job, catalog: &Catalog, openings: &[OpeningSeen], findings: &mut Findings) {
        match self.over {
            Over::Job(look) => look(job, catalog, findings),
            Over::Opening(look) => openings.iter().for_each(|opening| look(opening, findings)),
            Over::Leaf(look) => {
                openings.iter().flat_map(OpeningSeen::leaves).for_each(|leaf| look(&leaf, findings));
            }
        }
    }
}
