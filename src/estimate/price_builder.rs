//! An estimate while it is being made, and the few steps that every part of it uses.
//!
//! In: a takeoff with its ledger. Out: sums and roundings of money. May not know: which part asks.

use rust_decimal::Decimal;

use crate::catalog::{Catalog, CostKind, Terms};
use crate::findings::Place;
use crate::job::Job;
use crate::ledger::{Called, Cause, FigureFault, FigureId, Ledger, Reason, ReasonId, Shown};
use crate::measure::{Dimension, Quantity, Unit};
use crate::money::{Money, Percent, Rounding};
use crate::takeoff::Takeoff;

pub(super) type PriceResult = Result<FigureId, FigureFault>;

/// The rounding of every printed amount (common practice, no source; `money` names the other).
const ROUNDING: Rounding = Rounding::HalfAwayFromZero;

/// The fault of an amount that nobody wrote. [`super::unpriced`] tells of it before anything is added up.
pub(super) fn not_given(name: &str) -> FigureFault {
    FigureFault { cause: Cause::Nothing, name: name.to_owned(), operands: Vec::new() }
}

pub(super) struct PriceBuilder<'m, 'j> {
    pub takeoff: &'m mut Takeoff<'j>,
    pub job: &'m Job,
    pub catalog: &'m Catalog,
    pub terms: &'m Terms,
}

impl PriceBuilder<'_, '_> {
    pub(super) fn ledger(&mut self) -> &mut Ledger {
        &mut self.takeoff.ledger
    }

    pub(super) fn cost_kind(&self, item: &str) -> CostKind {
        self.catalog.items.get(item).map_or(CostKind::Material, |item| item.cost)
    }

    pub(super) fn entry(&mut self, place: &Place, standing: &str) -> ReasonId {
        self.ledger().reason(Reason::Entry { place: place.clone(), standing: standing.to_owned() })
    }

    /// An amount that somebody wrote.
    pub(super) fn money(&mut self, amount: Money, name: &str, place: &Place, standing: &str) -> PriceResult {
        let reason = self.entry(place, standing);
        let value = Quantity::new(amount.to_dollars(), Dimension::MONEY);
        self.ledger().given(value, Called::new(name, reason).shown(Shown::MONEY))
    }

    /// A rate that somebody wrote, as a ratio.
    pub(super) fn rate(&mut self, rate: Percent, name: &str, place: &Place) -> PriceResult {
        let reason = self.entry(place, "");
        let value = Quantity::count(rate.ratio());
        self.ledger().given(value, Called::new(name, reason).shown(Shown::In(Unit::Percent)))
    }

    pub(super) fn sum_money(&mut self, parts: &[FigureId], name: &str) -> PriceResult {
        self.ledger().sum(parts, Called::arithmetic(name).shown(Shown::MONEY))
    }

    /// The product, rounded to cents.
    pub(super) fn cents_of(&mut self, factors: &[FigureId], name: &str) -> PriceResult {
        let exact = self.ledger().product(factors, Called::arithmetic(name).shown(Shown::MONEY))?;
        self.rounded(exact, name)
    }

    pub(super) fn rounded(&mut self, exact: FigureId, name: &str) -> PriceResult {
        self.ledger().rounded_to_cents(exact, ROUNDING, Called::arithmetic(name))
    }

    /// A quantity as a number of units, so that a price for one unit is multiplied exactly.
    pub(super) fn in_units(&mut self, quantity: FigureId, unit: Unit, name: &str) -> PriceResult {
        if unit.factor() == Decimal::ONE {
            return match unit.dimension() {
                Dimension::NONE => Ok(quantity),
                dimension => {
                    let one = self.one(Quantity::new(Decimal::ONE, dimension), unit)?;
                    self.ledger().quotient(quantity, one, Called::arithmetic(name).shown(Shown::EACH))
                }
            };
        }
        let one = self.one(Quantity::new(unit.factor(), unit.dimension()), unit)?;
        self.ledger().quotient(quantity, one, Called::arithmetic(name).shown(Shown::EACH))
    }

    fn one(&mut self, value: Quantity, unit: Unit) -> PriceResult {
        let reason = self.ledger().reason(Reason::Clause("unit of sale".into()));
        let name = format!("one {}", unit.word());
        self.ledger().given(value, Called::new(&name, reason).shown(Shown::In(unit)))
    }

    /// So much of the unit, by a rule of ours that is named.
    pub(super) fn step(&mut self, number: Decimal, unit: Unit, name: &str, rule: &str) -> PriceResult {
        let reason = self.ledger().reason(Reason::Clause(rule.to_owned().into()));
        let value = Quantity::in_units(number, unit).unwrap_or(Quantity::count(number));
        self.ledger().given(value, Called::new(name, reason).shown(Shown::In(unit)))
    }
}
