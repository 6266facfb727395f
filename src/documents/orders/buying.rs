//! What is to buy of a supplier in all: net, with waste, in packs, and what is left over.
//!
//! In: rows of his list, the estimate's quantities. Out: printed rows. May not know: prices, sites.
//!
//! Packs are rounded once for the whole job, as the recap has them, so they stand here and not on the lines of sites.

use rust_decimal::Decimal;
use serde::Serialize;

use super::lines::{OrderContext, Row};
use crate::catalog::{Group, Item};
use crate::documents::printing::DASH;
use crate::estimate::{Estimate, ItemCost};
use crate::measure::Quantity;

/// An item in all.
#[derive(Clone, Debug, Serialize)]
pub struct ToBuy {
    /// Our item.
    pub item: String,
    /// Plain words.
    pub description: String,
    /// Sum of the lines below.
    pub lines: String,
    /// Released.
    pub released: String,
    /// With waste, up to what is sold.
    pub quantity: String,
    /// Whole packs; a dash where it is not sold in packs.
    pub packs: String,
    /// What is left over of the packs; a dash where nothing is.
    pub left: String,
}

/// What is to buy, by group and item.
pub(super) fn to_buy(context: &OrderContext, estimate: &Estimate, rows: &[&Row]) -> Vec<ToBuy> {
    let mut items: Vec<(Group, &Item)> =
        rows.iter().filter_map(|row| context.sources.catalog.items.get(row.item())).map(|it| (it.group, it)).collect();
    items.sort_by(|a, b| (a.0, &a.1.id).cmp(&(b.0, &b.1.id)));
    items.dedup_by(|a, b| a.1.id == b.1.id);
    let each = items.into_iter().filter_map(|(_, item)| {
        let cost = estimate.items.iter().find(|cost| cost.item == item.id)?;
        Some(row(context, item, cost, rows))
    });
    each.collect()
}

fn row(context: &OrderContext, item: &Item, cost: &ItemCost, rows: &[&Row]) -> ToBuy {
    let ledger = &context.sources.takeoff.ledger;
    let print = |quantity: Quantity| context.printing.quantity(quantity, item.unit);
    let sum = |released: bool| {
        let of = rows.iter().filter(|row| row.item() == item.id && (!released || row.is_released()));
        Quantity::new(of.map(|row| row.quantity.value()).sum(), item.unit.dimension())
    };
    let (packs, left) = match (&item.pack, &cost.packs) {
        (Some(pack), Some(of)) => {
            let count = ledger.value(of.packs).value();
            (format!("{}\u{a0}{}", count.normalize(), pack.name_of(count)), print(ledger.value(of.extra)))
        }
        // Nothing is left over: the packs hold just what is needed.
        (Some(pack), None) => {
            let count = ledger.value(cost.gross).value().checked_div(pack.holds.value()).unwrap_or(Decimal::ZERO);
            (format!("{}\u{a0}{}", count.normalize(), pack.name_of(count)), DASH.to_owned())
        }
        (None, _) => (DASH.to_owned(), DASH.to_owned()),
    };
    let released = sum(true);
    ToBuy {
        item: item.id.clone(),
        description: item.name.clone(),
        lines: print(sum(false)),
        released: if released.value().is_zero() { "none".to_owned() } else { print(released) },
        quantity: print(ledger.value(cost.gross)),
        packs,
        left,
    }
}
