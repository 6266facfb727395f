//! A circuit that is asked for more than its breaker gives.
//!
//! In: a takeoff. Out: `circuit-heavy`, and `circuit-load-unknown` of one that is there. May not know: conductors.

use rust_decimal::Decimal;

use super::CheckContext;
use crate::engineering::{USUAL_BREAKER, design_amps};
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject};
use crate::measure::{Amps, Unit};
use crate::takeoff::CircuitWork;

/// A circuit that asks for too much.
pub static CODE: Code = Code {
    id: "circuit-heavy",
    severity: Severity::Warning,
    says: "circuit of panel {found}; breaker: {asked}",
    why: "A circuit for several motors is sized for 125 percent of the largest plus the other loads (430.24, from memory): the drives, supplies and accessories at their openings, and what the circuit feeds today. A breaker that trips when two doors open together is a callback.",
    example: "shared_amps = \"20 A\"   # in the profile, and many openings",
    blocks: Papers::NONE,
};

/// A circuit that is there, and what it feeds today.
pub static UNKNOWN: Code = Code {
    id: "circuit-load-unknown",
    severity: Severity::FieldVerify,
    says: "existing circuit {found}: load not known; asked: {asked}",
    why: "An operator that joins a circuit adds to what is on it. Whether its breaker carries both is known only by its load today.",
    example: "[[panel.LP-1.circuit]]\nnumber = \"9\"   # and no amps\n\n[[opening]]\npower = { panel = \"LP-1\", circuit = \"9\" }",
    blocks: Papers::NONE,
};

/// The clause, from memory.
const CLAUSE: &str = "NEC 430.24 (from memory)";

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for circuit in &seen.takeoff.arrangement.circuits {
        unknown(seen, circuit).into_iter().chain(heavy(seen, circuit)).for_each(|it| findings.push(it));
    }
}

/// Marks of the openings on a circuit, and the id of its panel.
fn named(seen: &CheckContext, circuit: &CircuitWork) -> (String, String) {
    let all = &seen.takeoff.arrangement;
    let mut marks: Vec<&str> =
        circuit.headers.iter().filter_map(|(at, _)| Some(all.openings.get(*at)?.opening.mark.as_str())).collect();
    marks.dedup();
    let panel = all.panels.get(circuit.panel).and_then(|panel| panel.id.clone());
    (marks.join(", "), panel.unwrap_or_else(|| "not given".to_owned()))
}

fn place(seen: &CheckContext, circuit: &CircuitWork) -> Option<Place> {
    let (opening, _) = circuit.headers.first()?;
    let opening = seen.takeoff.arrangement.openings.get(*opening)?.opening;
    Some(opening.entry.power.place().unwrap_or(&opening.place).clone())
}

fn unknown(seen: &CheckContext, circuit: &CircuitWork) -> Option<Finding> {
    let there = circuit.existing.as_ref().filter(|there| there.amps.is_none() && !there.is_reported)?;
    let (marks, panel) = named(seen, circuit);
    let finding = Finding::new(&UNKNOWN, Subject::Entry("panel", panel.clone()))
        .at(there.place.clone())
        .found(format!("{} of panel {panel}, joined by {marks}", there.number))
        .asked("its running amps");
    Some(finding.advise(
        "measure what it feeds today, and write amps = \"…\" of the circuit; have the licensed electrician confirm it",
    ))
}

/// Drives by the rule for several motors, everything else as it runs.
fn heavy(seen: &CheckContext, circuit: &CircuitWork) -> Option<Finding> {
    let operators = circuit.headers.iter().filter_map(|(at, header)| {
        let work = seen.takeoff.arrangement.openings.get(*at)?;
        let amps = work.operator?.amps.number_of(Unit::Ampere)?;
        let drives = work.headers.get(*header)?.drives.len();
        // With a circuit for each drive a header with two stands here for one of them.
        let here = if circuit.drives < drives { circuit.drives } else { drives };
        Amps::new(amps.checked_mul(Decimal::from(here))?, Unit::Ampere)
    });
    let motors: Vec<Amps> = operators.collect();
    let accessories = seen.takeoff.accessories_on(circuit, seen.catalog);
    let there = circuit.existing.as_ref().and_then(|there| there.amps);
    let mut asks = design_amps(&motors)?.number_of(Unit::Ampere)?;
    for more in accessories.iter().map(|it| it.amps).chain(there) {
        asks = asks.checked_add(more.number_of(Unit::Ampere)?)?;
    }
    let breaker = circuit.existing.as_ref().and_then(|there| there.breaker?.number_of(Unit::Ampere));
    let gives = breaker.unwrap_or(Decimal::from(USUAL_BREAKER));
    if asks <= gives {
        return None;
    }
    let (marks, panel) = named(seen, circuit);
    let mut with: Vec<String> = accessories.iter().map(|it| it.item.name.clone()).collect();
    with.dedup();
    with.extend(
        there.and_then(|it| it.number_of(Unit::Ampere)).map(|it| format!("{} A that it feeds today", it.normalize())),
    );
    let with = if with.is_empty() { String::new() } else { format!(", with {}", with.join(", ")) };
    let called = circuit.existing.as_ref().map_or_else(String::new, |there| format!(", circuit {},", there.number));
    let mut finding = Finding::new(&CODE, Subject::Entry("panel", panel.clone()))
        .at(place(seen, circuit)?)
        .found(format!("{panel}{called} feeds {marks}{with} and is sized for {} A", asks.normalize()))
        .asked(format!("{} A", gives.normalize()))
        .margin(format!("{} A more", (asks.checked_sub(gives)?).normalize()))
        .clause(CLAUSE);
    if let Some(there) = &circuit.existing {
        finding = finding.near(there.place.clone(), "existing circuit");
    }
    Some(finding.advise("feed fewer headers from it, or have the licensed electrician size the circuit"))
}

#[cfg(test)]
mod tests {
    use super::{CODE, UNKNOWN};
    use crate::findings::Finding;
    use crate::takeoff::checks::fixtures;

    fn shared(count: usize, limit: &str) -> Vec<Finding> {
        let power = "power = { policy = \"shared\" }";
        let more: String =
            (0..count - 1).map(|at| format!("\n[[opening]]\nmark = \"2{at}\"\nkind = \"plain\"\n{power}")).collect();
        let months = "warranty_months = 12";
        fixtures::reported_of(&CODE, &format!("{power}{more}"), |catalog| {
            catalog.replace(months, &format!("shared_amps = \"{limit}\"\n{months}"))
        })
    }

    /// 430.24 (from memory): 8 drives of 1.8 A are 14.4 A and 0.45 more; 9 are 16.65 A.
    #[test]
    fn motors_together_stay_below_the_breaker() {
        assert!(shared(8, "20 A").is_empty());
        let found = shared(9, "20 A");
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!(one.margin.as_deref(), Some("1.65 A more"));
        assert!(shared(9, "12 A").is_empty());
    }

    /// The sound opening, whose drive takes 1.8 A, on a circuit that is there, with a supply that takes a number of amps.
    fn joined(circuit: &str, supply: &str) -> (Vec<Finding>, Vec<Finding>) {
        let job = format!("power = {{ circuit = \"9\" }}\n[[panel.LP-1.circuit]]\nnumber = \"9\"\n{circuit}");
        let catalog = format!(
            "[item.supply]\nname = \"Supply\"\ngroup = \"power supply\"\nunit = \"each\"\nprice = \"1.00\"\n\
             priced = 2026-11-02\nsupplier = \"fenwick\"\nelectric = {{ volts = \"120 V\", amps = \"{supply}\" }}\n\
             rule = [{{ per = \"opening\" }}]\n"
        );
        (fixtures::reported(&CODE, &job, "", &catalog), fixtures::reported(&UNKNOWN, &job, "", &catalog))
    }

    /// 1.25 x 1.8 A = 2.25 A; 2.25 + 1 + 11.75 = 15 A fill the usual breaker, 12 A today are 0.25 A too many.
    #[test]
    fn a_circuit_that_is_there_carries_what_it_fed_and_what_is_added() {
        assert!(joined("amps = \"11.75 A\"", "1 A").0.is_empty());
        let (found, unknown) = joined("amps = \"12 A\"", "1 A");
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!(one.margin.as_deref(), Some("0.25 A more"));
        assert_eq!(
            one.found,
            "LP-1, circuit 9, feeds 101, with Supply, 12 A that it feeds today and is sized for 15.25 A"
        );
        assert!(unknown.is_empty());
        assert!(joined("amps = \"12 A\"\nbreaker = \"20 A\"", "1 A").0.is_empty());
        let (_, unknown) = joined("", "1 A");
        let [one] = unknown.as_slice() else { panic!("{unknown:#?}") };
        assert_eq!(one.found, "9 of panel LP-1, joined by 101");
    }
}
