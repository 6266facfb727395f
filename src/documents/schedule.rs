//! The hardware schedule: index, sets, electrified items, devices, operation, notes, totals.
//!
//! In: sources. Out: the view of the paper. May not know: pages, prices.

use std::collections::BTreeMap;

use serde::Serialize;

use super::devices::{DeviceRow, device_rows};
use super::heading::{Heading, heading};
use super::judging::Unknown;
use super::printing::{amps, listed, or_dash, volts};
use super::sets::{HardwareSet, PlaceLines, SetTotal, place_order, printed, sets, totals};
use super::{Count, Draft, Judge, Letterhead, OperationRow, Sources, counts, letterhead};
use crate::catalog::{FailState, Item, Note, NoteKind};

/// The hardware schedule.
#[derive(Clone, Debug, Serialize)]
pub struct ScheduleView {
    /// Head and foot.
    pub head: Letterhead,
    /// The shared counts.
    pub counts: Vec<Count>,
    /// Documents and addenda that it rests on.
    pub documents: Vec<String>,
    /// Openings to sets.
    pub index: Vec<IndexRow>,
    /// Sets.
    pub sets: Vec<SetView>,
    /// Electrified items.
    pub electrified: Vec<ElectrifiedRow>,
    /// Devices.
    pub devices: Vec<DeviceRow>,
    /// What openings do in each state.
    pub operations: Vec<OperationView>,
    /// Keyed notes.
    pub notes: Vec<KeyedNote>,
    /// Finishes in use.
    pub finishes: Vec<KeyedNote>,
    /// Totals.
    pub totals: Vec<SetTotal>,
    /// Openings set aside, with reasons.
    pub set_aside: Vec<KeyedNote>,
}

/// A line of the index.
#[derive(Clone, Debug, Serialize)]
pub struct IndexRow {
    /// Mark.
    pub mark: String,
    /// Site.
    pub site: String,
    /// Our set.
    pub set: String,
    /// Heading in it.
    pub heading: String,
    /// The architect's set.
    pub architect_set: String,
    /// Form and hand.
    pub form: String,
}

/// A set.
#[derive(Clone, Debug, Serialize)]
pub struct SetView {
    /// Its name.
    pub name: String,
    /// How many openings it has, in words.
    pub openings: String,
    /// The architect's sets of its openings.
    pub architect: String,
    /// Operator of its openings.
    pub operator: String,
    /// Headings.
    pub headings: Vec<SetHeading>,
    /// Lines by place.
    pub places: Vec<PlaceLines>,
}

/// A heading of a set.
#[derive(Clone, Debug, Serialize)]
pub struct SetHeading {
    /// Its number, such as `S3.2`.
    pub number: String,
    /// The opening.
    pub opening: Heading,
    /// Numbers of its keyed notes.
    pub notes: String,
}

/// An electrified item.
#[derive(Clone, Debug, Serialize)]
pub struct ElectrifiedRow {
    /// Plain words.
    pub description: String,
    /// Sets it stands in.
    pub sets: String,
    /// Volts.
    pub volts: String,
    /// Amps, and inrush.
    pub amps: String,
    /// What it does when power fails.
    pub fails: String,
    /// Who furnishes it.
    pub furnish: String,
    /// Who installs it.
    pub install: String,
    /// Who wires it.
    pub wire: String,
    /// Who programs it.
    pub program: String,
}

/// What a group of openings does.
#[derive(Clone, Debug, Serialize)]
pub struct OperationView {
    /// Marks of the openings.
    pub openings: String,
    /// One row a state.
    pub rows: Vec<OperationRow>,
}

/// A line with a key.
#[derive(Clone, Debug, Serialize)]
pub struct KeyedNote {
    /// The key.
    pub key: String,
    /// The line.
    pub says: String,
}

/// Makes the hardware schedule.
pub fn schedule(sources: &Sources) -> Draft<ScheduleView> {
    let judge = Judge::new(sources);
    let openings: Vec<usize> = (0..sources.takeoff.arrangement.openings.len()).collect();
    let found = sets(sources);
    let keyed = Keyed::of(&judge, &openings);
    let views: Vec<SetView> = found.iter().enumerate().map(|(at, set)| view(sources, at, set, &keyed)).collect();
    let job = sources.cleared.job();
    let view = ScheduleView {
        head: letterhead(sources, "Hardware schedule"),
        counts: counts(sources, None),
        documents: documents(sources),
        index: index(sources, &found),
        electrified: electrified(sources, &found),
        devices: openings.iter().flat_map(|at| device_rows(sources, *at)).collect(),
        operations: operations(sources, &judge, &openings),
        notes: keyed.printed(),
        finishes: sources
            .catalog
            .finishes
            .iter()
            .map(|(key, says)| KeyedNote { key: key.clone(), says: says.clone() })
            .collect(),
        totals: totals(sources, &found),
        set_aside: job.set_aside.iter().map(|it| KeyedNote { key: it.mark.clone(), says: it.reason.clone() }).collect(),
        sets: views,
    };
    Draft::plain(view)
}

fn documents(sources: &Sources) -> Vec<String> {
    let job = sources.cleared.job();
    let documents = job.documents.iter().map(|it| format!("{}, {}, {}", it.number, it.title, it.date));
    let addenda = job.addenda.iter().map(|it| match &it.changes {
        Some(changes) => format!("Addendum {}, {}: {changes}", it.number, it.date),
        None => format!("Addendum {}, {}", it.number, it.date),
    });
    documents.chain(addenda).collect()
}

/// The name of a set by its position.
pub(super) fn set_name(at: usize) -> String {
    format!("S{}", at + 1)
}

fn index(sources: &Sources, sets: &[HardwareSet]) -> Vec<IndexRow> {
    let mut rows: Vec<(usize, IndexRow)> = Vec::new();
    for (number, set) in sets.iter().enumerate() {
        for (at, opening) in set.openings.iter().enumerate() {
            let of = heading(sources, *opening);
            let row = IndexRow {
                mark: of.mark,
                site: of.site,
                set: set_name(number),
                heading: format!("{}.{}", set_name(number), at + 1),
                architect_set: of.architect_set,
                form: format!("{}, {}", of.form, of.hand),
            };
            rows.push((*opening, row));
        }
    }
    rows.sort_by_key(|(opening, _)| *opening);
    rows.into_iter().map(|(_, row)| row).collect()
}

fn view(sources: &Sources, at: usize, set: &HardwareSet, keyed: &Keyed) -> SetView {
    let headings: Vec<SetHeading> = set
        .openings
        .iter()
        .enumerate()
        .map(|(number, opening)| SetHeading {
            number: format!("{}.{}", set_name(at), number + 1),
            opening: heading(sources, *opening),
            notes: keyed.keys(*opening),
        })
        .collect();
    let different = |pick: fn(&Heading) -> &String| {
        let mut seen: Vec<String> = Vec::new();
        for heading in &headings {
            if !seen.contains(pick(&heading.opening)) {
                seen.push(pick(&heading.opening).clone());
            }
        }
        seen.join(", ")
    };
    SetView {
        name: set_name(at),
        openings: if set.openings.len() == 1 {
            "1 opening".to_owned()
        } else {
            format!("{} openings", set.openings.len())
        },
        architect: different(|it| &it.architect_set),
        operator: different(|it| &it.operator),
        places: printed(sources, set, &place_order(sources)),
        headings,
    }
}

fn electrified(sources: &Sources, sets: &[HardwareSet]) -> Vec<ElectrifiedRow> {
    let mut found: Vec<(&Item, Vec<String>)> = Vec::new();
    for (at, set) in sets.iter().enumerate() {
        for (entry, _) in &set.holds {
            let Some(item) = sources.catalog.items.get(&entry.item).filter(|item| item.electric.is_some()) else {
                continue;
            };
            match found.iter_mut().find(|(known, _)| known.id == item.id) {
                Some((_, names)) if names.last() == Some(&set_name(at)) => {}
                Some((_, names)) => names.push(set_name(at)),
                None => found.push((item, vec![set_name(at)])),
            }
        }
    }
    found.into_iter().filter_map(|(item, names)| electrified_row(sources, item, &names)).collect()
}

fn electrified_row(sources: &Sources, item: &Item, sets: &[String]) -> Option<ElectrifiedRow> {
    let electric = item.electric.as_ref()?;
    let party = |id: &str| or_dash(Some(sources.catalog.parties.get(id).map_or(id, |party| party.short.as_str())));
    let running = electric.amps.map(amps);
    let inrush = electric.inrush.map(|it| format!("{} inrush", amps(it)));
    Some(ElectrifiedRow {
        description: item.name.clone(),
        sets: sets.join(", "),
        volts: or_dash(electric.volts.map(volts).as_deref()),
        amps: listed([running, inrush].into_iter().flatten(), ", "),
        fails: if electric.fails == FailState::None {
            "not a lock".to_owned()
        } else {
            electric.fails.word().to_owned()
        },
        furnish: party(&electric.furnished_by),
        install: party(&electric.installed_by),
        wire: party(&electric.wired_by),
        program: party(&electric.programmed_by),
    })
}

/// Openings that do the same in every state, in file order.
pub(super) fn operations(sources: &Sources, judge: &Judge, openings: &[usize]) -> Vec<OperationView> {
    let mut groups: Vec<(Vec<String>, Vec<OperationRow>)> = Vec::new();
    for at in openings {
        let work = &sources.takeoff.arrangement.openings[*at];
        if work.powered_leaves() == 0 {
            continue;
        }
        let rows = judge.operation(*at);
        let mark = work.opening.mark.clone();
        match groups.iter_mut().find(|(_, known)| *known == rows) {
            Some((marks, _)) => marks.push(mark),
            None => groups.push((vec![mark], rows)),
        }
    }
    groups.into_iter().map(|(marks, rows)| OperationView { openings: marks.join(", "), rows }).collect()
}

/// The keyed notes of the job: numbered in the catalog's order, those that hold somewhere.
struct Keyed<'a> {
    notes: Vec<(&'a Note, Vec<usize>)>,
}

impl<'a> Keyed<'a> {
    fn of(judge: &Judge<'a>, openings: &[usize]) -> Self {
        let mut notes: BTreeMap<(u32, &str), (&'a Note, Vec<usize>)> = BTreeMap::new();
        for at in openings {
            for note in judge.notes_at(NoteKind::Keynote, *at, Unknown::No) {
                notes.entry((note.order, note.id.as_str())).or_insert_with(|| (note, Vec::new())).1.push(*at);
            }
        }
        Keyed { notes: notes.into_values().collect() }
    }

    fn keys(&self, opening: usize) -> String {
        let holding = self.notes.iter().enumerate().filter(|(_, (_, at))| at.contains(&opening));
        listed(holding.map(|(number, _)| (number + 1).to_string()), ", ")
    }

    fn printed(&self) -> Vec<KeyedNote> {
        let each = self.notes.iter().enumerate();
        each.map(|(number, (note, _))| KeyedNote { key: (number + 1).to_string(), says: note.says.clone() }).collect()
    }
}
