//! Every opening against codes, limits and the site.
//!
//! In: job and catalog.
//! Out: findings with clause and remedy, and a cleared job.
//! May not know: quantities, prices, pages.
//!
//! # How to add a check
//!
//! 1. Write one file under `checks/`, named by the code it raises, with a [`Code`](crate::findings::Code) and a `Check`.
//!    A check looks at the whole job, at one opening or at one leaf, whichever is the least it needs.
//! 2. Ask only values that were given. What is bad was reported where it was read, and a check says nothing about it;
//!    what is absent is a question, not a fault, unless the check is about its being absent.
//! 3. Make the finding with `Check::finding`, which puts the clause on it. Its main place is the value a person would
//!    change; related values go beside it with `near`. Say what was asked, what was found and, where there is one, the
//!    margin. The remedy is text to type at a place, or advice where there is no such place.
//! 4. An error is a contradiction, or something that cannot be ordered, priced or built. A shortfall against a clause is
//!    a warning: the owner's doorway may be wrong and the bid still goes out. A rule from memory or judgement is a
//!    warning or a field-verify note and says so beside the code.
//! 5. Test one sound opening, which must pass, and one that fails, with its place and remedy. `bench` has the sound one.
//! 6. List the check in `checks/mod.rs`, and give its clause a row in `CLAUSES.md`; tests compare the three.

mod accept;
#[cfg(test)]
mod bench;
mod check;
mod checks;
mod seen;

pub use accept::{AcceptedFinding, accept};
pub use checks::{CODES, price_ages};

use crate::catalog::Catalog;
use crate::findings::Findings;
use crate::job::Job;
use seen::OpeningSeen;

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

/// Reviews a job: every check over every opening that is not set aside, those of alternates included.
pub fn review(job: Job, catalog: &Catalog, findings: &mut Findings) -> Cleared {
    let openings = OpeningSeen::all(&job, catalog);
    checks::CHECKS.iter().for_each(|check| check.look(&job, catalog, &openings, findings));
    Cleared { job }
}
