//! Which headers go on which circuit, and what that asks of each panel.
//!
//! In: openings with headers, the owner's policy and limit. Out: circuits by panel and number with the poles of their
//! breakers, panels with shortfall of spaces.
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
    /// Spaces that their breakers take, one for each pole; none where the volts of a circuit are not known.
    pub spaces: Option<usize>,
    /// Spaces free, where known.
    pub free: Option<u32>,
}

impl PanelWork {
    /// Spaces that are wanting; none where the spaces needed or free are not known.
    pub fn shortfall(&self) -> Option<usize> {
        Some(self.spaces?.saturating_sub(self.free? as usize))
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
    /// Poles of its breaker, each of which takes a space of the panel; none where the volts are not known.
    pub poles: Option<usize>,
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
        let typed = id.as_ref().and_then(|id| job.panels.get(id)).map(|panel| &panel.entry);
        for (number, circuit) in here.iter_mut().enumerate() {
            circuit.number = number + 1;
            circuit.panel = at;
            circuit.poles = circuit.volts.map(|volts| poles(volts, typed.and_then(|it| it.volts.cloned())));
        }
        let spaces = here.iter().map(|circuit| circuit.poles).sum();
        let free = typed.and_then(|it| it.free.get()).map(|it| it.get());
        panels.push(PanelWork { id, site, circuits: here.len(), spaces, free });
        circuits.append(&mut here);
    }
    (panels, circuits)
}

/// Poles of a breaker (common practice, no source): a circuit between two lines of its panel takes two, one between a line
/// and the neutral takes one. Without the panel's volts to neutral, 120 V and 277 V are taken as to neutral.
fn poles(volts: Volts, to_neutral: Option<Volts>) -> usize {
    let two = match to_neutral {
        Some(to_neutral) => volts > to_neutral,
        None => volts.number_of(Unit::Volt).is_none_or(|it| it > Decimal::from(125) && it != Decimal::from(277)),
    };
    if two { 2 } else { 1 }
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
        poles: None,
        known: load.known,
        shared: load.shared,
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Line to neutral and line to line of the two usual wye services: 208Y/120 and 480Y/277 (common practice, no source).
    #[test]
    fn a_circuit_between_two_lines_takes_two_poles() {
        let volts = |number: u32| Volts::new(Decimal::from(number), Unit::Volt).unwrap();
        for (circuit, panel, wanted) in [
            (120, Some(120), 1),
            (208, Some(120), 2),
            (240, Some(120), 2),
            (277, Some(277), 1),
            (480, Some(277), 2),
            (120, None, 1),
            (208, None, 2),
            (277, None, 1),
        ] {
            assert_eq!(poles(volts(circuit), panel.map(volts)), wanted, "{circuit} V on {panel:?}");
        }
    }

    #[test]
    fn spaces_are_short_by_poles_and_only_where_both_numbers_are_known() {
        let panel = |spaces, free| PanelWork { id: None, site: String::new(), circuits: 3, spaces, free };
        // Three two-pole circuits take six spaces of four: two short.
        assert_eq!(panel(Some(6), Some(4)).shortfall(), Some(2));
        assert_eq!(panel(Some(3), Some(4)).shortfall(), Some(0));
        assert_eq!(panel(None, Some(4)).shortfall(), None);
        assert_eq!(panel(Some(6), None).shortfall(), None);
    }
}
