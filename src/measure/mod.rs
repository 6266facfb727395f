//! Exact lengths, areas, weights, forces, times and electrical units; their reading and printing.
//!
//! In: text as people write dimensions.
//! Out: exact values, and the same values as text of the trade.
//! May not know: money, doors, files.

mod amount;
mod counted;
mod length;
mod length_reading;
mod misread;
mod opening_size;
mod printing;
mod quantity;
mod scan;
mod unit;

#[cfg(test)]
mod reading_tests;

pub use amount::{Amps, Angle, Duration, Energy, Force, Pressure, Speed, Torque, Volts, Weight, read_quantity};
pub use counted::Noun;
pub use length::{Area, Length};
pub use misread::{Measure, Misread, MisreadKind, System};
pub use opening_size::OpeningSize;
pub use printing::{Finest, LengthForm, Style, rounded};
pub use quantity::{Dimension, Quantity, QuantityFault};
pub use unit::Unit;
