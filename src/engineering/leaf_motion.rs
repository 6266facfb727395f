//! Times and energies of a low-energy leaf.
//!
//! In: width and weight of a leaf. Out: the least times of the low-energy standard and the kinetic energy at a time.
//! May not know: operators, their settings. Computed in inches and pounds: the metric form of the rule gives another
//! figure for one leaf. Every number of the standard here is from memory; the standard itself governs.

use rust_decimal::Decimal;

use crate::measure::{Angle, Duration, Length, Unit, Weight};

/// Standard acceleration in ft/s², to three decimals as the trade's formulas use it.
const GRAVITY: f64 = 32.174;

/// The least time to open to the back-check or to 80 degrees, whichever comes first, and to close from 90 to 10 degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LowEnergyTime {
    /// `D √W / 133`, rounded up to the next millisecond.
    pub computed: Duration,
    /// What is to be set: the next half second, and not less than 3 s.
    pub required: Duration,
}

/// `T = D √W / 133`, D the leaf width in inches, W the leaf weight in pounds, T in seconds; rounded up to the next half
/// second, at least 3 s (low-energy standard, table I and its note, from memory; it follows from 1.25 lbf·ft of kinetic
/// energy at average speed over 80 degrees, of which the exact divisor is 133.5). Nothing for a leaf without size or
/// weight, or beyond what is held.
pub fn low_energy_time(width: Length, weight: Weight) -> Option<LowEnergyTime> {
    let pounds = positive(weight.number_of(Unit::Pound)?)?;
    let raw = positive_f64(width.to_inches_f64())? * libm::sqrt(pounds) / 133.0;
    let half_seconds = libm::ceil(raw * 2.0).max(6.0);
    Some(LowEnergyTime { computed: up(raw, 3).and_then(seconds)?, required: seconds(up(half_seconds / 2.0, 1)?)? })
}

/// The least time to open to 90 degrees: the time to back-check and 2 s more where back-check starts at 60 degrees, 1.5 s
/// at 70, 1 s at 80 (table II, from memory). Between those the larger addition is taken. Nothing below 60 degrees, where
/// back-check may not start.
pub fn opening_time_to_90(time: LowEnergyTime, back_check: Angle) -> Option<Duration> {
    let degrees = back_check.to_degrees();
    let tenths = match () {
        () if degrees < Decimal::from(60) => return None,
        () if degrees < Decimal::from(70) => 20,
        () if degrees < Decimal::from(80) => 15,
        () => 10,
    };
    seconds(time.required.number_of(Unit::Second)?.checked_add(Decimal::new(tenths, 1))?)
}

/// How long a leaf is to stay open for a device: 5 s, and 1 s for every started foot of distance beyond 5 ft (appendix of
/// the low-energy standard, from memory).
pub fn hold_open(distance: Length) -> Option<Duration> {
    let beyond = (distance - Length::feet(5)).pieces_of(Length::feet(1))?;
    seconds(Decimal::from(5 + beyond))
}

/// Kinetic energy in lbf·ft of a uniform leaf that turns through `angle` in `time` at average speed, rounded up to a
/// thousandth: `(W/g) (D²/3) (θ/T)² / 2`, W in pounds, D in feet, θ in radians, T in seconds. At its peak a real leaf has
/// more; the limit of 1.25 lbf·ft (from memory) is written on time, so more energy is information and not failure.
pub fn kinetic_energy(width: Length, weight: Weight, angle: Angle, time: Duration) -> Option<Decimal> {
    let feet = positive_f64(width.to_inches_f64())? / 12.0;
    let pounds = positive(weight.number_of(Unit::Pound)?)?;
    let turn = positive(angle.to_degrees())? * std::f64::consts::PI / 180.0;
    let speed = turn / positive(time.number_of(Unit::Second)?)?;
    up(pounds / GRAVITY * feet * feet / 3.0 * speed * speed / 2.0, 3)
}

fn positive(number: Decimal) -> Option<f64> {
    f64::try_from(number).ok().and_then(positive_f64)
}

fn positive_f64(number: f64) -> Option<f64> {
    (number > 0.0).then_some(number)
}

/// A figure to so many decimals, up.
fn up(number: f64, places: u32) -> Option<Decimal> {
    let factor = f64::from(10_u32.checked_pow(places)?);
    let whole = libm::ceil(number * factor);
    // Beyond this an f64 no longer holds every whole number.
    let fits = whole.abs() < 9.0e15;
    fits.then(|| Decimal::new(whole as i64, places))
}

fn seconds(number: Decimal) -> Option<Duration> {
    Duration::new(number, Unit::Second)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pounds(weight: i64) -> Weight {
        Weight::new(Decimal::from(weight), Unit::Pound).unwrap()
    }

    fn number(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    /// Table I with the unrounded values: the seconds are from memory, the rest is arithmetic on `D √W / 133`.
    #[test]
    fn the_table_is_reproduced() {
        let weights = [100, 125, 150, 175, 200];
        let rows = [
            (30, ["3.0 2.256", "3.0 2.522", "3.0 2.763", "3.0 2.984", "3.5 3.190"]),
            (36, ["3.0 2.707", "3.5 3.026", "3.5 3.315", "4.0 3.581", "4.0 3.828"]),
            (42, ["3.5 3.158", "4.0 3.531", "4.0 3.868", "4.5 4.178", "4.5 4.466"]),
            (48, ["4.0 3.609", "4.5 4.035", "4.5 4.420", "5.0 4.774", "5.5 5.104"]),
        ];
        for (width, cells) in rows {
            for (weight, cell) in weights.into_iter().zip(cells) {
                let (required, raw) = cell.split_once(' ').unwrap();
                let time = low_energy_time(Length::inches(width), pounds(weight)).unwrap();
                assert_eq!(
                    time.required.number_of(Unit::Second),
                    Some(number(required).normalize()),
                    "{width} {weight}"
                );
                let off = time.computed.number_of(Unit::Second).unwrap() - number(raw);
                assert!(off.abs() <= number("0.001"), "{width} {weight}: {off}");
            }
        }
    }

    /// Arithmetic on the formula: 150 lb, 36 in over 80 degrees is 1.515 lbf·ft in 3.0 s and 1.113 in 3.5 s.
    #[test]
    fn energy_falls_below_the_limit_at_the_time_of_the_table() {
        let energy = |tenths: i64, degrees: i64| {
            let time = seconds(Decimal::new(tenths, 1)).unwrap();
            kinetic_energy(Length::inches(36), pounds(150), Angle::degrees(degrees), time)
        };
        assert_eq!(energy(30, 80), Some(number("1.515")));
        assert_eq!(energy(35, 80), Some(number("1.113")));
        // 90 degrees in 4.0 s: 1.0784.
        assert_eq!(energy(40, 90), Some(number("1.079")));
        assert_eq!(energy(0, 90), None);
    }

    /// The divisor of the rule from its energy: `12 √(6 g 1.25) / θ` = 133.50 over 80 degrees (arithmetic), so a leaf at
    /// the unrounded time of 133 is just under 1.25 lbf·ft.
    #[test]
    fn the_divisor_keeps_the_energy_limit() {
        for (width, weight) in [(30, 100), (36, 150), (42, 175), (48, 200)] {
            let time = low_energy_time(Length::inches(width), pounds(weight)).unwrap().computed;
            let energy = kinetic_energy(Length::inches(width), pounds(weight), Angle::degrees(80), time).unwrap();
            assert!(energy > number("1.238") && energy <= number("1.25"), "{width} {weight}: {energy}");
        }
    }

    #[test]
    fn additions_and_holds_are_those_remembered() {
        let time = low_energy_time(Length::inches(36), pounds(150)).unwrap();
        let total =
            |degrees: i64| opening_time_to_90(time, Angle::degrees(degrees)).and_then(|t| t.number_of(Unit::Second));
        assert_eq!([60, 70, 80].map(total), ["5.5", "5", "4.5"].map(|text| Some(number(text))));
        assert_eq!(total(65), Some(number("5.5")));
        assert_eq!(total(59), None);
        let hold = |inches: i64| hold_open(Length::inches(inches)).and_then(|t| t.number_of(Unit::Second));
        assert_eq!([12, 60, 61, 72, 73].map(hold), [5, 5, 6, 6, 7].map(|s| Some(Decimal::from(s))));
    }

    #[test]
    fn a_leaf_without_size_or_weight_has_no_time() {
        assert_eq!(low_energy_time(Length::ZERO, pounds(100)), None);
        assert_eq!(low_energy_time(Length::inches(36), pounds(0)), None);
    }
}
