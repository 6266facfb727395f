//! Labor lines: hours of a task for an entity, its crew and the factors on them.
//!
//! In: a rule's quantity, the task, the catalog's factors. Out: labor lines on the ledger. May not know: what an hour costs.

use std::sync::Arc;

use rust_decimal::Decimal;

use super::entity::EntityRef;
use super::fact_set::FactSet;
use super::lines::{Applied, LaborLine, LineBuilder};
use crate::catalog::{Catalog, Factor, Rule, Task};
use crate::ledger::{Called, FigureFault, FigureId, Reason, Shown};
use crate::measure::{Dimension, Measure, Quantity, Unit};
use crate::rules::{Amount, Facts, Truth};

impl LineBuilder<'_, '_> {
    pub(super) fn labor_line(
        &mut self,
        applied: Applied,
        of: EntityRef,
        task: &Task,
        quantity: FigureId,
        facts: &dyn Facts,
    ) {
        let Applied { at, rule, .. } = applied;
        let Some(crew) = self.crew(rule, of, task, facts) else { return };
        let (factors, overtime) = self.factors(rule, of, task);
        let site = self.site_of(of);
        let made = self.labor_hours(task, of, quantity, crew, &factors);
        let people = self.ledger.value(crew).value();
        let Some(hours) = self.kept(rule, of, |_| made) else { return };
        self.labor.push(LaborLine {
            rule: Some(at),
            of,
            task: Some(task.id.clone()),
            trade: task.trade.clone(),
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
        task: &Task,
        of: EntityRef,
        quantity: FigureId,
        crew: FigureId,
        factors: &[FigureId],
    ) -> Result<FigureId, FigureFault> {
        let name = format!("labor hours of `{}` for {}", task.name, self.name(of));
        let reason = Reason::Entry { place: task.hours_place.clone(), standing: task.source.clone() };
        let reason = self.ledger.reason(reason);
        let rate_name = format!("hours of `{}`", task.name);
        let called = Called::new(&rate_name, reason);
        let rate = match (task.unit, task.hours.number_of(Unit::Hour)) {
            (Unit::Each, _) | (_, None) => {
                self.ledger.given(task.hours.quantity(), called.shown(Shown::In(Unit::Hour)))?
            }
            (unit, Some(hours)) => self.ledger.given_rate(hours, Unit::Hour, unit, called)?,
        };
        let inputs: Vec<FigureId> = [quantity, rate].into_iter().chain(factors.iter().copied()).chain([crew]).collect();
        let shown = Shown::In(Unit::Hour);
        let raw = self.ledger.product(&inputs, Called::arithmetic(&name).shown(shown))?;
        let step = self.ledger.reason(Reason::Clause("labor hours go up to the hundredth of an hour".to_owned()));
        let hundredth = Quantity::new(Decimal::from(36), Dimension::TIME);
        let hundredth = self.ledger.given(hundredth, Called::new("a hundredth of an hour", step).shown(shown))?;
        self.ledger.rounded_up(raw, hundredth, Called::arithmetic(&name).shown(shown))
    }

    fn crew(&mut self, rule: &Rule, of: EntityRef, task: &Task, facts: &dyn Facts) -> Option<FigureId> {
        let name = format!("people for `{}` at {}", task.name, self.name(of));
        let reason = Reason::Entry { place: task.place.clone(), standing: String::new() };
        let reason = self.ledger.reason(reason);
        let called = Called::new(&name, reason).shown(Shown::EACH);
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
    fn factors(&mut self, rule: &Rule, of: EntityRef, task: &Task) -> (Vec<FigureId>, bool) {
        let fact_set: Arc<FactSet> = self.library.fact_set(of).clone();
        let mut figures = Vec::new();
        let mut overtime = false;
        for at in 0..self.factors.len() {
            let AppliedFactor { factor, asks } = &self.factors[at];
            let factor = *factor;
            let meant = (factor.trades.is_empty() || factor.trades.contains(&task.trade))
                && (factor.visits.is_empty() || factor.visits.contains(&task.visit))
                && asks.iter().all(|fact| fact_set.has(fact));
            if !meant {
                continue;
            }
            let standing = factor.source.clone();
            let reason = self.ledger.reason(Reason::Entry { place: factor.place.clone(), standing });
            match factor.when.condition.truth(&*fact_set, &mut self.ledger, reason) {
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
    asks: Vec<&'c str>,
}

impl<'c> AppliedFactor<'c> {
    /// Every factor of a catalog.
    pub(super) fn all(catalog: &'c Catalog) -> Vec<Self> {
        let of = |factor: &'c Factor| AppliedFactor { factor, asks: factor.when.condition.expr().facts() };
        catalog.factors.values().map(of).collect()
    }

    /// The facts that it asks for.
    pub(super) fn asks(&self) -> impl Iterator<Item = &'c str> {
        self.asks.iter().copied()
    }
}
