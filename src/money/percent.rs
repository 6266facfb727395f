//! Percentages.
//!
//! In: rates, amounts. Out: parts of them, not rounded. May not know: the order of a price build-up.

use rust_decimal::Decimal;

use super::Money;

/// A percentage, exact: 8.25% holds 8.25.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Percent(Decimal);

impl Percent {
    /// So many hundredths.
    pub fn new(hundredths: impl Into<Decimal>) -> Percent {
        Percent(hundredths.into().normalize())
    }

    /// So many hundredths.
    pub fn hundredths(self) -> Decimal {
        self.0
    }

    /// The ratio: 8.25% is 0.0825.
    pub fn ratio(self) -> Decimal {
        // Dividing by a hundred moves the point; only a percentage of 27 decimals or more loses a digit.
        (self.0 / Decimal::ONE_HUNDRED).normalize()
    }

    /// This part of an amount, not rounded; nothing if it does not fit in 28 digits.
    pub fn of(self, amount: Money) -> Option<Money> {
        amount.times(self.ratio())
    }

    /// The percentage as text, every digit of it: `8.25%`.
    pub fn print(self) -> String {
        format!("{}%", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dollars(amount: i64) -> Money {
        Money::dollars(amount)
    }

    #[test]
    fn a_part_of_an_amount_is_exact_until_rounded() {
        let tax = Percent::new("8.25".parse::<Decimal>().unwrap());
        // Texas, separated contract: 8.25% of an agreed material price of 5,000 is 412.50 (34 TAC 3.291 and arithmetic).
        assert_eq!(tax.of(dollars(5_000)).unwrap().plain(), "412.50");
        assert_eq!(tax.of(Money::cents(1)).unwrap().plain(), "0.000825");
        assert_eq!(tax.print(), "8.25%");
    }
}
