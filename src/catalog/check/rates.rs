//! What costs: trades, factors, suppliers, jurisdictions, terms.
//!
//! In: their records. Out: checked, by id. May not know: quantities.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::rate_entries::*;
use crate::findings::{Finding, Subject};
use crate::money::Money;

impl Check<'_, '_, '_> {
    pub(super) fn trades(&mut self) -> BTreeMap<String, Trade> {
        let all = self.all;
        all.trade.members().filter_map(|(id, entry)| Some((id.to_owned(), self.trade(id, entry)?))).collect()
    }

    fn trade(&mut self, id: &str, entry: &TradeEntry) -> Option<Trade> {
        let burden = entry.burden.list().iter().filter_map(|part| self.burden(id, part)).collect();
        entry.checked(id.to_owned(), burden)
    }

    fn burden(&mut self, trade: &str, entry: &BurdenEntry) -> Option<Burden> {
        let place = entry.written_at.clone()?;
        let amount = match (entry.rate.get(), entry.amount.get()) {
            (Some(rate), None) => BurdenAmount::Rate(*rate),
            (None, Some(amount)) => BurdenAmount::Hourly(*amount),
            _ if entry.rate.is_bad() || entry.amount.is_bad() => return None,
            (both, _) => {
                let asked = if both.is_some() { "both" } else { "neither" };
                let finding = Finding::new(&codes::BURDEN_AMOUNT, Subject::Entry("trade", trade.to_owned()))
                    .at(place)
                    .found(words(&entry.name)?)
                    .asked(asked)
                    .advise("write rate = \"… %\" or amount = \"…\"");
                self.reader.push(finding);
                return None;
            }
        };
        entry.checked(amount)
    }

    pub(super) fn factors(&mut self) -> BTreeMap<String, Factor> {
        let all = self.all;
        all.factor.members().filter_map(|(id, entry)| Some((id.to_owned(), self.factor(id, entry)?))).collect()
    }

    fn factor(&mut self, id: &str, entry: &FactorEntry) -> Option<Factor> {
        let subject = Subject::Entry("factor", id.to_owned());
        let sheet = self.widest();
        let when = self.condition(&entry.when, &sheet, &subject);
        let place = entry.written_at.clone()?;
        let overtime = entry.overtime.or(false);
        if entry.factor.is_absent() && !overtime {
            let finding = Finding::new(&codes::FACTOR_IDLE, subject)
                .at(place)
                .found(id)
                .asked("`factor` or `overtime = true`")
                .advise("write factor = \"1.15\", or overtime = true");
            self.reader.push(finding);
        }
        if let Some(given) = entry.factor.given()
            && given.value.get().is_zero()
        {
            let finding = Finding::new(&codes::FACTOR_ZERO, Subject::Entry("factor", id.to_owned()))
                .at(given.place.clone())
                .found(id)
                .asked("more than zero")
                .advise("write the factor that hours are multiplied by, such as \"1.15\"");
            self.reader.push(finding);
        }
        entry.checked(id.to_owned(), when.ok()??)
    }

    pub(super) fn suppliers(&mut self) -> BTreeMap<String, Supplier> {
        let each = self.all.supplier.members().filter_map(|(id, entry)| {
            let place = entry.freight.place().or(entry.written_at.as_ref())?.clone();
            Some((id.to_owned(), entry.checked(id.to_owned(), place)?))
        });
        each.collect()
    }

    pub(super) fn jurisdictions(&mut self) -> BTreeMap<String, Jurisdiction> {
        let each = self.all.jurisdiction.members();
        each.filter_map(|(id, entry)| Some((id.to_owned(), entry.checked(id.to_owned())?))).collect()
    }

    pub(super) fn terms(&mut self) -> BTreeMap<String, Terms> {
        let all = self.all;
        let each = all.terms.members().filter_map(|(id, entry)| {
            let bond = self.tiers(id, entry.bond.list());
            Some((id.to_owned(), entry.checked(id.to_owned(), bond)?))
        });
        each.collect()
    }

    fn tiers(&mut self, id: &str, entries: &[TierEntry]) -> Vec<Tier> {
        let tiers: Vec<Tier> = entries.iter().filter_map(TierEntry::checked).collect();
        let mut below = Money::dollars(Decimal::ZERO);
        for (at, tier) in tiers.iter().enumerate() {
            let last = at + 1 == tiers.len();
            let fault = match tier.to {
                Some(to) if to <= below => Some(format!("{} is not above {}", to.plain(), below.plain())),
                None if !last => Some("a tier without an end is not the last".to_owned()),
                Some(_) if last => Some("the last tier has an end, above which no premium is known".to_owned()),
                _ => None,
            };
            if let Some(fault) = fault {
                let finding = Finding::new(&codes::BOND_TIERS, Subject::Entry("terms", id.to_owned()))
                    .at(tier.place.clone())
                    .found(fault)
                    .asked("tiers from lowest to highest, the last without `to`");
                self.reader.push(finding.advise("put the tiers in order"));
                return Vec::new();
            }
            below = tier.to.unwrap_or(below);
        }
        tiers
    }
}
