//! Where the signs of a powered leaf stand.
//!
//! In: a job. Out: `signs-height`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Signs to place on the site.
pub static CODE: Code = Code {
    id: "signs-height",
    severity: Severity::FieldVerify,
    says: "put the signs of each powered leaf where they are read: {found}; {asked}",
    why: "A sign tells which kind of leaf this is before a hand is on it. Two on each powered leaf, one a side; none on a leaf that no drive moves.",
    example: "rules = [\"low-energy\"]   # at any powered leaf",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::Signs,
        asked: |opening, clause| {
            Some(format!(
                "center {} to {} above the floor, both sides",
                opening.inches(clause.least?),
                opening.inches(clause.most?)
            ))
        },
        advise: "measure from the finished floor",
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

    /// Sign height 50 in, 12 in up or down (steppingthruaccessibility.com, secondary).
    #[test]
    fn powered_leaves_have_signs_at_their_height() {
        under("low-energy", "leaf = { powered = false }").passes(&CHECK);
        assert_eq!(under("low-energy", "").one(&CHECK).0.asked, "center 38 in to 62 in above the floor, both sides");
    }
}
