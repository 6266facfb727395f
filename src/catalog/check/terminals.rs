//! Terminals, what is wired to them, and the colors of low-voltage conductors.
//!
//! In: their records. Out: checked; what is told twice, of nothing, or so that two ends of a cable look alike is reported.
//! May not know: any job.

use std::collections::BTreeMap;

use super::Check;
use crate::catalog::model::Terminals;
use crate::catalog::terminal_entries::*;
use crate::catalog::{ConductorRole, codes};
use crate::findings::{Finding, Place, Subject};
use crate::input::{Slot, Text};

impl Check<'_, '_, '_> {
    pub(super) fn terminals(&mut self) -> Terminals {
        let all = self.all;
        let terminals: BTreeMap<String, Terminal> =
            all.terminal.members().filter_map(|(id, entry)| Some((id.to_owned(), entry.checked()?))).collect();
        let terminations: Vec<Termination> =
            all.termination.members().filter_map(|(id, entry)| self.termination(id, entry)).collect();
        let cables: Vec<CableColors> = all.cable.members().filter_map(|(id, entry)| cable(id, entry)).collect();
        let refused = all.terminal.is_bad()
            || all.termination.is_bad()
            || all.cable.is_bad()
            || terminals.len() < all.terminal.members().count()
            || terminations.len() < all.termination.members().count()
            || cables.len() < all.cable.members().count();
        let found = Terminals { terminals, terminations, cables, refused };
        self.names_twice(&found);
        self.terminated_twice(&found);
        self.gauges_twice(&found);
        self.colors_twice(&found);
        found
    }

    fn termination(&mut self, id: &str, entry: &TerminationEntry) -> Option<Termination> {
        let subject = Subject::Entry("termination", id.to_owned());
        let (devices, releases, systems) = (entry.devices.list(), entry.releases.list(), entry.systems.list());
        let place = entry.written_at.clone()?;
        let refused = entry.devices.is_bad() || entry.releases.is_bad() || entry.systems.is_bad();
        if devices.is_empty() && releases.is_empty() && systems.is_empty() && !refused {
            let finding = Finding::new(&codes::TERMINATES_NOTHING, subject.clone()).at(place);
            self.reader.push(finding.found(id).advise("add devices = […], releases = […] or systems = […]"));
        }
        let given = entry.wire.list();
        let known = given.iter().filter(|wire| !wire.inside.is_bad());
        let wires: Vec<TerminatedWire> = known.filter_map(TerminatedWireEntry::checked).collect();
        if refused || wires.len() < given.len() || entry.wire.is_bad() || entry.link.is_bad() {
            return None;
        }
        entry.checked(id.to_owned(), wires)
    }

    /// Two terminals of one name on one operator.
    fn names_twice(&mut self, found: &Terminals) {
        let operators = std::iter::once(None).chain(self.all.operator.members().map(|(id, _)| Some(id)));
        let mut reported: Vec<(&Place, &Place)> = Vec::new();
        for operator in operators {
            let mut names: BTreeMap<&str, &Place> = BTreeMap::new();
            for terminal in found.terminals.values() {
                let name = terminal.name_on(operator);
                let Some(first) = names.insert(name, &terminal.place) else { continue };
                if reported.contains(&(first, &terminal.place)) {
                    continue;
                }
                reported.push((first, &terminal.place));
                let finding = Finding::new(&codes::TERMINAL_TWICE, Subject::Entry("terminal", name.to_owned()))
                    .at(terminal.place.clone())
                    .near(first.clone(), "first used here")
                    .found(name)
                    .asked(operator.map_or("every operator".to_owned(), |id| format!("operator {id}")));
                self.reader.push(finding.advise("give one of them a name of its own"));
            }
        }
    }

    /// One thing that is wired in two ways.
    fn terminated_twice(&mut self, found: &Terminals) {
        let mut first: BTreeMap<String, &Place> = BTreeMap::new();
        for one in &found.terminations {
            let devices = one.devices.iter().map(|kind| format!("{kind}, {}", one.link));
            let releases = one.releases.iter().map(|it| it.word().to_owned());
            let systems = one.systems.iter().map(|it| it.word().to_owned());
            for what in devices.chain(releases).chain(systems).collect::<Vec<_>>() {
                let Some(before) = first.get(&what) else {
                    first.insert(what, &one.place);
                    continue;
                };
                let finding = Finding::new(&codes::TERMINATED_TWICE, Subject::Entry("termination", one.id.clone()))
                    .at(one.place.clone())
                    .near((*before).clone(), "first given here")
                    .found(what);
                self.reader.push(finding.advise("leave it in one of the two tables"));
            }
        }
    }

    /// One gauge that has two tables of colors.
    fn gauges_twice(&mut self, found: &Terminals) {
        let mut first: BTreeMap<Option<u32>, &Place> = BTreeMap::new();
        for cable in &found.cables {
            let gauges: Vec<Option<u32>> =
                if cable.awg.is_empty() { vec![None] } else { cable.awg.iter().copied().map(Some).collect() };
            for gauge in gauges {
                let Some(before) = first.insert(gauge, &cable.place) else { continue };
                let finding = Finding::new(&codes::CABLE_TWICE, Subject::Entry("cable", cable.id.clone()))
                    .at(cable.place.clone())
                    .near(before.clone(), "first given here")
                    .found(gauge.map_or("cables of every other gauge".to_owned(), |awg| format!("{awg} AWG")));
                self.reader.push(finding.advise("name each gauge in one table: awg = [22]"));
            }
        }
    }

    /// Two conductors that lie side by side and look alike: nobody could tell their ends apart.
    fn colors_twice(&mut self, found: &Terminals) {
        for cable in &found.cables {
            let clash = found.terminations.iter().find_map(|it| Some((it, two_alike(it, cable)?)));
            let Some((termination, color)) = clash else { continue };
            let finding = Finding::new(&codes::COLOR_TWICE, Subject::Entry("cable", cable.id.clone()))
                .at(cable.place.clone())
                .near(termination.place.clone(), format!("termination {}", termination.id))
                .found(color)
                .asked(termination.name.as_str());
            self.reader.push(finding.advise("give each conductor of one cable a color or a stripe of its own"));
        }
    }
}

/// The first color that two conductors of a termination would have in a cable.
fn two_alike(termination: &Termination, cable: &CableColors) -> Option<String> {
    if termination.conductor.is_some() {
        return None;
    }
    let mut seen: Vec<String> = Vec::new();
    for wire in &termination.wires {
        let Some(color) = wire.color.as_ref().or_else(|| cable.colors.get(&wire.role)) else { continue };
        let color = color.trim().to_lowercase();
        if seen.contains(&color) {
            return Some(color);
        }
        seen.push(color);
    }
    None
}

fn cable(id: &str, entry: &CableEntry) -> Option<CableColors> {
    let color = entry.color.get()?;
    let given: [(ConductorRole, &Slot<Text>); 5] = [
        (ConductorRole::Positive, &color.positive),
        (ConductorRole::Negative, &color.negative),
        (ConductorRole::Contact, &color.contact),
        (ConductorRole::Return, &color.return_contact),
        (ConductorRole::Common, &color.common),
    ];
    if entry.awg.is_bad() || given.iter().any(|(_, slot)| slot.is_bad()) {
        return None;
    }
    let colors = given.into_iter().filter_map(|(role, slot)| Some((role, slot.value()?)));
    entry.checked(id.to_owned(), colors.collect())
}
