//! What a survey states otherwise than what was said before it.
//!
//! In: nothing. Out: the two values, each with its place. May not know: which difference matters.

use crate::findings::Place;
use crate::input::Standing;
use crate::measure::{Length, Weight};

/// A value as it was stated at one place.
#[derive(Clone, Debug)]
pub struct StatedValue {
    /// As a person reads it, in the units of the job.
    pub text: String,
    /// Where it is typed.
    pub place: Place,
    /// How well it is known.
    pub standing: Standing,
}

/// How far two measures lie apart, never below zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Apart {
    /// Two lengths.
    Length(Length),
    /// Two weights.
    Weight(Weight),
}

/// A value that a survey states otherwise.
#[derive(Clone, Debug)]
pub struct Remeasured {
    /// The leaf, from 1; none for what belongs to the opening.
    pub leaf: Option<usize>,
    /// The key: `width` of a leaf, else with its table, such as `frame.reveal`.
    pub key: String,
    /// The survey, by its position among those made at the opening.
    pub survey: usize,
    /// What was stated before: by the job, or by a survey before this one.
    pub was: StatedValue,
    /// What the survey states. Hinges, swing and hand are as seen from the outside.
    pub is: StatedValue,
    /// How far the two lie apart, where they are measures.
    pub apart: Option<Apart>,
}

impl Remeasured {
    /// Whether a survey stated the value before.
    pub fn is_of_two_surveys(&self) -> bool {
        matches!(self.was.standing, Standing::Surveyed { .. })
    }

    /// Whether the value before was a statement, and not one that waited for the survey.
    pub fn was_known(&self) -> bool {
        !matches!(self.was.standing, Standing::Assumed | Standing::Estimated | Standing::Default(_))
    }
}
