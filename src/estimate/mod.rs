//! Cost, price, alternates and their build-up.
//!
//! In: takeoff lines, rates and terms.
//! Out: price lines and totals that add up, as figures of the ledger.
//! May not know: pages.
