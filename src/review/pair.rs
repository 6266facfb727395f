//! What a job states at two places: it either agrees, or is a finding with both places.
//!
//! In: a job, its catalog, openings. Out: findings that show both values, where each is typed and which of the two the papers use.
//! May not know: any one pair; each is a row of `checks/stated_*.rs`.

use super::check::Check;
use super::contexts::OpeningContext;
use crate::catalog::Catalog;
use crate::findings::{Findings, Place, Subject};
use crate::job::{Job, Opening};

/// A fact that is stated at two places.
pub(super) struct PairCheck {
    /// What each of the two places is, as the labels beside them say.
    pub between: [&'static str; 2],
    /// Which of the two the papers use.
    pub used: &'static str,
    /// Where the two are compared, and where they disagree.
    pub compared: Compared,
}

/// What holds both statements.
pub(super) enum Compared {
    /// The whole job.
    Job(fn(&Job, &Catalog) -> Vec<Disagreement>),
    /// One opening, with its partner in a vestibule.
    Opening(fn(&OpeningContext) -> Vec<Disagreement>),
}

/// A value, and where it is typed.
#[derive(Clone, Debug)]
pub(super) struct Statement {
    /// The value, in words of the sentence.
    pub value: String,
    /// Where it is typed.
    pub place: Place,
    /// More for its label than what the place is.
    pub says: Option<String>,
}

/// Two statements that do not agree.
pub(super) struct Disagreement {
    /// What they are about.
    pub subject: Subject,
    /// The statement at the first of the two places: what a person most likely corrects.
    pub one: Statement,
    /// The other.
    pub other: Statement,
    /// By how much they differ, where that is a number.
    pub margin: Option<String>,
    /// What to type, and where.
    pub write: String,
}

impl Statement {
    /// A value at a place.
    pub fn new(value: impl Into<String>, place: &Place) -> Self {
        Statement { value: value.into(), place: place.clone(), says: None }
    }

    /// With more for its label.
    pub fn says(mut self, says: impl Into<String>) -> Self {
        self.says = Some(says.into());
        self
    }
}

impl PairCheck {
    /// Compares both statements, of the openings that are `asked` for where it is openings that hold them.
    pub fn look(
        &self,
        check: &Check,
        (job, catalog): (&Job, &Catalog),
        openings: &[OpeningContext],
        asked: impl Fn(&Opening) -> bool,
        findings: &mut Findings,
    ) {
        let disagreements = match self.compared {
            Compared::Job(compare) => compare(job, catalog),
            Compared::Opening(compare) => openings.iter().filter(|it| asked(it.opening)).flat_map(compare).collect(),
        };
        for found in disagreements {
            let mut finding = check.finding(found.subject);
            for (named, statement) in self.between.iter().zip([&found.one, &found.other]) {
                let label = match &statement.says {
                    Some(says) => format!("{named}: {says}"),
                    None => (*named).to_owned(),
                };
                finding = finding.near(statement.place.clone(), label);
            }
            finding = finding.found(found.one.value).asked(found.other.value);
            if let Some(margin) = found.margin {
                finding = finding.margin(margin);
            }
            findings.push(finding.advise(format!("{}; papers use {}", found.write, self.used)));
        }
    }
}
