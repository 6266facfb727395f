//! What can be wrong with an expression, in words, and what to type instead.
//!
//! In: the fault with its bytes in the expression. Out: a sentence, a remedy, and a finding at its place in the input.
//! May not know: the file; whoever read the expression maps its bytes.

use std::fmt;

use crate::findings::{Code, Finding, Paper, Papers, Place, Severity, Subject};
use crate::ledger::{FigureFault, kind_of};
use crate::measure::Dimension;

use super::Bytes;

/// Something wrong with an expression, where, and what to type there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The bytes of the expression that are wrong.
    pub bytes: Bytes,
    /// What is wrong.
    pub wrong: Wrong,
    /// What to type in place of those bytes, where that can be said.
    pub instead: Option<String>,
}

/// Kinds of faults.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// There is no expression.
    Empty,
    /// A sign that the language does not have.
    Sign(String),
    /// A foot or inch mark after a number.
    Mark(String),
    /// A text without its closing quote mark.
    OpenText,
    /// A number with too many digits.
    Digits,
    /// A word after a number that is no unit.
    Unit(String),
    /// A name or word with capitals.
    Capital(String),
    /// Something has to come here: what, and what stands there.
    Expected(&'static str, String),
    /// A closing bracket without its opening one.
    Unopened(&'static str),
    /// Two values without an operator between them; the second.
    NoOperator(String),
    /// `a < b < c`.
    Chain,
    /// `not` without brackets.
    NotBrackets,
    /// Brackets nested too deeply.
    TooDeep,
    /// Too many terms.
    TooLong,
    /// A part of the standard that is left out here.
    LeftOut(&'static str),
    /// A name that is no fact: the name, and whose facts were searched.
    UnknownFact(String, String),
    /// A name before a bracket that is no function.
    UnknownFunction(String),
    /// A function with a wrong number of arguments.
    Arguments(&'static str, usize),
    /// Two dimensions that do not go together.
    Unlike(Joining, Dimension, Dimension),
    /// A fraction of a unit, as written: `/` divides by what stands behind it, the unit with it.
    Fraction(String),
    /// A plain number beside a quantity of this dimension.
    UnitMissing(Dimension),
    /// A quantity of another dimension than asked for: asked, found.
    Dimension(Dimension, Dimension),
    /// One kind where another is wanted: wanted, found.
    Kind(String, String),
    /// A word that the fact can never be: the word, the words allowed.
    Word(String, Vec<String>),
    /// `null` elsewhere than after `=` or `!=` and a fact.
    Null,
    /// Rounding a quantity without saying to what.
    NoMultiple(&'static str, Dimension),
    /// A product or quotient beyond any unit.
    Beyond,
    /// A fact that was supplied as something else than its sheet says: the fact, the sheet, the supply.
    Supplied(String, String, String),
    /// Working it out failed.
    Figure(FigureFault),
}

/// How two quantities are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joining {
    /// `a + b`
    Adding,
    /// `a - b`
    Subtracting,
    /// `a < b`, `between`, `in`
    Comparing,
    /// `min`, `max`
    Choosing,
    /// `then`, `else`
    Branching,
    /// `ceiling(a, b)`, `floor(a, b)`
    Rounding,
}

impl Joining {
    fn says(self, left: &str, right: &str) -> String {
        match self {
            Joining::Adding => format!("adds {right} to {left}"),
            Joining::Subtracting => format!("takes {right} from {left}"),
            Joining::Comparing => format!("compares {left} with {right}"),
            Joining::Choosing => format!("takes the least or greatest of {left} and {right}"),
            Joining::Branching => format!("gives {left} after `then` and {right} after `else`"),
            Joining::Rounding => format!("rounds {left} to a multiple of {right}"),
        }
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self {
            Wrong::Figure(fault) => format!("cannot be calculated: {fault}"),
            Wrong::Unlike(..) | Wrong::UnitMissing(_) | Wrong::Dimension(..) | Wrong::NoMultiple(..) => self.of_units(),
            Wrong::UnknownFact(..) | Wrong::UnknownFunction(_) | Wrong::Arguments(..) | Wrong::Supplied(..) => {
                self.of_names()
            }
            Wrong::Kind(wanted, found) => format!("has {found} where {wanted} is wanted"),
            Wrong::Word(word, _) => format!("compares with \"{word}\", which the fact can never be"),
            Wrong::Fraction(written) => format!("divides by a quantity in `{written}`: write lengths as decimals here"),
            Wrong::Null => "uses `null` other than to ask whether a fact is known".to_owned(),
            Wrong::Beyond => "multiplies or divides beyond any unit".to_owned(),
            _ => self.of_writing(),
        };
        f.write_str(&text)
    }
}

impl Wrong {
    fn of_writing(&self) -> String {
        match self {
            Wrong::Empty => "is empty".to_owned(),
            Wrong::Sign(sign) => format!("has `{sign}`, which is no sign of rules"),
            Wrong::Mark(mark) => format!("has the mark `{mark}` after a number; units are words here"),
            Wrong::OpenText => "has a text without its closing quote mark".to_owned(),
            Wrong::Digits => "has a number past nine decimal places or past a thousand million".to_owned(),
            Wrong::Unit(word) => format!("has `{word}` after a number, which is no unit"),
            Wrong::Capital(word) => format!("has capitals in `{word}`; names and words are lower case"),
            Wrong::Expected(what, found) => format!("needs {what} instead of {found}"),
            Wrong::Unopened(bracket) => format!("closes a bracket `{bracket}` that was not opened"),
            Wrong::NoOperator(found) => format!("has no operator before {found}"),
            Wrong::Chain => "compares twice in a row".to_owned(),
            Wrong::NotBrackets => "has `not` without brackets".to_owned(),
            Wrong::TooDeep => "nests brackets more than forty deep".to_owned(),
            Wrong::TooLong => "has more than two hundred terms".to_owned(),
            Wrong::LeftOut(what) => format!("uses {what}, which this subset leaves out"),
            _ => String::new(),
        }
    }

    fn of_names(&self) -> String {
        match self {
            Wrong::UnknownFact(name, entity) => format!("names `{name}`, which is no fact on the sheet `{entity}`"),
            Wrong::UnknownFunction(name) => format!("calls `{name}`, which is no function of rules"),
            Wrong::Arguments(function, has) => format!("gives `{function}` {has} arguments"),
            Wrong::Supplied(fact, sheet, supply) => format!("was to read `{fact}` as {sheet} and was handed {supply}"),
            _ => String::new(),
        }
    }

    fn of_units(&self) -> String {
        match self {
            Wrong::Unlike(how, left, right) => how.says(&kind_of(*left), &kind_of(*right)),
            Wrong::UnitMissing(dimension) => {
                format!("has a number without unit beside {}", kind_of(*dimension))
            }
            Wrong::Dimension(asked, found) => format!("gives {} where {} is wanted", kind_of(*found), kind_of(*asked)),
            Wrong::NoMultiple(function, dimension) => {
                format!("rounds {} by `{function}` without saying to what", kind_of(*dimension))
            }
            _ => String::new(),
        }
    }

    /// What to do about it where no single text can be typed; empty if the sentence says all.
    fn advice(&self) -> String {
        match self {
            Wrong::Empty => "write a condition or a quantity".to_owned(),
            Wrong::OpenText => "close the text with \"".to_owned(),
            Wrong::Chain => "write two comparisons joined by `and`, or `between … and …`".to_owned(),
            Wrong::NoOperator(_) => "put an operator between the two values".to_owned(),
            Wrong::LeftOut("lists") => "write the values in round brackets after `in`: x in (\"a\", \"b\")".to_owned(),
            Wrong::LeftOut("powers") => "multiply".to_owned(),
            Wrong::TooDeep | Wrong::TooLong => "split it into several rules".to_owned(),
            Wrong::Digits => "round it to nine decimal places".to_owned(),
            Wrong::Unit(_) => {
                "use a unit such as in, ft, mm, sq ft, lb, kg, lbf, N, s, min, h, A, V, W, VA, %".to_owned()
            }
            Wrong::UnknownFunction(_) => {
                "the functions are ceiling, floor, min, max, abs, list contains and count".to_owned()
            }
            Wrong::Arguments("ceiling" | "floor", _) => "give it a number, or a number and a multiple".to_owned(),
            Wrong::Arguments("list contains", _) => "give it a list and an element".to_owned(),
            Wrong::Arguments("min" | "max", _) => "give it at least one number".to_owned(),
            Wrong::Arguments(..) => "give it one".to_owned(),
            Wrong::Word(_, allowed) => format!("use one of {}", quoted(allowed)),
            Wrong::Fraction(_) => "write it as a decimal, such as 0.333 in".to_owned(),
            Wrong::Null => "compare a fact with it: fact = null, fact != null".to_owned(),
            Wrong::Unlike(..) | Wrong::Dimension(..) => "make both of one kind by multiplying or dividing".to_owned(),
            Wrong::UnknownFact(_, entity) => format!("use a fact of the sheet `{entity}`"),
            _ => String::new(),
        }
    }

    fn code(&self) -> &'static Code {
        match self {
            Wrong::UnknownFact(..) | Wrong::UnknownFunction(_) => &RULE_NAME,
            Wrong::Unlike(..)
            | Wrong::Fraction(_)
            | Wrong::UnitMissing(_)
            | Wrong::Dimension(..)
            | Wrong::NoMultiple(..)
            | Wrong::Beyond => &RULE_UNITS,
            Wrong::Kind(..) | Wrong::Null | Wrong::Arguments(..) => &RULE_KIND,
            Wrong::Word(..) => &RULE_WORD,
            Wrong::Figure(_) | Wrong::Supplied(..) => &RULE_FAILS,
            _ => &RULE_UNREADABLE,
        }
    }
}

impl Fault {
    /// The fault as a finding. `place` maps bytes of the expression to a place in the input.
    pub fn finding(&self, subject: Subject, place: &dyn Fn(Bytes) -> Place) -> Finding {
        let at = place(self.bytes.clone());
        let finding = Finding::new(self.wrong.code(), subject).found(self.wrong.to_string()).at(at.clone());
        let advice = self.wrong.advice();
        match &self.instead {
            Some(text) => finding.type_at(at, text),
            None if advice.is_empty() => finding,
            None => finding.advise(advice),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the rule {}", self.wrong)
    }
}

/// The word of a list that is nearest to a misspelt one, if any is near.
pub(super) fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<String> {
    let distance = |other: &str| strsim::damerau_levenshtein(word, other);
    let near = known.map(|other| (distance(other), other)).min()?;
    (near.0 * 3 <= word.chars().count().max(3)).then(|| near.1.to_owned())
}

/// Words in quote marks, with commas.
pub(super) fn quoted<W: std::fmt::Display>(words: &[W]) -> String {
    words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ")
}

/// A rule that cannot be read leaves its lines out of everything but the blank form for the site.
const HELD: Papers = Papers::of(&[Paper::Bid, Paper::Recap, Paper::Schedule, Paper::Packet]);

static RULE_UNREADABLE: Code = Code {
    id: "rule-unreadable",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "A rule that cannot be read gives no quantity, and a missing quantity is scope without a price.",
    example: "when = \"leaf.width > \"",
    blocks: HELD,
};
static RULE_NAME: Code = Code {
    id: "rule-name",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "Rules see the facts of their entity and no others.",
    example: "when = \"leaf.widht > 36 in\"",
    blocks: HELD,
};
static RULE_UNITS: Code = Code {
    id: "rule-units",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "Units are checked when the catalog is read, so that no length is ever added to a count.",
    example: "quantity = \"leaf.width + 1\"",
    blocks: HELD,
};
static RULE_KIND: Code = Code {
    id: "rule-kind",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "A condition decides whether a line is made and a quantity how much of it; neither can stand for the other.",
    example: "when = \"leaf.width\"",
    blocks: HELD,
};
static RULE_WORD: Code = Code {
    id: "rule-word",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "A comparison with a word that the fact can never be is never true, and its line would be missing unnoticed.",
    example: "when = 'leaf.arm = \"psuh\"'",
    blocks: HELD,
};
static RULE_FAILS: Code = Code {
    id: "rule-fails",
    severity: Severity::Error,
    says: "the rule {found}",
    why: "A quantity that cannot be calculated is not guessed.",
    example: "quantity = \"run.length / run.sticks\"",
    blocks: HELD,
};

/// The codes of findings that rules raise.
pub static CODES: &[&Code] = &[&RULE_UNREADABLE, &RULE_NAME, &RULE_UNITS, &RULE_KIND, &RULE_WORD, &RULE_FAILS];
