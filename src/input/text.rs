//! Texts: one line, several lines, ids, and expressions that another room parses.
//!
//! In: raw texts. Out: texts that can be printed as they are. May not know: what they say.

use std::fmt;
use std::ops::{Deref, Range};

use super::{Fix, Raw, Reader, Refusal, Scalar, Written, codes, scalar_fields};
use crate::findings::Place;
use crate::measure::System;

/// Longest text of one line, in characters.
const LINE_LIMIT: usize = 400;
/// Longest id, in characters.
const ID_LIMIT: usize = 64;

macro_rules! texts {
    ($($(#[$doc:meta])* $name:ident;)*) => { $(
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);

        impl $name {
            /// The text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl Deref for $name {
            type Target = str;

            fn deref(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&self.0)
            }
        }

        impl From<$name> for String {
            fn from(text: $name) -> String {
                text.0
            }
        }

        impl PartialEq<str> for $name {
            fn eq(&self, other: &str) -> bool {
                self.0 == other
            }
        }

        impl PartialEq<&str> for $name {
            fn eq(&self, other: &&str) -> bool {
                self.0 == *other
            }
        }

        impl std::borrow::Borrow<str> for $name {
            fn borrow(&self) -> &str {
                &self.0
            }
        }
    )* };
}

texts! {
    /// A text of one line: not empty, no white space around it, nothing unprintable in it.
    Text;
    /// A name that references, file names and carton tags can carry: letters, digits, `-`, `_` and `.`, a letter or
    /// digit first, at most 64.
    Id;
}

scalar_fields!(#name Text => String, #name Id => String, Formula);

/// The text of a raw value; numbers, flags and dates are refused with the same in quotes.
fn text_of<'n>(raw: Raw<'n>) -> Result<&'n str, Refusal> {
    match raw {
        Raw::Text(text) | Raw::Cell(text) if text.is_empty() => {
            let refusal = Refusal::new(&codes::EMPTY_VALUE).asked("a text");
            Err(refusal.fix(Fix::Advice("leave the key out, or write the text".to_owned())))
        }
        Raw::Text(text) | Raw::Cell(text) => Ok(text),
        Raw::Integer(text) | Raw::Float(text) | Raw::Date(text) => {
            Err(Refusal::wrong_type().fix(Fix::Text(text.to_owned())))
        }
        Raw::Flag(flag) => Err(Refusal::wrong_type().fix(Fix::Text(flag.to_string()))),
        Raw::List | Raw::Table => Err(Refusal::wrong_type()),
    }
}

fn limited(text: &str, limit: usize) -> Result<&str, Refusal> {
    let length = text.chars().count();
    if length <= limit {
        return Ok(text);
    }
    let refusal = Refusal::new(&codes::TOO_LONG).asked(format!("at most {limit} characters"));
    Err(refusal.margin(format!("{} characters too many", length - limit)))
}

impl Scalar for Text {
    const WORDS: &'static str = "a text";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        limited(text_of(raw)?, LINE_LIMIT).map(|text| Text(text.to_owned()))
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

impl Scalar for Id {
    const WORDS: &'static str = "an id";

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        let text = text_of(raw)?;
        if is_id(text) { Ok(Id(text.to_owned())) } else { Err(bad_id(text)) }
    }

    fn readable(&self, _: System) -> String {
        self.to_string()
    }
}

/// Whether a text can be an id.
pub(super) fn is_id(text: &str) -> bool {
    let legal = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.');
    text.len() <= ID_LIMIT
        && text.bytes().next().is_some_and(|byte| byte.is_ascii_alphanumeric())
        && text.bytes().all(legal)
}

/// The refusal of a text that is no id, with one made of its legal characters.
pub(super) fn bad_id(text: &str) -> Refusal {
    let mut made = String::new();
    for it in text.trim().chars() {
        match it {
            'a'..='z' | 'A'..='Z' | '0'..='9' | '.' | '_' => made.push(it),
            _ if made.is_empty() || made.ends_with('-') => {}
            _ => made.push('-'),
        }
    }
    let made: String = made.trim_matches(['-', '.', '_']).chars().take(ID_LIMIT).collect();
    let refusal = Refusal::new(&codes::BAD_ID).asked("letters, digits, `-`, `_` and `.`, a letter or digit first");
    if made.is_empty() { refusal } else { refusal.fix(Fix::Text(made)) }
}

/// An expression, kept as text with its places: the room that parses it can report a fault at any byte of it.
#[derive(Clone)]
pub struct Formula {
    text: String,
    written: Option<Written>,
}

impl fmt::Debug for Formula {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Formula({:?})", self.text)
    }
}

impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl Formula {
    /// The expression.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// Where a range of its bytes was written, inside the TOML string or the cell; an escape counts as what it stands
    /// for. Nothing for a formula that was made by a program.
    pub fn place(&self, range: Range<usize>) -> Option<Place> {
        self.written.as_ref().map(|written| written.place(range))
    }
}

impl Scalar for Formula {
    const WORDS: &'static str = "an expression";
    const MANY_LINES: bool = true;

    fn from_raw(raw: Raw<'_>, _: &Reader<'_>) -> Result<Self, Refusal> {
        if let Raw::Integer(text) = raw {
            return Ok(Formula { text: text.to_owned(), written: None });
        }
        Ok(Formula { text: text_of(raw)?.to_owned(), written: None })
    }

    fn locate(&mut self, written: &Written) {
        let blank = written.text.len() - written.text.trim_start().len();
        self.written = Some(written.part(blank..blank + self.text.len()));
    }

    fn readable(&self, _: System) -> String {
        self.text.clone()
    }
}
