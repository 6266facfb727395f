//! Which headers go on which circuit, and what that asks of each panel.
//!
//! In: openings with headers, the owner's policy and limit. Out: circuits by panel and number with the poles of their
//! breakers, panels with shortfall of spaces.
//! May not know: routes, rules, prices.
//!
//! Policy: one circuit for each header unless opening or owner says otherwise (common practice, no source). Shared:
//! headers of one panel join a circuit in file order while its amps stay within the owner's limit; a drive is not a
//! continuous load, so running amps are added as they are. A header that joins a circuit that is there takes neither breaker
//! nor space.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;

use super::arrangement::{BoxFor, OpeningWork};
use crate::catalog::Catalog;
use crate::engineering::{CircuitLoad, GroundRule, breaker_poles, header_box, share_circuits, volume_needed};
use crate::findings::Place;
use crate::job::{CircuitPolicy, Job, PanelCircuitEntry, PowerKnown};
use crate::measure::{Amps, Unit, Volts};
use crate::review::line_conductor;

/// A panel that feeds drives.
#[derive(Clone, Debug)]
pub struct PanelWork {
    /// Its id; none stands for power that has no panel yet.
    pub id: Option<String>,
    /// Site's id.
    pub site: String,
    /// Circuits it must feed.
    pub circuits: usize,
    /// Spaces that their breakers take, one for each pole; none where the volts of a circuit are not known.
    pub spaces: Option<usize>,
    /// Spaces free, where known.
    pub free: Option<u32>,
    /// Whether something of it, or of the power of its openings, was typed that cannot be read; it was reported.
    pub unread: bool,
}

impl PanelWork {
    /// Spaces that are wanting; none where the spaces needed or free are not known.
    pub fn shortfall(&self) -> Option<usize> {
        Some(self.spaces?.saturating_sub(self.free? as usize))
    }
}

/// A circuit of a panel that is there, and that headers join.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExistingCircuit {
    /// Its number in the panel's directory.
    pub number: String,
    /// Running amps of what it feeds today.
    pub amps: Option<Amps>,
    /// Amps of its breaker.
    pub breaker: Option<Amps>,
    /// Whether its load needs no question: it cannot be read, or the circuit must not be used, which are findings of their own.
    pub is_reported: bool,
    /// Where it is typed.
    pub place: Place,
}

/// A circuit.
#[derive(Clone, Debug)]
pub struct CircuitWork {
    /// Its number among the new circuits of its panel, from 1; of one that is there, among all of them.
    pub number: usize,
    /// The circuit that is there; none where it is new.
    pub existing: Option<ExistingCircuit>,
    /// Position of its panel.
    pub panel: usize,
    /// Headers on it: positions of opening and header. A header with two drives on a circuit each appears on both.
    pub headers: Vec<(usize, usize)>,
    /// Drives on it.
    pub drives: usize,
    /// Running amps.
    pub amps: Option<Amps>,
    /// Volts.
    pub volts: Option<Volts>,
    /// Poles of its breaker, each of which takes a space of the panel; none where the volts are not known.
    pub poles: Option<usize>,
    /// How well the power is known: the least of its openings.
    pub known: Option<PowerKnown>,
    /// Whether other headers may join it.
    pub shared: bool,
}

impl CircuitWork {
    /// Its number as papers give it: that of the directory, or its own among the new ones.
    pub fn label(&self) -> String {
        self.existing.as_ref().map_or_else(|| self.number.to_string(), |there| there.number.clone())
    }
}

struct Load {
    panel: (String, Option<String>),
    header: (usize, usize),
    drives: usize,
    known: Option<PowerKnown>,
    unread: bool,
    asks: CircuitLoad,
}

/// Plans panels and circuits.
pub(super) fn plan(job: &Job, catalog: &Catalog, openings: &[OpeningWork]) -> (Vec<PanelWork>, Vec<CircuitWork>) {
    let profile = catalog.profiles.get(&job.head.profile);
    let limit = profile.and_then(|it| it.shared_amps);
    let owners = profile.and_then(|it| CircuitPolicy::ALL.iter().copied().find(|policy| policy.word() == it.circuits));
    let mut by_panel: BTreeMap<(String, Option<String>), Vec<Load>> = BTreeMap::new();
    for (at, work) in openings.iter().enumerate() {
        for load in loads(job, at, work, owners.unwrap_or(CircuitPolicy::PerHeader)) {
            by_panel.entry(load.panel.clone()).or_default().push(load);
        }
    }
    let mut panels = Vec::new();
    let mut circuits = Vec::new();
    for (at, ((site, id), loads)) in by_panel.into_iter().enumerate() {
        let typed = id.as_ref().and_then(|id| job.panels.get(id)).map(|panel| &panel.entry);
        let there = typed.map(|it| it.circuit.list()).unwrap_or_default();
        let mut here = circuits_of(at, &loads, limit, there);
        for circuit in &mut here {
            circuit.poles = circuit.volts.map(|volts| breaker_poles(volts, typed.and_then(|it| it.volts.cloned())));
        }
        // A circuit that is there has its breaker and its space.
        let new = || here.iter().filter(|circuit| circuit.existing.is_none());
        let (count, spaces) = (new().count(), new().map(|circuit| circuit.poles).sum());
        let free = typed.and_then(|it| it.free.get()).map(|it| it.get());
        // A panel that is named and not among those that could be read was reported.
        let panel_unread = typed.map_or(id.is_some(), |it| it.free.is_bad() || it.volts.is_bad());
        let unread = panel_unread || loads.iter().any(|it| it.unread);
        panels.push(PanelWork { id, site, circuits: count, spaces, free, unread });
        circuits.append(&mut here);
    }
    (panels, circuits)
}

fn loads(job: &Job, at: usize, work: &OpeningWork, owners: CircuitPolicy) -> Vec<Load> {
    let power = work.opening.entry.power.get();
    let policy = power.and_then(|it| it.policy.cloned()).unwrap_or(owners);
    let panel = power.and_then(|it| it.panel.get()).map(|id| id.as_str().to_owned());
    let amps = work.operator.and_then(|it| it.amps.number_of(Unit::Ampere));
    let load = |header: usize, drives: usize| Load {
        panel: (work.site.id.clone(), panel.clone()),
        header: (at, header),
        drives,
        known: power.and_then(|it| it.known.cloned()),
        unread: work.opening.entry.power.is_bad()
            || power.is_some_and(|it| it.panel.is_bad() || it.volts.is_bad() || it.circuit.is_bad()),
        asks: CircuitLoad {
            amps: amps.and_then(|it| Amps::new(it.checked_mul(Decimal::from(drives))?, Unit::Ampere)),
            volts: power.and_then(|it| it.volts.cloned()).or(work.operator.map(|it| it.volts)),
            shares: policy == CircuitPolicy::Shared,
            joins: power.and_then(|it| job.joined_circuit(it)),
        },
    };
    let headers = work.headers.iter().enumerate();
    match policy {
        CircuitPolicy::PerDrive => headers
            .flat_map(|(number, it)| it.drives.iter().map(move |_| number))
            .map(|number| load(number, 1))
            .collect(),
        _ => headers.map(|(number, it)| load(number, it.drives.len())).collect(),
    }
}

/// Says of every box at a header what its line conductors need, of the catalog's size, grounds by the edition that the job names.
pub(super) fn fill_boxes(job: &Job, catalog: &Catalog, circuits: &[CircuitWork], openings: &mut [OpeningWork]) {
    let editions = job.head.rules.iter().filter_map(|id| catalog.editions.get(id));
    let quarter = editions.clone().any(|it| it.grounds_as_one.is_some());
    let rule = if quarter { GroundRule::QuarterBeyondFour } else { GroundRule::AllAsOne };
    let (conductor, _) = line_conductor(catalog);
    let mut feeding: BTreeMap<(usize, usize), u32> = BTreeMap::new();
    for circuit in circuits {
        let headers: BTreeSet<(usize, usize)> = circuit.headers.iter().copied().collect();
        for header in headers {
            let count = feeding.entry(header).or_default();
            *count = count.saturating_add(1);
        }
    }
    for (at, opening) in openings.iter_mut().enumerate() {
        for outlet in &mut opening.boxes {
            let BoxFor::Header(header) = outlet.of else { continue };
            let count = feeding.get(&(at, header));
            outlet.volume = count.map(|count| volume_needed(&header_box(*count, conductor), rule));
        }
    }
}

/// The circuits of a panel's loads; `there` are those that it has already.
fn circuits_of(panel: usize, loads: &[Load], limit: Option<Amps>, there: &[PanelCircuitEntry]) -> Vec<CircuitWork> {
    let asks: Vec<CircuitLoad> = loads.iter().map(|load| load.asks).collect();
    let mut circuits: Vec<CircuitWork> = Vec::new();
    for (load, at) in loads.iter().zip(share_circuits(&asks, limit)) {
        match circuits.get_mut(at) {
            None => {
                let existing = load.asks.joins.and_then(|at| existing_circuit(there.get(at)?));
                let alike = circuits.iter().filter(|it| it.existing.is_some() == existing.is_some()).count();
                circuits.push(CircuitWork {
                    number: alike.saturating_add(1),
                    existing,
                    panel,
                    headers: vec![load.header],
                    drives: load.drives,
                    amps: load.asks.amps,
                    volts: load.asks.volts,
                    poles: None,
                    known: load.known,
                    shared: load.asks.shares,
                });
            }
            Some(circuit) => {
                circuit.amps = circuit.amps.zip(load.asks.amps).and_then(|(there, more)| sum(there, more));
                circuit.headers.push(load.header);
                circuit.drives = circuit.drives.saturating_add(load.drives);
                circuit.known = circuit.known.max(load.known);
            }
        }
    }
    circuits
}

fn existing_circuit(typed: &PanelCircuitEntry) -> Option<ExistingCircuit> {
    let number = typed.number.given()?;
    Some(ExistingCircuit {
        number: number.value.as_str().to_owned(),
        amps: typed.amps.cloned(),
        breaker: typed.breaker.cloned(),
        is_reported: typed.amps.is_bad() || !typed.forbidden.is_absent(),
        place: number.place.clone(),
    })
}

fn sum(one: Amps, other: Amps) -> Option<Amps> {
    Amps::new(one.number_of(Unit::Ampere)?.checked_add(other.number_of(Unit::Ampere)?)?, Unit::Ampere)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spaces_are_short_by_poles_and_only_where_both_numbers_are_known() {
        let panel =
            |spaces, free| PanelWork { id: None, site: String::new(), circuits: 3, spaces, free, unread: false };
        // Three two-pole circuits take six spaces of four: two short.
        assert_eq!(panel(Some(6), Some(4)).shortfall(), Some(2));
        assert_eq!(panel(Some(3), Some(4)).shortfall(), Some(0));
        assert_eq!(panel(None, Some(4)).shortfall(), None);
        assert_eq!(panel(Some(6), None).shortfall(), None);
    }
}
