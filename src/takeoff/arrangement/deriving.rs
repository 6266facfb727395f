//! What follows from the facts of an opening: hands, form, headers, drives, devices, boxes.
//!
//! In: leaves and device places as typed. Out: what stands there. May not know: sites, circuits, runs.

use super::{BoxFor, BoxWork, DeviceWork, DriveWork, Form, GroupWork, HeaderWork, LeafWork, room_of, side_of};
use crate::catalog::{Catalog, Operator};
use crate::engineering::{Edge, Room, header_place};
use crate::job::{DeviceMount, HeaderShare, Link, Opening};
use crate::measure::Length;
use crate::mechanics::header_hold;

/// The hand of each leaf: read from the outside; in a double egress from the side the leaf swings toward.
pub(super) fn hands(form: Form, leaves: &mut [LeafWork]) {
    for leaf in leaves {
        leaf.hand = leaf.hang().map(|hang| match form {
            Form::DoubleEgress => hang.hand_in_double_egress(),
            _ => hang.hand(Room::First),
        });
    }
}

/// Single, pair or double egress.
pub(super) fn form(leaves: &[LeafWork]) -> Form {
    match leaves {
        [] | [_] => Form::Single,
        [first, rest @ ..] => {
            let swing = first.entry.swing.get();
            if rest.iter().all(|leaf| leaf.entry.swing.get() == swing) { Form::Pair } else { Form::DoubleEgress }
        }
    }
}

/// Headers over the powered leaves.
pub(super) fn headers<'j>(
    opening: &'j Opening,
    leaves: &[LeafWork],
    operator: Option<&Operator>,
    catalog: &'j Catalog,
) -> Vec<HeaderWork<'j>> {
    let powered = leaves.iter().enumerate().filter(|(_, leaf)| leaf.powered);
    let powered: Vec<usize> = powered.map(|(at, _)| at).collect();
    if powered.is_empty() {
        return Vec::new();
    }
    let spans: Vec<(Vec<usize>, Vec<usize>)> = match opening.entry.headers.or(HeaderShare::One) {
        HeaderShare::One => vec![((0..leaves.len()).collect(), powered)],
        HeaderShare::PerLeaf => powered.into_iter().map(|at| (vec![at], vec![at])).collect(),
    };
    let each = spans.into_iter().enumerate();
    let mut headers: Vec<HeaderWork<'j>> =
        each.map(|(at, (spanned, drives))| header(at + 1, spanned, drives, leaves)).collect();
    let sides: Vec<_> = headers.iter().map(|header| header.side).collect();
    for (at, header) in headers.iter_mut().enumerate() {
        let beside =
            sides.iter().enumerate().any(|(other, side)| other != at && side.is_some() && *side == header.side);
        header.free_ends = if beside { 1 } else { 2 };
        let drives: Vec<_> = header.drives.iter().filter_map(|leaf| Some(leaves.get(*leaf)?.entry)).collect();
        header.hold = operator.map(|operator| header_hold(opening, &drives, operator, catalog));
    }
    headers
}

fn header(number: usize, spanned: Vec<usize>, drives: Vec<usize>, leaves: &[LeafWork]) -> HeaderWork<'static> {
    let place = |leaf: &LeafWork| Some(header_place(leaf.hang()?, leaf.operator_side()?));
    let first = drives.first().and_then(|at| place(leaves.get(*at)?));
    let supply_end = match drives.as_slice() {
        // One drive stands at the hinge of its leaf; power enters at the other end.
        [_] => first.map(|place| place.supply_end),
        // Two drives fill both ends; power enters at the left.
        _ => first.map(|_| Edge::Left),
    };
    let leaf_width = spanned
        .iter()
        .map(|at| leaves.get(*at)?.entry.width.get().copied())
        .try_fold(Length::ZERO, |sum, width| sum.checked_plus(width?));
    let side = first.map(|place| side_of(place.room));
    HeaderWork { number, leaves: spanned, drives, leaf_width, side, supply_end, free_ends: 2, hold: None }
}

/// One drive for each powered leaf, by header.
pub(super) fn drives(headers: &[HeaderWork], leaves: &[LeafWork]) -> Vec<DriveWork> {
    let each =
        headers.iter().enumerate().flat_map(|(at, header)| header.drives.iter().map(move |leaf| (at, header, *leaf)));
    let each = each.filter_map(|(at, header, leaf)| Some((at, header.side, leaf, leaves.get(leaf)?)));
    each.enumerate()
        .map(|(at, (header, side, leaf, moved))| DriveWork {
            number: at + 1,
            header,
            leaf,
            arm: moved.entry.arm.get().copied(),
            end: side.and_then(|side| Some(room_of(side).edge_of(moved.hang()?.hinges))),
        })
        .collect()
}

/// Places of devices, and the devices that are there by height; `heights` are those of plates by local amendment.
pub(super) fn devices<'j>(opening: &'j Opening, heights: &[Length]) -> (Vec<GroupWork<'j>>, Vec<DeviceWork<'j>>) {
    let mut groups = Vec::new();
    let mut devices = Vec::new();
    for (at, entry) in opening.entry.device.list().iter().enumerate() {
        let id = entry.id.get().map_or_else(|| format!("D{}", at + 1), |id| id.as_str().to_owned());
        let each = opening.heights_of(entry, heights);
        let count = each.len();
        for (number, height) in each.into_iter().enumerate() {
            let suffix = char::from(b'a' + number.min(25) as u8);
            let id = if count > 1 { format!("{id}{suffix}") } else { id.clone() };
            devices.push(DeviceWork { id, entry, height });
        }
        groups.push(GroupWork { id, entry, devices: count });
    }
    (groups, devices)
}

/// A box for each wired device on wall, post or desk, and for each header.
pub(super) fn boxes(headers: &[HeaderWork], devices: &[DeviceWork]) -> Vec<BoxWork> {
    let of_devices = devices.iter().enumerate().filter_map(|(at, device)| {
        let mount = device.entry.mount.get()?;
        let wired = device.entry.link.or(Link::Wired) == Link::Wired;
        let boxed = matches!(mount, DeviceMount::Wall | DeviceMount::Post | DeviceMount::Desk);
        (wired && boxed).then(|| BoxWork { of: BoxFor::Device(at), mount: mount.word(), volume: None })
    });
    let of_headers = (0..headers.len()).map(|at| BoxWork {
        of: BoxFor::Header(at),
        mount: DeviceMount::Header.word(),
        volume: None,
    });
    of_devices.chain(of_headers).collect()
}
