//! Counts, ratios and flags.
//!
//! In: raw numbers and texts. Out: exact numbers; a binary fraction is refused with the same digits in quotes.
//! May not know: what is counted.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use rust_decimal::Decimal;

use super::{Fix, Raw, Reader, Refusal, Scalar, codes, scalar_fields};
use crate::measure::System;

/// How many of something, from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Count(u32);

/// How many of something, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CountFromOne(u32);

/// An exact number without unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ratio(Decimal);

/// Yes or no.
pub type Flag = bool;

scalar_fields!(Count => u32, CountFromOne => u32, Ratio => Decimal, bool);

impl Count {
    /// The number.
    pub fn get(self) -> u32 {
        self.0
    }
}

impl From<u32> for Count {
    fn from(count: u32) -> Self {
        Count(count)
    }
}

impl CountFromOne {
    /// The number.
    pub fn get(self) -> u32 {
        self.0
    }
}

impl Ratio {
    /// The number.
    pub fn get(self) -> Decimal {
        self.0
    }
}

impl From<Count> for u32 {
    fn from(count: Count) -> Self {
        count.get()
    }
}

impl From<CountFromOne> for u32 {
    fn from(count: CountFromOne) -> Self {
        count.get()
    }
}

impl From<Ratio> for Decimal {
    fn from(ratio: Ratio) -> Self {
        ratio.get()
    }
}

impl From<Decimal> for Ratio {
    fn from(number: Decimal) -> Self {
        Ratio(number)
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl fmt::Display for CountFromOne {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Scalar for Count {
    const WORDS: &'static str = "a whole number from 0";
    const QUOTED: bool = false;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        whole(raw).map(Count)
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

impl Scalar for CountFromOne {
    const WORDS: &'static str = "a whole number from 1";
    const QUOTED: bool = false;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        match whole(raw)? {
            0 => Err(Refusal::new(&codes::OUT_OF_RANGE).asked(Self::WORDS)),
            count => Ok(CountFromOne(count)),
        }
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

fn whole(raw: Raw<'_>) -> Result<u32, Refusal> {
    let out_of_range = || Refusal::new(&codes::OUT_OF_RANGE).asked("a whole number from 0 to four thousand million");
    match raw {
        Raw::Integer(text) => text.parse().map_err(|_| out_of_range()),
        Raw::Cell(text) => match text.parse::<i128>() {
            Ok(number) => u32::try_from(number).map_err(|_| out_of_range()),
            Err(_) => Err(Refusal::new(&codes::BAD_NUMBER).fix(leading_number(text))),
        },
        Raw::Text(text) if text.parse::<u32>().is_ok() => Err(Refusal::wrong_type().fix(Fix::Bare(text.to_owned()))),
        Raw::Float(text) => Err(match text.split_once('.') {
            Some((number, zeros)) if zeros.bytes().all(|byte| byte == b'0') && number.parse::<u32>().is_ok() => {
                Refusal::wrong_type().fix(Fix::Bare(number.to_owned()))
            }
            _ => Refusal::wrong_type(),
        }),
        Raw::Text(text) => Err(Refusal::wrong_type().fix(leading_number(text))),
        _ => Err(Refusal::wrong_type()),
    }
}

/// The number in front of a word: a count has no unit, so that `60 days` is 60 and `16 ga` is 16.
fn leading_number(text: &str) -> Fix {
    let (number, word) = text.split_at(text.len() - text.trim_start_matches(|it: char| it.is_ascii_digit()).len());
    let is_word = word.trim_start().chars().all(|it| it.is_alphabetic() || it == '.');
    match number.parse::<u32>() {
        Ok(count) if is_word => Fix::Bare(count.to_string()),
        _ => Fix::None,
    }
}

/// An exact decimal from digits with at most one point; no exponent, no separators.
fn decimal(text: &str) -> Option<Decimal> {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let plain = digits.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    let led = digits.starts_with(|it: char| it.is_ascii_digit()) && digits.ends_with(|it: char| it.is_ascii_digit());
    if plain && led { Decimal::from_str(text).ok() } else { None }
}

/// The digits of a TOML float as a person would type them in quotes; nothing for `nan`, `inf` and exponents.
pub(super) fn float_digits(text: &str) -> Option<String> {
    let text = text.strip_prefix('+').unwrap_or(text);
    decimal(text).map(|_| text.to_owned())
}

/// The refusal of a bare number with a point.
pub(super) fn bare_decimal(text: &str, suffix: &str) -> Refusal {
    let refusal = Refusal::new(&codes::BARE_DECIMAL);
    match float_digits(text) {
        Some(digits) => refusal.fix(Fix::Text(format!("{digits}{suffix}"))),
        None => refusal,
    }
}

impl Scalar for Ratio {
    const WORDS: &'static str = "a number";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        let number = match raw {
            Raw::Text(text) | Raw::Cell(text) => decimal(text),
            Raw::Integer(text) => decimal(text),
            Raw::Float(text) => return Err(bare_decimal(text, "")),
            _ => return Err(Refusal::wrong_type()),
        };
        number.map(Ratio).ok_or_else(|| Refusal::new(&codes::BAD_NUMBER))
    }

    fn order(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }

    fn readable(&self, _: System) -> String {
        self.get().normalize().to_string()
    }
}

impl Scalar for bool {
    const WORDS: &'static str = "true or false";
    const QUOTED: bool = false;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        let refused = |word: &str, refusal: Refusal| match word {
            "yes" | "true" => refusal.fix(Fix::Bare("true".to_owned())),
            "no" | "false" => refusal.fix(Fix::Bare("false".to_owned())),
            _ => refusal,
        };
        match raw {
            Raw::Flag(flag) => Ok(flag),
            Raw::Cell(text) => match text.to_ascii_lowercase().as_str() {
                "yes" | "true" => Ok(true),
                "no" | "false" => Ok(false),
                _ => Err(Refusal::new(&codes::BAD_WORD).asked("yes or no")),
            },
            Raw::Text(text) => Err(refused(&text.to_ascii_lowercase(), Refusal::wrong_type())),
            _ => Err(Refusal::wrong_type()),
        }
    }

    fn readable(&self, _: System) -> String {
        if *self { "yes" } else { "no" }.to_owned()
    }
}
