//! The means that disconnects an operator.
//!
//! In: a job. Out: `disconnect-in-sight`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// A disconnect to find on the site.
pub static CODE: Code = Code {
    id: "disconnect-in-sight",
    severity: Severity::FieldVerify,
    says: "find the disconnecting means of each operator: {found}; {asked}",
    why: "Who has his hands in the arm must be able to see that the power is off, or lock it off.",
    example: "rules = [\"nec-2023\"]   # at any powered leaf",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::Disconnect,
        asked: |_, _| Some("in sight of the header, or a breaker that can be locked open".to_owned()),
        advise: "the licensed electrician says which it is and labels it",
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

    /// NEC 430.102(B) (secondary).
    #[test]
    fn every_drive_has_a_disconnect() {
        under("nec-2023", "leaf = { powered = false }").passes(&CHECK);
        assert_eq!(under("nec-2023", "").one(&CHECK).0.clause.as_deref(), Some("NEC 2023 430.102(B) (secondary)"));
    }
}
