//! Whether an expression makes sense for an entity: names, kinds, units, words.
//!
//! In: a parsed expression, a sheet, what is wanted. Out: a condition or a formula that can be evaluated, or all faults.
//! May not know: any fact's value.

use crate::ledger::{Shown, kind_of};
use crate::measure::{Dimension, Unit};

use super::fault::{Fault, Joining, Wrong, nearest};
use super::tree::{Expr, Form, Function, PartId};
use super::{Bytes, FactKind, Sheet, parse};

/// What an expression is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExpectedKind {
    /// True or false.
    Condition,
    /// A number of this dimension.
    Quantity(Dimension),
}

/// A condition without faults.
#[derive(Clone, Debug, PartialEq)]
pub struct Condition(pub(super) Expr);

/// A formula without faults, for a quantity of a known dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula(pub(super) Expr);

impl Condition {
    /// Reads and checks a condition.
    ///
    /// # Errors
    /// All faults of writing, names, kinds, units and words.
    pub fn read(text: &str, sheet: &Sheet) -> Result<Condition, Vec<Fault>> {
        read(text, sheet, ExpectedKind::Condition).map(Condition)
    }

    /// The expression.
    pub fn expr(&self) -> &Expr {
        &self.0
    }
}

impl Formula {
    /// Reads and checks a formula.
    ///
    /// # Errors
    /// All faults of writing, names, kinds, units and words.
    pub fn read(text: &str, sheet: &Sheet, dimension: Dimension) -> Result<Formula, Vec<Fault>> {
        read(text, sheet, ExpectedKind::Quantity(dimension)).map(Formula)
    }

    /// The expression.
    pub fn expr(&self) -> &Expr {
        &self.0
    }
}

fn read(text: &str, sheet: &Sheet, wanted: ExpectedKind) -> Result<Expr, Vec<Fault>> {
    let (expr, mut faults) = parse(text);
    // What cannot be read is told once; a fault of units inside it would only follow from it.
    let reported: Vec<Bytes> = faults.iter().map(|fault| fault.bytes.clone()).collect();
    let within = |bytes: &Bytes| reported.iter().any(|outer| outer.start <= bytes.start && bytes.end <= outer.end);
    faults.extend(check(&expr, sheet, wanted).into_iter().filter(|fault| !within(&fault.bytes)));
    faults.sort_by_key(|fault| (fault.bytes.start, fault.bytes.end));
    if faults.is_empty() { Ok(expr) } else { Err(faults) }
}

/// All faults of names, kinds, units and words, in the order of writing. Parts that could not be read are passed over.
pub fn check(expr: &Expr, sheet: &Sheet, wanted: ExpectedKind) -> Vec<Fault> {
    let mut check = Check { expr, sheet, faults: Vec::new() };
    let found = check.of(expr.root);
    match wanted {
        ExpectedKind::Condition => check.must_be_flag(expr.root, &found),
        ExpectedKind::Quantity(dimension) => check.must_measure(expr.root, &found, dimension),
    }
    check.faults.sort_by_key(|fault| (fault.bytes.start, fault.bytes.end));
    check.faults
}

/// The kind of a part.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Kind<'a> {
    Number(Dimension),
    Text(Option<&'a [String]>),
    Flag,
    Words(&'a [String]),
    Null,
    /// A fault has been recorded; whatever depends on it is silent.
    Bad,
}

impl Kind<'_> {
    pub(super) fn says(&self) -> String {
        match self {
            Kind::Number(dimension) => kind_of(*dimension),
            Kind::Text(_) => "a text".to_owned(),
            Kind::Flag => "a condition".to_owned(),
            Kind::Words(_) => "a list".to_owned(),
            Kind::Null => "`null`".to_owned(),
            Kind::Bad => "a fault".to_owned(),
        }
    }
}

pub(super) struct Check<'a> {
    pub expr: &'a Expr,
    pub sheet: &'a Sheet,
    faults: Vec<Fault>,
}

impl<'a> Check<'a> {
    pub(super) fn fault(&mut self, id: PartId, wrong: Wrong, instead: Option<String>) -> Kind<'a> {
        self.faults.push(Fault { bytes: self.expr.part(id).bytes.clone(), wrong, instead });
        Kind::Bad
    }

    pub(super) fn note(&mut self, id: PartId, wrong: Wrong, instead: Option<String>) {
        self.fault(id, wrong, instead);
    }

    pub(super) fn of(&mut self, id: PartId) -> Kind<'a> {
        match self.expr.form(id) {
            Form::Number(_, unit) => Kind::Number(unit.map_or(Dimension::NONE, Unit::dimension)),
            Form::Text(_) => Kind::Text(None),
            Form::Flag(_) => Kind::Flag,
            Form::Null => Kind::Null,
            Form::Bad => Kind::Bad,
            Form::Fact(name) => self.fact(id, name.as_str()),
            Form::Negate(inner) => {
                let found = self.of(*inner);
                self.must_be_number(*inner, &found).map_or(Kind::Bad, Kind::Number)
            }
            Form::Arithmetic(how, left, right) => self.arithmetic(id, *how, *left, *right),
            Form::Compare(how, left, right) => self.compare(id, *how, *left, *right),
            Form::Between(value, low, high) => self.between(*value, *low, *high),
            Form::In(value, tests) => self.within(*value, tests),
            Form::And(left, right) | Form::Or(left, right) => self.flags(&[*left, *right]),
            Form::Not(inner) => self.flags(&[*inner]),
            Form::If(condition, then, otherwise) => self.choice(*condition, *then, *otherwise),
            Form::Call(function, arguments) => self.call(id, *function, arguments),
        }
    }

    fn fact(&mut self, id: PartId, name: &str) -> Kind<'a> {
        let sheet = self.sheet;
        match sheet.fact(name).map(|fact| &fact.kind) {
            Some(FactKind::Number(shown)) => shown.dimension().map_or(Kind::Bad, Kind::Number),
            Some(FactKind::Text(allowed)) => Kind::Text(allowed.as_deref()),
            Some(FactKind::Flag) => Kind::Flag,
            Some(FactKind::Words(allowed)) => Kind::Words(allowed),
            None => {
                let instead = nearest(name, sheet.facts().map(|(known, _)| known));
                self.fault(id, Wrong::UnknownFact(name.to_owned(), sheet.entity().to_owned()), instead)
            }
        }
    }

    pub(super) fn must_be_number(&mut self, id: PartId, found: &Kind) -> Option<Dimension> {
        match found {
            Kind::Number(dimension) => return Some(*dimension),
            Kind::Bad => {}
            Kind::Null => self.note(id, Wrong::Null, None),
            other => self.note(id, Wrong::Kind("a quantity".to_owned(), other.says()), None),
        }
        None
    }

    fn must_be_flag(&mut self, id: PartId, found: &Kind) {
        match found {
            Kind::Flag | Kind::Bad => {}
            Kind::Null => self.note(id, Wrong::Null, None),
            other => self.note(id, Wrong::Kind("a condition".to_owned(), other.says()), None),
        }
    }

    fn must_measure(&mut self, id: PartId, found: &Kind, wanted: Dimension) {
        match found {
            Kind::Number(dimension) if *dimension == wanted => {}
            Kind::Number(dimension) => {
                let bare = self.bare_number(id).filter(|_| *dimension == Dimension::NONE);
                match bare {
                    _ if self.is_fraction(id) => {
                        self.misread_fraction(id);
                    }
                    Some(number) => {
                        let instead = format!("{number} {}", Shown::usual(wanted).words());
                        self.fault(id, Wrong::UnitMissing(wanted), Some(instead));
                    }
                    None => self.note(id, Wrong::Dimension(wanted, *dimension), None),
                }
            }
            Kind::Bad => {}
            Kind::Null => self.note(id, Wrong::Null, None),
            other => self.note(id, Wrong::Kind(kind_of(wanted), other.says()), None),
        }
    }

    fn flags(&mut self, ids: &[PartId]) -> Kind<'a> {
        for id in ids {
            let found = self.of(*id);
            self.must_be_flag(*id, &found);
        }
        Kind::Flag
    }

    /// Dimensions of numbers; none if one of them is no number.
    pub(super) fn numbers<const N: usize>(&mut self, ids: [PartId; N]) -> Option<[Dimension; N]> {
        let found = ids.map(|id| {
            let found = self.of(id);
            self.must_be_number(id, &found)
        });
        found.iter().all(Option::is_some).then(|| found.map(Option::unwrap_or_default))
    }

    fn choice(&mut self, condition: PartId, then: PartId, otherwise: PartId) -> Kind<'a> {
        self.flags(&[condition]);
        match (self.of(then), self.of(otherwise)) {
            (Kind::Bad, _) | (_, Kind::Bad) => Kind::Bad,
            (Kind::Number(a), Kind::Number(b)) => self.alike(otherwise, Joining::Branching, (then, a), (otherwise, b)),
            (Kind::Flag, Kind::Flag) => Kind::Flag,
            (Kind::Text(_), Kind::Text(_)) => Kind::Text(None),
            (Kind::Null | Kind::Words(_), _) => self.fault(
                then,
                Wrong::Kind("a quantity, a condition or a text".to_owned(), "neither".to_owned()),
                None,
            ),
            (a, b) => self.fault(otherwise, Wrong::Kind(a.says(), b.says()), None),
        }
    }

    fn call(&mut self, id: PartId, function: Function, arguments: &[PartId]) -> Kind<'a> {
        match function {
            Function::Ceiling | Function::Floor => self.rounding(id, function, arguments),
            Function::Min | Function::Max | Function::Abs => self.extreme(arguments),
            Function::ListContains => self.contains(arguments),
            Function::Count => self.count(arguments),
        }
    }
}
