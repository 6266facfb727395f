//! Sticks of conduit and their couplings.
//!
//! In: lengths of runs of one size. Out: counts. May not know: cut lists: conduit is coupled, not cut to least bars.

use rust_decimal::Decimal;

use crate::measure::{Length, Measure, Quantity};

/// Sticks to buy: `ceil(total (1 + waste) / stick)`. `waste` is a ratio, 0.05 for five percent. None where the figures
/// do not fit, waste is below zero or the stick has no length. Common practice, no source; a stick is 10 ft.
pub fn sticks(total: Length, waste: Decimal, stick: Length) -> Option<i64> {
    if waste < Decimal::ZERO {
        return None;
    }
    let with_waste = total.quantity().times(Quantity::count(Decimal::ONE + waste)).ok()?;
    // Up to the next nanometre, before the count of sticks is rounded up.
    let ceiling = with_waste.value().checked_mul(Decimal::from(1_000_000))?.ceil();
    Length::nanometres(i64::try_from(ceiling.mantissa() / 10_i128.pow(ceiling.scale())).ok()?).pieces_of(stick)
}

/// Couplings of one run: one for every full stick in it, `floor(run / stick)`. A run of exactly so many sticks has one joint
/// less; the coupling over is there for a run that starts with an offcut. None where the stick has no length. Common
/// practice, no source.
pub fn couplings(run: Length, stick: Length) -> Option<i64> {
    if stick <= Length::ZERO {
        return None;
    }
    Some(run.to_nanometres().max(0) / stick.to_nanometres())
}

#[cfg(test)]
mod tests {
    use super::*;

    const STICK: Length = Length::feet(10);

    #[test]
    fn sticks_are_rounded_up_once() {
        // 38 ft with 10% waste are 41.8 ft: five sticks. 100 ft exactly are ten: arithmetic.
        assert_eq!(sticks(Length::feet(38), Decimal::new(10, 2), STICK), Some(5));
        assert_eq!(sticks(Length::feet(38), Decimal::ZERO, STICK), Some(4));
        assert_eq!(sticks(Length::feet(100), Decimal::ZERO, STICK), Some(10));
        assert_eq!(sticks(Length::feet(100), Decimal::new(1, 9), STICK), Some(11));
        assert_eq!(sticks(Length::ZERO, Decimal::new(5, 2), STICK), Some(0));
        assert_eq!(sticks(Length::feet(1), Decimal::NEGATIVE_ONE, STICK), None);
        assert_eq!(sticks(Length::feet(1), Decimal::ZERO, Length::ZERO), None);
    }

    /// Joints of a run laid from whole sticks are one less than its sticks; the count is never below them.
    #[test]
    fn couplings_cover_the_joints() {
        for (feet, count) in [(0, 0), (9, 0), (10, 1), (11, 1), (12, 1), (30, 3), (38, 3)] {
            assert_eq!(couplings(Length::feet(feet), STICK), Some(count), "{feet} ft");
        }
        for inches in 1..1_200 {
            let run = Length::inches(inches);
            let joints = run.pieces_of(STICK).unwrap() - 1;
            assert!((joints..=joints + 1).contains(&couplings(run, STICK).unwrap()), "{inches} in");
        }
        assert_eq!(couplings(Length::feet(3), Length::ZERO), None);
    }
}
