//! Exact lengths, areas, weights, forces, times and electrical units; their reading and printing.
//!
//! In: text as people write dimensions.
//! Out: exact values, and the same values as text of the trade.
//! May not know: money, doors, files.

mod quantity;

pub use quantity::{Dimension, Quantity, QuantityFault};
