//! Floor that a person needs to open a leaf by hand, and that nobody has measured.
//!
//! In: an opening. Out: `maneuver-unmeasured`. May not know: the floor.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::review::access::maneuver_asked;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Floor that is asked for and not measured.
pub static CODE: Code = Code {
    id: "maneuver-unmeasured",
    severity: Severity::FieldVerify,
    says: "measure maneuvering clearances on both sides: {found}",
    why: "Where a leaf may have to be opened by hand, maneuvering clearance is required; a door schedule does not show it.",
    example: "energy = \"power assist\"   # and no floor = [ … ]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let access = &opening.opening.entry.access;
    let unmeasured = !access.is_bad() && access.get().is_none_or(|access| access.floor.is_absent());
    let Some((asked, why)) = maneuver_asked(opening).filter(|_| unmeasured) else { return };
    let place = opening.place_or_own(opening.opening.entry.energy.place());
    let finding =
        CHECK.finding(opening.subject()).at(place).found(why).asked("depth, and width beyond latch or hinges");
    findings.push(
        finding
            .clause(asked.cite())
            .advise("write access = { floor = [{ side = \"…\", deep = \"…\", beyond = \"…\" }] }"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ADA 2010 404.3.2 (read).
    #[test]
    fn measured_floor_and_a_door_that_needs_none_pass() {
        under("ada-2010", "").passes(&CHECK);
        under("ada-2010", "access = { egress = true, standby_power = true }").passes(&CHECK);
        let floor = "access = { floor = [{ side = \"outside\", deep = \"5 ft\", beyond = \"2 ft\" }] }";
        under("ada-2010", &format!("energy = \"power assist\"\n{floor}")).passes(&CHECK);
    }

    #[test]
    fn power_assist_and_a_way_out_are_asked_about() {
        let (finding, at) = under("ada-2010", "energy = \"power assist\"").one(&CHECK);
        assert_eq!(
            (at.as_str(), finding.found.as_str()),
            ("\"power assist\"", "a power-assisted leaf is pushed by hand")
        );
        under("ada-2010", "access = { egress = true }").one(&CHECK);
    }
}
