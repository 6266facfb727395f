//! Rules to lines: what is taken off, for which entity, and how many hours it takes.
//!
//! In: an arrangement, its facts, the catalog's rules, tasks and factors. Out: item lines and labor lines on the ledger.
//! May not know: prices.
//!
//! Order: rules in order of their ids; then rules over the lines of an item, each after all rules that take that item off;
//! then visits, for every site and visit that has labor; then rules per visit; last the least hours of trades.

use std::collections::BTreeMap;
use std::sync::Arc;

use rust_decimal::Decimal;

use super::arrangement::Arrangement;
use super::book::Book;
use super::codes;
use super::entity::{EntityRef, Library, Visit, entities};
use crate::catalog::{Catalog, Entity, Rule, Target, VisitKind};
use crate::findings::{Finding, Findings, Place, Subject};
use crate::ledger::{Called, FigureFault, FigureId, Ledger, Reason, Shown};
use crate::measure::{Quantity, Unit};
use crate::rules::{Amount, FactValue, Facts, Truth};

/// So much of an item, for one entity, by one rule. A length is a piece.
#[derive(Clone, Debug)]
pub struct Line {
    /// Position of the rule in the catalog.
    pub rule: usize,
    /// What it is for.
    pub of: EntityRef,
    /// The item.
    pub item: String,
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
    pub task: Option<String>,
    /// The trade.
    pub trade: String,
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

/// Facts that are not known: where that is told, of what, and which.
pub(super) type UnknownFacts = (Place, Subject, String);

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
pub(super) struct Making<'j, 'f> {
    pub all: &'f Arrangement<'j>,
    pub catalog: &'f Catalog,
    pub library: Library,
    pub ledger: Ledger,
    pub lines: Vec<Line>,
    pub labor: Vec<LaborLine>,
    pub visits: Vec<Visit>,
    /// Facts that are not known, by where and of what, and the rules that ask for them.
    pub unknown: BTreeMap<UnknownFacts, Vec<Asking>>,
    pub findings: &'f mut Findings,
}

impl Making<'_, '_> {
    /// Applies every rule.
    pub(super) fn all_rules(&mut self) {
        let order = rule_order(self.catalog);
        for at in order {
            let rule = &self.catalog.rules[at];
            match rule.per {
                Entity::Visit => {}
                Entity::Item => self.over_lines(at),
                kind => entities(kind, self.all).into_iter().for_each(|of| self.apply(at, of, None)),
            }
        }
        self.find_visits();
        for at in 0..self.catalog.rules.len() {
            if self.catalog.rules[at].per == Entity::Visit {
                (0..self.visits.len()).for_each(|visit| self.apply(at, EntityRef::Visit(visit), None));
            }
        }
        self.least_hours();
        self.tell_unknown();
    }

    /// A rule over the lines of an item.
    fn over_lines(&mut self, at: usize) {
        let Some(of) = self.catalog.rules[at].of.clone() else { return };
        let lines: Vec<(EntityRef, FigureId)> =
            self.lines.iter().filter(|line| line.item == of).map(|line| (line.of, line.quantity)).collect();
        for (entity, quantity) in lines {
            self.apply(at, entity, Some(quantity));
        }
    }

    fn apply(&mut self, at: usize, of: EntityRef, line: Option<FigureId>) {
        let catalog = self.catalog;
        let rule = &catalog.rules[at];
        if let Some(operator) = &rule.operator
            && self.operator_of(of) != Some(operator.as_str())
        {
            return;
        }
        // An item or task that could not be read was reported and is not in the catalog: its rules have nothing to say.
        let there = match &rule.target {
            Target::Item(item) => catalog.items.contains_key(item),
            Target::Task(task) => catalog.tasks.contains_key(task),
        };
        if !there {
            return;
        }
        let facts = WithLine { book: self.library.book(of).clone(), line };
        let reason = self.ledger.reason(Reason::Rule { id: rule.id.clone(), place: rule.place.clone() });
        if let Some(when) = &rule.when {
            match when.condition.verdict(&facts, &mut self.ledger, reason).map(|verdict| verdict.truth) {
                Ok(Truth::True) => {}
                Ok(Truth::False) => return,
                Ok(Truth::Undecided(missing)) => return self.undecided(rule, of, &missing),
                Err(fault) => return self.failed(rule, of, &fault),
            }
        }
        match &rule.target {
            Target::Item(item) => {
                let Some(quantity) = self.quantity(rule, of, &facts, "quantity") else { return };
                self.lines.push(Line { rule: at, of, item: item.clone(), quantity });
            }
            Target::Task(task) => {
                let Some(quantity) = self.quantity(rule, of, &facts, "quantity") else { return };
                if let Some(task) = catalog.tasks.get(task) {
                    self.labor_line(at, of, task, quantity, &facts);
                }
            }
        }
    }

    /// The rule's quantity for an entity: above zero, or no line.
    fn quantity(&mut self, rule: &Rule, of: EntityRef, facts: &dyn Facts, what: &str) -> Option<FigureId> {
        let name = format!("{what} of {} for {}", self.target_name(rule), self.name(of));
        let reason = self.ledger.reason(Reason::Rule { id: rule.id.clone(), place: rule.place.clone() });
        let shown = Shown::In(self.unit(rule));
        let called = Called::new(&name, reason).shown(shown);
        let Some(formula) = &rule.quantity else {
            return self.kept(rule, of, |ledger| ledger.given(Quantity::count(1), called));
        };
        let measured = match formula.formula.measure(facts, &mut self.ledger, called) {
            Ok(measured) => measured,
            Err(fault) => {
                self.failed(rule, of, &fault);
                return None;
            }
        };
        match measured.amount {
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

    fn unit(&self, rule: &Rule) -> Unit {
        match &rule.target {
            Target::Item(item) => self.catalog.items.get(item).map_or(Unit::Each, |item| item.unit),
            Target::Task(task) => self.catalog.tasks.get(task).map_or(Unit::Each, |task| task.unit),
        }
    }

    pub(super) fn target_name(&self, rule: &Rule) -> String {
        match &rule.target {
            Target::Item(id) => self.catalog.items.get(id).map_or(id, |item| &item.name).clone(),
            Target::Task(id) => self.catalog.tasks.get(id).map_or(id, |task| &task.name).clone(),
        }
    }

    fn operator_of(&self, of: EntityRef) -> Option<&str> {
        Some(self.all.openings[of.opening()?].operator?.id.as_str())
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
struct WithLine {
    book: Arc<Book>,
    line: Option<FigureId>,
}

impl Facts for WithLine {
    fn fact(&self, name: &str, ledger: &mut Ledger) -> FactValue {
        match (name, self.line) {
            ("line.quantity", Some(figure)) => FactValue::Number(figure),
            _ => self.book.fact(name, ledger),
        }
    }
}
