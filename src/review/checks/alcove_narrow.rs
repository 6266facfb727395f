//! An alcove in which a person has to turn to a device.
//!
//! In: a job. Out: `alcove-narrow`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::access::has_hand_device;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Recesses around devices.
pub static CODE: Code = Code {
    id: "alcove-narrow",
    severity: Severity::FieldVerify,
    says: "measure every alcove that a device stands in: {found}; {asked}",
    why: "A plate at the end of a recess is out of reach for a chair that cannot turn in it. Drawings show the wall, not the planter and the radiator beside it.",
    example: "rules = [\"ada-2010\"]   # at any device worked by hand",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::Alcove,
        asked: |opening, _| {
            let asked = opening.asked(ClauseOf::Alcove);
            let words = asked.iter().filter_map(|it| {
                let (wide, deep) = (opening.inches(it.clause.least?), opening.inches(it.clause.depth?));
                Some(format!("{wide} wide where deeper than {deep}"))
            });
            Some(format!("{}, the wider for who comes alongside", words.collect::<Vec<_>>().join(", ")))
        },
        advise: "put the device outside of the alcove where it is narrower",
    };
    tell_by_site(&CHECK, &openings, has_hand_device, &told, findings);
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// ADA 2010 305.7.1 and 305.7.2 (read).
    #[test]
    fn alcoves_are_measured_where_a_hand_works_a_device() {
        under("ada-2010", "").passes(&CHECK);
        let plate = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]";
        let (finding, _) = under("ada-2010", plate).one(&CHECK);
        assert_eq!(
            finding.asked,
            "36 in wide where deeper than 24 in, 60 in wide where deeper than 15 in, the wider for who comes alongside"
        );
    }
}
