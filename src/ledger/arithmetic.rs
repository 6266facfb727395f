//! Entries, counts, and the four operations.
//!
//! In: quantities with a reason, figures of this ledger. Out: new figures, or a typed fault.
//! May not know: what the figures stand for.

use rust_decimal::Decimal;

use crate::measure::{Quantity, QuantityFault, Unit};

use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::{Called, FigureId, Ledger, ReasonId, Shown};

/// What every operation gives.
pub(super) type FigureResult = Result<FigureId, FigureFault>;

impl Ledger {
    /// A value that stands in the job, the catalog, a rule or a clause. What is given twice under one name and reason
    /// is one figure.
    pub fn given(&mut self, value: Quantity, called: Called) -> FigureResult {
        self.entry(value.into(), Shown::usual(value.dimension()), called)
    }

    /// A rate that stands in the job or the catalog, so many of one unit per another: `$12.50 per ft`. It is kept exactly.
    pub fn given_rate(&mut self, number: Decimal, over: Unit, under: Unit, called: Called) -> FigureResult {
        let fault = |fault| FigureFault::new(Cause::Arithmetic(fault), called);
        let shown = Shown::Per(over, under);
        let dimension = over.dimension().per(under.dimension()).ok_or_else(|| fault(QuantityFault::TooLarge))?;
        self.entry(Ratio::kept(number, dimension, shown), shown, called)
    }

    fn entry(&mut self, value: Ratio, usual: Shown, called: Called) -> FigureResult {
        if called.reason == ReasonId::ARITHMETIC {
            return Err(FigureFault::new(Cause::NoReason, called));
        }
        if let Some(id) = self.known(value, called) {
            return Ok(id);
        }
        let none = self.list([]);
        let id = self.enter(value, usual, StoredStep::Given, none, called)?;
        self.remember(id);
        Ok(id)
    }

    /// The number of entities, with what was counted, such as `powered leaves of site North`.
    pub fn counted(&mut self, number: usize, what: &str, called: Called) -> FigureResult {
        let none = self.list([]);
        let what = self.keep(what);
        self.enter(Quantity::count(number).into(), Shown::EACH, StoredStep::Counted(what), none, called)
    }

    /// The same figure under another name, or printed in another unit.
    pub fn carried(&mut self, input: FigureId, called: Called) -> FigureResult {
        self.make(StoredStep::Carried, &[input], self.shown(input), called, |values| Ok(values[0]))
    }

    /// The sum of all inputs. A sum of nothing is zero in the unit that `called` names.
    pub fn sum(&mut self, inputs: &[FigureId], called: Called) -> FigureResult {
        let Some(first) = inputs.first() else { return self.zero(called) };
        self.make(StoredStep::Sum, inputs, self.shown(*first), called, |values| fold(values, Ratio::plus))
    }

    /// The first less the second.
    pub fn difference(&mut self, from: FigureId, less: FigureId, called: Called) -> FigureResult {
        self.make(StoredStep::Difference, &[from, less], self.shown(from), called, |values| values[0].minus(values[1]))
    }

    /// The product of all inputs.
    pub fn product(&mut self, inputs: &[FigureId], called: Called) -> FigureResult {
        if inputs.is_empty() {
            return Err(FigureFault::new(Cause::Nothing, called));
        }
        let shown = inputs.iter().skip(1).fold(self.shown(inputs[0]), |left, right| left.times(self.shown(*right)));
        self.make(StoredStep::Product, inputs, shown, called, |values| fold(values, Ratio::times))
    }

    /// The first by the second, to 28 digits.
    pub fn quotient(&mut self, over: FigureId, under: FigureId, called: Called) -> FigureResult {
        let shown = self.shown(over).per(self.shown(under));
        self.make(StoredStep::Quotient, &[over, under], shown, called, |values| values[0].over(values[1]))
    }

    /// The input with the other sign.
    pub fn negated(&mut self, input: FigureId, called: Called) -> FigureResult {
        self.make(StoredStep::Negated, &[input], self.shown(input), called, |values| Ok(values[0].negated()))
    }

    fn zero(&mut self, called: Called) -> FigureResult {
        let dimension = called.shown.and_then(Shown::dimension);
        let dimension = dimension.ok_or_else(|| FigureFault::new(Cause::Nothing, called))?;
        let none = self.list([]);
        self.enter(Quantity::new(0.into(), dimension).into(), Shown::usual(dimension), StoredStep::Sum, none, called)
    }

    /// Computes a value from the inputs' values and enters it; a fault names the inputs.
    pub(super) fn make(
        &mut self,
        step: StoredStep,
        inputs: &[FigureId],
        usual: Shown,
        called: Called,
        compute: impl FnOnce(&[Ratio]) -> Result<Ratio, QuantityFault>,
    ) -> FigureResult {
        let values: Vec<Ratio> = inputs.iter().map(|id| self.exact(*id)).collect();
        let value =
            compute(&values).map_err(|fault| FigureFault::new(Cause::Arithmetic(fault), called).with(self, inputs))?;
        let usual = if usual.dimension() == Some(value.dimension()) { usual } else { Shown::usual(value.dimension()) };
        let list = self.list(inputs.iter().copied());
        self.enter(value, usual, step, list, called)
    }
}

/// Folds values from the left; the caller has made sure that there is one.
fn fold(values: &[Ratio], join: impl Fn(Ratio, Ratio) -> Result<Ratio, QuantityFault>) -> Result<Ratio, QuantityFault> {
    values.iter().skip(1).try_fold(values[0], |left, right| join(left, *right))
}
