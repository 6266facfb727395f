//! Formulas: the figures they make on the ledger.
//!
//! In: a checked formula, the entity's facts, a ledger, the name of the result. Out: a figure that rests on every step.
//! May not know: what the figure is for.

use crate::ledger::{Called, FigureFault, FigureId, Ledger, Shown};
use crate::measure::{Quantity, Unit};

use super::Formula;
use super::evaluate::{FactValue, Facts, NoValue, Number, Run};
use super::fault::{Fault, Wrong};
use super::logic::{Amount, Measured, Truth, joined};
use super::tree::{Form, Function, Operator, PartId};

impl Formula {
    /// Works the formula out. The result is called as `called` says; steps on the way are called as they are written
    /// and share its reason, which is the rule the formula stands in.
    ///
    /// # Errors
    /// Arithmetic that has no result, or facts that are not what their sheet says.
    pub fn measure(&self, facts: &dyn Facts, ledger: &mut Ledger, called: Called) -> Result<Measured, Fault> {
        let mut run = Run::new(&self.0, facts, ledger, called.reason, true);
        let amount = run.amount(self.0.root, called)?;
        Ok(Measured { amount, reads: run.reads })
    }

    /// The same without what was read, which costs a text for every fact.
    ///
    /// # Errors
    /// As of [`Formula::measure`].
    pub fn amount(&self, facts: &dyn Facts, ledger: &mut Ledger, called: Called) -> Result<Amount, Fault> {
        Run::new(&self.0, facts, ledger, called.reason, false).amount(self.0.root, called)
    }
}

impl<'a> Run<'a> {
    fn amount(&mut self, root: PartId, called: Called) -> Result<Amount, Fault> {
        match self.named(root, called) {
            Ok(figure) => Ok(Amount::Known(figure)),
            Err(NoValue::Missing(missing)) => Ok(Amount::Unknown(missing)),
            Err(NoValue::Fault(fault)) => Err(*fault),
        }
    }

    /// A figure under a name of its own, whatever the part is.
    fn named(&mut self, id: PartId, called: Called) -> Result<FigureId, NoValue> {
        match self.expr.form(id) {
            Form::Number(..) => {
                let written = self.number(id)?;
                let figure = self.figure(id, written)?;
                let made = self.ledger.carried(figure, called);
                self.made(id, made)
            }
            Form::Fact(_) => {
                let fact = self.number(id)?;
                let figure = self.figure(id, fact)?;
                let made = self.ledger.carried(figure, called);
                self.made(id, made)
            }
            _ => self.operation(id, called),
        }
    }

    pub(super) fn number(&mut self, id: PartId) -> Result<Number, NoValue> {
        let expr = self.expr;
        match expr.form(id) {
            Form::Number(value, unit) => match Quantity::in_units(*value, unit.unwrap_or(Unit::Each)) {
                Ok(quantity) => Ok(Number::Written(quantity)),
                Err(_) => Err(self.fault(id, Wrong::Digits).into()),
            },
            Form::Fact(name) => match self.read(name)? {
                FactValue::Number(_) => self.fact_figure(name).map(Number::Figure),
                other => Err(self.otherwise(id, name, "a number", other)),
            },
            _ => self.operation(id, self.called(id)).map(Number::Figure),
        }
    }

    /// A number as a figure; one written in the rule is given by the rule.
    fn figure(&mut self, id: PartId, number: Number) -> Result<FigureId, NoValue> {
        let quantity = match number {
            Number::Figure(figure) => return Ok(figure),
            Number::Written(quantity) => quantity,
        };
        let unit = match self.expr.form(id) {
            Form::Number(_, Some(unit)) => Shown::In(*unit),
            _ => Shown::EACH,
        };
        let made = self.ledger.given(quantity, self.called(id).shown(unit));
        self.made(id, made)
    }

    fn made(&self, id: PartId, made: Result<FigureId, FigureFault>) -> Result<FigureId, NoValue> {
        made.map_err(|fault| self.fault(id, Wrong::Figure(fault)).into())
    }

    /// Figures of all parts; what is missing for any of them is told of all.
    fn figures(&mut self, ids: &[PartId]) -> Result<Vec<FigureId>, NoValue> {
        let mut figures = Vec::new();
        let mut unknown = Vec::new();
        for id in ids {
            match self.number(*id) {
                Ok(number) => figures.push(self.figure(*id, number)?),
                Err(NoValue::Missing(missing)) => unknown = joined(unknown, missing),
                Err(fault) => return Err(fault),
            }
        }
        if unknown.is_empty() { Ok(figures) } else { Err(NoValue::Missing(unknown)) }
    }

    fn operation(&mut self, id: PartId, called: Called) -> Result<FigureId, NoValue> {
        let expr = self.expr;
        match expr.form(id) {
            Form::Negate(inner) => {
                let inputs = self.figures(&[*inner])?;
                let made = self.ledger.negated(inputs[0], called);
                self.made(id, made)
            }
            Form::Arithmetic(how, left, right) => self.arithmetic(id, *how, *left, *right, called),
            Form::If(condition, then, otherwise) => self.choice((id, *condition), *then, *otherwise, called),
            Form::Call(function, arguments) => self.call(id, *function, arguments, called),
            _ => Err(self.unchecked(id, "a quantity")),
        }
    }

    fn arithmetic(
        &mut self,
        id: PartId,
        how: Operator,
        left: PartId,
        right: PartId,
        called: Called,
    ) -> Result<FigureId, NoValue> {
        let made = match how {
            Operator::Add | Operator::Multiply => {
                let inputs = self.figures(&self.chain(how, left, right))?;
                match how {
                    Operator::Add => self.ledger.sum(&inputs, called),
                    _ => self.ledger.product(&inputs, called),
                }
            }
            Operator::Subtract | Operator::Divide => {
                let inputs = self.figures(&[left, right])?;
                match how {
                    Operator::Subtract => self.ledger.difference(inputs[0], inputs[1], called),
                    _ => self.ledger.quotient(inputs[0], inputs[1], called),
                }
            }
        };
        self.made(id, made)
    }

    /// The terms of `a + b + c`, or the factors of `a * b * c`, so that one figure has them all.
    fn chain(&self, how: Operator, left: PartId, right: PartId) -> Vec<PartId> {
        let mut parts = vec![right];
        let mut next = left;
        while let Form::Arithmetic(same, left, right) = self.expr.form(next) {
            if *same != how {
                break;
            }
            parts.push(*right);
            next = *left;
        }
        parts.push(next);
        parts.reverse();
        parts
    }

    fn choice(
        &mut self,
        (id, condition): (PartId, PartId),
        then: PartId,
        otherwise: PartId,
        called: Called,
    ) -> Result<FigureId, NoValue> {
        let (truth, because, read) = self.decide(condition)?;
        let taken = match truth {
            Truth::True => then,
            Truth::False => otherwise,
            Truth::Undecided(missing) => return Err(NoValue::Missing(missing)),
        };
        let taken = self.figures(&[taken])?;
        let made = self.ledger.chosen(taken[0], self.expr.written(condition), &because, &read, called);
        self.made(id, made)
    }

    fn call(
        &mut self,
        id: PartId,
        function: Function,
        arguments: &[PartId],
        called: Called,
    ) -> Result<FigureId, NoValue> {
        if function == Function::Count {
            let [list] = *arguments else { return Err(self.unchecked(id, "a list")) };
            let number = self.list(list)?.len();
            let made = self.ledger.counted(number, self.expr.written(list), called);
            return self.made(id, made);
        }
        let inputs = self.figures(arguments)?;
        let made = match function {
            Function::Min => self.ledger.smallest(&inputs, called),
            Function::Max => self.ledger.largest(&inputs, called),
            Function::Abs if self.ledger.value(inputs[0]).value().is_sign_negative() => {
                self.ledger.negated(inputs[0], called)
            }
            Function::Abs => self.ledger.carried(inputs[0], called),
            Function::Ceiling => {
                let multiple = self.multiple(id, &inputs)?;
                self.ledger.rounded_up(inputs[0], multiple, called)
            }
            Function::Floor => {
                let multiple = self.multiple(id, &inputs)?;
                self.ledger.rounded_down(inputs[0], multiple, called)
            }
            Function::ListContains | Function::Count => return Err(self.unchecked(id, "a quantity")),
        };
        self.made(id, made)
    }

    /// The multiple to round to: the second argument, or one.
    fn multiple(&mut self, id: PartId, inputs: &[FigureId]) -> Result<FigureId, NoValue> {
        match inputs.get(1) {
            Some(multiple) => Ok(*multiple),
            None => {
                let made = self.ledger.given(Quantity::count(1), Called::new("1", self.reason));
                self.made(id, made)
            }
        }
    }
}
