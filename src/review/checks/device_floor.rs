//! A device whose floor space may lie in the swing of the leaf.
//!
//! In: an opening of one leaf. Out: `device-floor`. May not know: the floor itself.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::engineering::floor_in_swing;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{Side, Swing};
use crate::review::access::{device_words, worked_by_hand};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A floor space near the swing.
pub static CODE: Code = Code {
    id: "device-floor",
    severity: Severity::FieldVerify,
    says: "clear floor space {asked} at {found}, outside the door swing",
    why: "A person pressing a push plate must be outside the door swing. The space need not be centered on the plate; lay it out on site outside the swing.",
    example: "device = [{ kind = \"push plate\", side = \"inside\", mount = \"jamb\", distance = \"4 in\" }]   # on the swing side",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let [leaf] = opening.opening.leaves.as_slice() else { return };
    let Some(swing) = leaf.swing.get().filter(|_| opening.is_powered()) else { return };
    let swung = if *swing == Swing::Toward { Side::Outside } else { Side::Inside };
    let Some((asked, wide)) = opening.first_asked(ClauseOf::FloorSpace).and_then(|it| Some((it, it.clause.least?)))
    else {
        return;
    };
    for device in opening.opening.entry.device.list().iter().filter(|device| worked_by_hand(device)) {
        let Some(distance) = device.distance.given().filter(|_| device.side.get() == Some(&swung)) else { continue };
        let Some(within) = floor_in_swing(wide, distance.value) else { continue };
        let long = asked.clause.depth.unwrap_or(wide);
        let finding = CHECK
            .finding(opening.subject())
            .at(distance.place.clone())
            .found(device_words(device))
            .asked(format!("{} by {}", opening.inches(wide), opening.inches(long)))
            .margin(format!("{} of it in the swing if centered", opening.inches(within)))
            .clause(asked.cite());
        findings.push(finding.advise(format!(
            "locate the device {} or more from the latch edge, or lay out the space to one side",
            opening.inches(distance.value + within)
        )));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    /// The leaf swings to the inside.
    fn plate(side: &str, distance: &str) -> Fixture {
        under(
            "ada-2010",
            &format!(
                "device = [{{ kind = \"push plate\", side = \"{side}\", mount = \"wall\", distance = \"{distance}\" }}]"
            ),
        )
    }

    /// ADA 2010 404.3.5 with 305.3 (read): 30 by 48 in beyond the arc; half of 30 in from the latch edge is clear of it.
    #[test]
    fn devices_beside_the_swing() {
        plate("inside", "15 in").passes(&CHECK);
        plate("outside", "4 in").passes(&CHECK);
        let (finding, at) = plate("inside", "4 in").one(&CHECK);
        assert_eq!(at, "\"4 in\"");
        assert!(finding.margin.is_some_and(|it| it.starts_with("11 in")));
    }
}
