//! Least times of a low-energy leaf, each with the point to which it is measured, and how long it is to stay open.
//!
//! In: width and weight of a leaf, where back-check starts, distances of devices. Out: times.
//! May not know: operators, their settings. Computed in inches and pounds: the metric form of the rule gives another
//! figure for one leaf. Every number of the standard here is from memory; the standard itself governs.

use rust_decimal::Decimal;

use super::safe_rounding::{positive, up_in};
use crate::measure::{Angle, Duration, Length, Unit, Weight};

/// The divisor of the rule: see [`low_energy_time`].
const DIVISOR: f64 = 133.0;

/// The least time to open to the back-check or to 80 degrees, whichever comes first, and to close from 90 to 10 degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LowEnergyTime {
    /// `D √W / 133`, rounded up to the next millisecond.
    pub computed: Duration,
    /// What is to be set: the next half second, and not less than 3 s.
    pub required: Duration,
}

/// The point of the swing to which a time is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MeasuredTo {
    /// From shut to back-check or 80 degrees, whichever comes first.
    BackCheck,
    /// From shut to 90 degrees.
    Ninety,
    /// From 90 degrees down to 10 degrees.
    Ten,
    /// From 10 degrees to shut.
    Shut,
}

impl MeasuredTo {
    /// The way in words, for a person with a stopwatch.
    pub fn words(self) -> &'static str {
        match self {
            MeasuredTo::BackCheck => "from closed to back-check or 80°, whichever comes first",
            MeasuredTo::Ninety => "from closed to 90°",
            MeasuredTo::Ten => "from 90° to 10°",
            MeasuredTo::Shut => "from 10° to closed",
        }
    }
}

/// A least time and the point to which it is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LeafTime {
    /// Not faster than this.
    pub least: Duration,
    /// To which point.
    pub to: MeasuredTo,
}

/// The least times of a low-energy leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LowEnergyTimes {
    /// Opening, to back-check or 80 degrees.
    pub opening: LeafTime,
    /// Opening in all, to 90 degrees; nothing where nobody says where back-check starts, or it starts below 60 degrees.
    pub opening_in_all: Option<LeafTime>,
    /// Closing, from 90 to 10 degrees.
    pub closing: LeafTime,
    /// Latching, from 10 degrees to shut.
    pub latching: LeafTime,
}

/// `T = D √W / 133`, D the leaf width in inches, W the leaf weight in pounds, T in seconds; rounded up to the next half
/// second, at least 3 s (low-energy standard, table I and its note, from memory; it follows from 1.25 lbf·ft of kinetic
/// energy at average speed over 80 degrees, of which the exact divisor is 133.5). Nothing for a leaf without size or
/// weight, or beyond what is held.
pub fn low_energy_time(width: Length, weight: Weight) -> Option<LowEnergyTime> {
    let raw = positive(width, Unit::Inch)? * libm::sqrt(positive(weight, Unit::Pound)?) / DIVISOR;
    let half_seconds = libm::ceil(raw * 2.0).max(6.0);
    let required = up_in(half_seconds / 2.0, Unit::Second, 1)?;
    Some(LowEnergyTime { computed: up_in(raw, Unit::Second, 3)?, required })
}

/// The least times of a low-energy leaf: opening as [`low_energy_time`]; to 90 degrees as [`opening_time_to_90`]; closing
/// by the same table as opening; latching 1.5 s (from memory).
pub fn low_energy_times(width: Length, weight: Weight, back_check: Option<Angle>) -> Option<LowEnergyTimes> {
    let time = low_energy_time(width, weight)?;
    let to = |to: MeasuredTo| move |least: Duration| LeafTime { least, to };
    Some(LowEnergyTimes {
        opening: to(MeasuredTo::BackCheck)(time.required),
        opening_in_all: back_check.and_then(|at| opening_time_to_90(time, at)).map(to(MeasuredTo::Ninety)),
        closing: to(MeasuredTo::Ten)(time.required),
        latching: to(MeasuredTo::Shut)(seconds(Decimal::new(15, 1))?),
    })
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

/// How long a leaf is to stay open: the most that any of its own live devices asks for, which is the farthest one's;
/// 5 s where no distance is known.
pub fn hold_open_of(distances: impl IntoIterator<Item = Length>) -> Option<Duration> {
    hold_open(distances.into_iter().max().unwrap_or(Length::ZERO))
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

    fn in_seconds(time: Duration) -> Decimal {
        time.number_of(Unit::Second).unwrap()
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
                assert_eq!(in_seconds(time.required), number(required).normalize(), "{width} {weight}");
                let off = in_seconds(time.computed) - number(raw);
                assert!(off.abs() <= number("0.001"), "{width} {weight}: {off}");
            }
        }
    }

    /// Two published mistakes. A divisor of 188 belongs to 2.5 lbf·ft and gives 3.61 s for 48 in and 200 lb, where table I
    /// (from memory) shows 5.5 s. The metric form `D √W / 2260` (from memory) puts 30 in and 175 lb above 3 s, where the
    /// table shows 3.0 s: the rule is computed in inches and pounds, also for a leaf that was typed in millimetres.
    #[test]
    fn neither_188_nor_the_metric_divisor_is_used() {
        let heavy = low_energy_time(Length::inches(48), pounds(200)).unwrap();
        assert!((48.0 * libm::sqrt(200.0) / 188.0 - 3.61).abs() < 0.005);
        assert_eq!(in_seconds(heavy.required), number("5.5"));
        let metric = 762.0 * libm::sqrt(175.0 * 0.453_592_37) / 2260.0;
        assert!(metric > 3.0);
        let typed = Weight::new(number("79.37866475"), Unit::Kilogram).unwrap();
        let time = low_energy_time(Length::millimetres(762), typed).unwrap();
        assert_eq!(in_seconds(time.required), number("3"));
    }

    #[test]
    fn times_say_to_which_point_they_are_measured() {
        // 36 in, 150 lb, table I (from memory): 3.5 s; 70 degrees adds 1.5 s (table II, from memory).
        let times = low_energy_times(Length::inches(36), pounds(150), Some(Angle::degrees(70))).unwrap();
        let reported = |time: LeafTime| (in_seconds(time.least).to_string(), time.to);
        assert_eq!(reported(times.opening), ("3.5".to_owned(), MeasuredTo::BackCheck));
        assert_eq!(reported(times.opening_in_all.unwrap()), ("5".to_owned(), MeasuredTo::Ninety));
        assert_eq!(reported(times.closing), ("3.5".to_owned(), MeasuredTo::Ten));
        assert_eq!(reported(times.latching), ("1.5".to_owned(), MeasuredTo::Shut));
        let unsaid = low_energy_times(Length::inches(36), pounds(150), None).unwrap();
        assert_eq!(unsaid.opening_in_all, None);
    }

    #[test]
    fn additions_and_holds_are_those_remembered() {
        let time = low_energy_time(Length::inches(36), pounds(150)).unwrap();
        let total = |degrees: i64| opening_time_to_90(time, Angle::degrees(degrees)).map(in_seconds);
        assert_eq!([60, 70, 80].map(total), ["5.5", "5", "4.5"].map(|text| Some(number(text))));
        assert_eq!(total(65), Some(number("5.5")));
        assert_eq!(total(59), None);
        let hold = |inches: i64| hold_open(Length::inches(inches)).map(in_seconds);
        assert_eq!([12, 60, 61, 72, 73].map(hold), [5, 5, 6, 6, 7].map(|s| Some(Decimal::from(s))));
        // The farthest device governs; it adds for started feet.
        let farthest = hold_open_of([24, 100, 61].map(Length::inches)).map(in_seconds);
        assert_eq!(farthest, Some(Decimal::from(9)));
        assert_eq!(hold_open_of([]).map(in_seconds), Some(Decimal::from(5)));
    }

    #[test]
    fn a_leaf_without_size_or_weight_has_no_time() {
        assert_eq!(low_energy_time(Length::ZERO, pounds(100)), None);
        assert_eq!(low_energy_time(Length::inches(36), pounds(0)), None);
    }
}
