//! Voltage lost along a pair of conductors.
//!
//! In: conductor, one-way length, current or power. Out: volts lost and left. May not know: which circuit, what limit an
//! owner sets.
//!
//! `V = 2 R I L / 1000`, R in ohms for 1,000 ft, L one way in feet (single phase or direct current; table 8 at 75 °C, power
//! factor taken as one, which is on the safe side for resistance). The advice of 3 percent on a branch circuit and 5 on
//! feeder and branch together is an informational note, NEC 210.19(A), 215.2 and 90.5(C)
//! (ecmweb.com/code-quiz-day/voltage-drop-limitations-branch-circuits, secondary): advice, not a rule to fail by.

use rust_decimal::Decimal;

use super::conductors::{Conductor, Strands};
use crate::measure::{Amps, Length, Unit, Volts};

/// Volts lost on a pair of conductors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drop {
    /// Volts lost, rounded up to a thousandth.
    pub lost: Decimal,
    /// Percent of the supply, rounded up to a hundredth.
    pub percent: Decimal,
}

/// Ohms out and back over a one-way length.
pub fn loop_ohms(conductor: Conductor, strands: Strands, one_way: Length) -> Decimal {
    Decimal::TWO * conductor.ohms_per_thousand_feet(strands) * one_way.to_feet() / Decimal::ONE_THOUSAND
}

/// Drop of a load whose current does not depend on its voltage. Nothing where the supply has no voltage.
pub fn drop_of_current(ohms: Decimal, amps: Amps, supply: Volts) -> Option<Drop> {
    let supply = supply.number_of(Unit::Volt).filter(|volts| *volts > Decimal::ZERO)?;
    let lost = ohms.checked_mul(amps.number_of(Unit::Ampere)?)?;
    Some(Drop { lost: up(lost, 3)?, percent: up(lost.checked_mul(Decimal::ONE_HUNDRED)?.checked_div(supply)?, 2)? })
}

/// Volts at a load that takes the same power whatever its voltage, as a switching supply does, at the end of a line of its own:
/// `V = (Vs + sqrt(Vs² - 4 R P)) / 2` (derived from `P = V I`, `V = Vs - R I`), in any consistent units. Nothing where the line
/// cannot carry the power: `P > Vs² / 4R`. What lines that share loads come to is held to it.
#[cfg(test)]
pub(super) fn volts_at_power(supply: f64, ohms: f64, watts: f64) -> Option<f64> {
    let under = supply * supply - 4.0 * ohms * watts;
    (supply > 0.0 && under >= 0.0).then(|| (supply + libm::sqrt(under)) / 2.0)
}

/// Up to so many decimals; nothing where the number cannot be held.
fn up(number: Decimal, places: u32) -> Option<Decimal> {
    let factor = Decimal::from(10_i64.checked_pow(places)?);
    number.checked_mul(factor)?.ceil().checked_div(factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn amps(text: &str) -> Amps {
        Amps::new(number(text), Unit::Ampere).unwrap()
    }

    fn volts(count: i64) -> Volts {
        Volts::new(Decimal::from(count), Unit::Volt).unwrap()
    }

    fn number(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn lost(conductor: Conductor, strands: Strands, feet: i64, current: &str, supply: i64) -> (Decimal, Decimal) {
        let ohms = loop_ohms(conductor, strands, Length::feet(feet));
        let drop = drop_of_current(ohms, amps(current), volts(supply)).unwrap();
        (drop.lost.normalize(), drop.percent.normalize())
    }

    /// 120 V, 20 A, 100 ft, 12 AWG: 7.9 V, 6.6 %; 8 AWG 3.1 V, 2.6 % (tradelicenseprep.com/nc-sp-ph-prep/calc-voltage-drop, by
    /// `2 K I L / CM` with K 12.9).
    #[test]
    fn the_published_branch_circuit() {
        let rounded = |conductor| {
            let (volts, percent) = lost(conductor, Strands::Stranded, 100, "20", 120);
            (volts.round_dp(1), percent.round_dp(1))
        };
        assert_eq!(rounded(Conductor::Awg12), (number("7.9"), number("6.6")));
        assert_eq!(rounded(Conductor::Awg8), (number("3.1"), number("2.6")));
        // By table 8: 7.92 V stranded, 7.72 V solid (arithmetic).
        assert_eq!(lost(Conductor::Awg12, Strands::Stranded, 100, "20", 120).0, number("7.92"));
        assert_eq!(lost(Conductor::Awg12, Strands::Solid, 100, "20", 120).0, number("7.72"));
    }

    /// 24 V, 4 A, 100 ft, 16 AWG stranded: 4.0 V, printed 16.7 % (electrician2.com/weltrain05/lpage135.html); exactly
    /// 3.992 V, 16.63 %. And 115 V, 0.25 A, 4,200 ft, 14 AWG at 2.525 Ω/kft: 5.3025 V (vk3kid.org/?page_id=85).
    #[test]
    fn the_published_low_voltage_and_long_lines() {
        assert_eq!(lost(Conductor::Awg16, Strands::Stranded, 100, "4", 24), (number("3.992"), number("16.64")));
        let ohms = Decimal::TWO * number("2.525") * number("4.2");
        assert_eq!(drop_of_current(ohms, amps("0.25"), volts(115)).unwrap().lost, number("5.303"));
        assert_eq!(ohms * number("0.25"), number("5.3025"));
    }

    /// Derived: 24 V direct current, 1.5 A, 100 ft, 18 AWG 2.385 V, 9.94 %; 120 V, 5 A, 80 ft, 12 AWG 1.584 V, 1.32 %.
    #[test]
    fn derived_values() {
        assert_eq!(lost(Conductor::Awg18, Strands::Stranded, 100, "1.5", 24), (number("2.385"), number("9.94")));
        assert_eq!(lost(Conductor::Awg12, Strands::Stranded, 80, "5", 120), (number("1.584"), number("1.32")));
    }

    /// 24 V, 100 ft of 18 AWG at 7.95 Ω/kft, 24 W: 22.2879 V at the load, and no more than 90.57 W can be carried
    /// (derived).
    #[test]
    fn constant_power_loads() {
        let ohms = loop_ohms(Conductor::Awg18, Strands::Stranded, Length::feet(100));
        assert_eq!(ohms.normalize(), number("1.59"));
        let left = volts_at_power(24.0, 1.59, 24.0).unwrap();
        assert!((left - 22.2879).abs() < 5e-5, "{left}");
        assert!(volts_at_power(24.0, 1.59, 90.5).is_some() && volts_at_power(24.0, 1.59, 90.6).is_none());
    }

    /// Negative: a page that mixes 20 °C resistivity, metric length and Ω/kft gets 6.4 V for 12 AWG, 20 A, 100 ft
    /// (voltagedropcalculator.net/examples); at 75 °C it is 7.9 V.
    #[test]
    fn the_published_mixture_of_units_is_not_reproduced() {
        assert!(lost(Conductor::Awg12, Strands::Stranded, 100, "20", 120).0 > number("7.8"));
    }

    /// The same line in metres and ohms for a kilometre gives the same volts to 1e-12.
    #[test]
    fn both_unit_systems_agree() {
        for feet in [1_i64, 38, 100, 417] {
            for conductor in Conductor::ALL {
                let ohms = conductor.ohms_per_thousand_feet(Strands::Stranded);
                let feet_way = f64::try_from(loop_ohms(conductor, Strands::Stranded, Length::feet(feet))).unwrap();
                let per_km = f64::try_from(ohms).unwrap() / 0.3048;
                let metre_way = 2.0 * per_km * (feet as f64 * 0.3048) / 1000.0;
                assert!((feet_way - metre_way).abs() <= 1e-12 * feet_way.max(1.0), "{feet} {conductor:?}");
                let (one, other) = (volts_at_power(24.0, feet_way, 5.0), volts_at_power(24.0, metre_way, 5.0));
                assert!(one.zip(other).is_none_or(|(one, other)| (one - other).abs() < 1e-12));
            }
        }
    }

    #[test]
    fn no_supply_no_drop() {
        assert_eq!(drop_of_current(Decimal::ONE, amps("1"), volts(0)), None);
    }
}
