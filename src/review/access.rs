//! What several checks of accessibility ask of an opening.
//!
//! In: an opening as checks see it. Out: which devices a hand works, and whether a leaf must be opened by hand.
//! May not know: any limit.

use super::contexts::OpeningContext;
use super::editions::CitedClause;
use crate::catalog::ClauseOf;
use crate::job::{DeviceEntry, EnergyClass, Link};

/// The clause that asks for floor to maneuver, and why: a power-assisted leaf always, an automatic one on an accessible way
/// out that has no standby power (ADA 2010 404.3.2, read; California 11B-404.3.2, secondary).
pub(super) fn maneuver_asked<'j>(opening: &OpeningContext<'j>) -> Option<(CitedClause<'j>, &'static str)> {
    let asked = opening.first_asked(ClauseOf::Maneuvering).filter(|_| opening.is_powered())?;
    let entry = &opening.opening.entry;
    let access = entry.access.get();
    let way_out = access.is_some_and(|it| it.egress.or(false) && !it.standby_power.or(false));
    match entry.energy.get()? {
        EnergyClass::Assist => Some((asked, "a power-assisted leaf is pushed by hand")),
        _ if way_out => Some((asked, "an egress door without standby power is opened by hand in an outage")),
        _ => None,
    }
}

/// Whether a person works a device by hand.
pub(super) fn worked_by_hand(device: &DeviceEntry) -> bool {
    let kind = device.kind.get();
    kind.is_some_and(|kind| !kind.is_sensor())
}

/// Whether an opening is powered and has a device that a hand works.
pub(super) fn has_hand_device(opening: &OpeningContext) -> bool {
    opening.is_powered() && opening.opening.entry.device.list().iter().any(worked_by_hand)
}

/// Whether a device has a cable.
pub(super) fn wired(device: &DeviceEntry) -> bool {
    device.link.or(Link::Wired) == Link::Wired
}

/// What a device is called, such as `push plate P1`.
pub(super) fn device_words(device: &DeviceEntry) -> String {
    let kind = device.kind.get().map_or("device", |kind| kind.word());
    device.id.get().map_or_else(|| kind.to_owned(), |id| format!("{kind} {id}"))
}
