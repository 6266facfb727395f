//! Whether numbers go together: dimensions of sums, products and roundings.
//!
//! In: parts that are numbers. Out: their dimension, or a fault that says which unit to type.
//! May not know: values.

use rust_decimal::Decimal;

use crate::ledger::Shown;
use crate::measure::{Dimension, Unit};

use super::FactKind;
use super::check::{Check, Kind};
use super::fault::{Joining, Wrong};
use super::tree::{Form, Function, Operator, PartId};

impl<'a> Check<'a> {
    pub(super) fn arithmetic(&mut self, id: PartId, how: Operator, left: PartId, right: PartId) -> Kind<'a> {
        let Some([a, b]) = self.numbers([left, right]) else { return Kind::Bad };
        let joined = match how {
            Operator::Multiply => a.times(b),
            Operator::Divide => a.per(b),
            Operator::Add => return self.alike(id, Joining::Adding, (left, a), (right, b)),
            Operator::Subtract => return self.alike(id, Joining::Subtracting, (left, a), (right, b)),
        };
        match joined {
            Some(dimension) => Kind::Number(dimension),
            None => self.fault(id, Wrong::Beyond, None),
        }
    }

    /// Two numbers that must be of one dimension. A plain number beside a quantity is told its unit.
    pub(super) fn alike(
        &mut self,
        id: PartId,
        how: Joining,
        (left, a): (PartId, Dimension),
        (right, b): (PartId, Dimension),
    ) -> Kind<'a> {
        if a == b {
            return Kind::Number(a);
        }
        for (plain, dimension, other, beside) in [(right, b, left, a), (left, a, right, b)] {
            let number = self.bare_number(plain).filter(|_| dimension == Dimension::NONE);
            if let Some(number) = number {
                let unit = self.unit_of(other).unwrap_or_else(|| Shown::usual(beside));
                return self.fault(plain, Wrong::UnitMissing(beside), Some(format!("{number} {}", unit.words())));
            }
        }
        if let Some(fraction) = [right, left].into_iter().find(|part| self.is_fraction(*part)) {
            return self.misread_fraction(fraction);
        }
        self.fault(id, Wrong::Unlike(how, a, b), None)
    }

    /// Whether a part is written as the fraction of a unit, such as `1/2 in`, which rules read as 1 divided by 2 in.
    pub(super) fn is_fraction(&self, id: PartId) -> bool {
        self.fraction(id).is_some()
    }

    fn fraction(&self, id: PartId) -> Option<(Decimal, Decimal, Unit)> {
        let Form::Arithmetic(Operator::Divide, above, below) = self.expr.form(id) else { return None };
        match (self.expr.form(*above), self.expr.form(*below)) {
            (Form::Number(above, None), Form::Number(below, Some(unit))) => Some((*above, *below, *unit)),
            _ => None,
        }
    }

    /// Tells a fraction of a unit, with the decimal to type where it ends within nine places.
    pub(super) fn misread_fraction(&mut self, id: PartId) -> Kind<'a> {
        let Some((above, below, unit)) = self.fraction(id) else { return Kind::Bad };
        let written = self.expr.written(id).to_owned();
        let exact = above.checked_div(below).filter(|it| it.scale() <= 9 && it.checked_mul(below) == Some(above));
        let instead = exact.map(|number| format!("{} {}", number.normalize(), unit.word()));
        self.fault(id, Wrong::Fraction(written), instead)
    }

    /// A number written without unit, with its sign.
    pub(super) fn bare_number(&self, id: PartId) -> Option<&'a str> {
        match self.expr.form(id) {
            Form::Number(_, None) => Some(self.expr.written(id)),
            Form::Negate(inner) if matches!(self.expr.form(*inner), Form::Number(_, None)) => {
                Some(self.expr.written(id))
            }
            _ => None,
        }
    }

    /// The unit that the first fact or number of a sum is written in.
    fn unit_of(&self, id: PartId) -> Option<Shown> {
        match self.expr.form(id) {
            Form::Number(_, unit) => unit.map(Shown::In),
            Form::Fact(name) => match self.sheet.fact(name.as_str())?.kind {
                FactKind::Number(shown) => Some(shown),
                _ => None,
            },
            Form::Negate(inner) => self.unit_of(*inner),
            Form::Arithmetic(Operator::Add | Operator::Subtract, left, _) => self.unit_of(*left),
            Form::Call(Function::Min | Function::Max | Function::Abs, arguments) => self.unit_of(*arguments.first()?),
            _ => None,
        }
    }

    pub(super) fn rounding(&mut self, id: PartId, function: Function, arguments: &[PartId]) -> Kind<'a> {
        match *arguments {
            [value, multiple] => match self.numbers([value, multiple]) {
                Some([a, b]) => self.alike(id, Joining::Rounding, (value, a), (multiple, b)),
                None => Kind::Bad,
            },
            [value] => match self.numbers([value]) {
                Some([Dimension::NONE]) => Kind::Number(Dimension::NONE),
                Some([dimension]) => {
                    let (name, written) = (function.name(), self.expr.written(value));
                    let unit = self.unit_of(value).unwrap_or_else(|| Shown::usual(dimension)).words();
                    let instead = format!("{name}({written}, 1 {unit})");
                    self.fault(id, Wrong::NoMultiple(name, dimension), Some(instead))
                }
                None => Kind::Bad,
            },
            _ => Kind::Bad,
        }
    }

    pub(super) fn extreme(&mut self, arguments: &[PartId]) -> Kind<'a> {
        let mut first: Option<(PartId, Dimension)> = None;
        let mut bad = false;
        for id in arguments {
            let found = self.of(*id);
            match (first, self.must_be_number(*id, &found)) {
                (_, None) => bad = true,
                (None, Some(dimension)) => first = Some((*id, dimension)),
                (Some(first), Some(dimension)) => {
                    bad |= self.alike(*id, Joining::Choosing, first, (*id, dimension)) == Kind::Bad;
                }
            }
        }
        first.filter(|_| !bad).map_or(Kind::Bad, |(_, dimension)| Kind::Number(dimension))
    }
}
