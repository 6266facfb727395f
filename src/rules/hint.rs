//! What somebody meant who wrote a measure the way a tape is read.
//!
//! In: tokens around a number that has no operator before it. Out: the same measure as one number.
//! May not know: the grammar around it.

use rust_decimal::Decimal;

use crate::measure::{Quantity, Unit};

use super::Bytes;
use super::token::{Sign, Token};

type Tokens = [(Token, Bytes)];

/// `36 1/2 in` and `3 ft 6 in`, with or without a fraction, as one decimal: the bytes to replace, and the text.
///
/// `at` is the token that has no operator before it.
pub(super) fn mixed_number(text: &str, tokens: &Tokens, at: usize) -> Option<(Bytes, String)> {
    let first = at.checked_sub(1)?;
    let (Token::Number(whole, unit), start) = tokens.get(first)? else { return None };
    let (rest, last, end) = match unit {
        Some(_) => inches(tokens, at)?,
        None => {
            let (fraction, unit, end) = fraction(tokens, at)?;
            (fraction, unit, end)
        }
    };
    let total = match unit {
        Some(unit) => {
            let left = Quantity::in_units(*whole, *unit).ok()?;
            let right = Quantity::in_units(rest, last).ok()?;
            left.plus(right).ok()?.number_of(last)?
        }
        None => whole.checked_add(rest)?.normalize(),
    };
    let bytes = start.start..tokens.get(end)?.1.end;
    text.get(bytes.clone())?;
    Some((bytes, format!("{total} {}", last.word())))
}

/// `6 in` or `6 1/2 in` or `1/2 in` from a token on.
fn inches(tokens: &Tokens, at: usize) -> Option<(Decimal, Unit, usize)> {
    if let Some(found) = fraction(tokens, at) {
        return Some(found);
    }
    match &tokens.get(at)?.0 {
        Token::Number(number, Some(unit)) => Some((*number, *unit, at)),
        Token::Number(number, None) => {
            let (fraction, unit, end) = fraction(tokens, at + 1)?;
            Some((number.checked_add(fraction)?, unit, end))
        }
        _ => None,
    }
}

/// `1/2 in` from a token on.
fn fraction(tokens: &Tokens, at: usize) -> Option<(Decimal, Unit, usize)> {
    match (&tokens.get(at)?.0, &tokens.get(at + 1)?.0, &tokens.get(at + 2)?.0) {
        (Token::Number(over, None), Token::Sign(Sign::Over), Token::Number(under, Some(unit))) => {
            Some((over.checked_div(*under)?, *unit, at + 2))
        }
        _ => None,
    }
}
