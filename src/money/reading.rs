//! Reads an amount or a percentage from a text.
//!
//! In: a text such as `12.50`. Out: the exact amount, or why it is none and what to type instead.
//! May not know: files; which field the text belongs to. Places are bytes within the text.

use std::ops::Range;

use rust_decimal::Decimal;

use super::{Money, Percent};

/// Whether an amount below zero is accepted: credits and adjustments are, prices are not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// Zero or more.
    NotNegative,
    /// Either way; a credit is written `-12.50`.
    Any,
}

/// What kind of fault a text has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MoneyFault {
    /// Nothing but white space.
    Empty,
    /// Not digits with at most one point.
    NotANumber,
    /// Commas or spaces between digits.
    ThousandsSeparator,
    /// More decimals than the field allows.
    TooFine,
    /// Below zero where that is not accepted.
    Negative,
    /// A trillion dollars or more, or ten thousand percent or more.
    TooMuch,
    /// A percentage without its sign, which may be a ratio.
    WithoutSign,
}

/// Why a text was not read, where, and what to type instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MoneyMisread {
    /// Bytes of the text at fault.
    pub at: Range<usize>,
    /// What kind of fault.
    pub kind: MoneyFault,
    /// One sentence without capital and final stop.
    pub says: String,
    /// Texts that would be read, most likely first; may be empty.
    pub type_instead: Vec<String>,
}

fn misread(at: Range<usize>, kind: MoneyFault, says: impl Into<String>) -> MoneyMisread {
    MoneyMisread { at, kind, says: says.into(), type_instead: Vec::new() }
}

impl MoneyMisread {
    fn instead(mut self, text: impl Into<String>) -> MoneyMisread {
        self.type_instead.push(text.into());
        self
    }
}

impl Money {
    /// What it is, with its article.
    pub const WHAT: &'static str = "an amount of money";
    /// Decimals of an amount in cents.
    pub const CENTS: u32 = 2;
    /// Decimals of a unit price.
    pub const UNIT_PRICE: u32 = 4;

    /// Reads an amount of dollars with at most `places` decimals. A dollar sign in front is accepted; commas are not,
    /// because they mean a decimal point to half the world.
    ///
    /// # Errors
    /// The first fault, with its bytes and what to type instead.
    pub fn read(text: &str, places: u32, sign: Sign) -> Result<Money, MoneyMisread> {
        let (minus, digits) = without_signs(text);
        let number = decimal(text, digits.clone())?;
        let prefix = if minus { "-" } else { "" };
        if number.scale() > places && number.normalize().scale() > places {
            let says = format!("more than {places} decimals");
            return Err(misread(digits, MoneyFault::TooFine, says));
        }
        if number >= Decimal::from(1_000_000_000_000_i64) {
            return Err(misread(digits, MoneyFault::TooMuch, "a trillion dollars or more"));
        }
        if minus && sign == Sign::NotNegative && !number.is_zero() {
            let says = "an amount below zero does not belong here";
            return Err(misread(trimmed(text), MoneyFault::Negative, says).instead(&text[digits]));
        }
        let signed: Decimal = if prefix.is_empty() { number } else { -number };
        Ok(Money::dollars(signed))
    }
}

impl Percent {
    /// What it is, with its article.
    pub const WHAT: &'static str = "a percentage";

    /// Reads a percentage of zero or more, with its sign: `8.25%`, `8.25 %` or `8.25 percent`.
    ///
    /// # Errors
    /// The first fault, with its bytes and what to type instead.
    pub fn read(text: &str) -> Result<Percent, MoneyMisread> {
        let range = trimmed(text);
        let body = &text[range.clone()];
        let number = body.strip_suffix('%').or_else(|| body.strip_suffix("percent"));
        let digits = number.unwrap_or(body).trim_end();
        let at = range.start..range.start + digits.len();
        if digits.starts_with('-') {
            return Err(misread(range, MoneyFault::Negative, "a percentage is not below zero"));
        }
        let value = decimal(text, at.clone())?;
        if number.is_none() {
            return Err(without_percent(range, value));
        }
        if value >= Decimal::from(10_000) {
            return Err(misread(at, MoneyFault::TooMuch, "ten thousand percent or more"));
        }
        Ok(Percent::new(value))
    }
}

fn without_percent(at: Range<usize>, value: Decimal) -> MoneyMisread {
    let says = "a percentage without its sign; it may be a ratio";
    let fault = misread(at, MoneyFault::WithoutSign, says).instead(format!("{}%", value.normalize()));
    match value.checked_mul(Decimal::ONE_HUNDRED).filter(|_| value < Decimal::ONE && !value.is_zero()) {
        Some(percent) => fault.instead(format!("{}%", percent.normalize())),
        None => fault,
    }
}

fn trimmed(text: &str) -> Range<usize> {
    let start = text.len() - text.trim_start().len();
    start..start + text.trim().len()
}

/// Whether a minus stands in front, and the bytes behind it and behind a dollar sign.
fn without_signs(text: &str) -> (bool, Range<usize>) {
    let range = trimmed(text);
    let mut body = &text[range.clone()];
    let mut minus = false;
    for sign in ['-', '\u{2212}', '$'] {
        if let Some(rest) = body.strip_prefix(sign) {
            minus |= sign != '$';
            body = rest.trim_start();
        }
    }
    (minus, range.end - body.len()..range.end)
}

/// Digits with at most one point, exactly.
fn decimal(text: &str, at: Range<usize>) -> Result<Decimal, MoneyMisread> {
    let written = &text[at.clone()];
    if written.is_empty() {
        return Err(misread(at, MoneyFault::Empty, "nothing is written here"));
    }
    let separator = |c: char| matches!(c, ',' | ' ' | '\u{a0}' | '\u{202f}' | '\'' | '_');
    if written.contains(separator) && written.chars().all(|c| c.is_ascii_digit() || c == '.' || separator(c)) {
        let says = "write digits and one point only; a comma is a decimal point to half the world";
        // A comma with one or two digits behind it is a decimal point; groups of thousands have three.
        let cents = written.rsplit_once(',').filter(|(_, cents)| matches!(cents.len(), 1 | 2));
        let (whole, cents) = cents.map_or((written, None), |(whole, cents)| (whole, Some(cents)));
        let whole = whole.chars().filter(|c| !separator(*c) && (cents.is_none() || *c != '.')).collect::<String>();
        let bare = cents.map_or(whole.clone(), |cents| format!("{whole}.{cents}"));
        let fault = misread(at, MoneyFault::ThousandsSeparator, says);
        return Err(if plain_number(&bare) { fault.instead(bare) } else { fault });
    }
    if !plain_number(written) {
        let says = format!("`{written}` is not digits with at most one point, such as 12.50");
        return Err(misread(at, MoneyFault::NotANumber, says));
    }
    // The exact reader errs where the usual one would round past 28 digits.
    Decimal::from_str_exact(written).map_err(|_| misread(at, MoneyFault::TooMuch, "more digits than can be kept"))
}

fn plain_number(text: &str) -> bool {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    digits(whole) && digits(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn price(text: &str) -> Result<String, (MoneyFault, Vec<String>)> {
        let read = Money::read(text, Money::UNIT_PRICE, Sign::NotNegative);
        read.map(Money::plain).map_err(|misread| (misread.kind, misread.type_instead))
    }

    #[test]
    fn amounts_are_read_exactly() {
        for (text, amount) in
            [("12.50", "12.50"), ("12.5", "12.50"), (" $1250 ", "1250.00"), ("0.0475", "0.0475"), ("1.50000", "1.50")]
        {
            assert_eq!(price(text), Ok(amount.to_owned()), "{text}");
        }
        let credit = Money::read("-$12.50", Money::CENTS, Sign::Any).unwrap();
        assert_eq!(credit.plain(), "-12.50");
        assert_eq!(Money::read("-0", Money::CENTS, Sign::NotNegative).unwrap().plain(), "0.00");
    }

    #[test]
    fn what_is_no_amount_is_refused_by_kind() {
        use MoneyFault::*;
        let cases: [(&str, MoneyFault, &[&str]); 16] = [
            ("", Empty, &[]),
            ("$", Empty, &[]),
            ("twelve", NotANumber, &[]),
            ("1e3", NotANumber, &[]),
            ("12.", NotANumber, &[]),
            (".5", NotANumber, &[]),
            ("1.2.3", NotANumber, &[]),
            ("NaN", NotANumber, &[]),
            ("1,250.00", ThousandsSeparator, &["1250.00"]),
            ("1 250", ThousandsSeparator, &["1250"]),
            ("1.250,50", ThousandsSeparator, &["1250.50"]),
            ("12,5", ThousandsSeparator, &["12.5"]),
            ("0.04755", TooFine, &[]),
            ("-5.00", Negative, &["5.00"]),
            ("1000000000000", TooMuch, &[]),
            ("1.00000000000000000000000000000000001", TooMuch, &[]),
        ];
        for (text, kind, instead) in cases {
            let instead: Vec<String> = instead.iter().map(|text| text.to_string()).collect();
            assert_eq!(price(text), Err((kind, instead)), "{text}");
        }
        assert_eq!(Money::read("12.505", Money::CENTS, Sign::Any).unwrap_err().kind, TooFine);
        assert_eq!(Money::read(" 1,2 ", Money::CENTS, Sign::Any).unwrap_err().at, 1..4);
    }

    #[test]
    fn percentages_carry_their_sign() {
        assert_eq!(Percent::read("8.25%"), Ok(Percent::new(Decimal::new(825, 2))));
        assert_eq!(Percent::read(" 8.25 percent"), Percent::read("8.25 %"));
        assert_eq!(Percent::read("0.1").unwrap_err().type_instead, ["0.1%", "10%"]);
        assert_eq!(Percent::read("15").unwrap_err().type_instead, ["15%"]);
        assert_eq!(Percent::read("-1%").unwrap_err().kind, MoneyFault::Negative);
        assert_eq!(Percent::read("%").unwrap_err().kind, MoneyFault::Empty);
        assert_eq!(Percent::read("10000%").unwrap_err().kind, MoneyFault::TooMuch);
    }
}
