//! Floor in a plan: room to maneuver, clear floor at devices, the way to the other door of a vestibule.
//!
//! In: a plan. Out: parts on its board, and stretches to be measured. May not know: which clause asks for them.

use super::board::Board;
use super::dimension::Span;
use super::drawn::{DrawnClearance, DrawnDevice, DrawnOpening};
use super::pen::*;
use super::swing_plan::PlanView;
use crate::engineering::Room;
use crate::job::DeviceMount;
use crate::shapes::{Extent, Stroke, at};

/// Floor that must be free.
const FREE: Stroke = Stroke { width: 0.35, gray: 0.25, dash: Some((1.2, 1.6)) };
/// Half of a device's symbol, in points.
const SYMBOL: f64 = 2.4;
/// How much farther from the wall than its symbol a device's label stands, in points.
const OFF_THE_WALL: f64 = 1.6;

/// How far anything of the floor reaches along the wall, in inches.
pub(super) fn reach(view: &PlanView) -> (f64, f64) {
    let of = view.of;
    let clear = of.clearances.iter().map(|it| along(of, it));
    let devices = shown(of).map(|it| of.device_x(it).0).map(|x| (x - 6.0, x + 6.0));
    clear.chain(devices).fold((0.0, view.total), |all, it| (all.0.min(it.0), all.1.max(it.1)))
}

/// The stretch of a clearance along the wall: the leaf, and so much beyond its latch edge.
fn along(of: &DrawnOpening, clearance: &DrawnClearance) -> (f64, f64) {
    let (hinge, latch) = of.edges(clearance.leaf);
    let end = latch + (latch - hinge).signum() * clearance.asked.beyond.to_inches_f64();
    (hinge.min(end), hinge.max(end))
}

/// Devices that a plan shows: those on the door's wall, jambs and posts. What stands on header or leaf is on the elevation, and a desk is
/// wherever it is.
fn shown(of: &DrawnOpening) -> impl Iterator<Item = &DrawnDevice> {
    let here = of.devices.iter().filter(|it| it.wall.is_none());
    here.filter(|it| matches!(it.mount, DeviceMount::Wall | DeviceMount::Jamb | DeviceMount::Post))
}

/// Whether a person stands before a device to use it.
fn is_used(device: &DrawnDevice) -> bool {
    !device.kind.is_sensor() && device.mount != DeviceMount::Jamb
}

impl DrawnOpening {
    /// Whether a plan shows floor that must be free.
    pub fn asks_for_floor(&self) -> bool {
        !self.clearances.is_empty() || self.floor_space.is_some() && shown(self).any(is_used)
    }
}

/// Draws clearances, floor at devices and devices.
pub(super) fn draw(view: &PlanView, board: &mut Board) {
    let of = view.of;
    for clearance in &of.clearances {
        let (from, to) = along(of, clearance);
        let sign = clearance.room.sign() as f64;
        let far = view.half + clearance.asked.deep.to_inches_f64();
        let (a, b) = (view.point(from, sign * view.half), view.point(to, sign * far));
        let name = format!("maneuvering {}", DrawnOpening::side_word(clearance.room));
        board.draw(name, vec![rectangle(a.x, a.y.min(b.y), b.x, a.y.max(b.y), FREE)]);
    }
    for device in shown(of) {
        let x = of.device_x(device).0;
        let sign = device.room.sign() as f64;
        if let Some((wide, deep)) = of.floor_space.filter(|_| is_used(device)) {
            let half = wide.to_inches_f64() / 2.0;
            let far = sign * (view.half + deep.to_inches_f64());
            let (a, b) = (view.point(x - half, sign * view.half), view.point(x + half, far));
            board.draw(format!("floor at {}", device.id), vec![rectangle(a.x, a.y.min(b.y), b.x, a.y.max(b.y), FREE)]);
        }
    }
    for device in shown(of) {
        let center = spot(view, device);
        let symbol = [
            filled(center.x - SYMBOL, center.y - SYMBOL, center.x + SYMBOL, center.y + SYMBOL, 0.6),
            rectangle(center.x - SYMBOL, center.y - SYMBOL, center.x + SYMBOL, center.y + SYMBOL, OUTLINE),
        ];
        board.draw(format!("device {}", device.id), symbol.to_vec());
        board.take(Extent::around(center, SYMBOL));
    }
    vestibule(view, board);
}

/// The middle of a device's symbol, before the face of its wall.
fn spot(view: &PlanView, device: &DrawnDevice) -> crate::shapes::Point {
    let sign = device.room.sign() as f64;
    let face = view.point(view.of.device_x(device).0, sign * view.half);
    at(face.x, face.y + sign * (SYMBOL + 0.5))
}

/// Whether the symbol of a device stands in a place.
pub(super) fn stands_in(view: &PlanView, place: &Extent) -> bool {
    shown(view.of).any(|device| Extent::around(spot(view, device), SYMBOL).meets(place))
}

/// Labels of devices: those of one spot together, a little off the wall, whose line their ground would cut.
pub(super) fn label(view: &PlanView, board: &mut Board) -> bool {
    let mut spots: Vec<(Extent, crate::shapes::Point, String)> = Vec::new();
    for device in shown(view.of) {
        let center = spot(view, device);
        let off = at(center.x, center.y + device.room.sign() as f64 * OFF_THE_WALL);
        let own = Extent::around(center, SYMBOL);
        match spots.iter_mut().find(|(taken, ..)| taken.meets(&own)) {
            Some((_, _, words)) => *words = format!("{words}, {}", device.id),
            None => spots.push((own, off, device.id.clone())),
        }
    }
    spots
        .into_iter()
        .all(|(_, center, words)| board.label(format!("label {words}"), (center, SYMBOL + 1.5), 1, &words, false))
}

/// An arrow to the other door of a vestibule, and how far it is.
fn vestibule(view: &PlanView, board: &mut Board) {
    let Some((room, partner, distance)) = &view.of.vestibule else { return };
    let Some(all) = board.extent() else { return };
    let sign = room.sign() as f64;
    let edge = if *room == Room::First { all.bottom } else { all.top };
    let x = view.total * view.scale / 2.0;
    let size = board.text;
    let tip = at(x, edge + sign * 14.0);
    board.draw("vestibule", vec![line(&[at(x, edge + sign * 1.0), tip], THIN), arrow(tip, 0.0, sign)]);
    board.take(Extent { left: x - 2.0, right: x + 2.0, bottom: tip.y.min(edge), top: tip.y.max(edge) });
    let words = format!("to {partner}: {} clear, both closed", view.of.size(*distance));
    let beside = at(x + 5.0, edge + sign * 7.0 - size * 0.27);
    board.write("figure vestibule", text(beside, words, size, crate::shapes::Anchor::Start));
}

/// Depths of the floor: of clearances, and of the floor at devices.
pub(super) fn depths(view: &PlanView) -> Vec<Span> {
    let of = view.of;
    let clear = of.clearances.iter().map(|it| {
        let name = format!("depth of maneuvering {}", DrawnOpening::side_word(it.room));
        (name, it.room, it.asked.deep, along(of, it).1 * view.scale)
    });
    let mut reported: Vec<Room> = Vec::new();
    let floors: Vec<_> = shown(of)
        .filter(|it| is_used(it))
        .filter_map(|it| {
            let (wide, deep) = of.floor_space?;
            if reported.contains(&it.room) {
                return None;
            }
            reported.push(it.room);
            let right = (of.device_x(it).0 + wide.to_inches_f64() / 2.0) * view.scale;
            Some((format!("depth of floor {}", DrawnOpening::side_word(it.room)), it.room, deep, right))
        })
        .collect();
    let each = clear.chain(floors).map(|(name, room, deep, near)| {
        let (a, b) = (view.half * view.scale, (view.half + deep.to_inches_f64()) * view.scale);
        let (from, to) = if room == Room::First { (-b, -a) } else { (a, b) };
        Span { name, from, to, near: (near, near), figure: of.short(deep) }
    });
    each.collect()
}

/// Widths below and above the plan: clear width of leaves, floor beyond the latch edge and at devices.
pub(super) fn widths(view: &PlanView) -> (Vec<Span>, Vec<Span>) {
    let of = view.of;
    let mut sides = (Vec::new(), Vec::new());
    let each = clear_widths(view).into_iter().chain(floor_widths(view));
    each.for_each(|(room, span)| if room == Room::First { sides.0.push(span) } else { sides.1.push(span) });
    for clearance in &of.clearances {
        if clearance.asked.beyond == crate::measure::Length::ZERO {
            continue;
        }
        let latch = of.edges(clearance.leaf).1 * view.scale;
        let (low, high) = along(of, clearance);
        let (hinge, edge) = of.edges(clearance.leaf);
        let end = if edge > hinge { high } else { low };
        let far = clearance.room.sign() as f64 * (view.half + clearance.asked.deep.to_inches_f64()) * view.scale;
        let end = end * view.scale;
        let span = Span {
            name: format!("width beyond {}", DrawnOpening::side_word(clearance.room)),
            from: latch.min(end),
            to: latch.max(end),
            near: (far, far),
            figure: of.short(clearance.asked.beyond),
        };
        if clearance.room == Room::First { sides.0.push(span) } else { sides.1.push(span) }
    }
    sides
}

/// The clear width of each leaf that has one, on the side into which it swings: from its latch edge as far as it is clear.
fn clear_widths(view: &PlanView) -> Vec<(Room, Span)> {
    let of = view.of;
    let each = of.leaves.iter().enumerate().filter_map(|(number, leaf)| {
        let clear = leaf.clear?;
        let (hinge, latch) = of.edges(number);
        let end = latch + (hinge - latch).signum() * clear.to_inches_f64();
        let room = leaf.hang.into;
        let far = room.sign() as f64 * (view.half + leaf.width.to_inches_f64()) * view.scale;
        let near = room.sign() as f64 * view.half * view.scale;
        let (latch, end) = (latch * view.scale, end * view.scale);
        let span = Span {
            name: format!("clear width of leaf {}", number + 1),
            from: latch.min(end),
            to: latch.max(end),
            near: if latch < end { (near, far) } else { (far, near) },
            figure: format!("{} clear at 90°", of.short(clear)),
        };
        Some((room, span))
    });
    each.collect()
}

/// The width of the clear floor at devices, once a room, at the first device whose depth is told too.
fn floor_widths(view: &PlanView) -> Vec<(Room, Span)> {
    let of = view.of;
    let Some((wide, deep)) = of.floor_space else { return Vec::new() };
    let each = Room::ALL.into_iter().filter_map(|room| {
        let device = shown(of).find(|it| it.room == room && is_used(it))?;
        let (x, half) = (of.device_x(device).0, wide.to_inches_f64() / 2.0);
        let far = room.sign() as f64 * (view.half + deep.to_inches_f64()) * view.scale;
        let span = Span {
            name: format!("width of floor {}", DrawnOpening::side_word(room)),
            from: (x - half) * view.scale,
            to: (x + half) * view.scale,
            near: (far, far),
            figure: of.short(wide),
        };
        Some((room, span))
    });
    each.collect()
}

/// The floor in words.
pub(super) fn in_words(of: &DrawnOpening) -> Vec<String> {
    let clear = of.clearances.iter().map(|it| {
        let (deep, beyond) = (of.short(it.asked.deep), of.short(it.asked.beyond));
        format!("Maneuvering clearance in {}: {deep} deep, {beyond} beyond the latch edge.", of.room(it.room))
    });
    let way = of.vestibule.iter().map(|(room, partner, distance)| {
        format!("From {}: {} clear to {partner}, both closed.", of.room(*room), of.size(*distance))
    });
    let wide = of.leaves.iter().enumerate().filter_map(|(number, leaf)| {
        Some(format!("Leaf {}: about {} clear width at 90 degrees.", number + 1, of.short(leaf.clear?)))
    });
    clear.chain(way).chain(wide).collect()
}
