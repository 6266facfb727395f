//! What a figure is: its value, its name, its reason, and the step that made it.
//!
//! In: nothing. Out: the types that the ledger takes and shows.
//! May not know: how they are stored.

use std::borrow::Cow;

use rust_decimal::Decimal;

use crate::findings::Place;
use crate::measure::Quantity;
use crate::money::Rounding;

use super::Shown;
use super::words::WordsId;

/// A figure of one ledger, by the order in which it was made. Inputs always have lower numbers than what rests on them.
///
/// It means nothing in another ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FigureId(pub(super) u32);

impl FigureId {
    /// Its position in creation order, from 0.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// A reason kept in a ledger, so that the thousand figures of one rule share it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ReasonId(pub(super) u32);

impl ReasonId {
    /// The reason of a figure that is nothing but its arithmetic; every ledger has it.
    pub const ARITHMETIC: ReasonId = ReasonId(0);
}

/// Why a figure is in the job.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// It follows from its inputs and needs no other reason, such as a column's total.
    Arithmetic,
    /// Somebody wrote it in the job or the catalog.
    Entry {
        /// Where.
        place: Place,
        /// On what it stands, such as `surveyed 2026-03-02, A. Person`; empty where nothing is said.
        standing: String,
    },
    /// A rule of the catalog asks for it.
    Rule {
        /// The rule's id.
        id: String,
        /// Where the rule stands.
        place: Place,
    },
    /// A clause of a code, a standard or the contract asks for it; clause and edition.
    Clause(Cow<'static, str>),
}

/// What a new figure is called, the unit it prints in, and why it is made.
#[derive(Clone, Copy, Debug)]
pub struct Called<'a> {
    /// Its name in plain words, such as `leaf width of 101A, leaf 1`.
    pub name: &'a str,
    /// How it prints; none lets the ledger take it from the inputs.
    pub shown: Option<Shown>,
    /// Why it is made.
    pub reason: ReasonId,
}

impl<'a> Called<'a> {
    /// A name and a reason; how it prints follows from the inputs.
    pub fn new(name: &'a str, reason: ReasonId) -> Self {
        Called { name, shown: None, reason }
    }

    /// A name for a figure that is nothing but its arithmetic.
    pub fn arithmetic(name: &'a str) -> Self {
        Called::new(name, ReasonId::ARITHMETIC)
    }

    /// The same, printed in this unit.
    pub fn shown(self, shown: Shown) -> Self {
        Called { shown: Some(shown), ..self }
    }
}

/// A figure as the ledger shows it.
#[derive(Clone, Copy, Debug)]
pub struct Figure<'a> {
    /// Its value in canonical units; a rate's to 28 digits.
    pub value: Quantity,
    /// If it is a rate, its exact number in its own units, such as 12.5 of `$12.50 per ft`.
    pub rate: Option<Decimal>,
    /// How it prints.
    pub shown: Shown,
    /// Its name in plain words.
    pub name: &'a str,
    /// Why it is there.
    pub reason: &'a Reason,
    /// What made it.
    pub step: Step<'a>,
    /// The figures it was made from, in the order of the step.
    pub inputs: &'a [FigureId],
}

/// The operation that made a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step<'a> {
    /// Written in the job, the catalog, a rule or a clause. No inputs.
    Given,
    /// The number of entities, with what was counted. No inputs.
    Counted(&'a str),
    /// The one input, under another name or in another unit.
    Carried,
    /// All inputs added.
    Sum,
    /// First input less the second.
    Difference,
    /// All inputs multiplied.
    Product,
    /// First input by the second, to 28 digits.
    Quotient,
    /// The one input with the other sign.
    Negated,
    /// The least multiple of the second input that is not below the first.
    RoundedUp,
    /// The greatest multiple of the second input that is not above the first.
    RoundedDown,
    /// The one input, an amount of money, rounded to cents.
    ToCents(Rounding),
    /// The greatest of the inputs.
    Largest,
    /// The least of the inputs.
    Smallest,
    /// The first input, chosen because of a condition; the other inputs are figures the condition read.
    Chosen {
        /// The condition, as it is written.
        condition: &'a str,
        /// What it came to and the facts it read, such as `true: opening.fire_rating is 45 min`.
        because: &'a str,
    },
    /// The first input, found in a table; the other inputs are figures that the key was made from.
    LookedUp {
        /// The table, in plain words.
        table: &'a str,
        /// The key it was found under.
        key: &'a str,
    },
    /// One part of the first input, shared out in cents by largest remainder; the other inputs are the weights.
    Share {
        /// Which part, from 0; it belongs to the weight at the same position.
        part: usize,
    },
}

/// A step as it is stored: texts by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum StoredStep {
    Given,
    Counted(WordsId),
    Carried,
    Sum,
    Difference,
    Product,
    Quotient,
    Negated,
    RoundedUp,
    RoundedDown,
    ToCents(Rounding),
    Largest,
    Smallest,
    Chosen { condition: WordsId, because: WordsId },
    LookedUp { table: WordsId, key: WordsId },
    Share { part: u32 },
}
