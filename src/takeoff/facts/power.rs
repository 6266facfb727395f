//! Facts of panels, circuits and runs.
//!
//! In: panels, circuits and runs of the arrangement. Out: writers of their facts. May not know: how they were planned.

use super::{count, entry, slot_count};
use crate::findings::Place;
use crate::job::{Job, RunEnd};
use crate::ledger::Reason;
use crate::measure::{Dimension, Measure, Quantity, Unit};
use crate::takeoff::circuits::{CircuitWork, PanelWork};
use crate::takeoff::fact_set::{FactSetWriter, standing_words};
use crate::takeoff::routes::RunWork;

/// Facts of a panel.
pub(in crate::takeoff) fn panel(of: Option<(&PanelWork, &Job)>) -> FactSetWriter {
    let id = of.map(|(it, _)| it.id.as_deref().unwrap_or("(panel not assigned)"));
    let mut writer = FactSetWriter::new("panel", id.map(|id| format!("panel {id}")));
    let typed = of.and_then(|(it, job)| job.panels.get(it.id.as_ref()?));
    writer.text("panel.id", "its id", id);
    let free = typed.and_then(|it| slot_count(&it.entry.free));
    writer.number("panel.free", Unit::Each, "spaces free", free);
    writer.counted("panel.circuits", "circuits it must feed", of.map(|(it, _)| it.circuits));
    writer.counted("panel.spaces", "spaces that they take, one for each pole", of.and_then(|(it, _)| it.spaces));
    writer.counted("panel.shortfall", "spaces missing", of.and_then(|(it, _)| it.shortfall()));
    writer.vocabulary("panel.known", "how well it is known", typed.and_then(|it| it.entry.known.cloned()));
    writer
}

/// Facts of a circuit.
pub(in crate::takeoff) fn circuit(of: Option<(&CircuitWork, &str, &Place)>) -> FactSetWriter {
    let about = of.map(|(it, panel, _)| format!("circuit {panel}-{}", it.label()));
    let mut writer = FactSetWriter::new("circuit", about);
    let circuit = of.map(|(it, _, place)| (it, place));
    writer.counted("circuit.drives", "drives on it", circuit.map(|(it, _)| it.drives));
    writer.counted("circuit.headers", "headers on it", circuit.map(|(it, _)| it.headers.len()));
    let amps = circuit.and_then(|(it, place)| Some((it.amps?, place)));
    writer.catalog("circuit.amps", Unit::Ampere, "running amps", amps);
    let volts = circuit.and_then(|(it, place)| Some((it.volts?, place)));
    writer.catalog("circuit.volts", Unit::Volt, "volts", volts);
    let existing = circuit.map(|(it, _)| it.existing.is_some());
    writer.flag("circuit.existing", "whether it is there already, with its breaker", existing);
    writer.counted("circuit.poles", "poles of its breaker", circuit.and_then(|(it, _)| it.poles));
    writer.vocabulary("circuit.known", "how well the power is known", circuit.and_then(|(it, _)| it.known));
    writer
}

/// What an end of a run may be.
const RUN_ENDS: [&str; 5] = ["panel", "header", "device", "box", "joint"];

/// Facts of a run.
pub(in crate::takeoff) fn run(of: Option<&RunWork>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("run", of.map(|it| it.name()));
    let typed = of.map(|it| it.run);
    writer.vocabulary("run.kind", "kind of raceway", typed.map(|it| it.kind));
    writer.vocabulary("run.class", "what it carries", typed.map(|it| it.class));
    writer.vocabulary("run.size", "trade size", of.map(|it| it.size));
    let length = typed.map(|it| {
        let length = it.entry.length.given();
        let standing = it.assumed.clone().or(length.map(|it| standing_words(&it.standing))).unwrap_or_default();
        let place = length.map_or(&it.place, |it| &it.place).clone();
        (it.length.quantity(), Reason::Entry { place, standing })
    });
    writer.number("run.length", Unit::Foot, "length along the route", length);
    let end = |end: &RunEnd| match end {
        RunEnd::Panel(_) => "panel",
        RunEnd::Opening(_) => "header",
        RunEnd::Device(..) => "device",
        RunEnd::Box(_) => "box",
        RunEnd::Joint(..) => "joint",
    };
    writer.word("run.from", &RUN_ENDS, "what it starts at", typed.map(|it| end(&it.from)));
    writer.word("run.to", &RUN_ENDS, "what it ends at", typed.map(|it| end(&it.to)));
    let joints = typed.map(|it| usize::from(matches!(it.from, RunEnd::Joint(..))));
    writer.counted("run.joints", "changes of raceway at its start, where it is a further part of a run", joints);
    writer.flag("run.assumed", "whether its route is assumed", typed.map(|it| it.assumed.is_some()));
    writer.counted("run.bends", "bends", typed.map(|it| it.bends.len()));
    let by_rule = |value: u32, rule: &str| (Quantity::count(value), Reason::Clause(rule.to_owned().into()));
    let supports = of.map(|it| by_rule(it.supports, "NEC 358.30, 348.30: fastened near each end and at intervals"));
    writer.number("run.supports", Unit::Each, "supports", supports);
    let boxes = of.map(|it| by_rule(it.pull_boxes, "NEC 358.26: 360 degrees between pull points, from memory"));
    writer.number("run.pull_boxes", Unit::Each, "pull boxes that its bends require", boxes);
    let shared = of.map(|it| it.junction_boxes.len());
    writer.counted("run.junction_boxes", "junction boxes at its ends that no run before it ends at", shared);
    let connectors = of.map(|it| by_rule(it.connectors, "one at each end and at each side of a pull box"));
    writer.number("run.connectors", Unit::Each, "connectors", connectors);
    let couplings = of.map(|it| by_rule(it.couplings, "one for each full stick of 10 ft"));
    writer.number("run.couplings", Unit::Each, "couplings", couplings);
    let pull = of.and_then(|it| it.pull()).map(|length| {
        let rule = "NEC 300.14: 6 in free at a box; 12 in at a header, common practice";
        (length.quantity(), Reason::Clause(rule.to_owned().into()))
    });
    writer.number("run.pull", Unit::Foot, "length of one conductor, with its free ends", pull);
    let walls = typed.map(|it| slot_count(&it.entry.rated_walls).unwrap_or_else(|| count(0, &it.place)));
    writer.number("run.rated_walls", Unit::Each, "rated walls and floors it goes through", walls);
    let cores = typed.map(|it| slot_count(&it.entry.cores).unwrap_or_else(|| count(0, &it.place)));
    writer.number("run.cores", Unit::Each, "cores drilled", cores);
    writer.flag("run.wet", "whether it is outdoors or wet", typed.map(|it| it.entry.wet.or(false)));
    writer.flag("run.plenum", "whether its space is a return-air plenum", typed.map(|it| it.entry.plenum.or(false)));
    let trench = typed.and_then(|it| it.entry.trench.given());
    let trench = trench.map(|it| (it.value.quantity(), entry(&it.place)));
    let none = typed.map(|it| (Quantity::new(0.into(), Dimension::LENGTH), entry(&it.place)));
    writer.number("run.trench", Unit::Foot, "length of it in a trench", trench.or(none));
    writer.counted("run.circuits", "line circuits on it", of.map(|it| it.circuits.len()));
    writer.counted("run.cables", "device cables on it", of.map(|it| it.cables.len()));
    writer
}
