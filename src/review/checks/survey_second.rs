//! An opening that was measured once and must be seen again before the crew goes.
//!
//! In: an opening. Out: `survey-second`. May not know: what changed since.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An opening without a second survey.
pub static CODE: Code = Code {
    id: "survey-second",
    severity: Severity::FieldVerify,
    says: "{found} was surveyed on {asked}; second survey not done",
    why: "Between order and installation walls are finished, leaves are rehung and signs are added; a second \
          survey costs less than a lost crew day.",
    example: "[[survey]]\nopening = \"101A\"\npass = 1\nseen = 2026-11-03\nby = \"R. Tallow\"   # and no pass 2",
    blocks: Papers::NONE,
};

/// Common practice, no source. An opening without any survey is told once, by the first.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let surveys = &opening.opening.surveys;
    let Some(first) = surveys.iter().find(|made| made.pass == 1) else { return };
    if opening.opening.survey_unread || surveys.iter().any(|made| made.pass == 2) {
        return;
    }
    let mark = &opening.opening.mark;
    let finding =
        CHECK.finding(opening.subject()).at(opening.opening.place.clone()).found(mark).asked(first.seen.to_string());
    findings.push(finding.advise(format!(
        "measure again and add [[survey]] with opening = \"{mark}\", pass = 2, the date and the person"
    )));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    const FIRST: &str = "[[survey]]\nopening = \"101\"\npass = 1\nseen = 2026-11-03\nby = \"R. Tallow\"\n";

    #[test]
    fn two_surveys_and_none_at_all_pass() {
        sound().passes(&CHECK);
        with(&format!("{FIRST}{}", FIRST.replace("pass = 1", "pass = 2"))).passes(&CHECK);
    }

    #[test]
    fn one_survey_is_reported_with_its_day() {
        let (finding, _) = with(FIRST).one(&CHECK);
        assert_eq!((finding.found.as_str(), finding.asked.as_str()), ("101", "2026-11-03"));
    }
}
