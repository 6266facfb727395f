//! Visits: found from labor lines, and filled up to the least hours of their trades.
//!
//! In: labor lines. Out: visits with their facts; hours that fill them up. May not know: rules.

use std::collections::BTreeMap;
use std::sync::Arc;

use rust_decimal::Decimal;
use rustc_hash::FxHashMap;

use super::entity::{EntityRef, Visit};
use super::facts::VisitLoad;
use super::lines::{LaborLine, LineBuilder};
use crate::catalog::VisitKind;
use crate::ledger::{Called, FigureFault, FigureId, Reason, Shown};
use crate::measure::{Dimension, Measure, Quantity, Unit};

impl LineBuilder<'_, '_> {
    /// Visits: every site and visit that has labor, in the order of sites and visits.
    pub(super) fn find_visits(&mut self) {
        let mut loads: BTreeMap<(usize, VisitKind), (Decimal, u32)> = BTreeMap::new();
        for line in &self.labor {
            if let Some(site) = line.site {
                let load = loads.entry((site, line.visit)).or_default();
                load.0 = load.0.saturating_add(self.ledger.value(line.hours).value());
                load.1 = load.1.max(line.crew);
            }
        }
        // No rule is being applied, so nothing else holds the fact sets.
        let Some(library) = Arc::get_mut(&mut self.library) else { return };
        for ((site, kind), (hours, people)) in loads {
            let load = VisitLoad { kind, hours: Quantity::new(hours, Dimension::TIME), people };
            library.add_visit(&load, site, &self.all.sites[site].name);
            self.visits.push(Visit { site, kind, people });
        }
    }

    /// Fills each visit of a trade up to the trade's least hours for its largest crew. The shop is no visit.
    pub(super) fn least_hours(&mut self) {
        let mut all: FxHashMap<(usize, VisitKind), BTreeMap<Arc<str>, Vec<usize>>> = FxHashMap::default();
        for (at, line) in self.labor.iter().enumerate() {
            let Some(site) = line.site else { continue };
            let here = all.entry((site, line.visit)).or_default();
            match here.get_mut(&line.trade) {
                Some(lines) => lines.push(at),
                None => drop(here.insert(line.trade.clone(), vec![at])),
            }
        }
        for at in 0..self.visits.len() {
            let visit = self.visits[at].clone();
            if visit.kind == VisitKind::Shop {
                continue;
            }
            for (trade, lines) in all.remove(&(visit.site, visit.kind)).unwrap_or_default() {
                let lines: Vec<&LaborLine> = lines.into_iter().map(|at| &self.labor[at]).collect();
                let people = lines.iter().map(|line| line.crew).max().unwrap_or(1);
                let overtime = lines.iter().all(|line| line.overtime);
                let hours: Vec<FigureId> = lines.iter().map(|line| line.hours).collect();
                if let Ok(Some(missing)) = self.shortfall(at, &trade, people, &hours) {
                    self.labor.push(LaborLine {
                        rule: None,
                        of: EntityRef::Visit(at),
                        task: None,
                        trade,
                        visit: visit.kind,
                        site: Some(visit.site),
                        crew: people,
                        hours: missing,
                        overtime,
                    });
                }
            }
        }
    }

    fn shortfall(
        &mut self,
        visit: usize,
        trade: &str,
        people: u32,
        hours: &[FigureId],
    ) -> Result<Option<FigureId>, FigureFault> {
        let Some(trade) = self.catalog.trades.get(trade) else { return Ok(None) };
        let Some(least) = trade.least_hours else { return Ok(None) };
        let place = Reason::Entry { place: trade.place.clone(), standing: String::new() };
        let reason = self.ledger.reason(place);
        let shown = Shown::In(Unit::Hour);
        let there = self.ledger.sum(hours, Called::arithmetic("hours of the visit").shown(shown))?;
        let name = format!("minimum hours of a visit, {}", trade.name);
        let least = self.ledger.given(least.quantity(), Called::new(&name, reason).shown(shown))?;
        let people =
            self.ledger.counted(people as usize, "people in its largest crew", Called::arithmetic("people"))?;
        let wanted = self.ledger.product(&[least, people], Called::arithmetic(&name).shown(shown))?;
        let name = format!("hours that fill up {}, {}", self.name(EntityRef::Visit(visit)), trade.name);
        let missing = self.ledger.difference(wanted, there, Called::arithmetic(&name).shown(shown))?;
        let rule = self.ledger.reason(Reason::Clause("hours that fill up a visit are never below none".into()));
        let none = Quantity::new(Decimal::ZERO, Dimension::TIME);
        let none = self.ledger.given(none, Called::new("no hours", rule).shown(shown))?;
        let missing = self.ledger.largest(&[missing, none], Called::arithmetic(&name).shown(shown))?;
        Ok((self.ledger.value(missing).value() > Decimal::ZERO).then_some(missing))
    }
}
