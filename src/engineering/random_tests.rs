//! How many random checks the tests of this room run; CI multiplies them by setting HINGEWRIGHT_CHECKS.

/// So many random checks, and more where they are asked for.
pub(in crate::engineering) fn times(count: usize) -> usize {
    count * std::env::var("HINGEWRIGHT_CHECKS").ok().map_or(1, |text| text.parse().expect("a number of checks"))
}
