//! Labor lines: hours of a task for an entity, its crew and the factors on them.
//!
//! In: a rule's quantity, the task, the catalog's factors. Out: labor lines on the ledger. May not know: what an hour costs.

use std::cell::Cell;
use std::sync::Arc;

use rust_decimal::Decimal;

use super::entity::EntityRef;
use super::lines::{Applied, FactsWithLine, LaborLine, LineBuilder};
use crate::catalog::{Catalog, Factor, Rule, Task};
use crate::ledger::{Called, FigureFault, FigureId, Ledger, Reason, ReasonId, Shown};
use crate::measure::{Dimension, Measure, Quantity, Unit};
use crate::rules::{Amount, FactName, Facts, Truth};

/// What the labor lines of a rule share.
pub(super) struct LaborRule {
    trade: Arc<str>,
    /// The task's own entry as a reason.
    entry: ReasonId,
    /// The entry of its hours as a reason.
    hours: ReasonId,
    /// Hours for one of what its rule counts, once a line asked.
    rate: Cell<Option<FigureId>>,
    /// Positions of the factors that mean its trade and visit.
    factors: Vec<usize>,
}

impl LineBuilder<'_, '_> {
    /// What the labor lines of a task share.
    pub(super) fn labor_rule(&mut self, task: &Task) -> LaborRule {
        let entry = Reason::Entry { place: task.place.clone(), standing: String::new() };
        let hours = Reason::Entry { place: task.hours_place.clone(), standing: task.source.clone() };
        let (entry, hours) = (self.ledger.reason(entry), self.ledger.reason(hours));
        let means = |it: &Factor| {
            (it.trades.is_empty() || it.trades.contains(&task.trade))
                && (it.visits.is_empty() || it.visits.contains(&task.visit))
        };
        let factors = (0..self.factors.len()).filter(|at| means(self.factors[*at].factor)).collect();
        LaborRule { trade: task.trade.as_str().into(), entry, hours, rate: Cell::new(None), factors }
    }

    pub(super) fn labor_line(
        &mut self,
        applied: &Applied,
        of: EntityRef,
        task: &Task,
        quantity: FigureId,
        facts: &FactsWithLine,
    ) {
        let Applied { at, rule, labor: Some(labor), .. } = applied else { return };
        let Some(crew) = self.crew(rule, of, (task, labor), facts) else { return };
        let (factors, overtime) = self.factors(rule, of, labor, facts);
        let site = self.site_of(of);
        let made = self.labor_hours((task, labor), of, quantity, crew, &factors);
        let people = self.ledger.value(crew).value();
        let Some(hours) = self.kept(rule, of, |_| made) else { return };
        self.labor.push(LaborLine {
            rule: Some(*at),
            of,
            task: Some(applied.id.clone()),
            trade: labor.trade.clone(),
            visit: task.visit,
            site,
            crew: people.try_into().unwrap_or(1),
            hours,
            overtime,
        });
    }

    /// Clock hours times people, up to the hundredth of an hour.
    fn labor_hours(
        &mut self,
        (task, labor): (&Task, &LaborRule),
        of: EntityRef,
        quantity: FigureId,
        crew: FigureId,
        factors: &[FigureId],
    ) -> Result<FigureId, FigureFault> {
        let name = format!("labor hours of `{}` for {}", task.name, self.name(of));
        let rate = self.rate(task, labor)?;
        let inputs: Vec<FigureId> = [quantity, rate].into_iter().chain(factors.iter().copied()).chain([crew]).collect();
        let shown = Shown::In(Unit::Hour);
        let raw = self.ledger.product(&inputs, Called::arithmetic(&name).shown(shown))?;
        let hundredth = self.hundredth()?;
        self.ledger.rounded_up(raw, hundredth, Called::arithmetic(&name).shown(shown))
    }

    /// Hours for one of what a rule counts.
    fn rate(&mut self, task: &Task, labor: &LaborRule) -> Result<FigureId, FigureFault> {
        if let Some(known) = labor.rate.get() {
            return Ok(known);
        }
        let name = format!("hours of `{}`", task.name);
        let called = Called::new(&name, labor.hours);
        let rate = match (task.unit, task.hours.number_of(Unit::Hour)) {
            (Unit::Each, _) | (_, None) => {
                self.ledger.given(task.hours.quantity(), called.shown(Shown::In(Unit::Hour)))?
            }
            (unit, Some(hours)) => self.ledger.given_rate(hours, Unit::Hour, unit, called)?,
        };
        labor.rate.set(Some(rate));
        Ok(rate)
    }

    /// A hundredth of an hour, to which labor hours go up.
    fn hundredth(&mut self) -> Result<FigureId, FigureFault> {
        if let Some(known) = self.hundredth {
            return Ok(known);
        }
        let step = self.ledger.reason(Reason::Clause("labor hours go up to the hundredth of an hour".into()));
        let value = Quantity::new(Decimal::from(36), Dimension::TIME);
        let called = Called::new("a hundredth of an hour", step).shown(Shown::In(Unit::Hour));
        let made = self.ledger.given(value, called)?;
        self.hundredth = Some(made);
        Ok(made)
    }

    fn crew(
        &mut self,
        rule: &Rule,
        of: EntityRef,
        (task, labor): (&Task, &LaborRule),
        facts: &dyn Facts,
    ) -> Option<FigureId> {
        let name = format!("people for `{}` at {}", task.name, self.name(of));
        let called = Called::new(&name, labor.entry).shown(Shown::EACH);
        let Some(crew) = &task.crew else {
            return self.kept(rule, of, |ledger| ledger.given(Quantity::count(1), called));
        };
        match crew.formula.amount(facts, &mut self.ledger, called) {
            Ok(Amount::Known(figure)) => Some(figure),
            Ok(Amount::Unknown(missing)) => {
                self.undecided(rule, of, &missing);
                None
            }
            Err(fault) => {
                self.failed(rule, of, &fault);
                None
            }
        }
    }

    /// The factors that apply to a task at an entity, and whether its hours are overtime. A factor speaks only of
    /// entities that have every fact it names.
    fn factors(
        &mut self,
        rule: &Rule,
        of: EntityRef,
        labor: &LaborRule,
        facts: &FactsWithLine,
    ) -> (Vec<FigureId>, bool) {
        let mut figures = Vec::new();
        let mut overtime = false;
        for at in &labor.factors {
            let AppliedFactor { factor, asks, reason } = &self.factors[*at];
            if !asks.iter().all(|fact| facts.of.has(fact)) {
                continue;
            }
            let (factor, reason) = (*factor, *reason);
            match factor.when.condition.truth(&facts.of, &mut self.ledger, reason) {
                Ok(Truth::True) => {
                    overtime |= factor.overtime;
                    let called = Called::new(&factor.name, reason).shown(Shown::EACH);
                    if let Some(value) = factor.factor
                        && let Some(figure) = self.kept(rule, of, |it| it.given(Quantity::count(value), called))
                    {
                        figures.push(figure);
                    }
                }
                Ok(Truth::False) => {}
                Ok(Truth::Undecided(missing)) => self.undecided(rule, of, &missing),
                Err(fault) => self.failed(rule, of, &fault),
            }
        }
        (figures, overtime)
    }
}

/// A factor of the catalog with the facts that it asks for.
pub(super) struct AppliedFactor<'c> {
    factor: &'c Factor,
    asks: Vec<FactName>,
    /// Its entry as a reason.
    reason: ReasonId,
}

impl<'c> AppliedFactor<'c> {
    /// Every factor of a catalog.
    pub(super) fn all(catalog: &'c Catalog, ledger: &mut Ledger) -> Vec<Self> {
        let of = |factor: &'c Factor| {
            let entry = Reason::Entry { place: factor.place.clone(), standing: factor.source.clone() };
            let asks = factor.when.condition.expr().fact_names().cloned().collect();
            AppliedFactor { factor, asks, reason: ledger.reason(entry) }
        };
        catalog.factors.values().map(of).collect()
    }

    /// The facts that it asks for.
    pub(super) fn asks(&self) -> impl Iterator<Item = &str> {
        self.asks.iter().map(FactName::as_str)
    }
}
