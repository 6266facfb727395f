//! An opening that asks of its operator what it cannot do.
//!
//! In: an opening. Out: `operator-misfit`. May not know: sizes and weights, which are limits and not abilities.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::catalog::{Arm, Operator};
use crate::findings::{Code, Finding, Findings, Place, Severity};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// An operator that cannot do what the opening asks.
pub static CODE: Code = Code {
    id: "operator-misfit",
    severity: Severity::Error,
    says: "the opening requires {found}; the operator is made for {asked}",
    why: "An operator is made for certain energy classes, mountings and arms; a wrong one is a reorder.",
    example: "operator = \"brace-1\"   # made for low energy\nenergy = \"full energy\"",
    blocks: OPENING_PAPERS,
};

/// What an opening asks that its operator cannot do.
struct Misfit {
    place: Place,
    found: String,
    asked: String,
}

fn look(opening: &OpeningContext, findings: &mut Findings) {
    let Some(operator) = opening.operator.filter(|_| opening.is_powered()) else { return };
    for misfit in misfits(opening, operator) {
        findings.push(finding(opening, operator, misfit));
    }
}

fn misfits(opening: &OpeningContext, operator: &Operator) -> Vec<Misfit> {
    let entry = &opening.opening.entry;
    let mut misfits = Vec::new();
    if let Some(energy) = entry.energy.given().filter(|given| !operator.energy.contains(&given.value)) {
        let asked = row(operator.energy.iter());
        misfits.push(Misfit { place: energy.place.clone(), found: energy.value.to_string(), asked });
    }
    if let Some(mount) = entry.mount.given().filter(|given| !operator.mounts.contains(&given.value)) {
        let asked = row(operator.mounts.iter());
        let found = format!("{} mounting", mount.value);
        misfits.push(Misfit { place: mount.place.clone(), found, asked });
    }
    for leaf in opening.powered() {
        let Some(arm) = leaf.entry.arm.given().filter(|given| !has_arm(operator, given.value)) else { continue };
        let asked = row([Arm::Push, Arm::Pull].iter().filter(|arm| has_arm(operator, **arm)));
        misfits.push(Misfit { place: arm.place.clone(), found: leaf.words(format!("a {}", arm.value)), asked });
    }
    if opening.shares_a_header() && !operator.two_drives {
        let place = opening.place_or_own(entry.headers.place().or(entry.operator.place()));
        misfits.push(Misfit { place, found: "two drives in one header".to_owned(), asked: "one".to_owned() });
    }
    misfits
}

fn has_arm(operator: &Operator, arm: Arm) -> bool {
    match arm {
        Arm::Push => operator.pushes,
        Arm::Pull => operator.pulls,
    }
}

/// Words in a row; `none of these` where there is none.
fn row<W: std::fmt::Display>(words: impl Iterator<Item = W>) -> String {
    let words: Vec<String> = words.map(|word| word.to_string()).collect();
    if words.is_empty() { "none of these".to_owned() } else { words.join(" or ") }
}

fn finding(opening: &OpeningContext, operator: &Operator, misfit: Misfit) -> Finding {
    let finding = CHECK
        .finding(opening.subject())
        .at(misfit.place)
        .near(operator.place.clone(), format!("operator {}", operator.id))
        .found(misfit.found)
        .asked(misfit.asked);
    let named = opening.opening.entry.operator.place();
    let other = opening.catalog.operators.values().find(|other| misfits(opening, other).is_empty());
    match (other, named) {
        (Some(other), Some(named)) => finding.type_at(named.clone(), &other.id),
        _ => finding
            .advise("no operator in the catalog meets all requirements: change the requirements, or add an operator"),
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{remedy, sound, with};

    const PAIR: &str = r#"leaf = [{ hinges = "left" }, { hinges = "right" }]"#;

    #[test]
    fn an_operator_that_does_what_is_asked_passes() {
        sound().passes(&CHECK);
        with(PAIR).passes(&CHECK);
        with("energy = \"full energy\"\nleaf = { powered = false }").passes(&CHECK);
        with(PAIR)
            .and("headers = \"header per leaf\"")
            .catalog_but("two_drives = true", "two_drives = false")
            .passes(&CHECK);
    }

    #[test]
    fn energy_and_mount_are_reported_where_they_stand() {
        let (finding, at) = with("energy = \"full energy\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"full energy\"", "low energy"));
        let (finding, at) = with("mount = \"concealed\"").one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"concealed\"", "concealed mounting"));
    }

    #[test]
    fn arms_and_two_drives_are_reported() {
        let (finding, at) = sound().catalog_but("pushes = true", "pushes = false").one(&CHECK);
        assert_eq!((at.as_str(), finding.asked.as_str()), ("\"push arm\"", "pull arm"));
        let bench = with(PAIR).catalog_but("two_drives = true", "two_drives = false");
        let (finding, at) = bench.one(&CHECK);
        assert_eq!((at.as_str(), finding.found.as_str()), ("\"brace-1\"", "two drives in one header"));
    }

    #[test]
    fn another_operator_that_does_it_is_the_remedy() {
        let bench = with("energy = \"full energy\"");
        let (finding, _) = bench.one(&CHECK);
        assert!(remedy(&finding).starts_with("no operator in the catalog"));
        let operator: String = bench.catalog_text("[operator.brace-1]", "[item.").replace("brace-1", "brace-9");
        let bench = bench.catalog_and(&operator.replace("[\"low energy\"]", "[\"full energy\"]"));
        assert_eq!(remedy(&bench.one(&CHECK).0), "brace-9");
    }
}
