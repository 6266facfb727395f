//! Steps of the work in order: by visit and phase, with hold points, for one opening or for what belongs to the site.
//!
//! In: labor lines and the catalog's tasks. Out: rows of one flat list. May not know: pages, hours, wages.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::Sources;
use crate::catalog::{Phase, Task, VisitKind};
use crate::takeoff::EntityRef;

/// Steps under one title: a visit, or a phase of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepGroup {
    /// The visit, or visit and phase.
    pub title: String,
    /// Its rows.
    pub rows: Vec<StepRow>,
}

/// A row to check off.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepRow {
    /// `task`, `step`, `caution` or `hold`.
    pub kind: &'static str,
    /// The text.
    pub text: String,
}

/// How much is said of each task.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Detail {
    /// Its name, its steps in words, its cautions, its hold point.
    Words,
    /// Its name and its hold point.
    Names,
}

/// Which phases are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// What is done before leaving the shop.
    Before,
    /// Everything else.
    OnSite,
}

/// A task with where it is done.
type Found<'a> = BTreeMap<(VisitKind, Phase, u32, &'a str), (&'a Task, Vec<EntityRef>)>;

/// Tasks of the labor lines that are wanted. Office work is nobody's step.
fn found<'a>(sources: &Sources<'a>, part: Part, wanted: impl Fn(EntityRef) -> bool) -> Found<'a> {
    let mut found: Found = BTreeMap::new();
    for line in sources.takeoff.labor.iter().filter(|line| wanted(line.of)) {
        let Some(task) = line.task.as_ref().and_then(|id| sources.catalog.tasks.get(id)) else { continue };
        let before = task.phase == Phase::Before;
        if task.phase == Phase::Office || before != (part == Part::Before) {
            continue;
        }
        let key = (task.visit, task.phase, task.order, task.id.as_str());
        let places = &mut found.entry(key).or_insert_with(|| (task, Vec::new())).1;
        if !places.contains(&line.of) {
            places.push(line.of);
        }
    }
    found
}

/// The tasks that are wanted, in order.
pub(super) fn tasks<'a>(sources: &Sources<'a>, wanted: impl Fn(EntityRef) -> bool) -> Vec<&'a Task> {
    let both = [Part::Before, Part::OnSite].map(|part| found(sources, part, &wanted));
    both.into_iter().flat_map(|found| found.into_values().map(|(task, _)| task)).collect()
}

/// The steps that are wanted: by visit and phase in words, by visit alone where only names are given.
pub(super) fn steps(
    sources: &Sources,
    part: Part,
    detail: Detail,
    wanted: impl Fn(EntityRef) -> bool,
) -> Vec<StepGroup> {
    let mut groups: Vec<StepGroup> = Vec::new();
    for ((visit, phase, _, _), (task, places)) in found(sources, part, wanted) {
        let title = match (visit, detail) {
            (VisitKind::Shop, _) => capital(phase.word()),
            (_, Detail::Names) => capital(visit.word()),
            (_, Detail::Words) => format!("{}: {phase}", capital(visit.word())),
        };
        if groups.last().is_none_or(|last| last.title != title) {
            groups.push(StepGroup { title, rows: Vec::new() });
        }
        if let Some(group) = groups.last_mut() {
            group.rows.extend(rows(task, detail, &where_done(sources, &places)));
        }
    }
    if detail == Detail::Names { joined(groups) } else { groups }
}

/// Visits with one or two tasks go with the visit before them, so that their titles do not take more room than they.
fn joined(groups: Vec<StepGroup>) -> Vec<StepGroup> {
    let mut out: Vec<StepGroup> = Vec::new();
    for group in groups {
        match out.last_mut() {
            Some(last) if group.rows.len() < 3 => {
                last.title = format!("{}, {}", last.title, group.title.to_lowercase());
                last.rows.extend(group.rows);
            }
            _ => out.push(group),
        }
    }
    out
}

fn rows(task: &Task, detail: Detail, place: &str) -> Vec<StepRow> {
    let row = |kind: &'static str, text: &str| StepRow { kind, text: text.to_owned() };
    let hold = task.hold.iter().map(|hold| row("hold", hold));
    let name = format!("{}{place}", task.name);
    match detail {
        Detail::Names => std::iter::once(row("step", &name)).chain(hold).collect(),
        Detail::Words => {
            let cautions = task.cautions.iter().map(|caution| row("caution", caution));
            let steps = task.steps.iter().map(|step| row("step", step));
            std::iter::once(row("task", &name)).chain(cautions).chain(steps).chain(hold).collect()
        }
    }
}

/// Where a task is done, if that needs saying: at which leaf, drive, device or run.
fn where_done(sources: &Sources, places: &[EntityRef]) -> String {
    let mut sorted = places.to_vec();
    sorted.sort();
    let mut named: Vec<(&'static str, Vec<String>)> = Vec::new();
    for (kind, name) in sorted.iter().filter_map(|of| place(sources, *of)) {
        match named.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, names)) if names.contains(&name) => {}
            Some((_, names)) => names.push(name),
            None => named.push((kind, vec![name])),
        }
    }
    // A list over many openings would name the same leaf again and again.
    let openings: BTreeSet<usize> = sorted.iter().filter_map(|of| of.opening()).collect();
    if named.is_empty() || openings.len() > 1 {
        return String::new();
    }
    let words = named.into_iter().map(|(kind, names)| match (kind, names.len()) {
        ("", _) => names.join(", "),
        ("leaf", 2..) => format!("leaves {}", names.join(", ")),
        (kind, 2..) => format!("{kind}s {}", names.join(", ")),
        (kind, _) => format!("{kind} {}", names.join(", ")),
    });
    format!(" ({})", words.collect::<Vec<_>>().join(", "))
}

/// The kind and the name of a place that needs naming.
fn place(sources: &Sources, of: EntityRef) -> Option<(&'static str, String)> {
    let all = &sources.takeoff.arrangement;
    let number = |at: usize| (at + 1).to_string();
    match (of, of.opening().map(|at| &all.openings[at])) {
        (EntityRef::Leaf(_, leaf), Some(it)) if it.leaves.len() > 1 => Some(("leaf", number(leaf))),
        (EntityRef::Header(_, header), Some(it)) if it.headers.len() > 1 => Some(("header", number(header))),
        (EntityRef::Drive(_, drive), Some(it)) if it.drives.len() > 1 => Some(("leaf", number(it.drives[drive].leaf))),
        (EntityRef::Device(_, device), Some(it)) => Some(("", it.devices[device].id.clone())),
        (EntityRef::Group(_, group), Some(it)) => Some(("", it.groups[group].id.clone())),
        (EntityRef::Run(run), _) => Some(("run", all.runs[run].run.number.to_string())),
        (EntityRef::Panel(panel), _) => Some(("", all.panels[panel].id.clone()?)),
        (EntityRef::Circuit(circuit), _) => {
            let circuit = &all.circuits[circuit];
            let panel = all.panels[circuit.panel].id.as_deref().unwrap_or("no panel");
            Some(("", format!("{panel} {}", circuit.number)))
        }
        _ => None,
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
