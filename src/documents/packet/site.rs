//! The site sheet: what a crew reads before it leaves, and what moved off the sheets of openings.
//!
//! In: sources, a site, its openings. Out: the view of the site sheet. May not know: pages.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::conditions::Unknown;
use super::super::counts::site_of;
use super::super::devices::{DeviceRow, device_rows};
use super::super::heading::{Heading, heading, up};
use super::super::printing::{DASH, Printing, listed, or_dash, volts, word};
use super::super::schedule::{OperationView, operations};
use super::super::survey_form::surveys_made;
use super::super::{ConditionEvaluator, Sources};
use super::checks::{CheckRow, checks};
use super::opening::{Parts, moved_parts, place_of_moved};
use super::power::{CircuitRow, RunRow, circuits, forbidden, runs};
use super::steps::{HowGroup, Part, how, tasks};
use super::{Fact, MOVES, Moved};
use crate::catalog::{Entity, NoteKind, Phase, Task, VisitKind};
use crate::input::{Slot, Text};
use crate::job::{Link, Site};
use crate::takeoff::{EntityRef, OpeningWork};

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
    /// Tools of all tasks, in columns that stand side by side.
    pub tools: Vec<Vec<String>>,
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
    /// Steps in the shop, in words.
    pub before: Vec<HowGroup>,
    /// Steps on the site in words: those of the site, and once for all openings how each of theirs is done.
    pub how: Vec<HowGroup>,
    /// Checks that only the site can answer.
    pub checks: Vec<CheckRow>,
    /// Faults: symptom, checks.
    pub faults: Vec<FaultRow>,
    /// Telephones: our office, and help by operator.
    pub help: Vec<Fact>,
    /// What moved off the sheets of openings.
    pub moved: Vec<MovedSheet>,
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
    /// Its hold points.
    pub holds: String,
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
    /// Rules for shutting it down, and circuits of it that must not be used.
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
    /// The id of its place, to which the sheets of the opening lead.
    pub id: String,
    /// Mark.
    pub mark: String,
    /// What moved, in words.
    pub what: String,
    /// What moved.
    pub parts: Parts,
}

/// The site sheet of a site, by position, with its openings and their positions.
pub(super) fn sheet(
    sources: &Sources,
    conditions: &ConditionEvaluator,
    site: usize,
    here: &[(usize, &OpeningWork)],
    moved: &Moved,
) -> SiteSheet {
    let of = sources.takeoff.arrangement.sites.get(site).copied();
    let is_here = |id: &str| of.is_some_and(|of| of.id == id);
    let openings: &[usize] = &here.iter().map(|(at, _)| *at).collect::<Vec<_>>();
    let at_site = |entity: EntityRef| site_of(sources.takeoff, entity) == Some(site);
    let all_tasks = tasks(sources, at_site);
    let tools: BTreeSet<&String> = all_tasks.iter().flat_map(|task| &task.tools).collect();
    let panel_site = |at: usize| sources.takeoff.arrangement.panels.get(at).is_some_and(|panel| is_here(&panel.site));
    SiteSheet {
        name: of.map(|of| of.name.clone()).unwrap_or_default(),
        facts: of.map(facts).unwrap_or_default(),
        visits: visits(sources, site),
        openings: here
            .iter()
            .map(|(_, work)| OpeningRow { heading: heading(sources, work), surveyed: surveys_made(work) })
            .collect(),
        tools: in_columns(&tools.into_iter().cloned().collect::<Vec<_>>()),
        cartons: cartons(sources, openings),
        cautions: cautions(conditions, at_site),
        radio: radio(sources, openings),
        operations: operations(sources, conditions, openings),
        panels: panels(sources, site),
        circuits: circuits(sources, |circuit| panel_site(circuit.panel)),
        runs: runs(sources, |run| is_here(&run.run.site)),
        before: how(sources, Part::Before, at_site),
        how: how(sources, Part::OnSite, at_site),
        checks: checks(sources, site, openings),
        faults: faults(sources),
        help: help(sources, openings),
        moved: moved_sheets(sources, conditions, here, moved),
    }
}

/// A list in four columns, filled in turn.
fn in_columns(list: &[String]) -> Vec<Vec<String>> {
    list.chunks(list.len().div_ceil(4).max(1)).map(<[String]>::to_vec).collect()
}

fn facts(of: &Site) -> Vec<Fact> {
    let text = |slot: &Slot<Text>| slot.get().map_or_else(|| DASH.to_owned(), |it| it.as_str().to_owned());
    let year = of.entry.year.get().map(|year| year.get().to_string());
    let pairs = [
        ("Address", of.address.clone()),
        ("Contact", text(&of.entry.contact)),
        ("Working hours", text(&of.entry.hours)),
        ("Badge and keys", text(&of.entry.badge)),
        ("Parking, unloading", text(&of.entry.parking)),
        ("Staging", text(&of.entry.staging)),
        ("Lift route", text(&of.entry.lift_path)),
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
    // Work in the shop comes after the survey and before every other visit.
    let (first, others): (Vec<_>, Vec<_>) = here.into_iter().partition(|visit| visit.kind == VisitKind::Survey);
    let (shop, others): (Vec<_>, Vec<_>) = others.into_iter().partition(|visit| visit.kind == VisitKind::Shop);
    let rows = first.into_iter().chain(shop).chain(others).enumerate().map(|(at, visit)| {
        let lines = takeoff.labor.iter().filter(|line| line.site == Some(site) && line.visit == visit.kind);
        let tasks = lines.filter_map(|line| sources.catalog.tasks.get(line.task.as_deref()?));
        // Office work in the shop is no part of the crew's day, nor is what has no step: travel, setting up.
        let tasks = tasks.filter(|task| task.phase != Phase::Office || visit.kind != VisitKind::Shop);
        let tasks: Vec<&Task> = tasks.filter(|task| task.phase != Phase::Office || !task.steps.is_empty()).collect();
        let mut trades: Vec<&str> = Vec::new();
        for task in &tasks {
            let trade = sources.catalog.trades.get(&task.trade).map_or(task.trade.as_str(), |it| it.name.as_str());
            if !trades.contains(&trade) {
                trades.push(trade);
            }
        }
        VisitRow {
            number: (at + 1).to_string(),
            name: visit.kind.word().to_owned(),
            people: visit.people.to_string(),
            trades: trades.join(", "),
            work: work(&tasks),
            holds: holds(&tasks),
        }
    });
    rows.collect()
}

/// The work of a visit: its phases in order; where it has but one, its tasks.
fn work(tasks: &[&Task]) -> String {
    let phases: BTreeSet<Phase> = tasks.iter().map(|task| task.phase).collect();
    if phases.len() > 1 {
        return listed(phases.into_iter().map(|phase| phase.word().to_owned()), ", ");
    }
    let names: BTreeSet<(u32, &str)> = tasks.iter().map(|task| (task.order, task.name.as_str())).collect();
    listed(names.into_iter().map(|(_, name)| name.to_owned()), "; ")
}

/// The hold points of a visit, by what stands before their colon.
fn holds(tasks: &[&Task]) -> String {
    let named = tasks.iter().filter_map(|task| task.hold.as_ref()?.split([':', ',']).next());
    let named: BTreeSet<&str> = named.collect();
    listed(named.into_iter().map(str::to_owned), ", ")
}

/// How many of an entity an opening has, for its cartons.
fn how_many(sources: &Sources, at: usize, per: Entity) -> usize {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return 0 };
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
    let printing = Printing::of(sources.reviewed.job());
    let mut found: BTreeMap<&str, (&crate::catalog::Carton, usize, Vec<String>)> = BTreeMap::new();
    for at in openings {
        let Some(work) = sources.takeoff.arrangement.openings.get(*at) else { continue };
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

/// Cautions that hold anywhere at the site. Those of a task stand beside its steps.
fn cautions(conditions: &ConditionEvaluator, at_site: impl Fn(EntityRef) -> bool) -> Vec<String> {
    conditions.notes(NoteKind::Caution, Unknown::Yes, at_site).into_iter().map(|note| note.says.clone()).collect()
}

fn radio(sources: &Sources, openings: &[usize]) -> Vec<DeviceRow> {
    let all = openings.iter().flat_map(|at| device_rows(sources, *at));
    all.filter(|row| row.link == Link::Wireless.word()).collect()
}

fn panels(sources: &Sources, site: usize) -> Vec<PanelRow> {
    let all = &sources.takeoff.arrangement;
    let Some(id) = all.sites.get(site).map(|site| &site.id) else { return Vec::new() };
    let rows = all.panels.iter().filter(|panel| &panel.site == id).map(|panel| {
        let typed = panel.id.as_ref().and_then(|id| sources.reviewed.job().panels.get(id));
        let entry = typed.map(|it| &it.entry);
        PanelRow {
            name: panel.id.clone().unwrap_or_else(|| "panel not assigned".to_owned()),
            place: or_dash(entry.and_then(|it| it.place.get()).map(|it| it.as_str())),
            volts: or_dash(entry.and_then(|it| it.volts.get()).map(|it| volts(*it)).as_deref()),
            circuits: panel.circuits.to_string(),
            spaces: panel.spaces.map_or_else(|| "not known".to_owned(), |spaces| spaces.to_string()),
            free: panel.free.map_or_else(|| "not known".to_owned(), |free| free.to_string()),
            shortfall: panel.shortfall().map_or_else(|| "not known".to_owned(), |short| short.to_string()),
            shutdown: listed(
                entry
                    .and_then(|it| it.shutdown.get())
                    .map(|it| it.as_str().to_owned())
                    .into_iter()
                    .chain(entry.into_iter().flat_map(forbidden).map(|circuit| format!("do not use {circuit}"))),
                "; ",
            ),
        }
    });
    rows.collect()
}

fn faults(sources: &Sources) -> Vec<FaultRow> {
    let rows = sources.catalog.faults.iter().map(|fault| {
        // A check that ends as a question has its stop already.
        let stop = |check: &str| if check.ends_with('?') { "" } else { "." };
        let checks = fault.checks.iter().enumerate();
        let checks = checks.map(|(at, check)| format!("{}.\u{a0}{check}{}", at + 1, stop(check)));
        FaultRow { symptom: fault.symptom.clone(), checks: listed(checks, " ") }
    });
    rows.collect()
}

fn help(sources: &Sources, openings: &[usize]) -> Vec<Fact> {
    let operators = openings.iter().filter_map(|at| sources.takeoff.arrangement.openings.get(*at)?.operator);
    let found: BTreeMap<&str, Fact> = operators
        .map(|it| {
            let fact = Fact { label: it.name.clone(), value: or_dash(it.help.as_deref()) };
            (it.id.as_str(), fact)
        })
        .collect();
    let firm = &sources.catalog.firm;
    let office = (!firm.phone.is_empty()).then(|| Fact { label: "Our office".to_owned(), value: firm.phone.clone() });
    office.into_iter().chain(found.into_values()).collect()
}

fn moved_sheets(
    sources: &Sources,
    conditions: &ConditionEvaluator,
    here: &[(usize, &OpeningWork)],
    moved: &Moved,
) -> Vec<MovedSheet> {
    let sheets = here.iter().filter_map(|(at, work)| {
        let mark = &work.opening.mark;
        // Runs, which move first, stand on the site sheet whether they moved or not.
        let count = moved.get(mark).copied().filter(|count| *count > 1)?.min(MOVES.len());
        let parts = Parts { runs: Vec::new(), ..moved_parts(sources, conditions, (*at, work), count) };
        let what = parts.words();
        (!what.is_empty()).then(|| MovedSheet { id: place_of_moved(*at), mark: mark.clone(), what, parts })
    });
    sheets.collect()
}
