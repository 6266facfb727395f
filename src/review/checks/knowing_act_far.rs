//! A device of a low-energy leaf that stands far from it.
//!
//! In: an opening. Out: `knowing-act-far`. May not know: whether the leaf is seen from there.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::EnergyClass;
use crate::review::access::{device_words, worked_by_hand};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A device far from its leaf.
pub static CODE: Code = Code {
    id: "knowing-act-far",
    severity: Severity::FieldVerify,
    says: "the {found} from the leaf; {asked} maximum, with the leaf in view",
    why: "A person pressing a plate should see the leaf and reach it while it is open. A desk button is often farther away: then the person at the desk must see the door. The distance is from memory.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"post\", distance = \"14 ft\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    if !opening.is_powered() || matches!(opening.opening.entry.energy.get(), None | Some(EnergyClass::Full)) {
        return;
    }
    let Some((asked, most)) = opening.first_asked(ClauseOf::KnowingAct).and_then(|it| Some((it, it.clause.most?)))
    else {
        return;
    };
    for device in opening.opening.entry.device.list().iter().filter(|device| worked_by_hand(device)) {
        let Some(distance) = device.distance.given().filter(|given| given.value > most) else { continue };
        let finding = CHECK
            .finding(opening.subject())
            .at(distance.place.clone())
            .found(format!("{} is {}", device_words(device), opening.length(distance.value)))
            .asked(opening.length(most))
            .margin(format!("{} further", opening.length(distance.value - most)))
            .clause(asked.cite());
        findings.push(finding.advise("check the view of the leaf from the device location"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ANSI/BHMA A156.19, appendix (from memory): 12 ft.
    #[test]
    fn devices_far_off_are_looked_at() {
        let plate = |distance: &str| {
            format!(
                "device = [{{ kind = \"push plate\", side = \"outside\", mount = \"post\", distance = \"{distance}\" }}]"
            )
        };
        under("low-energy", &plate("12 ft")).passes(&CHECK);
        assert_eq!(under("low-energy", &plate("14 ft")).one(&CHECK).1, "\"14 ft\"");
    }
}
