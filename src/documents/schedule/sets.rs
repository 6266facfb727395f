//! Hardware sets: openings that carry the same hardware.
//!
//! In: takeoff lines of openings, the owner's order of places. Out: sets with what each of their openings holds.
//! May not know: pages.
//!
//! Openings are of one set when a reviewer would call their hardware the same: form and powered leaves, operator and how
//! it is mounted, arms, latch and its release, labeled or not, and the items that make the set. What follows from the one
//! opening stays a line of its own inside the set: lengths, bracket hands, plates and fasteners by what they go into,
//! devices by their places, relays to other systems, signs, covers, finish (common practice, no source).

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use crate::catalog::{Group, Item, SetPlace};
use crate::documents::Sources;
use crate::documents::printing::{listed, or_dash, word};
use crate::job::Rating;
use crate::measure::Dimension;
use crate::takeoff::{LeafWork, OpeningWork};

/// Groups whose items follow from the one opening: its hand, its walls and leaves, the places of its devices, the systems
/// and the partner that it works with.
const OF_THE_OPENING: [Group; 11] = [
    Group::Bracket,
    Group::Plate,
    Group::Fastener,
    Group::Activation,
    Group::Sensor,
    Group::Transmitter,
    Group::Receiver,
    Group::Relay,
    Group::Post,
    Group::Sign,
    Group::Trim,
];

/// The finish of an item that comes in the finish of its opening.
const BY_OPENING: &str = "by opening";

/// A set before it is printed.
#[derive(Clone, Debug)]
pub(super) struct HardwareSet {
    /// What its openings have in common.
    pub likeness: SetFacets,
    /// Positions of its openings.
    pub openings: Vec<usize>,
    /// What each of them holds, in the same order.
    pub holds: Vec<BTreeMap<Entry, Decimal>>,
}

/// One kind of thing in a set: what tells two lines apart, in printing order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Entry {
    /// Position of its place in the owner's order.
    pub place: usize,
    /// Its group.
    pub group: Group,
    /// Plain words.
    pub name: String,
    /// The item.
    pub item: String,
    /// Length of the piece, in millimetres; none for what is counted.
    pub piece: Option<Decimal>,
    /// Finish, as the finish key has it.
    pub finish: String,
}

/// What the openings of a set have in common: facets, each with the word for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct SetFacets(Vec<(&'static str, String)>);

impl SetFacets {
    fn of(sources: &Sources, work: &OpeningWork, holds: &BTreeMap<Entry, Decimal>) -> Self {
        let entry = &work.opening.entry;
        let powered = || work.leaves.iter().filter(|leaf| leaf.powered);
        let sorted = |text: &dyn Fn(&LeafWork) -> String| {
            let mut all: Vec<String> = powered().map(text).collect();
            all.sort();
            all.dedup();
            listed(all, " and ")
        };
        let labeled = entry.rating.or(Rating::None) != Rating::None;
        SetFacets(vec![
            ("form", work.form.word().to_owned()),
            ("powered leaves", powered().count().to_string()),
            ("headers", work.headers.len().to_string()),
            ("operator", or_dash(work.operator.map(|operator| operator.name.as_str()))),
            ("mounting", word(&entry.mount)),
            ("energy class", word(&entry.energy)),
            ("arm", sorted(&|leaf| word(&leaf.entry.arm))),
            ("latch", sorted(&|leaf| word(&leaf.entry.latch))),
            ("release", sorted(&|leaf| leaf.release().map_or_else(|| or_dash(None), |it| it.word().to_owned()))),
            ("label", if labeled { "labeled" } else { "no label" }.to_owned()),
            ("items of the set", set_items(sources, holds)),
        ])
    }

    /// What stands under a facet.
    pub(super) fn says(&self, facet: &str) -> &str {
        self.0.iter().find(|(name, _)| *name == facet).map_or("", |(_, says)| says)
    }

    /// The facets in which two sets differ; items only where nothing else tells them apart.
    pub(super) fn differs(&self, other: &SetFacets) -> Vec<&'static str> {
        let both = self.0.iter().zip(&other.0);
        let mut facets: Vec<&str> = both.filter(|(one, two)| one != two).map(|(one, _)| one.0).collect();
        if facets.len() > 1 {
            facets.retain(|facet| *facet != "items of the set");
        }
        facets
    }
}

/// Items and numbers that make a set, as one text; lengths and finishes are left out.
fn set_items(sources: &Sources, holds: &BTreeMap<Entry, Decimal>) -> String {
    let mut items: BTreeMap<&str, Decimal> = BTreeMap::new();
    for (entry, quantity) in holds {
        let is_set_item = sources.catalog.items.get(&entry.item).is_some_and(makes_set);
        if is_set_item {
            *items.entry(&entry.item).or_default() += *quantity;
        }
    }
    listed(items.into_iter().map(|(item, quantity)| format!("{} {item}", quantity.normalize())), ", ")
}

/// Whether an item is one that makes a set, not one that follows from the opening.
pub(super) fn makes_set(item: &Item) -> bool {
    !OF_THE_OPENING.contains(&item.group)
}

/// The owner's order of places: as the profile gives it, then whatever it leaves out.
pub(super) fn place_order(sources: &Sources) -> Vec<SetPlace> {
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    let mut order: Vec<SetPlace> = profile.map(|it| it.set_order.clone()).unwrap_or_default();
    let rest = SetPlace::ALL.iter().filter(|place| !order.contains(place)).copied().collect::<Vec<_>>();
    order.extend(rest);
    order.retain(|place| *place != SetPlace::Apart);
    order
}

/// The sets of the job, in the order of their first openings.
pub(super) fn sets(sources: &Sources) -> Vec<HardwareSet> {
    let order = place_order(sources);
    let mut found: Vec<HardwareSet> = Vec::new();
    for (at, work) in sources.takeoff.arrangement.openings.iter().enumerate() {
        let holds = held(sources, at, &order);
        let likeness = SetFacets::of(sources, work, &holds);
        match found.iter_mut().find(|set| set.likeness == likeness) {
            Some(set) => {
                set.openings.push(at);
                set.holds.push(holds);
            }
            None => found.push(HardwareSet { likeness, openings: vec![at], holds: vec![holds] }),
        }
    }
    found
}

/// What an opening holds: things counted are added up, pieces of one length are counted.
fn held(sources: &Sources, at: usize, order: &[SetPlace]) -> BTreeMap<Entry, Decimal> {
    let takeoff = sources.takeoff;
    let mut held: BTreeMap<Entry, Decimal> = BTreeMap::new();
    for line in takeoff.lines_at(at) {
        let Some(item) = sources.catalog.items.get(&*line.item) else { continue };
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
    held
}

/// The finish of an item, by its key where the catalog has one. Headers, arms and trim come in the opening's finish, where
/// it names one, and so does what the catalog says is finished [`BY_OPENING`]; the rest comes in its own.
fn finish(sources: &Sources, item: &Item, at: usize) -> String {
    let id = finish_of(sources, item, at);
    let key = |text: &str| {
        let named = sources.catalog.finishes.iter().find(|(key, name)| *key == text || *name == text);
        named.map(|(key, _)| key.clone())
    };
    or_dash(id.map(|id| key(id).unwrap_or_else(|| id.to_owned())).as_deref())
}

/// The finish of an item at an opening, by its key or as the catalog has it.
fn finish_of<'s>(sources: &Sources<'s>, item: &'s Item, at: usize) -> Option<&'s str> {
    let opening = &sources.takeoff.arrangement.openings.get(at)?.opening.entry;
    let seen =
        matches!(item.group, Group::Header | Group::Arm | Group::Trim) || item.finish.as_deref() == Some(BY_OPENING);
    let of_opening = opening.finish.get().map(|it| it.as_str()).filter(|_| seen);
    of_opening.or(item.finish.as_deref())
}

/// The finish of an item at an opening, in plain words.
pub(in crate::documents) fn finish_words(sources: &Sources, item: &Item, at: usize) -> Option<String> {
    let id = finish_of(sources, item, at)?;
    Some(sources.catalog.finishes.get(id).cloned().unwrap_or_else(|| id.to_owned()))
}
