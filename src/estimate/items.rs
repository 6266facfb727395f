//! Items: net, waste, price, packs; freight and taxes on them.
//!
//! In: item lines. Out: one cost an item, freight by supplier, taxes. May not know: labor.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use rust_decimal::Decimal;

use super::price_builder::{PriceBuilder, PriceResult, not_given};
use super::{ItemCost, Named, PackCost};
use crate::catalog::{CostKind, Item, TaxBase};
use crate::ledger::{Called, FigureFault, FigureId, Shown};
use crate::measure::{Quantity, Unit};

impl PriceBuilder<'_, '_> {
    pub(super) fn items(&mut self) -> Result<Vec<ItemCost>, FigureFault> {
        let mut lines: FxHashMap<Arc<str>, Vec<FigureId>> = FxHashMap::default();
        for line in &self.takeoff.lines {
            match lines.get_mut(&*line.item) {
                Some(of_item) => of_item.push(line.quantity),
                None => drop(lines.insert(line.item.clone(), vec![line.quantity])),
            }
        }
        let catalog = self.catalog;
        let mut wanted: Vec<&Item> =
            catalog.items.values().filter(|item| lines.contains_key(item.id.as_str())).collect();
        wanted.sort_by(|a, b| (a.cost, a.group, &a.id).cmp(&(b.cost, b.group, &b.id)));
        wanted.into_iter().map(|item| self.item(item, lines.get(item.id.as_str()).map_or(&[], Vec::as_slice))).collect()
    }

    fn item(&mut self, item: &Item, lines: &[FigureId]) -> Result<ItemCost, FigureFault> {
        let shown = Shown::In(item.unit);
        let name = format!("net quantity of {}", item.name);
        let net = self.ledger().sum(lines, Called::arithmetic(&name).shown(shown))?;
        let gross = self.gross(item, net)?;
        let (price, quoted) = self.price_of(item)?;
        let units = self.in_units(gross, item.unit, &format!("{} of {}", item.unit.word(), item.name))?;
        let extension = self.cents_of(&[units, price], &format!("extension of {}", item.name))?;
        let packs = self.packs(item, gross, price)?;
        Ok(ItemCost { item: item.id.clone(), net, gross, price, quoted, extension, packs })
    }

    /// Net with waste, up to the whole of what is sold by the piece, else to the hundredth of the unit.
    fn gross(&mut self, item: &Item, net: FigureId) -> PriceResult {
        let shown = Shown::In(item.unit);
        let name = format!("quantity of {} with waste", item.name);
        let waste = self.rate(item.waste, &format!("waste of {}", item.name), &item.place)?;
        let one = self.step(Decimal::ONE, Unit::Each, "one", "the quantity itself, to which waste is added")?;
        let factor = self.ledger().sum(&[one, waste], Called::arithmetic("one and waste").shown(Shown::EACH))?;
        let exact = self.ledger().product(&[net, factor], Called::arithmetic(&name).shown(shown))?;
        let (number, what) = match item.unit {
            Unit::Each => (Decimal::ONE, "a whole piece"),
            _ => (Decimal::new(1, 2), "a hundredth of the unit of sale"),
        };
        let step = self.step(number, item.unit, what, "quantities for prices go up to the printed digit")?;
        self.ledger().rounded_up(exact, step, Called::arithmetic(&name).shown(shown))
    }

    /// Price of one unit: a quote's, else the catalog's.
    pub(super) fn price_of(&mut self, item: &Item) -> Result<(FigureId, bool), FigureFault> {
        let job = self.job;
        let name = format!("price of one {} of {}", item.unit.word(), item.name);
        match job.quotes.get(&item.id) {
            Some(quote) => {
                let standing = format!("quoted by {}, {}, valid to {}", quote.supplier, quote.date, quote.valid_to);
                Ok((self.money(quote.price, &name, &quote.place, &standing)?, true))
            }
            None => {
                let day = item.priced.get().map(|day| format!(" of {day}")).unwrap_or_default();
                let price = item.price.given().ok_or_else(|| not_given(&name))?;
                Ok((self.money(price.value, &name, &price.place, &format!("catalog price{day}"))?, false))
            }
        }
    }

    /// Rounding to packs, shown apart.
    fn packs(&mut self, item: &Item, gross: FigureId, price: FigureId) -> Result<Option<PackCost>, FigureFault> {
        let Some(pack) = &item.pack else { return Ok(None) };
        let shown = Shown::In(item.unit);
        let reason = self.entry(&item.place, "");
        let name = format!("{} of {}", pack.name, item.name);
        let holds = self.ledger().given(pack.holds, Called::new(&name, reason).shown(shown))?;
        let name = format!("whole {} of {}", pack.plural(), item.name);
        let bought = self.ledger().rounded_up(gross, holds, Called::arithmetic(&name).shown(shown))?;
        let packs = self.ledger().quotient(bought, holds, Called::arithmetic(&name).shown(Shown::EACH))?;
        let name = format!("{} beyond what is needed", item.name);
        let extra = self.ledger().difference(bought, gross, Called::arithmetic(&name).shown(shown))?;
        if self.ledger().value(extra).value().is_zero() {
            return Ok(None);
        }
        let units = self.in_units(extra, item.unit, &name)?;
        let cost = self.cents_of(&[units, price], &format!("rounding to packs of {}", item.name))?;
        Ok(Some(PackCost { packs, extra, cost }))
    }

    /// Freight by supplier, on material with its packs.
    pub(super) fn freight(&mut self, items: &[ItemCost]) -> Result<Vec<Named>, FigureFault> {
        let catalog = self.catalog;
        let mut freight = Vec::new();
        for supplier in catalog.suppliers.values() {
            if supplier.freight.ratio().is_zero() {
                continue;
            }
            let sent = |item: &Item| item.supplier == supplier.id && item.freight && item.cost == CostKind::Material;
            let base = material_of(items, |id| catalog.items.get(id).is_some_and(sent));
            if base.is_empty() {
                continue;
            }
            let name = format!("freight of {}", supplier.name);
            let base = self.sum_money(&base, &format!("material from {}", supplier.name))?;
            let rate = self.rate(supplier.freight, &format!("freight rate of {}", supplier.name), &supplier.place)?;
            let amount = self.cents_of(&[base, rate], &name)?;
            freight.push(Named {
                name,
                how: format!("{} of its material", supplier.freight.print()),
                base: Some(base),
                amount,
            });
        }
        Ok(freight)
    }

    /// Taxes, unless the owner's profile is exempt. An equipment tax is taken of what is rented.
    pub(super) fn taxes(&mut self, items: &[ItemCost], freight: &[Named]) -> Result<Vec<Named>, FigureFault> {
        let exempt = self.catalog.profiles.get(&self.job.head.profile).is_some_and(|profile| profile.tax_exempt);
        let terms = self.terms;
        let mut taxes = Vec::new();
        for tax in &terms.taxes {
            if exempt {
                continue;
            }
            let kind = taxed_part(tax.of);
            let catalog = self.catalog;
            let taxed = |id: &str| catalog.items.get(id).is_some_and(|item| item.taxed && item.cost == kind);
            let mut base = material_of(items, taxed);
            if tax.of == TaxBase::MaterialAndFreight {
                base.extend(freight.iter().map(|named| named.amount));
            }
            let base = self.sum_money(&base, &format!("base of {}", tax.name))?;
            let rate = self.rate(tax.rate, &format!("rate of {}", tax.name), &tax.place)?;
            let amount = self.cents_of(&[base, rate], &tax.name)?;
            let how = format!("{} of {}", tax.rate.print(), tax.of.word());
            taxes.push(Named { name: tax.name.clone(), how, base: Some(base), amount });
        }
        Ok(taxes)
    }

    /// Extension of so much of an item with its waste, neither rounded nor packed: for a unit price.
    pub(super) fn bare_extension(&mut self, item: &Item, quantity: Quantity, name: &str) -> PriceResult {
        let reason = self.entry(&item.place, "");
        let asked = self.ledger().given(quantity, Called::new(name, reason).shown(Shown::In(item.unit)))?;
        let units = self.in_units(asked, item.unit, name)?;
        let waste = self.rate(item.waste, &format!("waste of {}", item.name), &item.place)?;
        let one = self.step(Decimal::ONE, Unit::Each, "one", "the quantity itself, to which waste is added")?;
        let factor = self.ledger().sum(&[one, waste], Called::arithmetic("one and waste").shown(Shown::EACH))?;
        let (price, _) = self.price_of(item)?;
        self.cents_of(&[units, factor, price], name)
    }
}

/// The part of the cost that a tax is taken of, and with which it is counted.
pub(super) fn taxed_part(base: TaxBase) -> CostKind {
    match base {
        TaxBase::MaterialCost | TaxBase::MaterialAndFreight => CostKind::Material,
        TaxBase::Equipment => CostKind::Equipment,
    }
}

/// Extensions and pack rounding of the items wanted.
fn material_of(items: &[ItemCost], wanted: impl Fn(&str) -> bool) -> Vec<FigureId> {
    let wanted = items.iter().filter(|cost| wanted(&cost.item));
    wanted.flat_map(|cost| [Some(cost.extension), cost.packs.as_ref().map(|packs| packs.cost)]).flatten().collect()
}
