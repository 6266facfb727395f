//! Lengths in whole nanometres and areas in whole square nanometres.
//!
//! In: whole numbers of a unit, or quantities. Out: exact arithmetic.
//! May not know: how a length is written or printed.

use std::iter::Sum;
use std::ops::{Add, Mul, Neg, Sub};

use rust_decimal::prelude::{Decimal, RoundingStrategy, ToPrimitive};

use super::{Dimension, Quantity};

pub(super) const INCH: i64 = 25_400_000;
pub(super) const FOOT: i64 = 12 * INCH;
pub(super) const SIXTY_FOURTH: i64 = INCH / 64;
pub(super) const MILLIMETRE: i64 = 1_000_000;

/// A length in whole nanometres: 1/64 in, 0.001 in and 0.01 mm are exact.
///
/// A length that was read is at most 10 km, so that nine hundred thousand of them add up without overflow. The
/// operators stop the program on overflow, as those of any integer do in this crate's builds; a wrong length would
/// be worse.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Length = Length(0);
    /// The longest length that is read from a text, 1,000 km.
    pub const LONGEST_READ: Length = Length(1_000_000_000 * MILLIMETRE);

    /// So many nanometres.
    pub const fn nanometres(count: i64) -> Length {
        Length(count)
    }

    /// So many millimetres.
    pub const fn millimetres(count: i64) -> Length {
        Length(count * MILLIMETRE)
    }

    /// So many sixty-fourths of an inch.
    pub const fn sixty_fourths(count: i64) -> Length {
        Length(count * SIXTY_FOURTH)
    }

    /// So many inches.
    pub const fn inches(count: i64) -> Length {
        Length(count * INCH)
    }

    /// So many feet.
    pub const fn feet(count: i64) -> Length {
        Length(count * FOOT)
    }

    /// The length in nanometres.
    pub const fn to_nanometres(self) -> i64 {
        self.0
    }

    /// The length in inches for an engineering formula: correctly rounded, never for money or for a cut.
    pub fn to_inches_f64(self) -> f64 {
        self.0 as f64 / INCH as f64
    }

    /// The length in feet, to 28 digits; exact for every sixty-fourth of an inch only where the division ends.
    pub fn to_feet(self) -> Decimal {
        Decimal::from(self.0) / Decimal::from(FOOT)
    }

    /// The quantity's length to the nearest nanometre, half away from zero; nothing if it is no length or too long.
    pub fn nearest(quantity: Quantity) -> Option<Length> {
        if quantity.dimension() != Dimension::LENGTH {
            return None;
        }
        let exact = quantity.value().checked_mul(Decimal::from(MILLIMETRE))?;
        exact.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero).to_i64().map(Length)
    }

    /// The magnitude.
    pub fn abs(self) -> Length {
        Length(self.0.abs())
    }

    /// Whether it is below zero.
    pub fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// So many of it, or nothing on overflow.
    pub fn checked_times(self, count: i64) -> Option<Length> {
        self.0.checked_mul(count).map(Length)
    }

    /// Sum, or nothing on overflow.
    pub fn checked_plus(self, other: Length) -> Option<Length> {
        self.0.checked_add(other.0).map(Length)
    }

    /// The area of a rectangle with these two sides.
    pub fn by(self, other: Length) -> Area {
        Area(i128::from(self.0) * i128::from(other.0))
    }

    /// The smallest multiple of `step` that is not less than this; the length itself if `step` is not above zero.
    pub fn up_to(self, step: Length) -> Length {
        -(-self).down_to(step)
    }

    /// The largest multiple of `step` that is not more than this; the length itself if `step` is not above zero.
    pub fn down_to(self, step: Length) -> Length {
        if step.0 <= 0 { self } else { Length(self.0.div_euclid(step.0) * step.0) }
    }

    /// How many pieces of `piece` are needed to make up this length, rounded up; none for no length.
    pub fn pieces_of(self, piece: Length) -> Option<i64> {
        if piece.0 <= 0 { None } else { Some((self.0.max(0) + piece.0 - 1) / piece.0) }
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, count: i64) -> Length {
        Length(self.0 * count)
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}

/// The quantity of a length, exact.
pub(super) fn quantity_of(length: Length) -> Quantity {
    Quantity::new(Decimal::new(length.0, 6), Dimension::LENGTH)
}

/// The exact length of a quantity.
pub(super) fn exactly(quantity: Quantity) -> Option<Length> {
    Length::nearest(quantity).filter(|length| quantity_of(*length) == quantity)
}

/// An area in whole square nanometres; i64 would overflow at ten feet square.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Area(i128);

impl Area {
    /// The quantity in square millimetres, exact; nothing beyond 28 digits.
    pub fn quantity(self) -> Option<Quantity> {
        Decimal::try_from_i128_with_scale(self.0, 12).ok().map(|value| Quantity::new(value, Dimension::AREA))
    }
}

impl Add for Area {
    type Output = Area;
    fn add(self, other: Area) -> Area {
        Area(self.0 + other.0)
    }
}

impl Sub for Area {
    type Output = Area;
    fn sub(self, other: Area) -> Area {
        Area(self.0 - other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_units_are_exact() {
        // 1 in = 25.4 mm by definition, so 1/64 in = 0.396875 mm: arithmetic.
        assert_eq!(Length::sixty_fourths(64), Length::inches(1));
        assert_eq!(Length::sixty_fourths(1).to_nanometres(), 396_875);
        assert_eq!(Length::inches(12), Length::feet(1));
        assert_eq!(Length::inches(10), Length::millimetres(254));
    }

    #[test]
    fn rounding_to_steps_goes_the_way_it_says() {
        let step = Length::inches(1);
        assert_eq!(Length::sixty_fourths(65).up_to(step), Length::inches(2));
        assert_eq!(Length::sixty_fourths(65).down_to(step), Length::inches(1));
        assert_eq!(Length::sixty_fourths(-65).up_to(step), Length::inches(-1));
        assert_eq!(Length::inches(3).up_to(step), Length::inches(3));
        assert_eq!(Length::feet(38).pieces_of(Length::feet(10)), Some(4));
        assert_eq!(Length::feet(40).pieces_of(Length::feet(10)), Some(4));
        assert_eq!(Length::ZERO.pieces_of(Length::feet(10)), Some(0));
        assert_eq!(Length::feet(1).pieces_of(Length::ZERO), None);
    }

    #[test]
    fn quantities_lead_back() {
        let length = Length::sixty_fourths(2305);
        assert_eq!(exactly(quantity_of(length)), Some(length));
        let third = Quantity::new(Decimal::ONE / Decimal::from(3), Dimension::LENGTH);
        assert_eq!(exactly(third), None);
        assert_eq!(Length::nearest(third), Some(Length::nanometres(333_333)));
        assert_eq!(Length::nearest(Quantity::count(3)), None);
    }

    #[test]
    fn a_ten_foot_square_is_beyond_i64_and_still_exact() {
        let square = Length::feet(10).by(Length::feet(10));
        assert!(square.0 > i128::from(i64::MAX));
        assert_eq!(square.quantity().unwrap().number_of(crate::measure::Unit::SquareFoot), Some(Decimal::from(100)));
    }
}
