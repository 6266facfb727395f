//! Unit prices: items and tasks with the bid's own rates, freight, tax and build-up.
//!
//! In: unit prices of the job. Out: one price each. May not know: quantities of the job.
//!
//! Packs and least hours are left out: they belong to the job as a whole and never enter a unit price.

use super::items::taxed_part;
use super::price_builder::{PriceBuilder, PriceResult};
use super::totals::Parts;
use super::{HourlyRate, PricedUnit};
use crate::catalog::{CostKind, Item, Task, TaxBase};
use crate::job::{PartOf, UnitPart, UnitPrice};
use crate::ledger::{Called, FigureFault, FigureId, Shown};
use crate::measure::{Measure, Quantity, Unit};

impl PriceBuilder<'_, '_> {
    pub(super) fn unit_prices(&mut self, rates: &[HourlyRate]) -> Result<Vec<PricedUnit>, FigureFault> {
        let job = self.job;
        job.unit_prices.iter().map(|price| self.unit_price(price, rates)).collect()
    }

    fn unit_price(&mut self, price: &UnitPrice, rates: &[HourlyRate]) -> Result<PricedUnit, FigureFault> {
        let mut parts = Parts::default();
        for part in &price.parts {
            self.unit_part(price, part, rates, &mut parts)?;
        }
        let whose = format!("unit price {}: ", price.number);
        let totals = self.totals(&parts, &whose)?;
        let marks = self.marks(&totals, &whose)?;
        let lines: Vec<FigureId> = [totals.direct].into_iter().chain(marks.iter().map(|mark| mark.amount)).collect();
        let total = self.sum_money(&lines, &format!("{whose}{}", price.title))?;
        Ok(PricedUnit {
            number: price.number.clone(),
            title: price.title.clone(),
            unit: price.unit.clone(),
            price: total,
        })
    }

    fn unit_part(
        &mut self,
        price: &UnitPrice,
        part: &UnitPart,
        rates: &[HourlyRate],
        into: &mut Parts,
    ) -> Result<(), FigureFault> {
        let catalog = self.catalog;
        match &part.of {
            PartOf::Item(id) => match catalog.items.get(id) {
                Some(item) => self.unit_item(price, item, part.quantity, into),
                None => Ok(()),
            },
            PartOf::Task(id) => match catalog.tasks.get(id) {
                Some(task) => {
                    let amount = self.unit_task(price, task, part, rates)?;
                    into.labor.extend(amount);
                    Ok(())
                }
                None => Ok(()),
            },
        }
    }

    fn unit_item(
        &mut self,
        price: &UnitPrice,
        item: &Item,
        quantity: Quantity,
        into: &mut Parts,
    ) -> Result<(), FigureFault> {
        let amount = self.bare_extension(item, quantity, &format!("{} for unit price {}", item.name, price.number))?;
        into.of_kind(item.cost).push(amount);
        match item.cost {
            CostKind::Material => {
                let freight = self.unit_freight(price, item, amount)?;
                into.freight.extend(freight);
                into.tax.extend(self.unit_tax(price, item, amount, freight)?);
            }
            CostKind::Equipment => into.rental_tax.extend(self.unit_tax(price, item, amount, None)?),
            CostKind::Subcontract | CostKind::Travel => {}
        }
        Ok(())
    }

    fn unit_freight(
        &mut self,
        price: &UnitPrice,
        item: &Item,
        amount: FigureId,
    ) -> Result<Option<FigureId>, FigureFault> {
        let catalog = self.catalog;
        let Some(supplier) = catalog.suppliers.get(&item.supplier).filter(|_| item.freight) else { return Ok(None) };
        if supplier.freight.ratio().is_zero() {
            return Ok(None);
        }
        let rate = self.rate(supplier.freight, &format!("freight rate of {}", supplier.name), &supplier.place)?;
        self.cents_of(&[amount, rate], &format!("freight for unit price {}", price.number)).map(Some)
    }

    fn unit_tax(
        &mut self,
        price: &UnitPrice,
        item: &Item,
        amount: FigureId,
        freight: Option<FigureId>,
    ) -> Result<Vec<FigureId>, FigureFault> {
        let exempt = self.catalog.profiles.get(&self.job.head.profile).is_some_and(|profile| profile.tax_exempt);
        let terms = self.terms;
        let mut taxes = Vec::new();
        for tax in terms.taxes.iter().filter(|tax| !exempt && taxed_part(tax.of) == item.cost) {
            let mut base: Vec<FigureId> = if item.taxed { vec![amount] } else { Vec::new() };
            if tax.of == TaxBase::MaterialAndFreight {
                base.extend(freight);
            }
            let base = self.sum_money(&base, &format!("base of {} for unit price {}", tax.name, price.number))?;
            let rate = self.rate(tax.rate, &format!("rate of {}", tax.name), &tax.place)?;
            taxes.push(self.cents_of(&[base, rate], &format!("{} for unit price {}", tax.name, price.number))?);
        }
        Ok(taxes)
    }

    /// Hours of the clock times the rate; the crew of a unit price is one.
    fn unit_task(
        &mut self,
        price: &UnitPrice,
        task: &Task,
        part: &UnitPart,
        rates: &[HourlyRate],
    ) -> Result<Option<FigureId>, FigureFault> {
        let Some(rate) = rates.iter().find(|rate| rate.trade == task.trade && !rate.overtime) else { return Ok(None) };
        let name = format!("{} for unit price {}", task.name, price.number);
        let reason = self.entry(&part.place, "");
        let asked = self.ledger().given(part.quantity, Called::new(&name, reason).shown(Shown::In(task.unit)))?;
        let units = self.in_units(asked, task.unit, &name)?;
        let standing = task.source.clone();
        let reason = self.entry(&task.hours_place, &standing);
        let called = format!("hours of `{}`", task.name);
        let hours = Called::new(&called, reason).shown(Shown::In(Unit::Hour));
        let hours = self.ledger().given(task.hours.quantity(), hours)?;
        let hours: PriceResult =
            self.ledger().product(&[units, hours], Called::arithmetic(&name).shown(Shown::In(Unit::Hour)));
        self.hours_times(hours?, rate.rate, &name).map(Some)
    }
}
