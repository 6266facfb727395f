//! How a field of a record ends: absent, undone, bad, or given with its place and standing.
//!
//! In: what the reader found at a key. Out: slots that rooms ask for their value.
//! May not know: what the value is for.

use super::Date;
use crate::findings::Place;

/// What became of one field.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Slot<T> {
    /// Nothing was written. Only this may be called missing.
    #[default]
    Absent,
    /// `none` was written, which takes away what a kind would give.
    Undone(Place),
    /// Something was written that cannot be read. It was reported; whatever depends on it stays silent.
    Bad(Place),
    /// A value.
    Given(Given<T>),
}

/// A value with where and how it came to be known.
#[derive(Clone, Debug, PartialEq)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// Where it was written.
    pub place: Place,
    /// How well it is known.
    pub standing: Standing,
    /// The kind through which it came, where it was not written at the entry itself.
    pub through: Option<String>,
}

/// How well a value is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Standing {
    /// Measured or seen.
    Surveyed {
        /// The day.
        date: Option<Date>,
        /// The person.
        by: Option<String>,
    },
    /// Taken from drawings.
    Drawn,
    /// Assumed; the papers say so.
    Assumed,
    /// Estimated from other facts.
    Estimated,
    /// By default of a rule, which is named.
    Default(&'static str),
    /// Nothing was said.
    #[default]
    Stated,
}

impl<T> Slot<T> {
    /// The value, if one was given.
    pub fn get(&self) -> Option<&T> {
        self.given().map(|given| &given.value)
    }

    /// The value with place and standing, if one was given.
    pub fn given(&self) -> Option<&Given<T>> {
        match self {
            Slot::Given(given) => Some(given),
            _ => None,
        }
    }

    /// The value with place and standing, to change it.
    pub fn given_mut(&mut self) -> Option<&mut Given<T>> {
        match self {
            Slot::Given(given) => Some(given),
            _ => None,
        }
    }

    /// Where it was written, good, bad or undone.
    pub fn place(&self) -> Option<&Place> {
        match self {
            Slot::Absent => None,
            Slot::Undone(place) | Slot::Bad(place) => Some(place),
            Slot::Given(given) => Some(&given.place),
        }
    }

    /// Whether nothing was written.
    pub fn is_absent(&self) -> bool {
        matches!(self, Slot::Absent)
    }

    /// Whether it was written and could not be read.
    pub fn is_bad(&self) -> bool {
        matches!(self, Slot::Bad(_))
    }

    /// A copy of the value, if one was given.
    pub fn cloned(&self) -> Option<T>
    where
        T: Clone,
    {
        self.get().cloned()
    }

    /// A copy of the value, or another where none was given or it was undone or bad.
    pub fn or(&self, other: T) -> T
    where
        T: Clone,
    {
        self.cloned().unwrap_or(other)
    }
}

impl<T> Slot<Vec<T>> {
    /// The members of a list; none where it was not given.
    pub fn list(&self) -> &[T] {
        self.get().map_or(&[], Vec::as_slice)
    }
}
