//! Steps of the work in order: by visit, by name for one opening; by visit and phase, in words, once for a site.
//!
//! In: labor lines and the catalog's tasks. Out: rows under titles. May not know: pages, hours, wages.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::Sources;
use crate::catalog::{Phase, Task, VisitKind};
use crate::takeoff::{EntityRef, LaborLine, OpeningWork};

/// Steps of an opening under one title: a visit, or short visits together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepGroup {
    /// The visits.
    pub title: String,
    /// Its rows.
    pub rows: Vec<StepRow>,
}

/// A row to check off.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepRow {
    /// `step` or `hold`.
    pub kind: &'static str,
    /// The text.
    pub text: String,
}

/// How tasks are done, under one title: a visit and a phase of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct HowGroup {
    /// Visit and phase.
    pub title: String,
    /// Its tasks.
    pub rows: Vec<HowRow>,
}

/// How a task is done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct HowRow {
    /// Its name, with where it is done where that is not an opening.
    pub name: String,
    /// Its steps, one after the other.
    pub steps: String,
    /// Its cautions; empty where it has none.
    pub cautions: String,
    /// Its hold point; empty where it has none.
    pub hold: String,
    /// Whether it is checked off here, because the sheet of no opening lists it.
    pub here: bool,
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

/// Tasks of labor lines. Office work is nobody's step.
fn found<'a, 'l>(sources: &Sources<'a>, part: Part, lines: impl Iterator<Item = &'l LaborLine>) -> Found<'a> {
    let mut found: Found = BTreeMap::new();
    for line in lines {
        let Some(task) = line.task.as_deref().and_then(|id| sources.catalog.tasks.get(id)) else { continue };
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

/// The labor lines of the entities that are wanted.
fn wanted_lines<'l>(sources: &Sources<'l>, wanted: impl Fn(EntityRef) -> bool) -> impl Iterator<Item = &'l LaborLine> {
    sources.takeoff.labor.iter().filter(move |line| wanted(line.of))
}

/// The tasks that are wanted, in order.
pub(super) fn tasks<'a>(sources: &Sources<'a>, wanted: impl Fn(EntityRef) -> bool) -> Vec<&'a Task> {
    let both = [Part::Before, Part::OnSite].map(|part| found(sources, part, wanted_lines(sources, &wanted)));
    both.into_iter().flat_map(|found| found.into_values().map(|(task, _)| task)).collect()
}

/// The steps at an opening, by visit.
pub(super) fn steps(sources: &Sources, opening: usize) -> Vec<StepGroup> {
    let mut groups: Vec<StepGroup> = Vec::new();
    for ((visit, ..), (task, places)) in found(sources, Part::OnSite, sources.takeoff.labor_at(opening)) {
        let title = capital(visit.word());
        if groups.last().is_none_or(|last| last.title != title) {
            groups.push(StepGroup { title, rows: Vec::new() });
        }
        if let Some(group) = groups.last_mut() {
            let name = format!("{}{}", task.name, where_done(sources, &places));
            group.rows.push(StepRow { kind: "step", text: name });
            group.rows.extend(task.hold.iter().map(|hold| StepRow { kind: "hold", text: hold.clone() }));
        }
    }
    joined(groups)
}

/// How the tasks that are wanted are done, by visit and phase.
pub(super) fn how(sources: &Sources, part: Part, wanted: impl Fn(EntityRef) -> bool) -> Vec<HowGroup> {
    let mut groups: Vec<HowGroup> = Vec::new();
    for ((visit, phase, ..), (task, places)) in found(sources, part, wanted_lines(sources, wanted)) {
        let (visit, phase) = (visit.word(), phase.word());
        // Some visits have one phase that is called like them.
        let title = if visit == phase { capital(visit) } else { format!("{}: {phase}", capital(visit)) };
        if groups.last().is_none_or(|last| last.title != title) {
            groups.push(HowGroup { title, rows: Vec::new() });
        }
        if let Some(group) = groups.last_mut() {
            group.rows.push(HowRow {
                name: format!("{}{}", task.name, whose(sources, part, &places)),
                steps: task.steps.join(" "),
                cautions: task.cautions.join(" "),
                hold: task.hold.clone().unwrap_or_default(),
                here: part == Part::Before || places.iter().any(|of| of.opening().is_none()),
            });
        }
    }
    groups
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

/// Whose a task is, if that needs saying on the sheet of a site: what is loaded is told by marks, and so is what one opening
/// alone asks for; the rest each opening lists on its own sheet. What stands at no opening is named.
fn whose(sources: &Sources, part: Part, places: &[EntityRef]) -> String {
    let openings: BTreeSet<usize> = places.iter().filter_map(|of| of.opening()).collect();
    match openings.len() {
        0 => where_done(sources, places),
        2.. if part == Part::OnSite => String::new(),
        _ => {
            let works = openings.iter().filter_map(|at| sources.takeoff.arrangement.openings.get(*at));
            let marks = works.map(|work| work.opening.mark.as_str());
            format!(" ({})", marks.collect::<Vec<_>>().join(", "))
        }
    }
}

/// Where a task is done, if that needs saying: at which leaf, header, device or run. A task of every powered leaf and of no
/// other, or of every header, says neither: the sheet tells it once.
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
    if let Some(at) = sorted.iter().find_map(|of| of.opening()) {
        named.retain(|(kind, names)| !is_all(sources, at, kind, names));
    }
    let words = named.into_iter().map(|(kind, names)| match (kind, names.len()) {
        ("", _) => names.join(", "),
        ("leaf", 2..) => format!("leaves {}", names.join(", ")),
        (kind, 2..) => format!("{kind}s {}", names.join(", ")),
        (kind, _) => format!("{kind} {}", names.join(", ")),
    });
    let words: Vec<String> = words.collect();
    if words.is_empty() { String::new() } else { format!(" ({})", words.join(", ")) }
}

/// Whether names are those of all powered leaves of an opening, or of all its headers.
fn is_all(sources: &Sources, at: usize, kind: &str, names: &[String]) -> bool {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return false };
    let all: Vec<String> = match kind {
        "leaf" => powered(work).map(|leaf| leaf.to_string()).collect(),
        "header" => (1..=work.headers.len()).map(|header| header.to_string()).collect(),
        _ => return false,
    };
    names == all
}

/// Numbers of the powered leaves of an opening.
fn powered<'o>(work: &'o OpeningWork) -> impl Iterator<Item = usize> + 'o {
    work.leaves.iter().filter(|leaf| leaf.powered).map(|leaf| leaf.number)
}

/// What steps mean that name no leaf, where an opening has several leaves; empty where it has one.
pub(super) fn unnamed(work: &OpeningWork) -> String {
    let leaves: Vec<String> = powered(work).map(|leaf| leaf.to_string()).collect();
    match leaves.as_slice() {
        _ if work.leaves.len() < 2 => String::new(),
        [] => "no powered leaf".to_owned(),
        [one] => format!("leaf\u{a0}{one}"),
        _ if work.headers.len() > 1 => "each leaf and each header".to_owned(),
        _ => "each leaf".to_owned(),
    }
}

/// The kind and the name of a place that needs naming.
fn place(sources: &Sources, of: EntityRef) -> Option<(&'static str, String)> {
    let all = &sources.takeoff.arrangement;
    let number = |at: usize| (at + 1).to_string();
    match (of, of.opening().and_then(|at| all.openings.get(at))) {
        (EntityRef::Leaf(_, leaf), Some(it)) if it.leaves.len() > 1 => Some(("leaf", number(leaf))),
        (EntityRef::Header(_, header), Some(it)) if it.headers.len() > 1 => Some(("header", number(header))),
        (EntityRef::Drive(_, drive), Some(it)) if it.drives.len() > 1 => {
            Some(("leaf", number(it.drives.get(drive)?.leaf)))
        }
        (EntityRef::Device(_, device), Some(it)) => Some(("", it.devices.get(device)?.id.clone())),
        (EntityRef::Group(_, group), Some(it)) => Some(("", it.groups.get(group)?.id.clone())),
        (EntityRef::Run(run), _) => Some(("run", all.runs.get(run)?.run.label())),
        (EntityRef::Panel(panel), _) => Some(("", all.panels.get(panel)?.id.clone()?)),
        (EntityRef::Circuit(circuit), _) => {
            let circuit = all.circuits.get(circuit)?;
            let panel = all.panels.get(circuit.panel).and_then(|panel| panel.id.as_deref()).unwrap_or("no panel");
            Some(("", format!("{panel} {}", circuit.label())))
        }
        _ => None,
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
