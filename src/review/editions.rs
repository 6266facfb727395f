//! The editions that a job is reviewed against, and the clauses of one subject in them.
//!
//! In: a job's `rules` and the catalog's editions. Out: clauses in the order of `rules`. May not know: any check.

use super::contexts::OpeningContext;
use crate::catalog::{Catalog, Clause, ClauseOf, Edition};
use crate::job::Job;

/// A clause and the edition it stands in.
#[derive(Clone, Copy)]
pub(super) struct CitedClause<'c> {
    /// The edition.
    pub edition: &'c Edition,
    /// The clause.
    pub clause: &'c Clause,
}

impl CitedClause<'_> {
    /// As findings cite it.
    pub fn cite(&self) -> String {
        self.edition.cite(&self.clause.number, self.clause.known)
    }
}

/// The editions that a job names and the catalog has, in the job's order.
pub(super) fn editions<'c>(job: &Job, catalog: &'c Catalog) -> Vec<&'c Edition> {
    job.head.rules.iter().filter_map(|id| catalog.editions.get(id)).collect()
}

impl<'j> OpeningContext<'j> {
    /// The editions it is reviewed against.
    pub fn editions(&self) -> Vec<&'j Edition> {
        editions(self.job, self.catalog)
    }

    /// The clauses about a subject.
    pub fn asked(&self, of: ClauseOf) -> Vec<CitedClause<'j>> {
        let each = self.editions().into_iter();
        each.flat_map(|edition| edition.clauses.iter().map(move |clause| CitedClause { edition, clause }))
            .filter(|asked| asked.clause.of == of)
            .collect()
    }

    /// The first clause about a subject.
    pub fn first_asked(&self, of: ClauseOf) -> Option<CitedClause<'j>> {
        self.asked(of).into_iter().next()
    }
}
