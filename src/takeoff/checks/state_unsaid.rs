//! An opening of which nothing says what it does on fire alarm or on loss of power.
//!
//! In: a takeoff. Out: `state-unsaid`. May not know: whether what is said is right.

use super::CheckContext;
use crate::catalog::{DoorState, Sequence};
use crate::findings::{Code, Finding, Findings, Paper, Papers, Severity, Subject};
use crate::ledger::{Ledger, ReasonId};
use crate::rules::Truth;
use crate::takeoff::EntityRef;

/// A state of which nothing is said.
pub static CODE: Code = Code {
    id: "state-unsaid",
    severity: Severity::Error,
    says: "no sequence of operation in the catalog for this opening on {found}; {asked}",
    why: "A blank is read as \"no action\". On fire alarm and on loss of power life safety depends on the \
          operation of the door; \"No interface.\" is an answer, a blank is not.",
    example: "[sequence.outage]\nstate = \"loss of power\"\nwhen = 'opening.exposure = \"exterior\"'   # and nothing for the others",
    blocks: Papers::of(&[Paper::Schedule, Paper::Packet]),
};

/// The states that are never left blank.
const NEVER_BLANK: [DoorState; 2] = [DoorState::FireAlarm, DoorState::PowerLoss];

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let mut ledger = Ledger::new();
    for (at, work) in seen.powered() {
        for state in NEVER_BLANK {
            if seen.catalog.sequences.iter().any(|it| it.state == state && says(seen, it, at, &mut ledger)) {
                continue;
            }
            let finding = Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
                .at(work.opening.place.clone())
                .found(state.word())
                .asked("one whose condition applies, or has none, is required");
            findings.push(finding.advise("add a [sequence.…] of that state without a condition, which comes last"));
        }
    }
}

fn says(seen: &CheckContext, sequence: &Sequence, at: usize, ledger: &mut Ledger) -> bool {
    let facts = seen.takeoff.facts(EntityRef::Opening(at));
    let holds = sequence
        .when
        .as_ref()
        .is_none_or(|when| when.condition.truth(&facts, ledger, ReasonId::ARITHMETIC) == Ok(Truth::True));
    holds && !sequence.says.trim().is_empty()
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    #[test]
    fn alarm_and_outage_are_never_blank() {
        assert!(fixtures::reported(&CODE, "", "", "").is_empty());
        // An indoor opening, and a sequence for outdoor ones alone.
        let reported =
            fixtures::reported_under(&CODE, "[sequence.outage]", "when = 'opening.exposure = \"exterior\"'\n");
        assert_eq!(reported.iter().map(|it| it.found.as_str()).collect::<Vec<_>>(), ["loss of power"]);
        let reported = fixtures::reported_under(&CODE, "[sequence.alarm]", "when = 'opening.alarm_release'\n");
        assert_eq!(reported.iter().map(|it| it.found.as_str()).collect::<Vec<_>>(), ["fire alarm"]);
    }
}
