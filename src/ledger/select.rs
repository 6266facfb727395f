//! Figures that are one of others: greatest, least, chosen, found in a table.
//!
//! In: figures of this ledger. Out: one of their values, with why it was that one.
//! May not know: the conditions' grammar, the tables.

use std::cmp::Ordering;

use crate::measure::QuantityFault;

use super::arithmetic::FigureResult;
use super::fault::{Cause, FigureFault};
use super::figure::StoredStep;
use super::ratio::Ratio;
use super::{Called, FigureId, Ledger};

impl Ledger {
    /// The greatest of the inputs.
    pub fn largest(&mut self, inputs: &[FigureId], called: Called) -> FigureResult {
        self.extreme(StoredStep::Largest, Ordering::Greater, inputs, called)
    }

    /// The least of the inputs.
    pub fn smallest(&mut self, inputs: &[FigureId], called: Called) -> FigureResult {
        self.extreme(StoredStep::Smallest, Ordering::Less, inputs, called)
    }

    /// A figure taken because of a condition. `because` says what the condition came to and what it read, in plain
    /// words; `read` are the figures among those facts.
    pub fn chosen(
        &mut self,
        taken: FigureId,
        condition: &str,
        because: &str,
        read: &[FigureId],
        called: Called,
    ) -> FigureResult {
        let step = StoredStep::Chosen { condition: self.keep(condition), because: self.keep(because) };
        self.take(step, taken, read, called)
    }

    /// An entry of a table. `entry` is the entry's own figure, given at its place; `keys` are figures that the key was
    /// made from.
    pub fn looked_up(
        &mut self,
        entry: FigureId,
        table: &str,
        key: &str,
        keys: &[FigureId],
        called: Called,
    ) -> FigureResult {
        let step = StoredStep::LookedUp { table: self.keep(table), key: self.keep(key) };
        self.take(step, entry, keys, called)
    }

    fn take(&mut self, step: StoredStep, taken: FigureId, others: &[FigureId], called: Called) -> FigureResult {
        let inputs: Vec<FigureId> = std::iter::once(taken).chain(others.iter().copied()).collect();
        self.make(step, &inputs, self.shown(taken), called, |values| Ok(values[0]))
    }

    fn extreme(&mut self, step: StoredStep, wanted: Ordering, inputs: &[FigureId], called: Called) -> FigureResult {
        let first = *inputs.first().ok_or_else(|| FigureFault::new(Cause::Nothing, called))?;
        self.make(step, inputs, self.shown(first), called, |values| {
            values.iter().skip(1).try_fold(values[0], |best, next| better(best, *next, wanted))
        })
    }
}

fn better(best: Ratio, next: Ratio, wanted: Ordering) -> Result<Ratio, QuantityFault> {
    Ok(if next.compare(best)? == wanted { next } else { best })
}
