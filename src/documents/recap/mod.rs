//! The estimate recap: how the bid came to be. It never leaves the office.
//!
//! In: sources, the estimate, alternates with their interactions. Out: a view of finished strings.
//! May not know: pages.

mod build_up;
mod lines;
mod risks;

use serde::Serialize;

use super::bid::amount;
use super::finding_groups::{FindingGroup, group_findings};
use super::{Count, Letterhead, PricedAnswer, QuestionCost, Sources, counts, letterhead, question_costs};
use crate::estimate::{AlternatePrice, Estimate, Interaction, Named};
use crate::findings::Severity;
use crate::ledger::FigureId;
use crate::measure::{Quantity, Style, Unit};

/// A priced item.
#[derive(Clone, Debug, Serialize)]
pub struct ItemRow {
    /// What it is.
    pub name: String,
    /// Net quantity.
    pub net: String,
    /// Waste.
    pub waste: String,
    /// Quantity priced.
    pub quantity: String,
    /// Unit.
    pub unit: String,
    /// Price of one.
    pub price: String,
    /// Extension.
    pub extension: String,
    /// What the extensions up to this one come to, for the end of a page inside its table.
    pub running: String,
    /// `quote` where a quote gave the price.
    pub mark: String,
}

/// Items of one part of the cost.
#[derive(Clone, Debug, Serialize)]
pub struct ItemTable {
    /// The part.
    pub title: String,
    /// Its items.
    pub rows: Vec<ItemRow>,
    /// Their sum.
    pub total: String,
}

/// What rounding to packs adds.
#[derive(Clone, Debug, Serialize)]
pub struct PackRow {
    /// The item.
    pub name: String,
    /// Packs bought.
    pub packs: String,
    /// Beyond what is needed.
    pub extra: String,
    /// Cost.
    pub cost: String,
}

/// A name, how it is taken, and an amount.
#[derive(Clone, Debug, Serialize)]
pub struct AmountRow {
    /// Name.
    pub name: String,
    /// How it is taken.
    pub how: String,
    /// Amount.
    pub amount: String,
}

/// A line of the way from cost to bid.
#[derive(Clone, Debug, Serialize)]
pub struct BuildUpRow {
    /// Name.
    pub name: String,
    /// How it is taken.
    pub how: String,
    /// The amount it is taken of; empty where it is an amount by itself.
    pub base: String,
    /// Amount.
    pub amount: String,
    /// Its part of the bid.
    pub share: String,
}

/// A factor on hours.
#[derive(Clone, Debug, Serialize)]
pub struct FactorRow {
    /// The condition.
    pub name: String,
    /// The factor.
    pub factor: String,
    /// Source, with its date.
    pub source: String,
    /// Openings at which it holds.
    pub openings: String,
}

/// A visit to a site.
#[derive(Clone, Debug, Serialize)]
pub struct VisitRow {
    /// The site.
    pub site: String,
    /// Which visit.
    pub visit: String,
    /// People in its largest crew.
    pub people: String,
    /// Labor hours.
    pub hours: String,
    /// What is paid for going there.
    pub cost: String,
}

/// What was warned of, and of what.
#[derive(Clone, Debug, Serialize)]
pub struct WarnedRow {
    /// The openings; else what it is about.
    pub place: String,
    /// The sentence.
    pub says: String,
    /// Why it is all right; empty where nobody accepted it.
    pub accepted: String,
}

/// A quote.
#[derive(Clone, Debug, Serialize)]
pub struct QuoteRow {
    /// The item.
    pub item: String,
    /// Who quoted.
    pub supplier: String,
    /// Day it was given.
    pub date: String,
    /// Last day it holds, and how that stands to the last day of the bid.
    pub valid_to: String,
    /// Freight, of the supplier of that name in the catalog.
    pub freight: String,
    /// Price quoted.
    pub price: String,
    /// Price of the catalog.
    pub catalog: String,
}

/// A fact that is not known.
#[derive(Clone, Debug, Serialize)]
pub struct UnknownRow {
    /// What.
    pub what: String,
    /// Openings.
    pub openings: String,
    /// What the price holds for it.
    pub cost: String,
}

/// What moves cost and bid.
#[derive(Clone, Debug, Serialize)]
pub struct SensitivityRow {
    /// What.
    pub name: String,
    /// By how much.
    pub how: String,
    /// Change of the cost with more.
    pub more_cost: String,
    /// Change of the bid with more.
    pub more_bid: String,
    /// Change of the cost with less.
    pub less_cost: String,
    /// Change of the bid with less.
    pub less_bid: String,
}

/// The rate of an hour.
#[derive(Clone, Debug, Serialize)]
pub struct RateRow {
    /// Trade, and whether overtime.
    pub trade: String,
    /// Its parts in one line.
    pub parts: String,
    /// The rate.
    pub rate: String,
}

/// Labor of a trade in a visit.
#[derive(Clone, Debug, Serialize)]
pub struct LaborRow {
    /// Visit.
    pub visit: String,
    /// Trade.
    pub trade: String,
    /// Hours.
    pub hours: String,
    /// Rate.
    pub rate: String,
    /// Amount.
    pub amount: String,
}

/// Hours of a task over the job.
#[derive(Clone, Debug, Serialize)]
pub struct TaskRow {
    /// Visit.
    pub visit: String,
    /// The task.
    pub task: String,
    /// Lines it stands in.
    pub lines: String,
    /// Hours for one.
    pub each: String,
    /// Hours in all.
    pub hours: String,
    /// Source of hours.
    pub source: String,
}

/// The view of the recap.
#[derive(Clone, Debug, Serialize)]
pub struct RecapView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// The base bid.
    pub base_bid: String,
    /// From cost to bid, line by line; the last is the bid.
    pub build_up: Vec<BuildUpRow>,
    /// Items by part of the cost.
    pub items: Vec<ItemTable>,
    /// Rounding to packs.
    pub packs: Vec<PackRow>,
    /// Its sum.
    pub packs_total: String,
    /// Freight and taxes.
    pub additions: Vec<AmountRow>,
    /// Rates.
    pub rates: Vec<RateRow>,
    /// Labor.
    pub labor: Vec<LaborRow>,
    /// Hours of all labor.
    pub hours_total: String,
    /// Labor in all.
    pub labor_total: String,
    /// Hours by task.
    pub tasks: Vec<TaskRow>,
    /// Factors on hours.
    pub factors: Vec<FactorRow>,
    /// Visits.
    pub visits: Vec<VisitRow>,
    /// What is paid for going there, in all.
    pub visits_total: String,
    /// Alternates: number, title, bid with it, change.
    pub alternates: Vec<[String; 4]>,
    /// Alternates that come to something else together.
    pub interactions: Vec<AmountRow>,
    /// Unit prices.
    pub unit_prices: Vec<AmountRow>,
    /// Quotes.
    pub quotes: Vec<QuoteRow>,
    /// Last day of the bid.
    pub open_to: String,
    /// Open questions: what their answers change of the bid, and where they are typed.
    pub questions: Vec<QuestionCost>,
    /// Facts that are not known, and what the price holds for them.
    pub unknowns: Vec<UnknownRow>,
    /// What moves cost and bid.
    pub swings: Vec<SensitivityRow>,
    /// How many crew-days at every opening use up what the build-up adds to the cost; or why that cannot be told.
    pub break_even: String,
    /// What was warned of.
    pub warnings: Vec<WarnedRow>,
}

/// The view of the recap.
pub fn recap(
    sources: &Sources,
    estimate: &Estimate,
    alternates: &[AlternatePrice],
    interactions: &[Interaction],
    answers: &[PricedAnswer],
) -> RecapView {
    let writer = RecapWriter { sources, estimate };
    let (swings, break_even) = writer.swings();
    let (visits, visits_total) = writer.visits();
    let money = |figure: FigureId| amount(sources.takeoff, figure);
    RecapView {
        head: letterhead(sources, "Estimate recap"),
        counts: counts(sources, None),
        base_bid: money(estimate.bid),
        build_up: writer.build_up(),
        items: writer.item_tables(),
        packs: writer.packs(),
        packs_total: money(estimate.totals.packs),
        additions: writer.named(estimate.freight.iter().chain(&estimate.taxes)),
        rates: writer.rates(),
        labor: estimate.labor.iter().map(|line| writer.labor(line)).collect(),
        hours_total: writer.hours_total(),
        labor_total: money(estimate.totals.labor),
        tasks: writer.tasks(),
        factors: writer.factors(),
        visits,
        visits_total,
        alternates: alternates
            .iter()
            .map(|it| [it.number.clone(), it.title.clone(), money(it.with), money(it.change)])
            .collect(),
        interactions: interactions
            .iter()
            .map(|it| AmountRow {
                name: format!("Alternates {} and {} together", it.numbers.0, it.numbers.1),
                how: "differ from the sum of both by".to_owned(),
                amount: money(it.difference),
            })
            .collect(),
        unit_prices: estimate
            .unit_prices
            .iter()
            .map(|it| AmountRow {
                name: format!("{} {}", it.number, it.title),
                how: it.unit.clone(),
                amount: money(it.price),
            })
            .collect(),
        quotes: writer.quotes(),
        open_to: writer.open_to().map_or_else(|| "no date given".to_owned(), |day| day.to_string()),
        questions: question_costs(sources, estimate, answers),
        unknowns: writer.unknowns(),
        swings,
        break_even,
        warnings: writer.warnings(),
    }
}

struct RecapWriter<'a> {
    sources: &'a Sources<'a>,
    estimate: &'a Estimate,
}

impl RecapWriter<'_> {
    fn money(&self, figure: FigureId) -> String {
        amount(self.sources.takeoff, figure)
    }

    /// A quantity as a number of a unit, without the unit's word.
    fn number(&self, figure: FigureId, unit: Unit) -> String {
        let value = self.sources.takeoff.ledger.value(figure).number_of(unit).unwrap_or_default();
        let places = if unit == Unit::Each && value.fract().is_zero() { 0 } else { 2 };
        plain(value, places)
    }

    fn named<'n>(&self, named: impl IntoIterator<Item = &'n Named>) -> Vec<AmountRow> {
        let row = |it: &Named| AmountRow { name: it.name.clone(), how: it.how.clone(), amount: self.money(it.amount) };
        named.into_iter().map(row).collect()
    }

    fn warnings(&self) -> Vec<WarnedRow> {
        let open = self.sources.findings.iter().filter(|finding| finding.code.severity == Severity::Warning);
        let accepted = self.sources.accepted.iter().map(|it| (&it.finding, Some(it.reason.as_str())));
        let row = |it: FindingGroup| WarnedRow {
            place: it.subjects(),
            says: it.says,
            accepted: it.reason.unwrap_or_default().to_owned(),
        };
        group_findings(self.sources, open.map(|finding| (finding, None)).chain(accepted)).into_iter().map(row).collect()
    }
}

/// A number without a unit, to so many places.
fn plain(value: rust_decimal::Decimal, places: u32) -> String {
    let printed = Quantity::count(value).print(Unit::Each, places, Style::Page).unwrap_or_default();
    printed.split(['\u{a0}', ' ']).next().unwrap_or_default().to_owned()
}
