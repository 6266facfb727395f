//! Printed lines of sets, and their totals beside the takeoff's own.
//!
//! In: sets. Out: finished lines by place; totals by item. May not know: pages.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;
use serde::Serialize;

use super::electrified::Electrified;
use super::keys::line_changed_when;
use super::set_names::set_names;
use super::sets::{Entry, HardwareSet, place_order};
use crate::catalog::{Group, Item};
use crate::documents::Sources;
use crate::documents::printing::{DASH, Printing, kept, or_dash};
use crate::measure::{Dimension, Quantity, Style, Unit};

/// One line of a set. An item of which openings of the set take different quantities has a line for each quantity.
#[derive(Clone, Debug, Serialize)]
pub struct SetLine {
    /// Its place, on the first line of the place only.
    pub place: String,
    /// Its number in the set.
    pub number: String,
    /// How many for one opening.
    pub each: String,
    /// How many for all openings of the line.
    pub all: String,
    /// Unit of both.
    pub unit: String,
    /// Plain words.
    pub description: String,
    /// Size, or length of the piece.
    pub size: String,
    /// Standard and type.
    pub standard: String,
    /// Finish, by its key.
    pub finish: String,
    /// `F` where it is listed for labeled openings, `K` where it cylinder required, its key where it is electrified.
    pub flags: String,
    /// The openings that take it: `all`, or their marks.
    pub openings: String,
    /// Keys and dates of the addenda that change it; empty where none does.
    pub revision: String,
}

/// The lines of a place in a set, such as all that hangs the leaf.
#[derive(Clone, Debug, Serialize)]
pub struct PlaceLines {
    /// Its lines.
    pub lines: Vec<SetLine>,
}

/// What a total says of an item.
#[derive(Clone, Debug, Serialize)]
pub struct SetTotal {
    /// Plain words.
    pub description: String,
    /// Who supplies it.
    pub supplier: String,
    /// Sets that hold it.
    pub sets: String,
    /// Unit.
    pub unit: String,
    /// Sum over all sets.
    pub in_sets: String,
    /// What the takeoff holds apart from openings, such as stock for a site.
    pub elsewhere: String,
    /// The takeoff's own total.
    pub takeoff: String,
}

/// An entry of which so many openings take so much each, by position in the set.
struct Share<'s> {
    entry: &'s Entry,
    each: Decimal,
    openings: Vec<usize>,
}

/// The entries of a set in printing order, each once for every quantity that its openings take of it.
fn shares(set: &HardwareSet) -> Vec<Share<'_>> {
    let mut by_entry: BTreeMap<&Entry, Vec<Share>> = BTreeMap::new();
    for (at, holds) in set.holds.iter().enumerate() {
        for (entry, each) in holds {
            let of_entry = by_entry.entry(entry).or_default();
            match of_entry.iter_mut().find(|share| share.each == *each) {
                Some(share) => share.openings.push(at),
                None => of_entry.push(Share { entry, each: *each, openings: vec![at] }),
            }
        }
    }
    by_entry.into_values().flatten().collect()
}

/// The printed lines of a set, by place.
pub(super) fn printed(sources: &Sources, set: &HardwareSet, electrified: &Electrified) -> Vec<PlaceLines> {
    let order = place_order(sources);
    let mut places: Vec<PlaceLines> = Vec::new();
    let mut last = None;
    for (number, share) in shares(set).iter().enumerate() {
        let Some(item) = sources.catalog.items.get(&share.entry.item) else { continue };
        let mut line = printed_line(sources, item, number + 1, share, electrified);
        line.openings = marks(sources, set, share);
        line.revision = line_changed_when(sources, &item.id, &marks_of(sources, set, share));
        if last == Some(share.entry.place) {
            places.last_mut().into_iter().for_each(|of_place| of_place.lines.push(line.clone()));
        } else {
            line.place = order.get(share.entry.place).map_or_else(String::new, |place| place.word().to_owned());
            places.push(PlaceLines { lines: vec![line] });
        }
        last = Some(share.entry.place);
    }
    places
}

/// The marks of a share's openings, `all` where it is every opening of the set.
fn marks(sources: &Sources, set: &HardwareSet, share: &Share) -> String {
    if share.openings.len() == set.openings.len() {
        return "all".to_owned();
    }
    marks_of(sources, set, share).join(", ")
}

fn marks_of<'s>(sources: &Sources<'s>, set: &HardwareSet, share: &Share) -> Vec<&'s str> {
    let openings = &sources.takeoff.arrangement.openings;
    let work = |at: &usize| openings.get(*set.openings.get(*at)?);
    share.openings.iter().filter_map(work).map(|work| work.opening.mark.as_str()).collect()
}

fn printed_line(sources: &Sources, item: &Item, number: usize, share: &Share, electrified: &Electrified) -> SetLine {
    let printing = Printing::of(sources.reviewed.job());
    let (unit, dimension) = match share.entry.piece {
        Some(_) => (Unit::Each, Dimension::NONE),
        None => (item.unit, item.unit.dimension()),
    };
    let print = |quantity: Decimal| bare(Quantity::new(quantity, dimension), unit);
    let piece = share.entry.piece.map(|piece| printing.piece(Quantity::new(piece, Dimension::LENGTH)));
    let size = [piece, item.size.as_deref().map(kept)].into_iter().flatten().collect::<Vec<_>>().join(", ");
    SetLine {
        place: String::new(),
        number: number.to_string(),
        each: print(share.each),
        all: print(share.each * Decimal::from(share.openings.len())),
        unit: if share.entry.piece.is_some() { "pc".to_owned() } else { unit.word().to_owned() },
        description: item.name.clone(),
        size: or_dash(Some(&size)),
        standard: or_dash(item.standard.as_deref()),
        finish: share.entry.finish.clone(),
        flags: flags(item, electrified),
        openings: String::new(),
        revision: String::new(),
    }
}

fn flags(item: &Item, electrified: &Electrified) -> String {
    let fire = item.fire_listed.then(|| "F".to_owned());
    let keyed = item.keyed.then(|| "K".to_owned());
    [fire, keyed, electrified.key(&item.id)].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// A number without its unit, which stands in a column of its own.
fn bare(quantity: Quantity, unit: Unit) -> String {
    let number = quantity.number_of(unit).map(Quantity::count);
    number.and_then(|number| number.print(Unit::Each, 2, Style::Page)).unwrap_or_else(|| DASH.to_owned())
}

/// An item of the totals: where it stands in the order of places, and its id.
type Line<'s> = (usize, Group, &'s str, &'s str);

/// What sets hold of an item together, and which sets.
#[derive(Default)]
struct InSets {
    sum: Decimal,
    sets: Vec<usize>,
}

fn in_sets(sets: &[HardwareSet]) -> (BTreeSet<Line<'_>>, BTreeMap<&str, InSets>) {
    let mut items: BTreeSet<Line> = BTreeSet::new();
    let mut sums: BTreeMap<&str, InSets> = BTreeMap::new();
    for (at, set) in sets.iter().enumerate() {
        for (entry, quantity) in set.holds.iter().flatten() {
            items.insert((entry.place, entry.group, &entry.name, &entry.item));
            let of_item = sums.entry(&entry.item).or_default();
            of_item.sum += entry.piece.unwrap_or(Decimal::ONE) * *quantity;
            if of_item.sets.last() != Some(&at) {
                of_item.sets.push(at);
            }
        }
    }
    (items, sums)
}

/// Totals of the sets beside the takeoff's own, one row an item that stands in a set anywhere.
pub(super) fn totals(sources: &Sources, sets: &[HardwareSet]) -> Vec<SetTotal> {
    let takeoff = sources.takeoff;
    let (items, sums) = in_sets(sets);
    let sum = |item: &str, apart: bool| -> Decimal {
        let lines = takeoff.lines.iter().filter(|line| &*line.item == item);
        let lines = lines.filter(|line| !apart || line.of.opening().is_none());
        lines.map(|line| takeoff.ledger.value(line.quantity).value()).sum()
    };
    let rows = items.into_iter().filter_map(|(_, _, _, id)| {
        let item = sources.catalog.items.get(id)?;
        let print = |value: Decimal| bare(Quantity::new(value, item.unit.dimension()), item.unit);
        let elsewhere = sum(id, true);
        let of_item = sums.get(id)?;
        let supplier = sources.catalog.suppliers.get(&item.supplier);
        Some(SetTotal {
            description: item.name.clone(),
            supplier: or_dash(supplier.map(|supplier| supplier.name.as_str())),
            sets: set_names(&of_item.sets),
            unit: item.unit.word().to_owned(),
            in_sets: print(of_item.sum),
            elsewhere: if elsewhere.is_zero() { DASH.to_owned() } else { print(elsewhere) },
            takeoff: print(sum(id, false)),
        })
    });
    rows.collect()
}
