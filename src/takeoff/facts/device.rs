//! Facts of devices, their places and boxes.
//!
//! In: devices, groups and boxes of the arrangement. Out: writers of their facts. May not know: rules.

use crate::job::*;
use crate::ledger::Reason;
use crate::measure::{Quantity, Unit};
use crate::takeoff::arrangement::{BoxFor, BoxWork, DeviceWork, GroupWork, OpeningWork};
use crate::takeoff::fact_set::FactSetWriter;

/// Facts of a device.
pub(in crate::takeoff) fn device(of: Option<(&DeviceWork, &str)>) -> FactSetWriter {
    let mut writer = FactSetWriter::new("device", of.map(|(it, mark)| format!("device {mark}/{}", it.id)));
    let typed = of.map(|(it, _)| it.entry);
    device_words(&mut writer, OF_DEVICE, typed);
    let place = typed.and_then(|it| it.written_at.as_ref());
    let height = of.and_then(|(it, _)| it.height).zip(place);
    writer.catalog("device.height", Unit::Inch, "height of its center", height);
    writer.slot("device.distance", Unit::Inch, "distance from the leaf's edge", typed.map(|it| &it.distance));
    writer
}

/// Facts of a device group.
pub(in crate::takeoff) fn group(of: Option<(&GroupWork, &str)>) -> FactSetWriter {
    let about = of.map(|(it, mark)| format!("device group {mark}/{}", it.id));
    let mut writer = FactSetWriter::new("device group", about);
    device_words(&mut writer, OF_GROUP, of.map(|(it, _)| it.entry));
    writer.counted("group.devices", "devices it makes", of.map(|(it, _)| it.devices));
    let post = of.map(|(it, _)| it.entry.mount.get() == Some(&DeviceMount::Post) && it.entry.post.is_absent());
    writer.flag("group.own_post", "whether it is on a post that no device before it is on", post);
    writer
}

/// Names of the facts of a device that its group has too: kind, side, link, mount, live, ours.
type Names = [&'static str; 6];

const OF_DEVICE: Names = ["device.kind", "device.side", "device.link", "device.mount", "device.live", "device.ours"];
const OF_GROUP: Names = ["group.kind", "group.side", "group.link", "group.mount", "group.live", "group.ours"];

fn device_words(writer: &mut FactSetWriter, [kind, side, link, mount, live, ours]: Names, typed: Option<&DeviceEntry>) {
    writer.vocabulary(kind, "what it is", typed.and_then(|it| it.kind.cloned()));
    writer.vocabulary(side, "side it is on", typed.and_then(|it| it.side.cloned()));
    writer.vocabulary(link, "how it reaches the operator", typed.map(|it| it.link.or(Link::Wired)));
    writer.vocabulary(mount, "what it is fixed to", typed.and_then(|it| it.mount.cloned()));
    writer.vocabulary(live, "when it works", typed.map(|it| it.live.or(Live::Always)));
    writer.flag(ours, "whether we furnish it", typed.map(|it| it.by.is_absent()));
}

/// Facts of a box.
pub(in crate::takeoff) fn outlet(of: Option<(&BoxWork, &OpeningWork)>) -> FactSetWriter {
    let about = of.map(|(it, opening)| it.name(opening));
    let mut writer = FactSetWriter::new("box", about);
    let header = of.map(|(it, _)| matches!(it.of, BoxFor::Header(_)));
    let pick = |yes: &'static str, no: &'static str| header.map(|header| if header { yes } else { no });
    writer.word("box.for", &["device", "header"], "what it is for", pick("header", "device"));
    writer.word("box.class", &["line", "low"], "what is in it", pick("line", "low"));
    let volume = of.and_then(|(it, _)| it.volume).and_then(|it| Quantity::in_units(it, Unit::CubicInch).ok());
    let volume = volume.map(|it| (it, Reason::Clause("NEC 314.16(B), grounds by the edition of the job".into())));
    writer.number("box.volume", Unit::CubicInch, "volume that its line conductors need", volume);
    let mounts: Vec<&str> = DeviceMount::ALL.iter().map(|it| it.word()).collect();
    writer.word("box.mount", &mounts, "what it is fixed to", of.map(|(it, _)| it.mount));
    writer.vocabulary("box.side", "side of the opening it is on", of.and_then(|(it, opening)| it.side(opening)));
    let device = of.and_then(|(it, opening)| it.device(opening));
    let height = device.and_then(|it| it.height.zip(it.entry.written_at.as_ref()));
    writer.catalog("box.height", Unit::Inch, "height of its device's center", height);
    writer.flag("box.wet", "whether it is outdoors", of.and_then(|(it, opening)| it.wet(opening)));
    writer
}
