//! A door that is to work through an outage, and has nothing to do it with.
//!
//! In: an opening. Out: `standby-power-missing`. May not know: what a battery costs.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// Standby power asked for and denied.
pub static CODE: Code = Code {
    id: "standby-power-missing",
    severity: Severity::Warning,
    says: "the opening is given without standby power, and {asked}",
    why: "Where a jurisdiction requires standby power, the catalog's rules include it in the takeoff; a job that states there is none contradicts that, and the owner should know.",
    example: "jurisdictions = [\"keep-moving\"]\naccess = { standby_power = false }",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(access) = opening.opening.entry.access.get().filter(|_| opening.is_powered()) else { return };
    let Some(none) = access.standby_power.given().filter(|it| !it.value) else { return };
    let jurisdictions = opening.job.head.jurisdictions.iter().filter_map(|id| opening.catalog.jurisdictions.get(id));
    let by_jurisdiction = jurisdictions
        .filter(|it| it.standby_power)
        .map(|it| (format!("{} requires it", it.name), it.clause.clone()))
        .next();
    let entrance = access.public_entrance.or(false);
    let by_edition = opening.first_asked(ClauseOf::StandbyPower).filter(|_| entrance);
    let by_edition = by_edition.map(|it| (format!("{} requires it at a public entrance", it.edition.name), it.cite()));
    let Some((why, clause)) = by_jurisdiction.or(by_edition) else { return };
    let finding = CHECK.finding(opening.subject()).at(none.place.clone()).asked(why).clause(clause);
    findings.push(finding.type_at(none.place.clone(), "true"));
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, remedy, under};

    fn denied(rules: &str, public: bool, standby: bool) -> Fixture {
        under(rules, &format!("access = {{ public_entrance = {public}, standby_power = {standby} }}"))
    }

    /// CBC 2022 11B-404.2.9, exception (from memory; hence a warning).
    #[test]
    fn an_entrance_that_denies_it_is_reported() {
        denied("cbc-2022", true, true).passes(&CHECK);
        denied("cbc-2022", false, false).passes(&CHECK);
        denied("ada-2010", true, false).passes(&CHECK);
        let (finding, at) = denied("cbc-2022", true, false).one(&CHECK);
        assert_eq!((at.as_str(), remedy(&finding)), ("false", "true"));
    }

    /// An invented jurisdiction of the test.
    #[test]
    fn a_jurisdiction_asks_too() {
        let county = "[jurisdiction.county]\nname = \"County\"\nstandby_power = true\nclause = \"section 9\"";
        let bench = denied("ada-2010", false, false)
            .catalog_and(county)
            .but("rules =", "jurisdictions = [\"county\"]\nrules =");
        assert_eq!(bench.one(&CHECK).0.clause.as_deref(), Some("section 9"));
    }
}
