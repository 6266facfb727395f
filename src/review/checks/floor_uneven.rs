//! The floor where a person stands before a leaf or a device.
//!
//! In: a job. Out: `floor-uneven`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::access::{has_hand_device, maneuver_asked};
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Floor to look at on the site.
pub static CODE: Code = Code {
    id: "floor-uneven",
    severity: Severity::FieldVerify,
    says: "look at the floor before leaves and devices: {found}; {asked}",
    why: "A wheel that has to climb a lip rolls back while a hand is on the plate. A mat, a cracked slab or a ramp that begins too soon is the owner's to know before the opening is called accessible.",
    example: "rules = [\"ada-2010\"]   # at any device worked by hand",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::LevelChange,
        asked: |opening, clause| {
            let most = opening.inches(clause.most?);
            Some(format!("no lip above {most}, to {} where it is beveled", opening.inches(clause.depth?)))
        },
        advise: "lay a level over the floor; write down what is higher, with a photo",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    has_hand_device(opening) || maneuver_asked(opening).is_some()
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// ADA 2010 303.2 and 303.3 (read): 1/4 in upright, to 1/2 in with a bevel.
    #[test]
    fn the_floor_is_looked_at_where_a_person_stands() {
        under("ada-2010", "").passes(&CHECK);
        let plate = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]";
        let (finding, _) = under("ada-2010", plate).one(&CHECK);
        assert_eq!(finding.asked, "no lip above 1/4 in, to 1/2 in where it is beveled");
        assert_eq!(finding.clause.as_deref(), Some("ADA 2010 303.2, 303.3"));
        under("ada-2010", "energy = \"power assist\"").one(&CHECK);
    }
}
