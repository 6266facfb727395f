//! A door of a vestibule that cannot be opened from one of its sides.
//!
//! In: an opening with a partner. Out: `vestibule-positions`. May not know: the partner's own devices.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceEntry, DeviceKind, EnergyClass, Side};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A vestibule with a device missing.
pub static CODE: Code = Code {
    id: "vestibule-positions",
    severity: Severity::Warning,
    says: "no device opens this vestibule door from the {found}",
    why: "A vestibule has four device locations: outside, between the doors going in, between the doors going out, and inside. A person who enters by one door and has no device for the next is trapped.",
    example: "vestibule = { partner = \"101B\" }\ndevice = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]",
    blocks: Papers::NONE,
};

/// Common practice, no source.
fn look(opening: &OpeningContext, findings: &mut Findings) {
    let entry = &opening.opening.entry;
    let assist = entry.energy.get() == Some(&EnergyClass::Assist);
    let (Some(vestibule), false) = (entry.vestibule.given(), assist || entry.device.is_bad()) else { return };
    if !opening.is_powered() {
        return;
    }
    let opens = |device: &DeviceEntry, side: Side| {
        let kind = device.kind.get();
        device.side.get() == Some(&side)
            && kind.is_some_and(|it| *it != DeviceKind::Safety && !it.is_credential() && !it.is_of_lock())
    };
    let devices = entry.device.list();
    // An opening without any device is one whose devices nobody has listed yet.
    if devices.is_empty() || devices.iter().any(|it| it.kind.is_bad() || it.side.is_bad()) {
        return;
    }
    let bare = Side::ALL.iter().filter(|side| !devices.iter().any(|device| opens(device, **side)));
    let bare: Vec<&str> = bare.map(|side| side.word()).collect();
    if bare.is_empty() {
        return;
    }
    let finding = CHECK
        .finding(opening.subject())
        .at(vestibule.place.clone())
        .found(bare.join(" nor from the "))
        .asked("a device on each side");
    findings.push(finding.advise(format!("add a [[opening.device]] with side = \"{}\"", bare[0])));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn between(sides: &[&str]) -> Fixture {
        let plates: Vec<String> = sides
            .iter()
            .map(|side| format!("{{ kind = \"push plate\", side = \"{side}\", mount = \"wall\" }}"))
            .collect();
        let other = "[[opening]]\nmark = \"102\"\nkind = \"plain\"";
        with(&format!("vestibule = {{ partner = \"102\" }}\ndevice = [{}]\n{other}", plates.join(", ")))
    }

    #[test]
    fn each_side_has_something_to_press() {
        between(&["outside", "inside"]).passes(&CHECK);
        let (finding, _) = between(&["outside"]).one(&CHECK);
        assert_eq!(finding.found, "inside");
        between(&[]).passes(&CHECK);
    }
}
