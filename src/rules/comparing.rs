//! Whether a comparison makes sense: kinds of both sides, words that can be, lists and what is in them.
//!
//! In: comparisons, `between`, `in`, `list contains`, `count`. Out: their kind, or faults.
//! May not know: values.

use crate::ledger::kind_of;
use crate::measure::Dimension;

use super::check::{Check, Kind};
use super::fault::{Joining, Wrong, nearest};
use super::tree::{Comparison, Form, PartId, Test};

impl<'a> Check<'a> {
    pub(super) fn compare(&mut self, id: PartId, how: Comparison, left: PartId, right: PartId) -> Kind<'a> {
        let equality = matches!(how, Comparison::Equal | Comparison::Unequal);
        let (a, b) = (self.of(left), self.of(right));
        match (&a, &b) {
            (Kind::Bad, _) | (_, Kind::Bad) => {}
            (Kind::Null, Kind::Null) => self.note(id, Wrong::Null, None),
            (Kind::Null, _) => self.null(equality, left, right),
            (_, Kind::Null) => self.null(equality, right, left),
            (Kind::Number(x), Kind::Number(y)) => self.same(id, (left, *x), (right, *y)),
            _ if equality => self.same_kind(left, &a, right, &b),
            (Kind::Number(_), other) => self.note(right, Wrong::Kind("a quantity".to_owned(), other.says()), None),
            (other, _) => self.note(left, Wrong::Kind("a quantity".to_owned(), other.says()), None),
        }
        Kind::Flag
    }

    /// `null` goes with `=` or `!=` and a fact, and with nothing else.
    fn null(&mut self, equality: bool, null: PartId, other: PartId) {
        if !equality || !matches!(self.expr.form(other), Form::Fact(_)) {
            self.fault(null, Wrong::Null, None);
        }
    }

    /// Two sides of `=` that are texts or conditions.
    fn same_kind(&mut self, left: PartId, a: &Kind, right: PartId, b: &Kind) {
        match (a, b) {
            (Kind::Flag, Kind::Flag) => {}
            (Kind::Text(allowed), Kind::Text(other)) => {
                self.word_allowed(right, *allowed);
                self.word_allowed(left, *other);
            }
            (Kind::Words(_), _) => self.note(left, Wrong::Kind("a text".to_owned(), a.says()), None),
            (_, Kind::Words(_)) => self.note(right, Wrong::Kind("a text".to_owned(), b.says()), None),
            _ => self.note(right, Wrong::Kind(a.says(), b.says()), None),
        }
    }

    /// A written text must be one of the words that the other side can be.
    fn word_allowed(&mut self, id: PartId, allowed: Option<&[String]>) {
        let (Form::Text(word), Some(allowed)) = (self.expr.form(id), allowed) else { return };
        if !allowed.contains(word) {
            let near = nearest(word, allowed.iter().map(String::as_str)).map(|word| format!("\"{word}\""));
            self.fault(id, Wrong::Word(word.clone(), allowed.to_vec()), near);
        }
    }

    pub(super) fn between(&mut self, value: PartId, low: PartId, high: PartId) -> Kind<'a> {
        if let Some([x, a, b]) = self.numbers([value, low, high]) {
            self.alike(low, Joining::Comparing, (value, x), (low, a));
            self.alike(high, Joining::Comparing, (value, x), (high, b));
        }
        Kind::Flag
    }

    pub(super) fn within(&mut self, value: PartId, tests: &'a [Test]) -> Kind<'a> {
        let found = self.of(value);
        match &found {
            Kind::Number(_) | Kind::Text(_) | Kind::Bad => {}
            Kind::Null => self.note(value, Wrong::Null, None),
            other => self.note(value, Wrong::Kind("a quantity or a text".to_owned(), other.says()), None),
        }
        self.tests(value, &found, tests);
        Kind::Flag
    }

    fn tests(&mut self, value: PartId, found: &Kind, tests: &'a [Test]) {
        for test in tests {
            match test {
                Test::Value(one) => self.test(value, found, *one),
                Test::Compare(Comparison::Equal | Comparison::Unequal, one) => self.test(value, found, *one),
                Test::Compare(_, one) => self.ordered(value, found, *one),
                Test::Range { low, high, .. } => {
                    self.ordered(value, found, *low);
                    self.ordered(value, found, *high);
                }
                Test::Not(inner) => self.tests(value, found, inner),
            }
        }
    }

    /// A test for a value itself.
    fn test(&mut self, value: PartId, found: &Kind, one: PartId) {
        let tested = self.of(one);
        match (found, &tested) {
            (_, Kind::Bad) => {}
            (_, Kind::Null) => self.note(one, Wrong::Null, None),
            (Kind::Number(a), Kind::Number(b)) => self.same(one, (value, *a), (one, *b)),
            (Kind::Text(allowed), Kind::Text(_)) => self.word_allowed(one, *allowed),
            (Kind::Number(_) | Kind::Text(_), other) => {
                self.fault(one, Wrong::Kind(found.says(), other.says()), None);
            }
            _ => {}
        }
    }

    /// A test that needs an order, which only numbers have.
    fn ordered(&mut self, value: PartId, found: &Kind, one: PartId) {
        let tested = self.of(one);
        let number = self.must_be_number(one, &tested);
        match (found, number) {
            (Kind::Number(a), Some(b)) => self.same(one, (value, *a), (one, b)),
            (Kind::Text(_), Some(b)) => self.note(one, Wrong::Kind("a text".to_owned(), kind_of(b)), None),
            _ => {}
        }
    }

    fn list(&mut self, id: PartId) -> Option<&'a [String]> {
        match self.of(id) {
            Kind::Words(allowed) => return Some(allowed),
            Kind::Bad => {}
            other => self.note(id, Wrong::Kind("a list".to_owned(), other.says()), None),
        }
        None
    }

    pub(super) fn contains(&mut self, arguments: &[PartId]) -> Kind<'a> {
        let [list, element] = *arguments else { return Kind::Bad };
        let allowed = self.list(list);
        match self.of(element) {
            Kind::Text(_) => self.word_allowed(element, allowed),
            Kind::Bad => {}
            other => self.note(element, Wrong::Kind("a text".to_owned(), other.says()), None),
        }
        Kind::Flag
    }

    pub(super) fn count(&mut self, arguments: &[PartId]) -> Kind<'a> {
        match arguments.first().and_then(|id| self.list(*id)) {
            Some(_) => Kind::Number(Dimension::NONE),
            None => Kind::Bad,
        }
    }

    /// Two numbers that are compared must be of one dimension.
    fn same(&mut self, id: PartId, left: (PartId, Dimension), right: (PartId, Dimension)) {
        self.alike(id, Joining::Comparing, left, right);
    }
}
