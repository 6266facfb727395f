//! What stands out into the way through an open leaf.
//!
//! In: a job. Out: `projections`. May not know: the hardware that is there already.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Hardware on leaves to measure.
pub static CODE: Code = Code {
    id: "projections",
    severity: Severity::FieldVerify,
    says: "with each leaf open measure what stands into the way through: {found}; {asked}",
    why: "A bar, a lever or a plate on the open leaf takes from the clear width. What was lawful on a leaf that opened to 110 degrees may stand in the way on one that stops at 90.",
    example: "rules = [\"ibc-2018\"]   # at any powered leaf",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::Projection,
        asked: |opening, clause| {
            let low = opening.inches(clause.depth?);
            Some(format!("nothing below {low}, {} at most from there to 80 in", opening.inches(clause.most?)))
        },
        advise: "measure at the open position that the operator is set to",
    };
    tell_by_site(&CHECK, &openings, OpeningSeen::is_powered, &told, findings);
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// IBC 2018 1010.1.1.1 (read): none below 34 in, 4 in from there to 80 in.
    #[test]
    fn what_stands_into_the_way_is_measured_at_powered_leaves() {
        under("ibc-2018", "leaf = { powered = false }").passes(&CHECK);
        let (finding, _) = under("ibc-2018", "").one(&CHECK);
        assert_eq!(finding.asked, "nothing below 34 in, 4 in at most from there to 80 in");
        assert_eq!(finding.clause.as_deref(), Some("IBC 2018 1010.1.1.1"));
    }
}
