//! A circuit whose drives ask for more than its breaker gives.
//!
//! In: a job. Out: `circuit-heavy`. May not know: the breaker that is there.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::Catalog;
use crate::engineering::{USUAL_BREAKER, design_amps};
use crate::findings::{Code, Findings, Papers, Severity, Subject};
use crate::job::Job;
use crate::measure::{Amps, Unit};
use crate::review::circuits::panels;
use rust_decimal::Decimal;

pub(in crate::review) static CHECK: Check =
    Check { code: &CODE, clause: Some("NEC 430.24 (from memory)"), over: CheckScope::Job(look) };

/// A circuit that asks for too much.
pub static CODE: Code = Code {
    id: "circuit-heavy",
    severity: Severity::Warning,
    says: "circuit of panel {found}; usual breaker: {asked}",
    why: "A circuit for several motors is sized for 125 percent of the largest plus the others (430.24, from memory). A breaker that trips when two doors open together is a callback.",
    example: "shared_amps = \"20 A\"   # in the profile, and many openings",
    blocks: Papers::NONE,
};

fn look(job: &Job, catalog: &Catalog, findings: &mut Findings) {
    let openings = OpeningContext::all(job, catalog);
    for seen in panels(&openings, job, catalog) {
        for circuit in 0..seen.circuits() {
            let motors: Vec<Amps> = seen.amps(circuit);
            let Some(asks) = design_amps(&motors).and_then(|amps| amps.number_of(Unit::Ampere)) else { continue };
            if asks <= Decimal::from(USUAL_BREAKER) {
                continue;
            }
            let here = seen.circuit_of.iter().zip(&seen.openings).filter(|(at, _)| **at == circuit);
            let here: Vec<&OpeningContext> = here.map(|(_, opening)| *opening).collect();
            let marks: Vec<&str> = here.iter().map(|it| it.opening.mark.as_str()).collect();
            let id = seen.id.clone().unwrap_or_else(|| "not given".to_owned());
            let Some(place) = here.first().map(|it| it.place_or_own(it.opening.entry.power.place())) else { continue };
            let finding = CHECK
                .finding(Subject::Entry("panel", id.clone()))
                .at(place)
                .found(format!("{id} feeds {} and is sized for {} A", marks.join(", "), asks.normalize()))
                .asked(format!("{USUAL_BREAKER} A"))
                .margin(format!("{} A more", (asks - Decimal::from(USUAL_BREAKER)).normalize()));
            findings
                .push(finding.advise("feed fewer headers from it, or have the licensed electrician size the circuit"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn shared(count: usize, limit: &str) -> Fixture {
        let power = "power = { policy = \"shared\" }";
        let more: String =
            (0..count - 1).map(|at| format!("\n[[opening]]\nmark = \"2{at}\"\nkind = \"plain\"\n{power}")).collect();
        let months = "warranty_months = 12";
        with(&format!("{power}{more}")).catalog_but(months, &format!("shared_amps = \"{limit}\"\n{months}"))
    }

    /// 430.24 (from memory): 8 drives of 1.8 A are 14.4 A and 0.45 more; 9 are 16.65 A.
    #[test]
    fn motors_together_stay_below_the_breaker() {
        shared(8, "20 A").passes(&CHECK);
        let (finding, _) = shared(9, "20 A").one(&CHECK);
        assert_eq!(finding.margin.as_deref(), Some("1.65 A more"));
        shared(9, "12 A").passes(&CHECK);
    }
}
