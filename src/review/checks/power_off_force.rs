//! The force that opens a powered leaf by hand when its power is gone.
//!
//! In: a job. Out: `power-off-force`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// A force to measure on the site.
pub static CODE: Code = Code {
    id: "power-off-force",
    severity: Severity::FieldVerify,
    says: "measure the force that opens each leaf by hand, power off: {found}; {asked}",
    why: "Every powered leaf on a way out opens by hand from any position. The model code lets 50 lbf set it in motion; the operator standards 30 (from memory), so it is set to 30 and both are written down.",
    example: "rules = [\"ibc-2021\"]   # at any powered leaf",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::PowerOffForce,
        asked: |_, _| Some("15 lbf to release, 30 to start (the code allows 50), 15 to open fully".to_owned()),
        advise: "measure with a gauge 1 in from the edge, and write the values into the record",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    opening.is_powered()
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// IBC 2021 1010.3.2 (secondary; the text of 2018 was read). 50 and 30 differ by source: both are told.
    #[test]
    fn every_powered_leaf_is_measured() {
        under("ibc-2021", "leaf = { powered = false }").passes(&CHECK);
        under("ada-2010", "").passes(&CHECK);
        let (finding, _) = under("ibc-2021", "").one(&CHECK);
        assert!(finding.asked.contains("30") && finding.asked.contains("50"), "{}", finding.asked);
        assert_eq!(under("ibc-2018", "").one(&CHECK).0.clause.as_deref(), Some("IBC 2018 1010.1.4.2"));
    }
}
