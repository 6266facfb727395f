//! What an opening's disconnect feeds: headers, and at each header the devices of its leaves.
//!
//! In: sources, an opening. Out: nodes of a riser. May not know: what feeds the opening.

use super::super::Sources;
use super::super::printing::{Printing, amps, volts, word};
use super::wiring::{by_whom, final_by, run_words};
use crate::drawings::{RiserClass, RiserLine, RiserNode};
use crate::job::{DeviceMount, Link};
use crate::takeoff::{DeviceWork, EntityRef, OpeningWork, RunWork};

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
        words.push(if drives > 1 { format!("{drives} drives, each {each}") } else { each });
    }
    let devices = work.devices.iter().enumerate().filter(|(_, it)| header_of(work, it) == number);
    let feeds = devices.map(|(at, it)| (device_line(sources, opening, at), device(sources, opening, it)));
    RiserNode { words, class: RiserClass::Operator, feeds: feeds.collect(), name }
}

/// The header at whose drive a device arrives: that over its leaf, or the first.
fn header_of(work: &OpeningWork, device: &DeviceWork) -> usize {
    let leaf = device.entry.leaf.get().and_then(|it| usize::try_from(it.get()).ok()?.checked_sub(1));
    leaf.and_then(|leaf| work.headers.iter().position(|it| it.leaves.contains(&leaf))).unwrap_or(0)
}

fn device(sources: &Sources, opening: usize, device: &DeviceWork) -> RiserNode {
    let mark = &sources.takeoff.arrangement.openings[opening].opening.mark;
    let printing = Printing::of(sources.cleared.job());
    let height = device.height.map_or("height not known".to_owned(), |it| printing.short(it));
    let mut words = vec![format!("{} {}", device.id, word(&device.entry.kind))];
    words.push(format!("{}, {height}", word(&device.entry.mount)));
    words.extend(device.entry.by.get().map(|by| format!("by {by}", by = by.as_str())));
    RiserNode { name: format!("{mark}/{}", device.id), class: RiserClass::Device, words, feeds: Vec::new() }
}

/// How a device reaches its header: its runs and its cable, a harness, or radio.
fn device_line(sources: &Sources, opening: usize, at: usize) -> RiserLine {
    let all = &sources.takeoff.arrangement;
    let work = &all.openings[opening];
    let device = &work.devices[at];
    let plain = |over: &str, dashed: bool| RiserLine { over: over.to_owned(), under: Vec::new(), dashed };
    match (device.entry.link.or(Link::Wired), device.entry.mount.get()) {
        (Link::Wireless, _) => return plain("radio", true),
        (Link::Wired, Some(DeviceMount::Header | DeviceMount::Leaf)) => return plain("harness", true),
        (Link::Wired, _) => {}
    }
    let on: Vec<(usize, &RunWork)> =
        all.runs.iter().enumerate().filter(|(_, run)| run.cables.contains(&(opening, at))).collect();
    let cable = format!("cable {}/{}", work.opening.mark, device.id);
    match on.as_slice() {
        [] => RiserLine { over: cable, under: vec!["way not laid out".to_owned()], dashed: true },
        [(run, one)] => {
            let by = by_whom(sources, EntityRef::Run(*run));
            RiserLine {
                over: run_words(sources, one),
                under: [Some(cable), by].into_iter().flatten().collect(),
                dashed: false,
            }
        }
        several => {
            let numbers: Vec<String> = several.iter().map(|(_, run)| run.run.number.to_string()).collect();
            RiserLine { over: format!("runs {}", numbers.join(", ")), under: vec![cable], dashed: false }
        }
    }
}
