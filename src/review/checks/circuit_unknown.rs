//! A circuit that an opening joins, and that its panel does not list.
//!
//! In: an opening. Out: `circuit-unknown`. May not know: what it carries.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};
use crate::job::Panel;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A circuit that its panel does not list.
pub static CODE: Code = Code {
    id: "circuit-unknown",
    severity: Severity::Error,
    says: "circuit {found}; the panel lists {asked}",
    why: "A header that joins a circuit takes no breaker and no space. Unless the panel lists the circuit, its load is not known, and the price lacks a breaker on the word of a typing error.",
    example: "[[opening]]\npower = { panel = \"LP-1\", circuit = \"9\" }   # and no [[panel.LP-1.circuit]] of that number",
    blocks: OPENING_PAPERS,
};

/// The panel that feeds a powered opening.
pub(super) fn panel<'j>(opening: &OpeningContext<'j>) -> Option<&'j Panel> {
    let power = opening.opening.entry.power.get().filter(|_| opening.is_powered())?;
    opening.job.panels.get(power.panel.get()?.as_str())
}

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(power) = opening.opening.entry.power.get() else { return };
    let (Some(wanted), Some(panel)) = (power.circuit.given(), panel(opening)) else { return };
    // A number that cannot be read may be the one; it was reported.
    let unread = panel.entry.circuit.is_bad() || panel.entry.circuit.list().iter().any(|it| it.number.is_bad());
    if unread || opening.job.joined_circuit(power).is_some() {
        return;
    }
    let listed: Vec<&str> =
        panel.entry.circuit.list().iter().filter_map(|it| Some(it.number.get()?.as_str())).collect();
    let listed = if listed.is_empty() { "none".to_owned() } else { listed.join(", ") };
    let finding = CHECK
        .finding(opening.subject())
        .at(wanted.place.clone())
        .found(wanted.value.as_str())
        .asked(format!("{listed} of {}", panel.id));
    findings.push(finding.advise(format!(
        "list it as [[panel.{}.circuit]] with its load, correct the number, or take circuit out for a new one",
        panel.id
    )));
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
    fn a_circuit_that_is_joined_stands_at_its_panel() {
        sound().passes(&CHECK);
        on_nine("[[panel.LP-1.circuit]]\nnumber = \"9\"").passes(&CHECK);
        let (finding, at) = on_nine("").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"9\"", "none of LP-1"));
        let (finding, _) = on_nine("[[panel.LP-1.circuit]]\nnumber = \"7\"").one(&CHECK);
        assert_eq!(finding.asked, "7 of LP-1");
    }
}
