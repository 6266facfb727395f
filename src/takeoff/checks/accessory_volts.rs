//! Something of line voltage at an opening whose circuit gives other volts.
//!
//! In: a takeoff. Out: `accessory-volts`, one an item. May not know: transformers.

use std::collections::BTreeSet;

use super::CheckContext;
use crate::catalog::Item;
use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::measure::{Style, Unit, Volts};
use crate::takeoff::circuit_loads::{is_drive, takes};
use crate::takeoff::{CircuitWork, OpeningWork};

/// An accessory that its circuit does not feed.
pub static CODE: Code = Code {
    id: "accessory-volts",
    severity: Severity::Warning,
    says: "{found}; the circuit there gives {asked}",
    why: "A supply or a charger is fed by the circuit of its opening. One of other volts needs a circuit of its own, which is not counted, or burns out.",
    example: "electric = { volts = \"120 V\", amps = \"1.1 A\" }   # of a supply at an opening of 208 V",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let mut reported: BTreeSet<&str> = BTreeSet::new();
    for (at, work) in seen.powered() {
        let circuit = seen.takeoff.arrangement.circuits.iter().find(|it| it.headers.contains(&(at, 0)));
        let Some((circuit, gives)) = circuit.and_then(|it| Some((it, it.volts?))) else { continue };
        for (item, ..) in seen.items_at(at) {
            let unfit = item.electric.as_ref().is_some_and(|it| it.line_amps().is_some() && !takes(it, gives));
            if unfit && !is_drive(item) && reported.insert(&item.id) {
                findings.push(finding(work, circuit, item, gives));
            }
        }
    }
}

fn finding(work: &OpeningWork, circuit: &CircuitWork, item: &Item, gives: Volts) -> Finding {
    let print = |it: Volts| it.print(Unit::Volt, 0, Style::Plain).unwrap_or_default();
    let needs = item.electric.as_ref().and_then(|it| it.volts).map(print).unwrap_or_default();
    let number = circuit.label();
    let finding = Finding::new(&CODE, Subject::Entry("item", item.id.clone()))
        .near(item.place.clone(), item.name.clone())
        .near(work.opening.place.clone(), format!("taken off at {}, circuit {number}", work.opening.mark))
        .found(format!("{} takes {needs}", item.name))
        .asked(print(gives));
    finding.advise("take off one of the circuit's volts, write up_to_volts where it takes a range, or price a circuit of its own for it")
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    #[test]
    fn what_is_on_a_circuit_takes_its_volts() {
        let supply = |electric: &str| {
            let catalog = format!(
                "[item.supply]\nname = \"Supply\"\ngroup = \"power supply\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nelectric = {{ amps = \"1 A\", {electric} }}\nrule = [{{ per = \"opening\" }}]\n"
            );
            fixtures::reported(&CODE, "", "", &catalog)
        };
        // The sound operator takes 120 V.
        assert!(supply("volts = \"120 V\"").is_empty());
        assert!(supply("volts = \"24 V\"").is_empty(), "low voltage is on no branch circuit");
        assert!(supply("volts = \"100 V\", up_to_volts = \"277 V\"").is_empty());
        let found = supply("volts = \"208 V\"");
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!((one.found.as_str(), one.asked.as_str()), ("Supply takes 208 V", "120 V"));
    }
}
