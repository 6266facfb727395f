//! A leaf that does not open to a full 90 degrees.
//!
//! In: a leaf. Out: `opens-short`. May not know: what stands behind it.

use super::{Check, CheckScope, LeafContext};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::measure::{Angle, Style};
use crate::review::printing::less;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Leaf(look) };

/// A leaf that opens less than 90 degrees.
pub static CODE: Code = Code {
    id: "opens-short",
    severity: Severity::Warning,
    says: "the leaf opens to {found} only",
    why: "Clear width is measured at 90 degrees. A leaf that stops short gives less and obstructs the doorway.",
    example: "leaf = { opens_to = \"85 deg\" }",
    blocks: Papers::NONE,
};

/// Common practice, no source: the open position checked is a full 90 degrees.
fn look(leaf: &LeafContext, findings: &mut Findings) {
    let Some(angle) = leaf.entry.opens_to.given().filter(|given| leaf.powered() && given.value < Angle::degrees(90))
    else {
        return;
    };
    let finding = CHECK
        .finding(leaf.of.subject())
        .at(angle.place.clone())
        .found(leaf.words(angle.value.print(1, Style::Plain)))
        .asked("90 deg")
        .margin(format!("{} short", less(Angle::degrees(90), angle.value).print(1, Style::Plain)));
    findings.push(finding.type_at(angle.place.clone(), "90 deg"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    #[test]
    fn ninety_degrees_pass_and_less_is_reported() {
        sound().passes(&CHECK);
        with("leaf = { opens_to = \"85 deg\", powered = false }").passes(&CHECK);
        let (finding, at) = with("leaf = { opens_to = \"85 deg\" }").one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("\"85 deg\"", "90 deg"));
    }
}
