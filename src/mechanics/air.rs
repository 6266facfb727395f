//! Air on a leaf, the torque that opening asks of its operator, and the force by hand with the power off.
//!
//! In: opening, leaf, operator. Out: pressures, forces, used parts of ratings. May not know: findings.

use rust_decimal::Decimal;

use super::arms::swept;
use super::times::leaf_times;
use super::weight::leaf_weight;
use crate::catalog::Operator;
use crate::engineering::{LeafDemand, PushedLeaf, Ramp, Slab, SpindleDemand, stack_pressure, wind_pressure};
use crate::job::{AirEntry, LeafEntry, OpeningEntry};
use crate::measure::{Angle, Force, Length, Measure, Pressure, Torque, Unit};

/// Where the force by hand is measured, 1 in from the latch edge (low-energy standard, from memory).
const ONE_INCH: Length = Length::inches(1);
/// Friction of hinges and seals, in lbf·ft (common practice, no source).
const FRICTION: i64 = 2;

/// What opening asks of a drive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SpindleUse {
    /// The demand.
    pub demand: SpindleDemand,
    /// The torque the drive gives.
    pub rating: Torque,
    /// The used part; above one it is not enough.
    pub part: Decimal,
}

/// Degrees Fahrenheit inside, from which stack effect is calculated (common practice, no source).
const INSIDE: i64 = 70;

/// Pressure on the shut leaf: fans, stack effect and the wind. Nothing where nobody gives any. Stack effect is calculated from
/// height and temperatures where no pressure is given, since an engineer's figure holds it already.
pub fn pressure(opening: &OpeningEntry) -> Option<Pressure> {
    let air = opening.air.get()?;
    let still = air.pressure.get().copied().or_else(|| stack(air));
    let wind = air.wind.get().and_then(|speed| wind_pressure(*speed));
    match (still, wind) {
        (None, None) => None,
        (one, other) => sum(one.unwrap_or_default(), other.unwrap_or_default()),
    }
}

fn stack(air: &AirEntry) -> Option<Pressure> {
    let outside = INSIDE - i64::from(air.colder.get()?.get());
    stack_pressure(*air.stack.get()?, Decimal::from(outside), Decimal::from(INSIDE))
}

fn sum<M: Measure>(one: M, other: M) -> Option<M> {
    M::of(one.quantity().plus(other.quantity()).ok()?)
}

/// A torque of so many times another.
fn times(torque: Torque, ratio: Decimal) -> Option<Torque> {
    Torque::new(torque.number_of(Unit::PoundForceFoot)?.checked_mul(ratio)?, Unit::PoundForceFoot)
}

pub(super) fn pushed(leaf: &LeafEntry) -> Option<PushedLeaf> {
    Some(PushedLeaf { width: *leaf.width.get()?, height: *leaf.height.get()?, backset: ONE_INCH })
}

/// The torque that opening asks of the drive as the shut leaf sets out: to gather speed, against air, spring and friction.
/// There the air leans on the whole leaf, and the drive turns it slowest.
pub fn spindle_use(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<SpindleUse> {
    let mechanics = operator.mechanics.as_ref()?;
    let ratio = swept(opening, leaf, operator)?.course.shut_ratio;
    let time = leaf_times(opening, leaf, operator).map(|it| it.opening.least).or(mechanics.opens_in)?;
    let slab = Slab::new(*leaf.width.get()?, leaf_weight(leaf)?.weight);
    let air = pressure(opening).map_or(Some(Torque::default()), |air| pushed(leaf)?.pressure_torque(air))?;
    let demand = LeafDemand {
        inertia: slab.starting_torque(Angle::degrees(80), time, Ramp::FIFTH)?,
        pressure: air,
        closing: times(mechanics.spring, ratio)?,
        friction: Torque::new(Decimal::from(FRICTION), Unit::PoundForceFoot)?,
    };
    let demand = demand.at_spindle(ratio, mechanics.efficiency.ratio())?;
    Some(SpindleUse { demand, rating: mechanics.torque, part: demand.used(mechanics.torque)? })
}

/// The force by hand, 1 in from the latch edge, that sets the shut leaf in motion with the power off: against the spring
/// through the arm, and the air.
pub fn force_by_hand(opening: &OpeningEntry, leaf: &LeafEntry, operator: &Operator) -> Option<Force> {
    let mechanics = operator.mechanics.as_ref()?;
    let course = swept(opening, leaf, operator)?.course;
    let pushed = pushed(leaf)?;
    let arm = (pushed.width - pushed.backset).to_feet();
    let spring = times(mechanics.spring, course.shut_ratio)?.number_of(Unit::PoundForceFoot)?;
    let closing = Force::new(spring.checked_div(arm)?, Unit::PoundForce)?;
    pushed.opening_force(closing, pressure(opening).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::sound::with_mechanics;

    /// Inches of water on the sound opening with this air, in thousandths.
    fn thousandths(air: &str) -> Option<Decimal> {
        let (job, _) = with_mechanics(&format!("air = {{ {air} }}")).read();
        let inches = pressure(&job.openings[0].entry)?.number_of(Unit::InchOfWater)?;
        Some((inches * Decimal::ONE_THOUSAND).normalize())
    }

    /// 50 ft, 0 °F outside, 70 °F inside: 0.110 in of water (derived from the published formula, secondary), rounded up; an
    /// engineer's figure stands instead, and wind is added to either.
    #[test]
    fn stack_effect_follows_from_height_and_cold() {
        let between = |reported: Option<Decimal>, low: i64| {
            let low = Decimal::from(low);
            assert!(reported.is_some_and(|it| it >= low && it <= low + Decimal::ONE), "{reported:?}");
        };
        between(thousandths("stack = \"50 ft\", colder = 70"), 110);
        between(thousandths("stack = \"50 ft\", colder = 70, pressure = \"0.05 in wg\""), 50);
        // 0.00256 × 20² lbf/ft² over 5.2: 0.197 in (secondary).
        between(thousandths("stack = \"50 ft\", colder = 70, wind = \"20 mph\""), 307);
        assert_eq!(thousandths("stack = \"50 ft\""), None, "without temperatures nothing is calculated");
    }
}
