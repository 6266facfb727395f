//! The catalog's conditions and quantities.
//!
//! In: expression text, a sheet of facts and their values.
//! Out: checked expressions, and figures evaluated on the ledger.
//! May not know: which facts exist, or what an item is.
//!
//! The language is written down in `LANGUAGE.md` beside this file; a test reads every example of it.

mod check;
mod comparing;
mod evaluate;
mod fault;
mod hint;
mod logic;
mod parse;
mod quantity;
mod sheet;
mod token;
mod tree;
mod unary;
mod units;

#[cfg(test)]
mod check_tests;
#[cfg(test)]
mod evaluate_tests;
#[cfg(test)]
mod language_tests;
#[cfg(test)]
mod parse_tests;

pub use check::{Condition, ExpectedKind, Formula, check};
pub use evaluate::{FactValue, Facts};
pub use fault::{CODES, Fault, Joining, Wrong};
pub use logic::{Amount, Measured, Missing, Read, Truth, Verdict};
pub use parse::parse;
pub use sheet::{Fact, FactKey, FactKind, FactName, Sheet};
pub use tree::Expr;

/// A range of bytes in an expression's text.
pub type Bytes = std::ops::Range<usize>;

/// Whether a text can be a fact's name: lower-case words joined by `_` and `.`, none of them a word of the language.
pub fn is_name(text: &str) -> bool {
    let word = |word: &str| {
        word.starts_with(|c: char| c.is_ascii_lowercase())
            && word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
    };
    text.split('.').all(word) && token::keyword(text).is_none()
}
