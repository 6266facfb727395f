//! The exact value of a figure while it is computed with.
//!
//! In: what a figure keeps. Out: arithmetic with a checked dimension, divided only at the end.
//! May not know: names, reasons, steps.
//!
//! A dollar per foot is a non-ending decimal per millimetre, so that $0.125 per foot times a foot would fall short of
//! half a cent and be rounded the wrong way. A rate therefore keeps its number in its own units, and the units'
//! factors are multiplied before they are divided.

use std::cmp::Ordering;

use rust_decimal::Decimal;

use crate::measure::{Dimension, Quantity, QuantityFault};

use super::Shown;

/// A value in canonical units: `top / bottom`, times `up / down`, which are factors of units. The lower ones are above
/// zero. Factors stay apart because most of them cancel, and what cancels costs no digits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ratio {
    top: Decimal,
    bottom: Decimal,
    up: Decimal,
    down: Decimal,
    dimension: Dimension,
}

type FigureResult = Result<Ratio, QuantityFault>;

/// Whether two numbers are equal; nearly always they are so in every bit, which costs little to see.
fn equal(a: Decimal, b: Decimal) -> bool {
    a.serialize() == b.serialize() || a == b
}

fn product(a: Decimal, b: Decimal) -> Result<Decimal, QuantityFault> {
    // Most lower numbers are one.
    if equal(b, Decimal::ONE) {
        return Ok(a);
    }
    a.checked_mul(b).map(|number| number.normalize()).ok_or(QuantityFault::TooLarge)
}

fn quotient(a: Decimal, b: Decimal) -> Result<Decimal, QuantityFault> {
    if equal(b, Decimal::ONE) {
        return Ok(a);
    }
    a.checked_div(b).map(|number| number.normalize()).ok_or(QuantityFault::TooLarge)
}

impl From<Quantity> for Ratio {
    fn from(quantity: Quantity) -> Self {
        Ratio {
            top: quantity.value(),
            bottom: Decimal::ONE,
            up: Decimal::ONE,
            down: Decimal::ONE,
            dimension: quantity.dimension(),
        }
    }
}

impl Ratio {
    /// What a figure keeps: canonical units, or a rate in its own units.
    pub fn kept(number: Decimal, dimension: Dimension, shown: Shown) -> Ratio {
        let (up, down) = factors(shown);
        Ratio { top: number, bottom: Decimal::ONE, up, down, dimension }
    }

    /// The number a figure keeps: canonical units, or a rate in its own units.
    pub fn keep(self, shown: Shown) -> Result<Decimal, QuantityFault> {
        let (up, down) = factors(shown);
        let (up, down) = (product(self.up, down)?, product(self.down, up)?);
        if equal(up, down) {
            return quotient(self.top, self.bottom);
        }
        quotient(product(self.top, up)?, product(self.bottom, down)?)
    }

    pub fn dimension(self) -> Dimension {
        self.dimension
    }

    /// The value in canonical units, to 28 digits.
    pub fn quantity(self) -> Result<Quantity, QuantityFault> {
        Ok(Quantity::new(self.keep(Shown::Bare(self.dimension))?, self.dimension))
    }

    /// Whether it is its upper number and nothing else.
    pub fn is_plain(self) -> bool {
        [self.bottom, self.up, self.down].into_iter().all(|it| equal(it, Decimal::ONE))
    }

    /// Decimal places of its upper number.
    pub fn places(self) -> u32 {
        self.top.scale()
    }

    pub fn is_positive(self) -> bool {
        self.top > Decimal::ZERO
    }

    pub fn negated(self) -> Ratio {
        Ratio { top: if self.top.is_zero() { self.top } else { -self.top }, ..self }
    }

    /// Both over one lower number and in one unit.
    fn alike(self, other: Ratio) -> Result<(Ratio, Ratio), QuantityFault> {
        if self.dimension != other.dimension {
            return Err(QuantityFault::Unlike(self.dimension, other.dimension));
        }
        if equal(self.bottom, other.bottom) && equal(self.up, other.up) && equal(self.down, other.down) {
            return Ok((self, other));
        }
        let (up, down) = (Decimal::ONE, Decimal::ONE);
        let bottom = product(product(self.bottom, self.down)?, product(other.bottom, other.down)?)?;
        let top = |it: Ratio, beside: Ratio| product(product(it.top, it.up)?, product(beside.bottom, beside.down)?);
        let over = |top| Ratio { top, bottom, up, down, dimension: self.dimension };
        Ok((over(top(self, other)?), over(top(other, self)?)))
    }

    pub fn plus(self, other: Ratio) -> FigureResult {
        let (a, b) = self.alike(other)?;
        let top = a.top.checked_add(b.top).ok_or(QuantityFault::TooLarge)?;
        Ok(Ratio { top, ..a })
    }

    pub fn minus(self, other: Ratio) -> FigureResult {
        self.plus(other.negated())
    }

    pub fn compare(self, other: Ratio) -> Result<Ordering, QuantityFault> {
        let (a, b) = self.alike(other)?;
        Ok(a.top.cmp(&b.top))
    }

    pub fn times(self, other: Ratio) -> FigureResult {
        Ok(Ratio {
            top: product(self.top, other.top)?,
            bottom: product(self.bottom, other.bottom)?,
            up: product(self.up, other.up)?,
            down: product(self.down, other.down)?,
            dimension: self.dimension.times(other.dimension).ok_or(QuantityFault::TooLarge)?,
        })
    }

    pub fn over(self, other: Ratio) -> FigureResult {
        if other.top.is_zero() {
            return Err(QuantityFault::ByZero);
        }
        let sign = if other.top < Decimal::ZERO { -Decimal::ONE } else { Decimal::ONE };
        Ok(Ratio {
            top: product(product(self.top, other.bottom)?, sign)?,
            bottom: product(self.bottom, other.top.abs())?,
            up: product(self.up, other.down)?,
            down: product(self.down, other.up)?,
            dimension: self.dimension.per(other.dimension).ok_or(QuantityFault::TooLarge)?,
        })
    }

    /// Rounds to a multiple: `turn` makes a whole number of the number of multiples.
    pub fn by_multiple(self, multiple: Ratio, turn: fn(Decimal) -> Option<Decimal>) -> FigureResult {
        if self.dimension != multiple.dimension {
            return Err(QuantityFault::Unlike(self.dimension, multiple.dimension));
        }
        let number = self.over(multiple)?.quantity()?.value();
        let whole = turn(number).ok_or(QuantityFault::TooLarge)?;
        multiple.times(Quantity::count(whole).into())
    }
}

/// What a kept number is multiplied with and divided by to be in canonical units, as whole numbers, so that a number of 28
/// decimal places does not lose its last ones.
fn factors(shown: Shown) -> (Decimal, Decimal) {
    let Shown::Per(over, under) = shown else { return (Decimal::ONE, Decimal::ONE) };
    let (over, under) = (over.factor().normalize(), under.factor().normalize());
    let scale = over.scale().max(under.scale());
    // Factors of units have at most fourteen digits and thirteen places; neither product comes near the limit.
    let tens = (0..scale).fold(Decimal::ONE, |tens, _| tens * Decimal::TEN);
    ((over * tens).normalize(), (under * tens).normalize())
}
