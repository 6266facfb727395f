//! The low-voltage side of an opening: what draws, what feeds it, and the cables between.
//!
//! In: items taken off. Out: supplies with their loads. May not know: findings.
//!
//! A supply that is taken off at an opening feeds its latch releases; the operator's own output feeds what is left, and all of it
//! where there is no supply (common practice, no source).

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::CheckContext;
use crate::catalog::{Electric, Gives, Group, Item, Wire};
use crate::engineering::{Conductor, Strands, SupplyLoad};
use crate::findings::Place;
use crate::measure::{Amps, Unit, Volts};
use crate::takeoff::{EntityRef, OpeningWork};

/// Something that draws low voltage.
pub(super) struct Load<'c> {
    /// The item.
    pub item: &'c Item,
    /// What it draws.
    pub electric: &'c Electric,
    /// What it was taken off for.
    pub of: EntityRef,
    /// Its amps, held and at the start.
    pub asks: SupplyLoad,
}

/// Something that feeds loads.
pub(super) struct Supply<'c> {
    /// What it is called.
    pub name: String,
    /// Where the catalog says what it gives.
    pub place: &'c Place,
    /// Its volts; none where an operator's output is not described.
    pub volts: Option<Volts>,
    /// Amps in all.
    pub amps: Amps,
    /// Outputs that are limited apart.
    pub outputs: u32,
    /// Starts its loads one after the other.
    pub staggered: bool,
    /// A class 2 source.
    pub class_two: bool,
    /// Effect.
    pub loads: Vec<Load<'c>>,
}

/// The supplies of an opening with their loads; those without a load are left out.
pub(super) fn supplies<'c>(seen: &CheckContext<'c, '_>, at: usize, work: &OpeningWork<'c>) -> Vec<Supply<'c>> {
    let items = seen.items_at(at);
    let loads = items.iter().flat_map(|(item, of, quantity)| {
        let count = quantity.value().ceil().to_usize().unwrap_or(0).min(MOST);
        (0..count).filter_map(|_| load(item, *of))
    });
    let (releases, others): (Vec<Load>, Vec<Load>) = loads.partition(|it| it.item.group == Group::LatchRelease);
    let mut found: Vec<Supply> =
        items.iter().filter_map(|(item, ..)| Some(supply(item, item.gives?))).take(1).collect();
    let own = work.operator.and_then(|operator| {
        let drives = Decimal::from(work.drives.len());
        let amps = operator.accessory_amps?.number_of(Unit::Ampere)?.checked_mul(drives)?;
        Some(Supply {
            name: format!("operator {}", operator.id),
            place: &operator.place,
            volts: operator.accessory_volts,
            amps: Amps::new(amps, Unit::Ampere)?,
            outputs: u32::try_from(work.drives.len()).unwrap_or(1),
            staggered: false,
            class_two: true,
            loads: Vec::new(),
        })
    });
    found.extend(own);
    if let Some(first) = found.first_mut() {
        first.loads.extend(releases);
    }
    if let Some(last) = found.last_mut() {
        last.loads.extend(others);
    }
    found.retain(|it| !it.loads.is_empty());
    found
}

/// More loads than this of one line are not looked at one by one.
const MOST: usize = 64;

fn load(item: &Item, of: EntityRef) -> Option<Load<'_>> {
    let draws =
        matches!(item.group, Group::LatchRelease | Group::Activation | Group::Sensor | Group::Receiver | Group::Relay);
    let electric = item.electric.as_ref().filter(|_| draws)?;
    let running = electric.amps?;
    Some(Load { item, electric, of, asks: SupplyLoad { running, inrush: electric.inrush.unwrap_or(running) } })
}

fn supply(item: &Item, gives: Gives) -> Supply<'_> {
    Supply {
        name: item.name.clone(),
        place: &item.place,
        volts: Some(gives.volts),
        amps: gives.amps,
        outputs: gives.outputs.max(1),
        staggered: gives.staggered,
        class_two: gives.class_two,
        loads: Vec::new(),
    }
}

/// Ohms of one conductor for 1,000 ft: by its maker where they are given, or by the published table.
fn ohms(wire: Wire) -> Option<Decimal> {
    let strands = if wire.solid { Strands::Solid } else { Strands::Stranded };
    wire.ohms().or_else(|| Some(Conductor::of_awg(wire.awg)?.ohms_per_thousand_feet(strands)))
}

/// Ohms out and back on the cables of a load: those on the runs of a device's way, or those taken off with the load itself.
/// Nothing where no cable with known wire is taken off.
pub(super) fn cable_ohms(seen: &CheckContext, load: &Load) -> Option<(Decimal, Decimal)> {
    let mut feet = Decimal::ZERO;
    let mut sum = Decimal::ZERO;
    let mut add = |length: Decimal, wire: Wire| -> Option<()> {
        feet = feet.checked_add(length)?;
        sum = sum.checked_add(
            Decimal::TWO.checked_mul(ohms(wire)?)?.checked_mul(length)?.checked_div(Decimal::ONE_THOUSAND)?,
        )?;
        Some(())
    };
    let wire_at = |of: EntityRef| {
        let cables = seen.items_of(of).into_iter().filter(|(item, ..)| item.group == Group::Cable);
        cables.filter_map(|(item, _, quantity)| Some((item.wire?, quantity))).next()
    };
    match load.of {
        EntityRef::Device(at, device) => {
            for (number, run) in seen.takeoff.runs_of_cable(at, device) {
                let (wire, _) = wire_at(EntityRef::Run(number))?;
                add(run.run.length.to_feet(), wire)?;
            }
        }
        of => {
            let (wire, quantity) = wire_at(of)?;
            add(quantity.number_of(Unit::Foot)?, wire)?;
        }
    }
    (sum > Decimal::ZERO).then_some((feet, sum))
}
