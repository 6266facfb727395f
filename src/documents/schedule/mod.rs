//! The hardware schedule: index, sets with their operation, electrified items, devices, keys, totals.
//!
//! In: sources. Out: the view of the paper. May not know: pages, prices.

mod as_found;
mod electrified;
mod keys;
mod lines;
mod openings;
mod set_names;
mod sets;

use serde::Serialize;

pub(super) use as_found::as_found;
pub use as_found::{AsFoundRow, KeyedRow};
pub use electrified::ElectrifiedRow;
pub use keys::KeyedNote;
pub use lines::{PlaceLines, SetTotal};
pub use openings::{IndexRow, SetOpening, SplitSet};

use super::devices::{DeviceRow, device_rows};
use super::{ConditionEvaluator, Count, Draft, Letterhead, OperationRow, Revision, Sources, counts, letterhead};
use electrified::Electrified;
use keys::Keyed;
use lines::{printed, totals};
use set_names::set_name;
use sets::{HardwareSet, sets};

pub(super) use sets::finish_words;

/// The hardware schedule.
#[derive(Clone, Debug, Serialize)]
pub struct ScheduleView {
    /// Head and foot.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// Documents that it rests on.
    pub documents: Vec<String>,
    /// Revisions, the oldest first; none where only one was issued.
    pub revisions: Vec<Revision>,
    /// Addenda by the keys that mark their lines.
    pub addenda: Vec<KeyedNote>,
    /// Openings to sets: blocks of a page at the most, each in two parts that stand side by side.
    pub index: Vec<Vec<Vec<IndexRow>>>,
    /// The architect's sets of which openings stand in several of ours.
    pub split_sets: Vec<SplitSet>,
    /// Sets.
    pub sets: Vec<SetView>,
    /// What openings do in each state, each text once.
    pub operations: Vec<NamedOperation>,
    /// Electrified items.
    pub electrified: Vec<ElectrifiedRow>,
    /// Devices.
    pub devices: Vec<DeviceRow>,
    /// Existing hardware and templates.
    pub as_found: Vec<AsFoundRow>,
    /// What cylinder required of the owner's.
    pub keyed: Vec<KeyedRow>,
    /// The owner's rule for cylinders and keys; empty where the profile has none.
    pub keying: String,
    /// Keyed notes.
    pub notes: Vec<KeyedNote>,
    /// Finishes in use.
    pub finishes: Vec<KeyedNote>,
    /// Parties by their short names.
    pub parties: Vec<KeyedNote>,
    /// Totals.
    pub totals: Vec<SetTotal>,
    /// Openings that are not in it, with reasons.
    pub left_out: Vec<KeyedNote>,
}

/// A set.
#[derive(Clone, Debug, Serialize)]
pub struct SetView {
    /// Its name.
    pub name: String,
    /// How many openings of which form.
    pub quantity: String,
    /// What its openings have in common, in one line.
    pub likeness: String,
    /// The architect's sets of its openings, such as `set HW-4`; empty where the job names none.
    pub architect: String,
    /// What is said of a set of the architect that is split; empty where none is.
    pub split: String,
    /// Whether it has one opening only, which takes every line.
    pub one: bool,
    /// Its openings.
    pub openings: Vec<SetOpening>,
    /// Lines by place.
    pub places: Vec<PlaceLines>,
    /// Whether an addendum changes any of its lines.
    pub revised: bool,
    /// The operations of its openings: one, where all do the same.
    pub operations: Vec<OperationOf>,
}

/// An operation that openings of a set have.
#[derive(Clone, Debug, Serialize)]
pub struct OperationOf {
    /// Its name, such as `A`.
    pub name: String,
    /// The openings of the set that have it: `all`, or their marks.
    pub openings: String,
}

/// An operation, told once for all openings that have it.
#[derive(Clone, Debug, Serialize)]
pub struct NamedOperation {
    /// Its name, such as `A`.
    pub name: String,
    /// What it is.
    pub of: OperationView,
}

/// What a group of openings does.
#[derive(Clone, Debug, Serialize)]
pub struct OperationView {
    /// Marks of the openings.
    pub marks: Vec<String>,
    /// The same, in words.
    pub openings: String,
    /// One row a state.
    pub rows: Vec<OperationRow>,
}

/// Makes the hardware schedule.
pub fn schedule(sources: &Sources) -> Draft<ScheduleView> {
    let conditions = ConditionEvaluator::new(sources);
    let openings: Vec<usize> = (0..sources.takeoff.arrangement.openings.len()).collect();
    let found = sets(sources);
    let keyed = Keyed::of(&conditions, &openings);
    let electrified = Electrified::of(sources, &found);
    let splits = openings::split_sets(sources, &found);
    let operations = named(operations(sources, &conditions, &openings));
    let marks = Marks { operations: &operations, keyed: &keyed, electrified: &electrified, splits: &splits };
    let job = sources.reviewed.job();
    let profile = sources.catalog.profiles.get(&job.head.profile);
    let view = ScheduleView {
        head: letterhead(sources, "Hardware schedule"),
        counts: counts(sources, None),
        documents: job.documents.iter().map(|it| format!("{}, {}, {}", it.number, it.title, it.date)).collect(),
        revisions: sources.revisions.to_vec(),
        addenda: keys::addenda(sources),
        index: openings::in_blocks(openings::index(sources, &found)),
        sets: found.iter().enumerate().map(|(at, set)| set_view(sources, at, set, &marks)).collect(),
        operations: operations.clone(),
        split_sets: splits.clone(),
        devices: openings.iter().flat_map(|at| device_rows(sources, *at)).collect(),
        as_found: as_found(sources),
        keyed: as_found::keyed(sources),
        keying: profile.and_then(|it| it.keying.clone()).unwrap_or_default(),
        notes: keyed.printed(),
        finishes: keys::finishes(sources, &found),
        parties: keys::parties(sources, &electrified.parties()),
        electrified: electrified.rows(sources),
        totals: totals(sources, &found),
        left_out: keys::left_out(sources),
    };
    Draft::plain(view)
}

/// What marks lines and openings of sets.
struct Marks<'m, 'a> {
    operations: &'m [NamedOperation],
    keyed: &'m Keyed<'a>,
    electrified: &'m Electrified<'a>,
    splits: &'m [SplitSet],
}

fn set_view(sources: &Sources, at: usize, set: &HardwareSet, marks: &Marks) -> SetView {
    let works = &sources.takeoff.arrangement.openings;
    let names = architect_names(sources, set);
    let form = set.openings.first().and_then(|first| works.get(*first)).map(|work| work.form);
    let places = printed(sources, set, marks.electrified);
    SetView {
        name: set_name(at),
        quantity: form.map(|form| openings::quantity(form, set.openings.len())).unwrap_or_default(),
        likeness: likeness(set),
        architect: architect(&names),
        split: split(&names, marks.splits),
        one: set.openings.len() == 1,
        openings: openings::openings(sources, set, marks.keyed),
        revised: places.iter().flat_map(|place| &place.lines).any(|line| !line.revision.is_empty()),
        places,
        operations: operations_of(sources, set, marks.operations),
    }
}

/// Operations by names: A, B, … Z, A2, B2 and on.
fn named(operations: Vec<OperationView>) -> Vec<NamedOperation> {
    let each = operations.into_iter().zip(0_u32..).map(|(of, at)| {
        let letter = char::from_u32('A' as u32 + at % 26).unwrap_or('A');
        let round = at / 26 + 1;
        NamedOperation { name: if round > 1 { format!("{letter}{round}") } else { letter.to_string() }, of }
    });
    each.collect()
}

/// The operations that openings of a set have, in order of their names.
fn operations_of(sources: &Sources, set: &HardwareSet, all: &[NamedOperation]) -> Vec<OperationOf> {
    let works = &sources.takeoff.arrangement.openings;
    let of_set = set.openings.iter().filter_map(|at| works.get(*at));
    let marks: Vec<&str> = of_set.map(|work| work.opening.mark.as_str()).collect();
    let each = all.iter().filter_map(|operation| {
        let having: Vec<&str> =
            marks.iter().filter(|mark| operation.of.marks.iter().any(|it| it == *mark)).copied().collect();
        let openings = if having.len() == marks.len() { "all".to_owned() } else { having.join(", ") };
        (!having.is_empty()).then(|| OperationOf { name: operation.name.clone(), openings })
    });
    each.collect()
}

/// What the openings of a set have in common, in one line.
fn likeness(set: &HardwareSet) -> String {
    let says = |facet| set.likeness.says(facet).to_owned();
    let latch = match (says("latch"), says("release")) {
        (latch, release) if latch == release => latch,
        (latch, release) => format!("{latch}, {release}"),
    };
    let mut parts = vec![says("operator")];
    // An operator's own words may name how it is mounted and its class; a word is not said twice.
    let rest = [says("energy class"), says("mounting"), says("arm"), latch, says("label")];
    for part in rest {
        let said = parts.iter().any(|it| it.to_lowercase().contains(&part.to_lowercase()));
        if !said {
            parts.push(part);
        }
    }
    parts.join("; ")
}

/// The architect's sets of a set's openings, each once.
fn architect_names<'s>(sources: &Sources<'s>, set: &HardwareSet) -> Vec<&'s str> {
    let mut names: Vec<&str> = Vec::new();
    for work in set.openings.iter().filter_map(|at| sources.takeoff.arrangement.openings.get(*at)) {
        match work.opening.entry.architect_set.get() {
            Some(name) if !names.contains(&name.as_str()) => names.push(name.as_str()),
            _ => {}
        }
    }
    names
}

fn architect(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => format!("set {one}"),
        more => format!("sets {}", more.join(", ")),
    }
}

/// What is said of the architect's sets that are split, of those named.
fn split(names: &[&str], splits: &[SplitSet]) -> String {
    let of_set = splits.iter().filter(|split| names.contains(&split.name.as_str()));
    let each =
        of_set.map(|it| format!("Architect’s set {} is split: {}; difference: {}.", it.name, it.ours, it.differ));
    each.collect::<Vec<_>>().join(" ")
}

/// Openings that do the same in every state, in file order.
pub(super) fn operations(sources: &Sources, conditions: &ConditionEvaluator, openings: &[usize]) -> Vec<OperationView> {
    let mut groups: Vec<(Vec<String>, Vec<OperationRow>)> = Vec::new();
    for at in openings {
        let Some(work) = sources.takeoff.arrangement.openings.get(*at) else { continue };
        if work.powered_leaves() == 0 {
            continue;
        }
        let rows = conditions.operation(*at);
        let mark = work.opening.mark.clone();
        match groups.iter_mut().find(|(_, known)| *known == rows) {
            Some((marks, _)) => marks.push(mark),
            None => groups.push((vec![mark], rows)),
        }
    }
    groups.into_iter().map(|(marks, rows)| OperationView { openings: marks.join(", "), marks, rows }).collect()
}
