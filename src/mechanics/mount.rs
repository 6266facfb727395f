//! How a header is held: its loads, the fasteners of the catalog for what is behind it, a plate where they do not hold.
//!
//! In: opening, leaf, operator, fasteners. Out: patterns and plates, or why nothing was calculated. May not know: findings.

use rust_decimal::Decimal;

use super::air::pushed;
use super::arms::{open_angle, swept};
use super::kept::Kept;
use crate::catalog::{BackData, Catalog, FastenerSort, HeaderFastener, Mount, Operator, Substrate};
use crate::engineering::{
    ArmOnHeader, Fastener, HeaderLoads, HeaderMount, Landing, Pattern, Spread, Strength, hangs_below_head,
    plate_length, stud_sheet, wind_pressure,
};
use crate::job::{FrameEntry, HeaderShare, LeafEntry, Opening, OpeningEntry, StoppedBy};
use crate::measure::{Length, Measure, Quantity, Torque, Unit, Weight};

/// Spacing of studs where nobody measured it, 16 in (common practice, no source).
const STUD_SPACING: Length = Length::inches(16);
/// The most fasteners that are tried.
const MOST: u32 = 40;

/// How a header is held.
#[derive(Clone, Debug)]
pub struct Mounting<'c> {
    /// The fastener of the catalog for what is behind the header; none where it has none.
    pub fastener: Option<&'c HeaderFastener>,
    /// What came of it.
    pub result: Result<Calculated, NotCalculated>,
}

/// What came of calculation.
#[derive(Clone, Debug)]
pub struct Calculated {
    /// The strength of one fastener.
    pub strength: Strength,
    /// The operator's own number of screws.
    pub spread: Spread,
    /// They, as they land; nothing where fewer than two columns do.
    pub own: Option<Pattern>,
    /// The least pattern that holds, or the most that was tried; nothing where fewer than two columns land.
    pub least: Option<Pattern>,
    /// A plate, where fasteners without one do not hold.
    pub plate: Option<PlateAdvice>,
}

/// A reinforcement plate.
#[derive(Clone, Debug)]
pub struct PlateAdvice {
    /// Its length.
    pub length: Length,
    /// How it is held to the studs.
    pub held: Pattern,
}

/// Why nothing was calculated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotCalculated {
    /// No public value holds: the fastener's own report is looked up.
    ByReport,
    /// The thickness of the studs is not known.
    StudsUnknown,
    /// The catalog has no fastener for it.
    NoFastener,
    /// The fastener's dimensions are not all given.
    NoData,
    /// The studs stand so far apart that fewer than two are sure to be behind a plate.
    StudsApart,
    /// The header hangs below the head of the frame, on a drop plate: its own screws go into that, and how far above them the
    /// plate is held is the plate's own affair.
    Dropped(Spread),
}

/// How the header over a leaf is held; nothing where the operator's data, the arm or the substrate is not known.
pub fn mounting<'c>(
    opening: &Opening,
    leaf: &LeafEntry,
    operator: &Operator,
    catalog: &'c Catalog,
) -> Option<Mounting<'c>> {
    let back = operator.mechanics.as_ref()?.back.as_ref()?;
    let frame = opening.entry.frame.get()?;
    let substrate = *frame.fixed_to.get().filter(|it| **it != Substrate::Unknown)?;
    let mount = mount(opening, leaf, operator, back)?;
    let fastener = catalog.fasteners.iter().find(|it| it.into == substrate);
    if is_dropped(opening, operator) {
        return Some(Mounting { fastener, result: Err(NotCalculated::Dropped(mount.spread(operator.header_screws))) });
    }
    let loads = loads(&opening.entry, leaf, operator)?;
    let Some(fastener) = fastener else {
        return Some(Mounting { fastener: None, result: Err(NotCalculated::NoFastener) });
    };
    let result = match strength(fastener, frame, back) {
        Ok(strength) => {
            let asked =
                Asked { mount, loads, strength, landing: landing(substrate, frame), own: operator.header_screws };
            CALCULATED.of(asked.with_scales(), |(asked, _)| calculate(asked))?
        }
        Err(why) => Err(why),
    };
    Some(Mounting { fastener: Some(fastener), result })
}

/// Whether the header of an operator hangs below the head of the frame, by its height as measured.
fn is_dropped(opening: &Opening, operator: &Operator) -> bool {
    let under = opening.entry.access.get().and_then(|access| access.under_header.cloned());
    let head = opening.leaves.iter().filter_map(|leaf| leaf.height.cloned()).max();
    let shown = opening.entry.mount.get() != Some(&Mount::Concealed);
    under.zip(head).is_some_and(|(under, head)| shown && hangs_below_head(under, operator.height, head))
}

/// The spacing of the studs beside a frame, as measured, or the usual one.
pub fn stud_spacing(frame: &FrameEntry) -> Length {
    frame.stud_spacing.get().copied().unwrap_or(STUD_SPACING)
}

fn landing(substrate: Substrate, frame: &FrameEntry) -> Landing {
    match substrate {
        Substrate::SteelStud => Landing::Studs(stud_spacing(frame)),
        _ => Landing::Anywhere,
    }
}

/// The scales of all decimals of an [`Asked`].
type Scales = [Option<u32>; 7];

/// Everything that the calculation of a header follows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct Asked {
    mount: HeaderMount,
    loads: HeaderLoads,
    strength: Strength,
    landing: Landing,
    /// The operator's own number of screws.
    own: u32,
}

impl Asked {
    /// With the scales of its decimals.
    fn with_scales(self) -> (Self, Scales) {
        let Asked { mount, loads, strength, .. } = self;
        let scale = |of: Quantity| Some(of.value().scale());
        let shut = match loads.arm {
            ArmOnHeader::Push(arm) => Some(arm.shut.to_degrees().scale()),
            ArmOnHeader::Pull(_) => None,
        };
        let scales = [
            scale(mount.weight.quantity()),
            scale(loads.stall.quantity()),
            loads.blown.and_then(|it| scale(it.quantity())),
            Some(loads.open.to_degrees().scale()),
            shut,
            scale(strength.pull.quantity()),
            strength.shear.and_then(|it| scale(it.quantity())),
        ];
        (self, scales)
    }
}

/// What was calculated for headers that are alike.
static CALCULATED: Kept<(Asked, Scales), Option<Result<Calculated, NotCalculated>>> = Kept::new();

/// Nothing where the arm does not reach, so that there are no loads.
fn calculate(asked: &Asked) -> Option<Result<Calculated, NotCalculated>> {
    let Asked { mount, loads, strength, landing, own } = *asked;
    let (mount, loads) = (&mount, &loads);
    // Where something carries the header anywhere, nothing but a missing load leaves it without a pattern.
    mount.pattern(loads, &strength, Landing::Anywhere, own)?;
    let spread = mount.spread(own);
    let own = mount.pattern(loads, &strength, landing, own);
    let least = mount.least_pattern(loads, &strength, landing, MOST);
    let plate = match landing {
        Landing::Studs(spacing) if !least.is_some_and(|it| it.holds()) => plate(mount, loads, &strength, spacing),
        _ => None,
    };
    let lands = least.is_some() || plate.is_some();
    Some(if lands { Ok(Calculated { strength, spread, own, least, plate }) } else { Err(NotCalculated::StudsApart) })
}

/// A plate in place of the header's own length: screws of the header go into the plate, those of the plate into studs.
fn plate(mount: &HeaderMount, loads: &HeaderLoads, strength: &Strength, spacing: Length) -> Option<PlateAdvice> {
    let length = plate_length(mount.length, spacing);
    let half = Length::nanometres((length - mount.length).to_nanometres() / 2);
    let plated = HeaderMount { length, past_hinge: mount.past_hinge + half, ..*mount };
    let held = plated.least_pattern(loads, strength, Landing::Studs(spacing), MOST)?;
    Some(PlateAdvice { length, held })
}

fn mount(opening: &Opening, leaf: &LeafEntry, operator: &Operator, back: &BackData) -> Option<HeaderMount> {
    let powered = || opening.leaves.iter().filter(|it| it.powered.or(false));
    let one = opening.entry.headers.or(HeaderShare::One) == HeaderShare::One;
    let spans: Length = if one {
        opening.leaves.iter().map(|it| it.width.get().copied()).sum::<Option<Length>>()?
    } else {
        *leaf.width.get()?
    };
    // Beside a header on the same side there is nothing to be longer over.
    let beside = |it: &LeafEntry| it.arm.get() == leaf.arm.get() && it.swing.get() == leaf.swing.get();
    let adjoined = !one && powered().filter(|it| beside(it)).count() > 1;
    let length = spans + back.past_hinge * if adjoined { 1 } else { 2 };
    let drives = if one { powered().count() } else { 1 };
    Some(HeaderMount {
        length,
        past_hinge: back.past_hinge,
        depth: operator.depth,
        weight: weight(operator, length, drives)?,
        lower_row: back.lower_row,
        upper_row: back.upper_row,
        edge: back.edge,
        arm_below: back.arm_below,
    })
}

fn weight(operator: &Operator, length: Length, drives: usize) -> Option<Weight> {
    let pounds = |it: Weight| it.number_of(Unit::Pound);
    let header = pounds(operator.header_weight)?.checked_mul(length.to_feet())?;
    let drives = pounds(operator.drive_weight)?.checked_mul(Decimal::from(drives))?;
    Weight::new(header.checked_add(drives)?, Unit::Pound)
}

/// Stall, and the wind on the open leaf where the drive alone stops it.
fn loads(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<HeaderLoads> {
    let arm = swept(opening, leaf, operator)?.arm;
    let wind = opening.air.get().and_then(|air| wind_pressure(*air.wind.get()?));
    let held: Option<Torque> = wind.and_then(|wind| pushed(leaf)?.pressure_torque(wind));
    let by_arm = leaf.stopped_by.get() == Some(&StoppedBy::Drive);
    let stall = operator.mechanics.as_ref()?.stall;
    Some(HeaderLoads { arm, stall, blown: held.filter(|_| by_arm), open: open_angle(leaf) })
}

fn strength(fastener: &HeaderFastener, frame: &FrameEntry, back: &BackData) -> Result<Strength, NotCalculated> {
    let strength = match fastener.sort {
        FastenerSort::Report => return Err(NotCalculated::ByReport),
        FastenerSort::SheetSteel => {
            let mils = frame.stud_mils.get().ok_or(NotCalculated::StudsUnknown)?.get();
            let into = stud_sheet(mils).ok_or(NotCalculated::StudsUnknown)?;
            steel(fastener, back, into)
        }
        FastenerSort::WoodScrew => wood(fastener).map(|(diameter, thread)| Fastener::WoodScrew { diameter, thread }),
        FastenerSort::Lag => {
            wood(fastener).map(|(diameter, thread)| Fastener::Lag { diameter, thread, end_grain: false })
        }
    };
    strength.and_then(|it| it.strength()).ok_or(NotCalculated::NoData)
}

fn wood(fastener: &HeaderFastener) -> Option<(Length, Length)> {
    Some((fastener.diameter?, fastener.thread?))
}

fn steel(fastener: &HeaderFastener, back: &BackData, into: crate::engineering::SheetSteel) -> Option<Fastener> {
    Some(Fastener::SteelScrew {
        diameter: fastener.diameter?,
        head: fastener.head?,
        shear: fastener.tested_shear?,
        tension: fastener.tested_tension?,
        under: stud_sheet(back.mils)?,
        into,
    })
}
