//! Bytes to values (ISO 32000-1, 7.2 and 7.3).
//!
//! In: bytes and a position. Out: the value that stands there. May not know: objects that it refers to.
//!
//! Nesting is bounded, and so is the number of values, since the bytes may have been made to exhaust whoever reads them.

use super::budget::Budget;
use super::fault::Fault;
use super::limits::DEEPEST;
use super::value::{Dict, Value};

/// A place in bytes that are being read.
pub(super) struct Parser<'f, 'b> {
    pub(super) bytes: &'f [u8],
    pub(super) at: usize,
    budget: &'b Budget,
}

/// White space: ISO 32000-1, table 1.
pub(super) fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | 9 | 10 | 12 | 13 | 32)
}

/// Delimiters: ISO 32000-1, table 2.
fn is_delimiter(byte: u8) -> bool {
    matches!(byte, b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%')
}

fn is_regular(byte: u8) -> bool {
    !is_space(byte) && !is_delimiter(byte)
}

/// The longest number, in characters: more digits say nothing.
const LONGEST_NUMBER: usize = 32;

impl<'f, 'b> Parser<'f, 'b> {
    /// A parser at a byte.
    pub(super) fn new(bytes: &'f [u8], at: usize, budget: &'b Budget) -> Self {
        Parser { bytes, at: at.min(bytes.len()), budget }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    /// Passes over white space and comments.
    pub(super) fn space(&mut self) {
        while let Some(byte) = self.peek() {
            if byte == b'%' {
                while self.peek().is_some_and(|it| it != b'\n' && it != b'\r') {
                    self.at += 1;
                }
            } else if is_space(byte) {
                self.at += 1;
            } else {
                return;
            }
        }
    }

    /// The regular characters that follow.
    fn word(&mut self) -> &'f [u8] {
        let start = self.at;
        while self.peek().is_some_and(is_regular) {
            self.at += 1;
        }
        &self.bytes[start..self.at]
    }

    /// Passes over a keyword, if it is the next.
    pub(super) fn keyword(&mut self, keyword: &[u8]) -> bool {
        self.space();
        let start = self.at;
        let is = self.word() == keyword;
        if !is {
            self.at = start;
        }
        is
    }

    /// Passes over a whole number that is not negative, if it is the next.
    pub(super) fn count(&mut self) -> Option<usize> {
        self.space();
        let start = self.at;
        let word = self.word();
        let number = std::str::from_utf8(word).ok().filter(|it| it.bytes().all(|byte| byte.is_ascii_digit()));
        let number = number.and_then(|it| it.parse().ok());
        if number.is_none() {
            self.at = start;
        }
        number
    }

    /// The value that stands here.
    pub(super) fn value(&mut self, depth: usize) -> Result<Value<'f>, Fault> {
        if depth > DEEPEST {
            return Err(Fault::TooDeep);
        }
        self.budget.value()?;
        self.space();
        match self.peek() {
            Some(b'/') => {
                self.at += 1;
                Ok(Value::Name(self.name()))
            }
            Some(b'(') => self.literal(),
            Some(b'<') if self.bytes.get(self.at + 1) == Some(&b'<') => {
                self.at += 2;
                self.dict(depth).map(|dict| Value::Dict(dict.into()))
            }
            Some(b'<') => self.hexadecimal(),
            Some(b'[') => {
                self.at += 1;
                self.list(depth)
            }
            Some(byte) if is_regular(byte) => self.plain(),
            _ => Err(Fault::Damaged("a value is missing")),
        }
    }

    /// A number, a reference or a word.
    fn plain(&mut self) -> Result<Value<'f>, Fault> {
        if let Some(refer) = self.reference() {
            return Ok(refer);
        }
        match self.word() {
            b"true" => Ok(Value::Bool(true)),
            b"false" => Ok(Value::Bool(false)),
            b"null" => Ok(Value::Null),
            word => number(word).ok_or(Fault::Damaged("a value cannot be read")),
        }
    }

    /// A reference: two counts and an `R`.
    fn reference(&mut self) -> Option<Value<'f>> {
        let start = self.at;
        let number = self.count();
        let generation = number.and_then(|_| self.count());
        if generation.is_some() && self.keyword(b"R") {
            return Some(number.and_then(|it| u32::try_from(it).ok()).map_or(Value::Null, Value::Refer));
        }
        self.at = start;
        None
    }

    fn name(&mut self) -> Vec<u8> {
        let word = self.word();
        let mut name = Vec::with_capacity(word.len());
        let mut at = 0;
        while at < word.len() {
            let escaped = (word[at] == b'#').then(|| pair(word.get(at + 1), word.get(at + 2))).flatten();
            name.push(escaped.unwrap_or(word[at]));
            at += if escaped.is_some() { 3 } else { 1 };
        }
        name
    }

    fn list(&mut self, depth: usize) -> Result<Value<'f>, Fault> {
        let mut list = Vec::new();
        loop {
            self.space();
            if self.peek() == Some(b']') {
                self.at += 1;
                return Ok(Value::List(list.into()));
            }
            list.push(self.value(depth + 1)?);
        }
    }

    fn dict(&mut self, depth: usize) -> Result<Dict<'f>, Fault> {
        let mut dict = Dict::new();
        loop {
            self.space();
            match self.peek() {
                Some(b'>') if self.bytes.get(self.at + 1) == Some(&b'>') => {
                    self.at += 2;
                    return Ok(dict);
                }
                Some(b'/') => {
                    self.at += 1;
                    let key = self.name();
                    dict.insert(key, self.value(depth + 1)?);
                }
                _ => return Err(Fault::Damaged("a dictionary is not closed")),
            }
        }
    }

    fn hexadecimal(&mut self) -> Result<Value<'f>, Fault> {
        self.at += 1;
        let mut digits = Vec::new();
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'>' => {
                    let pairs = digits.chunks(2).map(|two: &[u8]| pair(two.first(), two.get(1).or(Some(&b'0'))));
                    return Ok(Value::Text(pairs.flatten().collect()));
                }
                _ if byte.is_ascii_hexdigit() => digits.push(byte),
                _ if is_space(byte) => {}
                _ => break,
            }
        }
        Err(Fault::Damaged("a text cannot be read"))
    }

    fn literal(&mut self) -> Result<Value<'f>, Fault> {
        self.at += 1;
        let (mut text, mut open) = (Vec::new(), 1usize);
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'\\' => text.extend(self.escaped()),
                b'(' => {
                    open += 1;
                    text.push(byte);
                }
                b')' if open == 1 => return Ok(Value::Text(text)),
                b')' => {
                    open -= 1;
                    text.push(byte);
                }
                _ => text.push(byte),
            }
        }
        Err(Fault::Damaged("a text is not closed"))
    }

    /// What stands behind a backslash: ISO 32000-1, table 3.
    fn escaped(&mut self) -> Option<u8> {
        let byte = self.peek()?;
        self.at += 1;
        match byte {
            b'n' => Some(b'\n'),
            b'r' => Some(b'\r'),
            b't' => Some(b'\t'),
            b'b' => Some(8),
            b'f' => Some(12),
            b'\r' => {
                self.at += usize::from(self.peek() == Some(b'\n'));
                None
            }
            b'\n' => None,
            b'0'..=b'7' => {
                let mut code = u16::from(byte - b'0');
                for _ in 0..2 {
                    let Some(digit) = self.peek().filter(|it| (b'0'..=b'7').contains(it)) else { break };
                    self.at += 1;
                    code = code * 8 + u16::from(digit - b'0');
                }
                Some(code as u8) // a code above 255 loses its high bit: ISO 32000-1, 7.3.4.2
            }
            other => Some(other),
        }
    }
}

/// The byte that two hexadecimal digits write.
fn pair(high: Option<&u8>, low: Option<&u8>) -> Option<u8> {
    let digit = |byte: &u8| char::from(*byte).to_digit(16);
    Some((digit(high?)? * 16 + digit(low?)?) as u8) // below 256
}

/// A number as it is written, if it is one.
fn number(word: &[u8]) -> Option<Value<'static>> {
    let text = std::str::from_utf8(word).ok()?;
    let text = text.strip_prefix('+').unwrap_or(text);
    let digits = text.strip_prefix('-').unwrap_or(text);
    let is_number = !digits.is_empty()
        && digits.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.')
        && digits.bytes().filter(|byte| *byte == b'.').count() <= 1;
    if !is_number {
        return None;
    }
    if !digits.bytes().any(|byte| byte.is_ascii_digit()) {
        return Some(Value::Number("0".to_owned())); // a point or a sign alone
    }
    let whole = digits.split('.').next().unwrap_or_default();
    if whole.len() > 10 {
        return None; // beyond what a PDF can hold: ISO 32000-1, annex C
    }
    Some(Value::Number(text.chars().take(LONGEST_NUMBER).collect()))
}
