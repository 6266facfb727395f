//! Exact money and rates; the one rounding rule; allocation that adds up.
//!
//! In: decimal text and exact numbers.
//! Out: amounts rounded at one named place, and parts that sum to the whole.
//! May not know: what is being paid for.
