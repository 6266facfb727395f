//! Conditions and formulas with their places.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use crate::findings::Place;
use crate::rules;

/// A condition with the place of its text.
#[derive(Clone, Debug)]
pub struct When {
    /// The checked condition.
    pub condition: rules::Condition,
    /// Where it stands.
    pub place: Place,
}

/// A formula with the place of its text.
#[derive(Clone, Debug)]
pub struct Amount {
    /// The checked formula.
    pub formula: rules::Formula,
    /// Where it stands.
    pub place: Place,
}
