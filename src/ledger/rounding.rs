//! Rounding up and down to multiples, to cents, and sharing out.
//!
//! In: figures of this ledger. Out: rounded figures, and parts that add up to the whole.
//! May not know: how money is rounded or shared; the room `money` does both.

use rust_decimal::Decimal;

use crate::measure::{Dimension, Quantity, QuantityFault, Unit};
use crate::money::{AllocationFault, Money, Rounding, allocate, round_cents};

use super::arithmetic::FigureResult;
use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::{Called, FigureId, Ledger, Shown};

impl Ledger {
    /// The least multiple of `multiple` that is not below `input`: `38.25 ft` up to `10 ft` is `40 ft`.
    ///
    /// A quotient keeps 28 digits, so that a third times three falls short of one, and two thirds times three may pass
    /// two. What is within 10⁻¹⁵ of a multiple therefore counts as that multiple; nothing that is measured or sold is
    /// as near to one without being it.
    pub fn rounded_up(&mut self, input: FigureId, multiple: FigureId, called: Called) -> FigureResult {
        self.by_multiple(StoredStep::RoundedUp, input, multiple, called, up)
    }

    /// The greatest multiple of `multiple` that is not above `input`; near a multiple as [`Ledger::rounded_up`].
    pub fn rounded_down(&mut self, input: FigureId, multiple: FigureId, called: Called) -> FigureResult {
        self.by_multiple(StoredStep::RoundedDown, input, multiple, called, down)
    }

    /// An amount of money, or a price per unit, rounded to cents by the one rounding function, in this mode.
    pub fn rounded_to_cents(&mut self, input: FigureId, mode: Rounding, called: Called) -> FigureResult {
        let shown = self.shown(input);
        let (Shown::In(Unit::Dollar) | Shown::Per(Unit::Dollar, _)) = shown else {
            let other = self.value(input).dimension();
            return Err(FigureFault::new(Cause::NotMoney(other), called).with(self, &[input]));
        };
        // A dollar is its own canonical unit, so that either way dollars are kept.
        let cents = round_cents(Money::dollars(self.kept(input)), mode).to_dollars();
        self.make(StoredStep::ToCents(mode), &[input], shown, called, |values| {
            Ok(Ratio::kept(cents, values[0].dimension(), shown))
        })
    }

    /// Shares out an amount of whole cents by weights, so that the parts add up to it: one part for each weight, named
    /// by the name beside it. All parts are made together.
    pub fn shares(&mut self, whole: FigureId, parts: &[(FigureId, Called)]) -> Result<Vec<FigureId>, FigureFault> {
        let Some((_, first)) = parts.first() else { return Ok(Vec::new()) };
        self.must_be_money(whole, *first)?;
        let inputs: Vec<FigureId> = std::iter::once(whole).chain(parts.iter().map(|(weight, _)| *weight)).collect();
        let weights: Vec<Quantity> = parts.iter().map(|(weight, _)| self.value(*weight)).collect();
        let refuse = |cause| FigureFault::new(cause, *first).with(self, &inputs);
        if weights.iter().any(|weight| weight.dimension() != weights[0].dimension()) {
            return Err(refuse(Cause::Weights));
        }
        let weights: Vec<Decimal> = weights.iter().map(|weight| weight.value()).collect();
        let amounts = allocate(Money::dollars(self.value(whole).value()), &weights).map_err(|fault| {
            refuse(match fault {
                AllocationFault::NegativeWeight(_) | AllocationFault::NoWeight => Cause::Weights,
                AllocationFault::NotCents => Cause::NotCents,
                AllocationFault::TooLarge => Cause::Arithmetic(QuantityFault::TooLarge),
            })
        })?;
        let list = self.list(inputs);
        let made = amounts.into_iter().zip(parts).zip(0..).map(|((amount, (_, called)), part)| {
            let value = Quantity::new(amount.to_dollars(), Dimension::MONEY);
            self.enter(value.into(), Shown::MONEY, StoredStep::Share { part }, list, *called)
        });
        made.collect()
    }

    fn must_be_money(&self, input: FigureId, called: Called) -> Result<(), FigureFault> {
        match self.value(input).dimension() {
            Dimension::MONEY => Ok(()),
            other => Err(FigureFault::new(Cause::NotMoney(other), called).with(self, &[input])),
        }
    }

    fn by_multiple(
        &mut self,
        step: StoredStep,
        input: FigureId,
        multiple: FigureId,
        called: Called,
        turn: fn(Decimal) -> Option<Decimal>,
    ) -> FigureResult {
        if !self.exact(multiple).is_positive() {
            return Err(FigureFault::new(Cause::Multiple, called).with(self, &[input, multiple]));
        }
        self.make(step, &[input, multiple], self.shown(input), called, |values| values[0].by_multiple(values[1], turn))
    }
}

/// The part of a multiple that is taken for nothing.
const NEAR: Decimal = Decimal::from_parts(1, 0, 0, false, 15);

pub(super) fn down(number: Decimal) -> Option<Decimal> {
    Some(number.checked_add(NEAR)?.floor())
}

pub(super) fn up(number: Decimal) -> Option<Decimal> {
    Some(number.checked_sub(NEAR)?.ceil())
}
