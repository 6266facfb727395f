//! What reading a measure asks for and what it says when the text is not one.
//!
//! In: nothing. Out: the trait of everything that is read from a text, and the one shape of its refusals.
//! May not know: which file the text stands in; places are bytes within the text.

use std::ops::Range;

use super::{Dimension, Quantity};

/// The units a job is written in. It never decides what a text means; it only decides which suggestion comes first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum System {
    /// Feet and inches, pounds.
    #[default]
    Inch,
    /// Millimetres, kilograms.
    Millimetre,
}

/// What kind of fault a text has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MisreadKind {
    /// Nothing but white space.
    Empty,
    /// A control or invisible character.
    ControlCharacter,
    /// Not a text of this kind at all.
    NotOne,
    /// A unit of something else, or one that is not known.
    WrongUnit,
    /// Feet or inches together with millimetres.
    MixedSystems,
    /// More than one meaning; the readings stand in `type_instead`.
    Ambiguous,
    /// A fraction that no tape shows: denominator not 2 to 64 in powers of two, or not less than one.
    BadFraction,
    /// Twelve inches or more beside feet.
    InchesBeyondFoot,
    /// Below zero.
    Negative,
    /// Beyond what the type holds.
    TooMuch,
    /// Finer than the type holds exactly.
    TooFine,
}

/// Why a text was not read, where, and what to type instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// Bytes of the text at fault.
    pub at: Range<usize>,
    /// What kind of fault.
    pub kind: MisreadKind,
    /// One sentence without capital and final stop.
    pub says: String,
    /// Texts that would be read, most likely first; may be empty.
    pub type_instead: Vec<String>,
}

impl Misread {
    pub(super) fn new(at: Range<usize>, kind: MisreadKind, says: impl Into<String>) -> Misread {
        Misread { at, kind, says: says.into(), type_instead: Vec::new() }
    }

    pub(super) fn instead(mut self, text: impl Into<String>) -> Misread {
        self.type_instead.push(text.into());
        self
    }

    pub(super) fn instead_all(mut self, texts: impl IntoIterator<Item = String>) -> Misread {
        self.type_instead.extend(texts);
        self
    }
}

/// A measure that is read from a text and is a quantity of one dimension.
pub trait Measure: Copy {
    /// What it is, with its article, as in "a length".
    const WHAT: &'static str;
    /// The dimension of its quantity.
    const DIMENSION: Dimension;

    /// Reads a text. White space around it is no part of it.
    ///
    /// # Errors
    /// The first fault of the text, with its bytes and what to type instead.
    fn read(text: &str, system: System) -> Result<Self, Misread>;

    /// The value as a quantity in canonical units.
    fn quantity(self) -> Quantity;

    /// The value of a quantity, if it has this dimension and is held exactly.
    fn of(quantity: Quantity) -> Option<Self>;
}
