//! A public entrance that asks for an automatic door and has none.
//!
//! In: an opening with use and occupant load. Out: `public-entrance-manual`. May not know: other entrances of the
//! building.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::{ClauseOf, Trigger};
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::EnergyClass;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A public entrance without an automatic door.
pub static CODE: Code = Code {
    id: "public-entrance-manual",
    severity: Severity::Warning,
    says: "public entrance, use group {found}, without automatic door; required above {asked} persons",
    why: "Above certain occupant loads the model code requires one full-power or low-energy automatic door at each accessible public entrance, and in a vestibule one at each side. Power assist does not qualify. Another door of the entrance may comply.",
    example: "access = { public_entrance = true, use_group = \"A-3\", occupant_load = 301 }\nleaf = { powered = false }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(access) = opening.opening.entry.access.get().filter(|it| it.public_entrance.or(false)) else { return };
    let (Some(group), Some(load)) = (access.use_group.get(), access.occupant_load.given()) else { return };
    let energy = &opening.opening.entry.energy;
    let automatic = opening.is_powered() && energy.get() != Some(&EnergyClass::Assist);
    if automatic || energy.is_bad() {
        return;
    }
    for asked in opening.asked(ClauseOf::AutomaticDoor) {
        let named = |it: &&Trigger| it.groups.iter().any(|it| it == group.as_str()) && load.value.get() > it.above;
        let Some(trigger) = asked.edition.triggers.iter().find(named) else { continue };
        let finding = CHECK
            .finding(opening.subject())
            .at(load.place.clone())
            .found(format!("{group}, load {}", load.value.get()))
            .asked(trigger.above.to_string())
            .margin(format!("{} above", load.value.get() - trigger.above))
            .clause(asked.cite());
        findings.push(
            finding.advise("offer an operator here as an alternate, or state which door of this entrance has one"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    fn entrance(group: &str, load: u32, energy: &str) -> Fixture {
        let access = format!("access = {{ public_entrance = true, use_group = \"{group}\", occupant_load = {load} }}");
        under(
            "ibc-2021",
            &format!("{access}\nenergy = \"{energy}\"\nleaf = {{ powered = {} }}", energy != "low energy"),
        )
    }

    /// IBC 2021 table 1105.1.1 (a state's copy, read): A-3 above 300, B above 500; A-5 and E are not in it. Negative: articles
    /// that say "300 or more".
    #[test]
    fn loads_above_the_table_ask_for_an_automatic_door() {
        for (group, load) in [("A-3", 300), ("B", 500), ("A-5", 900), ("E", 900)] {
            entrance(group, load, "low energy").passes(&CHECK);
        }
        for (group, load) in [("A-3", 301), ("B", 501)] {
            let (finding, at) = entrance(group, load, "low energy").one(&CHECK);
            assert_eq!((at, finding.clause.as_deref()), (load.to_string(), Some("IBC 2021 1105.1.1")));
        }
    }

    /// IBC 2021 1105.1.1 (read) names full-power and low-energy doors.
    #[test]
    fn power_assist_does_not_count() {
        entrance("A-3", 301, "power assist").one(&CHECK);
        under("ibc-2021", "access = { public_entrance = true, use_group = \"A-3\", occupant_load = 301 }")
            .passes(&CHECK);
    }
}
