//! Every opening against codes, limits and the site.
//!
//! In: job and catalog.
//! Out: findings with clause and remedy, and a reviewed job.
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
//!    a warning: the owner's doorway may be wrong and the bid still goes out. A rule from memory or judgment is a
//!    warning or a field-verify note and says so beside the code.
//! 5. Test one sound opening, which must pass, and one that fails, with its place and remedy. `bench` has the sound one.
//! 6. List the check in `checks/mod.rs`, and give its clause a row in `CLAUSES.md`; tests compare the three.

mod absence;
mod accept;
mod access;
mod check;
mod checks;
mod circuits;
mod contexts;
mod editions;
#[cfg(test)]
pub(crate) mod fixtures;
pub mod header_space;
mod pair;
mod printing;
mod sites;

pub use absence::{Absence, DependentWork, absences, is_asked_of_others};
pub use accept::{AcceptedFinding, accept};
pub use checks::{CODES, price_ages, releases_for};
pub use circuits::line_conductor;
pub use sites::ALL_HERE;

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::catalog::Catalog;
use crate::engineering::FloorRoom;
use crate::findings::{Finding, Findings, Paper, Papers, Place, Subject};
use crate::job::{Job, Opening, Side};
use contexts::OpeningContext;

/// A job that the review has been over. Nothing else makes one, so nothing is taken off that was not reviewed.
#[derive(Clone, Debug)]
pub struct ReviewedJob {
    job: Job,
}

impl ReviewedJob {
    /// The job.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The job with alternates, or with another answer to an open question, made of this one to be priced. Each alternate was
    /// reviewed with it; what else would be found concerns no paper.
    pub fn varied(&self, job: Job) -> ReviewedJob {
        ReviewedJob { job }
    }
}

/// The floor that a person needs who comes straight to a leaf of an opening and opens it by hand, side by side; nothing where
/// no clause asks for any.
pub fn rooms_to_maneuver(job: &Job, catalog: &Catalog, mark: &str) -> Vec<(Side, FloorRoom)> {
    OpeningContext::of(job, catalog, mark).map(|it| checks::rooms_asked(&it)).unwrap_or_default()
}

/// What an alternate that contradicts itself holds: the papers with its price. The base bid's others stay as they are.
const ALTERNATE_PAPERS: Papers = Papers::of(&[Paper::Bid, Paper::Recap]);

/// What makes two findings one, however often they are found.
type Same<'f> = (&'static str, Option<&'f Place>, &'f Subject);

fn same(finding: &Finding) -> Same<'_> {
    (finding.code.id, finding.place(), &finding.subject)
}

/// Reviews a job: every check over every opening that is not set aside, and again over what each alternate makes of it.
pub fn review(job: Job, catalog: &Catalog, findings: &mut Findings) -> ReviewedJob {
    let found = run(&job, catalog, |_| true);
    let mut more = Findings::default();
    let known: BTreeSet<Same> = found.iter().map(same).collect();
    for (at, alternate) in job.alternates.iter().enumerate() {
        let found = run_changed(&job, &job.with_alternates(&[at]), catalog);
        let earlier: BTreeSet<Same> = more.iter().map(same).collect();
        let says = format!("in alternate {}", alternate.number);
        let mut new = Findings::default();
        for finding in found.iter().filter(|it| !known.contains(&same(it)) && !earlier.contains(&same(it))) {
            let papers = if finding.blocks == Papers::NONE { Papers::NONE } else { ALTERNATE_PAPERS };
            new.push(finding.clone().near(alternate.place.clone(), says.clone()).blocking(papers));
        }
        drop(earlier);
        more.extend(new);
    }
    findings.extend(found);
    findings.extend(more);
    ReviewedJob { job }
}

/// Runs every check; those of openings and leaves over the openings that are `asked` for.
fn run(job: &Job, catalog: &Catalog, asked: impl Fn(&Opening) -> bool) -> Findings {
    let mut found = Findings::default();
    let openings = OpeningContext::all(job, catalog);
    checks::CHECKS.iter().for_each(|check| check.look((job, catalog), &openings, &asked, &mut found));
    found
}

/// What a job that differs from a reviewed one in some openings adds: the checks of the whole job, and those of openings over
/// the ones that differ and over their partners in a vestibule, which are the only other openings that such a check looks at.
fn run_changed(reviewed: &Job, job: &Job, catalog: &Catalog) -> Findings {
    let pairs = reviewed.openings.iter().zip(&job.openings);
    let changed: BTreeSet<&str> =
        pairs.filter(|(was, is)| !Arc::ptr_eq(was, is)).map(|(_, is)| is.mark.as_str()).collect();
    run(job, catalog, |it| {
        changed.contains(it.mark.as_str()) || it.partner().is_some_and(|partner| changed.contains(partner))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes, held papers and the words beside the last place of what a review says of the sound job with more text.
    fn reported(more: &str) -> Vec<(&'static str, Papers, String)> {
        let (job, catalog) = fixtures::with(more).read();
        let mut findings = Findings::default();
        review(job, &catalog, &mut findings);
        let says = |it: &Finding| it.places.last().map(|label| label.says.clone()).unwrap_or_default();
        findings.iter().map(|it| (it.code.id, it.blocks, says(it))).collect()
    }

    const ALTERNATES: &str = "[[alternate]]\nnumber = \"1\"\ntitle = \"Full energy\"\n\
        change = [{ openings = [\"101\"], with = { energy = \"full energy\" } }]\n\
        [[alternate]]\nnumber = \"2\"\ntitle = \"Leave out\"\nomits = [\"101\"]";

    #[test]
    fn an_alternate_is_reviewed_and_holds_its_price_alone() {
        let survey = ("survey-missing", Papers::NONE, String::new());
        assert_eq!(reported(""), std::slice::from_ref(&survey));
        let alternate = |code, papers| (code, papers, "in alternate 1".to_owned());
        let expected =
            [survey, alternate("operator-misfit", ALTERNATE_PAPERS), alternate("full-energy-unguarded", Papers::NONE)];
        assert_eq!(reported(ALTERNATES), expected);
    }

    #[test]
    fn what_the_base_has_wrong_is_not_reported_again_for_each_alternate() {
        let wrong = "leaf = { hand = \"RH\" }\n";
        let hands = |more: &str| reported(more).into_iter().filter(|it| it.0 == "hand-contradicts").collect::<Vec<_>>();
        assert_eq!(hands(wrong).len(), 1);
        assert_eq!(hands(wrong), hands(&format!("{wrong}{ALTERNATES}")));
    }

    #[test]
    fn an_opening_set_aside_is_not_reviewed() {
        let aside = "leaf = { hand = \"RH\" }\n[[set_aside]]\nopening = \"101\"\nreason = \"frame by others\"";
        assert_eq!(reported(aside), []);
    }
}
