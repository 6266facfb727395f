//! Which headers go on which circuit, and what that asks of each panel.
//!
//! In: openings with headers, the owner's policy and limit. Out: circuits by panel and number, panels with shortfall.
//! May not know: routes, rules, prices.
//!
//! Policy: one circuit for each header unless opening or owner says otherwise (common practice, no source). Shared:
//! headers of one panel join a circuit in file order while its amps stay within the owner's limit; a drive is not a
//! continuous load, so running amps are added as they are.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::arrangement::OpeningWork;
use crate::catalog::Catalog;
use crate::job::{CircuitPolicy, Job, PowerKnown};
use crate::measure::{Amps, Unit, Volts};

/// A panel that feeds drives.
#[derive(Clone, Debug)]
pub struct PanelWork {
    /// Its id; none stands for power that has no panel yet.
    pub id: Option<String>,
    /// Site's id.
    pub site: String,
    /// Circuits it must feed.
    pub circuits: usize,
    /// Spaces free, where known.
    pub free: Option<u32>,
}

impl PanelWork {
    /// Circuits without a space; none where the free spaces are not known.
    pub fn shortfall(&self) -> Option<usize> {
        self.free.map(|free| self.circuits.saturating_sub(free as usize))
    }
}

/// A circuit.
#[derive(Clone, Debug)]
pub struct CircuitWork {
    /// Its number on its panel, from 1.
    pub number: usize,
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
    /// How well the power is known: the least of its openings.
    pub known: Option<PowerKnown>,
    /// Whether other headers may join it.
    pub shared: bool,
}

struct Load {
    panel: (String, Option<String>),
    header: (usize, usize),
    drives: usize,
    amps: Option<Decimal>,
    shared: bool,
    volts: Option<Volts>,
    known: Option<PowerKnown>,
}

/// Plans panels and circuits.
pub(super) fn plan(job: &Job, catalog: &Catalog, openings: &[OpeningWork]) -> (Vec<PanelWork>, Vec<CircuitWork>) {
    let profile = catalog.profiles.get(&job.head.profile);
    let limit = profile.and_then(|it| it.shared_amps).and_then(|amps| amps.number_of(Unit::Ampere));
    let owners = profile.and_then(|it| CircuitPolicy::ALL.iter().copied().find(|policy| policy.word() == it.circuits));
    let mut by_panel: BTreeMap<(String, Option<String>), Vec<CircuitWork>> = BTreeMap::new();
    for (at, work) in openings.iter().enumerate() {
        for load in loads(at, work, owners.unwrap_or(CircuitPolicy::PerHeader)) {
            place(by_panel.entry(load.panel.clone()).or_default(), load, limit);
        }
    }
    let mut panels = Vec::new();
    let mut circuits = Vec::new();
    for (at, ((site, id), mut here)) in by_panel.into_iter().enumerate() {
        let free = id.as_ref().and_then(|id| job.panels.get(id)).and_then(|panel| panel.entry.free.cloned());
        panels.push(PanelWork { id, site, circuits: here.len(), free: free.map(|it| it.get()) });
        for (number, circuit) in here.iter_mut().enumerate() {
            circuit.number = number + 1;
            circuit.panel = at;
        }
        circuits.append(&mut here);
    }
    (panels, circuits)
}

fn loads(at: usize, work: &OpeningWork, owners: CircuitPolicy) -> Vec<Load> {
    let power = work.opening.entry.power.get();
    let policy = power.and_then(|it| it.policy.cloned()).unwrap_or(owners);
    let panel = power.and_then(|it| it.panel.get()).map(|id| id.as_str().to_owned());
    let amps = work.operator.and_then(|it| it.amps.number_of(Unit::Ampere));
    let load = |header: usize, drives: usize| Load {
        panel: (work.site.id.clone(), panel.clone()),
        header: (at, header),
        drives,
        amps: amps.and_then(|amps| amps.checked_mul(Decimal::from(drives))),
        shared: policy == CircuitPolicy::Shared,
        volts: power.and_then(|it| it.volts.cloned()).or(work.operator.map(|it| it.volts)),
        known: power.and_then(|it| it.known.cloned()),
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

fn place(circuits: &mut Vec<CircuitWork>, load: Load, limit: Option<Decimal>) {
    if load.shared
        && let Some(limit) = limit
        && let Some(amps) = load.amps
    {
        let fits = |circuit: &&mut CircuitWork| {
            let there = circuit.amps.and_then(|it| it.number_of(Unit::Ampere));
            circuit.shared && there.and_then(|there| there.checked_add(amps)).is_some_and(|sum| sum <= limit)
        };
        if let Some(circuit) = circuits.iter_mut().find(fits) {
            let there = circuit.amps.and_then(|it| it.number_of(Unit::Ampere));
            circuit.amps = there.and_then(|there| there.checked_add(amps)).and_then(|sum| Amps::new(sum, Unit::Ampere));
            circuit.headers.push(load.header);
            circuit.drives += load.drives;
            circuit.known = circuit.known.max(load.known);
            return;
        }
    }
    circuits.push(CircuitWork {
        number: 0,
        panel: 0,
        headers: vec![load.header],
        drives: load.drives,
        amps: load.amps.and_then(|amps| Amps::new(amps, Unit::Ampere)),
        volts: load.volts,
        known: load.known,
        shared: load.shared,
    });
}
