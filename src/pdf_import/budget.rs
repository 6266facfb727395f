//! What the reading of one file may take: so that no file, however it was made, costs more time or memory than a large honest one.
//!
//! In: amounts spent. Out: a fault where the limit is passed. May not know: what was read.

use std::cell::Cell;

use super::fault::Fault;

/// The most bytes that the streams of a file may unpack to.
const MOST_UNPACKED: usize = 256 << 20;

/// The most bytes that may be looked at, each as often as it is.
const MOST_READ: usize = 1 << 30;

/// The most single values.
const MOST_VALUES: usize = 4_000_000;

/// What is left to spend on one file.
pub(super) struct Budget {
    unpacked: Cell<usize>,
    read: Cell<usize>,
    values: Cell<usize>,
}

impl Budget {
    /// All of it.
    pub(super) fn new() -> Self {
        Budget { unpacked: Cell::new(MOST_UNPACKED), read: Cell::new(MOST_READ), values: Cell::new(MOST_VALUES) }
    }

    /// Bytes that may still be unpacked.
    pub(super) fn left_to_unpack(&self) -> usize {
        self.unpacked.get()
    }

    /// Notes bytes that were unpacked or are carried.
    pub(super) fn unpacked(&self, bytes: usize) -> Result<(), Fault> {
        spend(&self.unpacked, bytes)
    }

    /// Notes bytes that were looked at.
    pub(super) fn read(&self, bytes: usize) -> Result<(), Fault> {
        spend(&self.read, bytes)
    }

    /// Notes one value.
    pub(super) fn value(&self) -> Result<(), Fault> {
        spend(&self.values, 1)
    }
}

fn spend(left: &Cell<usize>, amount: usize) -> Result<(), Fault> {
    left.set(left.get().checked_sub(amount).ok_or(Fault::UnpacksTooLarge)?);
    Ok(())
}
