//! Facts that a complete job states, and a job leaves out: one finding a site for all that lacks a fact.
//!
//! In: openings. Out: findings with what was taken for granted; what lacks which fact, for whoever prices it.
//! May not know: any check, prices.
//!
//! A fact that was not typed makes a bid lower, so it is looked for wherever something that is typed asks for it. What a person
//! states as none, an empty list or a zero, is a fact.

use std::collections::BTreeSet;

use super::check::{Check, CheckScope};
use super::checks::CHECKS;
use super::contexts::OpeningContext;
use crate::catalog::Catalog;
use crate::findings::{Code, Findings, Place, Subject, some_listed};
use crate::job::Job;

/// Something that lacks a fact.
pub(super) struct Lacking {
    /// Its opening, by position among those looked at.
    pub at: usize,
    /// What it is called, with the mark of its opening.
    pub name: String,
    /// Where it is typed; none means the opening.
    pub place: Option<Place>,
}

/// Which part of the price depends on a fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DependentWork {
    /// None: what the fact would ask for is not in the price.
    LeftOut,
    /// Circuits and the line runs that serve the opening.
    Power,
    /// Headers with their fixings, drives and arms.
    Headers,
    /// Leaves with their hardware.
    Leaves,
    /// Everything at the opening.
    Opening,
    /// The runs to it and its devices that are assumed.
    AssumedRuns,
}

/// A check of facts that are left out.
pub(super) struct AbsenceCheck {
    /// Everything that lacks the fact.
    pub lacking: fn(&[OpeningContext]) -> Vec<Lacking>,
    /// What is taken for granted meanwhile, and what it does to the price.
    pub assumed: &'static str,
    /// What of the price depends on it.
    pub depends: DependentWork,
    /// What to type.
    pub advise: &'static str,
    /// What is asked of others; none where it is ours to decide.
    pub question: Option<&'static str>,
}

/// A fact that is left out at some openings of a site.
#[derive(Clone, Debug)]
pub struct Absence {
    /// The code of its finding.
    pub code: &'static Code,
    /// The site, by id.
    pub site: String,
    /// Marks of the openings.
    pub openings: BTreeSet<String>,
    /// What of the price depends on it.
    pub depends: DependentWork,
    /// What is taken for granted meanwhile.
    pub assumed: &'static str,
    /// What is asked of others; none where it is ours to decide.
    pub question: Option<&'static str>,
}

/// What lacks a fact at the openings of one site.
struct AtSite<'o> {
    id: &'o str,
    names: Vec<String>,
    marks: BTreeSet<String>,
    place: Place,
}

impl AbsenceCheck {
    /// A finding for each site with something that lacks the fact.
    pub fn look(&self, check: &Check, openings: &[OpeningContext], findings: &mut Findings) {
        for site in self.by_site(openings) {
            let finding = check.finding(Subject::Site(site.id.to_owned())).at(site.place.clone());
            let finding = finding.found(some_listed(&site.names)).asked(self.assumed).advise(self.advise);
            findings.push(match self.depends {
                DependentWork::LeftOut => finding.price("nothing for it is in the bid"),
                _ => finding,
            });
        }
    }

    /// What lacks the fact, site by site, in the order in which the first of each stands.
    fn by_site<'o>(&self, openings: &'o [OpeningContext]) -> Vec<AtSite<'o>> {
        let mut sites: Vec<AtSite> = Vec::new();
        for lacking in (self.lacking)(openings) {
            let opening = openings[lacking.at].opening;
            let at = sites.iter().position(|it| it.id == opening.site).unwrap_or_else(|| {
                let place = lacking.place.as_ref().unwrap_or(&opening.place).clone();
                sites.push(AtSite { id: &opening.site, names: Vec::new(), marks: BTreeSet::new(), place });
                sites.len() - 1
            });
            sites[at].names.push(lacking.name);
            sites[at].marks.insert(opening.mark.clone());
        }
        sites
    }
}

/// Everything that a job leaves out, check by check and site by site.
pub fn absences(job: &Job, catalog: &Catalog) -> Vec<Absence> {
    let openings = OpeningContext::all(job, catalog);
    let mut found = Vec::new();
    for check in CHECKS {
        let CheckScope::Absence(absence) = &check.over else { continue };
        found.extend(absence.by_site(&openings).into_iter().map(|site| Absence {
            code: check.code,
            site: site.id.to_owned(),
            openings: site.marks,
            depends: absence.depends,
            assumed: absence.assumed,
            question: absence.question,
        }));
    }
    found
}

/// Whether a code is that of a fact left out which others are asked for, so that a bid says what it takes for granted.
pub fn is_asked_of_others(code: &Code) -> bool {
    let asked = |check: &Check| matches!(&check.over, CheckScope::Absence(it) if it.question.is_some());
    CHECKS.iter().any(|check| check.code == code && asked(check))
}
