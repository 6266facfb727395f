//! Something that stands there, for which the catalog takes off nothing of a group that it takes off for its like elsewhere.
//!
//! In: a takeoff. Out: `uncovered`, one a site and group. May not know: any one item.
//!
//! A rule that was deleted, or a condition that names too little, leaves a header without a drive or a run without raceway. What
//! the catalog takes off nowhere, it prices in another way, and nothing is missed.

use std::collections::BTreeMap;

use super::CheckContext;
use crate::catalog::{Entity, Group, Link, Release, Rule, Target};
use crate::findings::{Code, Finding, Findings, Papers, Place, Severity, Subject, some_listed};
use crate::job::{ExistingEntry, RunKind};
use crate::ledger::{Ledger, ReasonId};
use crate::rules::Truth;
use crate::takeoff::EntityRef;

/// Something for which nothing is taken off.
pub static CODE: Code = Code {
    id: "uncovered",
    severity: Severity::Warning,
    says: "nothing of the group {asked} is taken off for {found}",
    why: "The rules of the catalog take off things of this group for others of the same kind. A rule is missing, or its \
          condition is too narrow, and the bid is short by them.",
    example: "[[operator.low.rule]]   # takes off the header, and the rule of its drive was deleted",
    blocks: Papers::NONE,
};

/// What stands there, and the groups of which one is taken off for it.
struct Covered {
    per: Entity,
    groups: &'static [Group],
    asked: fn(&CheckContext, EntityRef) -> bool,
}

/// What anything that stands there takes at least (common practice, no source).
const COVERED: [Covered; 16] = [
    Covered { per: Entity::Header, groups: &[Group::Header], asked: always },
    Covered { per: Entity::Header, groups: &[Group::Disconnect], asked: always },
    Covered { per: Entity::Drive, groups: &[Group::Drive], asked: always },
    Covered { per: Entity::Drive, groups: &[Group::Arm], asked: always },
    Covered { per: Entity::Drive, groups: &[Group::Bracket], asked: has_end },
    Covered { per: Entity::Fixing, groups: &[Group::Fastener], asked: is_short },
    Covered { per: Entity::Device, groups: &[Group::Activation, Group::Sensor], asked: is_ours },
    Covered { per: Entity::Device, groups: &[Group::Transmitter], asked: is_wireless },
    Covered { per: Entity::Box, groups: &[Group::Box], asked: always },
    Covered { per: Entity::PoweredLeaf, groups: &[Group::LatchRelease], asked: is_released },
    Covered { per: Entity::PoweredLeaf, groups: &[Group::Sign], asked: always },
    Covered { per: Entity::Circuit, groups: &[Group::Breaker], asked: is_new },
    Covered { per: Entity::Run, groups: &[Group::Raceway], asked: is_raceway },
    Covered { per: Entity::Run, groups: &[Group::Support], asked: always },
    Covered { per: Entity::Run, groups: &[Group::Conductor], asked: has_circuits },
    Covered { per: Entity::Run, groups: &[Group::Cable], asked: has_cables },
];

fn always(_: &CheckContext, _: EntityRef) -> bool {
    true
}

fn has_end(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Drive(at, drive) = of else { return false };
    seen.takeoff.arrangement.openings[at].drives[drive].end.is_some()
}

fn is_short(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Fixing(at, fixing) = of else { return false };
    let work = &seen.takeoff.arrangement.openings[at];
    work.fixings[fixing].short(work).is_some_and(|short| short > 0)
}

fn is_ours(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Device(at, device) = of else { return false };
    seen.takeoff.arrangement.openings[at].devices[device].entry.by.is_absent()
}

fn is_wireless(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Device(at, device) = of else { return false };
    let link = &seen.takeoff.arrangement.openings[at].devices[device].entry.link;
    is_ours(seen, of) && link.get() == Some(&Link::Wireless)
}

fn is_released(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Leaf(at, leaf) = of else { return false };
    let leaf = &seen.takeoff.arrangement.openings[at].leaves[leaf];
    let release =
        leaf.release().filter(|_| !leaf.entry.existing.list().iter().any(ExistingEntry::is_release_that_stays));
    matches!(release, Some(Release::Strike | Release::Retraction | Release::ElectrifiedLock))
}

fn is_new(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Circuit(circuit) = of else { return false };
    seen.takeoff.arrangement.circuits[circuit].existing.is_none()
}

fn is_raceway(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Run(run) = of else { return false };
    seen.takeoff.arrangement.runs[run].run.kind != RunKind::Cable
}

fn has_circuits(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Run(run) = of else { return false };
    !seen.takeoff.arrangement.runs[run].circuits.is_empty()
}

fn has_cables(seen: &CheckContext, of: EntityRef) -> bool {
    let EntityRef::Run(run) = of else { return false };
    !seen.takeoff.arrangement.runs[run].cables.is_empty()
}

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    if seen.catalog.rules_refused {
        return;
    }
    let mut ledger = Ledger::new();
    for covered in &COVERED {
        let of_group = |id: &str| seen.catalog.items.get(id).is_some_and(|item| covered.groups.contains(&item.group));
        let takes = |rule: &&Rule| rule.per == covered.per && matches!(&rule.target, Target::Item(id) if of_group(id));
        let rules: Vec<&Rule> = seen.catalog.rules.iter().filter(takes).collect();
        if rules.is_empty() {
            continue;
        }
        let mut bare: BTreeMap<usize, Vec<EntityRef>> = BTreeMap::new();
        for of in seen.takeoff.entities(covered.per).into_iter().filter(|of| (covered.asked)(seen, *of)) {
            let taken = seen.takeoff.lines_of(of).any(|line| of_group(&line.item));
            if taken || rules.iter().any(|rule| may_apply(seen, rule, of, &mut ledger)) {
                continue;
            }
            if let Some(site) = seen.takeoff.site_of(of) {
                bare.entry(site).or_default().push(of);
            }
        }
        let group = covered.groups.iter().map(|group| group.word()).collect::<Vec<_>>().join(" or ");
        findings_of(seen, &group, bare, findings);
    }
}

/// Whether a rule takes something off for an entity once a fact is known. That the fact is not known has been reported.
fn may_apply(seen: &CheckContext, rule: &Rule, of: EntityRef, ledger: &mut Ledger) -> bool {
    let operator = of.opening().and_then(|at| seen.takeoff.arrangement.openings[at].operator);
    let other = rule.operator.as_deref().is_some_and(|id| operator.is_some_and(|it| it.id != id));
    let facts = seen.takeoff.facts(of);
    let truth = rule.when.as_ref().map(|when| when.condition.truth(&facts, ledger, ReasonId::ARITHMETIC));
    !other && !matches!(truth, Some(Ok(Truth::False)))
}

fn findings_of(seen: &CheckContext, group: &str, bare: BTreeMap<usize, Vec<EntityRef>>, findings: &mut Findings) {
    let all = &seen.takeoff.arrangement;
    for (site, of) in bare {
        let names: Vec<&str> = of.iter().map(|of| seen.takeoff.name(*of)).collect();
        let finding = Finding::new(&CODE, Subject::Site(all.sites[site].id.clone()));
        findings.push(
            place(seen, of[0], site)
                .into_iter()
                .fold(finding, Finding::at)
                .found(some_listed(&names))
                .asked(group)
                .price("nothing for it is in the bid")
                .advise(
                    "add a rule to the catalog, widen its condition, or accept this with the reason why none is needed",
                ),
        );
    }
}

/// Where an entity is typed: its opening, its run, else its site.
fn place(seen: &CheckContext, of: EntityRef, site: usize) -> Option<Place> {
    let all = &seen.takeoff.arrangement;
    match (of.opening(), of) {
        (Some(at), _) => Some(all.openings[at].opening.place.clone()),
        (None, EntityRef::Run(run)) => Some(all.runs[run].run.place.clone()),
        _ => all.sites[site].entry.written_at.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::CODE;
    use crate::takeoff::checks::fixtures;

    fn arm(id: &str, when: &str) -> String {
        format!(
            "[item.{id}]\nname = \"Arm\"\ngroup = \"arm\"\nunit = \"each\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
             supplier = \"fenwick\"\nrule = [{{ per = \"drive\", when = 'drive.arm = \"{when}\"' }}]\n"
        )
    }

    /// The sound leaf has a push arm.
    #[test]
    fn what_is_taken_off_for_others_is_missed_here() {
        assert!(fixtures::reported(&CODE, "", "", "").is_empty(), "a catalog without arms has them in the drive");
        assert!(fixtures::reported(&CODE, "", "", &arm("push", "push arm")).is_empty());
        let found = fixtures::reported(&CODE, "", "", &arm("pull", "pull arm"));
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].asked.as_str(), found[0].found.as_str()), ("arm", "101, drive 1"));
        let both = format!("{}{}", arm("pull", "pull arm"), arm("push", "push arm"));
        assert!(fixtures::reported(&CODE, "", "", &both).is_empty());
    }
}
