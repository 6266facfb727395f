//! Items, packs, rates, labor, tasks and factors as rows of the recap.
//!
//! In: the estimate and the takeoff. Out: finished rows. May not know: what is done with them.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::super::printing::listed;
use super::{FactorRow, ItemRow, ItemTable, LaborRow, PackRow, RateRow, RecapWriter, TaskRow, plain};
use crate::catalog::{CostKind, Entity, VisitKind};
use crate::documents::{ConditionEvaluator, Unknown};
use crate::estimate::{ItemCost, LaborCost};
use crate::ledger::FigureId;
use crate::measure::Unit;
use crate::money::Money;
use crate::takeoff::EntityRef;

impl RecapWriter<'_> {
    pub(super) fn item_tables(&self) -> Vec<ItemTable> {
        let totals = &self.estimate.totals;
        let parts = [
            (CostKind::Material, "Material", totals.extensions),
            (CostKind::Subcontract, "Subcontracts", totals.subcontract),
            (CostKind::Equipment, "Equipment", totals.rentals),
            (CostKind::Travel, "Travel, permits and fees", totals.travel),
        ];
        let table = |(kind, title, total): (CostKind, &str, FigureId)| {
            let of_kind = |cost: &&ItemCost| self.item(cost).is_some_and(|item| item.cost == kind);
            let mut running = Money::ZERO;
            let row = |cost: &ItemCost| {
                running = running + Money::dollars(self.sources.takeoff.ledger.value(cost.extension).value());
                self.item_row(cost, running)
            };
            let rows: Vec<ItemRow> = self.estimate.items.iter().filter(of_kind).filter_map(row).collect();
            (!rows.is_empty()).then(|| ItemTable { title: title.to_owned(), rows, total: self.money(total) })
        };
        parts.into_iter().filter_map(table).collect()
    }

    pub(super) fn item(&self, cost: &ItemCost) -> Option<&crate::catalog::Item> {
        self.sources.catalog.items.get(&cost.item)
    }

    pub(super) fn item_row(&self, cost: &ItemCost, running: Money) -> Option<ItemRow> {
        let item = self.item(cost)?;
        Some(ItemRow {
            name: item.name.clone(),
            net: self.number(cost.net, item.unit),
            waste: item.waste.print(),
            quantity: self.number(cost.gross, item.unit),
            unit: item.unit.word().to_owned(),
            price: self.money(cost.price),
            extension: self.money(cost.extension),
            running: running.print(),
            mark: if cost.quoted { "quote" } else { "" }.to_owned(),
        })
    }

    pub(super) fn packs(&self) -> Vec<PackRow> {
        let row = |cost: &ItemCost| {
            let (item, packs) = (self.item(cost)?, cost.packs.as_ref()?);
            let pack = item.pack.as_ref()?;
            let count = self.sources.takeoff.ledger.value(packs.packs).value();
            Some(PackRow {
                name: item.name.clone(),
                packs: format!("{} {}", self.number(packs.packs, Unit::Each), pack.name_of(count)),
                extra: format!("{} {}", self.number(packs.extra, item.unit), item.unit.word()),
                cost: self.money(packs.cost),
            })
        };
        self.estimate.items.iter().filter_map(row).collect()
    }

    pub(super) fn trade(&self, id: &str, overtime: bool) -> String {
        let name = self.sources.catalog.trades.get(id).map_or(id, |trade| trade.name.as_str());
        if overtime { format!("{name}, overtime") } else { name.to_owned() }
    }

    pub(super) fn rates(&self) -> Vec<RateRow> {
        let each = self.estimate.rates.iter().map(|rate| {
            let parts: Vec<String> =
                rate.parts.iter().map(|part| format!("{} {}", part.name, self.money(part.amount))).collect();
            RateRow {
                trade: self.trade(&rate.trade, rate.overtime),
                parts: parts.join(" + "),
                rate: self.money(rate.rate),
            }
        });
        each.collect()
    }

    pub(super) fn labor(&self, line: &LaborCost) -> LaborRow {
        LaborRow {
            visit: line.visit.word().to_owned(),
            trade: self.trade(&line.trade, line.overtime),
            hours: self.number(line.hours, Unit::Hour),
            rate: self.money(line.rate),
            amount: self.money(line.amount),
        }
    }

    pub(super) fn hours_total(&self) -> String {
        let ledger = &self.sources.takeoff.ledger;
        let hours = self.estimate.labor.iter().filter_map(|line| ledger.value(line.hours).number_of(Unit::Hour));
        plain(hours.sum(), 2)
    }

    pub(super) fn tasks(&self) -> Vec<TaskRow> {
        let takeoff = self.sources.takeoff;
        let mut sums: BTreeMap<(VisitKind, String), (usize, Decimal)> = BTreeMap::new();
        for line in &takeoff.labor {
            let hours = takeoff.ledger.value(line.hours).number_of(Unit::Hour).unwrap_or_default();
            let sum = sums.entry((line.visit, line.task.as_deref().unwrap_or_default().to_owned())).or_default();
            sum.0 += 1;
            sum.1 += hours;
        }
        let row = |((visit, id), (lines, hours)): ((VisitKind, String), (usize, Decimal))| {
            let task = self.sources.catalog.tasks.get(&id);
            TaskRow {
                visit: visit.word().to_owned(),
                task: task.map_or_else(|| "minimum hours of the visit".to_owned(), |task| task.name.clone()),
                lines: lines.to_string(),
                each: task.map_or_else(String::new, |task| {
                    task.hours.number_of(Unit::Hour).map(|hours| plain(hours, 3)).unwrap_or_default()
                }),
                hours: plain(hours, 2),
                source: task.map_or_else(String::new, |task| task.source.clone()),
            }
        };
        sums.into_iter().map(row).collect()
    }

    pub(super) fn factors(&self) -> Vec<FactorRow> {
        let takeoff = self.sources.takeoff;
        let conditions = ConditionEvaluator::new(self.sources);
        let each = self.sources.catalog.factors.values().map(|factor| {
            let holds = |of: &EntityRef| conditions.holds(Some(&factor.when), *of, Unknown::No);
            let at = takeoff.entities(Entity::Opening).into_iter().filter(holds).filter_map(EntityRef::opening);
            let marks = at.filter_map(|at| Some(takeoff.arrangement.openings.get(at)?.opening.mark.clone()));
            FactorRow {
                name: factor.name.clone(),
                factor: match (factor.factor, factor.overtime) {
                    (Some(value), true) => format!("× {value}, overtime"),
                    (Some(value), false) => format!("× {value}"),
                    (None, _) => "overtime".to_owned(),
                },
                source: factor.source.clone(),
                openings: listed(marks, ", "),
            }
        });
        each.collect()
    }
}
