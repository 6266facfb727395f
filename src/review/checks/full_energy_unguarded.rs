//! A full-energy leaf that no sensor keeps off people.
//!
//! In: an opening. Out: `full-energy-unguarded`. May not know: where a sensor must look, nor guide rails, which the
//! catalog's rules take off.

use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::{DeviceKind, EnergyClass};

pub(in crate::review) static CHECK: Check = Check {
    code: &CODE,
    clause: Some("ANSI/BHMA A156.10, safety sensors (from memory)"),
    over: CheckScope::Opening(look),
};

/// A full-energy leaf without a safety sensor.
pub static CODE: Code = Code {
    id: "full-energy-unguarded",
    severity: Severity::Warning,
    says: "no safety sensor for {found}",
    why: "A full-energy leaf can knock a person down; a sensor in the swing path stops it or keeps it from \
          starting. Some doorways are guarded by other means, so this is a warning.",
    example: "energy = \"full energy\"\ndevice = [{ kind = \"motion sensor\", side = \"outside\", mount = \"header\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let (Some(energy), devices) = (opening.opening.entry.energy.given(), &opening.opening.entry.device) else { return };
    if energy.value != EnergyClass::Full || devices.is_bad() {
        return;
    }
    let guards = |number: usize| {
        devices.list().iter().any(|device| {
            let leaf = device.leaf.get().map(|leaf| leaf.get() as usize);
            device.kind.is_bad()
                || device.kind.get() == Some(&DeviceKind::Safety) && leaf.is_none_or(|leaf| leaf == number)
        })
    };
    let bare: Vec<String> =
        opening.powered().filter(|leaf| !guards(leaf.number)).map(|leaf| format!("leaf {}", leaf.number)).collect();
    if bare.is_empty() {
        return;
    }
    let finding = CHECK
        .finding(opening.subject())
        .at(energy.place.clone())
        .found(bare.join(" and "))
        .asked("a safety sensor for each full-energy leaf");
    findings.push(finding.price("nothing for it is in the bid").advise(
        "add a [[opening.device]] with kind = \"safety sensor\", or accept this with the reason why the swing is guarded",
    ));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    const GUARD: &str = r#"{ kind = "safety sensor", side = "inside", mount = "leaf" }"#;

    #[test]
    fn a_guarded_leaf_and_a_low_energy_one_pass() {
        sound().passes(&CHECK);
        with(&format!("energy = \"full energy\"\ndevice = [{GUARD}]")).passes(&CHECK);
    }

    #[test]
    fn a_bare_leaf_is_reported() {
        let (finding, at) = with("energy = \"full energy\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"full energy\"", "leaf 1"));
    }

    #[test]
    fn a_sensor_of_one_leaf_does_not_guard_the_other() {
        let one = GUARD.replace("{ ", "{ leaf = 1, ");
        let pair = r#"leaf = [{ hinges = "left" }, { hinges = "right" }]"#;
        let (finding, _) = with(&format!("energy = \"full energy\"\ndevice = [{one}]\n{pair}")).one(&CHECK);
        assert_eq!(finding.found, "leaf 2");
    }
}
