//! Values that are written as one piece: what each makes of a raw value, and how it refuses one.
//!
//! In: a raw value of the tree. Out: the value, or a refusal that becomes a finding at its place.
//! May not know: which key the value stands at.

use std::fmt::Debug;
use std::ops::Range;

use super::codes;
use super::quoting::{is_unprintable, quoted, visible};
use super::{Field, FieldInfo, Node, Reader, Shape, Spelling, Tree, Word};
use crate::findings::{Code, Finding};
use crate::measure::System;

/// A raw value as it was written, with white space around a text taken away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Raw<'n> {
    /// A quoted text.
    Text(&'n str),
    /// A cell of a table.
    Cell(&'n str),
    /// A whole number.
    Integer(&'n str),
    /// A number with a point or exponent, as typed.
    Float(&'n str),
    /// True or false.
    Flag(bool),
    /// A date, a time or both, as typed.
    Date(&'n str),
    /// A list.
    List,
    /// A table.
    Table,
}

impl Raw<'_> {
    /// The value as a finding shows it.
    pub fn shown(&self) -> String {
        match self {
            Raw::Text(text) | Raw::Cell(text) => format!("`{}`", visible(text)),
            Raw::Integer(text) | Raw::Float(text) | Raw::Date(text) => format!("`{text}`"),
            Raw::Flag(flag) => format!("`{flag}`"),
            Raw::List => "a list".to_owned(),
            Raw::Table => "a table".to_owned(),
        }
    }
}

/// What to type instead of a refused value.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Fix {
    /// Nothing to offer.
    #[default]
    None,
    /// A text, which TOML puts in quotes and a table does not.
    Text(String),
    /// A number, flag or date, which takes no quotes.
    Bare(String),
    /// Advice where there is no one text to type.
    Advice(String),
}

/// Why a raw value is refused.
#[derive(Clone, Debug)]
pub struct Refusal(Box<Reasons>);

#[derive(Clone, Debug)]
pub(super) struct Reasons {
    pub(super) code: &'static Code,
    /// The bytes at fault within the text; the whole value where none.
    at: Option<Range<usize>>,
    /// What was found, where that is not the value itself.
    found: Option<String>,
    /// What is asked for, where that is not the kind of value and the field's example.
    asked: Option<String>,
    margin: Option<String>,
    pub(super) fix: Fix,
}

impl Refusal {
    /// A refusal of the whole value.
    pub fn new(code: &'static Code) -> Self {
        Refusal(Box::new(Reasons { code, at: None, found: None, asked: None, margin: None, fix: Fix::None }))
    }

    /// The refusal of a value of another type.
    pub fn wrong_type() -> Self {
        Refusal::new(&codes::WRONG_TYPE)
    }

    /// Says what to type.
    pub fn fix(mut self, fix: Fix) -> Self {
        self.0.fix = fix;
        self
    }

    /// Says what is asked for.
    pub fn asked(mut self, asked: impl Into<String>) -> Self {
        self.0.asked = Some(asked.into());
        self
    }

    /// Says what was found.
    pub fn found(mut self, found: impl Into<String>) -> Self {
        self.0.found = Some(found.into());
        self
    }

    /// Says by how much it is out.
    pub fn margin(mut self, margin: impl Into<String>) -> Self {
        self.0.margin = Some(margin.into());
        self
    }

    /// Names the bytes at fault.
    pub fn at(mut self, at: Range<usize>) -> Self {
        self.0.at = Some(at);
        self
    }

    pub(super) fn into_reasons(self) -> Reasons {
        *self.0
    }
}

/// A value that is written as one piece.
pub trait Scalar: Clone + Debug + Sized + 'static {
    /// What it is, with its article, as in "a length".
    const WORDS: &'static str;
    /// The units it may carry, or nothing.
    const UNIT: &'static str = "";
    /// Whether TOML writes it in quotes.
    const QUOTED: bool = true;
    /// Whether a text may have more than one line.
    const MANY_LINES: bool = false;

    /// Reads a raw value.
    ///
    /// # Errors
    /// Why it is refused.
    fn from_raw(raw: Raw<'_>, reader: &Reader<'_>) -> Result<Self, Refusal>;

    /// The words of a closed list, where it is one.
    fn words() -> Option<&'static [Word]> {
        None
    }

    /// How it compares with another; nothing where the kind has no order.
    fn order(&self, _: &Self) -> Option<std::cmp::Ordering> {
        None
    }

    /// The value as a person reads it.
    fn readable(&self, system: System) -> String;

    /// Takes the text with its places, where the value keeps them.
    fn locate(&mut self, _: &super::Written) {}
}

/// Shape of a scalar, for field tables.
pub fn scalar_shape<S: Scalar>() -> Shape {
    match S::words() {
        Some(words) => Shape::Choice(words),
        None => Shape::Scalar { words: S::WORDS, unit: S::UNIT, quoted: S::QUOTED },
    }
}

/// Reads a scalar from a node; every fault becomes one finding.
pub fn read_scalar<S: Scalar>(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<S> {
    if let Some(refusal) = unprintable::<S>(node) {
        reader.refuse(node, info, S::WORDS, refusal);
        return None;
    }
    let read = S::from_raw(raw(node), reader).map_err(|it| beyond(it, info)).and_then(|it| within(it, info, reader));
    match read {
        Ok(mut value) => {
            if let Tree::Text(written) | Tree::Cell(written) = &node.tree {
                value.locate(written);
            }
            Some(value)
        }
        Err(refusal) => {
            reader.refuse(node, info, S::WORDS, refusal);
            None
        }
    }
}

fn raw(node: &Node) -> Raw<'_> {
    match &node.tree {
        Tree::Text(written) => Raw::Text(written.text.trim()),
        Tree::Cell(written) => Raw::Cell(written.text.trim()),
        Tree::Integer(text) => Raw::Integer(text),
        Tree::Float(text) => Raw::Float(text),
        Tree::Flag(flag) => Raw::Flag(*flag),
        Tree::Date(text) => Raw::Date(text),
        Tree::List(_) => Raw::List,
        Tree::Table(_) | Tree::Unread => Raw::Table,
    }
}

fn unprintable<S: Scalar>(node: &Node) -> Option<Refusal> {
    let (Tree::Text(written) | Tree::Cell(written)) = &node.tree else { return None };
    let line_end = |it: char| S::MANY_LINES && matches!(it, '\n' | '\r' | '\t');
    let bad = |it: char| is_unprintable(it) && !line_end(it);
    let (at, found) = written.text.char_indices().find(|(_, it)| bad(*it))?;
    let blank = written.text.len() - written.text.trim_start().len();
    let clean: String = written.text.chars().filter(|it| !bad(*it)).collect();
    let start = at.saturating_sub(blank);
    let refusal = Refusal::new(&codes::CONTROL_CHARACTER).found(format!("U+{:04X}", u32::from(found)));
    Some(refusal.asked("printable text").at(start..start + found.len_utf8()).fix(Fix::Text(clean)))
}

/// The range of a field, as it is asked for.
fn range_of(info: &FieldInfo, low: &str, high: &str) -> String {
    match info.example {
        "" => format!("{low} to {high}"),
        example => format!("{low} to {high}, such as {}", info.typed(example)),
    }
}

/// A number that its type cannot hold is told the range of its field.
fn beyond(refusal: Refusal, info: &FieldInfo) -> Refusal {
    match info.within {
        Some((low, high)) if *refusal.0.code == codes::OUT_OF_RANGE => refusal.asked(range_of(info, low, high)),
        _ => refusal,
    }
}

/// Holds a value against the range of its field.
fn within<S: Scalar>(value: S, info: &FieldInfo, reader: &Reader<'_>) -> Result<S, Refusal> {
    let Some((low, high)) = info.within else { return Ok(value) };
    let bound = |text| {
        let raw = if S::QUOTED { Raw::Text(text) } else { Raw::Integer(text) };
        S::from_raw(raw, reader).ok()
    };
    let below = bound(low).and_then(|low| value.order(&low)).is_some_and(std::cmp::Ordering::is_lt);
    let above = bound(high).and_then(|high| value.order(&high)).is_some_and(std::cmp::Ordering::is_gt);
    if below || above {
        let margin = if below { format!("below {low}") } else { format!("above {high}") };
        return Err(Refusal::new(&codes::OUT_OF_RANGE).asked(range_of(info, low, high)).margin(margin));
    }
    Ok(value)
}

impl Reader<'_> {
    /// Turns a refusal into a finding at the value.
    pub(super) fn refuse(&mut self, node: &Node, info: &FieldInfo, words: &str, refusal: Refusal) {
        if matches!(node.tree, Tree::Unread) {
            return;
        }
        let refusal = refusal.into_reasons();
        let place = match (&refusal.at, &node.tree) {
            (Some(at), Tree::Text(written) | Tree::Cell(written)) => {
                let blank = written.text.len() - written.text.trim_start().len();
                written.place(at.start + blank..at.end + blank)
            }
            _ => node.place.clone(),
        };
        let asked = refusal.asked.unwrap_or_else(|| asked(words, info));
        let fix = in_usual_unit(refusal.code, refusal.fix, node, info);
        let mut finding = Finding::new(refusal.code, self.subject())
            .at(place)
            .blocking(info.blocks)
            .found(refusal.found.unwrap_or_else(|| raw(node).shown()))
            .asked(asked);
        finding.margin = refusal.margin;
        let in_cell = matches!(node.tree, Tree::Cell(_));
        self.push(match fix {
            Fix::None => finding,
            Fix::Advice(text) => finding.advise(text),
            Fix::Bare(text) => finding.type_at(node.place.clone(), text),
            Fix::Text(text) => finding.type_at(node.place.clone(), if in_cell { text } else { quoted(&text) }),
        });
    }
}

/// A measure without its unit is told the unit of the field's example first: a road is given in miles, a run in feet.
fn in_usual_unit(code: &Code, fix: Fix, node: &Node, info: &FieldInfo) -> Fix {
    let Fix::Advice(readings) = &fix else { return fix };
    let written = raw(node).shown();
    let bare = written.trim_matches('`');
    let unit = info.example.split_once(' ').map_or("", |(_, unit)| unit);
    let usual = unit.chars().all(char::is_alphabetic) && !unit.is_empty();
    let number = !bare.is_empty() && bare.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    if *code != super::codes::AMBIGUOUS || !usual || !number || readings.starts_with(&format!("{bare} {unit}")) {
        return fix;
    }
    Fix::Advice(format!("{bare} {unit}, or the unit that is meant"))
}

fn asked(words: &str, info: &FieldInfo) -> String {
    match info.example {
        "" => words.to_owned(),
        example => format!("{words}, such as {}", info.typed(example)),
    }
}

/// Makes fields of scalars. `Count => u32` says what is left of a value once its place and standing are gone; where nothing is
/// said, the value itself is. `#name` marks those that can name an entry.
macro_rules! scalar_fields {
    (@plain $scalar:ty) => { $scalar };
    (@plain $scalar:ty, $plain:ty) => { $plain };
    ($($(#$name:ident)? $scalar:ty $(=> $plain:ty)?),* $(,)?) => { $(
        impl $crate::input::Plain for $scalar {
            type Value = $crate::input::scalar_fields!(@plain $scalar $(, $plain)?);
            type Optional = Option<Self::Value>;

            fn value(&self) -> Option<Self::Value> {
                Some(self.clone().into())
            }

            fn optional(slot: &$crate::input::Slot<Self>) -> Self::Optional {
                slot.value()
            }
        }

        impl $crate::input::Field for $scalar {
            fn shape() -> $crate::input::Shape {
                $crate::input::scalar_shape::<Self>()
            }

            fn read_node(
                node: &$crate::input::Node,
                info: &$crate::input::FieldInfo,
                reader: &mut $crate::input::Reader<'_>,
            ) -> Option<Self> {
                $crate::input::read_scalar(node, info, reader)
            }

            $(
                fn $name(&self) -> Option<&str> {
                    Some(self.as_str())
                }
            )?

            fn dump(&self, path: &str, spelling: $crate::input::Spelling, out: &mut Vec<(String, String)>) {
                let text = match spelling {
                    $crate::input::Spelling::Exact => format!("{self:?}"),
                    $crate::input::Spelling::Readable(system) => $crate::input::Scalar::readable(self, system),
                };
                out.push((path.to_owned(), text));
            }
        }
    )* };
}
pub(crate) use scalar_fields;

impl<S: Scalar + Field> Field for super::Given<S> {
    fn shape() -> Shape {
        S::shape()
    }

    fn read_node(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Self> {
        let value = read_scalar(node, info, reader)?;
        Some(super::Given { value, place: node.place.clone(), standing: reader.standing(), through: None })
    }

    fn mark(&mut self, through: &str) {
        self.through.get_or_insert_with(|| through.to_owned());
    }

    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
        self.value.dump(path, spelling, out);
    }
}
