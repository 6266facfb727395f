//! A circuit that an opening joins, and that must not be used for it.
//!
//! In: an opening. Out: `circuit-forbidden`. May not know: codes of lighting and life safety.

use super::circuit_unknown::panel;
use super::{Check, CheckScope, OpeningContext};
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A circuit that must not be used.
pub static CODE: Code = Code {
    id: "circuit-forbidden",
    severity: Severity::Error,
    says: "circuit {found} must not be used: {asked}",
    why: "A circuit of lighting, of life safety or of one machine carries nothing else. An operator on it fails inspection, and trips it for what it serves.",
    example: "[[panel.LP-1.circuit]]\nnumber = \"7\"\nforbidden = \"lighting of an exit route\"\n\n[[opening]]\npower = { panel = \"LP-1\", circuit = \"7\" }",
    blocks: Papers::ALL,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(power) = opening.opening.entry.power.get() else { return };
    let (Some(wanted), Some(panel)) = (power.circuit.given(), panel(opening)) else { return };
    let joined = opening.job.joined_circuit(power).and_then(|at| panel.entry.circuit.list().get(at));
    let Some(forbidden) = joined.and_then(|it| it.forbidden.given()) else { return };
    let finding = CHECK
        .finding(opening.subject())
        .at(wanted.place.clone())
        .near(forbidden.place.clone(), "at the panel")
        .found(format!("{} of {}", wanted.value.as_str(), panel.id))
        .asked(forbidden.value.as_str());
    findings.push(finding.advise("join another circuit, or take circuit out for a new one"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, sound};

    /// The sound opening on circuit 9, and a panel that lists one.
    fn on_nine(listed: &str) -> Fixture {
        sound().and(&format!("power = {{ circuit = \"9\" }}\n{listed}"))
    }

    #[test]
    fn a_circuit_that_must_not_be_used_says_why() {
        on_nine("[[panel.LP-1.circuit]]\nnumber = \"9\"").passes(&CHECK);
        let lighting = "[[panel.LP-1.circuit]]\nnumber = \"9\"\nforbidden = \"lighting of an exit route\"";
        let (finding, at) = on_nine(lighting).one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"9\"", "lighting of an exit route"));
    }
}
