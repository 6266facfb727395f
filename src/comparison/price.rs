//! The prices of two states of a job, line by line, each change parted into what quantity and what price made of it.
//!
//! In: two estimates. Out: lines that add up to the change of the bid, to the cent. May not know: how a line was made.
//!
//! A line of q₀ at p₀ that becomes q₁ at p₁ changes by (q₁ − q₀) p₀ through its quantity and by q₁ (p₁ − p₀) through its
//! price, which is all of it. Each part is rounded to cents; what the rounding leaves is told apart. Lines without a
//! quantity, such as freight and overhead, change with the lines they are taken of.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde::Serialize;

use super::State;
use crate::catalog::Catalog;
use crate::estimate::{Estimate, Named};
use crate::ledger::FigureId;
use crate::measure::Unit;
use crate::money::{Money, Rounding, round_cents};

/// How the bid changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PriceChange {
    /// The base bid before, in dollars.
    #[serde(serialize_with = "super::digits")]
    pub before: Decimal,
    /// The base bid after.
    #[serde(serialize_with = "super::digits")]
    pub after: Decimal,
    /// Lines that differ; their changes come to that of the bid.
    pub lines: Vec<PriceLine>,
    /// Alternates that differ, which are no part of the bid.
    pub alternates: Vec<PriceLine>,
}

/// A line of the price that differs. Amounts in dollars and whole cents.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PriceLine {
    /// Part of the price it stands in.
    pub part: String,
    /// What it is.
    pub name: String,
    /// The amount before; 0 where the line is new.
    #[serde(serialize_with = "super::digits")]
    pub before: Decimal,
    /// The amount after; 0 where the line is gone.
    #[serde(serialize_with = "super::digits")]
    pub after: Decimal,
    /// What the change of its quantity made of it, where it has a quantity.
    #[serde(serialize_with = "super::digits_or_none")]
    pub by_quantity: Option<Decimal>,
    /// What the change of its price made of it.
    #[serde(serialize_with = "super::digits_or_none")]
    pub by_price: Option<Decimal>,
}

impl PriceChange {
    /// Whether nothing differs.
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty() && self.alternates.is_empty()
    }
}

impl PriceLine {
    /// The amount after less that before.
    pub fn change(&self) -> Decimal {
        self.after - self.before
    }
}

/// One line of an estimate.
struct Line {
    name: String,
    amount: Decimal,
    /// Quantity and price, where it has them.
    of: Option<(Decimal, Decimal)>,
}

/// A line's part, by its position in [`PARTS`], and its id or name.
type Key = (usize, String);

/// Lines in the order in which the price is built up.
type Lines = Vec<(Key, Line)>;

/// The parts of a price, in the order in which it is built up.
const PARTS: [&str; 9] = [
    "items",
    "rounding to packs",
    "freight",
    "taxes",
    "labor",
    "overhead and profit",
    "allowances",
    "adjustments",
    "bond",
];

/// The change of the price; none where either state has no price.
pub(super) fn compare(before: &State, after: &State) -> Option<PriceChange> {
    let (was, is) = (before.estimate?, after.estimate?);
    let (old, new) = (lines(before, was), lines(after, is));
    let has = |lines: &Lines, key: &Key| lines.iter().any(|(other, _)| other == key);
    let mut keys: Vec<&Key> = new.iter().map(|(key, _)| key).collect();
    keys.extend(old.iter().map(|(key, _)| key).filter(|key| !has(&new, key)));
    // What is gone stands after what is there, part by part.
    keys.sort_by_key(|key| key.0);
    let of = |lines: &'_ Lines, key: &Key| lines.iter().position(|(other, _)| other == key);
    let each = keys.into_iter().filter_map(|key| {
        let (was, is) = (of(&old, key).map(|at| &old[at].1), of(&new, key).map(|at| &new[at].1));
        line(PARTS[key.0], was, is)
    });
    let alternates = alternates(before, after);
    let (before, after) = (dollars(before, was.bid), dollars(after, is.bid));
    Some(PriceChange { before, after, lines: each.collect(), alternates })
}

/// A line that differs in anything.
fn line(part: &str, before: Option<&Line>, after: Option<&Line>) -> Option<PriceLine> {
    let amount = |line: Option<&Line>| line.map_or(Decimal::ZERO, |line| line.amount);
    let (was, is) = (before.and_then(|it| it.of), after.and_then(|it| it.of));
    if amount(before) == amount(after) && was == is {
        return None;
    }
    // A line that came or went did so by its quantity, at the price it has.
    let parted = match (was, is) {
        (Some((q0, p0)), Some((q1, p1))) => Some(((q1 - q0) * p0, q1 * (p1 - p0))),
        (Some((q0, p0)), None) => Some((-q0 * p0, Decimal::ZERO)),
        (None, Some((q1, p1))) => Some((q1 * p1, Decimal::ZERO)),
        (None, None) => None,
    };
    Some(PriceLine {
        part: part.to_owned(),
        name: after.or(before).map(|line| line.name.clone())?,
        before: amount(before),
        after: amount(after),
        by_quantity: parted.map(|(it, _)| cents(it)),
        by_price: parted.map(|(_, it)| cents(it)),
    })
}

fn cents(amount: Decimal) -> Decimal {
    round_cents(Money::dollars(amount), Rounding::HalfAwayFromZero).to_dollars()
}

fn dollars(state: &State, figure: FigureId) -> Decimal {
    state.takeoff.ledger.value(figure).number_of(Unit::Dollar).unwrap_or_default()
}

fn lines(state: &State, estimate: &Estimate) -> Lines {
    let mut all = Lines::new();
    let catalog = state.catalog;
    for cost in &estimate.items {
        let Some(item) = catalog.items.get(&cost.item) else { continue };
        let gross = state.takeoff.ledger.value(cost.gross).number_of(item.unit).unwrap_or_default();
        let line = Line {
            name: item.name.clone(),
            amount: dollars(state, cost.extension),
            of: Some((gross, dollars(state, cost.price))),
        };
        all.push(((0, cost.item.clone()), line));
        if let Some(packs) = &cost.packs {
            let line = Line { name: item.name.clone(), amount: dollars(state, packs.cost), of: None };
            all.push(((1, cost.item.clone()), line));
        }
    }
    named(state, &mut all, 2, &estimate.freight);
    named(state, &mut all, 3, &estimate.taxes);
    for cost in &estimate.labor {
        let hours = state.takeoff.ledger.value(cost.hours).number_of(Unit::Hour).unwrap_or_default();
        let name = visit_and_trade(catalog, cost.visit.word(), &cost.trade, cost.overtime);
        let of = Some((hours, dollars(state, cost.rate)));
        all.push(((4, name.clone()), Line { name, amount: dollars(state, cost.amount), of }));
    }
    named(state, &mut all, 5, &estimate.marks);
    named(state, &mut all, 6, &estimate.allowances);
    named(state, &mut all, 7, &estimate.adjustments);
    named(state, &mut all, 8, estimate.bond.as_slice());
    all
}

fn visit_and_trade(catalog: &Catalog, visit: &str, trade: &str, overtime: bool) -> String {
    let trade = catalog.trades.get(trade).map_or(trade, |trade| trade.name.as_str());
    format!("{visit}, {trade}{}", if overtime { ", overtime" } else { "" })
}

/// Amounts with names; of several with one name each has its place in their order.
fn named(state: &State, all: &mut Lines, part: usize, list: &[Named]) {
    for it in list {
        let line = Line { name: it.name.clone(), amount: dollars(state, it.amount), of: None };
        let mut key = (part, it.name.clone());
        while all.iter().any(|(other, _)| *other == key) {
            key.1.push('\'');
        }
        all.push((key, line));
    }
}

fn alternates(before: &State, after: &State) -> Vec<PriceLine> {
    let of = |state: &State| {
        let each = state.alternates.iter();
        each.map(|it| {
            let line =
                Line { name: format!("{} {}", it.number, it.title), amount: dollars(state, it.change), of: None };
            (it.number.clone(), line)
        })
        .collect::<BTreeMap<_, _>>()
    };
    let (old, new) = (of(before), of(after));
    let keys: BTreeMap<&String, ()> = old.keys().chain(new.keys()).map(|key| (key, ())).collect();
    keys.into_keys()
        .filter_map(|key| {
            let (was, is) = (old.get(key), new.get(key));
            match (was, is) {
                // An alternate that costs nothing and is new, or gone, differs all the same.
                (Some(one), Some(other)) if one.amount == other.amount => None,
                _ => line("alternates", was, is).or_else(|| blank(was.or(is)?)),
            }
        })
        .collect()
}

fn blank(line: &Line) -> Option<PriceLine> {
    let (name, part) = (line.name.clone(), "alternates".to_owned());
    Some(PriceLine { part, name, before: line.amount, after: line.amount, by_quantity: None, by_price: None })
}
