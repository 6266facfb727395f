//! Cost, price, alternates and their build-up.
//!
//! In: takeoff lines, rates and terms.
//! Out: price lines and totals that add up, as figures of the takeoff's ledger.
//! May not know: pages; how an alternate's job is reviewed and taken off.
//!
//! Every printed line is rounded to cents once, half away from zero, and every total is the sum of printed lines.
//! Quantities are priced as numbers of the unit of sale, so that a price for a foot times feet is exact.

mod alternates;
mod build_up;
mod codes;
mod dependent_share;
mod exposure;
mod items;
mod labor;
mod price_builder;
mod sensitivity;
mod totals;
mod unit_prices;
mod unpriced;

pub use alternates::{AlternatePrice, Interaction, price_alternates};
pub use codes::{CODES, no_price};
pub use dependent_share::dependent_share;
pub use exposure::Exposure;
pub use sensitivity::{Change, SensitiveTo, Sensitivity, sensitivities};

use crate::catalog::{Catalog, VisitKind};
use crate::findings::Findings;
use crate::job::Job;
use crate::ledger::{FigureFault, FigureId};
use crate::takeoff::Takeoff;

use price_builder::PriceBuilder;

/// What one item costs, for the whole job.
#[derive(Clone, Debug)]
pub struct ItemCost {
    /// The item.
    pub item: String,
    /// Sum of its lines, in its unit.
    pub net: FigureId,
    /// The same with waste, rounded up.
    pub gross: FigureId,
    /// Price of one unit.
    pub price: FigureId,
    /// Whether a quote gave the price.
    pub quoted: bool,
    /// Gross times price.
    pub extension: FigureId,
    /// What rounding to packs adds.
    pub packs: Option<PackCost>,
}

/// What rounding to packs adds, shown apart.
#[derive(Clone, Debug)]
pub struct PackCost {
    /// Whole packs.
    pub packs: FigureId,
    /// What is in them beyond what is needed.
    pub extra: FigureId,
    /// What that costs.
    pub cost: FigureId,
}

/// An amount with its name.
#[derive(Clone, Debug)]
pub struct Named {
    /// What it is.
    pub name: String,
    /// How it is taken, such as `12 % of direct cost`; empty where the name says it.
    pub how: String,
    /// What it is taken of; none where it is an amount by itself.
    pub base: Option<FigureId>,
    /// The amount.
    pub amount: FigureId,
}

/// What an hour of a trade costs.
#[derive(Clone, Debug)]
pub struct HourlyRate {
    /// The trade.
    pub trade: String,
    /// Paid outside working hours.
    pub overtime: bool,
    /// Wage, each burden, and the overtime premium.
    pub parts: Vec<Named>,
    /// Their sum.
    pub rate: FigureId,
}

/// Labor of one trade in one visit.
#[derive(Clone, Debug)]
pub struct LaborCost {
    /// The visit.
    pub visit: VisitKind,
    /// The trade.
    pub trade: String,
    /// Paid outside working hours.
    pub overtime: bool,
    /// Labor hours.
    pub hours: FigureId,
    /// Rate of an hour.
    pub rate: FigureId,
    /// Hours times rate.
    pub amount: FigureId,
}

/// Totals by part of the cost.
#[derive(Clone, Copy, Debug)]
pub struct Totals {
    /// Extensions of material.
    pub extensions: FigureId,
    /// Rounding to packs.
    pub packs: FigureId,
    /// Freight.
    pub freight: FigureId,
    /// Taxes on material.
    pub tax: FigureId,
    /// Material in all: the four above.
    pub material: FigureId,
    /// Labor.
    pub labor: FigureId,
    /// Subcontracts.
    pub subcontract: FigureId,
    /// Extensions of equipment.
    pub rentals: FigureId,
    /// Equipment in all: the one above and taxes on it.
    pub equipment: FigureId,
    /// Travel, permits and fees.
    pub travel: FigureId,
    /// All of it.
    pub direct: FigureId,
}

/// A unit price.
#[derive(Clone, Debug)]
pub struct PricedUnit {
    /// Its number.
    pub number: String,
    /// What it buys.
    pub title: String,
    /// The unit it is offered by.
    pub unit: String,
    /// The price.
    pub price: FigureId,
}

/// The price of a job. Figures are of the takeoff's ledger.
#[derive(Clone, Debug)]
pub struct Estimate {
    /// Items, by part of the cost, group and id.
    pub items: Vec<ItemCost>,
    /// Freight by supplier.
    pub freight: Vec<Named>,
    /// Taxes.
    pub taxes: Vec<Named>,
    /// Rates, by trade.
    pub rates: Vec<HourlyRate>,
    /// Labor, by visit and trade.
    pub labor: Vec<LaborCost>,
    /// Totals.
    pub totals: Totals,
    /// The build-up, in order.
    pub marks: Vec<Named>,
    /// Allowances.
    pub allowances: Vec<Named>,
    /// Adjustments.
    pub adjustments: Vec<Named>,
    /// Bond premium.
    pub bond: Option<Named>,
    /// The base bid.
    pub bid: FigureId,
    /// Unit prices.
    pub unit_prices: Vec<PricedUnit>,
    /// What rests on facts that are not known.
    pub exposures: Vec<Exposure>,
}

/// Prices a takeoff. Nothing comes of it where a figure cannot be made; then a finding says which.
pub fn price(takeoff: &mut Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) -> Option<Estimate> {
    priced(takeoff, job, catalog, findings, |making| making.estimate())
}

/// The bid of a takeoff alone, by the same arithmetic: without unit prices, and without what rests on unknown facts.
pub fn bid(takeoff: &mut Takeoff, job: &Job, catalog: &Catalog, findings: &mut Findings) -> Option<FigureId> {
    priced(takeoff, job, catalog, findings, |making| Ok(making.build_up()?.bid))
}

fn priced<T>(
    takeoff: &mut Takeoff,
    job: &Job,
    catalog: &Catalog,
    findings: &mut Findings,
    make: impl FnOnce(&mut PriceBuilder) -> Result<T, FigureFault>,
) -> Option<T> {
    let priced = unpriced::all_priced(takeoff, job, catalog, findings);
    let terms = catalog.terms.get(&job.head.terms).filter(|_| priced)?;
    match make(&mut PriceBuilder { takeoff, job, catalog, terms }) {
        Ok(made) => Some(made),
        Err(fault) => {
            findings.push(codes::no_price(&fault, &job.head.place));
            None
        }
    }
}

impl PriceBuilder<'_, '_> {
    fn estimate(&mut self) -> Result<Estimate, FigureFault> {
        let built = self.build_up()?;
        let unit_prices = self.unit_prices(&built.rates)?;
        let exposures = self.exposures(&built.items, &built.rates)?;
        Ok(Estimate { unit_prices, exposures, ..built })
    }

    /// Everything from items to the bid; unit prices and exposures are left empty.
    fn build_up(&mut self) -> Result<Estimate, FigureFault> {
        let items = self.items()?;
        let freight = self.freight(&items)?;
        let taxes = self.taxes(&items, &freight)?;
        let rates = self.rates()?;
        let labor = self.labor(&rates)?;
        let parts = self.parts_of_job(&items, &freight, &taxes, &labor);
        let totals = self.totals(&parts, "")?;
        let marks = self.marks(&totals, "")?;
        let allowances = self.allowances()?;
        let adjustments = self.adjustments()?;
        let mut lines = vec![totals.direct];
        lines.extend([&marks, &allowances, &adjustments].into_iter().flatten().map(|named| named.amount));
        let before_bond = self.sum_money(&lines, "price before bond")?;
        let bond = self.bond(before_bond)?;
        let all: Vec<FigureId> = lines.into_iter().chain(bond.as_ref().map(|bond| bond.amount)).collect();
        let bid = self.sum_money(&all, "base bid")?;
        Ok(Estimate {
            items,
            freight,
            taxes,
            rates,
            labor,
            totals,
            marks,
            allowances,
            adjustments,
            bond,
            bid,
            unit_prices: Vec::new(),
            exposures: Vec::new(),
        })
    }
}
