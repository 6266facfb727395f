//! Which facts each entity has, and their values: one function an entity, for sheet and values alike.
//!
//! In: entities of the arrangement. Out: writers of sheets and fact sets. May not know: which rules ask.

mod device;
mod fixing;
mod header;
mod leaf;
mod opening;
mod power;
mod whole;

pub(super) use device::{device, group, outlet};
pub(super) use fixing::fixing;
pub use header::edge_word;
pub(super) use header::{drive, header};
pub(super) use leaf::leaf;
pub(super) use opening::{opening, operator};
pub(super) use power::{circuit, panel, run};
pub(super) use whole::{VisitLoad, job, site, visit};

use super::fact_set::FactSetWriter;
use crate::findings::Place;
use crate::input::{Count, Slot};
use crate::ledger::Reason;
use crate::measure::Quantity;

/// A writer of each kind of entity that there is, with its sheet.
pub(super) fn empty() -> [FactSetWriter; 15] {
    [
        job(None),
        site(None),
        visit(None, ""),
        panel(None),
        circuit(None),
        run(None),
        opening(None),
        operator(None),
        leaf(None),
        header(None),
        drive(None),
        device(None),
        group(None),
        outlet(None),
        fixing(None),
    ]
}

fn entry(place: &Place) -> Reason {
    Reason::Entry { place: place.clone(), standing: String::new() }
}

fn count(value: u32, place: &Place) -> (Quantity, Reason) {
    (Quantity::count(value), entry(place))
}

fn slot_count(slot: &Slot<Count>) -> Option<(Quantity, Reason)> {
    slot.given().map(|given| count(given.value.get(), &given.place))
}
