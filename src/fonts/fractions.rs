//! Where a text holds fractions of the trade, such as the 3/4 of `5 3/4"`.
//!
//! In: text. Out: byte ranges. May not know: faces, pages.
//!
//! A face's `frac` feature would also turn dates and room numbers such as 11/25 into fractions, so it is asked for only
//! where a fraction of an inch stands: a reduced one with a denominator of 2, 4, 8, 16, 32 or 64 (common practice, no
//! source), alone or after a whole number.

use std::ops::Range;

/// The byte ranges of fractions, numerator to denominator, in order.
pub(super) fn fractions(text: &str) -> Vec<Range<usize>> {
    let bytes = text.as_bytes();
    let slashes = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'/').map(|(at, _)| at);
    slashes.filter_map(|slash| fraction_at(bytes, slash)).collect()
}

fn fraction_at(bytes: &[u8], slash: usize) -> Option<Range<usize>> {
    let digits_before = bytes[..slash].iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
    let digits_after = bytes[slash + 1..].iter().take_while(|byte| byte.is_ascii_digit()).count();
    let range = slash - digits_before..slash + 1 + digits_after;
    let above = number(&bytes[range.start..slash])?;
    let below = number(&bytes[slash + 1..range.end])?;
    let of_an_inch = matches!(below, 2 | 4 | 8 | 16 | 32 | 64) && above < below && above % 2 == 1;
    let joined = |byte: Option<&u8>| byte.is_some_and(|byte| byte.is_ascii_alphanumeric() || b"/.,".contains(byte));
    let before = range.start.checked_sub(1).and_then(|at| bytes.get(at));
    let after_slash = bytes.get(range.end).is_some_and(|byte| byte.is_ascii_alphanumeric() || *byte == b'/');
    (of_an_inch && !joined(before) && !after_slash).then_some(range)
}

fn number(digits: &[u8]) -> Option<u32> {
    if digits.is_empty() || digits.len() > 2 {
        return None;
    }
    Some(digits.iter().fold(0, |number, digit| number * 10 + u32::from(digit - b'0')))
}
