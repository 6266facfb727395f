//! A ceiling above which air may return, and cable runs.
//!
//! In: an opening. Out: `return-air-unknown`. May not know: the site.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::CeilingKind;
use crate::review::access::wired;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A ceiling to look above.
pub static CODE: Code = Code {
    id: "return-air-unknown",
    severity: Severity::FieldVerify,
    says: "determine whether the space above the ceiling is a return-air plenum: {found}",
    why: "Cable in a return-air plenum must be plenum rated, which costs more; the condition is not visible from below.",
    example: "ceiling = { kind = \"lay-in\" }   # without return_air",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let ceiling = opening.opening.entry.ceiling.get();
    let unknown = ceiling.is_some_and(|it| it.return_air.is_absent() && it.kind.get() == Some(&CeilingKind::LayIn));
    let Some(asked) = opening
        .first_asked(ClauseOf::Plenum)
        .filter(|_| unknown && opening.is_powered() && opening.opening.entry.device.list().iter().any(wired))
    else {
        return;
    };
    let finding = CHECK
        .finding(opening.subject())
        .at(opening.place_or_own(opening.opening.entry.ceiling.place()))
        .found("not given")
        .asked("yes or no");
    findings.push(
        finding
            .clause(asked.cite())
            .advise("look for ducted return grilles, ask, and write ceiling = { return_air = true } or false"),
    );
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// NEC 300.22(C) (secondary).
    #[test]
    fn a_ceiling_that_no_one_looked_above_is_asked_about() {
        let plate = "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\" }]";
        under("nec-2023", &format!("{plate}\nceiling = {{ return_air = false }}")).passes(&CHECK);
        under("nec-2023", "").passes(&CHECK);
        under("nec-2023", plate).one(&CHECK);
    }
}
