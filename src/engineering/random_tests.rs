//! How many random checks the tests of this room run; CI asks for more of them by setting HINGEWRIGHT_CHECKS.

/// So many random checks, and more where they are asked for. These are quick, so that all of them are drawn without being asked for;
/// CI, which asks for sixteen times the slow ones, draws four times these.
pub(in crate::engineering) fn times(count: usize) -> usize {
    let factor = std::env::var("HINGEWRIGHT_CHECKS").ok().map_or(1, |text| text.parse().expect("a number of checks"));
    (count * factor / 4).max(count)
}
