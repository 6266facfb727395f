//! Sensitivity: how cost and bid move when hours or lengths come out otherwise.
//!
//! In: a priced takeoff. Out: changes of cost and bid. May not know: rules, pages.
//!
//! A walk over the ledger: hours or lengths get another value and all that rests on them is calculated again. What is decided
//! outside of arithmetic stays as it is: days on the road, counts of fittings, the tier of a bond.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use rustc_hash::FxHashSet;

use super::Estimate;
use crate::catalog::VisitKind;
use crate::findings::Place;
use crate::ledger::{FigureFault, FigureId, Ledger, Reason, Revaluation};
use crate::measure::{Dimension, Quantity, Unit};
use crate::money::Money;
use crate::takeoff::{LaborLine, Takeoff};

/// Hours of a day's work (common practice, no source).
const DAY: u32 = 8;

/// Part of their length by which runs come out longer or shorter.
const LONGER: Decimal = Decimal::from_parts(1, 0, 0, false, 1);

/// What a change makes of cost and bid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// Direct cost with it less direct cost without.
    pub cost: Money,
    /// The bid, if it were priced so, less the bid.
    pub bid: Money,
}

/// What comes out otherwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SensitiveTo {
    /// A crew-day at an opening, by mark, with so many people.
    Opening(String, u32),
    /// A crew-day at every opening at once.
    EveryOpening,
    /// A tenth of the length of every run.
    Runs,
}

/// Something that may come out otherwise, and what it makes of cost and bid.
#[derive(Clone, Debug)]
pub struct Sensitivity {
    /// What.
    pub of: SensitiveTo,
    /// With more.
    pub more: Change,
    /// With less.
    pub less: Change,
}

/// One crew-day at each opening, at every opening at once, and a tenth of the length of all runs.
pub fn sensitivities(takeoff: &Takeoff, estimate: &Estimate) -> Result<Vec<Sensitivity>, FigureFault> {
    let wanted = vec![estimate.totals.direct, estimate.bid];
    let walk = Walk { ledger: &takeoff.ledger, revaluation: Revaluation::of(&takeoff.ledger, wanted) };
    let mut sensitivities = Vec::new();
    let (mut all_more, mut all_less) = (Changes::new(), Changes::new());
    for (at, work) in takeoff.arrangement.openings.iter().enumerate() {
        let Some((line, there)) = largest_of_set(takeoff, at) else { continue };
        let day = hours_of(DAY * line.crew);
        let value = takeoff.ledger.value(line.hours).value();
        let with = |hours: Decimal| Changes::from([(line.hours, Quantity::new(value + hours, Dimension::TIME))]);
        let (more, less) = (with(day), with(-day.min(there)));
        sensitivities.push(walk.sensitivity(
            SensitiveTo::Opening(work.opening.mark.clone(), line.crew),
            &more,
            &less,
        )?);
        all_more.extend(more);
        all_less.extend(less);
    }
    if !sensitivities.is_empty() {
        sensitivities.push(walk.sensitivity(SensitiveTo::EveryOpening, &all_more, &all_less)?);
    }
    let runs = lengths_of_runs(takeoff);
    if !runs.is_empty() {
        let times = |factor: Decimal| -> Changes {
            let each = runs.iter().map(|id| (*id, takeoff.ledger.value(*id)));
            each.map(|(id, value)| (id, Quantity::new(value.value() * factor, value.dimension()))).collect()
        };
        let (more, less) = (times(Decimal::ONE + LONGER), times(Decimal::ONE - LONGER));
        sensitivities.push(walk.sensitivity(SensitiveTo::Runs, &more, &less)?);
    }
    Ok(sensitivities)
}

type Changes = BTreeMap<FigureId, Quantity>;

struct Walk<'w> {
    ledger: &'w Ledger,
    /// Of direct cost and bid.
    revaluation: Revaluation<'w>,
}

impl Walk<'_> {
    fn sensitivity(&self, of: SensitiveTo, more: &Changes, less: &Changes) -> Result<Sensitivity, FigureFault> {
        Ok(Sensitivity { of, more: self.change(more)?, less: self.change(less)? })
    }

    fn change(&self, changes: &Changes) -> Result<Change, FigureFault> {
        let then = self.revaluation.with(changes)?;
        let wanted = self.revaluation.wanted();
        let of = |at: usize| Money::dollars(then[at].value() - self.ledger.value(wanted[at]).value());
        Ok(Change { cost: of(0), bid: of(1) })
    }
}

fn hours_of(hours: u32) -> Decimal {
    Quantity::in_units(hours.into(), Unit::Hour).map(|it| it.value()).unwrap_or_default()
}

/// The line of an opening in the set visit with the largest crew, and all hours there that are paid as it is: no more can be
/// saved.
fn largest_of_set<'t>(takeoff: &'t Takeoff, opening: usize) -> Option<(&'t LaborLine, Decimal)> {
    let lines: Vec<&LaborLine> = takeoff.labor_at(opening).filter(|line| line.visit == VisitKind::Set).collect();
    let most = lines.iter().map(|line| line.crew).max()?;
    let line = lines.iter().copied().find(|line| line.crew == most)?;
    let alike = lines.iter().filter(|it| it.trade == line.trade && it.overtime == line.overtime);
    let there = alike.map(|it| takeoff.ledger.value(it.hours).value()).sum();
    Some((line, there))
}

/// The lengths that runs were given, each once.
fn lengths_of_runs(takeoff: &Takeoff) -> Vec<FigureId> {
    let ledger = &takeoff.ledger;
    let given = takeoff.arrangement.runs.iter().filter_map(|it| it.run.entry.length.given());
    let places: FxHashSet<&Place> = given.map(|given| &given.place).collect();
    let is_length = |id: &FigureId| {
        let figure = ledger.figure(*id);
        let Reason::Entry { place, .. } = figure.reason else { return false };
        figure.value.dimension() == Dimension::LENGTH && places.contains(place)
    };
    ledger.ids().filter(is_length).collect()
}
