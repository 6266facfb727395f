//! What an opening brings and what others need for it: existing hardware, templates, cylinders.
//!
//! In: sources. Out: finished rows. May not know: pages, sets.

use serde::Serialize;

use crate::catalog::Item;
use crate::documents::Sources;
use crate::documents::heading::electric_words;
use crate::documents::printing::{DASH, listed};
use crate::input::{Date, Flag, Slot};
use crate::job::{Disposition, TemplateEntry};
use crate::measure::{Quantity, Style, Unit};
use crate::takeoff::{DeviceWork, EntityRef, OpeningWork};

/// An opening's existing hardware, and the templates that go out for it.
#[derive(Clone, Debug, Serialize)]
pub struct AsFoundRow {
    /// Mark.
    pub mark: String,
    /// What is taken off.
    pub remove: String,
    /// What stays and is used.
    pub reuse: String,
    /// What is moved.
    pub relocate: String,
    /// What others deal with, and who.
    pub others: String,
    /// The door's template.
    pub door_template: String,
    /// The frame's template.
    pub frame_template: String,
}

/// Something that cylinder required of the owner's key system.
#[derive(Clone, Debug, Serialize)]
pub struct KeyedRow {
    /// Mark.
    pub mark: String,
    /// Where it stands.
    pub at: String,
    /// Plain words.
    pub description: String,
    /// How many cylinders.
    pub cylinders: String,
}

/// Existing hardware and templates, a row an opening, in file order.
pub(in crate::documents) fn as_found(sources: &Sources) -> Vec<AsFoundRow> {
    sources.takeoff.arrangement.openings.iter().map(row).collect()
}

fn row(work: &OpeningWork) -> AsFoundRow {
    let template = work.opening.entry.template.get();
    let of = |needed: fn(&TemplateEntry) -> &Slot<Flag>, sent: fn(&TemplateEntry) -> &Slot<Date>| {
        template.map_or_else(|| "not stated".to_owned(), |it| template_words(needed(it), sent(it)))
    };
    AsFoundRow {
        mark: work.opening.mark.clone(),
        remove: existing(work, Disposition::Remove),
        reuse: existing(work, Disposition::Reuse),
        relocate: existing(work, Disposition::Relocate),
        others: existing(work, Disposition::Others),
        door_template: of(|it| &it.door, |it| &it.door_sent),
        frame_template: of(|it| &it.frame, |it| &it.frame_sent),
    }
}

fn template_words(needed: &Slot<Flag>, sent: &Slot<Date>) -> String {
    match (needed.cloned(), sent.get()) {
        (Some(true), Some(date)) => format!("required, sent {date}"),
        (Some(true), None) => "required, not sent".to_owned(),
        (Some(false), _) => "cut on site".to_owned(),
        (None, Some(date)) => format!("sent {date}"),
        (None, None) => "not stated".to_owned(),
    }
}

/// Existing hardware of which the same becomes, leaf by leaf where there are several.
fn existing(work: &OpeningWork, becomes: Disposition) -> String {
    let mut found: Vec<(String, Vec<usize>)> = Vec::new();
    for leaf in &work.leaves {
        for it in leaf.entry.existing.list().iter().filter(|it| it.becomes.get() == Some(&becomes)) {
            let by = it.by.get().map(|by| format!(" by {by}")).unwrap_or_default();
            let electric = electric_words(it).map(|words| format!(" ({words})")).unwrap_or_default();
            let what = format!("{}{by}{electric}", crate::documents::printing::word(&it.what));
            match found.iter_mut().find(|(known, _)| *known == what) {
                Some((_, leaves)) => leaves.push(leaf.number),
                None => found.push((what, vec![leaf.number])),
            }
        }
    }
    let several = work.leaves.len() > 1;
    let words = |(what, leaves): (String, Vec<usize>)| match leaves.as_slice() {
        _ if !several => what,
        [one] => format!("{what} of leaf\u{a0}{one}"),
        _ => format!("{what} of both leaves"),
    };
    listed(found.into_iter().map(words), ", ")
}

/// What cylinder required of the owner's key system, in the order of openings.
pub(super) fn keyed(sources: &Sources) -> Vec<KeyedRow> {
    let takeoff = sources.takeoff;
    let mut rows: Vec<(usize, KeyedRow)> = Vec::new();
    for line in &takeoff.lines {
        let item = sources.catalog.items.get(&*line.item).filter(|item| item.keyed);
        let (Some(item), Some(opening)) = (item, line.of.opening()) else { continue };
        let Some(work) = takeoff.arrangement.openings.get(opening) else { continue };
        rows.push((opening, keyed_row(item, line.of, work, takeoff.ledger.value(line.quantity))));
    }
    rows.sort_by_key(|(opening, _)| *opening);
    rows.into_iter().map(|(_, row)| row).collect()
}

fn keyed_row(item: &Item, of: EntityRef, work: &OpeningWork, quantity: Quantity) -> KeyedRow {
    let of_device = |device: &DeviceWork| {
        let room = device.entry.side.get().and_then(|side| work.room(*side)).unwrap_or(DASH);
        format!("{}, {room}", device.id)
    };
    let at = match of {
        EntityRef::Device(_, at) => work.devices.get(at).map(of_device),
        EntityRef::Leaf(_, at) => work.leaves.get(at).map(|leaf| format!("leaf\u{a0}{}", leaf.number)),
        _ => None,
    };
    let at = at.unwrap_or_else(|| DASH.to_owned());
    KeyedRow {
        mark: work.opening.mark.clone(),
        at,
        description: item.name.clone(),
        cylinders: quantity.print(Unit::Each, 0, Style::Page).unwrap_or_else(|| DASH.to_owned()),
    }
}
