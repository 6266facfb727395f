//! Where power is: circuits, panels, the end of the header it enters, and the runs that bring it.
//!
//! In: arrangement. Out: rows. May not know: pages.

use rust_decimal::Decimal;
use serde::Serialize;

use super::super::Sources;
use super::super::printing::{ASSUMED_ROUTE, DASH, Printing, amps, listed, or_dash, power_known, volts};
use crate::job::{PanelCircuitEntry, PanelEntry, PowerKnown, RunClass, RunEnd};
use crate::measure::{Amps, Noun, Unit};
use crate::takeoff::{CircuitWork, RunWork};

/// A circuit that feeds headers.
#[derive(Clone, Debug, Serialize)]
pub struct CircuitRow {
    /// Its panel and number.
    pub name: String,
    /// Its panel.
    pub panel: String,
    /// Its number in the panel's directory, where it is there.
    pub number: Option<String>,
    /// Volts alone, for labels.
    pub volts: String,
    /// Where the panel stands.
    pub place: String,
    /// Volts and running amps.
    pub load: String,
    /// What the amps are made of, where more is on it than drives.
    pub made_of: String,
    /// How well it is known.
    pub known: String,
    /// Openings that it feeds.
    pub feeds: String,
}

/// A run of raceway or cable.
#[derive(Clone, Debug, Serialize)]
pub struct RunRow {
    /// Its number.
    pub number: String,
    /// Where it starts.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// Kind and trade size.
    pub kind: String,
    /// Line or low voltage.
    pub class: String,
    /// Length.
    pub length: String,
    /// Bends, pull boxes, supports.
    pub needs: String,
    /// What is in it.
    pub carries: String,
}

/// Circuits that feed an opening, by the opening's position.
pub(super) fn circuits_of(sources: &Sources, at: usize) -> Vec<CircuitRow> {
    circuits(sources, |circuit| circuit.headers.iter().any(|(opening, _)| *opening == at))
}

/// Circuits that a site needs.
pub(super) fn circuits(sources: &Sources, wanted: impl Fn(&CircuitWork) -> bool) -> Vec<CircuitRow> {
    let all = &sources.takeoff.arrangement;
    let rows = all.circuits.iter().filter(|circuit| wanted(circuit)).filter_map(|circuit| {
        let panel = all.panels.get(circuit.panel)?;
        let typed = panel.id.as_ref().and_then(|id| sources.reviewed.job().panels.get(id));
        let mut marks: Vec<&str> = Vec::new();
        for work in circuit.headers.iter().filter_map(|(opening, _)| all.openings.get(*opening)) {
            let mark = work.opening.mark.as_str();
            if !marks.contains(&mark) {
                marks.push(mark);
            }
        }
        let voltage = or_dash(circuit.volts.map(volts).as_deref());
        let total =
            sources.takeoff.amps_on(circuit, sources.catalog).or(circuit.amps.filter(|_| circuit.existing.is_none()));
        let load = [circuit.volts.map(volts), total.map(amps)];
        Some(CircuitRow {
            name: match &panel.id {
                Some(id) => match circuit.existing {
                    Some(_) => format!("{id}, existing circuit {}", circuit.label()),
                    None => format!("{id}, circuit no. {}", circuit.number),
                },
                None => format!("panel not assigned, circuit {}", circuit.number),
            },
            number: circuit.existing.as_ref().map(|there| there.number.clone()),
            panel: panel.id.clone().unwrap_or_else(|| "panel not assigned".to_owned()),
            volts: voltage,
            place: or_dash(typed.and_then(|it| it.entry.place.get()).map(|it| it.as_str())),
            load: listed(load.into_iter().flatten(), ", "),
            made_of: load_words(sources, circuit).unwrap_or_default(),
            known: power_known(circuit.known.unwrap_or(PowerKnown::Assumed)).to_owned(),
            feeds: marks.join(", "),
        })
    });
    rows.collect()
}

/// What the amps of a circuit are made of, where more is on it than drives.
fn load_words(sources: &Sources, circuit: &CircuitWork) -> Option<String> {
    let accessories = sources.takeoff.accessories_on(circuit, sources.catalog);
    if accessories.is_empty() && circuit.existing.is_none() {
        return None;
    }
    let mut names: Vec<&str> = accessories.iter().map(|it| it.item.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let more = names.into_iter().map(|name| {
        let mut each = accessories.iter().filter(|it| it.item.name == name);
        let sum = each.try_fold(Decimal::ZERO, |sum, it| sum.checked_add(it.amps.number_of(Unit::Ampere)?));
        let sum = sum.and_then(|sum| Amps::new(sum, Unit::Ampere));
        format!("{name} {}", or_dash(sum.map(amps).as_deref()))
    });
    let today =
        circuit.existing.as_ref().map(|there| format!("load today {}", or_dash(there.amps.map(amps).as_deref())));
    let drives = circuit.amps.map(|it| format!("drives {}", amps(it)));
    Some(listed(drives.into_iter().chain(more).chain(today), ", "))
}

/// Circuits of an opening's panels that must not be used, with the reason.
pub(in crate::documents) fn forbidden(panel: &PanelEntry) -> Vec<String> {
    let of = |it: &PanelCircuitEntry| {
        let serves = it.serves.get().map(|serves| format!(" ({serves})")).unwrap_or_default();
        Some(format!("circuit {}{serves}: {}", it.number.get()?, it.forbidden.get()?))
    };
    panel.circuit.list().iter().filter_map(of).collect()
}

/// The runs of an opening: its own, and the numbers of those that feed it and others.
pub(super) struct OpeningRuns {
    /// Runs that end at it or at its devices.
    pub own: Vec<RunRow>,
    /// Numbers of the others that bring it something.
    pub shared: Vec<String>,
}

/// Runs of an opening, by its position.
pub(super) fn runs_of(sources: &Sources, at: usize) -> OpeningRuns {
    let all = &sources.takeoff.arrangement;
    let mark = all.openings.get(at).map(|work| &work.opening.mark);
    let feeds = |circuit: &CircuitWork| circuit.headers.iter().any(|(opening, _)| *opening == at);
    let circuits = |run: &RunWork| run.circuits.iter().any(|it| all.circuits.get(*it).is_some_and(feeds));
    let ends = |end: &RunEnd| matches!(end, RunEnd::Opening(it) | RunEnd::Device(it, _) if Some(it) == mark);
    let cables = |run: &RunWork| run.cables.iter().any(|(opening, _)| *opening == at);
    let own = |run: &RunWork| run.run.whole().into_iter().any(ends);
    OpeningRuns {
        own: runs(sources, own),
        shared: runs(sources, |run| !own(run) && (circuits(run) || cables(run)))
            .into_iter()
            .map(|row| row.number)
            .collect(),
    }
}

/// Runs that are wanted, in file order.
pub(super) fn runs(sources: &Sources, wanted: impl Fn(&RunWork) -> bool) -> Vec<RunRow> {
    sources.takeoff.arrangement.runs.iter().filter(|run| wanted(run)).map(|run| row(sources, run)).collect()
}

fn row(sources: &Sources, work: &RunWork) -> RunRow {
    let printing = Printing::of(sources.reviewed.job());
    let all = &sources.takeoff.arrangement;
    let some = |count: u32, noun: Noun| (count > 0).then(|| noun.count(count));
    let bends = listed(work.run.bends.iter().map(|bend| format!("{bend}°")), " ");
    let needs = [
        (!work.run.bends.is_empty()).then(|| format!("bends {bends}")),
        some(work.pull_boxes, Noun::PULL_BOX),
        some(work.supports, Noun::SUPPORT),
        some(work.run.entry.rated_walls.get().map_or(0, |it| it.get()), Noun::RATED_WALL),
        some(work.run.entry.cores.get().map_or(0, |it| it.get()), Noun::CORE),
        work.run.entry.wet.or(false).then(|| "wet location".to_owned()),
        work.run.entry.plenum.or(false).then(|| "plenum cable".to_owned()),
        work.run.assumed.clone(),
    ];
    let mut circuits: Vec<(&str, Vec<String>)> = Vec::new();
    for circuit in work.circuits.iter().filter_map(|at| all.circuits.get(*at)) {
        let panel = all.panels.get(circuit.panel).and_then(|panel| panel.id.as_deref()).unwrap_or(DASH);
        match circuits.iter_mut().find(|(known, _)| *known == panel) {
            Some((_, numbers)) => numbers.push(circuit.label()),
            None => circuits.push((panel, vec![circuit.label()])),
        }
    }
    let circuits = circuits.into_iter().map(|(panel, numbers)| {
        let word = Noun::CIRCUIT.beside(numbers.len() as u64);
        format!("{word} {panel} {}", numbers.join(", "))
    });
    let cables = work.cables.iter().filter_map(|(opening, device)| {
        let opening = all.openings.get(*opening)?;
        Some(format!("{}/{}", opening.opening.mark, opening.devices.get(*device)?.id))
    });
    RunRow {
        number: work.run.label(),
        from: work.run.from.to_string(),
        to: work.run.to.to_string(),
        kind: match work.run.assumed {
            Some(_) => format!("{} {}, {ASSUMED_ROUTE}", work.run.kind, work.size),
            None => format!("{} {}", work.run.kind, work.size),
        },
        class: if work.run.class == RunClass::Line { "line" } else { "low" }.to_owned(),
        length: printing.size(work.run.length),
        needs: listed(needs.into_iter().flatten(), ", "),
        carries: listed(circuits.chain(cables), ", "),
    }
}
