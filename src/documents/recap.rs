//! The estimate recap: how the bid came to be. It never leaves the office.
//!
//! In: sources, the estimate, alternates with their interactions. Out: a view of finished strings.
//! May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::bid::amount;
use super::{Count, Letterhead, Sources, counts, letterhead};
use crate::catalog::CostKind;
use crate::estimate::{AlternatePrice, Estimate, Interaction, ItemCost, LaborCost, Named};
use crate::findings::Severity;
use crate::ledger::FigureId;
use crate::measure::{Style, Unit};

/// A priced item.
#[derive(Clone, Debug, Serialize)]
pub struct ItemRow {
    /// What it is.
    pub name: String,
    /// Net quantity.
    pub net: String,
    /// Waste.
    pub waste: String,
    /// Quantity priced.
    pub quantity: String,
    /// Unit.
    pub unit: String,
    /// Price of one.
    pub price: String,
    /// Extension.
    pub extension: String,
    /// `quote` where a quote gave the price.
    pub mark: String,
}

/// Items of one part of the cost.
#[derive(Clone, Debug, Serialize)]
pub struct ItemTable {
    /// The part.
    pub title: String,
    /// Its items.
    pub rows: Vec<ItemRow>,
    /// Their sum.
    pub total: String,
}

/// What rounding to packs adds.
#[derive(Clone, Debug, Serialize)]
pub struct PackRow {
    /// The item.
    pub name: String,
    /// Packs bought.
    pub packs: String,
    /// Beyond what is needed.
    pub extra: String,
    /// Cost.
    pub cost: String,
}

/// A name, how it is taken, and an amount.
#[derive(Clone, Debug, Serialize)]
pub struct AmountRow {
    /// Name.
    pub name: String,
    /// How it is taken.
    pub how: String,
    /// Amount.
    pub amount: String,
}

/// The rate of an hour.
#[derive(Clone, Debug, Serialize)]
pub struct RateRow {
    /// Trade, and whether overtime.
    pub trade: String,
    /// Its parts in one line.
    pub parts: String,
    /// The rate.
    pub rate: String,
}

/// Labor of a trade in a visit.
#[derive(Clone, Debug, Serialize)]
pub struct LaborRow {
    /// Visit.
    pub visit: String,
    /// Trade.
    pub trade: String,
    /// Hours.
    pub hours: String,
    /// Rate.
    pub rate: String,
    /// Amount.
    pub amount: String,
}

/// Hours of a task over the job.
#[derive(Clone, Debug, Serialize)]
pub struct TaskRow {
    /// Visit.
    pub visit: String,
    /// The task.
    pub task: String,
    /// Lines it stands in.
    pub lines: String,
    /// Hours for one.
    pub each: String,
    /// Hours in all.
    pub hours: String,
    /// Where the hours come from.
    pub source: String,
}

/// The view of the recap.
#[derive(Clone, Debug, Serialize)]
pub struct RecapView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// The base bid.
    pub base_bid: String,
    /// From cost to bid, line by line; the last is the bid.
    pub build_up: Vec<AmountRow>,
    /// Items by part of the cost.
    pub items: Vec<ItemTable>,
    /// Rounding to packs.
    pub packs: Vec<PackRow>,
    /// Its sum.
    pub packs_total: String,
    /// Freight and taxes.
    pub additions: Vec<AmountRow>,
    /// Rates.
    pub rates: Vec<RateRow>,
    /// Labor.
    pub labor: Vec<LaborRow>,
    /// Hours of all labor.
    pub hours_total: String,
    /// Labor in all.
    pub labor_total: String,
    /// Hours by task.
    pub tasks: Vec<TaskRow>,
    /// Factors on hours: name, factor, where it comes from.
    pub factors: Vec<[String; 3]>,
    /// Alternates: number, title, bid with it, change.
    pub alternates: Vec<[String; 4]>,
    /// Alternates that come to something else together.
    pub interactions: Vec<AmountRow>,
    /// Unit prices.
    pub unit_prices: Vec<AmountRow>,
    /// What is unknown or was warned of.
    pub warnings: Vec<String>,
}

/// The view of the recap.
pub fn recap(
    sources: &Sources,
    estimate: &Estimate,
    alternates: &[AlternatePrice],
    interactions: &[Interaction],
) -> RecapView {
    let teller = Teller { sources, estimate };
    let money = |figure: FigureId| amount(sources.takeoff, figure);
    RecapView {
        head: letterhead(sources, "Estimate recap"),
        counts: counts(sources, None),
        base_bid: money(estimate.bid),
        build_up: teller.build_up(),
        items: teller.item_tables(),
        packs: teller.packs(),
        packs_total: money(estimate.totals.packs),
        additions: teller.named(estimate.freight.iter().chain(&estimate.taxes)),
        rates: teller.rates(),
        labor: estimate.labor.iter().map(|line| teller.labor(line)).collect(),
        hours_total: teller.hours_total(),
        labor_total: money(estimate.totals.labor),
        tasks: teller.tasks(),
        factors: teller.factors(),
        alternates: alternates
            .iter()
            .map(|it| [it.number.clone(), it.title.clone(), money(it.with), money(it.change)])
            .collect(),
        interactions: interactions
            .iter()
            .map(|it| AmountRow {
                name: format!("Alternates {} and {} together", it.numbers.0, it.numbers.1),
                how: "differs from the sum of both by".to_owned(),
                amount: money(it.difference),
            })
            .collect(),
        unit_prices: estimate
            .unit_prices
            .iter()
            .map(|it| AmountRow {
                name: format!("{} {}", it.number, it.title),
                how: it.unit.clone(),
                amount: money(it.price),
            })
            .collect(),
        warnings: teller.warnings(),
    }
}

struct Teller<'a> {
    sources: &'a Sources<'a>,
    estimate: &'a Estimate,
}

impl Teller<'_> {
    fn money(&self, figure: FigureId) -> String {
        amount(self.sources.takeoff, figure)
    }

    /// A quantity as a number of a unit, without the unit's word.
    fn number(&self, figure: FigureId, unit: Unit) -> String {
        let value = self.sources.takeoff.ledger.value(figure).number_of(unit).unwrap_or_default();
        let places = if unit == Unit::Each && value.fract().is_zero() { 0 } else { 2 };
        let printed = crate::measure::Quantity::count(value).print(Unit::Each, places, Style::Page).unwrap_or_default();
        printed.split(['\u{a0}', ' ']).next().unwrap_or_default().to_owned()
    }

    fn build_up(&self) -> Vec<AmountRow> {
        let totals = &self.estimate.totals;
        let row = |name: &str, how: &str, figure: FigureId| AmountRow {
            name: name.to_owned(),
            how: how.to_owned(),
            amount: self.money(figure),
        };
        let mut rows = vec![
            row("Material, extensions", "", totals.extensions),
            row("Rounding to packs", "", totals.packs),
            row("Freight", "", totals.freight),
            row("Taxes on material", "", totals.tax),
            row("Labor", "", totals.labor),
            row("Subcontracts", "", totals.subcontract),
            row("Equipment", "with its taxes", totals.equipment),
            row("Travel, permits and fees", "", totals.travel),
            row("Direct cost", "sum of the lines above", totals.direct),
        ];
        rows.extend(self.named(&self.estimate.marks));
        rows.extend(self.named(&self.estimate.allowances));
        rows.extend(self.named(&self.estimate.adjustments));
        rows.extend(self.named(&self.estimate.bond));
        rows.push(row("Base bid", "direct cost and the lines below it", self.estimate.bid));
        rows
    }

    fn named<'n>(&self, named: impl IntoIterator<Item = &'n Named>) -> Vec<AmountRow> {
        let row = |it: &Named| AmountRow { name: it.name.clone(), how: it.how.clone(), amount: self.money(it.amount) };
        named.into_iter().map(row).collect()
    }

    fn item_tables(&self) -> Vec<ItemTable> {
        let totals = &self.estimate.totals;
        let parts = [
            (CostKind::Material, "Material", totals.extensions),
            (CostKind::Subcontract, "Subcontracts", totals.subcontract),
            (CostKind::Equipment, "Equipment", totals.rentals),
            (CostKind::Travel, "Travel, permits and fees", totals.travel),
        ];
        let table = |(kind, title, total): (CostKind, &str, FigureId)| {
            let of_kind = |cost: &&ItemCost| self.item(cost).is_some_and(|item| item.cost == kind);
            let rows: Vec<ItemRow> =
                self.estimate.items.iter().filter(of_kind).filter_map(|cost| self.item_row(cost)).collect();
            (!rows.is_empty()).then(|| ItemTable { title: title.to_owned(), rows, total: self.money(total) })
        };
        parts.into_iter().filter_map(table).collect()
    }

    fn item(&self, cost: &ItemCost) -> Option<&crate::catalog::Item> {
        self.sources.catalog.items.get(&cost.item)
    }

    fn item_row(&self, cost: &ItemCost) -> Option<ItemRow> {
        let item = self.item(cost)?;
        Some(ItemRow {
            name: item.name.clone(),
            net: self.number(cost.net, item.unit),
            waste: item.waste.print(),
            quantity: self.number(cost.gross, item.unit),
            unit: item.unit.word().to_owned(),
            price: self.money(cost.price),
            extension: self.money(cost.extension),
            mark: if cost.quoted { "quote" } else { "" }.to_owned(),
        })
    }

    fn packs(&self) -> Vec<PackRow> {
        let row = |cost: &ItemCost| {
            let (item, packs) = (self.item(cost)?, cost.packs.as_ref()?);
            let pack = item.pack.as_ref()?;
            Some(PackRow {
                name: item.name.clone(),
                packs: format!("{} {}", self.number(packs.packs, Unit::Each), pack.name),
                extra: format!("{} {}", self.number(packs.extra, item.unit), item.unit.word()),
                cost: self.money(packs.cost),
            })
        };
        self.estimate.items.iter().filter_map(row).collect()
    }

    fn trade(&self, id: &str, overtime: bool) -> String {
        let name = self.sources.catalog.trades.get(id).map_or(id, |trade| trade.name.as_str());
        if overtime { format!("{name}, overtime") } else { name.to_owned() }
    }

    fn rates(&self) -> Vec<RateRow> {
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

    fn labor(&self, line: &LaborCost) -> LaborRow {
        LaborRow {
            visit: line.visit.word().to_owned(),
            trade: self.trade(&line.trade, line.overtime),
            hours: self.number(line.hours, Unit::Hour),
            rate: self.money(line.rate),
            amount: self.money(line.amount),
        }
    }

    fn hours_total(&self) -> String {
        let ledger = &self.sources.takeoff.ledger;
        let hours = self.estimate.labor.iter().filter_map(|line| ledger.value(line.hours).number_of(Unit::Hour));
        let sum = crate::measure::Quantity::count(hours.sum::<rust_decimal::Decimal>());
        let printed = sum.print(Unit::Each, 2, Style::Page).unwrap_or_default();
        printed.split(['\u{a0}', ' ']).next().unwrap_or_default().to_owned()
    }

    fn tasks(&self) -> Vec<TaskRow> {
        let takeoff = self.sources.takeoff;
        let mut sums: BTreeMap<(crate::catalog::VisitKind, String), (usize, rust_decimal::Decimal)> = BTreeMap::new();
        for line in &takeoff.labor {
            let hours = takeoff.ledger.value(line.hours).number_of(Unit::Hour).unwrap_or_default();
            let sum = sums.entry((line.visit, line.task.clone().unwrap_or_default())).or_default();
            sum.0 += 1;
            sum.1 += hours;
        }
        let plain = |value: rust_decimal::Decimal, places: u32| {
            let printed = crate::measure::Quantity::count(value).print(Unit::Each, places, Style::Page);
            printed.unwrap_or_default().split(['\u{a0}', ' ']).next().unwrap_or_default().to_owned()
        };
        let row =
            |((visit, id), (lines, hours)): ((crate::catalog::VisitKind, String), (usize, rust_decimal::Decimal))| {
                let task = self.sources.catalog.tasks.get(&id);
                TaskRow {
                    visit: visit.word().to_owned(),
                    task: task.map_or_else(|| "least hours of the visit".to_owned(), |task| task.name.clone()),
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

    fn factors(&self) -> Vec<[String; 3]> {
        let each = self.sources.catalog.factors.values().map(|factor| {
            let factor_text = match (factor.factor, factor.overtime) {
                (Some(value), true) => format!("× {value}, overtime"),
                (Some(value), false) => format!("× {value}"),
                (None, _) => "overtime".to_owned(),
            };
            [factor.name.clone(), factor_text, factor.source.clone()]
        });
        each.collect()
    }

    fn warnings(&self) -> Vec<String> {
        let warnings = self.sources.findings.iter().filter(|finding| finding.code.severity == Severity::Warning);
        let mut said: Vec<String> =
            warnings.map(|it| format!("{}: {}", it.subject, it.sentence().replace('`', ""))).collect();
        said.extend(self.sources.accepted.iter().map(|it| {
            let sentence = it.finding.sentence().replace('`', "");
            format!("{}: {sentence}. Accepted: {}", it.finding.subject, it.reason)
        }));
        said.dedup();
        said
    }
}
