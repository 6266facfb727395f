//! Devices in an elevation: symbols, labels, and the drops of conduit that reach them.
//!
//! In: a view, devices. Out: parts on its board. May not know: runs; how a device is reached is told by it.

use super::board::Board;
use super::drawn::{DrawnDevice, DrawnOpening, Reached};
use super::elevation::View;
use super::pen::*;
use crate::job::{DeviceKind, DeviceMount};
use crate::shapes::{Extent, Point, Shape, at};

/// Half of a symbol, in points: symbols are not to scale.
const SYMBOL: f64 = 3.2;

/// A device where it is drawn.
pub(super) struct Placed<'a> {
    pub of: &'a DrawnDevice,
    /// The middle of its symbol.
    pub at: Point,
    /// Where its distance puts it along the wall, on paper.
    pub wanted: f64,
    /// Whether it stands where its distance says.
    pub in_place: bool,
}

/// The devices of a view's room whose height is known. Symbols that would meet stand beside each other.
pub(super) fn placed<'a>(view: &View<'a>) -> Vec<Placed<'a>> {
    let of: &'a DrawnOpening = view.of;
    let mut all: Vec<Placed<'a>> = Vec::new();
    for device in of.devices.iter().filter(|it| it.room == view.room && it.wall.is_none()) {
        let Some(height) = device.height else { continue };
        let (x, in_place) = of.device_x(device);
        let wanted = view.point(x, height.to_inches_f64());
        let middle = view.point(view.total / 2.0, 0.0).x;
        let outward = if wanted.x < middle { -1.0 } else { 1.0 };
        let mut center = wanted;
        let taken = |center: Point| {
            let own = Extent::around(center, SYMBOL + 0.8);
            all.iter().any(|other| Extent::around(other.at, SYMBOL).meets(&own))
        };
        while taken(center) {
            center.x += outward * SYMBOL;
        }
        all.push(Placed { of: device, at: center, wanted: wanted.x, in_place });
    }
    all
}

/// Draws symbols, drops and labels; false where a label finds no place.
pub(super) fn draw(view: &View, board: &mut Board, devices: &[Placed]) -> bool {
    for (rank, device) in devices.iter().enumerate() {
        let drop = drop(view, device, rank);
        if !drop.is_empty() {
            board.draw(format!("drop {}", device.of.id), drop);
        }
    }
    for device in devices {
        board.draw(format!("device {}", device.of.id), symbol(device.of.kind, device.at));
        board.take(Extent::around(device.at, SYMBOL));
    }
    devices.iter().all(|device| {
        let words = match (device.in_place, device.of.mount, device.of.distance) {
            (false, DeviceMount::Desk | DeviceMount::Post | DeviceMount::Wall, Some(distance)) => {
                format!("{} at {}", device.of.id, view.of.size(distance))
            }
            _ => device.of.id.clone(),
        };
        {
            // Toward the opening, away from where its height is told.
            let middle = view.point(view.total / 2.0, 0.0).x;
            let first = if device.at.x > middle { -1 } else { 1 };
            board.label(format!("label {}", device.of.id), (device.at, SYMBOL + 1.8), first, &words, true)
        }
    })
}

/// The way of a cable: up the wall to the level of the header, and along to its near end; to the floor from a desk or a post.
fn drop(view: &View, device: &Placed, rank: usize) -> Vec<Shape> {
    if device.of.reached != Reached::Cable {
        return Vec::new();
    }
    let dot = |center: Point| Shape::Fill {
        points: corners(center.x - 1.3, center.y - 1.3, center.x + 1.3, center.y + 1.3),
        gray: 0.0,
    };
    if matches!(device.of.mount, DeviceMount::Desk | DeviceMount::Post) {
        let foot = at(device.at.x, 0.0);
        return vec![line(&[at(device.at.x, device.at.y - SYMBOL), foot], DASHED), dot(foot)];
    }
    let Some(header) = view.of.header_over(device.of.leaf) else { return Vec::new() };
    let low = view.of.underside(header).to_inches_f64() * view.scale;
    let tall = header.height.to_inches_f64() * view.scale;
    let level = low + tall * (0.3 + 0.12 * (rank % 5) as f64);
    let corner = at(device.at.x, level);
    let start = if level > device.at.y { device.at.y + SYMBOL } else { device.at.y - SYMBOL };
    let up = [at(device.at.x, start), corner];
    if header.room != view.room {
        // The header hangs on the other side: the cable goes through the wall here.
        return vec![line(&up, DASHED), dot(corner)];
    }
    let (from, to) = view.of.header_ends(header);
    let (a, b) = (view.point(from, 0.0).x, view.point(to, 0.0).x);
    let near = if (corner.x - a).abs() < (corner.x - b).abs() { a } else { b };
    if corner.x > a.min(b) && corner.x < a.max(b) {
        return vec![line(&[up[0], at(corner.x, low)], DASHED)];
    }
    vec![line(&[up[0], corner, at(near, level)], DASHED)]
}

/// The symbol of a device about its center.
fn symbol(kind: DeviceKind, center: Point) -> Vec<Shape> {
    let (x, y, half) = (center.x, center.y, SYMBOL);
    let square = |fill: f64| {
        vec![
            filled(x - half, y - half, x + half, y + half, fill),
            rectangle(x - half, y - half, x + half, y + half, OUTLINE),
        ]
    };
    match kind {
        DeviceKind::Plate => square(0.7),
        DeviceKind::Bar => [square(1.0), vec![filled(x - 1.0, y - half, x + 1.0, y + half, 0.4)]].concat(),
        DeviceKind::Touchless => [square(1.0), vec![circle(center, half * 0.55, OUTLINE)]].concat(),
        DeviceKind::DeskButton => [square(1.0), vec![filled(x - 1.2, y - 1.2, x + 1.2, y + 1.2, 0.0)]].concat(),
        DeviceKind::KeySwitch => {
            [square(1.0), vec![line(&[at(x, y - half * 0.6), at(x, y + half * 0.6)], OUTLINE)]].concat()
        }
        DeviceKind::Reader => {
            [square(1.0), vec![line(&[at(x - half, y + half * 0.3), at(x + half, y + half * 0.3)], OUTLINE)]].concat()
        }
        DeviceKind::Keypad => {
            let rows = [-0.4, 0.0, 0.4]
                .map(|row| line(&[at(x - half * 0.5, y + half * row), at(x + half * 0.5, y + half * row)], OUTLINE));
            [square(1.0), rows.to_vec()].concat()
        }
        DeviceKind::LockButton => {
            [square(1.0), vec![circle(center, half * 0.7, OUTLINE), circle(center, half * 0.35, OUTLINE)]].concat()
        }
        DeviceKind::ExitSensor => {
            let points = vec![at(x - half, y - half), at(x + half, y - half), at(x, y + half)];
            vec![
                Shape::Fill { points: points.clone(), gray: 1.0 },
                Shape::Line { points, closed: true, stroke: OUTLINE },
            ]
        }
        DeviceKind::Motion | DeviceKind::Safety => {
            let points = vec![at(x - half, y + half), at(x + half, y + half), at(x, y - half)];
            let gray = if kind == DeviceKind::Safety { 0.5 } else { 1.0 };
            vec![Shape::Fill { points: points.clone(), gray }, Shape::Line { points, closed: true, stroke: OUTLINE }]
        }
    }
}

/// The devices of a view in words.
pub(super) fn in_words(view: &View) -> Vec<String> {
    let here = view.of.devices.iter().filter(|it| it.room == view.room && it.wall.is_none());
    let each = here.map(|it| {
        let high = it
            .height
            .map_or("at a height not known".to_owned(), |high| format!("{} above the floor", view.of.size(high)));
        let (kind, mount) = (it.kind, it.mount);
        format!("{}: {kind} on the {mount}, {high}.", it.id)
    });
    each.collect()
}
