//! Percentages, and the two ways to put profit on a cost.
//!
//! In: rates, costs. Out: amounts, not rounded. May not know: the order of a price build-up.

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

    /// The percentage of a ratio; nothing on overflow.
    pub fn of_ratio(ratio: Decimal) -> Option<Percent> {
        ratio.checked_mul(Decimal::ONE_HUNDRED).map(Percent::new)
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

/// Price of a cost with a markup on the cost: `C (1 + m)`.
pub fn price_at_markup(cost: Money, markup: Percent) -> Option<Money> {
    cost.times(Decimal::ONE + markup.ratio())
}

/// Price of a cost of which the margin is a share of the price: `C / (1 - g)`; nothing for a margin of 100% or more.
pub fn price_at_margin(cost: Money, margin: Percent) -> Option<Money> {
    let rest = Decimal::ONE - margin.ratio();
    if rest > Decimal::ZERO { cost.over(rest) } else { None }
}

/// The margin that a markup gives: `g = m / (1 + m)`.
pub fn margin_of_markup(markup: Percent) -> Option<Percent> {
    Percent::of_ratio(markup.ratio().checked_div(Decimal::ONE + markup.ratio())?)
}

/// The markup that gives a margin: `m = g / (1 - g)`; nothing for a margin of 100% or more.
pub fn markup_of_margin(margin: Percent) -> Option<Percent> {
    let rest = Decimal::ONE - margin.ratio();
    if rest > Decimal::ZERO { Percent::of_ratio(margin.ratio().checked_div(rest)?) } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dollars(amount: i64) -> Money {
        Money::dollars(amount)
    }

    #[test]
    fn markup_is_on_cost_and_margin_on_price() {
        // Cost 10,000 at 20% margin 12,500, at 20% markup 12,000:
        // https://www.jlconline.com/business/business-forum-the-mistake-of-markup_o
        assert_eq!(price_at_margin(dollars(10_000), Percent::new(20)), Some(dollars(12_500)));
        assert_eq!(price_at_markup(dollars(10_000), Percent::new(20)), Some(dollars(12_000)));
        // Cost 80,000: 96,000 and 100,000: https://www.contractorcfo.org/articles/markup-vs-margin-explained
        assert_eq!(price_at_markup(dollars(80_000), Percent::new(20)), Some(dollars(96_000)));
        assert_eq!(price_at_margin(dollars(80_000), Percent::new(20)), Some(dollars(100_000)));
        // 20% margin is 25% markup, 1000 becomes 1250: arithmetic on the formula.
        assert_eq!(price_at_margin(dollars(1_000), Percent::new(20)), Some(dollars(1_250)));
    }

    #[test]
    fn markup_and_margin_lead_to_each_other() {
        // Identities: 25% markup is 20% margin; 40% margin is 66.667% markup.
        assert_eq!(margin_of_markup(Percent::new(25)), Some(Percent::new(20)));
        assert_eq!(markup_of_margin(Percent::new(20)), Some(Percent::new(25)));
        let markup = markup_of_margin(Percent::new(40)).unwrap().hundredths();
        assert_eq!(markup.round_dp(3), "66.667".parse().unwrap());
        assert_eq!(markup_of_margin(Percent::new(100)), None);
        assert_eq!(price_at_margin(dollars(1), Percent::new(100)), None);
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
