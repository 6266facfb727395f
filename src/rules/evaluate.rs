//! Conditions: what they come to for one entity, and why.
//!
//! In: a checked condition, the entity's facts, a ledger. Out: a verdict with the facts read.
//! May not know: how figures are made of formulas; see `quantity`.

use std::cmp::Ordering;

use crate::ledger::{Called, FigureId, Ledger, ReasonId};
use crate::measure::Quantity;

use super::fault::{Fault, Wrong, quoted};
use super::logic::{Missing, Read, Truth, Verdict, because, joined};
use super::tree::{Comparison, Expr, Form, Function, PartId, Test};
use super::{Condition, FactName};

/// The value of a fact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FactValue<'f> {
    /// A number.
    Number(Quantity),
    /// One text.
    Text(&'f str),
    /// Yes or no.
    Flag(bool),
    /// Any number of words.
    Words(&'f [&'static str]),
    /// Not known, and why, such as `not surveyed`.
    Unknown(&'f str),
}

/// The facts of one entity.
pub trait Facts {
    /// The value of a fact of the sheet. `ledger` is the one that figures among the facts are on.
    fn value(&self, fact: &FactName, ledger: &Ledger) -> FactValue<'_>;

    /// A fact that is a number, as a figure. It may be given to the ledger now; what is given twice under one name and reason is
    /// one figure.
    ///
    /// # Errors
    /// Why there is no figure: the ledger does not take it, or the fact is no number.
    fn figure(&self, fact: &FactName, ledger: &mut Ledger) -> Result<FigureId, String>;
}

impl Condition {
    /// What the condition comes to. `reason` is the reason of numbers written in it: the rule they stand in.
    ///
    /// # Errors
    /// Arithmetic that has no result, or facts that are not what their sheet says.
    pub fn verdict(&self, facts: &dyn Facts, ledger: &mut Ledger, reason: ReasonId) -> Result<Verdict, Fault> {
        let mut run = Run::new(&self.0, facts, ledger, reason, true);
        let truth = run.truth(self.0.root)?;
        Ok(Verdict { truth, reads: run.reads })
    }

    /// The same without what was read, which costs a text for every fact.
    ///
    /// # Errors
    /// As of [`Condition::verdict`].
    pub fn truth(&self, facts: &dyn Facts, ledger: &mut Ledger, reason: ReasonId) -> Result<Truth, Fault> {
        Run::new(&self.0, facts, ledger, reason, false).truth(self.0.root)
    }
}

/// Why a value is not to be had.
pub(super) enum NoValue {
    /// Facts are not known.
    Missing(Vec<Missing>),
    /// It cannot be worked out.
    Fault(Box<Fault>),
}

impl From<Fault> for NoValue {
    fn from(fault: Fault) -> Self {
        NoValue::Fault(Box::new(fault))
    }
}

/// A number on the way: a figure, or one written in the rule, which becomes a figure only where it is computed with.
#[derive(Clone, Copy)]
pub(super) enum Number {
    Figure(FigureId),
    Written(Quantity),
}

/// A value on the way.
enum Value<'a> {
    Number(Quantity),
    Text(&'a str),
    Flag(Truth),
}

/// One evaluation.
pub(super) struct Run<'a> {
    pub expr: &'a Expr,
    pub facts: &'a dyn Facts,
    pub ledger: &'a mut Ledger,
    pub reason: ReasonId,
    /// What was read, where that is wanted.
    pub reads: Vec<Read>,
    reading: bool,
}

impl<'a> Run<'a> {
    /// A run that has not begun. `input` says whether what it reads is wanted.
    pub(super) fn new(
        expr: &'a Expr,
        facts: &'a dyn Facts,
        ledger: &'a mut Ledger,
        reason: ReasonId,
        reading: bool,
    ) -> Self {
        Run { expr, facts, ledger, reason, reads: Vec::new(), reading }
    }

    pub(super) fn fault(&self, id: PartId, wrong: Wrong) -> Fault {
        Fault { bytes: self.expr.part(id).bytes.clone(), wrong, instead: None }
    }

    /// A name for what a part comes to: the part as it is written.
    pub(super) fn called(&self, id: PartId) -> Called<'a> {
        Called::new(self.expr.written(id), self.reason)
    }

    /// Reads a fact, and remembers what it was where that is wanted.
    pub(super) fn read(&mut self, name: &FactName) -> Result<FactValue<'a>, NoValue> {
        let facts = self.facts;
        let value = facts.value(name, self.ledger);
        if self.reading && self.reads.iter().all(|read| read.fact != name.as_str()) {
            let (text, figure) = match &value {
                FactValue::Number(_) => {
                    let figure = self.fact_figure(name)?;
                    (self.ledger.print(figure), Some(figure))
                }
                FactValue::Text(text) => (format!("\"{text}\""), None),
                FactValue::Flag(flag) => ((if *flag { "yes" } else { "no" }).to_owned(), None),
                FactValue::Words([]) => ("none".to_owned(), None),
                FactValue::Words(words) => (quoted(words), None),
                FactValue::Unknown(why) => (format!("not known: {why}"), None),
            };
            self.reads.push(Read { fact: name.as_str().to_owned(), value: text, figure });
        }
        Ok(value)
    }

    /// A fact that is a number, as a figure; what the ledger does not take is not known.
    pub(super) fn fact_figure(&mut self, name: &FactName) -> Result<FigureId, NoValue> {
        let missing = |why: String| Missing { fact: name.as_str().to_owned(), why };
        self.facts.figure(name, self.ledger).map_err(|why| NoValue::Missing(vec![missing(why)]))
    }

    /// A fact that is not what its sheet says, or is not known.
    pub(super) fn otherwise(&self, id: PartId, name: &FactName, wanted: &str, value: FactValue) -> NoValue {
        let name = name.as_str().to_owned();
        let found = match value {
            FactValue::Unknown(why) => return NoValue::Missing(vec![Missing { fact: name, why: why.to_owned() }]),
            FactValue::Number(_) => "a number",
            FactValue::Text(_) => "a text",
            FactValue::Flag(_) => "a yes or no",
            FactValue::Words(_) => "a list",
        };
        self.fault(id, Wrong::Supplied(name, wanted.to_owned(), found.to_owned())).into()
    }

    /// A part that the check lets through only as something else.
    pub(super) fn unchecked(&self, id: PartId, wanted: &str) -> NoValue {
        self.fault(id, Wrong::Kind(wanted.to_owned(), "something else".to_owned())).into()
    }

    pub(super) fn truth(&mut self, id: PartId) -> Result<Truth, Fault> {
        match self.flag(id) {
            Ok(truth) => Ok(truth),
            Err(NoValue::Missing(missing)) => Ok(Truth::Undecided(missing)),
            Err(NoValue::Fault(fault)) => Err(*fault),
        }
    }

    fn flag(&mut self, id: PartId) -> Result<Truth, NoValue> {
        let expr = self.expr;
        match expr.form(id) {
            Form::Flag(flag) => Ok((*flag).into()),
            Form::Fact(name) => match self.read(name)? {
                FactValue::Flag(flag) => Ok(flag.into()),
                other => Err(self.otherwise(id, name, "a yes or no", other)),
            },
            Form::Not(inner) => Ok(self.truth(*inner)?.not()),
            Form::And(left, right) => match self.truth(*left)? {
                Truth::False => Ok(Truth::False),
                left => Ok(left.and(self.truth(*right)?)),
            },
            Form::Or(left, right) => match self.truth(*left)? {
                Truth::True => Ok(Truth::True),
                left => Ok(left.or(self.truth(*right)?)),
            },
            Form::Compare(how, left, right) => self.compare(*how, *left, *right),
            Form::Between(value, low, high) => self.between(*value, *low, *high),
            Form::In(value, tests) => {
                let value = self.value(*value)?;
                self.any(&value, tests)
            }
            Form::If(condition, then, otherwise) => match self.truth(*condition)? {
                Truth::True => self.flag(*then),
                Truth::False => self.flag(*otherwise),
                undecided => Ok(undecided),
            },
            Form::Call(Function::ListContains, arguments) => self.contains(id, arguments),
            _ => Err(self.unchecked(id, "a condition")),
        }
    }

    fn compare(&mut self, how: Comparison, left: PartId, right: PartId) -> Result<Truth, NoValue> {
        match (self.expr.form(left), self.expr.form(right)) {
            (Form::Null, Form::Fact(name)) | (Form::Fact(name), Form::Null) => {
                let unknown = matches!(self.read(name)?, FactValue::Unknown(_));
                Ok((unknown == (how == Comparison::Equal)).into())
            }
            _ => {
                let (a, b) = self.pair(left, right)?;
                self.compare_values(how, &a, (right, b))
            }
        }
    }

    /// Both values; what is missing for either is missing for both.
    fn pair(&mut self, left: PartId, right: PartId) -> Result<(Value<'a>, Value<'a>), NoValue> {
        match (self.value(left), self.value(right)) {
            (Ok(a), Ok(b)) => Ok((a, b)),
            (Err(NoValue::Missing(a)), Err(NoValue::Missing(b))) => Err(NoValue::Missing(joined(a, b))),
            (Err(fault @ NoValue::Fault(_)), _) | (_, Err(fault @ NoValue::Fault(_))) => Err(fault),
            (Err(missing), _) | (_, Err(missing)) => Err(missing),
        }
    }

    fn value(&mut self, id: PartId) -> Result<Value<'a>, NoValue> {
        let expr = self.expr;
        match expr.form(id) {
            Form::Text(text) => Ok(Value::Text(text)),
            Form::Fact(name) => match self.read(name)? {
                FactValue::Number(quantity) => Ok(Value::Number(quantity)),
                FactValue::Text(text) => Ok(Value::Text(text)),
                FactValue::Flag(flag) => Ok(Value::Flag(flag.into())),
                other => Err(self.otherwise(id, name, "a number, a text or a yes or no", other)),
            },
            Form::If(condition, then, otherwise) if self.gives_text(*then) => match self.truth(*condition)? {
                Truth::True => self.value(*then),
                Truth::False => self.value(*otherwise),
                Truth::Undecided(missing) => Err(NoValue::Missing(missing)),
            },
            _ if self.gives_flag(id) => match self.flag(id)? {
                Truth::Undecided(missing) => Err(NoValue::Missing(missing)),
                truth => Ok(Value::Flag(truth)),
            },
            _ => self.number(id).map(|number| Value::Number(self.quantity_of(number))),
        }
    }

    fn gives_text(&self, id: PartId) -> bool {
        match self.expr.form(id) {
            Form::Text(_) => true,
            Form::If(_, then, otherwise) => self.gives_text(*then) || self.gives_text(*otherwise),
            _ => false,
        }
    }

    fn gives_flag(&self, id: PartId) -> bool {
        match self.expr.form(id) {
            Form::Flag(_) | Form::Compare(..) | Form::Between(..) | Form::In(..) => true,
            Form::And(..) | Form::Or(..) | Form::Not(_) | Form::Call(Function::ListContains, _) => true,
            Form::If(_, then, otherwise) => self.gives_flag(*then) || self.gives_flag(*otherwise),
            _ => false,
        }
    }

    pub(super) fn quantity_of(&self, number: Number) -> Quantity {
        match number {
            Number::Figure(figure) => self.ledger.value(figure),
            Number::Written(quantity) => quantity,
        }
    }

    fn compare_values(&self, how: Comparison, left: &Value, (id, right): (PartId, Value)) -> Result<Truth, NoValue> {
        match (left, right) {
            (Value::Number(a), Value::Number(b)) => match a.compare(b) {
                Ok(order) => Ok(holds(how, order).into()),
                Err(_) => Err(self.unchecked(id, "a quantity of the same dimension")),
            },
            (Value::Text(a), Value::Text(b)) => Ok(equal(how, *a == b).into()),
            (Value::Flag(a), Value::Flag(b)) => Ok(equal(how, *a == b).into()),
            _ => Err(self.unchecked(id, "a value of the same kind")),
        }
    }

    fn between(&mut self, value: PartId, low: PartId, high: PartId) -> Result<Truth, NoValue> {
        let value = self.value(value)?;
        let low = self.test_one(Comparison::AtLeast, &value, low)?;
        if low == Truth::False {
            return Ok(low);
        }
        Ok(low.and(self.test_one(Comparison::AtMost, &value, high)?))
    }

    /// One comparison of a value with a part that may not be known.
    fn test_one(&mut self, how: Comparison, value: &Value, one: PartId) -> Result<Truth, NoValue> {
        match self.value(one) {
            Ok(other) => self.compare_values(how, value, (one, other)),
            Err(NoValue::Missing(missing)) => Ok(Truth::Undecided(missing)),
            Err(fault) => Err(fault),
        }
    }

    fn any(&mut self, value: &Value, tests: &[Test]) -> Result<Truth, NoValue> {
        let mut found = Truth::False;
        for test in tests {
            found = found.or(self.test(value, test)?);
            if found == Truth::True {
                break;
            }
        }
        Ok(found)
    }

    fn test(&mut self, value: &Value, test: &Test) -> Result<Truth, NoValue> {
        match test {
            Test::Value(one) => self.test_one(Comparison::Equal, value, *one),
            Test::Compare(how, one) => self.test_one(*how, value, *one),
            Test::Range { low, low_open, high, high_open } => {
                let above = if *low_open { Comparison::More } else { Comparison::AtLeast };
                let below = if *high_open { Comparison::Less } else { Comparison::AtMost };
                let low = self.test_one(above, value, *low)?;
                Ok(low.and(self.test_one(below, value, *high)?))
            }
            Test::Not(inner) => Ok(self.any(value, inner)?.not()),
        }
    }

    fn contains(&mut self, id: PartId, arguments: &[PartId]) -> Result<Truth, NoValue> {
        let [list, element] = *arguments else { return Err(self.unchecked(id, "a list and an element")) };
        let words = self.list(list)?;
        match self.value(element)? {
            Value::Text(word) => Ok(words.contains(&word).into()),
            _ => Err(self.unchecked(element, "a text")),
        }
    }

    pub(super) fn list(&mut self, id: PartId) -> Result<&'a [&'static str], NoValue> {
        let expr = self.expr;
        let Form::Fact(name) = expr.form(id) else { return Err(self.unchecked(id, "a list")) };
        match self.read(name)? {
            FactValue::Words(words) => Ok(words),
            other => Err(self.otherwise(id, name, "a list", other)),
        }
    }

    /// Decides a condition apart from what was read before, and says why.
    pub(super) fn decide(&mut self, id: PartId) -> Result<(Truth, String, Vec<FigureId>), Fault> {
        let before = std::mem::take(&mut self.reads);
        let reading = std::mem::replace(&mut self.reading, true);
        let truth = self.truth(id)?;
        self.reading = reading;
        let reads = std::mem::replace(&mut self.reads, before);
        let why = because(&truth, &reads);
        let figures = reads.iter().filter_map(|read| read.figure).collect();
        for read in reads.into_iter().filter(|_| reading) {
            if self.reads.iter().all(|known| known.fact != read.fact) {
                self.reads.push(read);
            }
        }
        Ok((truth, why, figures))
    }
}

fn holds(how: Comparison, order: Ordering) -> bool {
    match how {
        Comparison::Equal => order.is_eq(),
        Comparison::Unequal => order.is_ne(),
        Comparison::Less => order.is_lt(),
        Comparison::AtMost => order.is_le(),
        Comparison::More => order.is_gt(),
        Comparison::AtLeast => order.is_ge(),
    }
}

/// Texts and conditions are equal or not; the check lets no other comparison through.
fn equal(how: Comparison, same: bool) -> bool {
    same == (how == Comparison::Equal)
}
