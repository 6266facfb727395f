//! Totals by part of the cost, of a job and of a unit price alike.
//!
//! In: amounts by part of the cost. Out: their sums, up to the direct cost. May not know: whose amounts they are.

use super::price_builder::PriceBuilder;
use super::{ItemCost, LaborCost, Named, Totals, items};
use crate::catalog::CostKind;
use crate::ledger::{FigureFault, FigureId};

/// Amounts by part of the cost, before they are summed.
#[derive(Default)]
pub(super) struct Parts {
    /// Extensions of material.
    pub extensions: Vec<FigureId>,
    /// Rounding to packs.
    pub packs: Vec<FigureId>,
    /// Freight.
    pub freight: Vec<FigureId>,
    /// Taxes on material.
    pub tax: Vec<FigureId>,
    /// Labor.
    pub labor: Vec<FigureId>,
    /// Subcontracts.
    pub subcontract: Vec<FigureId>,
    /// Extensions of equipment.
    pub rentals: Vec<FigureId>,
    /// Taxes on equipment.
    pub rental_tax: Vec<FigureId>,
    /// Travel, permits and fees.
    pub travel: Vec<FigureId>,
}

impl Parts {
    /// The list that extensions of a part of the cost belong to.
    pub(super) fn of_kind(&mut self, kind: CostKind) -> &mut Vec<FigureId> {
        match kind {
            CostKind::Material => &mut self.extensions,
            CostKind::Subcontract => &mut self.subcontract,
            CostKind::Equipment => &mut self.rentals,
            CostKind::Travel => &mut self.travel,
        }
    }
}

impl PriceBuilder<'_, '_> {
    /// Sums of the parts. `whose` stands before the name of each sum; empty for the job itself.
    pub(super) fn totals(&mut self, parts: &Parts, whose: &str) -> Result<Totals, FigureFault> {
        let mut sum = |parts: &[FigureId], name: &str| self.sum_money(parts, &format!("{whose}{name}"));
        let extensions = sum(&parts.extensions, "material extensions")?;
        let packs = sum(&parts.packs, "rounding to packs")?;
        let freight = sum(&parts.freight, "freight")?;
        let tax = sum(&parts.tax, "taxes on material")?;
        let material = sum(&[extensions, packs, freight, tax], "material with freight and tax")?;
        let labor = sum(&parts.labor, "labor")?;
        let subcontract = sum(&parts.subcontract, "subcontracts")?;
        let rentals = sum(&parts.rentals, "equipment without tax")?;
        let rental_tax = sum(&parts.rental_tax, "taxes on equipment")?;
        let equipment = sum(&[rentals, rental_tax], "equipment")?;
        let travel = sum(&parts.travel, "travel, permits and fees")?;
        let direct = sum(&[material, labor, subcontract, equipment, travel], "direct cost")?;
        Ok(Totals { extensions, packs, freight, tax, material, labor, subcontract, rentals, equipment, travel, direct })
    }

    /// The parts of a whole job.
    pub(super) fn parts_of_job(
        &self,
        costs: &[ItemCost],
        freight: &[Named],
        taxes: &[Named],
        labor: &[LaborCost],
    ) -> Parts {
        let mut parts = Parts {
            freight: freight.iter().map(|named| named.amount).collect(),
            labor: labor.iter().map(|line| line.amount).collect(),
            packs: costs.iter().filter_map(|cost| Some(cost.packs.as_ref()?.cost)).collect(),
            tax: self.taxes_on(taxes, CostKind::Material),
            rental_tax: self.taxes_on(taxes, CostKind::Equipment),
            ..Parts::default()
        };
        for cost in costs {
            parts.of_kind(self.cost_kind(&cost.item)).push(cost.extension);
        }
        parts
    }

    /// Taxes on a part of the cost. They stand in the order of the terms, one each, or there is none at all.
    fn taxes_on(&self, taxes: &[Named], kind: CostKind) -> Vec<FigureId> {
        let both = self.terms.taxes.iter().zip(taxes);
        both.filter(|(tax, _)| items::taxed_part(tax.of) == kind).map(|(_, named)| named.amount).collect()
    }
}
