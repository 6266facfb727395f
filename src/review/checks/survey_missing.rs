//! An opening that nobody has measured.
//!
//! In: an opening. Out: `survey-missing`. May not know: which values the drawings gave.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An opening without a first survey.
pub static CODE: Code = Code {
    id: "survey-missing",
    severity: Severity::Warning,
    says: "{found} has not been surveyed; its orders will print NOT RELEASED: DIMENSIONS NOT VERIFIED",
    why: "Headers and plates come made to length. A bid may rest on drawings; an order may not.",
    example: "[[opening]]\nmark = \"101A\"   # and no [[survey]] of opening 101A, pass 1",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    if opening.opening.survey_unread || opening.opening.surveys.iter().any(|made| made.pass == 1) {
        return;
    }
    let mark = &opening.opening.mark;
    let finding = CHECK
        .finding(opening.subject())
        .at(opening.opening.place.clone())
        .found(mark)
        .asked("a first survey before ordering");
    findings.push(finding.advise(format!(
        "print the survey form, measure, and add [[survey]] with opening = \"{mark}\", pass = 1, the date and the person"
    )));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn a_surveyed_opening_passes() {
        with("[[survey]]\nopening = \"101\"\npass = 1\nseen = 2026-11-03\nby = \"R. Tallow\"").passes(&CHECK);
    }

    #[test]
    fn an_opening_no_one_measured_is_reported_and_a_second_pass_is_no_first() {
        assert_eq!(sound().one(&CHECK).0.found, "101");
        with("[[survey]]\nopening = \"101\"\npass = 2\nseen = 2026-11-03\nby = \"R. Tallow\"").one(&CHECK);
    }
}
