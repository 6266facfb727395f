//! A header of which nobody knows what it will be fixed to.
//!
//! In: an opening. Out: `substrate-unknown`. May not know: fasteners.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::Substrate;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A header without a known substrate.
pub static CODE: Code = Code {
    id: "substrate-unknown",
    severity: Severity::FieldVerify,
    says: "substrate of the header is {found}: verify before ordering",
    why: "Fasteners and backing depend on the substrate; a header fastened to board only falls.",
    example: "frame = { fixed_to = \"unknown\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let entry = &opening.opening.entry;
    let frame = entry.frame.get();
    if !opening.is_powered() || entry.frame.is_bad() || frame.is_some_and(|frame| frame.fixed_to.is_bad()) {
        return;
    }
    let given = frame.and_then(|frame| frame.fixed_to.given());
    let found = match given.map(|given| given.value) {
        Some(Substrate::Unknown) => "unknown",
        None => "not given",
        Some(_) => return,
    };
    let place = given.map(|given| &given.place).or(entry.frame.place());
    let finding = CHECK
        .finding(opening.subject())
        .at(opening.place_or_own(place))
        .found(found)
        .asked("the substrate at the head")
        .price("fasteners for an unknown substrate are in the bid, where the catalog has them");
    findings.push(finding.advise("write the substrate in the survey record: frame = { fixed_to = \"…\" }"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn a_known_substrate_passes() {
        sound().passes(&CHECK);
        with("frame = { fixed_to = \"unknown\" }\nleaf = { powered = false }").passes(&CHECK);
    }

    #[test]
    fn an_unknown_one_is_a_check_for_the_site() {
        let (finding, at) = with("frame = { fixed_to = \"unknown\" }").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"unknown\"", "unknown"));
        assert_eq!(sound().but("fixed_to = \"wood\"\n", "").one(&CHECK).0.found, "not given");
    }
}
