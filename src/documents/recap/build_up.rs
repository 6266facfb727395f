//! The way from cost to bid, line by line.
//!
//! In: totals, the lines of the build-up, allowances, adjustments, bond. Out: rows with base, amount and part of the bid.
//! May not know: items, labor.

use rust_decimal::Decimal;

use super::{BuildUpRow, RecapWriter};
use crate::estimate::Named;
use crate::ledger::FigureId;
use crate::measure::rounded;

impl RecapWriter<'_> {
    pub(super) fn build_up(&self) -> Vec<BuildUpRow> {
        let totals = &self.estimate.totals;
        let row = |name: &str, how: &str, figure: FigureId| self.build_up_row(name, how, None, figure);
        let mut rows = vec![
            row("Material, extensions", "", totals.extensions),
            row("Rounding to packs", "", totals.packs),
            row("Freight", "", totals.freight),
            row("Taxes on material", "", totals.tax),
            row("Labor", "", totals.labor),
            row("Subcontracts", "", totals.subcontract),
            row("Equipment", "including taxes", totals.equipment),
            row("Travel, permits and fees", "", totals.travel),
            row("Direct cost", "sum of lines above", totals.direct),
        ];
        let added = [&self.estimate.marks, &self.estimate.allowances, &self.estimate.adjustments].into_iter().flatten();
        let named = |it: &Named| self.build_up_row(&it.name, &it.how, it.base, it.amount);
        rows.extend(added.chain(&self.estimate.bond).map(named));
        rows.push(row("Base bid", "direct cost plus lines below it", self.estimate.bid));
        rows
    }

    fn build_up_row(&self, name: &str, how: &str, base: Option<FigureId>, amount: FigureId) -> BuildUpRow {
        BuildUpRow {
            name: name.to_owned(),
            how: how.to_owned(),
            base: base.map(|base| self.money(base)).unwrap_or_default(),
            amount: self.money(amount),
            share: self.share(amount),
        }
    }

    /// A part of the bid, to a tenth of a percent.
    fn share(&self, amount: FigureId) -> String {
        let value = |figure| self.sources.takeoff.ledger.value(figure).value();
        let part = value(amount).checked_div(value(self.estimate.bid)).unwrap_or_default();
        format!("{:.1} %", rounded(part * Decimal::ONE_HUNDRED, 1))
    }
}
