//! Splits a text into numbers, fractions, marks and words, each with its bytes.
//!
//! In: a text as typed or as printed by this room (no-break characters included).
//! Out: tokens in order, or the first character that has no place in any measure.
//! May not know: what the text is to mean.

use std::ops::Range;

use rust_decimal::Decimal;

use super::{Misread, MisreadKind};

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Mark {
    /// Digits, with a point or without.
    Number(Decimal),
    /// A fraction in one character, such as ½.
    Vulgar(u32, u32),
    Slash,
    FootSign,
    InchSign,
    Hyphen,
    Times,
    Comma,
    /// Letters, with a stop after them or not, or a sign such as % or °.
    Word,
}

/// A token and its bytes.
#[derive(Clone, Debug)]
pub(super) struct Token {
    pub mark: Mark,
    pub at: Range<usize>,
}

/// The tokens of a text; at least one.
pub(super) fn scan(text: &str) -> Result<Vec<Token>, Misread> {
    let mut tokens = Vec::new();
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let start = text.len() - rest.len();
        let (mark, length) = token(rest, letter, start)?;
        let at = start..start + length;
        rest = &rest[length..];
        if let Some(mark) = mark {
            tokens.push(Token { mark, at });
        }
    }
    if tokens.is_empty() {
        return Err(Misread::new(0..text.len(), MisreadKind::Empty, "nothing is written here"));
    }
    Ok(tokens)
}

/// The token at the head of `rest` (nothing for a space) and how many bytes it takes.
fn token(rest: &str, letter: char, start: usize) -> Result<(Option<Mark>, usize), Misread> {
    let length = letter.len_utf8();
    if letter.is_ascii_digit() || letter == '.' {
        let (number, length) = number(rest, start)?;
        return Ok((Some(Mark::Number(number)), length));
    }
    if letter.is_alphabetic() {
        return Ok(word(rest));
    }
    if let Some((over, under)) = vulgar(letter) {
        return Ok((Some(Mark::Vulgar(over, under)), length));
    }
    let mark = match letter {
        ' ' | '\u{a0}' | '\u{2002}'..='\u{200a}' | '\u{202f}' | '\u{2060}' => return Ok((None, length)),
        '\'' | '′' | '‘' | '’' => return Ok(prime(rest, letter)),
        '"' | '″' | '“' | '”' => Mark::InchSign,
        '-' | '\u{2010}'..='\u{2013}' | '\u{2212}' => Mark::Hyphen,
        '/' | '\u{2044}' => Mark::Slash,
        '×' => Mark::Times,
        ',' => Mark::Comma,
        '%' | '°' | '²' | '³' | '$' => Mark::Word,
        _ => return Err(stranger(letter, start)),
    };
    Ok((Some(mark), length))
}

/// One prime is feet; two of the same side by side are inches.
fn prime(rest: &str, letter: char) -> (Option<Mark>, usize) {
    let length = letter.len_utf8();
    if rest[length..].starts_with(letter) { (Some(Mark::InchSign), 2 * length) } else { (Some(Mark::FootSign), length) }
}

fn word(rest: &str) -> (Option<Mark>, usize) {
    let letters = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    if matches!(&rest[..letters], "x" | "X" | "by") {
        return (Some(Mark::Times), letters);
    }
    let stop = usize::from(rest[letters..].starts_with('.'));
    (Some(Mark::Word), letters + stop)
}

fn number(rest: &str, start: usize) -> Result<(Decimal, usize), Misread> {
    let whole = digits(rest);
    let part = if rest[whole..].starts_with('.') { digits(&rest[whole + 1..]) } else { 0 };
    let length = if part > 0 { whole + 1 + part } else { whole.max(1) };
    let written = &rest[..length];
    if part == 0 && whole == 0 {
        return Err(Misread::new(start..start + 1, MisreadKind::NotOne, "a point stands here without digits"));
    }
    // A digit before the point is what `from_str_exact` asks for; an exact reading never rounds past 28 digits.
    let padded = if whole == 0 { format!("0{written}") } else { written.to_owned() };
    match Decimal::from_str_exact(&padded) {
        Ok(number) => Ok((number, length)),
        Err(_) => {
            let says = format!("`{written}` has more digits than can be kept");
            Err(Misread::new(start..start + length, MisreadKind::TooMuch, says))
        }
    }
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

fn stranger(letter: char, start: usize) -> Misread {
    let at = start..start + letter.len_utf8();
    let code = u32::from(letter);
    let invisible =
        matches!(code, 0xad | 0x61c | 0x180e | 0x200b..=0x200f | 0x2028..=0x202e | 0x2061..=0x206f | 0xfeff);
    if letter.is_control() || invisible {
        let says = format!("a character that does not show, U+{code:04X}, stands here; delete it");
        return Misread::new(at, MisreadKind::ControlCharacter, says);
    }
    Misread::new(at, MisreadKind::NotOne, format!("`{letter}` has no place here"))
}

fn vulgar(letter: char) -> Option<(u32, u32)> {
    Some(match letter {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

/// A comma between digits is a point in some countries and sets off thousands in others: refused, with the texts that
/// `reads` accepts.
pub(super) fn comma(text: &str, tokens: &[Token], reads: impl Fn(&str) -> bool) -> Option<Misread> {
    let token = tokens.iter().find(|token| token.mark == Mark::Comma)?;
    let bare: String = text.chars().filter(|c| *c != ',').collect();
    let point = format!("{}.{}", &text[..token.at.start], &text[token.at.end..]);
    let grouped = digits(&text[token.at.end..]) == 3;
    let mut texts = if grouped { vec![bare, point] } else { vec![point] };
    texts.retain(|text| reads(text));
    let kind = if texts.len() > 1 { MisreadKind::Ambiguous } else { MisreadKind::NotOne };
    let says = "a comma may be a decimal point or may set off thousands; write neither";
    Some(Misread::new(token.at.clone(), kind, says).instead_all(texts))
}
