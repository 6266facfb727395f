//! True, false, and not known; what was read on the way.
//!
//! In: facts that were read. Out: verdicts of conditions, amounts of formulas, each with why.
//! May not know: the grammar, the ledger's insides.

use crate::ledger::FigureId;

/// A fact that nobody knows, and why.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Missing {
    /// The fact's name.
    pub fact: String,
    /// Why it is not known, such as `not surveyed`.
    pub why: String,
}

/// What a condition comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Truth {
    /// It holds.
    True,
    /// It does not hold.
    False,
    /// It cannot be said, for want of these facts.
    Undecided(Vec<Missing>),
}

impl From<bool> for Truth {
    fn from(value: bool) -> Self {
        if value { Truth::True } else { Truth::False }
    }
}

impl Truth {
    /// Both: false if either is false, whatever the other is.
    pub(super) fn and(self, other: Truth) -> Truth {
        match (self, other) {
            (Truth::False, _) | (_, Truth::False) => Truth::False,
            (Truth::True, other) => other,
            (undecided, Truth::True) => undecided,
            (Truth::Undecided(left), Truth::Undecided(right)) => Truth::Undecided(joined(left, right)),
        }
    }

    /// Either: true if either is true, whatever the other is.
    pub(super) fn or(self, other: Truth) -> Truth {
        self.not().and(other.not()).not()
    }

    /// The other way round; what cannot be said stays so.
    pub(super) fn not(self) -> Truth {
        match self {
            Truth::True => Truth::False,
            Truth::False => Truth::True,
            undecided => undecided,
        }
    }

    /// `true`, `false` or `undecided`.
    pub fn word(&self) -> &'static str {
        match self {
            Truth::True => "true",
            Truth::False => "false",
            Truth::Undecided(_) => "undecided",
        }
    }
}

/// Both lists, each fact once.
pub(super) fn joined(mut left: Vec<Missing>, right: Vec<Missing>) -> Vec<Missing> {
    for missing in right {
        if !left.contains(&missing) {
            left.push(missing);
        }
    }
    left
}

/// A fact that was read, with its value in plain text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// The fact's name.
    pub fact: String,
    /// Its value: `36 in`, `"single"`, `yes`, `not known: not surveyed`.
    pub value: String,
    /// Its figure, if it is a number.
    pub figure: Option<FigureId>,
}

/// What a condition came to, and the facts it read, in the order of reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// What it came to.
    pub truth: Truth,
    /// What it read. A condition stops reading when it is decided.
    pub reads: Vec<Read>,
}

impl Verdict {
    /// Why, in plain words: `true: leaf.width is 42 in, leaf.powered is yes`.
    pub fn because(&self) -> String {
        because(&self.truth, &self.reads)
    }

    /// The figures among the facts read, for [`crate::ledger::Ledger::chosen`].
    pub fn figures(&self) -> Vec<FigureId> {
        self.reads.iter().filter_map(|read| read.figure).collect()
    }
}

/// What a condition came to and what it read, in plain words.
pub(super) fn because(truth: &Truth, reads: &[Read]) -> String {
    let facts = reads.iter().map(|read| format!("{} is {}", read.fact, read.value));
    match facts.collect::<Vec<_>>().join(", ") {
        none if none.is_empty() => truth.word().to_owned(),
        facts => format!("{}: {facts}", truth.word()),
    }
}

/// What a formula gave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Amount {
    /// A figure.
    Known(FigureId),
    /// None, for want of these facts.
    Unknown(Vec<Missing>),
}

/// What a formula gave, and the facts it read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Measured {
    /// The figure, or what is missing for it.
    pub amount: Amount,
    /// What it read.
    pub reads: Vec<Read>,
}
