//! From direct cost to price: the declared build-up, allowances, adjustments, bond.
//!
//! In: totals and terms. Out: lines of the build-up. May not know: items, labor.

use rust_decimal::Decimal;

use super::price_builder::{PriceBuilder, PriceResult};
use super::{Named, Totals};
use crate::catalog::{Mark, MarkBase, MarkKind, Tier};
use crate::ledger::{Called, Cause, FigureFault, FigureId, Shown};
use crate::measure::Unit;
use crate::money::{self, Money};

impl PriceBuilder<'_, '_> {
    /// The lines of the build-up, in the order of the terms. `whose` stands before the name of each figure; empty for the
    /// job itself.
    pub(super) fn marks(&mut self, totals: &Totals, whose: &str) -> Result<Vec<Named>, FigureFault> {
        let terms = self.terms;
        let mut marks: Vec<Named> = Vec::new();
        for mark in &terms.marks {
            let mut bases = Vec::new();
            for base in &mark.of {
                match base {
                    MarkBase::Direct => bases.push(totals.direct),
                    MarkBase::Material => bases.push(totals.material),
                    MarkBase::Labor => bases.push(totals.labor),
                    MarkBase::Subcontract => bases.push(totals.subcontract),
                    MarkBase::Equipment => bases.push(totals.equipment),
                    MarkBase::Travel => bases.push(totals.travel),
                    MarkBase::Running => {
                        bases.push(totals.direct);
                        bases.extend(marks.iter().map(|earlier| earlier.amount));
                    }
                }
            }
            let base = self.sum_money(&bases, &format!("{whose}base of {}", mark.name))?;
            let amount = self.mark(mark, base, &format!("{whose}{}", mark.name))?;
            let of: Vec<&str> = mark.of.iter().map(|base| base.word()).collect();
            let how = format!("{} {} on {}", mark.rate.print(), mark.kind.word(), of.join(" and "));
            marks.push(Named { name: mark.name.clone(), how, base: Some(base), amount });
        }
        Ok(marks)
    }

    /// Markup: base times rate. Margin: base over one less the rate, less base.
    fn mark(&mut self, mark: &Mark, base: FigureId, name: &str) -> PriceResult {
        let rate = self.rate(mark.rate, &format!("rate of {}", mark.name), &mark.place)?;
        match mark.kind {
            MarkKind::Markup => self.cents_of(&[base, rate], name),
            MarkKind::Margin => {
                let one = self.step(Decimal::ONE, Unit::Each, "one", "a margin is a part of the price")?;
                let rest = self.ledger().difference(one, rate, Called::arithmetic("one less the margin"))?;
                let price = format!("price that leaves {name}");
                let price = self.ledger().quotient(base, rest, Called::arithmetic(&price).shown(Shown::MONEY))?;
                let exact = self.ledger().difference(price, base, Called::arithmetic(name))?;
                self.rounded(exact, name)
            }
        }
    }

    pub(super) fn allowances(&mut self) -> Result<Vec<Named>, FigureFault> {
        let job = self.job;
        let each = job.allowances.iter().map(|it| {
            let name = format!("{} {}", it.number, it.title);
            let amount = self.money(it.amount, &format!("allowance {name}"), &it.place, "")?;
            Ok(Named { name, how: String::new(), base: None, amount })
        });
        each.collect()
    }

    pub(super) fn adjustments(&mut self) -> Result<Vec<Named>, FigureFault> {
        let job = self.job;
        let each = job.adjustments.iter().map(|it| {
            let amount = self.money(it.amount, &format!("adjustment: {}", it.title), &it.place, &it.reason)?;
            Ok(Named { name: it.title.clone(), how: it.reason.clone(), base: None, amount })
        });
        each.collect()
    }

    /// The bond premium, part of its own base: `(base × rate + what the tiers below add) / (1 − rate)` in the tier that
    /// holds the price with the premium in it.
    pub(super) fn bond(&mut self, before: FigureId) -> Result<Option<Named>, FigureFault> {
        let asked = self.catalog.profiles.get(&self.job.head.profile).is_some_and(|profile| profile.bond);
        let terms = self.terms;
        if !asked || terms.bond.is_empty() {
            return Ok(None);
        }
        let base = Money::dollars(self.ledger().value(before).value());
        let Some(at) = holding_tier(&terms.bond, base) else {
            return Err(FigureFault { cause: Cause::Nothing, name: "bond premium".to_owned(), operands: Vec::new() });
        };
        let tier = &terms.bond[at];
        let rate = self.rate(tier.rate, "bond rate of the price's tier", &tier.place)?;
        let mut parts = vec![self.ledger().product(&[before, rate], Called::arithmetic("bond rate on the price"))?];
        for lower in 0..at {
            parts.push(self.tier_below(&terms.bond, lower, rate)?);
        }
        let over = self.sum_money(&parts, "premium before its own share")?;
        let one = self.step(Decimal::ONE, Unit::Each, "one", "the premium is part of its own base")?;
        let rest = self.ledger().difference(one, rate, Called::arithmetic("one less the bond rate"))?;
        let exact = self.ledger().quotient(over, rest, Called::arithmetic("bond premium").shown(Shown::MONEY))?;
        let amount = self.rounded(exact, "bond premium")?;
        let how = format!("{} in the price's tier, part of the price itself", tier.rate.print());
        Ok(Some(Named { name: "Bond premium".to_owned(), how, base: Some(before), amount }))
    }

    /// What a tier below adds to the rate of the price's own tier: its width times the difference of the rates.
    fn tier_below(&mut self, tiers: &[Tier], at: usize, rate: FigureId) -> PriceResult {
        let tier = &tiers[at];
        let lower = if at == 0 { Money::ZERO } else { tiers[at - 1].to.unwrap_or(Money::ZERO) };
        let upper = tier.to.unwrap_or(lower);
        let lower = self.money(lower, "start of a tier", &tier.place, "")?;
        let upper = self.money(upper, "end of a tier", &tier.place, "")?;
        let width = self.ledger().difference(upper, lower, Called::arithmetic("width of a tier"))?;
        let own = self.rate(tier.rate, "bond rate of a tier below", &tier.place)?;
        let more = self.ledger().difference(own, rate, Called::arithmetic("rate above that of the price's tier"))?;
        self.ledger().product(&[width, more], Called::arithmetic("what a tier below adds").shown(Shown::MONEY))
    }
}

/// The tier that holds the price with the premium in it.
fn holding_tier(tiers: &[Tier], base: Money) -> Option<usize> {
    let typed = tiers.iter().map(|tier| money::Tier { up_to: tier.to, rate: tier.rate }).collect();
    let total = money::Tiers::new(typed).ok()?.premium_in_its_own_base(base)?.total;
    tiers.iter().position(|tier| tier.to.is_none_or(|to| total <= to))
}
