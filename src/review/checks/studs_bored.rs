//! Cables through bored wood studs.
//!
//! In: a job. Out: `studs-bored`. May not know: where a stud is bored.

use super::{Check, OpeningSeen, Over};
use crate::catalog::{Catalog, ClauseOf, Substrate};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Job;
use crate::review::access::wired;
use crate::review::sites::{Told, tell_by_site};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: Over::Job(look) };

/// Holes to look at before the wall is closed.
pub static CODE: Code = Code {
    id: "studs-bored",
    severity: Severity::FieldVerify,
    says: "look at bored studs before the wall is closed: {found}; {asked}",
    why: "A screw of the header or of a sign finds a cable that runs too near the face of the stud, months after everyone has gone.",
    example: "substrate = { kind = \"wood\" }   # with a wired device, and rules = [\"nec-2023\"]",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningSeen::all(job, catalog);
    let told = Told {
        of: ClauseOf::BoredFraming,
        asked: |opening, clause| {
            let least = opening.inches(clause.least?);
            Some(format!(
                "{least} from the hole to the nearest edge, or a steel plate over it; steel conduit needs none"
            ))
        },
        advise: "bore in the middle of the stud, and nail a plate where that cannot be",
    };
    tell_by_site(&CHECK, &openings, holds, &told, findings);
}

/// A wired device in a wall of wood; the header's own substrate tells what the wall is made of.
fn holds(opening: &OpeningSeen) -> bool {
    let entry = &opening.opening.entry;
    let wood = entry.frame.get().is_some_and(|frame| frame.fixed_to.get() == Some(&Substrate::Wood));
    opening.is_powered() && wood && entry.device.list().iter().any(wired)
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::bench::under;

    /// NEC 300.4(A)(1) (secondary): 1 1/4 in, else a plate of 1/16 in; steel raceways are excepted.
    #[test]
    fn cables_in_walls_of_wood_are_looked_at() {
        let plate = |link: &str, more: &str| {
            let device = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\"";
            under("nec-2023", &format!("{device}, link = \"{link}\" }}]\n{more}"))
        };
        plate("wireless", "").passes(&CHECK);
        plate("wired", "frame = { fixed_to = \"masonry\" }").passes(&CHECK);
        assert!(plate("wired", "").one(&CHECK).0.asked.starts_with("1 1/4 in"));
    }
}
