//! A class 2 output beyond the limit of its class.
//!
//! In: a takeoff. Out: `class-two-limit`. May not know: listings; the mark on the supply governs.

use std::collections::BTreeSet;

use rust_decimal::Decimal;

use super::CheckContext;
use super::low_voltage::{Supply, supplies};
use crate::engineering::class_two_amps;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Amps, Style, Unit};

/// An output beyond class 2.
pub static CODE: Code = Code {
    id: "class-two-limit",
    severity: Severity::Warning,
    says: "output {found}; Class 2 limit {asked}",
    why: "Above 100 VA an output is not a Class 2 circuit: its conductors require raceway, a licensed \
          electrician and separation. The class is by its marking; the catalog's values are checked against the \
          limit.",
    example: "gives = { volts = \"24 V\", amps = \"6 A\" }   # 144 VA in one output",
    blocks: Papers::NONE,
};

/// The clause, from a secondary source.
const CLAUSE: &str = "NEC chapter 9 table 11(A)";

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let mut reported: BTreeSet<String> = BTreeSet::new();
    for (at, work) in seen.powered() {
        for supply in supplies(seen, at, work).iter().filter(|it| it.class_two) {
            if let Some(finding) = beyond(supply).filter(|_| reported.insert(supply.name.clone())) {
                findings.push(finding.near(work.opening.place.clone(), format!("used at {}", work.opening.mark)));
            }
        }
    }
}

/// Each output is held against the limit for its volts.
fn beyond(supply: &Supply) -> Option<Finding> {
    let volts = supply.volts?;
    let amps = supply.amps.number_of(Unit::Ampere)?.checked_div(Decimal::from(supply.outputs.max(1)))?;
    let most = class_two_amps(volts)?;
    let more = amps.checked_sub(most.number_of(Unit::Ampere)?).filter(|more| *more > Decimal::ZERO)?;
    let print = |it: Amps| it.print(Unit::Ampere, 2, Style::Plain);
    let finding = Finding::new(&CODE, Subject::Entry("supply", supply.name.clone()))
        .at(supply.place.clone())
        .found(format!("{} at {}", print(Amps::new(amps, Unit::Ampere)?)?, volts.print(Unit::Volt, 1, Style::Plain)?))
        .asked(print(most)?)
        .margin(format!("{} more", print(Amps::new(more, Unit::Ampere)?)?))
        .clause(CLAUSE);
    Some(
        finding
            .advise("divide the load over separately limited outputs, or write class_two = false and wire it as power"),
    )
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::findings::Finding;
    use crate::takeoff::checks::fixtures;

    fn reported(gives: &str) -> Vec<Finding> {
        let items = format!(
            "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nelectric = {{ volts = \"24 V\", amps = \"0.25 A\" }}\nrule = [{{ per = \"powered leaf\" }}]\n\
             [item.supply]\nname = \"Supply\"\ngroup = \"power supply\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\ngives = {{ {gives} }}\nrule = [{{ per = \"opening\" }}]"
        );
        fixtures::reported(&CODE, "", "", &items)
    }

    /// 100 VA at 24 V are 4.166 A (arithmetic; NEC chapter 9 table 11(A), secondary); four outputs share 12 A.
    #[test]
    fn an_output_stays_within_a_hundred_volt_amperes() {
        assert!(reported("volts = \"24 V\", amps = \"4 A\"").is_empty());
        let over = reported("volts = \"24 V\", amps = \"6 A\"");
        assert_eq!((over[0].found.as_str(), over[0].asked.as_str()), ("6 A at 24 V", "4.17 A"));
        assert_eq!(over[0].margin.as_deref(), Some("1.83 A more"));
        assert!(reported("volts = \"24 V\", amps = \"12 A\", outputs = 4").is_empty());
        assert!(reported("volts = \"24 V\", amps = \"6 A\", class_two = false").is_empty());
        assert_eq!(reported("volts = \"48 V\", amps = \"1 A\"").len(), 1, "above 30 V: 5 mA");
    }
}
