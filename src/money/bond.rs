//! Premiums in tiers, where the premium is part of what it is charged on.
//!
//! In: tiers as data, a base. Out: premiums, not rounded. May not know: which surety, which bond.

use rust_decimal::Decimal;

use super::{Money, Percent};

/// One step of a premium.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tier {
    /// The amount up to which the rate is charged; nothing for the last tier.
    pub up_to: Option<Money>,
    /// The rate on the part of the base within this tier.
    pub rate: Percent,
}

/// Why a list of tiers is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TierFault {
    /// No tier at all.
    Empty,
    /// The limit of this tier, by index, is not above that of the tier before, or above zero.
    NotRising(usize),
    /// A tier before the last has no limit, or the last one has one.
    OpenTier(usize),
    /// A rate below zero, or of 100% and more, which no base can bear that includes its own premium.
    Rate(usize),
}

/// A premium that is linear within each tier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tiers(Vec<Tier>);

/// A base with the premium charged on both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Premium {
    /// The premium, not rounded.
    pub premium: Money,
    /// Base and premium.
    pub total: Money,
}

impl Tiers {
    /// Checks a list of tiers.
    ///
    /// # Errors
    /// The first fault, by the index of its tier.
    pub fn new(tiers: Vec<Tier>) -> Result<Tiers, TierFault> {
        let last = tiers.len().checked_sub(1).ok_or(TierFault::Empty)?;
        let mut below = Money::ZERO;
        for (index, tier) in tiers.iter().enumerate() {
            if tier.up_to.is_none() != (index == last) {
                return Err(TierFault::OpenTier(index));
            }
            if tier.up_to.is_some_and(|limit| limit <= below) {
                return Err(TierFault::NotRising(index));
            }
            if tier.rate < Percent::default() || tier.rate >= Percent::new(100) {
                return Err(TierFault::Rate(index));
            }
            below = tier.up_to.unwrap_or(below);
        }
        Ok(Tiers(tiers))
    }

    /// The premium on a total that includes the premium itself. In the tier that holds the total `P`, the premium is
    /// `q + r P`, so that `P = (base + q) / (1 - r)`; the premium is continuous and rises slower than `P`, so exactly one
    /// tier holds its own `P`. Nothing if a figure does not fit in 28 digits.
    pub fn premium_in_its_own_base(&self, base: Money) -> Option<Premium> {
        let mut below = Money::ZERO;
        let mut paid_below = Money::ZERO;
        for tier in &self.0 {
            let offset = paid_below - tier.rate.of(below)?;
            let total = base.checked_plus(offset)?.over(Decimal::ONE - tier.rate.ratio())?;
            match tier.up_to {
                Some(limit) if total > limit => {
                    paid_below = paid_below.checked_plus(tier.rate.of(limit - below)?)?;
                    below = limit;
                }
                _ if base <= Money::ZERO => return Some(Premium { premium: Money::ZERO, total: base }),
                _ => return Some(Premium { premium: total - base, total }),
            }
        }
        // The last tier has no limit, by construction.
        None
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Rounding, round_cents};
    use super::*;

    impl Tiers {
        /// The premium on a base, not rounded; none on a base of zero or less. Nothing if it does not fit in 28 digits.
        fn premium(&self, base: Money) -> Option<Money> {
            let mut premium = Money::ZERO;
            let mut below = Money::ZERO;
            for tier in &self.0 {
                let top = tier.up_to.map_or(base, |limit| limit.min(base));
                if top > below {
                    premium = premium.checked_plus(tier.rate.of(top - below)?)?;
                }
                below = tier.up_to.unwrap_or(below);
            }
            Some(premium)
        }
    }

    /// 2.5% of the first 100,000, 1.5% of the next 400,000, 1.0% above: the example of
    /// https://cgaa.org/article/performance-bond-pricing and https://buysuretybonds.com/tools/calculator/performance-bond/
    fn example() -> Tiers {
        let tier = |limit: Option<i64>, tenths: i64| Tier {
            up_to: limit.map(Money::dollars),
            rate: Percent::new(Decimal::new(tenths, 1)),
        };
        Tiers::new(vec![tier(Some(100_000), 25), tier(Some(500_000), 15), tier(None, 10)]).unwrap()
    }

    #[test]
    fn premiums_of_the_published_scale() {
        // The premiums are arithmetic on those rates.
        let rows = [
            (0, 0),
            (50_000, 1_250),
            (100_000, 2_500),
            (150_000, 3_250),
            (250_000, 4_750),
            (500_000, 8_500),
            (750_000, 11_000),
            (1_000_000, 13_500),
        ];
        for (base, premium) in rows {
            assert_eq!(example().premium(Money::dollars(base)), Some(Money::dollars(premium)), "{base}");
        }
    }

    #[test]
    fn a_premium_in_its_own_base_is_the_fixed_point() {
        // (200,000 + 1,000) / 0.985 = 204,060.91: arithmetic.
        let found = example().premium_in_its_own_base(Money::dollars(200_000)).unwrap();
        assert_eq!(round_cents(found.total, Rounding::default()).plain(), "204060.91");
        assert_eq!(round_cents(found.premium, Rounding::default()).plain(), "4060.91");
        for base in (0..1_500_000).step_by(12_345) {
            let base = Money::dollars(base);
            let found = example().premium_in_its_own_base(base).unwrap();
            let again = example().premium(found.total).unwrap();
            assert!((again - found.premium).abs().to_dollars() < Decimal::new(1, 15), "{base:?}");
            assert_eq!(found.total - found.premium, base);
        }
    }

    #[test]
    fn a_total_on_the_edge_of_a_tier_is_the_same_from_both_sides() {
        // 100,000 with 2.5% in it: a base of 97,500.
        let found = example().premium_in_its_own_base(Money::dollars(97_500)).unwrap();
        assert_eq!(found, Premium { premium: Money::dollars(2_500), total: Money::dollars(100_000) });
    }

    #[test]
    fn tiers_are_checked() {
        let tier = |limit: Option<i64>, rate: i64| Tier { up_to: limit.map(Money::dollars), rate: Percent::new(rate) };
        let fault = |tiers: Vec<Tier>| Tiers::new(tiers).unwrap_err();
        assert_eq!(fault(vec![]), TierFault::Empty);
        assert_eq!(fault(vec![tier(Some(5), 1)]), TierFault::OpenTier(0));
        assert_eq!(fault(vec![tier(None, 1), tier(None, 1)]), TierFault::OpenTier(0));
        assert_eq!(fault(vec![tier(Some(5), 1), tier(Some(5), 1), tier(None, 1)]), TierFault::NotRising(1));
        assert_eq!(fault(vec![tier(None, 100)]), TierFault::Rate(0));
    }
}
