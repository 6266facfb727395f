//! Why an operation made no figure.
//!
//! In: the cause and the figures involved. Out: a typed fault with a plain sentence.
//! May not know: where in the input the operation was asked for.

use std::fmt;

use crate::measure::{Dimension, QuantityFault};

use super::{Called, FigureId, Ledger, Shown, kind_of};

/// An operation that made no figure: why, what it should have been called, and what went in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FigureFault {
    /// Why.
    pub cause: Cause,
    /// The name the figure would have had.
    pub name: String,
    /// Name and printed form of what went in, at most the first four.
    pub operands: Vec<(String, String)>,
}

/// What is wrong with an operation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Unlike dimensions, a result too large, or division by zero.
    Arithmetic(QuantityFault),
    /// The value has one dimension, the unit it should print in another.
    Shown(Dimension, Shown),
    /// The greatest, least or product of nothing, or a sum of nothing without a unit.
    Nothing,
    /// A multiple to round to that is not above zero.
    Multiple,
    /// Cents or shares of something that is not money.
    NotMoney(Dimension),
    /// Shares of an amount that is not whole cents.
    NotCents,
    /// Shares by weights that are unlike, below zero, or all zero.
    Weights,
    /// A figure given without a place, a rule or a clause.
    NoReason,
    /// More figures than a ledger can number.
    Full,
}

impl FigureFault {
    pub(super) fn new(cause: Cause, called: Called) -> Self {
        FigureFault { cause, name: called.name.to_owned(), operands: Vec::new() }
    }

    pub(super) fn with(mut self, ledger: &Ledger, inputs: &[FigureId]) -> Self {
        let say = |id: &FigureId| (ledger.figure(*id).name.to_owned(), ledger.print(*id));
        self.operands = inputs.iter().take(4).map(say).collect();
        self
    }
}

impl fmt::Display for Cause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Cause::Arithmetic(QuantityFault::Unlike(left, right)) => {
                write!(f, "{} and {} do not go together", kind_of(*left), kind_of(*right))
            }
            Cause::Arithmetic(QuantityFault::TooLarge) => f.write_str("the result is too large to be kept exactly"),
            Cause::Arithmetic(QuantityFault::ByZero) => f.write_str("it is divided by zero"),
            Cause::Shown(dimension, shown) => {
                write!(f, "{} cannot be printed in {}", kind_of(*dimension), shown.words())
            }
            Cause::Nothing => f.write_str("there is nothing to take it from"),
            Cause::Multiple => f.write_str("the multiple to round to is not above zero"),
            Cause::NotMoney(dimension) => write!(f, "{} is not money", kind_of(*dimension)),
            Cause::NotCents => f.write_str("the amount to share out is not a whole number of cents"),
            Cause::Weights => f.write_str("the weights to share by are unlike, below zero, or all zero"),
            Cause::NoReason => f.write_str("it was given without a place, a rule or a clause"),
            Cause::Full => f.write_str("there are more figures than a ledger can number"),
        }
    }
}

impl fmt::Display for FigureFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.name, self.cause)?;
        for (at, (name, printed)) in self.operands.iter().enumerate() {
            write!(f, "{} {name} is {printed}", if at == 0 { ";" } else { "," })?;
        }
        Ok(())
    }
}

impl std::error::Error for FigureFault {}
