//! How long the battery of a radio transmitter lasts.
//!
//! In: capacity, currents, uses a day. Out: years. May not know: which transmitter.

/// A transmitter's battery and what draws on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Battery {
    /// Capacity, in mAh.
    pub capacity: f64,
    /// Current at rest, in µA.
    pub rest: f64,
    /// Current while it sends, in mA.
    pub sending: f64,
    /// How long it sends for one use, in ms.
    pub sends_for: f64,
    /// Uses a day.
    pub uses: f64,
    /// Part of its capacity that it loses by itself in a year.
    pub self_discharge: f64,
}

/// Years: `C / (365 (24 Is / 1000 + n It t / 3.6e6) + s C)`, C in mAh, Is in µA, It in mA, t in ms, s a ratio (derived:
/// charge that goes out in a year). Rounded down to a hundredth, since a date label must not promise more. Nothing where a
/// value is below zero or nothing draws.
pub fn battery_years(battery: Battery) -> Option<f64> {
    let Battery { capacity, rest, sending, sends_for, uses, self_discharge } = battery;
    let sound =
        [capacity, rest, sending, sends_for, uses, self_discharge].iter().all(|it| it.is_finite() && *it >= 0.0);
    let day = rest * 24.0 / 1_000.0 + uses * sending * sends_for / 3.6e6;
    let year = 365.0 * day + self_discharge * capacity;
    (sound && year > 0.0).then(|| libm::floor(capacity / year * 100.0) / 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn battery(capacity: f64, rest: f64, sending: f64, sends_for: f64, uses: f64, self_discharge: f64) -> Battery {
        Battery { capacity, rest, sending, sends_for, uses, self_discharge }
    }

    /// Derived: 220 mAh, 2 µA, 25 mA × 300 ms × 200 a day, 1 %: 1.2805 years; 1000 mAh, 5 µA, 40 mA × 500 ms × 300, 2 %:
    /// 1.4878 years.
    #[test]
    fn the_derived_lives() {
        assert_eq!(battery_years(battery(220.0, 2.0, 25.0, 300.0, 200.0, 0.01)), Some(1.28));
        assert_eq!(battery_years(battery(1000.0, 5.0, 40.0, 500.0, 300.0, 0.02)), Some(1.48));
    }

    #[test]
    fn nothing_drawn_or_less_than_nothing_has_no_life() {
        assert_eq!(battery_years(battery(220.0, 0.0, 0.0, 0.0, 0.0, 0.0)), None);
        assert_eq!(battery_years(battery(-1.0, 2.0, 25.0, 300.0, 200.0, 0.01)), None);
        assert_eq!(battery_years(battery(0.0, 2.0, 25.0, 300.0, 200.0, 0.01)), Some(0.0));
    }
}
