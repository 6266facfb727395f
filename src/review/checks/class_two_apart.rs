//! Low-voltage wires that enter a header beside line voltage.
//!
//! In: a job. Out: `class-two-apart`. May not know: the site.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::access::wired;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Separation to look at on the site.
pub static CODE: Code = Code {
    id: "class-two-apart",
    severity: Severity::FieldVerify,
    says: "keep low-voltage wires from line wires: {found}; {asked}",
    why: "Class 2 wires that lie with line wires are no longer class 2. In a header both come in, so each has an entry and a way of its own.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]   # wired",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::ClassTwo,
        asked: |opening, clause| {
            Some(format!(
                "{} inside the header, 2 in elsewhere, no common raceway or box",
                opening.inches(clause.least?)
            ))
        },
        advise: "separate entries; look before the cover goes on",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

fn holds(opening: &OpeningSeen) -> bool {
    opening.is_powered() && opening.opening.entry.device.list().iter().any(wired)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// NEC 725.136 (forums.mikeholt.com, secondary; the section moved in 2023).
    #[test]
    fn wired_devices_come_in_apart() {
        let plate = |link: &str| {
            format!("device = [{{ kind = \"push plate\", side = \"outside\", mount = \"wall\", link = \"{link}\" }}]")
        };
        under("nec-2023", &plate("wireless")).passes(&CHECK);
        assert!(under("nec-2023", &plate("wired")).one(&CHECK).0.asked.starts_with("1/4 in"));
    }
}
