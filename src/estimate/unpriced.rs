//! Lines that nobody has priced: told before anything is added up, each once, however often it is used.
//!
//! In: takeoff lines, unit prices, catalog. Out: one finding an item or trade, and whether a price can be worked out.
//! May not know: quantities.

use std::collections::BTreeSet;

use rustc_hash::FxHashSet;

use super::codes::{FREE_LINE, UNPRICED_LINE};
use crate::catalog::{Catalog, Item, Trade};
use crate::findings::{Finding, Findings, Place, Subject};
use crate::job::{Job, PartOf};
use crate::takeoff::Takeoff;

/// Reports items and hours that are used and have no price, and says whether all have one. What was typed and cannot be
/// read was reported where it was read, and is not told again.
pub(super) fn all_priced(takeoff: &Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) -> bool {
    let mut priced = true;
    for item in used_items(takeoff, job).into_iter().filter_map(|id| catalog.items.get(id)) {
        let quote = job.quotes.get(&item.id).map(|quote| (quote.price, &quote.place));
        let price = quote.or_else(|| item.price.given().map(|given| (given.value, &given.place)));
        if let Some((_, place)) = price.filter(|(price, _)| price.is_zero()) {
            findings.push(free(("item", &item.id), &item.name, place));
        }
        if quote.is_some() {
            continue;
        }
        priced &= item.price.given().is_some();
        if item.price.is_absent() || (item.priced.is_absent() && item.price.given().is_some()) {
            findings.push(unpriced_item(item, job));
        }
    }
    for trade in used_trades(takeoff, job, catalog).into_iter().filter_map(|id| catalog.trades.get(id)) {
        priced &= trade.wage.given().is_some();
        if let Some(given) = trade.wage.given().filter(|given| given.value.is_zero()) {
            findings.push(free(("trade", &trade.id), &format!("an hour of {}", trade.name), &given.place));
        }
        if trade.wage.is_absent() {
            findings.push(unpriced_trade(trade));
        }
    }
    priced
}

fn used_items<'t>(takeoff: &'t Takeoff, job: &'t Job) -> BTreeSet<&'t str> {
    let parts = job.unit_prices.iter().flat_map(|price| &price.parts).filter_map(|part| match &part.of {
        PartOf::Item(id) => Some(id.as_str()),
        PartOf::Task(_) => None,
    });
    once(takeoff.lines.iter().map(|line| &*line.item)).chain(parts).collect()
}

fn used_trades<'t>(takeoff: &'t Takeoff, job: &'t Job, catalog: &'t Catalog) -> BTreeSet<&'t str> {
    let parts = job.unit_prices.iter().flat_map(|price| &price.parts).filter_map(|part| match &part.of {
        PartOf::Item(_) => None,
        PartOf::Task(id) => catalog.tasks.get(id).map(|task| task.trade.as_str()),
    });
    once(takeoff.labor.iter().map(|line| &*line.trade)).chain(parts).collect()
}

/// Names without those that were there before: lines are many, items and trades few.
fn once<'t>(names: impl Iterator<Item = &'t str>) -> impl Iterator<Item = &'t str> {
    let mut seen = FxHashSet::default();
    names.filter(move |name| seen.insert(*name))
}

/// What is used at a price of zero.
fn free((kind, id): (&'static str, &str), name: &str, place: &Place) -> Finding {
    Finding::new(&FREE_LINE, Subject::Entry(kind, id.to_owned()))
        .at(place.clone())
        .found(name)
        .asked("assumed: it costs nothing")
        .price("nothing for it is in the bid")
        .advise("write its price, or accept this with the reason why it is free")
}

fn unpriced_item(item: &Item, job: &Job) -> Finding {
    let keys = match (item.price.is_absent(), item.priced.is_absent()) {
        (true, true) => format!("price = \"…\" and priced = {}", job.head.date),
        (true, false) => "price = \"…\"".to_owned(),
        _ => format!("priced = {}, the day of its price", job.head.date),
    };
    let lacks = if item.price.is_absent() { "has no price" } else { "has a price without its day" };
    Finding::new(&UNPRICED_LINE, Subject::Entry("item", item.id.clone()))
        .at(item.place.clone())
        .found(format!("{} (item `{}`) {lacks}", item.name, item.id))
        .asked("a price and its day, in the catalog or by a quote")
        .advise(format!("under [item.{}] add {keys}; or add a [[quote]] to the job", item.id))
}

fn unpriced_trade(trade: &Trade) -> Finding {
    Finding::new(&UNPRICED_LINE, Subject::Entry("trade", trade.id.clone()))
        .at(trade.place.clone())
        .found(format!("an hour of {} (trade `{}`) has no wage", trade.name, trade.id))
        .asked("a base wage")
        .advise(format!("under [trade.{}] add wage = \"…\"", trade.id))
}
