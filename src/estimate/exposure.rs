//! Exposure: what stands in the price on the strength of facts that nobody has seen.
//!
//! In: lines of what hangs on a fact that is not known. Out: their cost, as figures. May not know: how the lines came to be.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rust_decimal::Decimal;

use super::price_builder::PriceBuilder;
use super::{HourlyRate, ItemCost};
use crate::catalog::Substrate;
use crate::job::{HazardReport, PowerKnown, Release, RunClass};
use crate::ledger::{Called, FigureFault, FigureId, Shown};
use crate::measure::Unit;
use crate::takeoff::{EntityRef, OpeningWork};

/// A fact that is not known, and what stands in the price because of it.
#[derive(Clone, Debug)]
pub struct Exposure {
    /// What is not known.
    pub what: &'static str,
    /// The openings, by mark.
    pub openings: Vec<String>,
    /// Direct cost that rests on it, before packs, freight and tax; none where nothing is priced for it.
    pub cost: Option<FigureId>,
}

/// An unknown: its name, the openings it is unknown at, and which of an opening's entities hang on it.
struct Unknown {
    what: &'static str,
    at: fn(&OpeningWork) -> bool,
    hangs: DependsOn,
}

/// What hangs on a fact.
#[derive(Clone, Copy, PartialEq, Eq)]
enum DependsOn {
    /// Circuits and line runs that serve the opening.
    Power,
    /// The headers with their fixings.
    Headers,
    /// All that stands at the opening.
    Opening,
    /// Nothing is priced.
    Nothing,
}

/// Facts that are asked for, in the order of the recap.
const UNKNOWN: [Unknown; 6] = [
    Unknown {
        what: "Power assumed, not field-verified or drawn",
        at: |it| power(it, &[None, Some(PowerKnown::Assumed)]),
        hangs: DependsOn::Power,
    },
    Unknown {
        what: "No power at the opening today",
        at: |it| power(it, &[Some(PowerKnown::None)]),
        hangs: DependsOn::Power,
    },
    Unknown {
        what: "Power as drawn, not field-verified",
        at: |it| power(it, &[Some(PowerKnown::Drawn)]),
        hangs: DependsOn::Power,
    },
    Unknown { what: "Substrate of header not known", at: substrate_unknown, hangs: DependsOn::Headers },
    Unknown { what: "Dimensions not surveyed", at: |it| it.opening.surveys.is_empty(), hangs: DependsOn::Opening },
    Unknown { what: "Latch release not identified", at: release_unknown, hangs: DependsOn::Nothing },
];

fn power(work: &OpeningWork, known: &[Option<PowerKnown>]) -> bool {
    let typed = work.opening.entry.power.get().and_then(|it| it.known.cloned());
    !work.drives.is_empty() && known.contains(&typed)
}

fn substrate_unknown(work: &OpeningWork) -> bool {
    let fixed = work.opening.entry.frame.get().and_then(|it| it.fixed_to.cloned());
    !work.headers.is_empty() && fixed.unwrap_or(Substrate::Unknown) == Substrate::Unknown
}

fn release_unknown(work: &OpeningWork) -> bool {
    work.leaves.iter().any(|leaf| leaf.powered && leaf.release().is_none_or(|it| it == Release::Unknown))
}

impl PriceBuilder<'_, '_> {
    /// Every fact that is not known somewhere, with what the price holds for it.
    pub(super) fn exposures(&mut self, items: &[ItemCost], rates: &[HourlyRate]) -> Result<Vec<Exposure>, FigureFault> {
        let mut found = Vec::new();
        for unknown in UNKNOWN {
            let all = &self.takeoff.arrangement.openings;
            let at: BTreeSet<usize> = (0..all.len()).filter(|at| (unknown.at)(&all[*at])).collect();
            if at.is_empty() {
                continue;
            }
            let openings = at.iter().map(|at| all[*at].opening.mark.clone()).collect();
            let cost = match unknown.hangs {
                DependsOn::Nothing => None,
                hangs => Some(self.cost_of(&at, hangs, unknown.what, items, rates)?),
            };
            found.push(Exposure { what: unknown.what, openings, cost });
        }
        let unsure = |it: &&OpeningWork| it.site.entry.hazard.or(HazardReport::Unknown) == HazardReport::Unknown;
        let openings: Vec<String> =
            self.takeoff.arrangement.openings.iter().filter(unsure).map(|it| it.opening.mark.clone()).collect();
        if !openings.is_empty() {
            found.push(Exposure { what: "Hazardous material", openings, cost: None });
        }
        Ok(found)
    }

    fn cost_of(
        &mut self,
        openings: &BTreeSet<usize>,
        hangs: DependsOn,
        what: &str,
        items: &[ItemCost],
        rates: &[HourlyRate],
    ) -> Result<FigureId, FigureFault> {
        let mut quantities: BTreeMap<Arc<str>, Vec<FigureId>> = BTreeMap::new();
        for line in self.takeoff.lines.iter().filter(|line| self.hangs_on(line.of, openings, hangs)) {
            quantities.entry(line.item.clone()).or_default().push(line.quantity);
        }
        let mut hours: BTreeMap<(Arc<str>, bool), Vec<FigureId>> = BTreeMap::new();
        for line in self.takeoff.labor.iter().filter(|line| self.hangs_on(line.of, openings, hangs)) {
            hours.entry((line.trade.clone(), line.overtime)).or_default().push(line.hours);
        }
        let mut parts = Vec::new();
        for cost in items {
            if let (Some(lines), Some(item)) = (quantities.get(cost.item.as_str()), self.catalog.items.get(&cost.item))
            {
                let name = format!("{} that rests on: {what}", item.name);
                let net = self.ledger().sum(lines, Called::arithmetic(&name).shown(Shown::In(item.unit)))?;
                let units = self.in_units(net, item.unit, &name)?;
                let waste = self.rate(item.waste, &format!("waste of {}", item.name), &item.place)?;
                let one = self.step(Decimal::ONE, Unit::Each, "one", "the quantity itself, to which waste is added")?;
                let factor =
                    self.ledger().sum(&[one, waste], Called::arithmetic("one and waste").shown(Shown::EACH))?;
                parts.push(self.cents_of(&[units, factor, cost.price], &name)?);
            }
        }
        for rate in rates {
            if let Some(lines) = hours.get(&(rate.trade.as_str().into(), rate.overtime)) {
                let name = format!("hours of {} that rest on: {what}", rate.trade);
                let sum = self.ledger().sum(lines, Called::arithmetic(&name).shown(Shown::In(Unit::Hour)))?;
                parts.push(self.hours_times(sum, rate.rate, &name)?);
            }
        }
        self.sum_money(&parts, &format!("cost that rests on: {what}"))
    }

    fn hangs_on(&self, of: EntityRef, openings: &BTreeSet<usize>, hangs: DependsOn) -> bool {
        let all = &self.takeoff.arrangement;
        let here = of.opening().is_some_and(|at| openings.contains(&at));
        let feeds = |circuit: usize| all.circuits[circuit].headers.iter().any(|(at, _)| openings.contains(at));
        match (hangs, of) {
            (DependsOn::Opening, _) => here,
            (DependsOn::Headers, EntityRef::Header(..) | EntityRef::Fixing(..)) => here,
            (DependsOn::Power, EntityRef::Circuit(circuit)) => feeds(circuit),
            (DependsOn::Power, EntityRef::Run(run)) => {
                all.runs[run].run.class == RunClass::Line && all.runs[run].circuits.iter().any(|it| feeds(*it))
            }
            _ => false,
        }
    }
}
