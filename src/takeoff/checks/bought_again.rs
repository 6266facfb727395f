//! Hardware that is there and stays, and is taken off all the same.
//!
//! In: a takeoff. Out: `bought-again`. May not know: any one item.

use super::CheckContext;
use crate::catalog::{Group, Item};
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject};
use crate::job::{ExistingEntry, ExistingKind};
use crate::takeoff::{EntityRef, LeafWork, OpeningWork};

/// Something is bought that is there.
pub static CODE: Code = Code {
    id: "bought-again",
    severity: Severity::Warning,
    says: "{found} is there and stays; the catalog takes off {asked}",
    why: "What is used again is not bought. A rule that asks only for the release of a leaf buys a second one; it is to ask too whether one stays.",
    example: "leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\" }] }   # and a rule without not(leaf.release_stays)",
    blocks: Papers::NONE,
};

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    for (at, work) in seen.powered() {
        for (leaf, of) in work.leaves.iter().enumerate() {
            again(seen, (at, work), (leaf, of)).into_iter().for_each(|it| findings.push(it));
        }
    }
}

/// The hardware of a leaf that stays, of a group.
fn staying(leaf: &LeafWork, wanted: impl Fn(&ExistingEntry) -> bool) -> Option<(ExistingKind, Place)> {
    let found = leaf.entry.existing.list().iter().find(|it| wanted(it))?.what.given()?;
    Some((found.value, found.place.clone()))
}

fn again(seen: &CheckContext, (at, work): (usize, &OpeningWork), (leaf, of): (usize, &LeafWork)) -> Vec<Finding> {
    let items: Vec<&Item> = seen.items_of(EntityRef::Leaf(at, leaf)).into_iter().map(|(item, ..)| item).collect();
    let bought = |group: Group| items.iter().find(|item| item.group == group);
    let is_transfer = |it: &ExistingEntry| {
        it.what.get() == Some(&ExistingKind::Transfer) && it.becomes.get().is_some_and(|becomes| becomes.stays())
    };
    let pairs = [
        (staying(of, ExistingEntry::is_release_that_stays), bought(Group::LatchRelease)),
        (staying(of, is_transfer), bought(Group::PowerTransfer)),
    ];
    let finding = |((what, place), item): ((ExistingKind, Place), &&Item)| {
        let which = if work.leaves.len() > 1 { format!(" of leaf {}", of.number) } else { String::new() };
        let finding = Finding::new(&CODE, Subject::Opening(work.opening.mark.clone()))
            .near(place, "there")
            .near(item.place.clone(), item.name.clone())
            .found(format!("{what}{which}"))
            .asked(format!("{}, which is priced too", item.name));
        finding.advise("add and not(leaf.release_stays) to the rule, or for a transfer and not(list contains(leaf.reuses, \"power transfer\")); or write becomes = \"remove\"")
    };
    pairs.into_iter().filter_map(|(kept, item)| Some(finding((kept?, item?)))).collect()
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    #[test]
    fn what_stays_is_not_bought() {
        let strike = |when: &str| {
            format!(
                "[item.strike]\nname = \"Strike\"\ngroup = \"latch release\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
                 supplier = \"fenwick\"\nrule = [{{ per = \"powered leaf\", when = '{when}' }}]\n"
            )
        };
        let there = "leaf = { existing = [{ what = \"electric strike\", becomes = \"reuse\", proven = true }] }";
        let (plain, asks) = ("leaf.powered", "not(leaf.release_stays)");
        assert!(fixtures::reported(&CODE, "", "", &strike(plain)).is_empty());
        assert!(fixtures::reported(&CODE, there, "", &strike(asks)).is_empty());
        assert!(fixtures::reported(&CODE, &there.replace("reuse", "remove"), "", &strike(plain)).is_empty());
        let found = fixtures::reported(&CODE, there, "", &strike(plain));
        let [one] = found.as_slice() else { panic!("{found:#?}") };
        assert_eq!((one.found.as_str(), one.asked.as_str()), ("electric strike", "Strike, which is priced too"));
    }
}
