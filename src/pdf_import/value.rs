//! Values of a PDF file as they are read (ISO 32000-1, 7.3).
//!
//! In: what the parser saw. Out: values that stay as they were written, numbers by their digits; a copy of one costs nothing.
//! May not know: what a value is for.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::rc::Rc;

/// A dictionary; keys without their slash.
pub(super) type Dict<'f> = BTreeMap<Vec<u8>, Value<'f>>;

/// A stream: its dictionary, and its data as they stand in the file.
#[derive(Clone, Debug)]
pub(super) struct Stream<'f> {
    pub(super) dict: Dict<'f>,
    pub(super) data: Cow<'f, [u8]>,
}

/// A value.
#[derive(Clone, Debug)]
pub(super) enum Value<'f> {
    Null,
    Bool(bool),
    /// The digits of a number, checked to be one.
    Number(String),
    Name(Vec<u8>),
    Text(Vec<u8>),
    List(Rc<Vec<Value<'f>>>),
    Dict(Rc<Dict<'f>>),
    Stream(Rc<Stream<'f>>),
    /// A reference to the object of this number.
    Refer(u32),
}

impl<'f> Value<'f> {
    /// A number, where it is one.
    pub(super) fn number(&self) -> Option<f64> {
        match self {
            Value::Number(digits) => digits.parse().ok().filter(|it: &f64| it.is_finite()),
            _ => None,
        }
    }

    /// A whole number, where it is one.
    pub(super) fn whole(&self) -> Option<i64> {
        match self {
            Value::Number(digits) => digits.parse().ok(),
            _ => None,
        }
    }

    /// A whole number that counts something.
    pub(super) fn count(&self) -> Option<usize> {
        self.whole().and_then(|it| usize::try_from(it).ok())
    }

    /// A name, where it is one.
    pub(super) fn name(&self) -> Option<&[u8]> {
        match self {
            Value::Name(name) => Some(name),
            _ => None,
        }
    }

    /// A list, where it is one.
    pub(super) fn list(&self) -> Option<&[Value<'f>]> {
        match self {
            Value::List(list) => Some(list),
            _ => None,
        }
    }

    /// A dictionary, or that of a stream.
    pub(super) fn dict(&self) -> Option<&Dict<'f>> {
        match self {
            Value::Dict(dict) => Some(dict),
            Value::Stream(stream) => Some(&stream.dict),
            _ => None,
        }
    }

    /// A stream, where it is one.
    pub(super) fn stream(&self) -> Option<&Rc<Stream<'f>>> {
        match self {
            Value::Stream(stream) => Some(stream),
            _ => None,
        }
    }
}
