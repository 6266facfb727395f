//! Rails and finger guards of a full-energy leaf.
//!
//! In: an opening. Out: `rails-unverified`. May not know: the site.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::EnergyClass;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Guards to look at on the site.
pub static CODE: Code = Code {
    id: "rails-unverified",
    severity: Severity::FieldVerify,
    says: "check the guarding of the swing of this full-energy leaf: {asked}",
    why: "A full-energy leaf swings fast. Guide rails on its swing side and finger guards at its hinge edge keep people out of its path; a wall may serve. The values are from memory: the standard itself governs.",
    example: "energy = \"full energy\"",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(asked) = opening
        .first_asked(ClauseOf::Rails)
        .filter(|_| opening.is_powered() && opening.opening.entry.energy.get() == Some(&EnergyClass::Full))
    else {
        return;
    };
    let finding = CHECK
        .finding(opening.subject())
        .at(opening.place_or_own(opening.opening.entry.energy.place()))
        .found("full energy")
        .asked(asked.clause.least.map_or_else(String::new, |least| {
            format!(
                "guide rails {} high or a wall at each side of the swing; no finger gap at the hinges",
                opening.inches(least)
            )
        }));
    findings.push(finding.clause(asked.cite()).advise("lay out the rails on the floor before ordering"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::under;

    /// ANSI/BHMA A156.10 (from memory, so a note for the site and nothing that passes or fails).
    #[test]
    fn full_energy_leaves_are_guarded() {
        under("full-energy", "").passes(&CHECK);
        under("full-energy", "energy = \"full energy\"")
            .catalog_but("energy = [\"low energy\"]", "energy = [\"full energy\"]")
            .one(&CHECK);
    }
}
