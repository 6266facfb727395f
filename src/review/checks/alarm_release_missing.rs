//! A labeled leaf that a drive moves, and that the fire alarm does not take from it.
//!
//! In: an opening. Out: `alarm-release-missing`. May not know: detectors, alarm zones.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Rating;

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some("NFPA 101 (2012) 7.2.1.9.2(4) (secondary)"), over: CheckScope::Opening(look) };

/// A labeled powered leaf without alarm release.
pub static CODE: Code = Code {
    id: "alarm-release-missing",
    severity: Severity::Warning,
    says: "a powered leaf is labeled {asked}, and {found} fire alarm release of its drive",
    why: "In a fire the leaf must close and stay closed: smoke detection near the door releases the drive, and a closer or spring closes the leaf. Without that connection the operator holds the door open.",
    example: "rating = \"90 min\"\nalarm_release = false",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let entry = &opening.opening.entry;
    let Some(rating) = entry.rating.given().filter(|given| given.value != Rating::None && opening.is_powered()) else {
        return;
    };
    let release = &entry.alarm_release;
    if release.is_bad() || release.or(false) {
        return;
    }
    let found = if release.is_absent() { "no entry states" } else { "the job excludes" };
    let finding = CHECK.finding(opening.subject()).found(found).asked(rating.value.word());
    let finding = finding.price("nothing for it is in the bid");
    findings.push(match release.place() {
        Some(place) => finding.at(place.clone()).near(rating.place.clone(), "label").type_at(place.clone(), "true"),
        None => finding.at(rating.place.clone()).advise("write alarm_release = true, and state who wires it"),
    });
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, under, with};

    /// NFPA 101 (2012) 7.2.1.9.2(4) (keyeslifesafety.com, secondary).
    #[test]
    fn a_labeled_drive_is_dropped_by_the_alarm() {
        with("rating = \"90 min\"\nalarm_release = true").passes(&CHECK);
        with("rating = \"none\"").passes(&CHECK);
        with("rating = \"90 min\"\nleaf = { powered = false }").passes(&CHECK);
        let (finding, at) = with("rating = \"90 min\"\nalarm_release = false").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("false", "true"));
        assert_eq!(under("", "rating = \"20 min\"").one(&CHECK).1, "\"20 min\"");
    }
}
