//! A leaf held by an electromagnet that a plate lets go.
//!
//! In: an opening. Out: `magnet-egress`. May not know: the wiring of the system of others.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceEntry, LatchKind, Side};
use crate::review::access::{device_words, worked_by_hand};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A magnet whose release is to be tried.
pub static CODE: Code = Code {
    id: "magnet-egress",
    severity: Severity::FieldVerify,
    says: "check that egress does not depend on {found}: {asked}",
    why: "A push plate is not a means of egress. At a leaf held by an electromagnet, egress is by a sensor or button that cuts its power, by the fire alarm and by loss of power.",
    example: "leaf = { latch = \"electromagnet\", release = \"held by others\" }\ndevice = [{ kind = \"push plate\", side = \"inside\", mount = \"wall\" }]",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let mut held = opening.powered().filter_map(|leaf| leaf.entry.latch.given());
    let Some(latch) = held.find(|given| given.value == LatchKind::Magnet) else { return };
    let inside = |device: &&DeviceEntry| device.side.get() == Some(&Side::Inside) && worked_by_hand(device);
    let Some(device) = opening.opening.entry.device.list().iter().find(inside) else { return };
    let finding = CHECK
        .finding(opening.subject())
        .at(latch.place.clone())
        .found(format!("the {}", device_words(device)))
        .asked("the magnet releases by its own sensor or button, on alarm, and with power off");
    findings.push(finding.advise("test all three with the system vendor, who signs"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound, with};

    fn held(side: &str) -> Fixture {
        let device = format!("device = [{{ kind = \"push plate\", side = \"{side}\", mount = \"wall\" }}]");
        with(&format!("{device}\nleaf = {{ latch = \"electromagnet\", release = \"held by others\" }}"))
    }

    #[test]
    fn a_magnet_with_a_plate_inside_is_tried() {
        sound().passes(&CHECK);
        held("outside").passes(&CHECK);
        assert_eq!(held("inside").one(&CHECK).0.found, "the push plate");
    }
}
