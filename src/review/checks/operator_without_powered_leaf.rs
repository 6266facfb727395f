//! An operator at an opening where no powered leaf.
//!
//! In: an opening. Out: `operator-without-powered-leaf`. May not know: which leaf was meant.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An operator for no leaf.
pub static CODE: Code = Code {
    id: "operator-without-powered-leaf",
    severity: Severity::Error,
    says: "the opening has operator {found} and no powered leaf",
    why: "Header, drives and arms are counted by powered leaf; this opening would have none of them in its price, \
          although it has an operator. The only leaf of an opening is powered unless it is said otherwise.",
    example: "operator = \"brace-1\"\nleaf = { powered = false }",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(operator) = opening.opening.entry.operator.given() else { return };
    let leaves = &opening.opening.leaves;
    // An opening without any leaf has none that is powered; only one that cannot be read is left alone.
    let unknown =
        opening.opening.entry.leaf.is_bad() || !leaves.is_empty() && leaves.iter().all(|leaf| leaf.powered.is_bad());
    if unknown || opening.is_powered() {
        return;
    }
    let finding = CHECK
        .finding(opening.subject())
        .at(operator.place.clone())
        .found(operator.value.as_str())
        .asked("a powered leaf for each operator");
    findings.push(match opening.leaves().find_map(|leaf| leaf.entry.powered.place().cloned()) {
        Some(place) => finding.near(place.clone(), "leaf").type_at(place, "true"),
        None => finding.advise("write powered = true at the powered leaf, or operator = \"none\""),
    });
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    #[test]
    fn a_powered_leaf_passes() {
        sound().passes(&CHECK);
        with("operator = \"none\"\nleaf = { powered = false }").passes(&CHECK);
    }

    #[test]
    fn an_operator_for_no_leaf_is_reported() {
        let (finding, at) = with("leaf = { powered = false }").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"brace-1\"", "true"));
        let pair = sound().but("powered = true\n", "").and("leaf = [{ hinges = \"left\" }, { hinges = \"right\" }]");
        let (finding, _) = pair.one(&CHECK);
        assert!(remedy(&finding).starts_with("write powered = true"));
    }

    #[test]
    fn an_opening_without_a_leaf_has_none_that_is_powered() {
        let mut bench = sound();
        let place = |words: &str| bench.job.find(words).expect(words);
        let (from, to) = (place("[kind.plain.leaf]"), place("[kind.plain.frame]"));
        bench.job.replace_range(from..to, "");
        bench.one(&CHECK);
    }
}
