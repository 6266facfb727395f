//! Rules to lines: what is taken off, for which entity, and how many hours it takes.
//!
//! In: an arrangement, its facts, the catalog's rules, tasks and factors. Out: item lines and labor lines on the ledger.
//! May not know: prices.
//!
//! Order: rules in order of their ids; then rules over the lines of an item, each after all rules that take that item off;
//! then visits, for every site and visit that has labor; then rules per visit; last the least hours of trades.

use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

use rust_decimal::Decimal;

use super::arrangement::Arrangement;
use super::codes;
use super::entity::{EntityRef, FactSets, Visit, entities};
use super::fact_set::{EntityFacts, FactFigures};
use super::hours::{AppliedFactor, LaborRule};
use super::rule_findings::UnknownNames;
use super::varied::Shared;
use crate::catalog::{Catalog, Entity, Item, Operator, Rule, Target, Task, VisitKind};
use crate::findings::{Finding, Findings, Place, Subject};
use crate::ledger::{Called, FigureFault, FigureId, Ledger, Reason, ReasonId, Shown};
use crate::measure::{Quantity, Unit};
use crate::rules::{Amount, FactName, FactValue, Facts, Truth};

/// So much of an item, for one entity, by one rule. A length is a piece.
#[derive(Clone, Debug)]
pub struct Line {
    /// Position of the rule in the catalog.
    pub rule: usize,
    /// What it is for.
    pub of: EntityRef,
    /// The item.
    pub item: Arc<str>,
    /// How much, in the item's dimension.
    pub quantity: FigureId,
}

/// Hours of a trade in a visit, for one entity, by one rule.
#[derive(Clone, Debug)]
pub struct LaborLine {
    /// Position of the rule in the catalog; none for hours that fill up a visit.
    pub rule: Option<usize>,
    /// What it is for.
    pub of: EntityRef,
    /// The task; none for hours that fill up a visit.
    pub task: Option<Arc<str>>,
    /// The trade.
    pub trade: Arc<str>,
    /// The visit.
    pub visit: VisitKind,
    /// Position of the site.
    pub site: Option<usize>,
    /// People.
    pub crew: u32,
    /// Labor hours: hours of the clock times people.
    pub hours: FigureId,
    /// Paid outside working hours.
    pub overtime: bool,
}

/// Facts that are not known: where that is said, of what, and which.
pub(super) type UnknownFacts = (Place, Subject, UnknownNames);

/// A rule that asks for a fact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Asking {
    /// The rule's id.
    pub rule: String,
    /// Where it stands.
    pub place: Place,
    /// What it takes off.
    pub target: String,
}

/// Lines while they are being made.
pub(super) struct LineBuilder<'j, 'f> {
    pub all: &'f Arrangement<'j>,
    pub catalog: &'j Catalog,
    pub library: Arc<FactSets>,
    /// Figures that facts became.
    pub figures: Rc<FactFigures>,
    pub factors: Vec<AppliedFactor<'j>>,
    /// A hundredth of an hour, once it was asked for.
    pub hundredth: Option<FigureId>,
    pub ledger: Ledger,
    pub lines: Vec<Line>,
    pub labor: Vec<LaborLine>,
    pub visits: Vec<Visit>,
    /// Facts that are not known, by where and of what, and the rules that ask for them.
    pub unknown: BTreeMap<UnknownFacts, Vec<Asking>>,
    pub findings: &'f mut Findings,
}

/// A rule with what is the same for every entity that it is applied to.
pub(super) struct Applied<'c> {
    /// Its position in the catalog.
    pub at: usize,
    pub rule: &'c Rule,
    /// What it takes off.
    pub takes: Takes<'c>,
    /// The id of that.
    pub id: Arc<str>,
    /// The rule as a reason of figures.
    pub reason: ReasonId,
    /// What its labor lines share, where it takes off a task.
    pub labor: Option<LaborRule>,
    /// The one operator whose openings it is for, where it is for one alone.
    operator: Option<&'c Operator>,
}

/// What a rule takes off.
#[derive(Clone, Copy)]
pub(super) enum Takes<'c> {
    Item(&'c Item),
    Task(&'c Task),
}

impl<'c> Takes<'c> {
    pub(super) fn name(self) -> &'c str {
        match self {
            Takes::Item(item) => &item.name,
            Takes::Task(task) => &task.name,
        }
    }

    fn unit(self) -> Unit {
        match self {
            Takes::Item(item) => item.unit,
            Takes::Task(task) => task.unit,
        }
    }
}

impl<'j> LineBuilder<'j, '_> {
    /// Applies every rule; what is shared with a takeoff there is comes from there.
    pub(super) fn all_rules(&mut self, shared: Option<&Shared>) {
        let order = rule_order(self.catalog);
        for at in order {
            let Some(applied) = self.applied(at) else { continue };
            match applied.rule.per {
                Entity::Visit => {}
                Entity::Item => self.over_lines(&applied),
                kind => match shared.filter(|shared| shared.is_steady(&applied, &self.factors)) {
                    None => self.apply_to(&applied, entities(kind, self.all).into_iter().map(|of| (of, None))),
                    Some(shared) => {
                        self.take_over(&applied, shared);
                        self.apply_to(&applied, shared.others(kind, self.all).into_iter().map(|of| (of, None)));
                    }
                },
            }
        }
        self.find_visits();
        for at in 0..self.catalog.rules.len() {
            if self.catalog.rules[at].per == Entity::Visit
                && let Some(applied) = self.applied(at)
            {
                self.apply_to(&applied, (0..self.visits.len()).map(|visit| (EntityRef::Visit(visit), None)));
            }
        }
        self.least_hours();
        self.report_unknown();
    }

    /// A rule, ready to be applied. An item or task that could not be read was reported and is not in the catalog: its rules
    /// have nothing to say.
    fn applied(&mut self, at: usize) -> Option<Applied<'j>> {
        let rule = self.catalog.rules.get(at)?;
        let takes = match &rule.target {
            Target::Item(item) => Takes::Item(self.catalog.items.get(item)?),
            Target::Task(task) => Takes::Task(self.catalog.tasks.get(task)?),
        };
        let reason = self.ledger.reason(Reason::Rule { id: rule.id.clone(), place: rule.place.clone() });
        let operator = match &rule.operator {
            // No opening has an operator that the catalog does not have.
            Some(id) => Some(self.catalog.operators.get(id)?),
            None => None,
        };
        let (id, labor) = match takes {
            Takes::Item(item) => (item.id.as_str(), None),
            Takes::Task(task) => (task.id.as_str(), Some(self.labor_rule(task))),
        };
        Some(Applied { at, rule, takes, id: id.into(), reason, labor, operator })
    }

    /// The lines of a rule for what is the same as in another takeoff, whose figures the ledger holds too.
    fn take_over(&mut self, applied: &Applied, shared: &Shared) {
        self.lines.extend(shared.lines(applied.at).map(|(of, line)| Line { of, ..line.clone() }));
        self.labor.extend(shared.labor(applied.at).map(|(of, site, line)| LaborLine { of, site, ..line.clone() }));
    }

    /// A rule over the lines of an item.
    fn over_lines(&mut self, applied: &Applied<'j>) {
        let Some(of) = &applied.rule.of else { return };
        let of_item = self.lines.iter().filter(|line| *line.item == **of);
        let lines: Vec<_> = of_item.map(|line| (line.of, Some(line.quantity))).collect();
        self.apply_to(applied, lines.into_iter());
    }

    /// Applies a rule to entities, each with the quantity of the line that it ranges over, if it does.
    fn apply_to(&mut self, applied: &Applied<'j>, to: impl Iterator<Item = (EntityRef, Option<FigureId>)>) {
        let (library, figures) = (self.library.clone(), self.figures.clone());
        for (of, line) in to {
            self.apply(applied, of, FactsWithLine { of: library.facts(of), figures: &figures, line });
        }
    }

    fn apply(&mut self, applied: &Applied<'j>, of: EntityRef, facts: FactsWithLine) {
        let Applied { at, rule, takes, reason, operator, .. } = *applied;
        if operator.is_some_and(|asked| !self.operator_of(of).is_some_and(|is| std::ptr::eq(is, asked))) {
            return;
        }
        if let Some(when) = &rule.when {
            match when.condition.truth(&facts, &mut self.ledger, reason) {
                Ok(Truth::True) => {}
                Ok(Truth::False) => return,
                Ok(Truth::Undecided(missing)) => return self.undecided(rule, of, &missing),
                Err(fault) => return self.failed(rule, of, &fault),
            }
        }
        let Some(quantity) = self.quantity(applied, of, &facts) else { return };
        match takes {
            Takes::Item(_) => self.lines.push(Line { rule: at, of, item: applied.id.clone(), quantity }),
            Takes::Task(task) => self.labor_line(applied, of, task, quantity, &facts),
        }
    }

    /// The rule's quantity for an entity: above zero, or no line.
    fn quantity(&mut self, applied: &Applied, of: EntityRef, facts: &dyn Facts) -> Option<FigureId> {
        let Applied { rule, takes, reason, .. } = *applied;
        let name = format!("quantity of {} for {}", takes.name(), self.name(of));
        let called = Called::new(&name, reason).shown(Shown::In(takes.unit()));
        let Some(formula) = &rule.quantity else {
            return self.kept(rule, of, |ledger| ledger.given(Quantity::count(1), called));
        };
        let amount = match formula.formula.amount(facts, &mut self.ledger, called) {
            Ok(amount) => amount,
            Err(fault) => {
                self.failed(rule, of, &fault);
                return None;
            }
        };
        match amount {
            Amount::Unknown(missing) => {
                self.undecided(rule, of, &missing);
                None
            }
            Amount::Known(figure) if self.ledger.value(figure).value() > Decimal::ZERO => Some(figure),
            Amount::Known(figure) if self.ledger.value(figure).value() < Decimal::ZERO => {
                let found = self.ledger.print(figure);
                self.findings.push(
                    Finding::new(&codes::NEGATIVE_QUANTITY, Subject::Entry("rule", rule.id.clone()))
                        .at(formula.place.clone())
                        .found(format!("{found} for {}", self.name(of)))
                        .asked("a quantity of zero or more")
                        .advise("let the formula end at zero: max(0, …)"),
                );
                None
            }
            Amount::Known(_) => None,
        }
    }

    pub(super) fn kept(
        &mut self,
        rule: &Rule,
        of: EntityRef,
        make: impl FnOnce(&mut Ledger) -> Result<FigureId, FigureFault>,
    ) -> Option<FigureId> {
        match make(&mut self.ledger) {
            Ok(figure) => Some(figure),
            Err(fault) => {
                self.beyond(rule, of, &fault);
                None
            }
        }
    }

    pub(super) fn target_name(&self, rule: &Rule) -> String {
        match &rule.target {
            Target::Item(id) => self.catalog.items.get(id).map_or(id, |item| &item.name).clone(),
            Target::Task(id) => self.catalog.tasks.get(id).map_or(id, |task| &task.name).clone(),
        }
    }

    fn operator_of(&self, of: EntityRef) -> Option<&Operator> {
        self.all.openings.get(of.opening()?)?.operator
    }

    pub(super) fn site_of(&self, of: EntityRef) -> Option<usize> {
        let at = |id: &str| self.all.sites.iter().position(|site| site.id == id);
        match of {
            EntityRef::Job => None,
            EntityRef::Site(site) => Some(site),
            EntityRef::Visit(visit) => Some(self.visits[visit].site),
            EntityRef::Panel(panel) => at(&self.all.panels[panel].site),
            EntityRef::Circuit(circuit) => at(&self.all.panels[self.all.circuits[circuit].panel].site),
            EntityRef::Run(run) => at(&self.all.runs[run].run.site),
            other => at(&self.all.openings[other.opening()?].site.id),
        }
    }
}

/// Positions of rules in the order in which they run: by id, but a rule over the lines of an item after all that take the
/// item off. The catalog has refused rings.
fn rule_order(catalog: &Catalog) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    let mut waiting: Vec<usize> = Vec::new();
    for (at, rule) in catalog.rules.iter().enumerate() {
        if rule.per == Entity::Item { waiting.push(at) } else { order.push(at) }
    }
    while !waiting.is_empty() {
        let ready = |at: &usize| {
            let of = catalog.rules[*at].of.as_ref();
            !waiting.iter().any(
                |other| matches!(&catalog.rules[*other].target, Target::Item(item) if Some(item) == of && other != at),
            )
        };
        let next: Vec<usize> = waiting.iter().copied().filter(ready).collect();
        let next = if next.is_empty() { waiting.clone() } else { next };
        waiting.retain(|at| !next.contains(at));
        order.extend(next);
    }
    order
}

/// The facts of an entity, and the quantity of the line that a rule ranges over.
#[derive(Clone, Copy)]
pub(super) struct FactsWithLine<'b> {
    pub of: EntityFacts<'b>,
    figures: &'b FactFigures,
    line: Option<FigureId>,
}

impl FactsWithLine<'_> {
    /// The line's quantity, where that is the fact.
    fn of_line(&self, fact: &FactName) -> Option<FigureId> {
        self.line.filter(|_| fact.as_str() == "line.quantity")
    }
}

impl Facts for FactsWithLine<'_> {
    fn value(&self, fact: &FactName, ledger: &Ledger) -> FactValue<'_> {
        match self.of_line(fact) {
            Some(figure) => FactValue::Number(ledger.value(figure)),
            None => self.of.fact(fact),
        }
    }

    fn figure(&self, fact: &FactName, ledger: &mut Ledger) -> Result<FigureId, String> {
        match self.of_line(fact) {
            Some(figure) => Ok(figure),
            None => self.figures.figure(self.of, fact, ledger),
        }
    }
}
