//! An edition that a job is to be reviewed against and the catalog does not have.
//!
//! In: a job. Out: `edition-unknown`. May not know: any clause.

use super::{Check, CheckScope};
use crate::catalog::Catalog;
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::Job;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Job(look) };

/// An unknown edition.
pub static CODE: Code = Code {
    id: "edition-unknown",
    severity: Severity::Warning,
    says: "the catalog has no edition `{found}`",
    why: "A job is not reviewed against an edition that the catalog lacks, although its papers would list it.",
    example: "rules = [\"ada-2011\"]",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    for id in job.head.rules.iter().filter(|id| !catalog.editions.contains_key(*id)) {
        let known: Vec<&str> = catalog.editions.keys().map(String::as_str).collect();
        let asked = if known.is_empty() { "no such edition".to_owned() } else { known.join(", ") };
        let finding =
            CHECK.finding(Subject::Entry("edition", id.clone())).at(job.head.place.clone()).found(id).asked(asked);
        findings.push(finding.advise("use an edition in the catalog, or add an [edition] table with its clauses"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    #[test]
    fn editions_that_no_one_typed_are_reported() {
        under("ada-2010\", \"nec-2023", "").passes(&CHECK);
        assert_eq!(under("ada-2011", "").one(&CHECK).0.found, "ada-2011");
    }
}
