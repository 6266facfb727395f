//! What an expression is: a tree in a list, each part with its bytes.
//!
//! In: nothing. Out: the types that parser, check and evaluation share.
//! May not know: types, facts, figures.

use rust_decimal::Decimal;

use crate::measure::Unit;

use super::{Bytes, FactName};

/// A part of an expression, by its position in the tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct PartId(pub u32);

/// A parsed expression with its text. It may name facts that do not exist; the check tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    pub(super) text: String,
    pub(super) parts: Vec<Part>,
    pub(super) root: PartId,
}

/// One part.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Part {
    pub form: Form,
    pub bytes: Bytes,
    /// How many parts lie below one another under this one.
    pub depth: u32,
}

/// What a part is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Form {
    Number(Decimal, Option<Unit>),
    Text(String),
    Flag(bool),
    Null,
    Fact(FactName),
    Negate(PartId),
    Arithmetic(Operator, PartId, PartId),
    Compare(Comparison, PartId, PartId),
    Between(PartId, PartId, PartId),
    In(PartId, Vec<Test>),
    And(PartId, PartId),
    Or(PartId, PartId),
    Not(PartId),
    If(PartId, PartId, PartId),
    Call(Function, Vec<PartId>),
    /// A part that could not be read; the parser has recorded a fault.
    Bad,
}

/// One of the tests after `in`.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Test {
    /// Equal to a value.
    Value(PartId),
    /// `< 3 ft` and the like.
    Compare(Comparison, PartId),
    /// `[30 in..48 in]`; an end is open if the value itself is left out.
    Range { low: PartId, low_open: bool, high: PartId, high_open: bool },
    /// None of these.
    Not(Vec<Test>),
}

/// The four operations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Add,
    Subtract,
    Multiply,
    Divide,
}

/// The six comparisons.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Comparison {
    Equal,
    Unequal,
    Less,
    AtMost,
    More,
    AtLeast,
}

/// The functions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Function {
    Ceiling,
    Floor,
    Min,
    Max,
    Abs,
    ListContains,
    Count,
}

impl Function {
    /// Name, function, fewest and most arguments.
    pub const ALL: [(&'static str, Function, usize, usize); 7] = [
        ("ceiling", Function::Ceiling, 1, 2),
        ("floor", Function::Floor, 1, 2),
        ("min", Function::Min, 1, usize::MAX),
        ("max", Function::Max, 1, usize::MAX),
        ("abs", Function::Abs, 1, 1),
        ("list contains", Function::ListContains, 2, 2),
        ("count", Function::Count, 1, 1),
    ];

    /// The function's name.
    pub fn name(self) -> &'static str {
        Function::ALL.iter().find(|row| row.1 == self).map_or("", |row| row.0)
    }
}

impl Expr {
    pub(super) fn part(&self, id: PartId) -> &Part {
        &self.parts[id.0 as usize]
    }

    pub(super) fn form(&self, id: PartId) -> &Form {
        &self.part(id).form
    }

    /// The text of a part, as written.
    pub(super) fn written(&self, id: PartId) -> &str {
        self.text.get(self.part(id).bytes.clone()).unwrap_or("")
    }

    /// The text as written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The facts it names, in the order of the parts; a fact that is named twice stands twice.
    pub fn fact_names(&self) -> impl Iterator<Item = &FactName> {
        self.parts.iter().filter_map(|part| match &part.form {
            Form::Fact(name) => Some(name),
            _ => None,
        })
    }

    /// The facts it names, in the order of writing, each once.
    pub fn facts(&self) -> Vec<&str> {
        let mut named: Vec<(usize, &str)> = Vec::new();
        for part in &self.parts {
            if let Form::Fact(name) = &part.form {
                named.push((part.bytes.start, name.as_str()));
            }
        }
        named.sort();
        let mut once: Vec<&str> = Vec::new();
        for (_, name) in named {
            if !once.contains(&name) {
                once.push(name);
            }
        }
        once
    }
}
