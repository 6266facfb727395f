//! What is wired to the headers of an opening at low voltage, conductor by conductor.
//!
//! In: a takeoff, the catalog's terminations and colors. Out: for each device, release and system what its conductors are and
//! where they are landed; what the catalog does not say stays unsaid. May not know: findings, how any of it is printed.
//!
//! Line voltage is not among it: its colors follow a standard and no catalog.

use super::{DeviceWork, EntityRef, OpeningWork, Takeoff};
use crate::catalog::{
    CableColors, Catalog, ConductorRole, Group, Item, Link, Release, TerminatedWire, Termination, WiredSystem,
};
use crate::job::{DeviceMount, RunClass, Side};

/// What is wired to a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wired {
    /// A device, by position.
    Device(usize),
    /// The release of a leaf, by the leaf's position.
    Release(usize),
    /// Something else.
    System(WiredSystem),
}

/// What conductors are.
#[derive(Clone, Debug)]
pub enum Conductors<'c> {
    /// Of cables that are taken off for them, at least one.
    Cable(Vec<&'c Item>),
    /// No cable of ours: others bring it, or its way is still to be laid out; nobody knows its colors.
    NoCable,
    /// Of the harness that comes with the device or its receiver.
    Harness,
    /// As the catalog's termination says.
    AsSaid(&'c str),
}

/// How one thing is terminated.
#[derive(Clone, Debug)]
pub struct Terminated<'c> {
    /// What it is.
    pub of: Wired,
    /// The header at which it arrives, by position.
    pub header: usize,
    /// The catalog's termination.
    pub table: Option<&'c Termination>,
    /// What its conductors are.
    pub conductors: Conductors<'c>,
    /// The colors of its cable or harness.
    pub colors: Option<&'c CableColors>,
    /// Its conductors.
    pub wires: Vec<LandedWire<'c>>,
}

/// A conductor from one terminal to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LandedWire<'c> {
    /// The terminal or lead at its start.
    pub from: &'c str,
    /// What it is for.
    pub role: ConductorRole,
    /// Its color; none where the catalog's cable has no conductor for that.
    pub color: Option<&'c str>,
    /// Id of the terminal at the header.
    pub terminal: &'c str,
    /// What the operator calls that terminal.
    pub to: &'c str,
}

/// Everything that is wired to the headers of an opening at low voltage, by the opening's position.
pub fn terminations<'c>(takeoff: &Takeoff<'c>, catalog: &'c Catalog, at: usize) -> Vec<Terminated<'c>> {
    let work = takeoff.arrangement.openings.get(at).filter(|work| !work.headers.is_empty());
    let Some(work) = work else { return Vec::new() };
    let seen = OpeningContext { takeoff, catalog, at, work };
    let devices = work.devices.iter().enumerate().filter_map(|(number, device)| seen.device(number, device));
    let releases = (0..work.leaves.len()).filter_map(|leaf| seen.release(leaf));
    let systems = WiredSystem::ALL.iter().filter(|it| seen.has(**it)).map(|it| seen.system(*it));
    devices.chain(releases).chain(systems).collect()
}

/// An opening of a takeoff with headers.
struct OpeningContext<'s, 'c> {
    takeoff: &'s Takeoff<'c>,
    catalog: &'c Catalog,
    at: usize,
    work: &'s OpeningWork<'c>,
}

impl<'c> OpeningContext<'_, 'c> {
    fn device(&self, number: usize, device: &DeviceWork) -> Option<Terminated<'c>> {
        let entry = device.entry;
        let link = entry.link.or(Link::Wired);
        let leaf = entry.leaf.get().and_then(|it| usize::try_from(it.get()).ok()?.checked_sub(1));
        let header = leaf.and_then(|leaf| self.work.headers.iter().position(|it| it.leaves.contains(&leaf)));
        let harness =
            link == Link::Wireless || matches!(entry.mount.get(), Some(DeviceMount::Header | DeviceMount::Leaf));
        let conductors = match harness {
            true => Conductors::Harness,
            false => self.cables(self.runs_of(number)),
        };
        let table = self.catalog.terminals.of_device(*entry.kind.get()?, link);
        let inside = entry.side.get() == Some(&Side::Inside);
        Some(self.landed(Wired::Device(number), header.unwrap_or(0), table, conductors, inside))
    }

    /// The latch release of a leaf, where something is wired for it.
    fn release(&self, leaf: usize) -> Option<Terminated<'c>> {
        let release = self.work.leaves.get(leaf)?.release()?;
        if matches!(release, Release::NoLatch | Release::Unknown) {
            return None;
        }
        let header = self.work.headers.iter().position(|it| it.drives.contains(&leaf))?;
        let conductors = self.cables(vec![EntityRef::Leaf(self.at, leaf)]);
        Some(self.landed(Wired::Release(leaf), header, self.catalog.terminals.of_release(release), conductors, false))
    }

    /// Whether a system is wired to this opening; what joins two openings is told at the first of them.
    fn has(&self, system: WiredSystem) -> bool {
        match system {
            WiredSystem::FireAlarm => self.work.opening.entry.alarm_release.or(false),
            WiredSystem::Vestibule => {
                let first = |other: usize| self.at < other || partner(self.takeoff, other) != Some(self.at);
                partner(self.takeoff, self.at).is_some_and(first)
            }
            WiredSystem::Supply => self
                .takeoff
                .lines_at(self.at)
                .any(|line| self.catalog.items.get(&*line.item).is_some_and(|item| item.gives.is_some())),
        }
    }

    /// A system; what joins the two doors of a vestibule is the cable that is taken off for either as a whole.
    fn system(&self, system: WiredSystem) -> Terminated<'c> {
        let table = self.catalog.terminals.of_system(system);
        let joins = match system {
            WiredSystem::Vestibule => self.cables(vec![EntityRef::Opening(self.at)]),
            WiredSystem::FireAlarm | WiredSystem::Supply => Conductors::NoCable,
        };
        self.landed(Wired::System(system), 0, table, joins, false)
    }

    fn landed(
        &self,
        of: Wired,
        header: usize,
        table: Option<&'c Termination>,
        conductors: Conductors<'c>,
        inside: bool,
    ) -> Terminated<'c> {
        let conductors = match table.and_then(|it| it.conductor.as_deref()) {
            Some(says) => Conductors::AsSaid(says),
            None => conductors,
        };
        let colors = match &conductors {
            Conductors::NoCable => None,
            Conductors::Cable(items) => {
                self.catalog.terminals.cable(items.iter().find_map(|item| Some(item.wire?.awg)))
            }
            Conductors::Harness | Conductors::AsSaid(_) => self.catalog.terminals.cable(None),
        };
        let wires = table.into_iter().flat_map(|it| &it.wires);
        let wires = wires.filter_map(|wire| self.wire(wire, colors, inside)).collect();
        Terminated { of, header, table, conductors, colors, wires }
    }

    fn wire(&self, wire: &'c TerminatedWire, colors: Option<&'c CableColors>, inside: bool) -> Option<LandedWire<'c>> {
        let terminal = wire.inside.as_deref().filter(|_| inside).unwrap_or(&wire.to);
        let operator = self.work.operator.map(|it| it.id.as_str());
        let to = self.catalog.terminals.terminals.get(terminal)?.name_on(operator);
        let of_cable = || colors.and_then(|it| it.colors.get(&wire.role)).map(String::as_str);
        let color = wire.color.as_deref().or_else(of_cable);
        Some(LandedWire { from: &wire.from, role: wire.role, color, terminal, to })
    }

    /// The runs that carry the cable of a device.
    fn runs_of(&self, device: usize) -> Vec<EntityRef> {
        let runs = self.takeoff.runs_of_cable(self.at, device);
        let own = runs.filter(|(_, run)| run.run.class == RunClass::Low);
        own.map(|(run, _)| EntityRef::Run(run)).collect()
    }

    /// The cables taken off for some entities, each once.
    fn cables(&self, of: Vec<EntityRef>) -> Conductors<'c> {
        let lines = self.takeoff.lines_of_any(&of);
        let items = lines.filter_map(|line| self.catalog.items.get(&*line.item));
        let mut found: Vec<&Item> = Vec::new();
        for item in items.filter(|item| item.group == Group::Cable) {
            if !found.iter().any(|it| it.id == item.id) {
                found.push(item);
            }
        }
        if found.is_empty() { Conductors::NoCable } else { Conductors::Cable(found) }
    }
}

/// The position of the other door of an opening's vestibule, where it has a header too.
pub fn partner(takeoff: &Takeoff, at: usize) -> Option<usize> {
    let all = &takeoff.arrangement.openings;
    let mark = all.get(at)?.opening.entry.vestibule.get()?.partner.get()?;
    let other = takeoff.opening_at(mark.as_str())?;
    (other != at && !all.get(other)?.headers.is_empty()).then_some(other)
}
