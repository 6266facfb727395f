//! How many random checks are run, in one place. CI multiplies them by setting HINGEWRIGHT_CHECKS.

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};

/// Random strings read as measures.
pub fn strings() -> usize {
    12_500 * factor()
}

/// Random totals split into parts.
pub fn allocations() -> usize {
    25_000 * factor()
}

/// Figures of random ledgers.
pub fn figures() -> usize {
    2_500 * factor()
}

/// Generated documents held to the laws of the page.
pub fn documents() -> u32 {
    125 * factor() as u32
}

/// Of how many generated documents one is written as a PDF and read back.
pub const READ_BACK: u32 = 4;

/// Sheets of others that are damaged at random.
pub fn damaged_sheets() -> usize {
    150 * factor()
}

/// Orders of the tables of the demo's catalog in which it is issued anew.
pub fn orders() -> u8 {
    if factor() > 1 { 2 } else { 1 }
}

fn factor() -> usize {
    std::env::var("HINGEWRIGHT_CHECKS").ok().map_or(1, |text| text.parse().expect("HINGEWRIGHT_CHECKS is a number"))
}

/// A source of random numbers that is the same in every run.
pub fn random(seed: u8) -> TestRng {
    TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32])
}

/// A random number below `limit`, near enough to even for checks.
pub fn below(random: &mut TestRng, limit: u64) -> u64 {
    random.next_u64() % limit
}

/// Whether something, by its position, belongs to the share that HINGEWRIGHT_SHARE asks for: of `3/7` the third of seven; all
/// without it.
pub fn share() -> impl Fn(usize) -> bool {
    let share = std::env::var("HINGEWRIGHT_SHARE").unwrap_or_else(|_| "1/1".to_owned());
    let (which, of) = share.split_once('/').expect("a share such as 3/7");
    let (which, of): (usize, usize) = (which.parse().expect("a number"), of.parse().expect("a number"));
    move |at| at % of == which - 1
}
