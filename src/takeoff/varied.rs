//! The takeoff of a job that was made of one already taken off: by alternates, or by another answer to an open question.
//!
//! In: the takeoff there is, the job as it would be. Out: what of it is the same in both. May not know: what differs, prices.
//!
//! An opening that both jobs share has the same facts, and so has a panel, a circuit or a run with equal facts of its own. A
//! rule comes to the same for it, unless it reads a fact of the job or of a site that differs. What comes to the same is taken
//! from the takeoff there is; only the rest is worked again.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use rustc_hash::FxHashMap;

use super::Takeoff;
use super::arrangement::Arrangement;
use super::circuits::CircuitWork;
use super::entity::{EntityRef, FactSets, entities};
use super::hours::AppliedFactor;
use super::lines::{Applied, LaborLine, Line, Takes};
use crate::catalog::Entity;
use crate::rules::Expr;

/// What a job has in common with the one it was made of.
pub(super) struct Shared<'b, 'j> {
    base: &'b Takeoff<'j>,
    /// By position in the base: where it is now, if it is the same.
    now: Positions,
    /// By position now: whether it is the same.
    same: Positions,
    /// By position in the base: where a site is now.
    sites: Vec<Option<usize>>,
    /// Facts of the job and of sites that differ.
    differing: BTreeSet<&'static str>,
    /// By kind: entities that are not the same, once they were asked for.
    others: RefCell<BTreeMap<Entity, Vec<EntityRef>>>,
    lines: FxHashMap<usize, Range<usize>>,
    labor: FxHashMap<usize, Range<usize>>,
}

/// Positions of entities, by position.
#[derive(Default)]
struct Positions {
    openings: Vec<Option<usize>>,
    panels: Vec<Option<usize>>,
    circuits: Vec<Option<usize>>,
    runs: Vec<Option<usize>>,
}

impl Positions {
    fn of(&self, of: EntityRef) -> Option<EntityRef> {
        let at = |list: &[Option<usize>], at: usize| list.get(at).copied().flatten();
        let opening = |it: usize| at(&self.openings, it);
        Some(match of {
            EntityRef::Job | EntityRef::Site(_) | EntityRef::Visit(_) => return None,
            EntityRef::Panel(it) => EntityRef::Panel(at(&self.panels, it)?),
            EntityRef::Circuit(it) => EntityRef::Circuit(at(&self.circuits, it)?),
            EntityRef::Run(it) => EntityRef::Run(at(&self.runs, it)?),
            EntityRef::Opening(it) => EntityRef::Opening(opening(it)?),
            EntityRef::Leaf(it, which) => EntityRef::Leaf(opening(it)?, which),
            EntityRef::Header(it, which) => EntityRef::Header(opening(it)?, which),
            EntityRef::Drive(it, which) => EntityRef::Drive(opening(it)?, which),
            EntityRef::Device(it, which) => EntityRef::Device(opening(it)?, which),
            EntityRef::Group(it, which) => EntityRef::Group(opening(it)?, which),
            EntityRef::Box(it, which) => EntityRef::Box(opening(it)?, which),
            EntityRef::Fixing(it, which) => EntityRef::Fixing(opening(it)?, which),
        })
    }

    /// The same the other way round; `counts` is how many openings, panels, circuits and runs there are on the other side.
    fn turned(&self, counts: [usize; 4]) -> Positions {
        let turn = |list: &[Option<usize>], count: usize| {
            let mut turned = vec![None; count];
            for (at, to) in list.iter().enumerate() {
                if let Some(slot) = to.and_then(|to| turned.get_mut(to)) {
                    *slot = Some(at);
                }
            }
            turned
        };
        let [openings, panels, circuits, runs] = counts;
        Positions {
            openings: turn(&self.openings, openings),
            panels: turn(&self.panels, panels),
            circuits: turn(&self.circuits, circuits),
            runs: turn(&self.runs, runs),
        }
    }
}

impl<'b, 'j> Shared<'b, 'j> {
    /// Compares an arrangement and its books with those of the base. `was` says of each opening where it was, if it is the same.
    pub(super) fn of(base: &'b Takeoff<'j>, all: &Arrangement, library: &FactSets, was: Vec<Option<usize>>) -> Self {
        let old = &base.arrangement;
        let facts_are_same =
            |was: EntityRef, is: EntityRef| library.fact_set(is).has_facts_of(base.facts.fact_set(was));
        let by = |names: Vec<String>| -> FxHashMap<String, usize> {
            names.into_iter().enumerate().map(|(at, name)| (name, at)).collect()
        };
        let panel_names = |of: &Arrangement| of.panels.iter().map(|it| format!("{}\n{:?}", it.site, it.id)).collect();
        let circuit_names = |of: &Arrangement| {
            let panels: Vec<String> = panel_names(of);
            let there = |it: &CircuitWork| if it.existing.is_some() { "there" } else { "new" };
            of.circuits.iter().map(|it| format!("{}\n{}\n{}", panels[it.panel], there(it), it.label())).collect()
        };
        let run_names = |of: &Arrangement| of.runs.iter().map(|it| it.run.label()).collect();
        let matched = |names: &dyn Fn(&Arrangement) -> Vec<String>, entity: fn(usize) -> EntityRef| {
            let known = by(names(old));
            let find = |(at, name): (usize, String)| {
                known.get(&name).copied().filter(|was| facts_are_same(entity(*was), entity(at)))
            };
            names(all).into_iter().enumerate().map(find).collect::<Vec<Option<usize>>>()
        };
        let panels = matched(&panel_names, EntityRef::Panel);
        // A circuit has the facts of its panel too.
        let circuits = matched(&circuit_names, EntityRef::Circuit);
        let on_same_panel =
            |(at, was): (usize, Option<usize>)| was.filter(|_| panels[all.circuits[at].panel].is_some());
        let circuits = circuits.into_iter().enumerate().map(on_same_panel).collect();
        let same = Positions { openings: was, panels, circuits, runs: matched(&run_names, EntityRef::Run) };
        let now = same.turned([old.openings.len(), old.panels.len(), old.circuits.len(), old.runs.len()]);
        let site = |id: &str| all.sites.iter().position(|site| site.id == id);
        let sites: Vec<Option<usize>> = old.sites.iter().map(|it| site(&it.id)).collect();
        let mut differing: BTreeSet<&'static str> =
            library.fact_set(EntityRef::Job).differing(base.facts.fact_set(EntityRef::Job)).collect();
        for (was, is) in sites.iter().enumerate().filter_map(|(was, is)| Some((was, (*is)?))) {
            differing
                .extend(library.fact_set(EntityRef::Site(is)).differing(base.facts.fact_set(EntityRef::Site(was))));
        }
        let lines = ranges(base.lines.iter().map(|line| Some(line.rule)));
        let labor = ranges(base.labor.iter().map(|line| line.rule));
        Shared { base, now, same, sites, differing, others: RefCell::default(), lines, labor }
    }

    /// Whether a rule can be taken over where its entity is the same: it reads nothing that differs between the jobs.
    pub(super) fn is_steady(&self, applied: &Applied, factors: &[AppliedFactor]) -> bool {
        let same = |expr: &Expr| expr.fact_names().all(|fact| !self.differing.contains(fact.as_str()));
        let Applied { rule, takes, .. } = *applied;
        let of_task = match takes {
            Takes::Item(_) => true,
            Takes::Task(task) => {
                task.crew.as_ref().is_none_or(|crew| same(crew.formula.expr()))
                    && factors.iter().flat_map(AppliedFactor::asks).all(|fact| !self.differing.contains(fact))
            }
        };
        of_task
            && rule.when.as_ref().is_none_or(|when| same(when.condition.expr()))
            && rule.quantity.as_ref().is_none_or(|quantity| same(quantity.formula.expr()))
    }

    /// Entities of a kind that are not the same.
    pub(super) fn others(&self, kind: Entity, all: &Arrangement) -> Vec<EntityRef> {
        let find = || entities(kind, all).into_iter().filter(|of| self.same.of(*of).is_none()).collect();
        self.others.borrow_mut().entry(kind).or_insert_with(find).clone()
    }

    /// The item lines that a rule has in the base for entities that are the same, each with its entity as it is now.
    pub(super) fn lines(&self, rule: usize) -> impl Iterator<Item = (EntityRef, &'b Line)> {
        let range = self.lines.get(&rule).cloned().unwrap_or_default();
        let here = self.base.lines.get(range).unwrap_or_default();
        here.iter().filter_map(|line| Some((self.now.of(line.of)?, line)))
    }

    /// The labor lines likewise, each with its site as it is now.
    pub(super) fn labor(&self, rule: usize) -> impl Iterator<Item = (EntityRef, Option<usize>, &'b LaborLine)> {
        let range = self.labor.get(&rule).cloned().unwrap_or_default();
        let here = self.base.labor.get(range).unwrap_or_default();
        let site = |line: &LaborLine| line.site.and_then(|site| self.sites.get(site).copied().flatten());
        here.iter().filter_map(move |line| Some((self.now.of(line.of)?, site(line), line)))
    }
}

/// Where the lines of each rule are; they follow one another.
fn ranges(rules: impl Iterator<Item = Option<usize>>) -> FxHashMap<usize, Range<usize>> {
    let mut ranges: FxHashMap<usize, Range<usize>> = FxHashMap::default();
    for (at, rule) in rules.enumerate().filter_map(|(at, rule)| Some((at, rule?))) {
        ranges.entry(rule).or_insert(at..at).end = at + 1;
    }
    ranges
}
