//! An item or a task of the catalog that no rule takes off.
//!
//! In: a catalog. Out: `rule-missing`, once for all of them. May not know: what they are for.

use std::collections::BTreeSet;

use super::CheckContext;
use crate::catalog::Target;
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject};

/// An entry of the price book that nothing takes off.
pub static CODE: Code = Code {
    id: "rule-missing",
    severity: Severity::Warning,
    says: "no rule takes off {found}; {asked}",
    why: "An item or a task is in a bid only where a rule takes it off. One without a rule was forgotten, or its rule was \
          deleted, and every bid is short by it.",
    example: "[item.strike]\nname = \"Strike\"   # and no rule",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    if seen.catalog.rules_refused {
        return;
    }
    let (mut items, mut tasks) = (BTreeSet::new(), BTreeSet::new());
    let stated = seen.catalog.without_rules.iter();
    for target in seen.catalog.rules.iter().map(|rule| &rule.target).chain(stated) {
        match target {
            Target::Item(id) => items.insert(id.as_str()),
            Target::Task(id) => tasks.insert(id.as_str()),
        };
    }
    let idle_items = seen.catalog.items.values().filter(|item| !items.contains(item.id.as_str()));
    let idle_tasks = seen.catalog.tasks.values().filter(|task| !tasks.contains(task.id.as_str()));
    let idle: Vec<(&str, &str, &Place)> = idle_items
        .map(|item| ("item", item.id.as_str(), &item.place))
        .chain(idle_tasks.map(|task| ("task", task.id.as_str(), &task.place)))
        .collect();
    let Some((kind, id, place)) = idle.first() else { return };
    let names: Vec<String> = idle.iter().map(|(kind, id, _)| format!("{kind} `{id}`")).collect();
    let finding = Finding::new(&CODE, Subject::Entry(kind, (*id).to_owned())).at((*place).clone());
    findings.push(
        finding
            .found(names.join(", "))
            .asked("it is in no bid")
            .price("nothing for it is in the bid")
            .advise("give it a rule, or delete it; rule = [] says that it is offered by unit price alone"),
    );
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    const ITEM: &str = "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\n\
        priced = 2026-11-02\nsupplier = \"fenwick\"\n";

    #[test]
    fn every_item_has_a_rule() {
        assert!(fixtures::reported(&CODE, "", "", "").is_empty());
        let with_rule = format!("{ITEM}rule = [{{ per = \"powered leaf\" }}]");
        assert!(fixtures::reported(&CODE, "", "", &with_rule).is_empty());
        let found = fixtures::reported(&CODE, "", "", ITEM);
        assert_eq!(found.iter().map(|it| it.found.as_str()).collect::<Vec<_>>(), ["item `strike`"]);
        // A unit price alone is no bid: that it is meant so, the item says.
        let part = "[[unit_price]]\nnumber = \"U1\"\ntitle = \"Strike\"\nunit = \"each\"\npart = [{ item = \"strike\", quantity = \"1 each\" }]";
        assert_eq!(fixtures::reported(&CODE, part, "", ITEM).len(), 1);
        let stated = format!("{ITEM}rule = []");
        assert!(fixtures::reported(&CODE, part, "", &stated).is_empty());
    }
}
