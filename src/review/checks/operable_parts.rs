//! Devices that one hand works without a tight grasp.
//!
//! In: a job. Out: `operable-parts`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::access::has_hand_device;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Devices to try on the site.
pub static CODE: Code = Code {
    id: "operable-parts",
    severity: Severity::FieldVerify,
    says: "try every device with one hand: {found}; {asked}",
    why: "A plate that is stiff or must be pinched is no use to the person it is there for.",
    example: "rules = [\"ada-2010\"]   # at any device worked by hand",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::OperableParts,
        asked: |_, _| Some("no grasp, pinch or twist, 5 lbf at most".to_owned()),
        advise: "try each with a closed fist and a gauge",
    };
    tell_by_site(&CHECK, &openings, has_hand_device, &told, findings);
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// ADA 2010 309.4 (read).
    #[test]
    fn devices_are_tried_where_there_are_any() {
        under("ada-2010", "").passes(&CHECK);
        let plate = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]";
        assert_eq!(under("ada-2010", plate).one(&CHECK).0.clause.as_deref(), Some("ADA 2010 309.4"));
        under("ada-2010", "device = [{ kind = \"safety sensor\", side = \"outside\", mount = \"leaf\" }]")
            .passes(&CHECK);
    }
}
