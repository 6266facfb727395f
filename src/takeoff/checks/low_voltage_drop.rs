//! A release or a device at the end of a cable that leaves it too few volts.
//!
//! In: a takeoff. Out: `low-voltage-drop`. May not know: cables of others.

use super::CheckContext;
use super::low_voltage::{Load, Supply, cable_ohms, supplies};
use crate::catalog::Group;
use crate::engineering::{Branch, volts_at_ends};
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Amps, Style, Unit, Volts};
use crate::takeoff::OpeningWork;
use rust_decimal::Decimal;

/// Too few volts at the end of a cable.
pub static CODE: Code = Code {
    id: "low-voltage-drop",
    severity: Severity::Warning,
    says: "{found}; minimum operating voltage {asked}",
    why: "A latch release at its minimum voltage is unreliable. A release is calculated with its inrush amps, a \
          device with its running amps or its constant power; each on a cable of its own.",
    example: "least_volts = \"20.4 V\"   # and 200 ft of 22 AWG to it",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for (at, work) in seen.powered() {
        for supply in supplies(seen, at, work) {
            for load in &supply.loads {
                if let Some(finding) = short(seen, work, &supply, load) {
                    findings.push(finding);
                }
            }
        }
    }
}

/// Volts at the load by the tree of one branch (`V = Vs - R I`, or of constant power; engineering's formulas).
fn short(seen: &CheckContext, work: &OpeningWork, supply: &Supply, load: &Load) -> Option<Finding> {
    let (least, volts) = (load.least_volts?, supply.volts.or(load.volts)?);
    let (feet, ohms) = cable_ohms(seen, load)?;
    let starts = load.group == Group::LatchRelease;
    let amps = if starts { load.asks.inrush.max(load.asks.running) } else { load.asks.running };
    let (number, amps_number) = (f64::try_from(volts.number_of(Unit::Volt)?).ok()?, amps_of(amps)?);
    let constant = load.constant_power && !starts;
    let branch = Branch {
        from: None,
        ohms: f64::try_from(ohms).ok()?,
        amps: if constant { 0.0 } else { amps_number },
        watts: if constant { amps_number * number } else { 0.0 },
    };
    // What cannot be fed at all has nothing left.
    let left = volts_at_ends(number, &[branch]).ok().and_then(|it| it.first().copied()).unwrap_or(0.0);
    let left = Volts::new(Decimal::try_from(left).ok()?.round_dp(3), Unit::Volt)?;
    if left >= least {
        return None;
    }
    let print = |it: Volts| it.print(Unit::Volt, 1, Style::Plain);
    let more = least.number_of(Unit::Volt)?.checked_sub(left.number_of(Unit::Volt)?)?;
    let finding = Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
        .at(work.opening.place.clone())
        .near(load.place.clone(), load.name)
        .found(format!("{} has {} at the end of {} ft of cable", load.name, print(left)?, feet.ceil().normalize()))
        .asked(print(least)?)
        .margin(format!("{} short", print(Volts::new(more, Unit::Volt)?)?));
    Some(finding.advise("use a larger cable, a shorter route, or a power supply near the leaf"))
}

fn amps_of(amps: Amps) -> Option<f64> {
    f64::try_from(amps.number_of(Unit::Ampere)?).ok()
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::findings::Finding;
    use crate::takeoff::checks::fixtures;

    /// A strike of 1.5 A at its start on so many feet of 18 AWG.
    fn reported(feet: u32, more: &str) -> Vec<Finding> {
        let items = format!(
            "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nrule = [{{ per = \"powered leaf\" }}]\n\
             electric = {{ volts = \"24 V\", amps = \"0.25 A\", inrush = \"1.5 A\", least_volts = \"21.6 V\"{more} }}\n\
             [item.cable]\nname = \"Cable\"\ngroup = \"cable\"\nunit = \"ft\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nwire = {{ awg = 18 }}\nrule = [{{ per = \"powered leaf\", quantity = \"{feet} ft\" }}]"
        );
        fixtures::reported(&CODE, "", "accessory_amps = \"2 A\"\naccessory_volts = \"24 V\"", &items)
    }

    /// 24 V, 1.5 A, 100 ft of 18 AWG stranded: 2.385 V lost (derived from the published table of resistances, secondary).
    #[test]
    fn a_strike_far_off_is_reported() {
        assert!(reported(90, "").is_empty());
        let short = reported(102, "");
        assert_eq!(short[0].found, "Strike has 21.6 V at the end of 102 ft of cable");
        assert_eq!(reported(120, "")[0].margin.as_deref(), Some("0.5 V short"));
    }

    /// 24 W at 24 V over 1.59 ohm leave 22.288 V (derived); a device is calculated with what it takes while it works.
    #[test]
    fn a_device_of_constant_power_is_reported() {
        let device = |least: &str| {
            let items = format!(
                "[item.sensor]\nname = \"Sensor\"\ngroup = \"sensor\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nrule = [{{ per = \"device\" }}]\n\
                 electric = {{ volts = \"24 V\", amps = \"1 A\", constant_power = true, least_volts = \"{least}\" }}\n\
                 [item.cable]\nname = \"Cable\"\ngroup = \"cable\"\nunit = \"ft\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nwire = {{ awg = 18 }}\n\
                 rule = [{{ per = \"run\", when = \"run.cables > 0\", quantity = \"run.length * run.cables\" }}]"
            );
            let job = "device = [{ id = \"P1\", kind = \"push plate\", side = \"inside\", mount = \"wall\", height = \"40 in\" }]\n\
                [[run]]\nfrom = \"101\"\nto = \"101/P1\"\nkind = \"open cable\"\nlength = \"100 ft\"\nclass = \"low\"";
            fixtures::reported(&CODE, job, "accessory_amps = \"2 A\"\naccessory_volts = \"24 V\"", &items)
        };
        assert!(device("22.2 V").is_empty());
        assert_eq!(device("22.4 V")[0].found, "Sensor has 22.3 V at the end of 100 ft of cable");
    }
}
