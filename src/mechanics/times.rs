//! Times of a leaf: least times by its class, hold-open by its devices, the time that a person has.
//!
//! In: opening, leaf, operator. Out: times. May not know: findings.

use super::weight::leaf_weight;
use crate::catalog::{EnergyClass, Operator};
use crate::engineering::{LowEnergyTimes, OfferedTime, hold_open_of, low_energy_times};
use crate::job::{DeviceEntry, DeviceKind, LeafEntry, OpeningEntry};
use crate::measure::{Duration, Length};

/// Whether the leaf moves by the times of the low-energy standard.
pub fn is_low_energy(opening: &OpeningEntry) -> bool {
    matches!(opening.energy.get(), Some(EnergyClass::Low | EnergyClass::Assist))
}

/// The least times of a low-energy leaf; nothing for full energy, or where width or weight is not known.
pub fn leaf_times(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<LowEnergyTimes> {
    let back_check = operator.mechanics.as_ref().and_then(|it| it.back_check);
    is_low_energy(opening).then(|| low_energy_times(*leaf.width.get()?, leaf_weight(leaf)?.weight, back_check))?
}

/// Devices that open a leaf, counted from 1, and whose distance from it is known.
fn opening_devices(opening: &OpeningEntry, number: usize) -> impl Iterator<Item = (&DeviceEntry, Length)> {
    let acts = opening.device.list().iter().filter(|it| it.kind.get() != Some(&DeviceKind::Safety));
    let its = acts.filter(move |it| it.leaf.get().is_none_or(|leaf| usize::try_from(leaf.get()) == Ok(number)));
    its.filter_map(|it| Some((it, *it.distance.get()?)))
}

/// The hold-open that the farthest live device of a leaf asks for; nothing for full energy, where presence holds it.
pub fn hold_open_asked(opening: &OpeningEntry, number: usize) -> Option<Duration> {
    is_low_energy(opening).then(|| hold_open_of(opening_devices(opening, number).map(|it| it.1)))?
}

/// The device of a leaf whose way asks for the most time, with the time offered and asked.
pub fn time_offered<'o>(
    opening: &'o OpeningEntry,
    leaf: &LeafEntry,
    number: usize,
    operator: &Operator,
) -> Option<(&'o DeviceEntry, OfferedTime)> {
    let times = leaf_times(opening, leaf, operator)?;
    let hold = hold_open_asked(opening, number)?;
    let width = *leaf.width.get()?;
    let each = opening_devices(opening, number).filter_map(|(device, distance)| {
        let way = device.walk.get().copied().unwrap_or(distance + width);
        Some((device, OfferedTime::of(times.opening.least, hold, way)?))
    });
    each.max_by_key(|it| it.1.asked)
}
