//! An amount of money, its arithmetic, its one rounding rule and its text.
//!
//! In: exact decimals of dollars. Out: exact decimals of dollars, and text with at least two decimals.
//! May not know: rates, tiers, where an amount comes from.

use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

use rust_decimal::prelude::{Decimal, RoundingStrategy};

/// An exact amount in US dollars, of up to 28 digits.
///
/// Adding and subtracting are exact for amounts as they are read (at most four decimals, below a trillion dollars) and
/// for any number of cents up to 28 digits; the operators stop the program beyond that, because a wrong amount would be
/// worse. Products and quotients keep 28 digits and are rounded once, by [`round_cents`], where a line is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(Decimal);

impl Money {
    /// Nothing.
    pub const ZERO: Money = Money(Decimal::ZERO);

    /// So many dollars. Trailing zeros and the sign of a zero are dropped, so that equal amounts print alike.
    pub fn dollars(amount: impl Into<Decimal>) -> Money {
        Money(amount.into().normalize())
    }

    /// So many whole cents.
    pub fn cents(count: i64) -> Money {
        Money::dollars(Decimal::new(count, 2))
    }

    /// The amount in dollars.
    pub fn to_dollars(self) -> Decimal {
        self.0
    }

    /// The amount in cents, if it is a whole number of them.
    pub fn to_cents(self) -> Option<i128> {
        let cents = self.0.checked_mul(Decimal::ONE_HUNDRED)?.normalize();
        (cents.scale() == 0).then(|| cents.mantissa())
    }

    /// Whether it is below zero.
    pub fn is_negative(self) -> bool {
        self.0 < Decimal::ZERO
    }

    /// Whether it is nothing.
    pub fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// The magnitude.
    pub fn abs(self) -> Money {
        Money(self.0.abs())
    }

    /// So many times the amount, not rounded to cents; nothing if it does not fit in 28 digits.
    pub fn times(self, number: Decimal) -> Option<Money> {
        self.0.checked_mul(number).map(Money::dollars)
    }

    /// The amount divided, to 28 digits and not rounded to cents; nothing on division by zero or overflow.
    pub fn over(self, number: Decimal) -> Option<Money> {
        self.0.checked_div(number).map(Money::dollars)
    }

    /// Sum, or nothing on overflow.
    pub fn checked_plus(self, other: Money) -> Option<Money> {
        self.0.checked_add(other.0).map(Money::dollars)
    }

    /// The amount as papers print it, `$1,234.50`, and a credit in parentheses, `($1,234.50)` (common practice, no
    /// source). Text never rounds: an amount with more than two decimals, such as a unit price, shows them all.
    pub fn print(self) -> String {
        self.bracketed(&format!("${}", grouped(&self.digits())))
    }

    /// The amount for JSON and CSV and as a person types it: `1234.50`, `-1234.50`.
    pub fn plain(self) -> String {
        let sign = if self.is_negative() { "-" } else { "" };
        format!("{sign}{}", self.digits())
    }

    fn bracketed(self, text: &str) -> String {
        if self.is_negative() { format!("({text})") } else { text.to_owned() }
    }

    /// The digits of the magnitude, with at least two decimals. `{:.2}` of the decimal would cut digits off.
    fn digits(self) -> String {
        let mut magnitude = self.0.abs();
        if magnitude.scale() < 2 {
            magnitude.rescale(2);
        }
        magnitude.to_string()
    }
}

fn grouped(digits: &str) -> String {
    let whole = digits.find('.').unwrap_or(digits.len());
    let comma_before = |index: usize| index > 0 && index < whole && (whole - index).is_multiple_of(3);
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (index, digit) in digits.char_indices() {
        if comma_before(index) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

impl Add for Money {
    type Output = Money;
    fn add(self, other: Money) -> Money {
        Money::dollars(self.0 + other.0)
    }
}

impl Sub for Money {
    type Output = Money;
    fn sub(self, other: Money) -> Money {
        Money::dollars(self.0 - other.0)
    }
}

impl Neg for Money {
    type Output = Money;
    fn neg(self) -> Money {
        Money::dollars(-self.0)
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(amounts: I) -> Money {
        amounts.fold(Money::ZERO, Add::add)
    }
}

/// What becomes of half a cent. A term of the job; papers name it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rounding {
    /// Away from zero, as sales tax is rounded (from memory).
    #[default]
    HalfAwayFromZero,
    /// To the even cent.
    HalfEven,
}

impl Rounding {
    /// Its words.
    pub fn word(self) -> &'static str {
        match self {
            Rounding::HalfAwayFromZero => "half away from zero",
            Rounding::HalfEven => "half even",
        }
    }
}

/// The one function that rounds money: to whole cents.
pub fn round_cents(amount: Money, rounding: Rounding) -> Money {
    let strategy = match rounding {
        Rounding::HalfAwayFromZero => RoundingStrategy::MidpointAwayFromZero,
        Rounding::HalfEven => RoundingStrategy::MidpointNearestEven,
    };
    Money::dollars(amount.0.round_dp_with_strategy(2, strategy))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(text: &str) -> Money {
        Money::dollars(text.parse::<Decimal>().unwrap())
    }

    /// The pairs are arithmetic: half even and half away from zero differ only on the half.
    #[test]
    fn half_a_cent_goes_where_the_mode_says() {
        let rows = [
            ("2.665", "2.66", "2.67"),
            ("2.675", "2.68", "2.68"),
            ("1.005", "1.00", "1.01"),
            ("0.125", "0.12", "0.13"),
            ("-2.665", "-2.66", "-2.67"),
            ("2.6649999", "2.66", "2.66"),
            ("-0.001", "0.00", "0.00"),
        ];
        for (amount, even, away) in rows {
            assert_eq!(round_cents(money(amount), Rounding::HalfEven).plain(), even, "{amount}");
            assert_eq!(round_cents(money(amount), Rounding::HalfAwayFromZero).plain(), away, "{amount}");
        }
    }

    #[test]
    fn text_shows_what_the_amount_is() {
        let rows = [
            ("0", "$0.00", "0.00"),
            ("-0", "$0.00", "0.00"),
            ("1.1", "$1.10", "1.10"),
            ("1.100", "$1.10", "1.10"),
            ("999.5", "$999.50", "999.50"),
            ("1234.5", "$1,234.50", "1234.50"),
            ("-1234567.89", "($1,234,567.89)", "-1234567.89"),
            ("2.675", "$2.675", "2.675"),
            ("1000000", "$1,000,000.00", "1000000.00"),
            ("0.0475", "$0.0475", "0.0475"),
        ];
        for (amount, page, plain) in rows {
            assert_eq!(money(amount).print(), page);
            assert_eq!(money(amount).plain(), plain);
        }
    }

    #[test]
    fn cents_are_whole_or_none() {
        assert_eq!(money("12.34").to_cents(), Some(1234));
        assert_eq!(money("12.345").to_cents(), None);
        assert_eq!(Money::cents(-5).plain(), "-0.05");
    }

    #[test]
    fn a_third_times_three_is_not_a_dollar_until_it_is_rounded() {
        let third = money("1").over(Decimal::from(3)).unwrap();
        let three = third.times(Decimal::from(3)).unwrap();
        assert_ne!(three, money("1"));
        assert_eq!(round_cents(three, Rounding::default()), money("1"));
        assert_eq!(money("1").over(Decimal::ZERO), None);
        assert_eq!(Money::dollars(Decimal::MAX).times(Decimal::TEN), None);
        assert_eq!(Money::dollars(Decimal::MAX).checked_plus(money("1")), None);
    }
}
