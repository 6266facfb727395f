//! Rule text to tokens.
//!
//! In: the text of an expression. Out: tokens with their bytes, and every fault of writing, each with what to type.
//! May not know: the grammar, the facts.

use rust_decimal::Decimal;

use crate::measure::Unit;

use super::fault::{Fault, Wrong};
use super::{Bytes, fault};

/// The smallest parts of an expression.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    /// A number, with its unit if it has one.
    Number(Decimal, Option<Unit>),
    /// A text between quote marks, without them.
    Text(String),
    /// A fact's name, or a function's before a bracket.
    Name(String),
    /// A word of the language.
    Word(Word),
    /// A sign.
    Sign(Sign),
    /// Something that cannot be read; a fault has been recorded.
    Bad,
}

/// Words of the language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Word {
    And,
    Or,
    Not,
    In,
    Between,
    If,
    Then,
    Else,
    True,
    False,
    Null,
}

/// Signs of the language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sign {
    Plus,
    Minus,
    Times,
    Over,
    Equal,
    Unequal,
    Less,
    AtMost,
    More,
    AtLeast,
    Open,
    Close,
    OpenSquare,
    CloseSquare,
    Comma,
    To,
}

const WORDS: [(&str, Word); 11] = [
    ("and", Word::And),
    ("or", Word::Or),
    ("not", Word::Not),
    ("in", Word::In),
    ("between", Word::Between),
    ("if", Word::If),
    ("then", Word::Then),
    ("else", Word::Else),
    ("true", Word::True),
    ("false", Word::False),
    ("null", Word::Null),
];

/// Longer signs before those they begin with.
const SIGNS: [(&str, Sign); 16] = [
    ("..", Sign::To),
    ("!=", Sign::Unequal),
    ("<=", Sign::AtMost),
    (">=", Sign::AtLeast),
    ("<", Sign::Less),
    (">", Sign::More),
    ("=", Sign::Equal),
    ("+", Sign::Plus),
    ("-", Sign::Minus),
    ("*", Sign::Times),
    ("/", Sign::Over),
    ("(", Sign::Open),
    (")", Sign::Close),
    ("[", Sign::OpenSquare),
    ("]", Sign::CloseSquare),
    (",", Sign::Comma),
];

/// Signs of other notations, and what to type here.
const FOREIGN: [(&str, &str); 17] = [
    ("==", "="),
    ("<>", "!="),
    ("=<", "<="),
    ("=>", ">="),
    ("&&", "and"),
    ("||", "or"),
    ("≤", "<="),
    ("≥", ">="),
    ("≠", "!="),
    ("×", "*"),
    ("÷", "/"),
    ("−", "-"),
    ("–", "-"),
    ("“", "\""),
    ("”", "\""),
    ("‘", "\""),
    ("’", "\""),
];

/// Reads all tokens; what cannot be read becomes `Bad` and a fault.
pub(super) fn tokens(text: &str) -> (Vec<(Token, Bytes)>, Vec<Fault>) {
    let mut lexer = Lexer { text, at: 0, tokens: Vec::new(), faults: Vec::new() };
    while lexer.skip_blanks() {
        let start = lexer.at;
        let token = lexer.token();
        lexer.tokens.push((token, start..lexer.at));
    }
    (lexer.tokens, lexer.faults)
}

/// The word of the language that this is, if any.
pub(super) fn keyword(word: &str) -> Option<Word> {
    WORDS.iter().find(|(known, _)| *known == word).map(|(_, word)| *word)
}

struct Lexer<'a> {
    text: &'a str,
    at: usize,
    tokens: Vec<(Token, Bytes)>,
    faults: Vec<Fault>,
}

impl<'a> Lexer<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    /// Moves to the next thing; false at the end.
    fn skip_blanks(&mut self) -> bool {
        self.at += self.rest().len() - self.rest().trim_start().len();
        self.at < self.text.len()
    }

    fn take(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let taken = &rest[..rest.find(|c| !wanted(c)).unwrap_or(rest.len())];
        self.at += taken.len();
        taken
    }

    fn fault(&mut self, start: usize, wrong: Wrong, instead: Option<String>) -> Token {
        self.faults.push(Fault { bytes: start..self.at, wrong, instead });
        Token::Bad
    }

    fn token(&mut self) -> Token {
        let rest = self.rest();
        let second = rest.chars().nth(1);
        match rest.chars().next() {
            Some('0'..='9') => self.number(),
            Some('.') if second.is_some_and(|c| c.is_ascii_digit()) => self.number(),
            Some('"') => self.quoted(),
            Some('\'') => self.single_quoted(),
            Some(c) if c.is_alphabetic() || c == '_' => self.word(),
            _ => self.sign(),
        }
    }

    fn sign(&mut self) -> Token {
        let rest = self.rest();
        let start = self.at;
        if let Some((foreign, instead)) = FOREIGN.iter().find(|(sign, _)| rest.starts_with(sign)) {
            self.at += foreign.len();
            self.fault(start, Wrong::Sign((*foreign).to_owned()), Some((*instead).to_owned()));
            let sign = SIGNS.iter().find(|(sign, _)| sign == instead).map(|(_, sign)| Token::Sign(*sign));
            return sign.or_else(|| keyword(instead).map(Token::Word)).unwrap_or(Token::Bad);
        }
        if rest.starts_with("**") {
            self.at += 2;
            return self.fault(start, Wrong::LeftOut("powers"), None);
        }
        if let Some((sign, token)) = SIGNS.iter().find(|(sign, _)| rest.starts_with(sign)) {
            self.at += sign.len();
            return Token::Sign(*token);
        }
        let c = rest.chars().next().map_or_else(String::new, String::from);
        self.at += c.len();
        let instead = (c == "!").then(|| "not(…)".to_owned());
        self.fault(start, Wrong::Sign(c), instead)
    }

    fn quoted(&mut self) -> Token {
        let start = self.at;
        let mut out = String::new();
        let mut chars = self.rest().char_indices().skip(1);
        while let Some((at, c)) = chars.next() {
            match c {
                '"' => {
                    self.at = start + at + 1;
                    return Token::Text(out);
                }
                '\\' => match chars.next() {
                    Some((_, next @ ('"' | '\\'))) => out.push(next),
                    Some((_, next)) => out.extend(['\\', next]),
                    None => break,
                },
                c => out.push(c),
            }
        }
        self.at = self.text.len();
        self.fault(start, Wrong::OpenText, None)
    }

    fn single_quoted(&mut self) -> Token {
        let start = self.at;
        self.at += 1;
        let inner = self.take(|c| c != '\'');
        self.at = (self.at + 1).min(self.text.len());
        self.fault(start, Wrong::Sign("'".to_owned()), Some(format!("\"{inner}\"")))
    }

    fn word(&mut self) -> Token {
        let start = self.at;
        let mut word = self.take(name_letter).to_owned();
        // A dot belongs to a name only if a letter follows: `a..b` is a range.
        while self.rest().starts_with('.') && self.rest()[1..].starts_with(|c: char| c.is_alphabetic() || c == '_') {
            self.at += 1;
            word.push('.');
            word.push_str(self.take(name_letter));
        }
        if let Some(word) = keyword(&word) {
            return Token::Word(word);
        }
        if word == "list" && self.follows("contains") {
            return Token::Name("list contains".to_owned());
        }
        let lower = word.to_lowercase();
        if lower != word {
            self.fault(start, Wrong::Capital(word), Some(lower.clone()));
            return keyword(&lower).map_or(Token::Name(lower), Token::Word);
        }
        Token::Name(word)
    }

    /// Takes the next word if it is this one.
    fn follows(&mut self, word: &str) -> bool {
        let rest = self.rest();
        let trimmed = rest.trim_start();
        let found = trimmed.strip_prefix(word).is_some_and(|after| !after.starts_with(name_letter));
        if found {
            self.at += rest.len() - trimmed.len() + word.len();
        }
        found
    }

    fn number(&mut self) -> Token {
        let start = self.at;
        self.take(|c| c.is_ascii_digit());
        if self.rest().starts_with('.') && self.rest()[1..].starts_with(|c: char| c.is_ascii_digit()) {
            self.at += 1;
            self.take(|c| c.is_ascii_digit());
        }
        let digits = &self.text[start..self.at];
        let value = Decimal::from_str_exact(digits).ok().filter(|value| value.scale() <= PLACES);
        let unit = self.unit(digits);
        match (value, unit) {
            (_, Err(())) => Token::Bad,
            (Some(value), Ok(unit)) if value <= Decimal::from(LARGEST) => Token::Number(value, unit),
            _ => self.fault(start, Wrong::Digits, None),
        }
    }

    /// The unit after a number, if there is one; an error if there is a word that is none.
    fn unit(&mut self, digits: &str) -> Result<Option<Unit>, ()> {
        let number = self.at - digits.len();
        if let Some((mark, word)) = MARKS.iter().find(|(mark, _)| self.rest().starts_with(mark)) {
            self.at += mark.len();
            self.fault(number, Wrong::Mark((*mark).to_owned()), Some(format!("{digits} {word}")));
            return Err(());
        }
        let back = self.at;
        self.skip_blanks();
        if self.rest().starts_with('%') {
            self.at += 1;
            return Ok(Some(Unit::Percent));
        }
        let start = self.at;
        let word = self.unit_word();
        let next = self.rest().trim_start();
        let ends_range = matches!(self.tokens.last(), Some((Token::Sign(Sign::To), _)));
        let operator = word == "in" && next.starts_with(['(', '[']) && !ends_range;
        let rest = self.rest();
        let dotted = rest.starts_with('.') && !rest.starts_with("..");
        let name = word.is_empty() || dotted || rest.starts_with(['_', '(']) || operator;
        if name || (word != "in" && keyword(word).is_some()) {
            self.at = back;
            return Ok(None);
        }
        if let Some(unit) = Unit::parse(word) {
            return Ok(Some(unit));
        }
        let instead = fault::nearest(word, SPELLED.into_iter().chain(Unit::all().map(Unit::word)));
        let instead = instead.and_then(|near| Unit::parse(&near)).map(|unit| unit.word().to_owned());
        self.fault(start, Wrong::Unit(word.to_owned()), instead);
        Err(())
    }

    /// A word that may be a unit: letters, `²` or `³`, and a second word after `sq` and `cu`.
    fn unit_word(&mut self) -> &'a str {
        let start = self.at;
        let first = self.take(|c| c.is_alphabetic() || c == '²' || c == '³');
        if first == "sq" || first == "cu" {
            self.skip_blanks();
            self.take(|c| c.is_alphabetic());
        }
        &self.text[start..self.at]
    }
}

/// Units as people spell them out; a misspelt one is nearer to these than to the short words.
const SPELLED: [&str; 14] = [
    "feet",
    "inches",
    "meters",
    "millimeters",
    "pounds",
    "kilograms",
    "seconds",
    "minutes",
    "hours",
    "amperes",
    "volts",
    "watts",
    "percent",
    "degrees",
];

/// Marks for feet and inches, which a rule writes as words because a quote mark begins a text.
const MARKS: [(&str, &str); 4] = [("\"", "in"), ("'", "ft"), ("″", "in"), ("′", "ft")];

/// Decimal places that a number of a rule may have; 1/64 in has six.
const PLACES: u32 = 9;
/// Largest number of a rule.
const LARGEST: i64 = 1_000_000_000;

fn name_letter(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}
