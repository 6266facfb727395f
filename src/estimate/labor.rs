//! Labor: what an hour costs, and what each trade's hours in each visit come to.
//!
//! In: labor lines, trades. Out: rates and labor costs. May not know: items.

use std::collections::{BTreeMap, BTreeSet};

use rustc_hash::{FxHashMap, FxHashSet};

use super::price_builder::{PriceBuilder, PriceResult, not_given};
use super::{HourlyRate, LaborCost, Named};
use crate::catalog::{BurdenAmount, Trade, VisitKind};
use crate::ledger::{Called, FigureFault, FigureId, Shown};
use crate::measure::Unit;

impl PriceBuilder<'_, '_> {
    /// Rates of every trade that works, or that a unit price asks for: regular, and overtime where there is any.
    pub(super) fn rates(&mut self) -> Result<Vec<HourlyRate>, FigureFault> {
        let catalog = self.catalog;
        let mut wanted: BTreeSet<(u32, &str, bool)> = BTreeSet::new();
        let mut want = |id: &str, overtime: bool| {
            if let Some(trade) = catalog.trades.get(id) {
                wanted.insert((trade.order, trade.id.as_str(), overtime));
            }
        };
        let mut seen = FxHashSet::default();
        for line in &self.takeoff.labor {
            if seen.insert((&*line.trade, line.overtime)) {
                want(&line.trade, line.overtime);
            }
        }
        for part in self.job.unit_prices.iter().flat_map(|price| &price.parts) {
            if let crate::job::PartOf::Task(id) = &part.of
                && let Some(task) = catalog.tasks.get(id)
            {
                want(&task.trade, false);
            }
        }
        wanted
            .into_iter()
            .filter_map(|(_, id, overtime)| Some(self.hourly(catalog.trades.get(id)?, overtime)))
            .collect()
    }

    fn hourly(&mut self, trade: &Trade, overtime: bool) -> Result<HourlyRate, FigureFault> {
        let named = |name: String, how: String, amount: FigureId| Named { name, how, base: None, amount };
        let name = format!("wage of an hour, {}", trade.name);
        let wage = trade.wage.given().ok_or_else(|| not_given(&name))?;
        let wage = self.money(wage.value, &name, &wage.place, "")?;
        let mut parts = vec![named("wage".to_owned(), String::new(), wage)];
        for burden in &trade.burden {
            let name = format!("{}, {}", burden.name, trade.name);
            let (amount, how) = match &burden.amount {
                BurdenAmount::Hourly(amount) => (self.money(*amount, &name, &burden.place, "")?, String::new()),
                BurdenAmount::Rate(rate) => {
                    let figure = self.rate(*rate, &format!("rate of {name}"), &burden.place)?;
                    (self.cents_of(&[wage, figure], &name)?, format!("{} of the wage", rate.print()))
                }
            };
            parts.push(named(burden.name.clone(), how, amount));
        }
        if overtime {
            let name = format!("overtime premium, {}", trade.name);
            let rate = self.rate(trade.overtime, &format!("overtime rate, {}", trade.name), &trade.place)?;
            let (of, how) = match trade.overtime_wage.given() {
                Some(set) => {
                    let of = format!("wage for overtime, {}", trade.name);
                    (self.money(set.value, &of, &set.place, "")?, format!("of {}", set.value.print()))
                }
                None => (wage, "of the wage".to_owned()),
            };
            let amount = self.cents_of(&[of, rate], &name)?;
            parts.push(named("overtime premium".to_owned(), format!("{} {how}", trade.overtime.print()), amount));
        }
        let amounts: Vec<FigureId> = parts.iter().map(|part| part.amount).collect();
        let kind = if overtime { "overtime" } else { "regular" };
        let rate = self.sum_money(&amounts, &format!("rate of an hour, {}, {kind}", trade.name))?;
        Ok(HourlyRate { trade: trade.id.clone(), overtime, parts, rate })
    }

    pub(super) fn labor(&mut self, rates: &[HourlyRate]) -> Result<Vec<LaborCost>, FigureFault> {
        let mut hours: BTreeMap<(VisitKind, u32, &str, bool), Vec<FigureId>> = BTreeMap::new();
        let mut alike: FxHashMap<(VisitKind, &str, bool), Vec<FigureId>> = FxHashMap::default();
        for line in &self.takeoff.labor {
            alike.entry((line.visit, &*line.trade, line.overtime)).or_default().push(line.hours);
        }
        // Put in order at once: nothing here is done in the order of hashes.
        #[expect(clippy::iter_over_hash_type)]
        for ((visit, trade, overtime), lines) in alike {
            if let Some(trade) = self.catalog.trades.get(trade) {
                hours.insert((visit, trade.order, trade.id.as_str(), overtime), lines);
            }
        }
        let mut costs = Vec::new();
        for ((visit, _, trade, overtime), lines) in hours {
            let Some(rate) = rates.iter().find(|rate| rate.trade == trade && rate.overtime == overtime) else {
                continue;
            };
            let rate = rate.rate;
            let paid = if overtime { ", overtime" } else { "" };
            let of = format!("{trade}, {}{paid}", visit.word());
            let name = format!("hours of {of}");
            let hours = self.ledger().sum(&lines, Called::arithmetic(&name).shown(Shown::In(Unit::Hour)))?;
            let amount = self.hours_times(hours, rate, &format!("labor of {of}"))?;
            costs.push(LaborCost { visit, trade: trade.to_owned(), overtime, hours, rate, amount });
        }
        Ok(costs)
    }

    /// Hours times the rate of an hour, to the cent.
    pub(super) fn hours_times(&mut self, hours: FigureId, rate: FigureId, name: &str) -> PriceResult {
        let number = self.in_units(hours, Unit::Hour, &format!("hours for {name}"))?;
        self.cents_of(&[number, rate], name)
    }
}
