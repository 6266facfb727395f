//! Rows of the activation-device schedule, and the register of radio devices.
//!
//! In: sources and openings. Out: rows of finished strings. May not know: which paper prints them.

use serde::Serialize;

use super::Sources;
use super::printing::{DASH, Printing, listed, word};
use crate::job::{DeviceEntry, DeviceKind, DeviceMount, Link, Live};
use crate::takeoff::{BoxFor, DeviceWork, OpeningWork};

/// A device in a schedule.
#[derive(Clone, Debug, Serialize)]
pub struct DeviceRow {
    /// What it does for its leaves: opens them, keeps them from moving, unlocks them.
    pub does: String,
    /// Mark of its opening.
    pub mark: String,
    /// Its id.
    pub id: String,
    /// The room it stands in, with its side.
    pub room: String,
    /// What it is.
    pub kind: String,
    /// The leaf it opens.
    pub opens: String,
    /// What it is fixed to.
    pub mount: String,
    /// Height of its center.
    pub height: String,
    /// Distance from the latch edge.
    pub distance: String,
    /// Wired or wireless.
    pub link: String,
    /// When it works.
    pub live: String,
    /// Whether it has a box.
    pub has_box: String,
    /// Runs that carry its cable.
    pub runs: String,
    /// Its cable, named as the runs name it; how it is reached where it has none.
    pub cable: String,
    /// Who furnishes it.
    pub by: String,
}

/// Every device of an opening, by the opening's position.
pub(super) fn device_rows(sources: &Sources, at: usize) -> Vec<DeviceRow> {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return Vec::new() };
    work.devices.iter().enumerate().map(|(number, device)| row(sources, at, work, number, device)).collect()
}

fn row(sources: &Sources, at: usize, work: &OpeningWork, number: usize, device: &DeviceWork) -> DeviceRow {
    let printing = Printing::of(sources.reviewed.job());
    let entry = device.entry;
    let room = entry
        .side
        .get()
        .map_or_else(|| DASH.to_owned(), |side| format!("{} ({side})", work.room(*side).unwrap_or("room not given")));
    let boxed = work.boxes.iter().any(|it| it.of == BoxFor::Device(number));
    let on = sources.takeoff.runs_of_cable(at, number).map(|(_, run)| run);
    let powered: Vec<usize> = work.leaves.iter().filter(|leaf| leaf.powered).map(|leaf| leaf.number).collect();
    let opens = match (entry.leaf.get(), powered.as_slice()) {
        (Some(leaf), _) => format!("leaf {}", leaf.get()),
        (None, _) if work.leaves.len() == 1 => "the leaf".to_owned(),
        (None, [one]) => format!("leaf {one}"),
        (None, _) => "both leaves".to_owned(),
    };
    let does = does(entry, &opens);
    DeviceRow {
        does,
        mark: work.opening.mark.clone(),
        id: device.id.clone(),
        room,
        kind: word(&entry.kind),
        opens,
        mount: mounted(entry),
        height: device.height.map_or_else(|| DASH.to_owned(), |height| printing.inches(height)),
        distance: printing.inches_of(&entry.distance),
        link: entry.link.or(Link::Wired).word().to_owned(),
        live: entry.live.or(Live::Always).word().to_owned(),
        has_box: if boxed { "yes" } else { "no" }.to_owned(),
        runs: listed(on.map(|run| run.run.label()), ", "),
        cable: cable(work, device),
        by: entry.by.get().map_or_else(|| "us".to_owned(), |by| by.as_str().to_owned()),
    }
}

/// What a device does for its leaves.
fn does(entry: &DeviceEntry, leaves: &str) -> String {
    match entry.kind.get() {
        Some(DeviceKind::Safety) => format!("keeps {leaves} from moving"),
        Some(kind) if kind.is_credential() => format!("unlocks {leaves}"),
        Some(DeviceKind::LockButton) => "disables the device outside while the room is in use".to_owned(),
        Some(DeviceKind::ExitSensor) => "asks the access system to unlock".to_owned(),
        _ => format!("opens {leaves}"),
    }
}

/// What a device is fixed to; a post that it shares by the device that has it, a wall that is not the door's by its name.
pub(super) fn mounted(entry: &DeviceEntry) -> String {
    match (entry.post.get(), entry.wall.get()) {
        (Some(post), _) => format!("post of {}", post.as_str()),
        (None, Some(wall)) => wall.word().to_owned(),
        (None, None) => word(&entry.mount),
    }
}

/// The name of a device's cable; a radio device has none, and what stands on header or leaf is plugged into the header.
fn cable(work: &OpeningWork, device: &DeviceWork) -> String {
    let entry = device.entry;
    if entry.link.or(Link::Wired) == Link::Wireless {
        return "radio".to_owned();
    }
    match entry.mount.get() {
        Some(DeviceMount::Header | DeviceMount::Leaf) => "harness".to_owned(),
        _ => format!("{}/{}", work.opening.mark, device.id),
    }
}
