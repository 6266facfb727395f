//! Every opening against codes, limits and the site.
//!
//! In: job and catalog.
//! Out: findings with clause and remedy, and a cleared job.
//! May not know: quantities, prices, pages.

use crate::catalog::Catalog;
use crate::findings::Findings;
use crate::job::Job;

/// A job that the review has been over. Nothing else makes one, so nothing is taken off that was not reviewed.
#[derive(Clone, Debug)]
pub struct Cleared {
    job: Job,
}

impl Cleared {
    /// The job.
    pub fn job(&self) -> &Job {
        &self.job
    }
}

/// A check of the review: it looks at the whole job and says what it finds.
type Check = fn(&Job, &Catalog, &mut Findings);

/// Every check, in the order in which they run.
static CHECKS: &[Check] = &[];

/// Reviews a job.
pub fn review(job: Job, catalog: &Catalog, findings: &mut Findings) -> Cleared {
    CHECKS.iter().for_each(|check| check(&job, catalog, findings));
    Cleared { job }
}
