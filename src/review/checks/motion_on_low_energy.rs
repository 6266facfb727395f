//! A low-energy or power-assist leaf that opens for whoever comes near.
//!
//! In: an opening. Out: `motion-on-low-energy`. May not know: where the sensor looks.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};
use crate::job::{DeviceKind, EnergyClass};

pub(in crate::review) static CHECK: Check = Check {
    code: &CODE,
    clause: Some("ANSI/BHMA A156.19, knowing act (from memory)"),
    over: CheckScope::Opening(look),
};

/// A motion sensor that opens a low-energy leaf.
pub static CODE: Code = Code {
    id: "motion-on-low-energy",
    severity: Severity::Error,
    says: "a {found} opens a {asked} leaf",
    why: "A low-energy or power-assist leaf opens by a knowing act: a plate, a switch or a push. A leaf opened \
          by a motion sensor is a full-energy door, with the sensors, guide rails and signs of that class.",
    example: "energy = \"low energy\"\ndevice = [{ kind = \"motion sensor\", side = \"outside\", mount = \"header\" }]",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(energy) = opening.opening.entry.energy.given() else { return };
    if energy.value == EnergyClass::Full || !opening.is_powered() {
        return;
    }
    for device in opening.opening.entry.device.list() {
        let Some(kind) = device.kind.given() else { continue };
        if kind.value != DeviceKind::Motion {
            continue;
        }
        let finding = CHECK
            .finding(opening.subject())
            .at(kind.place.clone())
            .near(energy.place.clone(), "energy class")
            .found(kind.value.word())
            .asked(energy.value.word());
        findings.push(finding.type_at(kind.place.clone(), DeviceKind::Touchless.word()));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    const MOTION: &str = r#"device = [{ id = "M1", kind = "motion sensor", side = "outside", mount = "header" }]"#;

    #[test]
    fn a_knowing_act_and_a_full_energy_leaf_pass() {
        sound().passes(&CHECK);
        with(r#"device = [{ kind = "push plate", side = "outside", mount = "wall" }]"#).passes(&CHECK);
        with(&format!("energy = \"full energy\"\n{MOTION}")).passes(&CHECK);
    }

    #[test]
    fn a_motion_sensor_is_no_knowing_act() {
        for energy in ["low energy", "power assist"] {
            let (finding, at) = with(&format!("energy = \"{energy}\"\n{MOTION}")).one(&CHECK);
            assert_eq!((at.as_str(), finding.asked.as_str()), ("\"motion sensor\"", energy));
            assert_eq!(remedy(&finding), "touchless switch");
            assert!(finding.clause.is_some());
        }
    }
}
