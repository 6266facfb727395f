//! Terminations of an opening, point to point: what lands where, by which conductor, with which label at either end.
//!
//! In: sources, an opening. Out: rows of finished strings, and the terminals that they name. May not know: any maker's terminal
//! plan; terminals are named by the catalog, by what they do, and the operator's own plan governs which they are.
//!
//! Colors of line conductors: white or gray is the grounded conductor, green or bare the ground (NEC 200.6, 250.119, from
//! memory); black, red, and above 250 V brown, orange are common practice, no source. Colors of low voltage are the catalog's,
//! by what a conductor is for and by its cable.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::Sources;
use super::super::printing::{DASH, volts};
use super::run_words::{items_of, without_run};
use crate::catalog::{Group, Link, WiredSystem};
use crate::input::Text;
use crate::measure::{Unit, Volts};
use crate::takeoff::{
    CircuitWork, Conductors, DeviceWork, EntityRef, LandedWire, OpeningWork, Terminated, Wired, partner,
};

/// The terminations of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct TerminationsView {
    /// Mark.
    pub mark: String,
    /// Circuits and cables in order.
    pub bundles: Vec<BundleView>,
}

/// What conductors of one circuit or cable share.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BundleView {
    /// What it is.
    pub of: String,
    /// Where it starts.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// What its conductors are: conductors of a gauge, or a cable.
    pub conductor: String,
    /// The label at both ends.
    pub label: String,
    /// How many conductors it has.
    pub count: usize,
    /// Its conductors.
    pub rows: Vec<ConductorRow>,
}

/// A conductor from one terminal to another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ConductorRow {
    /// Whether it is the first of its bundle.
    pub first: bool,
    /// The terminal at its start.
    pub from: String,
    /// Its color.
    pub color: String,
    /// The terminal at its end.
    pub to: String,
}

/// A terminal that the rows name, and what it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TerminalView {
    /// Its name.
    pub name: String,
    /// What it is.
    pub says: String,
    /// The operators that call it so.
    pub on: String,
}

/// A conductor by its role: terminal at the far end, color, terminal at the header.
type Role = (String, String, String);

/// What conductors of one cable or circuit share.
struct Bundle {
    of: String,
    from: String,
    to: String,
    conductor: String,
    label: String,
}

impl Bundle {
    /// With conductors of these roles; nothing without any.
    fn with(self, roles: Vec<Role>) -> Option<BundleView> {
        let Bundle { of, from, to, conductor, label } = self;
        let row = |(at, (from, color, to)): (usize, Role)| ConductorRow { first: at == 0, from, color, to };
        let rows: Vec<ConductorRow> = roles.into_iter().enumerate().map(row).collect();
        (!rows.is_empty()).then_some(BundleView { of, from, to, conductor, label, count: rows.len(), rows })
    }
}

/// The terminations of an opening, by position; none where it has no header.
pub(super) fn terminations(sources: &Sources, at: usize) -> Option<TerminationsView> {
    let work = sources.takeoff.arrangement.openings.get(at)?;
    let mut bundles = Vec::new();
    for number in 0..work.headers.len() {
        bundles.extend(lines(sources, at, number));
    }
    let low = crate::takeoff::terminations(sources.takeoff, sources.catalog, at);
    bundles.extend(low.iter().filter_map(|one| low_voltage(sources, at, one)));
    (!bundles.is_empty()).then(|| TerminationsView { mark: work.opening.mark.clone(), bundles })
}

/// The terminals at which anything lands, in order of their names, each with the operators that call it so where not all do.
pub(super) fn terminals(sources: &Sources) -> Vec<TerminalView> {
    let known = &sources.catalog.terminals.terminals;
    let mut used: BTreeMap<(&str, &str), BTreeSet<&str>> = BTreeMap::new();
    for (at, work) in sources.takeoff.arrangement.openings.iter().enumerate() {
        for one in crate::takeoff::terminations(sources.takeoff, sources.catalog, at) {
            for wire in one.wires {
                let Some(terminal) = known.get(wire.terminal) else { continue };
                let operators = used.entry((wire.to, terminal.says.as_str())).or_default();
                operators.extend(work.operator.filter(|_| wire.to != terminal.name).map(|it| it.name.as_str()));
            }
        }
    }
    let view = |((name, says), operators): ((&str, &str), BTreeSet<&str>)| {
        let otherwise = known.values().any(|it| it.says == says && !it.other.is_empty());
        let on = match operators.into_iter().collect::<Vec<_>>().join("; ") {
            none if none.is_empty() && otherwise => "all other operators".to_owned(),
            none if none.is_empty() => "all operators".to_owned(),
            some => some,
        };
        TerminalView { name: name.to_owned(), says: says.to_owned(), on }
    };
    used.into_iter().map(view).collect()
}

/// A header's name.
fn header_name(work: &OpeningWork, number: usize) -> String {
    let mark = &work.opening.mark;
    if work.headers.len() > 1 { format!("{mark} header {}", number + 1) } else { format!("{mark} header") }
}

fn lines(sources: &Sources, at: usize, number: usize) -> Vec<BundleView> {
    let all = &sources.takeoff.arrangement;
    let Some(work) = all.openings.get(at) else { return Vec::new() };
    let here = all.circuits.iter().enumerate().filter(|(_, circuit)| circuit.headers.contains(&(at, number)));
    here.filter_map(|(position, circuit)| {
        let panel = all.panels.get(circuit.panel).and_then(|panel| panel.id.as_deref()).unwrap_or("panel not assigned");
        let breaker = items_of(sources, EntityRef::Circuit(position), Group::Breaker).join(", ");
        let run = all.runs.iter().position(|run| run.circuits.contains(&position));
        let conductor = run.map(|run| items_of(sources, EntityRef::Run(run), Group::Conductor).join(", "));
        let bundle = Bundle {
            of: format!("circuit {panel} {}", circuit.label()),
            from: if breaker.is_empty() { format!("panel {panel}") } else { format!("panel {panel}: {breaker}") },
            to: format!("{}, through its disconnect", header_name(work, number)),
            conductor: known(conductor.as_deref()),
            label: circuit_label(sources, panel, circuit),
        };
        bundle.with(line_roles(circuit.volts, circuit.poles))
    })
    .collect()
}

fn known(words: Option<&str>) -> String {
    words.filter(|it| !it.is_empty()).unwrap_or(DASH).to_owned()
}

/// The label of a circuit, as the owner wants it.
fn circuit_label(sources: &Sources, panel: &str, circuit: &CircuitWork) -> String {
    let profile = sources.catalog.profiles.get(&sources.reviewed.job().head.profile);
    let pattern = profile.and_then(|it| it.label.as_deref()).unwrap_or("{panel}-{circuit} {volts}");
    let volts = circuit.volts.map_or_else(|| DASH.to_owned(), volts);
    pattern.replace("{panel}", panel).replace("{circuit}", &circuit.label()).replace("{volts}", &volts)
}

fn line_roles(voltage: Option<Volts>, poles: Option<usize>) -> Vec<Role> {
    let high = voltage.and_then(|it| it.number_of(Unit::Volt)).is_some_and(|it| it > rust_decimal::Decimal::from(250));
    let (first, second, grounded) = if high { ("brown", "orange", "gray") } else { ("black", "red", "white") };
    let role = |from: &str, color: &str, to: &str| (from.to_owned(), color.to_owned(), to.to_owned());
    let mut roles = match poles {
        Some(2) => vec![role("breaker, pole 1", first, "LINE 1"), role("breaker, pole 2", second, "LINE 2")],
        Some(_) => vec![role("breaker", first, "LINE"), role("neutral bar", grounded, "NEUTRAL")],
        None => return Vec::new(),
    };
    roles.push(role("ground bar", "green", "GROUND"));
    roles
}

/// What is wired at low voltage: a device, a release, a system.
fn low_voltage(sources: &Sources, at: usize, one: &Terminated) -> Option<BundleView> {
    let work = sources.takeoff.arrangement.openings.get(at)?;
    let mark = &work.opening.mark;
    let table = one.table?;
    let (of, from, label) = match one.of {
        Wired::Device(number) => {
            let own = work.devices.get(number)?;
            let name = format!("{mark}/{}", own.id);
            (format!("cable {name}"), device(work, own), name)
        }
        Wired::Release(leaf) => {
            let word = work.leaves.get(leaf)?.release().filter(|_| table.conductor.is_none());
            let what = word.map_or(table.name.as_str(), |it| it.word());
            let leaf = leaf + 1;
            (format!("release of leaf {leaf}"), format!("{what}, leaf {leaf}"), format!("{mark}/RELEASE {leaf}"))
        }
        Wired::System(system) => {
            let word = match system {
                WiredSystem::FireAlarm => "ALARM",
                WiredSystem::Vestibule => "SEQUENCE",
                WiredSystem::Supply => "SUPPLY",
            };
            let other = partner(sources.takeoff, at).filter(|_| system == WiredSystem::Vestibule);
            let from = other.and_then(|other| Some(header_name(sources.takeoff.arrangement.openings.get(other)?, 0)));
            (system.word().to_owned(), from.unwrap_or_else(|| table.name.clone()), format!("{mark}/{word}"))
        }
    };
    let by = match one.of {
        Wired::Device(number) => work.devices.get(number)?.entry.by.get().map(Text::as_str),
        Wired::Release(_) | Wired::System(_) => None,
    };
    let own = conductors(one);
    // Who brings the cable knows its colors.
    let other = if own.is_none() && by.is_some() { "by vendor" } else { DASH };
    let conductor = own.unwrap_or_else(|| without_run(by));
    let bundle = Bundle { of, from, to: header_name(work, one.header), conductor, label };
    let role = |it: &LandedWire| (it.from.to_owned(), it.color.unwrap_or(other).to_owned(), it.to.to_owned());
    bundle.with(one.wires.iter().map(role).collect())
}

/// A device with who furnishes it; a radio device is its receiver.
fn device(work: &OpeningWork, own: &DeviceWork) -> String {
    let entry = own.entry;
    let name = format!("{}/{}", work.opening.mark, own.id);
    if entry.link.or(Link::Wired) == Link::Wireless {
        return format!("receiver of {name}");
    }
    let kind = entry.kind.get().map_or(DASH, |it| it.word());
    let by = entry.by.get().map(|by| format!(", by {}", by.as_str())).unwrap_or_default();
    format!("{name} {kind}{by}")
}

/// What conductors are, with those that are spare and what becomes of the shield; nothing where no cable of ours is taken off.
fn conductors(one: &Terminated) -> Option<String> {
    let items = match &one.conductors {
        Conductors::Harness => return Some("harness".to_owned()),
        Conductors::AsSaid(says) => return Some((*says).to_owned()),
        Conductors::NoCable => return None,
        Conductors::Cable(items) => items.iter().map(|it| it.name.as_str()).collect::<Vec<_>>().join(", "),
    };
    let Some(colors) = one.colors else { return Some(items) };
    let mut words = vec![items];
    let landed: BTreeSet<&str> = one.wires.iter().filter_map(|it| it.color).collect();
    let spare: BTreeSet<&str> = colors.colors.values().map(String::as_str).filter(|it| !landed.contains(it)).collect();
    if !spare.is_empty() {
        words.push(format!("spare {}", spare.into_iter().collect::<Vec<_>>().join(", ")));
    }
    words.extend(colors.shield.clone());
    Some(words.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn volts_of(number: i64) -> Option<Volts> {
        Volts::new(rust_decimal::Decimal::from(number), Unit::Volt)
    }

    fn colors(roles: &[Role]) -> Vec<&str> {
        roles.iter().map(|role| role.1.as_str()).collect()
    }

    /// White or gray is the grounded conductor, green the ground (NEC 200.6, 250.119, from memory); the others common
    /// practice, no source.
    #[test]
    fn line_conductors_have_the_colors_of_their_roles() {
        assert_eq!(colors(&line_roles(volts_of(120), Some(1))), ["black", "white", "green"]);
        assert_eq!(colors(&line_roles(volts_of(208), Some(2))), ["black", "red", "green"]);
        assert_eq!(colors(&line_roles(volts_of(277), Some(1))), ["brown", "gray", "green"]);
        assert!(line_roles(volts_of(120), None).is_empty(), "nothing is told where the volts are not known");
    }
}
