//! From the numbers of a formula to exact values, rounded the safe way.
//!
//! In: `f64` results of formulas. Out: decimals and measures, rounded up or down to so many places of a unit.
//! May not know: which formula it was; the caller says which way is the safe one.

use rust_decimal::Decimal;

use crate::measure::{Length, Measure, Quantity, Unit};

/// Relative noise of a chain of `f64` operations: what stands this little beyond a step is taken to stand on it, so that
/// a bound computed from itself stays where it is.
const NOISE: f64 = 1e-12;

/// Beyond this an `f64` no longer holds every whole number.
const WHOLE: f64 = 9.0e15;

/// A number to so many decimals, up; nothing where it is not finite or too large.
pub(super) fn up(number: f64, places: u32) -> Option<Decimal> {
    down(-number, places).map(|it| -it)
}

/// A number to so many decimals, down; nothing where it is not finite or too large.
pub(super) fn down(number: f64, places: u32) -> Option<Decimal> {
    let scaled = number * f64::from(10_u32.checked_pow(places)?);
    let whole = libm::floor(scaled + scaled.abs() * NOISE);
    (whole.abs() < WHOLE).then(|| Decimal::new(whole as i64, places).normalize())
}

/// So many of a unit, up to so many decimals of it.
pub(super) fn up_in<M: Measure>(number: f64, unit: Unit, places: u32) -> Option<M> {
    M::of(Quantity::in_units(up(number, places)?, unit).ok()?)
}

/// So many of a unit, down to so many decimals of it.
pub(super) fn down_in<M: Measure>(number: f64, unit: Unit, places: u32) -> Option<M> {
    M::of(Quantity::in_units(down(number, places)?, unit).ok()?)
}

/// Inches as a length, up to the next `step`.
pub(super) fn length_up(inches: f64, step: Length) -> Option<Length> {
    nearest_length(inches).map(|length| length.up_to(step))
}

/// Inches as a length, down to the next `step`.
pub(super) fn length_down(inches: f64, step: Length) -> Option<Length> {
    nearest_length(inches).map(|length| length.down_to(step))
}

/// Inches as a length to the nearest nanometre.
pub(super) fn nearest_length(inches: f64) -> Option<Length> {
    let nanometres = libm::round(inches * 25_400_000.0);
    (nanometres.abs() < WHOLE).then(|| Length::nanometres(nanometres as i64))
}

/// How many of a unit, for a formula; nothing where the unit measures something else.
pub(super) fn number<M: Measure>(measure: M, unit: Unit) -> Option<f64> {
    f64::try_from(measure.quantity().number_of(unit)?).ok()
}

/// As [`number`], and nothing unless it is above zero.
pub(super) fn positive<M: Measure>(measure: M, unit: Unit) -> Option<f64> {
    number(measure, unit).and_then(above_zero)
}

/// The number if it is above zero.
pub(super) fn above_zero(number: f64) -> Option<f64> {
    (number > 0.0).then_some(number)
}

/// Degrees as radians.
pub(super) fn radians(degrees: f64) -> f64 {
    degrees * std::f64::consts::PI / 180.0
}

/// Radians as degrees.
pub(super) fn degrees(radians: f64) -> f64 {
    radians * 180.0 / std::f64::consts::PI
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Weight;

    #[test]
    fn rounding_goes_the_way_it_says_and_stays_on_a_step() {
        // Arithmetic.
        let text = |number: Option<Decimal>| number.map(|it| it.to_string());
        assert_eq!(text(up(1.2341, 3)).as_deref(), Some("1.235"));
        assert_eq!(text(down(1.2349, 3)).as_deref(), Some("1.234"));
        assert_eq!(text(up(-1.2349, 3)).as_deref(), Some("-1.234"));
        // 0.1 + 0.2 is a hair above 0.3 in binary.
        assert_eq!(text(up(0.1 + 0.2, 1)).as_deref(), Some("0.3"));
        assert_eq!(up(f64::NAN, 1), None);
        assert_eq!(up(f64::INFINITY, 1), None);
        let weight: Weight = up_in(104.96, Unit::Pound, 1).unwrap();
        assert_eq!(positive(weight, Unit::Pound), Some(105.0));
        assert_eq!(length_up(15.675, Length::sixty_fourths(4)), Some(Length::sixty_fourths(15 * 64 + 44)));
        assert_eq!(length_down(15.675, Length::sixty_fourths(4)), Some(Length::sixty_fourths(15 * 64 + 40)));
    }
}
