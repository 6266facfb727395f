//! A paragraph of the specification that is not met and of which nothing is stated, that cannot be told, or of which a deviation
//! is stated although it is met.
//!
//! In: a takeoff. Out: `deviation-unstated`, `paragraph-open`, `deviation-idle`. May not know: how a deviation is printed.

use super::CheckContext;
use crate::findings::{Code, Finding, Findings, Paper, Papers, Severity, Subject};
use crate::job::{Answer, Paragraph};
use crate::takeoff::compliance::{Compliance, Met, compliance};

/// A departure that nobody declared.
pub static UNSTATED: Code = Code {
    id: "deviation-unstated",
    severity: Severity::Error,
    says: "specification requirement not met{found}, and no deviation is stated: {asked}",
    why: "An undeclared deviation remains the contractor's risk, even where the submittal is approved: the \
          instructions of a public transmittal form require every variation and its reason (USACE ENG Form \
          4025-R, note 6, read).",
    example: "[[paragraph]]\nnumber = \"2.2.A\"\nasks = \"Headers no higher than 6 in.\"\nper = \"header\"\nholds = 'operator.height <= 6 in'   # one is higher",
    blocks: Papers::of(&[Paper::Submittal]),
};

/// A paragraph of which facts are missing.
pub static OPEN: Code = Code {
    id: "paragraph-open",
    severity: Severity::Warning,
    says: "compliance with the specification is not known at {found}: {asked}",
    why: "The compliance list prints \"to be confirmed\", and a reviewer returns such a line.",
    example: "holds = 'leaf.weight <= 250 lb'   # and the weight of a leaf is not known",
    blocks: Papers::NONE,
};

/// A deviation stated where there is none.
pub static IDLE: Code = Code {
    id: "deviation-idle",
    severity: Severity::Warning,
    says: "a deviation is stated, and the paragraph is met: {asked}",
    why: "The deviation no longer applies, or the condition does not match the paragraph.",
    example: "answer = \"complies\"\noffers = \"A header 7 1/2 in high.\"",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    // Of no opening every condition holds; that there is none was found where they are read.
    if seen.takeoff.arrangement.openings.is_empty() {
        return;
    }
    for one in compliance(seen.takeoff, seen.job) {
        tell(seen, &one, findings);
    }
}

fn tell(seen: &CheckContext, one: &Compliance, findings: &mut Findings) {
    let paragraph = one.paragraph;
    match &one.met {
        Met::No(at) if paragraph.statement.is_none() => {
            let names = seen.takeoff.names_of(at);
            let at = if names.is_empty() { String::new() } else { format!(" at {}", names.join(", ")) };
            let finding = about(&UNSTATED, paragraph).found(at);
            findings.push(finding.advise("add offers = \"…\", what is offered, and because = \"…\", why; and cost, time and trades where it touches them"));
        }
        Met::Open(at) => {
            let finding = about(&OPEN, paragraph).found(seen.takeoff.names_of(at).join(", "));
            findings.push(finding.advise("give the facts that the condition needs, or answer by hand"));
        }
        Met::Yes | Met::NotApplicable(_) if paragraph.statement.is_some() => {
            findings.push(about(&IDLE, paragraph).advise("delete offers and because, or make the condition stricter"));
        }
        Met::Unreadable(faults) => {
            let Answer::Tried { holds, .. } = &paragraph.answer else { return };
            let place = |bytes| holds.value.place(bytes).unwrap_or_else(|| holds.place.clone());
            let found = faults.iter().map(|fault| fault.finding(subject(paragraph), &place).blocking(UNSTATED.blocks));
            found.for_each(|finding| findings.push(finding));
        }
        Met::No(_) | Met::Yes | Met::NotApplicable(_) => {}
    }
}

fn subject(paragraph: &Paragraph) -> Subject {
    Subject::Entry("paragraph", paragraph.name())
}

fn about(code: &'static Code, paragraph: &Paragraph) -> Finding {
    Finding::new(code, subject(paragraph)).at(paragraph.place.clone()).asked(paragraph.asks.trim_end_matches('.'))
}

#[cfg(test)]
mod tests {
    use super::{IDLE, OPEN, UNSTATED};
    use crate::findings::Code;
    use crate::takeoff::checks::fixtures;

    /// What a code finds of the sound job with a paragraph that asks this.
    fn reported(code: &Code, answer: &str) -> Vec<String> {
        let paragraph = format!("[[paragraph]]\nnumber = \"2.1\"\nasks = \"As asked.\"\n{answer}");
        fixtures::reported(code, &paragraph, "", "").into_iter().map(|it| it.found).collect()
    }

    const LOW: &str = "per = \"header\"\nholds = \"operator.height <= 1 in\"\n";
    const HIGH: &str = "per = \"header\"\nholds = \"operator.height <= 90 in\"\n";
    const SAID: &str = "offers = \"another\"\nbecause = \"it is better\"\n";

    #[test]
    fn a_departure_that_is_found_needs_a_statement() {
        assert_eq!(reported(&UNSTATED, LOW), [" at 101"]);
        assert!(reported(&UNSTATED, HIGH).is_empty());
        assert!(reported(&UNSTATED, &format!("{LOW}{SAID}")).is_empty());
        // Half a statement is none.
        assert_eq!(reported(&UNSTATED, &format!("{LOW}offers = \"another\"\n")), [" at 101"]);
    }

    #[test]
    fn a_departure_by_hand_needs_a_statement() {
        assert_eq!(reported(&UNSTATED, "answer = \"deviates\"\n"), [""]);
        assert!(reported(&UNSTATED, &format!("answer = \"deviates\"\n{SAID}")).is_empty());
        assert!(reported(&UNSTATED, "answer = \"complies\"\n").is_empty());
    }

    #[test]
    fn a_statement_of_what_is_met_is_idle() {
        assert_eq!(reported(&IDLE, &format!("{HIGH}{SAID}")).len(), 1);
        assert_eq!(reported(&IDLE, &format!("answer = \"complies\"\n{SAID}")).len(), 1);
        assert!(reported(&IDLE, &format!("{LOW}{SAID}")).is_empty());
    }

    #[test]
    fn what_hangs_on_an_unknown_fact_is_open() {
        let asks = "per = \"leaf\"\nholds = \"leaf.stile >= 2 in\"\n";
        assert_eq!(reported(&OPEN, asks), ["101"]);
        assert!(reported(&OPEN, HIGH).is_empty());
    }
}
