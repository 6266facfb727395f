//! Quantities and hours of two takeoffs, item by item, and the places where they differ.
//!
//! In: takeoffs. Out: changes in finished words. May not know: prices.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use serde::Serialize;

use super::State;
use super::renaming::Renaming;
use crate::measure::{Unit, rounded};
use crate::takeoff::EntityRef;

/// Decimal places of a quantity that does not end.
const PLACES: u32 = 4;

/// A quantity that differs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct QuantityChange {
    /// Id of the item; visit and trade of hours.
    pub id: String,
    /// What it is.
    pub name: String,
    /// Its unit.
    pub unit: String,
    /// What it was.
    #[serde(serialize_with = "super::digits")]
    pub before: Decimal,
    /// What it is.
    #[serde(serialize_with = "super::digits")]
    pub after: Decimal,
    /// The places where it differs.
    pub at: Vec<AtPlace>,
}

/// A quantity at one place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AtPlace {
    /// An opening by its mark now, a site, or the job.
    pub place: String,
    /// What it was there.
    #[serde(serialize_with = "super::digits")]
    pub before: Decimal,
    /// What it is there.
    #[serde(serialize_with = "super::digits")]
    pub after: Decimal,
}

/// Quantities by id and unit: what it is, and how much at each place.
pub(super) type QuantitiesById = BTreeMap<(String, String), (String, BTreeMap<String, Decimal>)>;

/// Net quantities of items. Openings go by the names that `now` gives them.
pub(super) fn taken(state: &State, now: &Renaming) -> QuantitiesById {
    let mut all = QuantitiesById::new();
    for line in &state.takeoff.lines {
        let Some(item) = state.catalog.items.get(&*line.item) else { continue };
        let Some(number) = state.takeoff.ledger.value(line.quantity).number_of(item.unit) else { continue };
        let key = (item.id.clone(), item.unit.word().to_owned());
        let entry = all.entry(key).or_insert_with(|| (item.name.clone(), BTreeMap::new()));
        *entry.1.entry(place(state, line.of, now)).or_default() += number;
    }
    all
}

/// Labor hours by visit and trade.
pub(super) fn worked(state: &State, now: &Renaming) -> QuantitiesById {
    let mut all = QuantitiesById::new();
    for line in &state.takeoff.labor {
        let Some(number) = state.takeoff.ledger.value(line.hours).number_of(Unit::Hour) else { continue };
        let trade = state.catalog.trades.get(&*line.trade).map_or(&*line.trade, |trade| trade.name.as_str());
        let key = (format!("{}, {}", line.visit.word(), line.trade), Unit::Hour.word().to_owned());
        let entry = all.entry(key).or_insert_with(|| (format!("{}, {trade}", line.visit.word()), BTreeMap::new()));
        *entry.1.entry(place(state, line.of, now)).or_default() += number;
    }
    all
}

/// An opening by its mark now, a run by its ends, else what the entity is called.
fn place(state: &State, of: EntityRef, now: &Renaming) -> String {
    let arrangement = &state.takeoff.arrangement;
    match (of.opening(), of) {
        (Some(at), _) => now.mark(&arrangement.openings[at].opening.mark),
        // Not by its number, which changes with every run that is typed before it.
        (None, EntityRef::Run(at)) => {
            let run = arrangement.runs[at].run;
            now.words(&format!("run {} to {}", run.from, run.to))
        }
        _ => state.takeoff.name(of).to_owned(),
    }
}

/// What differs, in order of ids. Sums are of places, so that changes at places add up to the change of the whole.
pub(super) fn compare(before: &QuantitiesById, after: &QuantitiesById) -> Vec<QuantityChange> {
    let keys: BTreeMap<_, _> = before.iter().chain(after).map(|(key, (name, _))| (key, name)).collect();
    let nothing = BTreeMap::new();
    let mut changes = Vec::new();
    for (key, name) in keys {
        let was = before.get(key).map_or(&nothing, |it| &it.1);
        let is = after.get(key).map_or(&nothing, |it| &it.1);
        let places: BTreeMap<&String, ()> = was.keys().chain(is.keys()).map(|place| (place, ())).collect();
        let number = |all: &BTreeMap<String, Decimal>, place: &str| {
            rounded(all.get(place).copied().unwrap_or_default(), PLACES).normalize()
        };
        let each = places.into_keys().map(|place| AtPlace {
            place: place.clone(),
            before: number(was, place),
            after: number(is, place),
        });
        let at: Vec<AtPlace> = each.filter(|it| it.before != it.after).collect();
        if at.is_empty() {
            continue;
        }
        let sum = |all: &BTreeMap<String, Decimal>| rounded(all.values().copied().sum(), PLACES).normalize();
        changes.push(QuantityChange {
            id: key.0.clone(),
            name: name.clone(),
            unit: key.1.clone(),
            before: sum(was),
            after: sum(is),
            at,
        });
    }
    changes
}
