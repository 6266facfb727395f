//! Something wired to a header that the catalog does not terminate.
//!
//! In: a takeoff. Out: `terminations-missing`, `conductor-missing`. May not know: how terminations are printed.
//!
//! What is missing alike is told once, where it is typed first, with everything that lacks it.

use std::collections::BTreeMap;

use super::CheckContext;
use crate::catalog::Link;
use crate::findings::{Code, Finding, Findings, Paper, Papers, Place, Severity, Subject};
use crate::takeoff::terminations::{Conductors, Terminated, Wired, terminations};

/// No table says how something is wired.
pub static MISSING: Code = Code {
    id: "terminations-missing",
    severity: Severity::Error,
    says: "the catalog has no termination for {asked}, wired at {found}",
    why: "A termination sheet that omits a conductor is read as if there were none, and the installer has to guess.",
    example: "{ id = \"R1\", kind = \"card reader\" }   # and no [termination.…] with devices = [\"card reader\"]",
    blocks: Papers::of(&[Paper::Drawings, Paper::Submittal]),
};

/// A cable lacks a conductor.
pub static CONDUCTOR: Code = Code {
    id: "conductor-missing",
    severity: Severity::Error,
    says: "{asked} has no conductor for: {found}",
    why: "A conductor without a color cannot be identified at its other end; a cable with too few conductors is not sufficient.",
    example: "[cable.pair]\nawg = [18]\ncolor = { positive = \"red\" }   # and a release asks for negative too",
    blocks: Papers::of(&[Paper::Drawings, Paper::Submittal]),
};

/// A cable whose gauge no table of colors names.
pub static COLORS: Code = Code {
    id: "cable-colors-assumed",
    severity: Severity::Warning,
    says: "the catalog has no colors for {asked}; those of harnesses are printed at {found}",
    why: "A cable and a harness seldom have the same colors. An installer lands conductors by the colors on the sheet.",
    example: "[cable.pair]\nawg = [18]   # and the cable taken off is of 22 AWG",
    blocks: Papers::NONE,
};

/// What lacks something alike: its openings, and where the first of them stands.
struct MissingWiring {
    names: Vec<String>,
    marks: Vec<String>,
    place: Place,
    remedy: String,
}

pub(super) fn look(seen: &CheckContext, findings: &mut Findings) {
    if seen.catalog.terminals.refused {
        return;
    }
    let mut tables: BTreeMap<String, MissingWiring> = BTreeMap::new();
    let mut colors: BTreeMap<String, MissingWiring> = BTreeMap::new();
    let mut conductors: BTreeMap<(String, String), MissingWiring> = BTreeMap::new();
    for at in 0..seen.takeoff.arrangement.openings.len() {
        for one in terminations(seen.takeoff, seen.catalog, at) {
            let what = what(seen, at, &one);
            if one.table.is_none() {
                let remedy = format!("add a [termination.…] with {}", asks_for(seen, at, &one));
                note(tables.entry(what).or_insert_with(|| lack(seen, at, &one, remedy)), seen, at, &one);
                continue;
            }
            if let Some(cable) = with_assumed_colors(seen, &one) {
                let remedy = "add a [cable.…] with its awg and colors".to_owned();
                note(colors.entry(cable).or_insert_with(|| lack(seen, at, &one, remedy)), seen, at, &one);
            }
            let roles = one.wires.iter().filter(|wire| wire.color.is_none()).map(|wire| wire.role.word());
            let roles: Vec<&str> = roles.collect();
            if let Some(cable) = cable(&one).filter(|_| !roles.is_empty()) {
                let remedy = format!("give [cable.…] of it a color for {}, or another cable", roles.join(", "));
                let key = (cable, format!("{} of {what}", roles.join(", ")));
                note(conductors.entry(key).or_insert_with(|| lack(seen, at, &one, remedy)), seen, at, &one);
            }
        }
    }
    for (cable, lack) in colors {
        findings.push(lack.finding(&COLORS).asked(cable).found(lack.names.join(", ")));
    }
    for (what, lack) in tables {
        findings.push(lack.finding(&MISSING).asked(what).found(lack.names.join(", ")));
    }
    for ((cable, roles), lack) in conductors {
        findings.push(lack.finding(&CONDUCTOR).asked(cable).found(format!("{roles}, at {}", lack.names.join(", "))));
    }
}

impl MissingWiring {
    fn finding(&self, code: &'static Code) -> Finding {
        let subject = match self.marks.as_slice() {
            [one] => Subject::Opening(one.clone()),
            _ => Subject::Job,
        };
        Finding::new(code, subject).at(self.place.clone()).advise(self.remedy.as_str())
    }
}

/// The cable or harness of ours, which may lack a conductor.
fn cable(one: &Terminated) -> Option<String> {
    Some(match &one.conductors {
        Conductors::NoCable => return None,
        Conductors::Cable(items) => items.iter().map(|item| item.name.as_str()).collect::<Vec<_>>().join(", "),
        Conductors::Harness => "the harness".to_owned(),
        Conductors::AsSaid(says) => (*says).to_owned(),
    })
}

/// The cable of ours that has the colors of harnesses because no table names its gauge, while others are named.
fn with_assumed_colors(seen: &CheckContext, one: &Terminated) -> Option<String> {
    let Conductors::Cable(items) = &one.conductors else { return None };
    let tables = &seen.catalog.terminals.cables;
    let named = |awg: u32| tables.iter().any(|table| table.awg.contains(&awg));
    let first = items.first()?;
    let unnamed = first.wire.is_none_or(|wire| !named(wire.awg));
    let assumed = unnamed && one.colors.is_some() && tables.iter().any(|table| !table.awg.is_empty());
    assumed.then(|| first.name.clone())
}

fn lack(seen: &CheckContext, at: usize, one: &Terminated, remedy: String) -> MissingWiring {
    let work = &seen.takeoff.arrangement.openings[at];
    let typed = match one.of {
        Wired::Device(number) => work.devices[number].entry.kind.place(),
        Wired::Release(leaf) => work.leaves[leaf].entry.release.place(),
        Wired::System(_) => None,
    };
    let place = typed.unwrap_or(&work.opening.place).clone();
    MissingWiring { names: Vec::new(), marks: Vec::new(), place, remedy }
}

fn note(lack: &mut MissingWiring, seen: &CheckContext, at: usize, one: &Terminated) {
    let work = &seen.takeoff.arrangement.openings[at];
    let mark = &work.opening.mark;
    lack.names.push(match one.of {
        Wired::Device(number) => format!("{mark}/{}", work.devices[number].id),
        Wired::Release(leaf) => format!("{mark} leaf {}", leaf + 1),
        Wired::System(_) => mark.clone(),
    });
    if lack.marks.last() != Some(mark) {
        lack.marks.push(mark.clone());
    }
}

/// What is wired, in words.
fn what(seen: &CheckContext, at: usize, one: &Terminated) -> String {
    let work = &seen.takeoff.arrangement.openings[at];
    match one.of {
        Wired::Device(number) => {
            let entry = work.devices[number].entry;
            let kind = entry.kind.get().map_or("device", |it| it.word());
            let link = if entry.link.or(Link::Wired) == Link::Wireless { ", by radio" } else { "" };
            format!("{kind}{link}")
        }
        Wired::Release(leaf) => work.leaves[leaf].release().map_or("release", |it| it.word()).to_owned(),
        Wired::System(system) => system.word().to_owned(),
    }
}

/// The keys that a termination of it has.
fn asks_for(seen: &CheckContext, at: usize, one: &Terminated) -> String {
    let work = &seen.takeoff.arrangement.openings[at];
    match one.of {
        Wired::Device(number) => {
            let entry = work.devices[number].entry;
            let kind = entry.kind.get().map_or("", |it| it.word());
            let link = if entry.link.or(Link::Wired) == Link::Wireless { ", link = \"wireless\"" } else { "" };
            format!("devices = [\"{kind}\"]{link}")
        }
        Wired::Release(_) => format!("releases = [\"{}\"]", what(seen, at, one)),
        Wired::System(system) => format!("systems = [\"{system}\"]"),
    }
}

#[cfg(test)]
mod tests {
    use super::{COLORS, CONDUCTOR, MISSING};
    use crate::findings::{Code, Finding};
    use crate::takeoff::checks::fixtures;

    const SENSOR: &str = "device = [{ id = \"M1\", kind = \"safety sensor\", side = \"inside\", mount = \"header\", \
                          height = \"84 in\" }]";

    fn reported(code: &Code, job: &str, catalog: &str) -> Vec<Finding> {
        fixtures::reported(code, job, "", catalog)
    }

    #[test]
    fn a_device_without_a_table_is_reported_with_its_opening() {
        let found = reported(&MISSING, SENSOR, "");
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].asked.as_str(), found[0].found.as_str()), ("safety sensor", "101/M1"));
        let table = "[termination.sensor]\nname = \"sensor\"\ndevices = [\"safety sensor\"]\n\
                     wire = [{ from = \"supply\", role = \"positive\", to = \"input\" }]\n";
        assert!(reported(&MISSING, SENSOR, table).is_empty());
        // No cable of the catalog has a color for what brings power.
        let found = reported(&CONDUCTOR, SENSOR, table);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].asked, "the harness");
        assert_eq!(found[0].found, "positive of safety sensor, at 101/M1");
        let colored = table.replace("\"positive\",", "\"positive\", color = \"blue\",");
        assert!(reported(&CONDUCTOR, SENSOR, &colored).is_empty());
    }

    /// A cable of 22 AWG to a plate, and colors for 18 AWG or for 22.
    #[test]
    fn a_cable_without_colors_of_its_own_is_reported() {
        const CABLE: &str = "[item.cable]\nname = \"Cable\"\ngroup = \"cable\"\nunit = \"ft\"\nprice = \"1.00\"\npriced = 2026-11-02\n\
            supplier = \"fenwick\"\nwire = { awg = 22 }\nrule = [{ per = \"run\", quantity = \"run.length\" }]\n";
        const RUN: &str = "device = [{ id = \"P1\", kind = \"push plate\", side = \"outside\", mount = \"wall\" }]\n[[run]]\nfrom = \"101\"\n\
            to = \"101/P1\"\nkind = \"open cable\"\nlength = \"20 ft\"\nbends = []\nclass = \"low\"";
        let own = |awg: u32| {
            format!("{CABLE}[cable.own]\nawg = [{awg}]\ncolor = {{ contact = \"red\", common = \"black\" }}\n")
        };
        assert!(reported(&COLORS, RUN, CABLE).is_empty(), "one table for every cable");
        assert!(reported(&COLORS, RUN, &own(22)).is_empty());
        let found = reported(&COLORS, RUN, &own(18));
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].asked.as_str(), found[0].found.as_str()), ("Cable", "101/P1"));
    }
}
