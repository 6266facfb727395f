//! A low-voltage supply that feeds nothing of which the catalog says what it draws.
//!
//! In: a takeoff. Out: `supply-idle`, one a site. May not know: supplies of others.

use std::collections::BTreeMap;

use super::CheckContext;
use super::low_voltage::supplies;
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject};

/// A supply without a load.
pub static CODE: Code = Code {
    id: "supply-idle",
    severity: Severity::Warning,
    says: "{asked} is taken off, and nothing taken off there draws from it: {found}",
    why: "A power supply is there for a latch release or a device. Where none of them is taken off, or the catalog does \
          not say what it draws, the supply is not sized, and what it feeds may be missing from the price.",
    example: "[item.supply]\ngives = { volts = \"24 V\", amps = \"2 A\", outputs = 3 }   # and no item with electric = { amps = \"…\" }",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    let mut idle: BTreeMap<(String, String), (Vec<String>, Place, Place)> = BTreeMap::new();
    for (at, work) in seen.powered() {
        let feeding = supplies(seen, at, work);
        for (item, ..) in seen.items_at(at).into_iter().filter(|(item, ..)| item.gives.is_some()) {
            if feeding.iter().any(|supply| *supply.place == item.place) {
                continue;
            }
            let key = (work.site.id.clone(), item.name.clone());
            let places = || (Vec::new(), work.opening.place.clone(), item.place.clone());
            let (marks, ..) = idle.entry(key).or_insert_with(places);
            if marks.last() != Some(&work.opening.mark) {
                marks.push(work.opening.mark.clone());
            }
        }
    }
    for ((site, name), (marks, place, of_item)) in idle {
        let finding = Finding::new(&CODE, Subject::Site(site)).at(place).near(of_item, name.clone());
        findings.push(
            finding
                .found(marks.join(", "))
                .asked(name)
                .advise("give electric = { amps = \"…\" } of what it feeds, or a condition to the rule of the supply"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    const SUPPLY: &str = "[item.supply]\nname = \"Supply\"\ngroup = \"power supply\"\nunit = \"each\"\nprice = \"1.00\"\n\
        priced = 2026-11-02\nsupplier = \"fenwick\"\ngives = { volts = \"24 V\", amps = \"2 A\", outputs = 3 }\n\
        rule = [{ per = \"opening\" }]\n";

    fn strike(electric: &str) -> String {
        format!(
            "{SUPPLY}[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\n\
             priced = 2026-11-02\nsupplier = \"fenwick\"\n{electric}rule = [{{ per = \"powered leaf\" }}]"
        )
    }

    #[test]
    fn a_supply_has_a_load() {
        assert!(fixtures::reported(&CODE, "", "", "").is_empty());
        let draws = strike("electric = { volts = \"24 V\", amps = \"0.25 A\" }\n");
        assert!(fixtures::reported(&CODE, "", "", &draws).is_empty());
        for silent in [SUPPLY.to_owned(), strike("")] {
            let found = fixtures::reported(&CODE, "", "", &silent);
            assert_eq!(found.len(), 1);
            assert_eq!((found[0].asked.as_str(), found[0].found.as_str()), ("Supply", "101"));
        }
    }
}
