//! Holes that are drilled on the site in a labeled leaf or frame.
//!
//! In: a job. Out: `fire-holes`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Job, Rating};
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Holes to list on the site.
pub static CODE: Code = Code {
    id: "fire-holes",
    severity: Severity::FieldVerify,
    says: "drill no hole of more than {asked} into a labeled leaf, and list each: {found}",
    why: "A label allows small holes for hardware; a larger one, or a mortise for wires, is for the factory or the label service. The figure is from memory: the label and its standard govern.",
    example: "rating = \"90 min\"   # at a powered leaf",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::FireHoles,
        asked: |opening, clause| Some(opening.inches(clause.most?)),
        advise: "write every hole into the packet's list, with a photo of the label",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    opening.opening.entry.rating.get().is_some_and(|it| *it != Rating::None) && opening.is_powered()
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// NFPA 80 4.1.3, 1 in (from memory, so a note for the site).
    #[test]
    fn labeled_leaves_have_a_hole_list() {
        under("nfpa-80-2016", "").passes(&CHECK);
        assert_eq!(under("nfpa-80-2016", "rating = \"20 min\"").one(&CHECK).0.asked, "1 in");
    }
}
