//! An operator on a circuit of other volts.
//!
//! In: an opening. Out: `volts-mismatch`. May not know: transformers.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::engineering::same_nominal;
use crate::findings::{Code, Findings, Severity};
use crate::measure::{Style, Unit, Volts};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A circuit of other volts than its operator.
pub static CODE: Code = Code {
    id: "volts-mismatch",
    severity: Severity::Error,
    says: "circuit {found}; operator rated {asked}",
    why: "An operator on the wrong voltage burns out or does not start; breaker, panel and conductors are wrong too.",
    example: "power = { volts = \"208 V\" }\noperator = \"brace-1\"   # 120 V",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let volts = opening.opening.entry.power.get().and_then(|power| power.volts.given());
    let (Some(volts), Some(operator)) = (volts.filter(|_| opening.is_powered()), opening.operator) else { return };
    if same_nominal(volts.value, operator.volts) {
        return;
    }
    let print = |volts: Volts| volts.print(Unit::Volt, 0, Style::Plain).unwrap_or_default();
    let finding = CHECK
        .finding(opening.subject())
        .at(volts.place.clone())
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(print(volts.value))
        .asked(print(operator.volts));
    findings.push(finding.type_at(volts.place.clone(), print(operator.volts)));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, with};

    /// Common practice, no source: 110 to 130 V at the terminals of a 120 V operator is normal.
    #[test]
    fn names_of_one_voltage_pass_and_others_are_reported() {
        for volts in ["120 V", "115 V", "110 V"] {
            with(&format!("power = {{ volts = \"{volts}\" }}")).passes(&CHECK);
        }
        let (finding, at) = with("power = { volts = \"208 V\" }").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"208 V\"", "120 V"));
    }
}
