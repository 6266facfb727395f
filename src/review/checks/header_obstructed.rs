//! Something that stays where the header will be.
//!
//! In: an opening. Out: `header-obstructed`. May not know: the arm's way through the room.

use super::in_the_way::obstructions;
use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Finding, Findings, Papers, Severity};
use crate::job::ObstructionEntry;
use crate::review::header_space::{Clearance, HeaderSpace};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Something in the way that is to stay.
pub static CODE: Code = Code {
    id: "header-obstructed",
    severity: Severity::Warning,
    says: "the {found} stays in the space of the header, which reaches to {asked} above the floor",
    why: "A sign, sprinkler head or camera lower than the top of the header and nearer to the wall than its depth is moved before the header is set, or the header is set elsewhere.",
    example: "frame = { in_the_way = [{ what = \"camera\", underside = \"7 ft 2 in\", becomes = \"reuse\" }] }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    for (it, what, clearance) in obstructions(opening) {
        if let (Clearance::Short(by), true, Some(finding)) = (clearance, it.stays(), stays(opening, it, what)) {
            findings.push(finding.margin(format!("{} too low", opening.length(by))));
        }
    }
}

fn stays(opening: &OpeningContext, it: &ObstructionEntry, what: &str) -> Option<Finding> {
    let space = HeaderSpace::of(&opening.opening.entry, &opening.opening.leaves, opening.operator?)?;
    let underside = it.underside.given()?;
    let finding = CHECK
        .finding(opening.subject())
        .at(underside.place.clone())
        .found(format!("{what} with its underside at {}", opening.length(underside.value)))
        .asked(opening.length(space.top));
    Some(finding.advise(
        "have it moved and write becomes = \"relocate\" with by, set the header on the other side, or correct its measures",
    ))
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::with;

    /// The space of the sound header reaches to 92 1/4 in: 7 ft, a face of 2 in, and 6 1/4 in of head room.
    #[test]
    fn what_stays_in_the_space_of_the_header_says_by_how_much() {
        let sign = |more: &str| with(&format!("frame = {{ in_the_way = [{{ what = \"exit sign\", {more} }}] }}"));
        sign("underside = \"90 in\"").passes(&CHECK);
        sign("underside = \"90 in\", becomes = \"relocate\"").passes(&CHECK);
        sign("underside = \"93 in\", becomes = \"reuse\"").passes(&CHECK);
        let (finding, at) = sign("underside = \"90 in\", becomes = \"reuse\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"90 in\"", Some("2 1/4 in too low")));
    }
}
