//! Figures that carry how they came to be.
//!
//! In: values with their place or rule, and operations on figures.
//! Out: figures with inputs, reason and printed form.
//! May not know: doors, papers, the grammar of rules.
//!
//! Every quantity, hour, rate and amount of a job is a [`Figure`]. Only the operations of a [`Ledger`] make one, so none
//! exists without its reason, and `explain`, comparison and re-evaluation are walks over the same graph.

mod arithmetic;
mod explain;
mod fault;
mod figure;
mod ratio;
mod revalue;
mod rounding;
mod select;
mod shown;
mod store;
mod words;

#[cfg(test)]
mod ledger_tests;

pub use explain::Line;
pub use fault::{Cause, FigureFault};
pub use figure::{Called, Figure, FigureId, Reason, ReasonId, Step};
pub use revalue::Revaluation;
pub use shown::{Shown, kind_of};
pub use store::Ledger;
