//! The nominal size of an opening: `3070`, `3'-0" x 7'-0"`, `3-0 x 7-0`, `914 x 2134 mm`.
//!
//! In: a text. Out: width and height. May not know: how large a leaf is in it, how many leaves there are.

use super::length_reading::{feet_inches_by_habit, is_bare, lend_unit, parts};
use super::scan::{Mark, Token, comma, scan};
use super::{Length, Misread, MisreadKind, System};

/// Nominal width and height of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OpeningSize {
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
}

impl OpeningSize {
    /// Reads a size. The shorthand of four digits is feet and inches of width, then of height (common trade notation,
    /// no source); five digits carry a height of ten feet. Between `x`, `3-0` is feet and inches.
    ///
    /// # Errors
    /// The first fault of the text, with its bytes and what to type instead.
    pub fn read(text: &str, system: System) -> Result<OpeningSize, Misread> {
        let tokens = scan(text)?;
        if let Some(misread) = comma(text, &tokens, |other| OpeningSize::read(other, system).is_ok()) {
            return Err(misread);
        }
        let times: Vec<usize> = (0..tokens.len()).filter(|index| tokens[*index].mark == Mark::Times).collect();
        match times[..] {
            [] => shorthand(text, &tokens),
            [middle] => two_sides(text, &tokens, middle, system),
            [_, second, ..] => {
                let says = "a size has two sides: width x height";
                Err(Misread::new(tokens[second].at.clone(), MisreadKind::NotOne, says))
            }
        }
    }
}

fn shorthand(text: &str, tokens: &[Token]) -> Result<OpeningSize, Misread> {
    if let [Token { mark: Mark::Number(_), at }] = tokens
        && let Some(size) = of_digits(&text[at.clone()])
    {
        return Ok(size);
    }
    let at = tokens[0].at.start..tokens[tokens.len() - 1].at.end;
    let says = "a size is width x height, or four digits such as 3070 for 3 ft 0 in by 7 ft 0 in";
    Err(Misread::new(at, MisreadKind::NotOne, says))
}

/// Feet and inches of width, feet and inches of height; a height is five to ten feet.
fn of_digits(digits: &str) -> Option<OpeningSize> {
    let figures: Vec<i64> = digits.bytes().map(|byte| byte.checked_sub(b'0').map(i64::from)).collect::<Option<_>>()?;
    let feet_inches = |feet: i64, inches: i64| Length::feet(feet) + Length::inches(inches);
    match figures[..] {
        [wide @ 1..=9, inch @ 0..=9, high @ 5..=9, over @ 0..=9] => {
            Some(OpeningSize { width: feet_inches(wide, inch), height: feet_inches(high, over) })
        }
        [wide @ 1..=9, inch @ 0..=9, 1, 0, over @ 0..=9] => {
            Some(OpeningSize { width: feet_inches(wide, inch), height: feet_inches(10, over) })
        }
        _ => None,
    }
}

fn two_sides(text: &str, tokens: &[Token], middle: usize, system: System) -> Result<OpeningSize, Misread> {
    let (left, right) = (&tokens[..middle], &tokens[middle + 1..]);
    if left.is_empty() || right.is_empty() {
        let says = "a side is missing: width x height";
        return Err(Misread::new(tokens[middle].at.clone(), MisreadKind::NotOne, says));
    }
    let (mut width, mut height) = (parts(text, left, system)?, parts(text, right, system)?);
    if is_bare(&width) && is_bare(&height) {
        return Err(without_units(text, left, right, system));
    }
    lend_unit(&height, &mut width);
    lend_unit(&width, &mut height);
    Ok(OpeningSize { width: feet_inches_by_habit(&width, system)?, height: feet_inches_by_habit(&height, system)? })
}

fn without_units(text: &str, left: &[Token], right: &[Token], system: System) -> Misread {
    let at = left[0].at.start..right[right.len() - 1].at.end;
    let [wide, high] = [left, right].map(|side| &text[side[0].at.start..side[side.len() - 1].at.end]);
    let digits = format!("{wide}{high}");
    let shorthand = of_digits(&digits).filter(|_| wide.len() == 2).map(|_| digits);
    let units = match system {
        System::Inch => ["in", "mm"],
        System::Millimetre => ["mm", "in"],
    };
    let [first, second] = units.map(|unit| format!("{wide} {unit} x {high} {unit}"));
    let mut texts: Vec<String> = std::iter::once(first).chain(shorthand).chain(std::iter::once(second)).collect();
    texts.retain(|text| OpeningSize::read(text, system).is_ok());
    texts.truncate(2);
    Misread::new(at, MisreadKind::Ambiguous, "a size without units").instead_all(texts)
}
