//! A low-voltage supply that gives less than its loads ask at their start.
//!
//! In: a takeoff. Out: `supply-short`. May not know: supplies of others.

use super::CheckContext;
use super::low_voltage::{Supply, supplies};
use crate::engineering::{SupplyDemand, supply_demand};
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Amps, Noun, Style, Unit};
use crate::takeoff::OpeningWork;

/// A supply that is too small.
pub static CODE: Code = Code {
    id: "supply-short",
    severity: Severity::Warning,
    says: "{found}; {asked}",
    why: "A strike or latch retraction without enough inrush current does not release, and the drive pushes \
          against the latch. Power supplies are sized for inrush, not for holding current; staggered start needs \
          the smallest supply. Common practice, no source.",
    example: "[item.kit.electric]\namps = \"0.6 A\"\ninrush = \"2 A\"   # two of them on a supply of 2 A without stagger",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for (at, work) in seen.powered() {
        for supply in supplies(seen, at, work) {
            let asks: Vec<_> = supply.loads.iter().map(|load| load.asks).collect();
            let Some(demand) = supply_demand(&asks, supply.staggered).filter(|it| it.peak > supply.amps) else {
                continue;
            };
            if let Some(finding) = reported(work, &supply, demand) {
                findings.push(finding);
            }
        }
    }
}

fn reported(work: &OpeningWork, supply: &Supply, demand: SupplyDemand) -> Option<Finding> {
    let amps = |it: Amps| it.print(Unit::Ampere, 2, Style::Plain);
    let more = Amps::new(
        demand.peak.number_of(Unit::Ampere)?.checked_sub(supply.amps.number_of(Unit::Ampere)?)?,
        Unit::Ampere,
    )?;
    let how = if supply.staggered { "one after the other" } else { "at once" };
    let finding = Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
        .at(work.opening.place.clone())
        .near(supply.place.clone(), supply.name.clone())
        .found(format!("{} started {how}: {}", Noun::LOAD.len(supply.loads.len()), amps(demand.peak)?))
        .asked(format!("{}: {}", supply.name, amps(supply.amps)?))
        .margin(format!("{} short", amps(more)?));
    Some(finding.advise("use a larger power supply, one with staggered start, or a second one"))
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::findings::Finding;
    use crate::takeoff::checks::fixtures;

    /// The sound job's strike, held at 0.25 A, on an operator that gives so much, or on a supply beside it.
    fn reported(inrush: &str, operator: &str, supply: &str) -> Vec<Finding> {
        let strike = format!(
            "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nelectric = {{ volts = \"24 V\", amps = \"0.25 A\", inrush = \"{inrush}\" }}\n\
             rule = [{{ per = \"powered leaf\" }}]\n{supply}"
        );
        fixtures::reported(&CODE, "", operator, &strike)
    }

    const SUPPLY: &str = "[item.supply]\nname = \"Supply\"\ngroup = \"power supply\"\nunit = \"each\"\nprice = \"1.00\"\n\
        priced = 2026-11-02\nsupplier = \"fenwick\"\ngives = { volts = \"24 V\", amps = \"2 A\" }\nrule = [{ per = \"opening\" }]";

    /// Arithmetic: 1.2 A at the start on 1 A are 0.2 A short; a supply of 2 A takes the strike off the operator.
    #[test]
    fn a_supply_is_held_against_the_start() {
        assert!(reported("0.9 A", "accessory_amps = \"1 A\"", "").is_empty());
        let short = reported("1.2 A", "accessory_amps = \"1 A\"", "");
        assert_eq!(short.len(), 1);
        assert_eq!(short[0].found, "1 load started at once: 1.2 A");
        assert_eq!(
            (short[0].asked.as_str(), short[0].margin.as_deref()),
            ("operator brace-1: 1 A", Some("0.2 A short"))
        );
        assert!(reported("1.2 A", "accessory_amps = \"1 A\"", SUPPLY).is_empty());
        assert_eq!(reported("2.5 A", "accessory_amps = \"1 A\"", SUPPLY).len(), 1);
        assert!(reported("9 A", "", "").is_empty(), "what an operator gives is not known");
    }
}
