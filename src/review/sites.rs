//! Openings of one site that a check says one thing of, so that a crew reads it once.
//!
//! In: openings. Out: those of each site that meet a condition. May not know: any check.

use super::check::Check;
use super::contexts::OpeningContext;
use crate::catalog::{Clause, ClauseOf};
use crate::findings::{Findings, Subject};

/// Openings of a site, never none.
pub(super) struct SiteContext<'o, 'j> {
    /// Id of the site.
    pub id: String,
    /// The first of them.
    pub first: &'o OpeningContext<'j>,
    /// Marks of all, in file order.
    pub marks: Vec<&'o str>,
    /// The powered openings of the site that are not among them.
    pub others: Vec<&'o str>,
}

impl SiteContext<'_, '_> {
    /// The marks in a row; of many, that it is all of them, or all but those few.
    pub fn words(&self) -> String {
        match (self.marks.len() > MANY, self.others.len()) {
            (true, 0) => ALL_HERE.to_owned(),
            (true, 1..=FEW) => format!("{ALL_HERE} but {}", self.others.join(", ")),
            _ => self.marks.join(", "),
        }
    }
}

/// The openings that meet a condition, site by site, in the order in which the first of each stands.
pub(super) fn by_site<'o, 'j>(
    openings: &'o [OpeningContext<'j>],
    holds: impl Fn(&OpeningContext<'j>) -> bool,
) -> Vec<SiteContext<'o, 'j>> {
    let mut sites: Vec<SiteContext> = Vec::new();
    for opening in openings.iter().filter(|opening| holds(opening)) {
        let mark = opening.opening.mark.as_str();
        match sites.iter_mut().find(|site| site.id == opening.opening.site) {
            Some(site) => site.marks.push(mark),
            None => sites.push(SiteContext {
                id: opening.opening.site.clone(),
                first: opening,
                marks: vec![mark],
                others: Vec::new(),
            }),
        }
    }
    for site in &mut sites {
        let powered = openings.iter().filter(|it| it.opening.site == site.id && it.is_powered());
        let marks = powered.map(|it| it.opening.mark.as_str());
        site.others = marks.filter(|mark| !site.marks.contains(mark)).collect();
    }
    sites
}

/// Words for all powered openings of a site.
pub const ALL_HERE: &str = "every powered opening here";

/// More openings than this are not listed one by one where they are all.
const MANY: usize = 4;

/// Of many openings no more than this are named as those that are left out.
const FEW: usize = 3;

/// What a crew tries or measures on a site, once for all openings there that it is about.
pub(super) struct SiteCheck {
    /// The subject of the clause that asks.
    pub of: ClauseOf,
    /// Whether it is about an opening.
    pub at: fn(&OpeningContext) -> bool,
    /// What is asked, in words, from the values of the clause; empty where the edition gives none.
    pub asked: fn(&OpeningContext, &Clause) -> Option<String>,
    /// How it is done.
    pub advise: &'static str,
}

impl SiteCheck {
    /// A finding of a check for each site with openings that it is about, where the clauses of the job ask for it.
    pub fn look(&self, check: &Check, openings: &[OpeningContext], findings: &mut Findings) {
        for site in by_site(openings, self.at) {
            let Some(asked) = site.first.first_asked(self.of) else { return };
            let words = (self.asked)(site.first, asked.clause).unwrap_or_default();
            let finding = check.finding(Subject::Site(site.id.clone())).at(site.first.opening.place.clone());
            findings.push(finding.found(site.words()).asked(words).clause(asked.cite()).advise(self.advise));
        }
    }
}
