//! What an opening's disconnect feeds: headers, and at each header the devices of its leaves.
//!
//! In: sources, an opening. Out: nodes of a riser. May not know: what feeds the opening.

use super::super::Sources;
use super::super::devices::mounted;
use super::super::printing::{Printing, amps, volts, word};
use super::run_words::{by_whom, final_by, run_words, without_run};
use crate::drawings::{RiserClass, RiserLine, RiserNode};
use crate::input::Text;
use crate::job::{DeviceMount, Link};
use crate::measure::Noun;
use crate::takeoff::{DeviceWork, EntityRef, OpeningWork, RunWork};

/// A device with its position.
type Numbered<'w> = (usize, &'w DeviceWork<'w>);

/// Devices that are drawn as one: the first, and all of them.
struct Together<'w> {
    first: Numbered<'w>,
    all: Vec<Numbered<'w>>,
}

/// Headers of an opening, by position, with their devices.
pub(super) fn opening_nodes(sources: &Sources, opening: usize) -> Vec<(RiserLine, RiserNode)> {
    let Some(work) = sources.takeoff.arrangement.openings.get(opening) else { return Vec::new() };
    let each = work.headers.iter().enumerate().map(|(number, it)| {
        let under = final_by(sources, EntityRef::Header(opening, number)).into_iter().collect();
        let node = header(sources, (opening, work), number, it.drives.len());
        (RiserLine { over: "connection".to_owned(), under, dashed: false }, node)
    });
    each.collect()
}

fn header(sources: &Sources, (opening, work): (usize, &OpeningWork), number: usize, drives: usize) -> RiserNode {
    let mark = &work.opening.mark;
    let name = if work.headers.len() > 1 { format!("{mark} header {}", number + 1) } else { format!("{mark} header") };
    let mut words = vec![name.clone()];
    if let Some(operator) = work.operator {
        let each = format!("{}, {}", volts(operator.volts), amps(operator.amps));
        words.push(if drives > 1 { format!("{}, each {each}", Noun::DRIVE.len(drives)) } else { each });
    }
    let here = work.devices.iter().enumerate().filter(|(_, device)| header_of(work, device) == number);
    let feeds = together(sources, opening, here)
        .into_iter()
        .map(|those| (device_line(sources, (opening, work), &those), device(sources, work, &those)));
    RiserNode { words, class: RiserClass::Operator, feeds: feeds.collect(), name }
}

/// Devices of one place that are reached the same way, such as plates at two heights, together.
fn together<'w>(sources: &Sources, opening: usize, devices: impl Iterator<Item = Numbered<'w>>) -> Vec<Together<'w>> {
    let mut out: Vec<Together> = Vec::new();
    for device in devices {
        let alike = |other: Numbered| {
            std::ptr::eq(other.1.entry, device.1.entry)
                && runs_of(sources, opening, other.0) == runs_of(sources, opening, device.0)
        };
        match out.last_mut() {
            Some(those) if alike(those.first) => those.all.push(device),
            _ => out.push(Together { first: device, all: vec![device] }),
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

fn device(sources: &Sources, work: &OpeningWork, those: &Together) -> RiserNode {
    let printing = Printing::of(sources.reviewed.job());
    let all =
        |text: &dyn Fn(&DeviceWork) -> String| those.all.iter().map(|(_, it)| text(it)).collect::<Vec<_>>().join(", ");
    let entry = those.first.1.entry;
    let heights = all(&|it| it.height.map_or("height not known".to_owned(), |it| printing.inches(it)));
    let mut words = vec![format!("{} {}", all(&|it| it.id.clone()), word(&entry.kind))];
    words.push(format!("{}, {heights}", mounted(entry)));
    words.extend(entry.by.get().map(|by| format!("by {}", by.as_str())));
    let name = format!("{}/{}", work.opening.mark, all(&|it| it.id.clone()));
    RiserNode { name, class: RiserClass::Device, words, feeds: Vec::new() }
}

/// How devices reach their header: runs and cables, a harness, or radio.
fn device_line(sources: &Sources, (opening, work): (usize, &OpeningWork), those: &Together) -> RiserLine {
    let (first, DeviceWork { entry, .. }) = those.first;
    let plain = |over: &str, dashed: bool| RiserLine { over: over.to_owned(), under: Vec::new(), dashed };
    match (entry.link.or(Link::Wired), entry.mount.get()) {
        (Link::Wireless, _) => return plain("radio", true),
        (Link::Wired, Some(DeviceMount::Header | DeviceMount::Leaf)) => return plain("harness", true),
        (Link::Wired, _) => {}
    }
    let names: Vec<String> = those.all.iter().map(|(_, it)| format!("{}/{}", work.opening.mark, it.id)).collect();
    let word = Noun::CABLE.beside(names.len() as u64);
    let cable = format!("{word} {}", names.join(", "));
    let runs: Vec<(usize, &RunWork)> = sources.takeoff.runs_of_cable(opening, first).collect();
    match runs.as_slice() {
        [] => {
            let by = entry.by.get().map(Text::as_str);
            RiserLine { over: cable, under: vec![without_run(by)], dashed: true }
        }
        [(at, run)] => {
            let by = by_whom(sources, EntityRef::Run(*at));
            let under = [Some(cable), by].into_iter().flatten().collect();
            RiserLine { over: run_words(sources, run), under, dashed: run.run.assumed.is_some() }
        }
        several => {
            let numbers: Vec<String> = several.iter().map(|(_, run)| run.run.label()).collect();
            let dashed = several.iter().any(|(_, run)| run.run.assumed.is_some());
            RiserLine { over: format!("runs {}", numbers.join(", ")), under: vec![cable], dashed }
        }
    }
}
