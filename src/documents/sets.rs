//! Hardware sets: openings that hold the same items, one list for all of them.
//!
//! In: takeoff lines of openings, the owner's order of places. Out: sets with lines, and totals beside the takeoff's own.
//! May not know: pages.
//!
//! Openings are of one set when every item line is the same: item, quantity, pieces and their lengths, finish, and label.
//! A bracket of the other hand therefore makes another set, as it must for whoever packs cartons by set.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;
use serde::Serialize;

use super::Sources;
use super::printing::{DASH, Printing, or_dash};
use crate::catalog::{Group, Item, SetPlace};
use crate::job::Rating;
use crate::measure::{Dimension, Quantity, Style, Unit};

/// One line of a set.
#[derive(Clone, Debug, Serialize)]
pub struct SetLine {
    /// Its number in the set.
    pub number: String,
    /// How many for one opening.
    pub each: String,
    /// How many for all openings of the set.
    pub all: String,
    /// Unit of both.
    pub unit: String,
    /// Plain words.
    pub description: String,
    /// Size, or length of the piece.
    pub size: String,
    /// Standard and type.
    pub standard: String,
    /// Finish.
    pub finish: String,
    /// `F` where it is listed for labelled openings.
    pub fire: String,
    /// `E` where it is electrified.
    pub flag: String,
}

/// The lines of a place in a set, such as all that hangs the leaf.
#[derive(Clone, Debug, Serialize)]
pub struct PlaceLines {
    /// The place.
    pub place: String,
    /// Its lines.
    pub lines: Vec<SetLine>,
}

/// A set before it is printed.
#[derive(Clone, Debug)]
pub(super) struct HardwareSet {
    /// Positions of its openings.
    pub openings: Vec<usize>,
    /// What one opening holds.
    pub holds: Vec<(Entry, Decimal)>,
}

/// One kind of thing in a set: what tells two lines apart, in printing order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Entry {
    /// Position of its place in the owner's order.
    place: usize,
    group: Group,
    name: String,
    /// The item.
    pub item: String,
    /// Length of the piece, in millimetres; none for what is counted.
    piece: Option<Decimal>,
    finish: String,
}

/// What a total says of an item.
#[derive(Clone, Debug, Serialize)]
pub struct SetTotal {
    /// Plain words.
    pub description: String,
    /// Unit.
    pub unit: String,
    /// Sum over all sets.
    pub in_sets: String,
    /// What the takeoff holds apart from openings, such as stock for a site.
    pub elsewhere: String,
    /// The takeoff's own total.
    pub takeoff: String,
}

/// The owner's order of places: as the profile gives it, then whatever it leaves out.
pub(super) fn place_order(sources: &Sources) -> Vec<SetPlace> {
    let profile = sources.catalog.profiles.get(&sources.cleared.job().head.profile);
    let mut order: Vec<SetPlace> = profile.map(|it| it.set_order.clone()).unwrap_or_default();
    let rest = SetPlace::ALL.iter().filter(|place| !order.contains(place)).copied().collect::<Vec<_>>();
    order.extend(rest);
    order.retain(|place| *place != SetPlace::Apart);
    order
}

/// The sets of the job, in the order of their first openings.
pub(super) fn sets(sources: &Sources) -> Vec<HardwareSet> {
    let order = place_order(sources);
    let mut found: Vec<(HardwareSet, Rating)> = Vec::new();
    for (at, work) in sources.takeoff.arrangement.openings.iter().enumerate() {
        let holds = held(sources, at, &order);
        let rating = work.opening.entry.rating.or(Rating::None);
        match found.iter_mut().find(|(set, of)| set.holds == holds && *of == rating) {
            Some((set, _)) => set.openings.push(at),
            None => found.push((HardwareSet { openings: vec![at], holds }, rating)),
        }
    }
    found.into_iter().map(|(set, _)| set).collect()
}

/// What an opening holds: things counted are added up, pieces of one length are counted.
fn held(sources: &Sources, at: usize, order: &[SetPlace]) -> Vec<(Entry, Decimal)> {
    let takeoff = sources.takeoff;
    let mut held: BTreeMap<Entry, Decimal> = BTreeMap::new();
    for line in takeoff.lines.iter().filter(|line| line.of.opening() == Some(at)) {
        let Some(item) = sources.catalog.items.get(&line.item) else { continue };
        let Some(place) = order.iter().position(|place| *place == item.set) else { continue };
        let quantity = takeoff.ledger.value(line.quantity);
        let is_piece = quantity.dimension() == Dimension::LENGTH;
        let entry = Entry {
            place,
            group: item.group,
            name: item.name.clone(),
            item: item.id.clone(),
            piece: is_piece.then(|| quantity.value().normalize()),
            finish: finish(sources, item, at),
        };
        *held.entry(entry).or_default() += if is_piece { Decimal::ONE } else { quantity.value() };
    }
    held.into_iter().collect()
}

/// The finish of an item. Headers, arms and trim come in the opening's finish, where it names one; the rest in their own.
fn finish(sources: &Sources, item: &Item, at: usize) -> String {
    let opening = &sources.takeoff.arrangement.openings[at].opening.entry;
    let seen = matches!(item.group, Group::Header | Group::Arm | Group::Trim);
    let of_opening = opening.finish.get().map(|it| it.as_str()).filter(|_| seen);
    let id = of_opening.or(item.finish.as_deref());
    let name = id.map(|id| sources.catalog.finishes.get(id).map_or(id, String::as_str));
    or_dash(name)
}

/// The printed lines of a set, by place.
pub(super) fn printed(sources: &Sources, set: &HardwareSet, order: &[SetPlace]) -> Vec<PlaceLines> {
    let mut places: Vec<PlaceLines> = Vec::new();
    for (number, (entry, quantity)) in set.holds.iter().enumerate() {
        let Some(item) = sources.catalog.items.get(&entry.item) else { continue };
        let place = order[entry.place].word();
        if places.last().is_none_or(|last| last.place != place) {
            places.push(PlaceLines { place: place.to_owned(), lines: Vec::new() });
        }
        let line = printed_line(sources, item, (number + 1, entry, *quantity), set.openings.len());
        if let Some(last) = places.last_mut() {
            last.lines.push(line);
        }
    }
    places
}

fn printed_line(
    sources: &Sources,
    item: &Item,
    (number, entry, quantity): (usize, &Entry, Decimal),
    openings: usize,
) -> SetLine {
    let printing = Printing::of(sources.cleared.job());
    let unit = if entry.piece.is_some() { Unit::Each } else { item.unit };
    let print = |quantity: Decimal| {
        let quantity = if entry.piece.is_some() {
            Quantity::count(quantity)
        } else {
            Quantity::new(quantity, item.unit.dimension())
        };
        bare(quantity, unit)
    };
    let piece = entry.piece.map(|piece| printing.piece(Quantity::new(piece, Dimension::LENGTH)));
    let size = [piece, item.size.clone()].into_iter().flatten().collect::<Vec<_>>().join(", ");
    SetLine {
        number: number.to_string(),
        each: print(quantity),
        all: print(quantity * Decimal::from(openings)),
        unit: if entry.piece.is_some() { "pc".to_owned() } else { unit.word().to_owned() },
        description: item.name.clone(),
        size: or_dash(Some(&size)),
        standard: or_dash(item.standard.as_deref()),
        finish: entry.finish.clone(),
        fire: if item.fire_listed { "F" } else { "" }.to_owned(),
        flag: if item.electric.is_some() { "E" } else { "" }.to_owned(),
    }
}

/// A number without its unit, which stands in a column of its own.
fn bare(quantity: Quantity, unit: Unit) -> String {
    let number = quantity.number_of(unit).map(Quantity::count);
    number.and_then(|number| number.print(Unit::Each, 2, Style::Page)).unwrap_or_else(|| DASH.to_owned())
}

/// Totals of the sets beside the takeoff's own, one row an item that stands in a set anywhere.
pub(super) fn totals(sources: &Sources, sets: &[HardwareSet]) -> Vec<SetTotal> {
    let takeoff = sources.takeoff;
    let mut items: BTreeSet<(usize, Group, &str, &str)> = BTreeSet::new();
    let mut in_sets: BTreeMap<&str, Decimal> = BTreeMap::new();
    for set in sets {
        for (entry, quantity) in &set.holds {
            items.insert((entry.place, entry.group, &entry.name, &entry.item));
            let one = entry.piece.unwrap_or(Decimal::ONE) * *quantity;
            *in_sets.entry(&entry.item).or_default() += one * Decimal::from(set.openings.len());
        }
    }
    let sum = |item: &str, apart: bool| -> Decimal {
        let lines = takeoff.lines.iter().filter(|line| line.item == item);
        let lines = lines.filter(|line| !apart || line.of.opening().is_none());
        lines.map(|line| takeoff.ledger.value(line.quantity).value()).sum()
    };
    let rows = items.into_iter().filter_map(|(_, _, _, id)| {
        let item = sources.catalog.items.get(id)?;
        let print = |value: Decimal| bare(Quantity::new(value, item.unit.dimension()), item.unit);
        let elsewhere = sum(id, true);
        Some(SetTotal {
            description: item.name.clone(),
            unit: item.unit.word().to_owned(),
            in_sets: print(in_sets.get(id).copied().unwrap_or_default()),
            elsewhere: if elsewhere.is_zero() { DASH.to_owned() } else { print(elsewhere) },
            takeoff: print(sum(id, false)),
        })
    });
    rows.collect()
}
