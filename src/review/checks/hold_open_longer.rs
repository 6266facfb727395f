//! A leaf that is to stay open longer than 5 s for a device of its own.
//!
//! In: an opening. Out: `hold-open-longer`. May not know: what the operator is set to.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::engineering::hold_open;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::EnergyClass;
use crate::measure::{Length, Unit};
use crate::review::access::{device_words, worked_by_hand};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A longer hold-open to set.
pub static CODE: Code = Code {
    id: "hold-open-longer",
    severity: Severity::FieldVerify,
    says: "set hold-open time to {asked} for the {found}",
    why: "A person using a distant plate needs more time: 5 s, plus 1 s for each foot or part of a foot beyond 5 ft (from memory). The longest time required by an active device of the leaf governs.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"post\", distance = \"7 ft\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    if matches!(opening.opening.entry.energy.get(), None | Some(EnergyClass::Full)) {
        return;
    }
    let Some(asked) = opening.first_asked(ClauseOf::HoldOpen).filter(|_| opening.is_powered()) else { return };
    let devices = opening.opening.entry.device.list().iter().filter(|device| worked_by_hand(device));
    let far =
        devices.filter_map(|device| Some((device, device.distance.given()?))).max_by_key(|(_, given)| given.value);
    let Some((device, distance)) = far.filter(|(_, given)| given.value > Length::feet(5)) else { return };
    let Some(seconds) = hold_open(distance.value).and_then(|hold| hold.number_of(Unit::Second)) else { return };
    let finding = CHECK
        .finding(opening.subject())
        .at(distance.place.clone())
        .found(format!("{} at {}", device_words(device), opening.length(distance.value)))
        .asked(format!("{seconds} s"))
        .clause(asked.cite());
    findings.push(finding.advise("walk-test with a stopwatch at 1.5 ft/s"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ANSI/BHMA A156.19, appendix (from memory): 7 ft asks for 7 s.
    #[test]
    fn the_furthest_device_sets_the_time() {
        let plates = |one: &str, other: &str| {
            format!(
                "device = [{{ kind = \"push plate\", side = \"outside\", mount = \"post\", distance = \"{one}\" }}, \
             {{ kind = \"push plate\", side = \"inside\", mount = \"wall\", distance = \"{other}\" }}]"
            )
        };
        under("low-energy", &plates("5 ft", "30 in")).passes(&CHECK);
        let (finding, at) = under("low-energy", &plates("30 in", "6 ft 2 in")).one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"6 ft 2 in\"", "7 s"));
    }
}
