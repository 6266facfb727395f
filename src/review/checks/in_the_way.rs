//! Something that hangs where the header or the arm wants to be.
//!
//! In: an opening. Out: `in-the-way`. May not know: whether it clears.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Something in the way.
pub static CODE: Code = Code {
    id: "in-the-way",
    severity: Severity::FieldVerify,
    says: "check that header and arm clear the {found}",
    why: "Exit signs, sprinkler heads, detectors and cameras are relocated by others only; found on the day of installation, one costs the visit.",
    example: "frame = { in_the_way = [\"exit sign\"] }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(found) = opening.opening.entry.frame.get().and_then(|frame| frame.in_the_way.given()) else { return };
    if found.value.is_empty() || !opening.is_powered() {
        return;
    }
    let words: Vec<&str> = found.value.iter().map(|it| it.word()).collect();
    let finding =
        CHECK.finding(opening.subject()).at(found.place.clone()).found(words.join(" and ")).asked("a clear swing");
    findings.push(finding.advise(
        "check with the cardboard template of header and arm; notify the general contractor of each relocation with its date",
    ));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn what_hangs_there_is_looked_at() {
        sound().passes(&CHECK);
        let (finding, _) = with("frame = { in_the_way = [\"exit sign\", \"camera\"] }").one(&CHECK);
        assert_eq!(finding.found, "exit sign and camera");
    }
}
