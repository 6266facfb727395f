//! A junction box at the end of a run that no rule takes off.
//!
//! In: a takeoff. Out: `junction-box-missing`, one a site. May not know: what such a box costs.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::CheckContext;
use crate::catalog::{Entity, Group};
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject};
use crate::job::RunEnd;
use crate::takeoff::EntityRef;

/// A box that is named and not bought.
pub static CODE: Code = Code {
    id: "junction-box-missing",
    severity: Severity::Warning,
    says: "junction boxes at the ends of runs are not taken off: {found}; {asked}",
    why: "A box that several runs share is furnished and installed like any other. Runs count it as run.junction_boxes, \
          once, and a rule of the catalog buys it.",
    example: "[[run]]\nfrom = \"LP-1\"\nto = \"J-1\"   # and no rule asks run.junction_boxes",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    if !seen.catalog.rules.iter().any(|rule| rule.per == Entity::Run) {
        return;
    }
    let mut missing: BTreeMap<&str, (Vec<&str>, Place)> = BTreeMap::new();
    for (at, work) in seen.takeoff.arrangement.runs.iter().enumerate().filter(|(_, it)| !it.junction_boxes.is_empty()) {
        let boxes = seen.items_of(EntityRef::Run(at)).into_iter();
        let boxes = boxes.filter(|(item, ..)| matches!(item.group, Group::Box | Group::PullBox));
        let bought: Decimal = boxes.map(|(_, _, quantity)| quantity.value()).sum();
        if bought < Decimal::from(work.pull_boxes) + Decimal::from(work.junction_boxes.len()) {
            let (names, _) =
                missing.entry(work.run.site.as_str()).or_insert_with(|| (Vec::new(), work.run.place.clone()));
            names.extend(work.junction_boxes.iter().filter_map(|end| match end {
                RunEnd::Box(name) => Some(name.as_str()),
                _ => None,
            }));
        }
    }
    for (site, (names, place)) in missing {
        let finding = Finding::new(&CODE, Subject::Site(site.to_owned())).at(place).found(names.join(", "));
        findings.push(
            finding
                .asked("assumed: they are there already")
                .price("nothing for it is in the bid")
                .advise("add a rule per run with quantity = \"run.junction_boxes\" to the catalog, and its labor"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    const RUNS: &str = "[[run]]\nfrom = \"LP-1\"\nto = \"J-1\"\nkind = \"EMT\"\nlength = \"20 ft\"\nbends = []\nclass = \"line\"\n\
        [[run]]\nfrom = \"J-1\"\nto = \"101\"\nkind = \"EMT\"\nlength = \"10 ft\"\nbends = []\nclass = \"line\"\n";

    fn item(id: &str, group: &str, quantity: &str) -> String {
        format!(
            "[item.{id}]\nname = \"{id}\"\ngroup = \"{group}\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nrule = [{{ per = \"run\", quantity = \"{quantity}\" }}]\n"
        )
    }

    #[test]
    fn a_box_that_runs_share_is_bought_once() {
        let emt = item("strap", "support", "run.supports");
        assert!(fixtures::reported(&CODE, "", "", &emt).is_empty());
        assert!(fixtures::reported(&CODE, RUNS, "", "").is_empty(), "wiring is priced in another way");
        let found = fixtures::reported(&CODE, RUNS, "", &emt);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].found, "J-1");
        let bought = format!("{emt}{}", item("junction", "box", "run.junction_boxes"));
        assert!(fixtures::reported(&CODE, RUNS, "", &bought).is_empty());
    }
}
