//! Gaps around a labeled leaf.
//!
//! In: a job. Out: `fire-gaps`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Job, Rating};
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Gaps to measure on the site.
pub static CODE: Code = Code {
    id: "fire-gaps",
    severity: Severity::FieldVerify,
    says: "measure the gaps of labeled leaves: {found}; {asked}",
    why: "A leaf that hangs with wide gaps is no fire door, and it was so before we came; it is written down before the operator goes on.",
    example: "rating = \"90 min\"",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::FireGaps,
        asked: |opening, clause| {
            Some(format!(
                "{} at head, jambs and meeting edge, 3/4 in at the floor, at most",
                opening.inches(clause.most?)
            ))
        },
        advise: "measure with a gauge; where it is more, tell the owner before the operator goes on",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    opening.opening.entry.rating.get().is_some_and(|it| *it != Rating::None)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// NFPA 80 2016 6.3.1.7.1 (lifesafetyservices.com, secondary): 1/8 in, and 3/4 in at the bottom.
    #[test]
    fn labeled_leaves_are_gauged() {
        under("nfpa-80-2016", "").passes(&CHECK);
        assert!(under("nfpa-80-2016", "rating = \"45 min\"").one(&CHECK).0.asked.starts_with("1/8 in"));
    }
}
