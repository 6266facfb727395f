//! Rounding up and down to multiples, to cents, and sharing out.
//!
//! In: figures of this ledger. Out: rounded figures, and parts that add up to the whole.
//! May not know: how money is rounded or shared; the room `money` does both.

use rust_decimal::Decimal;

use crate::measure::{Dimension, Quantity, QuantityFault};
use crate::money::{AllocationFault, Money, Rounding, allocate, round_cents};

use super::arithmetic::Made;
use super::fault::{Cause, FigureFault};
use super::figure::Kept;
use super::{Called, FigureId, Ledger, Shown};

impl Ledger {
    /// The least multiple of `multiple` that is not below `input`: `38.25 ft` up to `10 ft` is `40 ft`.
    ///
    /// A quotient keeps 28 digits, so that a third times three falls short of one, and two thirds times three may pass
    /// two. What is within 10⁻¹⁵ of a multiple therefore counts as that multiple; nothing that is measured or sold is
    /// as near to one without being it.
    pub fn rounded_up(&mut self, input: FigureId, multiple: FigureId, called: Called) -> Made {
        self.by_multiple(Kept::RoundedUp, input, multiple, called, up)
    }

    /// The greatest multiple of `multiple` that is not above `input`; near a multiple as [`Ledger::rounded_up`].
    pub fn rounded_down(&mut self, input: FigureId, multiple: FigureId, called: Called) -> Made {
        self.by_multiple(Kept::RoundedDown, input, multiple, called, down)
    }

    /// An amount of money rounded to cents by the one rounding function, in this mode.
    pub fn rounded_to_cents(&mut self, input: FigureId, mode: Rounding, called: Called) -> Made {
        self.must_be_money(input, called)?;
        self.make(Kept::ToCents(mode), &[input], Shown::MONEY, called, |values| {
            let rounded = round_cents(Money::dollars(values[0].value()), mode);
            Ok(Quantity::new(rounded.to_dollars(), Dimension::MONEY))
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
            self.enter(value, Shown::MONEY, Kept::Share { part }, list, *called)
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
        step: Kept,
        input: FigureId,
        multiple: FigureId,
        called: Called,
        turn: fn(Quantity, Quantity) -> Result<Quantity, QuantityFault>,
    ) -> Made {
        if self.value(multiple).value() <= Decimal::ZERO {
            return Err(FigureFault::new(Cause::Multiple, called).with(self, &[input, multiple]));
        }
        self.make(step, &[input, multiple], self.shown(input), called, |values| turn(values[0], values[1]))
    }
}

/// The part of a multiple that is taken for nothing.
const NEAR: Decimal = Decimal::from_parts(1, 0, 0, false, 15);

fn down(value: Quantity, multiple: Quantity) -> Result<Quantity, QuantityFault> {
    value.compare(multiple)?;
    let (value, unit) = (value.value(), multiple.value());
    let number = value.checked_div(unit).ok_or(QuantityFault::TooLarge)?;
    let whole = number.checked_add(NEAR).ok_or(QuantityFault::TooLarge)?.floor();
    let result = whole.checked_mul(unit).ok_or(QuantityFault::TooLarge)?;
    Ok(Quantity::new(result, multiple.dimension()))
}

fn up(value: Quantity, multiple: Quantity) -> Result<Quantity, QuantityFault> {
    value.compare(multiple)?;
    let (value, unit) = (value.value(), multiple.value());
    let number = value.checked_div(unit).ok_or(QuantityFault::TooLarge)?;
    let whole = number.checked_sub(NEAR).ok_or(QuantityFault::TooLarge)?.ceil();
    let result = whole.checked_mul(unit).ok_or(QuantityFault::TooLarge)?;
    Ok(Quantity::new(result, multiple.dimension()))
}
