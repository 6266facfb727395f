//! Keys of the schedule: keyed notes, finishes, parties, addenda.
//!
//! In: sources. Out: a key for each, and what it stands for. May not know: pages.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::sets::HardwareSet;
use crate::catalog::{Note, NoteKind};
use crate::documents::Sources;
use crate::documents::conditions::{ConditionEvaluator, Unknown};
use crate::documents::printing::listed;
use crate::job::Addendum;

/// A line with a key.
#[derive(Clone, Debug, Serialize)]
pub struct KeyedNote {
    /// The key.
    pub key: String,
    /// The line.
    pub says: String,
}

impl KeyedNote {
    fn new(key: &str, says: &str) -> Self {
        KeyedNote { key: key.to_owned(), says: says.to_owned() }
    }
}

/// The keyed notes of the job: numbered in the catalog's order, those that hold somewhere.
pub(super) struct Keyed<'a> {
    notes: Vec<(&'a Note, Vec<usize>)>,
}

impl<'a> Keyed<'a> {
    /// The notes that hold at any of the openings.
    pub(super) fn of(conditions: &ConditionEvaluator<'a>, openings: &[usize]) -> Self {
        let mut notes: BTreeMap<(u32, &str), (&'a Note, Vec<usize>)> = BTreeMap::new();
        for at in openings {
            for note in conditions.notes_at(NoteKind::Keynote, *at, Unknown::No) {
                notes.entry((note.order, note.id.as_str())).or_insert_with(|| (note, Vec::new())).1.push(*at);
            }
        }
        Keyed { notes: notes.into_values().collect() }
    }

    /// The numbers of an opening's notes.
    pub(super) fn keys(&self, opening: usize) -> String {
        let holding = self.notes.iter().enumerate().filter(|(_, (_, at))| at.contains(&opening));
        listed(holding.map(|(number, _)| (number + 1).to_string()), ", ")
    }

    /// The notes with their numbers.
    pub(super) fn printed(&self) -> Vec<KeyedNote> {
        let each = self.notes.iter().enumerate();
        each.map(|(number, (note, _))| KeyedNote::new(&(number + 1).to_string(), &note.says)).collect()
    }
}

/// The finishes that lines of the sets name by key.
pub(super) fn finishes(sources: &Sources, sets: &[HardwareSet]) -> Vec<KeyedNote> {
    let used: BTreeSet<&str> =
        sets.iter().flat_map(|set| set.holds.iter().flatten()).map(|(entry, _)| entry.finish.as_str()).collect();
    let named = sources.catalog.finishes.iter().filter(|(key, _)| used.contains(key.as_str()));
    named.map(|(key, name)| KeyedNote::new(key, name)).collect()
}

/// The parties that the table of electrified items names by their short names, in the order of the matrix.
pub(super) fn parties(sources: &Sources, named: &BTreeSet<&str>) -> Vec<KeyedNote> {
    let mut parties: Vec<_> =
        sources.catalog.parties.iter().filter(|(id, _)| named.contains(id.as_str())).map(|(_, it)| it).collect();
    parties.sort_by_key(|party| (party.order, &party.short));
    parties.into_iter().map(|party| KeyedNote::new(&party.short, &party.name)).collect()
}

/// The key of the addendum at a position: the revision triangle of drawings, as a letter that every printer has.
fn addendum_key(number: &str) -> String {
    format!("Δ{number}")
}

/// The addenda that touch an opening, in the order of the job file.
fn touching<'s>(sources: &Sources<'s>, mark: &str) -> impl Iterator<Item = &'s Addendum> {
    let addenda = sources.reviewed.job().addenda.iter();
    addenda.filter(move |it| it.openings.iter().any(|opening| opening == mark))
}

/// Keys of the addenda that touch an opening; empty where none does.
pub(super) fn touched(sources: &Sources, mark: &str) -> String {
    touching(sources, mark).map(|it| addendum_key(&it.number)).collect::<Vec<_>>().join(", ")
}

/// Keys and dates of the addenda that touch an opening; empty where none does.
pub(super) fn touched_when(sources: &Sources, mark: &str) -> String {
    let each = touching(sources, mark).map(|it| format!("{} {}", addendum_key(&it.number), it.date));
    each.collect::<Vec<_>>().join(", ")
}

/// Keys and dates of the addenda that change the lines of an item at any of these openings; empty where none does.
pub(super) fn line_changed_when(sources: &Sources, item: &str, marks: &[&str]) -> String {
    let addenda = sources.reviewed.job().addenda.iter();
    let changing = addenda.filter(|it| it.items.iter().any(|id| id == item));
    let changing = changing.filter(|it| it.openings.iter().any(|mark| marks.contains(&mark.as_str())));
    changing.map(|it| format!("{} {}", addendum_key(&it.number), it.date)).collect::<Vec<_>>().join(", ")
}

/// Addenda by their keys, with date, change and openings.
pub(super) fn addenda(sources: &Sources) -> Vec<KeyedNote> {
    let says = |it: &Addendum| {
        let openings = (!it.openings.is_empty()).then(|| format!("openings {}", it.openings.join(", ")));
        let parts = [Some(format!("Addendum {}, {}", it.number, it.date)), it.changes.clone(), openings];
        parts.into_iter().flatten().collect::<Vec<_>>().join("; ")
    };
    let all = sources.reviewed.job().addenda.iter();
    all.map(|it| KeyedNote { key: addendum_key(&it.number), says: says(it) }).collect()
}

/// Openings of the job that are not in this schedule, and why.
pub(super) fn left_out(sources: &Sources) -> Vec<KeyedNote> {
    let job = sources.reviewed.job();
    let aside = job.set_aside.iter().map(|it| KeyedNote::new(&it.mark, &format!("not in the base bid: {}", it.reason)));
    let of_alternates = job.openings.iter().filter(|it| !it.base && !job.is_set_aside(&it.mark)).map(|opening| {
        let adding = job.alternates.iter().filter(|it| it.adds.contains(&opening.mark));
        let numbers: Vec<&str> = adding.map(|it| it.number.as_str()).collect();
        let says = match numbers.as_slice() {
            [] => "not in the base bid".to_owned(),
            [one] => format!("in alternate {one} only"),
            more => format!("in alternates {} only", more.join(", ")),
        };
        KeyedNote::new(&opening.mark, &says)
    });
    aside.chain(of_alternates).collect()
}
