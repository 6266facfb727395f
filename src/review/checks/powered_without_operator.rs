//! A powered leaf at an opening without an operator.
//!
//! In: an opening. Out: `powered-without-operator`. May not know: which operator was meant.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A powered leaf and no operator.
pub static CODE: Code = Code {
    id: "powered-without-operator",
    severity: Severity::Error,
    says: "{found} is powered, and the opening has no operator",
    why: "Header, drives, arms, cartons and limits come from the operator; without one nothing can be ordered or priced.",
    example: "[[opening]]\nmark = \"101A\"\nleaf = { powered = true }   # and no operator",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let operator = &opening.opening.entry.operator;
    let Some(first) = opening.powered().next() else { return };
    if operator.is_bad() || operator.get().is_some() {
        return;
    }
    let known: Vec<&str> = opening.catalog.operators.keys().map(String::as_str).collect();
    let finding = CHECK
        .finding(opening.subject())
        .at(operator.place().cloned().unwrap_or_else(|| first.place()))
        .found(format!("leaf {}", first.number))
        .asked(known.join(", "));
    findings.push(finding.advise("write operator = \"…\" at the opening or its kind, or powered = false at the leaf"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{sound, with};

    #[test]
    fn an_opening_with_an_operator_and_one_without_drives_pass() {
        sound().passes(&CHECK);
        with("operator = \"none\"\nleaf = { powered = false }").passes(&CHECK);
    }

    #[test]
    fn a_powered_leaf_without_an_operator_is_reported() {
        let (finding, at) = sound().but("operator = \"brace-1\"\n", "").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str(), finding.asked.as_str()), ("true", "leaf 1", "brace-1"));
        with("operator = \"none\"").one(&CHECK);
    }
}
