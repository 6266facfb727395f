//! Circuits and runs as checks see them, by the same formulas that the takeoff plans by.
//!
//! In: openings with operators, panels, runs. Out: circuits by panel, and the line runs that carry them.
//! May not know: rules of the catalog, prices.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;

use super::contexts::OpeningContext;
use crate::catalog::{Catalog, Group};
use crate::engineering::{CircuitLoad, Conductor, RunGraph, Strands, breaker_poles, share_circuits};
use crate::job::{CircuitPolicy, HeaderShare, Job, Run, RunClass, RunEnd};
use crate::measure::{Amps, Unit, Volts};

/// The circuits of a panel.
pub(super) struct PanelContext<'o, 'j> {
    /// Its id; none where an opening names none.
    pub id: Option<String>,
    /// The opening of each load.
    pub openings: Vec<&'o OpeningContext<'j>>,
    /// Each load.
    pub loads: Vec<CircuitLoad>,
    /// The circuit of each load, from 0.
    pub circuit_of: Vec<usize>,
}

impl PanelContext<'_, '_> {
    /// The first load of each new circuit that it feeds; one that is there takes neither breaker nor space.
    fn new_circuits(&self) -> impl Iterator<Item = &CircuitLoad> {
        let most = self.circuit_of.iter().max().map_or(0, |most| most + 1);
        let first = |circuit: usize| self.circuit_of.iter().position(|at| *at == circuit);
        (0..most).filter_map(move |circuit| self.loads.get(first(circuit)?)).filter(|load| load.joins.is_none())
    }

    /// How many new circuits it feeds.
    pub fn circuits(&self) -> usize {
        self.new_circuits().count()
    }

    /// How many spaces its new circuits take: a pole each, two between two lines.
    pub fn spaces(&self, to_neutral: Option<Volts>) -> usize {
        self.new_circuits().map(|load| load.volts.map_or(1, |volts| breaker_poles(volts, to_neutral))).sum()
    }
}

/// The conductor of line circuits: of the catalog's line-voltage conductors the thinnest whose size is known; 12 AWG,
/// stranded, where it has none (common practice, no source).
pub fn line_conductor(catalog: &Catalog) -> (Conductor, Strands) {
    let wires = catalog.items.values().filter(|item| item.group == Group::Conductor).filter_map(|item| item.wire);
    let known = wires.filter_map(|wire| Some((Conductor::of_awg(wire.awg)?, strands(wire.solid))));
    known.min().unwrap_or((Conductor::Awg12, Strands::Stranded))
}

fn strands(solid: bool) -> Strands {
    if solid { Strands::Solid } else { Strands::Stranded }
}

/// The panels of a job, by site and id, with the circuits of its base bid.
pub(super) fn panels<'o, 'j>(
    openings: &'o [OpeningContext<'j>],
    job: &Job,
    catalog: &Catalog,
) -> Vec<PanelContext<'o, 'j>> {
    let profile = catalog.profiles.get(&job.head.profile);
    let owners = profile.and_then(|it| CircuitPolicy::ALL.iter().copied().find(|policy| policy.word() == it.circuits));
    let owners = owners.unwrap_or(CircuitPolicy::PerHeader);
    let mut by_panel: BTreeMap<(&str, Option<String>), PanelContext> = BTreeMap::new();
    for opening in openings.iter().filter(|it| it.opening.base && it.is_powered()) {
        let power = opening.opening.entry.power.get();
        let id = power.and_then(|it| it.panel.get()).map(|id| id.as_str().to_owned());
        let seen = by_panel.entry((&opening.opening.site, id.clone())).or_insert_with(|| PanelContext {
            id,
            openings: Vec::new(),
            loads: Vec::new(),
            circuit_of: Vec::new(),
        });
        for load in loads(opening, power.and_then(|it| it.policy.cloned()).unwrap_or(owners)) {
            seen.openings.push(opening);
            seen.loads.push(load);
        }
    }
    let mut panels: Vec<PanelContext> = by_panel.into_values().collect();
    let limit = profile.and_then(|it| it.shared_amps);
    panels.iter_mut().for_each(|it| it.circuit_of = share_circuits(&it.loads, limit));
    panels
}

/// What the drives of an opening ask of circuits.
fn loads(opening: &OpeningContext, policy: CircuitPolicy) -> Vec<CircuitLoad> {
    let drives = opening.powered().count();
    let apart = policy == CircuitPolicy::PerDrive || opening.header_share() == HeaderShare::PerLeaf;
    let (loads, each) = if apart { (drives, 1) } else { (1, drives) };
    let amps = opening.operator.and_then(|it| it.amps.number_of(Unit::Ampere));
    let power = opening.opening.entry.power.get();
    let load = CircuitLoad {
        amps: amps.and_then(|it| Amps::new(it.checked_mul(Decimal::from(each))?, Unit::Ampere)),
        volts: power.and_then(|it| it.volts.cloned()).or(opening.operator.map(|it| it.volts)),
        shares: policy == CircuitPolicy::Shared,
        joins: power.and_then(|it| opening.job.joined_circuit(it)),
    };
    vec![load; loads]
}

/// The line runs of a job, to be asked for those that lead to an opening.
pub(super) struct LineRuns<'j> {
    runs: Vec<&'j Run>,
    graph: RunGraph<'j, RunEnd>,
}

impl<'j> LineRuns<'j> {
    /// Those of a job.
    pub fn of(job: &'j Job) -> Self {
        let runs: Vec<&Run> = job.runs.iter().filter(|run| run.class == RunClass::Line).collect();
        let graph = RunGraph::of(runs.iter().map(|run| (&run.from, &run.to)).collect());
        LineRuns { runs, graph }
    }

    /// The runs from a panel to an opening.
    pub fn to(&self, mark: &str) -> Vec<&'j Run> {
        let way = self.graph.shortest_path(&RunEnd::Opening(mark.to_owned()), |end| matches!(end, RunEnd::Panel(_)));
        way.into_iter().map(|at| self.runs[at]).collect()
    }
}

/// The circuits on each line run, by its number: panel and circuit.
pub(super) fn circuits_on_runs(
    openings: &[OpeningContext],
    job: &Job,
    catalog: &Catalog,
) -> BTreeMap<usize, BTreeSet<(usize, usize)>> {
    let mut on_run: BTreeMap<usize, BTreeSet<(usize, usize)>> = BTreeMap::new();
    let line_runs = LineRuns::of(job);
    for (panel, seen) in panels(openings, job, catalog).iter().enumerate() {
        for (opening, circuit) in seen.openings.iter().zip(&seen.circuit_of) {
            for run in line_runs.to(&opening.opening.mark) {
                on_run.entry(run.number).or_default().insert((panel, *circuit));
            }
        }
    }
    on_run
}
