//! What figures would be if others had other values.
//!
//! In: figures wanted, and other values for some they rest on. Out: their values then; no figure is made.
//! May not know: why somebody asks.
//!
//! Only arithmetic is walked again. What was decided outside of it stays: which rules held, which entry of a table was taken,
//! which way a condition went.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;
use rustc_hash::FxHashMap;

use crate::measure::{Dimension, Quantity, QuantityFault};
use crate::money::{Money, allocate, round_cents};

use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::rounding::{down, up};
use super::{Called, FigureId, Ledger};

/// Some figures of a ledger, to be worked out again with other values of what they rest on. A question costs what lies between
/// the change and the figures wanted, however much else the ledger holds.
pub struct Revaluation<'l> {
    ledger: &'l Ledger,
    wanted: Vec<FigureId>,
    /// By figure: those made from it on which the wanted ones rest; none for a figure on which they do not.
    uses: FxHashMap<FigureId, Vec<FigureId>>,
}

impl<'l> Revaluation<'l> {
    /// Prepares the question.
    pub fn of(ledger: &'l Ledger, wanted: Vec<FigureId>) -> Self {
        let mut uses: FxHashMap<FigureId, Vec<FigureId>> = wanted.iter().map(|id| (*id, Vec::new())).collect();
        let mut open = wanted.clone();
        while let Some(next) = open.pop() {
            for input in ledger.inputs(next) {
                let using = uses.entry(*input).or_insert_with(|| {
                    open.push(*input);
                    Vec::new()
                });
                if using.last() != Some(&next) {
                    using.push(next);
                }
            }
        }
        Revaluation { ledger, wanted, uses }
    }

    /// The figures wanted.
    pub fn wanted(&self) -> &[FigureId] {
        &self.wanted
    }

    /// The values that they would have if others had those of `changes`, in the same order.
    ///
    /// # Errors
    /// Arithmetic that has no result.
    pub fn with(&self, changes: &BTreeMap<FigureId, Quantity>) -> Result<Vec<Quantity>, FigureFault> {
        let ledger = self.ledger;
        let mut other: BTreeMap<FigureId, Ratio> = changes.iter().map(|(id, value)| (*id, (*value).into())).collect();
        let uses = |id: &FigureId| self.uses.get(id).into_iter().flatten().copied();
        // What is made from a figure has a higher number, so the least of those open rests on none of the others.
        let mut open: BTreeSet<FigureId> = changes.keys().flat_map(uses).collect();
        while let Some(id) = open.pop_first() {
            if changes.contains_key(&id) {
                continue;
            }
            let value = ledger.again(id, &other).map_err(|cause| {
                let called = Called::arithmetic(ledger.figure(id).name);
                FigureFault::new(cause, called).with(ledger, ledger.inputs(id))
            })?;
            other.insert(id, value);
            open.extend(uses(&id));
        }
        let fault = |fault, id| FigureFault::new(Cause::Arithmetic(fault), Called::arithmetic(ledger.figure(id).name));
        let value = |id: &FigureId| match other.get(id) {
            Some(ratio) => ratio.quantity().map_err(|found| fault(found, *id)),
            None => Ok(ledger.value(*id)),
        };
        self.wanted.iter().map(value).collect()
    }
}

impl Ledger {
    /// One figure once more, its inputs being those of `other` where they stand there.
    fn again(&self, id: FigureId, other: &BTreeMap<FigureId, Ratio>) -> Result<Ratio, Cause> {
        let inputs = self.inputs(id);
        if let Some(sum) = self.sum_again(id, other) {
            return Ok(sum);
        }
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

/// The most decimal places with which adding and taking away lose no digit of any amount or quantity of a job.
const EXACT: u32 = 10;

impl Ledger {
    /// A long sum of which little changed: what it was, and by how much its terms differ. Nothing where that would not come to the
    /// very same digits as adding all of them.
    fn sum_again(&self, id: FigureId, other: &BTreeMap<FigureId, Ratio>) -> Option<Ratio> {
        let inputs = self.inputs(id);
        if self.kept_step(id) != StoredStep::Sum || inputs.len() < 4 * other.len().max(8) {
            return None;
        }
        let plain = |of: Ratio| of.is_plain().then_some(of).filter(|it| it.places() <= EXACT);
        let mut sum = plain(self.exact(id))?;
        for (changed, value) in other {
            let times = Decimal::from(inputs.iter().filter(|input| *input == changed).count());
            if !times.is_zero() {
                let differs = plain(*value)?.minus(plain(self.exact(*changed))?).ok()?;
                sum = sum.plus(differs.times(Quantity::count(times).into()).ok()?).ok()?;
            }
        }
        Some(sum)
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
            let revaluation = Revaluation::of(&ledger, all.clone());
            let found = revaluation.with(&changes).unwrap();
            let expected: Vec<Quantity> = others.iter().map(|id| other.value(*id)).collect();
            assert_eq!(found, expected, "{from} ft to {to} ft");
            assert_eq!(
                revaluation.with(&BTreeMap::new()).unwrap(),
                all.iter().map(|id| ledger.value(*id)).collect::<Vec<_>>()
            );
        }
    }

    /// A long sum of which one term changed comes to the digits of a ledger with the other term (arithmetic, no source needed).
    #[test]
    fn a_long_sum_is_worked_out_from_what_differs() {
        let all = |first: &str| {
            let mut it = Ledger::new();
            let reason = it.reason(Reason::Clause("a test".into()));
            let made: Vec<FigureId> = (0..100)
                .map(|at| {
                    let value: Decimal = if at == 0 { first.parse().unwrap() } else { Decimal::new(at * 37 + 1, 2) };
                    let quantity = Quantity::in_units(value, Unit::Hour).unwrap();
                    it.given(quantity, Called::new(&format!("term {at}"), reason)).unwrap()
                })
                .collect();
            let sum = it.sum(&made, Called::arithmetic("sum")).unwrap();
            let most = it.largest(&[sum, made[0]], Called::arithmetic("most")).unwrap();
            (it, made[0], vec![sum, most])
        };
        for (was, is) in [("1.25", "9.75"), ("8", "0"), ("1.25", "0.3333333333333333333333333333"), ("2.5", "2.5")] {
            let ((ledger, term, wanted), (other, same, others)) = (all(was), all(is));
            let found = Revaluation::of(&ledger, wanted).with(&BTreeMap::from([(term, other.value(same))])).unwrap();
            let expected: Vec<Quantity> = others.iter().map(|id| other.value(*id)).collect();
            assert_eq!(found, expected, "{was} h to {is} h");
        }
    }
}
