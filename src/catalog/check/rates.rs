//! What costs: trades, factors, suppliers, jurisdictions, terms.
//!
//! In: their records. Out: checked, by id. May not know: quantities.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::model::{Burden, BurdenAmount, Factor, Jurisdiction, Mark, Supplier, Tax, Terms, Tier, Trade};
use crate::catalog::{BurdenEntry, FactorEntry, TermsEntry, TierEntry, TradeEntry, VisitKind};
use crate::findings::{Finding, Subject};
use crate::money::{Money, Percent};

impl Check<'_, '_, '_> {
    pub(super) fn trades(&mut self) -> BTreeMap<String, Trade> {
        let all = self.all;
        all.trade.members().filter_map(|(id, entry)| Some((id.to_owned(), self.trade(id, entry)?))).collect()
    }

    fn trade(&mut self, id: &str, entry: &TradeEntry) -> Option<Trade> {
        let burden = entry.burden.list().iter().filter_map(|part| self.burden(id, part)).collect();
        Some(Trade {
            id: id.to_owned(),
            name: words(&entry.name)?,
            wage: entry.wage.clone(),
            burden,
            overtime: entry.overtime.or(Percent::new(50)),
            overtime_wage: entry.overtime_wage.clone(),
            least_hours: entry.least_hours.cloned(),
            order: entry.order.get().map_or(u32::MAX, |it| it.get()),
            licence: words(&entry.licence),
            place: entry.written_at.clone()?,
        })
    }

    fn burden(&mut self, trade: &str, entry: &BurdenEntry) -> Option<Burden> {
        let place = entry.written_at.clone()?;
        let name = words(&entry.name)?;
        let amount = match (entry.rate.get(), entry.amount.get()) {
            (Some(rate), None) => BurdenAmount::Rate(*rate),
            (None, Some(amount)) => BurdenAmount::Hourly(*amount),
            _ if entry.rate.is_bad() || entry.amount.is_bad() => return None,
            (both, _) => {
                let asked = if both.is_some() { "both" } else { "neither" };
                let finding = Finding::new(&codes::BURDEN_AMOUNT, Subject::Entry("trade", trade.to_owned()))
                    .at(place)
                    .found(name)
                    .asked(asked)
                    .advise("write rate = \"… %\" or amount = \"…\"");
                self.reader.push(finding);
                return None;
            }
        };
        Some(Burden { name, amount, place })
    }

    pub(super) fn factors(&mut self) -> BTreeMap<String, Factor> {
        let all = self.all;
        all.factor.members().filter_map(|(id, entry)| Some((id.to_owned(), self.factor(id, entry)?))).collect()
    }

    fn factor(&mut self, id: &str, entry: &FactorEntry) -> Option<Factor> {
        let subject = Subject::Entry("factor", id.to_owned());
        let sheet = self.widest();
        let when = self.condition(&entry.when, &sheet, &subject);
        let mut trades = Vec::new();
        for trade in entry.trades.list() {
            trades.extend(self.trade_known(trade.as_str(), entry, &subject));
        }
        let place = entry.written_at.clone()?;
        let overtime = entry.overtime.or(false);
        if entry.factor.is_absent() && !overtime {
            let finding = Finding::new(&codes::FACTOR_IDLE, subject)
                .at(place.clone())
                .found(id)
                .asked("`factor` or `overtime = true`")
                .advise("write factor = \"1.15\", or overtime = true");
            self.reader.push(finding);
        }
        Some(Factor {
            id: id.to_owned(),
            name: words(&entry.name)?,
            when: when.ok()??,
            factor: entry.factor.get().map(|it| it.get()),
            overtime,
            trades,
            visits: entry.visits.list().to_vec(),
            source: words(&entry.source)?,
            place,
        })
    }

    fn trade_known(&mut self, trade: &str, entry: &FactorEntry, subject: &Subject) -> Option<String> {
        if self.all.trade.get().is_some_and(|named| named.get(trade).is_some()) {
            return Some(trade.to_owned());
        }
        let place = entry.trades.place()?.clone();
        let known: Vec<&str> = self.all.trade.members().map(|(name, _)| name).collect();
        let finding =
            Finding::new(&codes::UNKNOWN_TRADE, subject.clone()).at(place).found(trade).asked(known.join(", "));
        self.reader.push(finding.advise("name a trade that the catalog has"));
        None
    }

    pub(super) fn suppliers(&mut self) -> BTreeMap<String, Supplier> {
        let each = self.all.supplier.members().filter_map(|(id, entry)| {
            Some(Supplier {
                id: id.to_owned(),
                name: words(&entry.name)?,
                phone: words(&entry.phone),
                freight: entry.freight.or(Percent::new(0)),
                weeks: entry.weeks.get().map(|it| it.get()),
                before: entry.before.or(VisitKind::Set),
                submitted: entry.submitted.or(true),
                place: entry.freight.place().or(entry.written_at.as_ref())?.clone(),
            })
        });
        each.map(|it| (it.id.clone(), it)).collect()
    }

    pub(super) fn jurisdictions(&mut self) -> BTreeMap<String, Jurisdiction> {
        let each = self.all.jurisdiction.members().filter_map(|(id, entry)| {
            Some(Jurisdiction {
                id: id.to_owned(),
                name: words(&entry.name)?,
                plate_heights: entry.plate_heights.list().to_vec(),
                standby_power: entry.standby_power.or(false),
                clause: words(&entry.clause)?,
                place: entry.written_at.clone()?,
            })
        });
        each.map(|it| (it.id.clone(), it)).collect()
    }

    pub(super) fn terms(&mut self) -> BTreeMap<String, Terms> {
        let all = self.all;
        all.terms.members().filter_map(|(id, entry)| Some((id.to_owned(), self.term(id, entry)?))).collect()
    }

    fn term(&mut self, id: &str, entry: &TermsEntry) -> Option<Terms> {
        let marks = entry.mark.list().iter().filter_map(|mark| {
            Some(Mark {
                name: words(&mark.name)?,
                of: mark.of.cloned()?,
                rate: mark.rate.cloned()?,
                kind: mark.kind.cloned()?,
                place: mark.rate.place()?.clone(),
            })
        });
        let taxes = entry.tax.list().iter().filter_map(|tax| {
            Some(Tax {
                name: words(&tax.name)?,
                of: tax.of.cloned()?,
                rate: tax.rate.cloned()?,
                place: tax.rate.place()?.clone(),
            })
        });
        let bond = self.tiers(id, entry.bond.list());
        Some(Terms {
            id: id.to_owned(),
            marks: marks.collect(),
            taxes: taxes.collect(),
            bond,
            old_after_days: entry.old_after_days.get()?.get(),
            place: entry.written_at.clone()?,
        })
    }

    fn tiers(&mut self, id: &str, entries: &[TierEntry]) -> Vec<Tier> {
        let tiers: Vec<Tier> = entries
            .iter()
            .filter_map(|tier| {
                let place = tier.rate.place()?.clone();
                Some(Tier { to: tier.to.cloned(), rate: tier.rate.cloned()?, place })
            })
            .collect();
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
