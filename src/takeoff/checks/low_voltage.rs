//! The low-voltage side of an opening: what draws, what feeds it, and the cables between.
//!
//! In: items taken off, electric hardware that is there. Out: supplies with their loads. May not know: findings.
//!
//! A supply that is taken off at an opening feeds the groups that it names, or the latch releases, those that are there and take our
//! power among them; the operator's own output feeds what is left, and all of it where there is no supply (common practice, no source).

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::CheckContext;
use crate::catalog::{Gives, Group, Item, Wire};
use crate::engineering::{Conductor, Strands, SupplyLoad};
use crate::findings::Place;
use crate::job::{ExistingEntry, FedBy};
use crate::measure::{Amps, Unit, Volts};
use crate::takeoff::{EntityRef, OpeningWork};

/// Something that draws low voltage.
pub(super) struct Load<'c> {
    /// What it is called.
    pub name: &'c str,
    /// Where its values are typed.
    pub place: &'c Place,
    /// The item; none of hardware that is there.
    pub item: Option<&'c Item>,
    /// Its group.
    pub group: Group,
    /// Volts it works with.
    pub volts: Option<Volts>,
    /// The fewest volts it works with.
    pub least_volts: Option<Volts>,
    /// Whether it takes the same power whatever its voltage.
    pub constant_power: bool,
    /// What it stands for.
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
    let bought = items.iter().flat_map(|(item, of, quantity)| {
        let count = quantity.value().ceil().to_usize().unwrap_or(0).min(MOST);
        (0..count).filter_map(|_| load(item, *of))
    });
    let loads: Vec<Load> = bought.chain(there(at, work)).collect();
    let giving = items.iter().filter_map(|(item, ..)| Some((supply(item, item.gives.as_ref()?), item.gives.as_ref()?)));
    let mut found: Vec<(Supply, Option<&Gives>)> = Vec::new();
    for (supply, gives) in giving {
        // Of several that feed the same, as for two leaves, the first is calculated with all of it.
        if !found.iter().any(|(_, known)| known.is_some_and(|known| known.feeds == gives.feeds)) {
            found.push((supply, Some(gives)));
        }
    }
    found.extend(own(work).map(|supply| (supply, None)));
    for load in loads {
        let named = found.iter().position(|(_, gives)| gives.is_some_and(|gives| gives.feeds_group(load.group)));
        // What no supply names is fed by the operator, which stands last.
        let at = named.or_else(|| found.len().checked_sub(1));
        if let Some((supply, _)) = at.and_then(|at| found.get_mut(at)) {
            supply.loads.push(load);
        }
    }
    found.into_iter().map(|(supply, _)| supply).filter(|it| !it.loads.is_empty()).collect()
}

/// The operator's own output.
fn own<'c>(work: &OpeningWork<'c>) -> Option<Supply<'c>> {
    let operator = work.operator?;
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
}

/// More loads than this of one line are not looked at one by one.
const MOST: usize = 64;

fn load(item: &Item, of: EntityRef) -> Option<Load<'_>> {
    let draws =
        matches!(item.group, Group::LatchRelease | Group::Activation | Group::Sensor | Group::Receiver | Group::Relay);
    let electric = item.electric.as_ref().filter(|_| draws)?;
    let running = electric.amps?;
    Some(Load {
        name: &item.name,
        place: &item.place,
        item: Some(item),
        group: item.group,
        volts: electric.volts,
        least_volts: electric.least_volts,
        constant_power: electric.constant_power,
        of,
        asks: SupplyLoad { running, inrush: electric.inrush.unwrap_or(running) },
    })
}

/// Releases of an opening that are there, stay, and take our power.
fn there<'c>(at: usize, work: &OpeningWork<'c>) -> impl Iterator<Item = Load<'c>> {
    work.leaves.iter().enumerate().flat_map(move |(leaf, of)| {
        let entry = of.entry;
        entry.existing.list().iter().filter_map(move |it| existing(EntityRef::Leaf(at, leaf), it))
    })
}

fn existing(of: EntityRef, it: &ExistingEntry) -> Option<Load<'_>> {
    let ours = it.is_release_that_stays() && it.fed_by.get() == Some(&FedBy::Ours);
    let what = it.what.given().filter(|_| ours)?;
    let running = it.amps.cloned()?;
    Some(Load {
        name: what.value.word(),
        place: &what.place,
        item: None,
        group: Group::LatchRelease,
        volts: it.volts.cloned(),
        least_volts: None,
        constant_power: false,
        of,
        asks: SupplyLoad { running, inrush: it.inrush.cloned().unwrap_or(running) },
    })
}

fn supply<'c>(item: &'c Item, gives: &Gives) -> Supply<'c> {
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
