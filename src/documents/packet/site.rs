//! The site sheet: what a crew reads before it leaves, and what moved off the sheets of openings.
//!
//! In: sources, a site, its openings. Out: the view of the site sheet. May not know: pages.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::counts::site_of;
use super::super::devices::{DeviceRow, device_rows};
use super::super::heading::{Heading, heading, up};
use super::super::judging::Unknown;
use super::super::printing::{DASH, Printing, listed, or_dash, volts, word};
use super::super::schedule::{OperationView, operations};
use super::super::survey_form::surveys_made;
use super::super::{Judge, Sources};
use super::power::{CircuitRow, RunRow, circuits, runs};
use super::settings::{SettingRow, settings};
use super::steps::{Detail, Part, StepGroup, steps, tasks};
use super::{MOVES, Moved};
use crate::catalog::{Entity, NoteKind, Phase, VisitKind};
use crate::findings::{Severity, Subject};
use crate::job::Link;
use crate::reading::{Slot, Text};
use crate::takeoff::EntityRef;

/// The site sheet.
#[derive(Clone, Debug, Serialize)]
pub struct SiteSheet {
    /// Name.
    pub name: String,
    /// Labels and values: address, contact, hours and so on.
    pub facts: Vec<Fact>,
    /// Visits in order.
    pub visits: Vec<VisitRow>,
    /// Openings in the order of work.
    pub openings: Vec<OpeningRow>,
    /// Tools of all tasks.
    pub tools: Vec<String>,
    /// Cartons to check.
    pub cartons: Vec<CartonRow>,
    /// Cautions of all tasks, and of the site.
    pub cautions: Vec<String>,
    /// Devices by radio.
    pub radio: Vec<DeviceRow>,
    /// What openings do in each state.
    pub operations: Vec<OperationView>,
    /// Panels.
    pub panels: Vec<PanelRow>,
    /// Circuits.
    pub circuits: Vec<CircuitRow>,
    /// Runs.
    pub runs: Vec<RunRow>,
    /// Steps that belong to no one opening.
    pub steps: Vec<StepGroup>,
    /// Steps of openings in words, where they moved here.
    pub words: Vec<StepGroup>,
    /// Checks that only the site can answer.
    pub checks: Vec<Fact>,
    /// Faults: symptom, checks.
    pub faults: Vec<FaultRow>,
    /// Telephones of help by operator.
    pub help: Vec<Fact>,
    /// What moved off the sheets of openings.
    pub moved: Vec<MovedSheet>,
}

/// A label and its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// Label.
    pub label: String,
    /// Value.
    pub value: String,
}

/// A visit.
#[derive(Clone, Debug, Serialize)]
pub struct VisitRow {
    /// Its number in the order of work.
    pub number: String,
    /// Which visit.
    pub name: String,
    /// People in its largest crew.
    pub people: String,
    /// Trades.
    pub trades: String,
    /// What is done.
    pub work: String,
}

/// An opening in the site's list.
#[derive(Clone, Debug, Serialize)]
pub struct OpeningRow {
    /// Heading.
    pub heading: Heading,
    /// Surveys made.
    pub surveyed: String,
}

/// A carton to check.
#[derive(Clone, Debug, Serialize)]
pub struct CartonRow {
    /// Tag.
    pub tag: String,
    /// Contents.
    pub holds: String,
    /// How many.
    pub count: String,
    /// Weight of one.
    pub weight: String,
    /// Openings it is for.
    pub openings: String,
}

/// A panel of the site.
#[derive(Clone, Debug, Serialize)]
pub struct PanelRow {
    /// Its id.
    pub name: String,
    /// Where it stands.
    pub place: String,
    /// Volts.
    pub volts: String,
    /// Circuits that it must feed.
    pub circuits: String,
    /// Spaces that their breakers take.
    pub spaces: String,
    /// Spaces free.
    pub free: String,
    /// Spaces that are wanting.
    pub shortfall: String,
    /// Rules for shutting it down.
    pub shutdown: String,
}

/// A symptom with its checks.
#[derive(Clone, Debug, Serialize)]
pub struct FaultRow {
    /// Symptom.
    pub symptom: String,
    /// Checks, cheapest first, in one line.
    pub checks: String,
}

/// What moved off the sheets of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct MovedSheet {
    /// Mark.
    pub mark: String,
    /// What moved, in words.
    pub what: String,
    /// Whether the opening has two drives.
    pub two_drives: bool,
    /// Devices.
    pub devices: Vec<DeviceRow>,
    /// Steps in the shop.
    pub before: Vec<StepGroup>,
    /// Settings.
    pub settings: Vec<SettingRow>,
}

/// The site sheet of a site, by position, with the positions of its openings.
pub(super) fn sheet(sources: &Sources, judge: &Judge, site: usize, openings: &[usize], moved: &Moved) -> SiteSheet {
    let of = sources.takeoff.arrangement.sites[site];
    let at_site = |entity: EntityRef| site_of(sources.takeoff, entity) == Some(site);
    let apart = |entity: EntityRef| at_site(entity) && entity.opening().is_none();
    let all_tasks = tasks(sources, at_site);
    let tools: BTreeSet<&String> = all_tasks.iter().flat_map(|task| &task.tools).collect();
    let panel_site = |panel: usize| sources.takeoff.arrangement.panels[panel].site == of.id;
    SiteSheet {
        name: of.name.clone(),
        facts: facts(sources, site),
        visits: visits(sources, site),
        openings: openings
            .iter()
            .map(|at| OpeningRow {
                heading: heading(sources, *at),
                surveyed: surveys_made(&sources.takeoff.arrangement.openings[*at]),
            })
            .collect(),
        tools: tools.into_iter().cloned().collect(),
        cartons: cartons(sources, openings),
        cautions: cautions(judge, &all_tasks, at_site),
        radio: radio(sources, openings),
        operations: operations(sources, judge, openings),
        panels: panels(sources, site),
        circuits: circuits(sources, |circuit| panel_site(circuit.panel)),
        runs: runs(sources, |run| run.run.site == of.id),
        steps: both(sources, Detail::Words, apart),
        words: both(sources, Detail::Words, |entity| entity.opening().is_some_and(|at| has_moved(sources, at, moved))),
        checks: checks(sources, site, openings),
        faults: faults(sources),
        help: help(sources, openings),
        moved: moved_sheets(sources, judge, openings, moved),
    }
}

/// Steps in the shop and on the site.
fn both(sources: &Sources, detail: Detail, wanted: impl Fn(EntityRef) -> bool) -> Vec<StepGroup> {
    [Part::Before, Part::OnSite].into_iter().flat_map(|part| steps(sources, part, detail, &wanted)).collect()
}

/// Whether the words of an opening's steps stand on the site sheet.
fn has_moved(sources: &Sources, at: usize, moved: &Moved) -> bool {
    moved.get(&sources.takeoff.arrangement.openings[at].opening.mark).is_some_and(|count| *count > 0)
}

fn facts(sources: &Sources, site: usize) -> Vec<Fact> {
    let of = sources.takeoff.arrangement.sites[site];
    let text = |slot: &Slot<Text>| slot.get().map_or_else(|| DASH.to_owned(), |it| it.as_str().to_owned());
    let year = of.entry.year.get().map(|year| year.get().to_string());
    let pairs = [
        ("Address", of.address.clone()),
        ("Person to call", text(&of.entry.contact)),
        ("Working hours", text(&of.entry.hours)),
        ("Badge and keys", text(&of.entry.badge)),
        ("Parking, unloading", text(&of.entry.parking)),
        ("Staging", text(&of.entry.staging)),
        ("Way of a lift", text(&of.entry.lift_path)),
        ("Emergency", text(&of.entry.emergency)),
        ("Permit", text(&of.entry.permit)),
        ("Year built", or_dash(year.as_deref())),
        ("Hazardous material", format!("report: {}", word(&of.entry.hazard))),
    ];
    pairs.into_iter().map(|(label, value)| Fact { label: label.to_owned(), value }).collect()
}

fn visits(sources: &Sources, site: usize) -> Vec<VisitRow> {
    let takeoff = sources.takeoff;
    let here = takeoff.visits.iter().filter(|visit| visit.site == site).collect::<Vec<_>>();
    // Work in the shop comes before every visit.
    let (shop, outside): (Vec<_>, Vec<_>) = here.into_iter().partition(|visit| visit.kind == VisitKind::Shop);
    let rows = shop.into_iter().chain(outside).enumerate().map(|(at, visit)| {
        let lines = takeoff.labor.iter().filter(|line| line.site == Some(site) && line.visit == visit.kind);
        let tasks = lines.filter_map(|line| sources.catalog.tasks.get(line.task.as_ref()?));
        let mut names: Vec<(Phase, u32, &str)> = Vec::new();
        let mut trades: Vec<&str> = Vec::new();
        // Office work in the shop is no part of the crew's day.
        for task in tasks.filter(|task| task.phase != Phase::Office || visit.kind != VisitKind::Shop) {
            let trade = sources.catalog.trades.get(&task.trade).map_or(task.trade.as_str(), |it| it.name.as_str());
            if !trades.contains(&trade) {
                trades.push(trade);
            }
            let name = (task.phase, task.order, task.name.as_str());
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names.sort();
        VisitRow {
            number: (at + 1).to_string(),
            name: visit.kind.word().to_owned(),
            people: visit.people.to_string(),
            trades: trades.join(", "),
            work: listed(names.into_iter().map(|(_, _, name)| name.to_owned()), "; "),
        }
    });
    rows.collect()
}

/// How many of an entity an opening has, for its cartons.
fn how_many(sources: &Sources, at: usize, per: Entity) -> usize {
    let work = &sources.takeoff.arrangement.openings[at];
    match per {
        Entity::Opening => 1,
        Entity::Leaf => work.leaves.len(),
        Entity::PoweredLeaf => work.powered_leaves(),
        Entity::Header => work.headers.len(),
        Entity::Drive => work.drives.len(),
        Entity::Device => work.devices.len(),
        Entity::DeviceGroup => work.groups.len(),
        Entity::Box => work.boxes.len(),
        Entity::Fixing => work.fixings.len(),
        Entity::Job | Entity::Site | Entity::Visit | Entity::Panel | Entity::Circuit | Entity::Run | Entity::Item => 0,
    }
}

fn cartons(sources: &Sources, openings: &[usize]) -> Vec<CartonRow> {
    let printing = Printing::of(sources.cleared.job());
    let mut found: BTreeMap<&str, (&crate::catalog::Carton, usize, Vec<String>)> = BTreeMap::new();
    for at in openings {
        let work = &sources.takeoff.arrangement.openings[*at];
        for carton in work.operator.iter().flat_map(|operator| &operator.cartons) {
            let count = how_many(sources, *at, carton.per);
            if count == 0 {
                continue;
            }
            let row = found.entry(&carton.tag).or_insert_with(|| (carton, 0, Vec::new()));
            row.1 += count;
            let mark = &work.opening.mark;
            row.2.push(if count == 1 { mark.clone() } else { format!("{mark} (×{count})") });
        }
    }
    let rows = found.into_values().map(|(carton, count, marks)| CartonRow {
        tag: carton.tag.clone(),
        holds: carton.holds.join(", "),
        count: count.to_string(),
        weight: printing.weight(up(carton.weight)),
        openings: marks.join(", "),
    });
    rows.collect()
}

fn cautions(judge: &Judge, tasks: &[&crate::catalog::Task], at_site: impl Fn(EntityRef) -> bool) -> Vec<String> {
    let notes = judge.notes(NoteKind::Caution, Unknown::Yes, at_site).into_iter().map(|note| note.says.clone());
    let mut all: Vec<String> = Vec::new();
    for caution in notes.chain(tasks.iter().flat_map(|task| task.cautions.iter().cloned())) {
        if !all.contains(&caution) {
            all.push(caution);
        }
    }
    all
}

fn radio(sources: &Sources, openings: &[usize]) -> Vec<DeviceRow> {
    let all = openings.iter().flat_map(|at| device_rows(sources, *at));
    all.filter(|row| row.link == Link::Wireless.word()).collect()
}

fn panels(sources: &Sources, site: usize) -> Vec<PanelRow> {
    let all = &sources.takeoff.arrangement;
    let id = &all.sites[site].id;
    let rows = all.panels.iter().filter(|panel| &panel.site == id).map(|panel| {
        let typed = panel.id.as_ref().and_then(|id| sources.cleared.job().panels.get(id));
        let entry = typed.map(|it| &it.entry);
        PanelRow {
            name: panel.id.clone().unwrap_or_else(|| "no panel yet".to_owned()),
            place: or_dash(entry.and_then(|it| it.place.get()).map(|it| it.as_str())),
            volts: or_dash(entry.and_then(|it| it.volts.get()).map(|it| volts(*it)).as_deref()),
            circuits: panel.circuits.to_string(),
            spaces: panel.spaces.map_or_else(|| "not known".to_owned(), |spaces| spaces.to_string()),
            free: panel.free.map_or_else(|| "not known".to_owned(), |free| free.to_string()),
            shortfall: panel.shortfall().map_or_else(|| "not known".to_owned(), |short| short.to_string()),
            shutdown: or_dash(entry.and_then(|it| it.shutdown.get()).map(|it| it.as_str())),
        }
    });
    rows.collect()
}

/// Findings that only the site can answer.
fn checks(sources: &Sources, site: usize, openings: &[usize]) -> Vec<Fact> {
    let all = &sources.takeoff.arrangement;
    let marks: Vec<&str> = openings.iter().map(|at| all.openings[*at].opening.mark.as_str()).collect();
    let id = &all.sites[site].id;
    let here = sources.findings.iter().filter(|finding| finding.code.severity == Severity::FieldVerify);
    let rows = here.filter_map(|finding| {
        let label = match &finding.subject {
            Subject::Opening(mark) if marks.contains(&mark.as_str()) => mark.clone(),
            Subject::Site(of) if of == id => "site".to_owned(),
            _ => return None,
        };
        // Some sentences hold what is asked; the others need it beside them.
        let said = finding.asked.is_empty() || finding.code.says.contains("{asked}");
        let asked = if said { String::new() } else { format!("; asked: {}", finding.asked) };
        Some(Fact { label, value: format!("{}{asked}", finding.sentence()) })
    });
    rows.collect()
}

fn faults(sources: &Sources) -> Vec<FaultRow> {
    let rows = sources.catalog.faults.iter().map(|fault| {
        let checks = fault.checks.iter().enumerate().map(|(at, check)| format!("{}. {check}", at + 1));
        FaultRow { symptom: fault.symptom.clone(), checks: listed(checks, "  ") }
    });
    rows.collect()
}

fn help(sources: &Sources, openings: &[usize]) -> Vec<Fact> {
    let operators = openings.iter().filter_map(|at| sources.takeoff.arrangement.openings[*at].operator);
    let found: BTreeMap<&str, Fact> = operators
        .map(|it| {
            let fact = Fact { label: it.name.clone(), value: or_dash(it.help.as_deref()) };
            (it.id.as_str(), fact)
        })
        .collect();
    found.into_values().collect()
}

fn moved_sheets(sources: &Sources, judge: &Judge, openings: &[usize], moved: &Moved) -> Vec<MovedSheet> {
    let all = &sources.takeoff.arrangement;
    let sheets = openings.iter().filter_map(|at| {
        let mark = &all.openings[*at].opening.mark;
        let count = moved.get(mark).copied().filter(|count| *count > 1)?.min(MOVES.len());
        let here = |of: EntityRef| of.opening() == Some(*at);
        Some(MovedSheet {
            mark: mark.clone(),
            what: MOVES[1..count].join(", "),
            two_drives: all.openings[*at].drives.len() > 1,
            before: steps(sources, Part::Before, Detail::Names, here),
            devices: if count > 3 { device_rows(sources, *at) } else { Vec::new() },
            settings: if count > 4 { settings(sources, judge, *at) } else { Vec::new() },
        })
    });
    sheets.collect()
}
