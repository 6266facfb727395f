//! What a check says of the sound opening once something is changed.
//!
//! In: a check, a changed job. Out: findings. May not know: any one check.

use super::check::Check;
use super::contexts::OpeningContext;
use crate::findings::{Files, Finding, Findings, Place, Severity};
pub(super) use crate::job::sound::{Fixture, sound, under, with, with_fasteners, with_mechanics};

impl Fixture {
    /// What a check says.
    pub(in crate::review) fn reported(&self, check: &Check) -> Vec<Finding> {
        let (job, catalog) = self.read();
        let mut findings = Findings::default();
        check.look((&job, &catalog), &OpeningContext::all(&job, &catalog), |_| true, &mut findings);
        let reported: Vec<Finding> = findings.sorted().iter().cloned().collect();
        assert!(
            reported.iter().all(|finding| finding.code == check.code && finding.place().is_some()),
            "{reported:#?}"
        );
        reported.iter().for_each(says_by_how_much);
        reported
    }

    /// The one thing a check says, and the text at its main place.
    pub(in crate::review) fn one(&self, check: &Check) -> (Finding, String) {
        let reported = self.reported(check);
        assert_eq!(reported.len(), 1, "{reported:#?}");
        let at = self.text_at(&reported[0]);
        (reported[0].clone(), at)
    }

    /// The text at the main place of a finding.
    pub(in crate::review) fn text_at(&self, finding: &Finding) -> String {
        match finding.place() {
            // Files are numbered in order of their paths: the catalog first.
            Some(Place::Text { file, span }) => {
                let in_catalog = Files::new([("catalog".to_owned(), Vec::new())]).find("catalog") == Some(*file);
                let text = if in_catalog { &self.catalog } else { &self.job };
                text[span.start as usize..span.end as usize].to_owned()
            }
            other => panic!("{other:?}"),
        }
    }

    /// Asserts that a check says nothing.
    pub(in crate::review) fn passes(&self, check: &Check) {
        let reported = self.reported(check);
        assert!(reported.is_empty(), "{reported:#?}");
    }
}

/// What is asked and found in numbers says by how much it fails, in a number too; but for what is no shortfall.
pub(crate) fn says_by_how_much(finding: &Finding) {
    let number = |text: &str| text.contains(|it: char| it.is_ascii_digit());
    let failed = finding.code.severity != Severity::FieldVerify;
    if failed
        && number(&finding.asked)
        && number(&finding.found)
        && !NO_SHORTFALL.iter().any(|(id, _)| *id == finding.code.id)
    {
        assert!(finding.margin.as_deref().is_some_and(number), "{finding:#?}");
    }
}

/// Codes whose numbers are no shortfall, and why.
const NO_SHORTFALL: [(&str, &str); 20] = [
    ("device-leaf-unknown", "numbers of leaves"),
    ("device-leaf-unpowered", "numbers of leaves"),
    ("powered-without-operator", "numbers of leaves"),
    ("edition-unknown", "names of editions"),
    ("partner-one-sided", "marks of openings"),
    ("volts-mismatch", "another supply, not a weaker one"),
    ("panel-volts", "another service, not a weaker one"),
    ("low-volts-differ", "another supply, not a weaker one"),
    ("accessory-volts", "another supply, not a weaker one"),
    ("existing-fails-safe", "a label, no shortfall"),
    ("circuit-unknown", "numbers of circuits"),
    ("circuit-forbidden", "numbers of circuits"),
    ("drive-differs", "several values, each stated twice"),
    ("run-doubled", "names of ends"),
    ("run-elsewhere", "names of ends"),
    ("run-class-panel", "names of ends"),
    ("alternate-idle", "numbers of alternates"),
    ("plate-heights-differ", "lists of heights"),
    ("survey-differs", "a value of another kind, such as volts, has no margin"),
    ("hazard-unknown", "a year of construction, before which a report is asked for"),
];

/// The remedy of a finding.
pub(super) fn remedy(finding: &Finding) -> &str {
    finding.remedy.as_ref().map_or("", |remedy| &remedy.text)
}
