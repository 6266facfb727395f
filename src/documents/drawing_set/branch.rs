//! What an opening's disconnect feeds: headers, and at each header the devices of its leaves.
//!
//! In: sources, an opening. Out: nodes of a riser. May not know: what feeds the opening.

use super::super::Sources;
use super::super::printing::{Printing, amps, volts, word};
use super::run_words::{by_whom, final_by, run_words, without_run};
use crate::drawings::{RiserClass, RiserLine, RiserNode};
use crate::input::Text;
use crate::job::{DeviceMount, Link};
use crate::measure::Noun;
use crate::takeoff::{DeviceWork, EntityRef, OpeningWork};

/// Headers of an opening, by position, with their devices.
pub(super) fn opening_nodes(sources: &Sources, opening: usize) -> Vec<(RiserLine, RiserNode)> {
    let work = &sources.takeoff.arrangement.openings[opening];
    let each = (0..work.headers.len()).map(|number| {
        let under = final_by(sources, EntityRef::Header(opening, number)).into_iter().collect();
        (RiserLine { over: "connection".to_owned(), under, dashed: false }, header(sources, opening, number))
    });
    each.collect()
}

fn header(sources: &Sources, opening: usize, number: usize) -> RiserNode {
    let work = &sources.takeoff.arrangement.openings[opening];
    let mark = &work.opening.mark;
    let name = if work.headers.len() > 1 { format!("{mark} header {}", number + 1) } else { format!("{mark} header") };
    let drives = work.headers[number].drives.len();
    let mut words = vec![name.clone()];
    if let Some(operator) = work.operator {
        let each = format!("{}, {}", volts(operator.volts), amps(operator.amps));
        words.push(if drives > 1 { format!("{}, each {each}", Noun::DRIVE.len(drives)) } else { each });
    }
    let here: Vec<usize> = (0..work.devices.len()).filter(|at| header_of(work, &work.devices[*at]) == number).collect();
    let feeds = together(sources, opening, &here)
        .into_iter()
        .map(|those| (device_line(sources, opening, &those), device(sources, opening, &those)));
    RiserNode { words, class: RiserClass::Operator, feeds: feeds.collect(), name }
}

/// Devices of one place that are reached the same way, such as plates at two heights, together.
fn together(sources: &Sources, opening: usize, devices: &[usize]) -> Vec<Vec<usize>> {
    let work = &sources.takeoff.arrangement.openings[opening];
    let mut out: Vec<Vec<usize>> = Vec::new();
    for at in devices {
        let alike = |other: usize| {
            std::ptr::eq(work.devices[other].entry, work.devices[*at].entry)
                && runs_of(sources, opening, other) == runs_of(sources, opening, *at)
        };
        match out.last_mut() {
            Some(those) if alike(those[0]) => those.push(*at),
            _ => out.push(vec![*at]),
        }
    }
    out
}

/// Positions of the runs that carry the cable of a device.
fn runs_of(sources: &Sources, opening: usize, device: usize) -> Vec<usize> {
    sources.takeoff.runs_of_cable(opening, device).map(|(at, _)| at).collect()
}

/// The header at whose drive a device arrives: that over its leaf, or the first.
fn header_of(work: &OpeningWork, device: &DeviceWork) -> usize {
    let leaf = device.entry.leaf.get().and_then(|it| usize::try_from(it.get()).ok()?.checked_sub(1));
    leaf.and_then(|leaf| work.headers.iter().position(|it| it.leaves.contains(&leaf))).unwrap_or(0)
}

fn device(sources: &Sources, opening: usize, those: &[usize]) -> RiserNode {
    let work = &sources.takeoff.arrangement.openings[opening];
    let printing = Printing::of(sources.reviewed.job());
    let devices: Vec<&DeviceWork> = those.iter().map(|at| &work.devices[*at]).collect();
    let all = |text: &dyn Fn(&DeviceWork) -> String| devices.iter().map(|it| text(it)).collect::<Vec<_>>().join(", ");
    let entry = devices[0].entry;
    let heights = all(&|it| it.height.map_or("height not known".to_owned(), |it| printing.inches(it)));
    let mut words = vec![format!("{} {}", all(&|it| it.id.clone()), word(&entry.kind))];
    words.push(format!("{}, {heights}", word(&entry.mount)));
    words.extend(entry.by.get().map(|by| format!("by {}", by.as_str())));
    let name = format!("{}/{}", work.opening.mark, all(&|it| it.id.clone()));
    RiserNode { name, class: RiserClass::Device, words, feeds: Vec::new() }
}

/// How devices reach their header: runs and cables, a harness, or radio.
fn device_line(sources: &Sources, opening: usize, those: &[usize]) -> RiserLine {
    let all = &sources.takeoff.arrangement;
    let work = &all.openings[opening];
    let entry = work.devices[those[0]].entry;
    let plain = |over: &str, dashed: bool| RiserLine { over: over.to_owned(), under: Vec::new(), dashed };
    match (entry.link.or(Link::Wired), entry.mount.get()) {
        (Link::Wireless, _) => return plain("radio", true),
        (Link::Wired, Some(DeviceMount::Header | DeviceMount::Leaf)) => return plain("harness", true),
        (Link::Wired, _) => {}
    }
    let names: Vec<String> = those.iter().map(|at| format!("{}/{}", work.opening.mark, work.devices[*at].id)).collect();
    let word = Noun::CABLE.beside(names.len() as u64);
    let cable = format!("{word} {}", names.join(", "));
    match runs_of(sources, opening, those[0]).as_slice() {
        [] => {
            let by = entry.by.get().map(Text::as_str);
            RiserLine { over: cable, under: vec![without_run(by)], dashed: true }
        }
        [run] => {
            let by = by_whom(sources, EntityRef::Run(*run));
            let under = [Some(cable), by].into_iter().flatten().collect();
            RiserLine { over: run_words(sources, &all.runs[*run]), under, dashed: false }
        }
        several => {
            let numbers: Vec<String> = several.iter().map(|run| all.runs[*run].run.number.to_string()).collect();
            RiserLine { over: format!("runs {}", numbers.join(", ")), under: vec![cable], dashed: false }
        }
    }
}
