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

/// Couplings of runs laid one after another, each started with what was left of the stick before: one for every end of a
/// stick that falls inside a run. None where the stick has no length.
pub fn couplings(runs: &[Length], stick: Length) -> Option<i64> {
    let mut start = Length::ZERO;
    let mut count = 0;
    for run in runs.iter().filter(|run| **run > Length::ZERO) {
        let end = start + *run;
        // Ends of sticks before the end of this run, less those up to its start.
        count += end.pieces_of(stick)? - 1 - start.to_nanometres() / stick.to_nanometres();
        start = end;
    }
    Some(count)
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

    #[test]
    fn a_coupling_stands_where_a_stick_ends_inside_a_run() {
        let runs = |feet: &[i64]| feet.iter().map(|feet| Length::feet(*feet)).collect::<Vec<_>>();
        for (feet, count) in
            [(&[10][..], 0), (&[11], 1), (&[38], 3), (&[40], 3), (&[6, 6], 1), (&[10, 10], 0), (&[5, 5, 25], 2)]
        {
            assert_eq!(couplings(&runs(feet), STICK), Some(count), "{feet:?}");
        }
        assert_eq!(couplings(&[], STICK), Some(0));
        assert_eq!(couplings(&runs(&[3]), Length::ZERO), None);
    }
}
