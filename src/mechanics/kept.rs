//! Results kept by what they follow from, each worked out once.
//!
//! In: inputs of a formula, the formula. Out: its result. May not know: which formula.
//!
//! Many doors are alike, and checks, takeoff, drawings, alternates and answers all ask the same of them. A result that follows
//! from its inputs and from nothing else is kept by them, for as long as the program runs. What is kept is only ever looked up,
//! never walked, and so changes no result and no order.

use std::hash::Hash;
use std::sync::{LazyLock, PoisonError, RwLock};

use rustc_hash::FxHashMap;

/// Results that are kept at once, at about 300 bytes each; one job has a few hundred.
const MOST_KEPT: usize = 1 << 16;

/// Results by their inputs. Decimals that are equal may have been typed with different numbers of places, and those go into a
/// formula too: inputs that hold decimals hold their scales beside them, so that it never matters which came first.
pub(super) struct Kept<I, R>(LazyLock<RwLock<FxHashMap<I, R>>>);

impl<I: Eq + Hash, R: Clone> Kept<I, R> {
    /// Nothing yet.
    pub const fn new() -> Self {
        Kept(LazyLock::new(RwLock::default))
    }

    /// The result for some inputs, as kept or worked out now.
    pub fn of(&self, inputs: I, work: impl FnOnce(&I) -> R) -> R {
        // A thread that panicked while it held the lock left whole entries behind: they are inserted in one step.
        if let Some(known) = self.0.read().unwrap_or_else(PoisonError::into_inner).get(&inputs) {
            return known.clone();
        }
        let result = work(&inputs);
        let mut kept = self.0.write().unwrap_or_else(PoisonError::into_inner);
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        kept.insert(inputs, result.clone());
        result
    }
}
