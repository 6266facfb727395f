//! A strike on a labeled opening, with its power gone.
//!
//! In: a job. Out: `fire-strike`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Job, Rating, Release};
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// A strike to look at on the site.
pub static CODE: Code = Code {
    id: "fire-strike",
    severity: Severity::FieldVerify,
    says: "see that the strikes of labeled openings keep their leaves latched with the power off: {found}",
    why: "A strike that lets go when its power fails leaves a fire door unlatched. On a labeled opening a strike fails secure (from memory), and is listed for it.",
    example: "rating = \"90 min\"\nleaf = { release = \"electric strike\" }",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::FireStrike,
        asked: |_, _| Some("fail secure, listed".to_owned()),
        advise: "read the label of the strike and switch its power off",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    opening.opening.entry.rating.get().is_some_and(|it| *it != Rating::None)
        && opening.powered().any(|it| it.entry.release.get() == Some(&Release::Strike))
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// NFPA 80 2016 6.4.4.3 (from memory as to strikes).
    #[test]
    fn strikes_of_labeled_openings_are_looked_at() {
        under("nfpa-80-2016", "").passes(&CHECK);
        under("nfpa-80-2016", "rating = \"90 min\"").one(&CHECK);
        under("nfpa-80-2016", "rating = \"90 min\"\nleaf = { release = \"electrified lock\" }").passes(&CHECK);
    }
}
