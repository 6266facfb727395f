//! Rules: wherever they stand, one list in order of their ids.
//!
//! In: rules that stand alone, inside items, tasks and operators. Out: parsed and unit-checked rules.
//! May not know: what the facts are worth.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::Check;
use crate::catalog::codes;
use crate::catalog::entries::{Rule, RuleEntry, Target};
use crate::catalog::words::Entity;
use crate::findings::{Finding, Place, Subject};
use crate::input::Slot;
use crate::measure::{Dimension, Unit};
use crate::rules::Sheet;

/// Where a rule stands.
#[derive(Clone, Copy)]
enum Host<'c> {
    Alone,
    Item(&'c str),
    Task(&'c str),
    Operator(&'c str),
}

impl Check<'_, '_, '_> {
    /// Every rule, and whether one of those typed was refused.
    pub(super) fn rules(&mut self) -> (Vec<Rule>, bool) {
        let all = self.all;
        let mut found: Vec<(String, Host, &RuleEntry)> = Vec::new();
        for (at, rule) in all.rule.list().iter().enumerate() {
            found.push((name(rule, "rule", at), Host::Alone, rule));
        }
        for (id, item) in all.item.members() {
            found.extend(
                item.rule.list().iter().enumerate().map(|(at, rule)| (name(rule, id, at), Host::Item(id), rule)),
            );
        }
        for (id, task) in all.task.members() {
            found.extend(
                task.rule.list().iter().enumerate().map(|(at, rule)| (name(rule, id, at), Host::Task(id), rule)),
            );
        }
        for (id, operator) in all.operator.members() {
            let rules = operator.rule.list().iter().enumerate();
            found.extend(rules.map(|(at, rule)| (name(rule, id, at), Host::Operator(id), rule)));
        }
        let mut by_id: BTreeMap<String, Rule> = BTreeMap::new();
        let mut places: BTreeMap<String, Place> = BTreeMap::new();
        for (id, host, entry) in found {
            let Some(place) = entry.written_at.clone() else { continue };
            if let Some(first) = places.get(&id) {
                self.duplicate(&id, entry.id.place().unwrap_or(&place).clone(), first.clone());
                continue;
            }
            places.insert(id.clone(), entry.id.place().unwrap_or(&place).clone());
            by_id.extend(self.rule(&id, host, entry, place).map(|rule| (id, rule)));
        }
        let refused = by_id.len() < places.len();
        let rules: Vec<Rule> = by_id.into_values().collect();
        self.refuse_rings(&rules);
        (rules, refused)
    }

    /// Items and tasks with an empty list of rules: what is offered by unit price alone.
    pub(super) fn without_rules(&self) -> BTreeSet<Target> {
        let none = |rules: &Slot<Vec<RuleEntry>>| rules.get().is_some_and(Vec::is_empty);
        let items = self.all.item.members().filter(|(_, it)| none(&it.rule)).map(|(id, _)| Target::Item(id.to_owned()));
        let tasks = self.all.task.members().filter(|(_, it)| none(&it.rule)).map(|(id, _)| Target::Task(id.to_owned()));
        items.chain(tasks).collect()
    }

    fn duplicate(&mut self, id: &str, place: Place, first: Place) {
        let finding = Finding::new(&codes::DUPLICATE_RULE, Subject::Entry("rule", id.to_owned()))
            .at(place)
            .near(first, "first named here")
            .found(id)
            .asked("a name of its own for each rule")
            .advise("give one of the two another id, or leave the id out");
        self.reader.push(finding);
    }

    fn rule(&mut self, id: &str, host: Host, entry: &RuleEntry, place: Place) -> Option<Rule> {
        let subject = Subject::Entry("rule", id.to_owned());
        let target = self.target(host, entry, &place, &subject);
        let per = entry.per.cloned()?;
        let of = self.lines_of(per, entry, &place, &subject);
        let sheet = match per {
            Entity::Item => Arc::new(self.line_sheet(of.as_deref())),
            _ => (self.sheets)(per),
        };
        let when = self.condition(&entry.when, &sheet, &subject);
        let dimension = target.as_ref().and_then(|target| self.dimension(target));
        let quantity = match dimension {
            Some(dimension) => self.amount(&entry.quantity, &sheet, dimension, &subject),
            None => Err(()),
        };
        if per == Entity::Item && of.is_none() {
            return None;
        }
        let operator = match host {
            Host::Operator(id) => Some(id.to_owned()),
            _ => None,
        };
        entry.checked(id.to_owned(), operator, when.ok()?, target?, quantity.ok()?)
    }

    fn target(&mut self, host: Host, entry: &RuleEntry, place: &Place, subject: &Subject) -> Option<Target> {
        let inside = match host {
            Host::Item(id) => Some(Target::Item(id.to_owned())),
            Host::Task(id) => Some(Target::Task(id.to_owned())),
            _ => None,
        };
        let named = [&entry.item, &entry.task].into_iter().filter(|slot| !slot.is_absent()).count();
        if named + usize::from(inside.is_some()) != 1 {
            let found = if named == 0 { "neither" } else { "more than one" };
            let finding = Finding::new(&codes::RULE_TARGET, subject.clone())
                .at(place.clone())
                .found(found)
                .asked("`item` or `task`; inside an item or a task, neither");
            self.reader.push(finding.advise("name one item or one task"));
            return None;
        }
        if inside.is_some() {
            return inside;
        }
        entry.item.value().map(Target::Item).or(entry.task.value().map(Target::Task))
    }

    fn lines_of(&mut self, per: Entity, entry: &RuleEntry, place: &Place, subject: &Subject) -> Option<String> {
        if (per == Entity::Item) == entry.of.is_absent() {
            let at = entry.of.place().unwrap_or(place).clone();
            let finding = Finding::new(&codes::RULE_OF, subject.clone())
                .at(at)
                .asked("`of` with `per = \"item\"`, and with nothing else");
            self.reader.push(finding.advise("write of = \"…\" and per = \"item\", or neither"));
            return None;
        }
        entry.of.value()
    }

    /// The facts of a line of an item: its quantity, and those of whatever it belongs to.
    fn line_sheet(&self, of: Option<&str>) -> Sheet {
        let unit = of.and_then(|id| self.unit_of(id)).unwrap_or(Unit::Each);
        Sheet::new("line").number("line.quantity", unit, "quantity of the line").and(&self.widest())
    }

    fn unit_of(&self, item: &str) -> Option<Unit> {
        Unit::parse(self.all.item.get()?.get(item)?.unit.get()?)
    }

    fn dimension(&self, target: &Target) -> Option<Dimension> {
        match target {
            Target::Item(id) => self.unit_of(id).map(Unit::dimension),
            Target::Task(id) => match self.all.task.get()?.get(id)?.unit.get() {
                Some(unit) => Unit::parse(unit).map(Unit::dimension),
                None => Some(Dimension::NONE),
            },
        }
    }

    /// Reports rings of rules that range over each other's lines, one finding a ring.
    fn refuse_rings(&mut self, rules: &[Rule]) {
        let mut next: BTreeMap<&str, Vec<(&str, &Place)>> = BTreeMap::new();
        for rule in rules {
            if let (Some(of), Target::Item(item)) = (&rule.of, &rule.target) {
                next.entry(of.as_str()).or_default().push((item.as_str(), &rule.place));
            }
        }
        let mut reported: BTreeSet<&str> = BTreeSet::new();
        for start in next.keys().copied() {
            if reported.contains(start) {
                continue;
            }
            let Some(ring) = ring_from(start, &next) else { continue };
            let names: Vec<&str> = ring.iter().map(|(item, _)| *item).chain([start]).collect();
            reported.extend(ring.iter().map(|(item, _)| *item));
            let mut finding = Finding::new(&codes::RULE_CYCLE, Subject::Entry("item", start.to_owned()))
                .found(names.join(" → "))
                .asked("rules that end somewhere")
                .advise("let one of them range over an entity instead");
            for (at, (_, place)) in ring.iter().enumerate() {
                finding = finding.near((*place).clone(), if at == 0 { "" } else { "and here" });
            }
            self.reader.push(finding);
        }
    }
}

/// The ring through an item, with the rule that leads on from each.
fn ring_from<'a>(
    start: &'a str,
    next: &BTreeMap<&'a str, Vec<(&'a str, &'a Place)>>,
) -> Option<Vec<(&'a str, &'a Place)>> {
    let mut path: Vec<(&str, &Place)> = Vec::new();
    let mut seen = BTreeSet::new();
    fn walk<'a>(
        at: &'a str,
        start: &str,
        next: &BTreeMap<&'a str, Vec<(&'a str, &'a Place)>>,
        seen: &mut BTreeSet<&'a str>,
        path: &mut Vec<(&'a str, &'a Place)>,
    ) -> bool {
        for (item, place) in next.get(at).into_iter().flatten() {
            path.push((at, place));
            if *item == start || (seen.insert(item) && walk(item, start, next, seen, path)) {
                return true;
            }
            path.pop();
        }
        false
    }
    walk(start, start, next, &mut seen, &mut path).then_some(path)
}

fn name(rule: &RuleEntry, host: &str, at: usize) -> String {
    rule.id.get().map_or_else(|| format!("{host}.{}", at + 1), |id| id.as_str().to_owned())
}
