//! What figures would be if others had other values.
//!
//! In: figures wanted, and other values for some they rest on. Out: their values then; no figure is made.
//! May not know: why somebody asks.
//!
//! Only arithmetic is walked again. What was decided outside of it stays: which rules held, which entry of a table was taken,
//! which way a condition went.

use std::collections::BTreeMap;

use crate::measure::{Dimension, Quantity, QuantityFault};
use crate::money::{Money, allocate, round_cents};

use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::rounding::{down, up};
use super::{Called, FigureId, Ledger};

impl Ledger {
    /// The values that figures would have if others had those of `changes`, in the same order.
    pub fn revalued(
        &self,
        wanted: &[FigureId],
        changes: &BTreeMap<FigureId, Quantity>,
    ) -> Result<Vec<Quantity>, FigureFault> {
        let mut other: BTreeMap<FigureId, Ratio> = changes.iter().map(|(id, value)| (*id, (*value).into())).collect();
        let (Some(first), Some(last)) = (changes.keys().next(), wanted.iter().max()) else {
            return Ok(wanted.iter().map(|id| self.value(*id)).collect());
        };
        for id in self.ids().skip(first.index() + 1).take(last.index().saturating_sub(first.index())) {
            if !changes.contains_key(&id) && self.inputs(id).iter().any(|input| other.contains_key(input)) {
                let value = self.again(id, &other).map_err(|cause| {
                    let called = Called::arithmetic(self.figure(id).name);
                    FigureFault::new(cause, called).with(self, self.inputs(id))
                })?;
                other.insert(id, value);
            }
        }
        let value = |id: &FigureId| match other.get(id) {
            Some(ratio) => ratio
                .quantity()
                .map_err(|fault| FigureFault::new(Cause::Arithmetic(fault), Called::arithmetic(self.figure(*id).name))),
            None => Ok(self.value(*id)),
        };
        wanted.iter().map(value).collect()
    }

    /// One figure once more, its inputs being those of `other` where they stand there.
    fn again(&self, id: FigureId, other: &BTreeMap<FigureId, Ratio>) -> Result<Ratio, Cause> {
        let inputs = self.inputs(id);
        let values: Vec<Ratio> =
            inputs.iter().map(|input| other.get(input).copied().unwrap_or_else(|| self.exact(*input))).collect();
        let value = match self.kept_step(id) {
            StoredStep::ToCents(mode) => {
                let shown = self.shown(inputs[0]);
                let dollars = values[0].keep(shown).map_err(Cause::Arithmetic)?;
                Ratio::kept(round_cents(Money::dollars(dollars), mode).to_dollars(), values[0].dimension(), shown)
            }
            StoredStep::Share { part } => share(&values, part as usize)?,
            step => arithmetic(step, &values).map_err(Cause::Arithmetic)?,
        };
        // As it would have been kept.
        let shown = self.shown(id);
        let kept = value.keep(shown).map_err(Cause::Arithmetic)?;
        Ok(Ratio::kept(kept, value.dimension(), shown))
    }
}

fn arithmetic(step: StoredStep, values: &[Ratio]) -> Result<Ratio, QuantityFault> {
    let fold = |join: fn(Ratio, Ratio) -> Result<Ratio, QuantityFault>| {
        values.iter().skip(1).try_fold(values[0], |left, right| join(left, *right))
    };
    match step {
        StoredStep::Sum => fold(Ratio::plus),
        StoredStep::Product => fold(Ratio::times),
        StoredStep::Difference => values[0].minus(values[1]),
        StoredStep::Quotient => values[0].over(values[1]),
        StoredStep::Negated => Ok(values[0].negated()),
        StoredStep::RoundedUp => values[0].by_multiple(values[1], up),
        StoredStep::RoundedDown => values[0].by_multiple(values[1], down),
        StoredStep::Largest => fold(|best, next| Ok(if next.compare(best)?.is_gt() { next } else { best })),
        StoredStep::Smallest => fold(|best, next| Ok(if next.compare(best)?.is_lt() { next } else { best })),
        // A given or counted figure has no inputs and is never asked for; the others are their first input.
        _ => Ok(values[0]),
    }
}

fn share(values: &[Ratio], part: usize) -> Result<Ratio, Cause> {
    let numbers: Vec<_> = values
        .iter()
        .map(|it| it.quantity().map(Quantity::value))
        .collect::<Result<_, _>>()
        .map_err(Cause::Arithmetic)?;
    let parts = allocate(Money::dollars(numbers[0]), &numbers[1..]).map_err(|_| Cause::Weights)?;
    let amount = parts.get(part).copied().unwrap_or(Money::ZERO);
    Ok(Quantity::new(amount.to_dollars(), Dimension::MONEY).into())
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::*;
    use crate::ledger::{Reason, Shown};
    use crate::measure::Unit;
    use crate::money::Rounding;

    /// A little of every step; the first figure is what is changed.
    fn ledger(feet: Decimal) -> (Ledger, FigureId, Vec<FigureId>) {
        let mut it = Ledger::new();
        let reason = it.reason(Reason::Clause("a test".into()));
        let called = |name: &'static str| Called::new(name, reason);
        let length = it.given(Quantity::in_units(feet, Unit::Foot).unwrap(), called("length")).unwrap();
        let stick = it.given(Quantity::in_units(10.into(), Unit::Foot).unwrap(), called("stick")).unwrap();
        let price = it.given_rate(Decimal::new(1255, 3), Unit::Dollar, Unit::Foot, called("price")).unwrap();
        let made = Called::arithmetic("made");
        let up = it.rounded_up(length, stick, made).unwrap();
        let down = it.rounded_down(length, stick, made).unwrap();
        let extra = it.difference(up, down, made).unwrap();
        let sum = it.sum(&[up, extra, length], made).unwrap();
        let most = it.largest(&[sum, stick], made).unwrap();
        let least = it.smallest(&[sum, stick], made).unwrap();
        let raw = it.product(&[most, price], made.shown(Shown::MONEY)).unwrap();
        let cents = it.rounded_to_cents(raw, Rounding::HalfAwayFromZero, made).unwrap();
        let negated = it.negated(cents, made).unwrap();
        let part = it.quotient(length, sum, made).unwrap();
        let shares = it.shares(cents, &[(length, made), (stick, made)]).unwrap();
        let carried = it.carried(part, made).unwrap();
        let all = [up, down, extra, sum, most, least, raw, cents, negated, part, carried].into_iter().chain(shares);
        let all = all.collect();
        (it, length, all)
    }

    /// What is walked again is what the ledger would have made of the other value (arithmetic, no source needed).
    #[test]
    fn another_value_gives_what_another_ledger_holds() {
        for (from, to) in [(3_825, 4_100), (4_100, 3_825), (1_000, 333), (777, 12_001)] {
            let (from, to) = (Decimal::new(from, 2), Decimal::new(to, 2));
            let (ledger, length, all) = ledger(from);
            let (other, _, others) = self::ledger(to);
            let changes = BTreeMap::from([(length, Quantity::in_units(to, Unit::Foot).unwrap())]);
            let found = ledger.revalued(&all, &changes).unwrap();
            let expected: Vec<Quantity> = others.iter().map(|id| other.value(*id)).collect();
            assert_eq!(found, expected, "{from} ft to {to} ft");
            assert_eq!(
                ledger.revalued(&all, &BTreeMap::new()).unwrap(),
                all.iter().map(|id| ledger.value(*id)).collect::<Vec<_>>()
            );
        }
    }
}
