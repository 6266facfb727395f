//! What a branch circuit carries: its drives, what else is taken off at its openings and plugs into it, and what it feeds today.
//!
//! In: a takeoff, the catalog. Out: loads of a circuit with their amps. May not know: breakers, findings.
//!
//! What is taken off at an opening and takes line voltage, such as a supply, is on the circuit of the opening's first header, where
//! that gives its volts (common practice, no source).

use rust_decimal::Decimal;

use super::{CircuitWork, Takeoff};
use crate::catalog::{Catalog, Electric, Group, Item};
use crate::engineering::same_nominal;
use crate::measure::{Amps, Unit, Volts};

/// Something on a circuit beside its drives.
pub struct Accessory<'c> {
    /// The item.
    pub item: &'c Item,
    /// The opening at which it is taken off, by position.
    pub opening: usize,
    /// How many.
    pub count: Decimal,
    /// Amps of all of them.
    pub amps: Amps,
}

/// Whether an item is the drive itself, whose amps are the operator's.
pub(super) fn is_drive(item: &Item) -> bool {
    matches!(item.group, Group::Drive | Group::Header)
}

/// Whether an item works on a circuit of so many volts: its own by name, or any within its range.
pub(super) fn takes(electric: &Electric, circuit: Volts) -> bool {
    let Some(volts) = electric.volts else { return true };
    let within = electric.up_to_volts.is_some_and(|most| volts <= circuit && circuit <= most);
    within || same_nominal(volts, circuit)
}

impl Takeoff<'_> {
    /// What is on a circuit beside its drives, in the order of openings and lines.
    pub fn accessories_on<'c>(&self, circuit: &CircuitWork, catalog: &'c Catalog) -> Vec<Accessory<'c>> {
        let first = circuit.headers.iter().filter(|(_, header)| *header == 0).map(|(opening, _)| *opening);
        // With a circuit for each drive the first header is on two: the first of them carries the rest.
        let mine = first.filter(|opening| {
            let feeding = self.arrangement.circuits.iter().find(|it| it.headers.contains(&(*opening, 0)));
            feeding.is_some_and(|it| std::ptr::eq(it, circuit))
        });
        let mut openings: Vec<usize> = mine.collect();
        openings.dedup();
        let at = |opening: usize| {
            self.lines_at(opening).filter_map(move |line| {
                let item = catalog.items.get(&*line.item)?;
                let count = self.ledger.value(line.quantity).value();
                let electric = item
                    .electric
                    .as_ref()
                    .filter(|it| !is_drive(item) && circuit.volts.is_none_or(|volts| takes(it, volts)))?;
                let amps = electric.line_amps()?.number_of(Unit::Ampere)?.checked_mul(count)?;
                Some(Accessory { item, opening, count, amps: Amps::new(amps, Unit::Ampere)? })
            })
        };
        openings.into_iter().flat_map(at).collect()
    }

    /// Amps of everything on a circuit: drives, accessories, and what it feeds today. None where a part is not known.
    pub fn amps_on(&self, circuit: &CircuitWork, catalog: &Catalog) -> Option<Amps> {
        let there = match &circuit.existing {
            Some(there) => there.amps?.number_of(Unit::Ampere)?,
            None => Decimal::ZERO,
        };
        let mut sum = circuit.amps?.number_of(Unit::Ampere)?.checked_add(there)?;
        for accessory in self.accessories_on(circuit, catalog) {
            sum = sum.checked_add(accessory.amps.number_of(Unit::Ampere)?)?;
        }
        Amps::new(sum, Unit::Ampere)
    }
}
