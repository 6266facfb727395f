//! Objects of a PDF file, from their text (ISO 32000-1, 7.3).
//!
//! In: bytes. Out: objects and tokens. May not know: files, pages.

use std::collections::BTreeMap;

/// A dictionary.
pub type Dict = BTreeMap<String, Object>;

/// An object. A stream is its dictionary; its data are kept by the file.
#[derive(Clone, Debug, PartialEq)]
pub enum Object {
    Null,
    Bool(bool),
    Number(f64),
    Name(String),
    Text(Vec<u8>),
    Array(Vec<Object>),
    Dict(Dict),
    Ref(u32),
    /// An operator of a content stream.
    Operator(String),
}

impl Object {
    pub fn int(&self) -> i64 {
        match self {
            Object::Number(number) if number.fract() == 0.0 => *number as i64,
            other => panic!("no integer: {other:?}"),
        }
    }

    pub fn number(&self) -> f64 {
        match self {
            Object::Number(number) => *number,
            other => panic!("no number: {other:?}"),
        }
    }

    pub fn name(&self) -> &str {
        match self {
            Object::Name(name) => name,
            other => panic!("no name: {other:?}"),
        }
    }

    pub fn bytes(&self) -> &[u8] {
        match self {
            Object::Text(bytes) => bytes,
            other => panic!("no string: {other:?}"),
        }
    }

    pub fn array(&self) -> &[Object] {
        match self {
            Object::Array(list) => list,
            other => panic!("no array: {other:?}"),
        }
    }

    pub fn dict(&self) -> &Dict {
        match self {
            Object::Dict(dict) => dict,
            other => panic!("no dictionary: {other:?}"),
        }
    }

    pub fn reference(&self) -> u32 {
        match self {
            Object::Ref(number) => *number,
            other => panic!("no reference: {other:?}"),
        }
    }
}

/// Reads objects one after the other.
pub struct Parser<'b> {
    bytes: &'b [u8],
    pub at: usize,
}

const DELIMITERS: &[u8] = b"()<>[]{}/%";

impl<'b> Parser<'b> {
    pub fn new(bytes: &'b [u8]) -> Self {
        Parser { bytes, at: 0 }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn skip_space(&mut self) {
        while let Some(byte) = self.peek() {
            match byte {
                b'%' => {
                    while self.peek().is_some_and(|byte| byte != b'\n' && byte != b'\r') {
                        self.at += 1;
                    }
                }
                0 | 9 | 10 | 12 | 13 | 32 => self.at += 1,
                _ => return,
            }
        }
    }

    /// Whether nothing but space is left.
    pub fn is_done(&mut self) -> bool {
        self.skip_space();
        self.peek().is_none()
    }

    fn word(&mut self) -> &'b str {
        let start = self.at;
        while self.peek().is_some_and(|byte| byte > 32 && !DELIMITERS.contains(&byte)) {
            self.at += 1;
        }
        std::str::from_utf8(&self.bytes[start..self.at]).unwrap()
    }

    pub fn number(&mut self) -> f64 {
        self.skip_space();
        let word = self.word();
        word.parse().unwrap_or_else(|_| panic!("no number: {word:?}"))
    }

    pub fn keyword(&mut self, expected: &str) {
        assert!(self.peek_keyword(expected), "{expected} expected");
    }

    /// Passes a keyword where it comes next.
    pub fn peek_keyword(&mut self, expected: &str) -> bool {
        self.skip_space();
        let found = self.bytes[self.at..].starts_with(expected.as_bytes());
        if found {
            self.at += expected.len();
        }
        found
    }

    pub fn object(&mut self) -> Object {
        self.skip_space();
        match self.peek().expect("an object, not the end") {
            b'/' => {
                self.at += 1;
                Object::Name(unescape_name(self.word()))
            }
            b'(' => self.literal(),
            b'<' if self.bytes.get(self.at + 1) == Some(&b'<') => self.dict(),
            b'<' => self.hex(),
            b'[' => {
                self.at += 1;
                let mut list = Vec::new();
                while !self.peek_keyword("]") {
                    list.push(self.object());
                }
                Object::Array(list)
            }
            b'0'..=b'9' | b'+' | b'-' | b'.' => self.number_or_reference(),
            _ => match self.word() {
                "true" => Object::Bool(true),
                "false" => Object::Bool(false),
                "null" => Object::Null,
                "" => panic!("stray delimiter {:?}", char::from(self.bytes[self.at])),
                operator => Object::Operator(operator.to_string()),
            },
        }
    }

    fn number_or_reference(&mut self) -> Object {
        let number = self.number();
        let after = self.at;
        let is_digit = |parser: &Self| parser.peek().is_some_and(|byte| byte.is_ascii_digit());
        self.skip_space();
        if is_digit(self) && self.word() == "0" {
            self.skip_space();
            if self.word() == "R" {
                return Object::Ref(number as u32);
            }
        }
        self.at = after;
        Object::Number(number)
    }

    fn dict(&mut self) -> Object {
        self.at += 2;
        let mut dict = Dict::new();
        while !self.peek_keyword(">>") {
            let key = self.object().name().to_string();
            let value = self.object();
            assert!(dict.insert(key.clone(), value).is_none(), "{key} twice");
        }
        Object::Dict(dict)
    }

    fn hex(&mut self) -> Object {
        self.at += 1;
        let mut digits = Vec::new();
        while !self.peek_keyword(">") {
            digits.push(char::from(self.bytes[self.at]).to_digit(16).expect("a hex digit") as u8);
            self.at += 1;
        }
        Object::Text(digits.chunks(2).map(|pair| pair[0] << 4 | pair.get(1).unwrap_or(&0)).collect())
    }

    fn literal(&mut self) -> Object {
        self.at += 1;
        let (mut out, mut depth) = (Vec::new(), 0);
        loop {
            let byte = self.peek().expect("the end of a string");
            self.at += 1;
            match byte {
                b'(' => depth += 1,
                b')' if depth == 0 => return Object::Text(out),
                b')' => depth -= 1,
                b'\\' => {
                    let escaped = self.peek().expect("an escaped byte");
                    self.at += 1;
                    out.push(match escaped {
                        b'n' => b'\n',
                        b'r' => b'\r',
                        b't' => b'\t',
                        b'(' | b')' | b'\\' => escaped,
                        other => panic!("escape of {other}"),
                    });
                    continue;
                }
                b'\r' => panic!("a bare carriage return in a string"),
                _ => {}
            }
            out.push(byte);
        }
    }
}

fn unescape_name(raw: &str) -> String {
    let mut parts = raw.split('#');
    let mut name = parts.next().unwrap().to_string();
    for part in parts {
        name.push(char::from(u8::from_str_radix(&part[..2], 16).unwrap()));
        name.push_str(&part[2..]);
    }
    name
}
