//! What the bid rests on and what may move it: quotes, visits, facts not known, sensitivity.
//!
//! In: the job's quotes, the takeoff's visits, exposures and swings of the estimate. Out: finished rows.
//! May not know: how any of it was calculated.

use rust_decimal::Decimal;

use super::super::printing::or_dash;
use super::{QuoteRow, RecapWriter, SensitivityRow, UnknownRow, VisitRow, plain};
use crate::catalog::CostKind;
use crate::documents::bid::amount;
use crate::estimate::{Change, ItemCost, SensitiveTo, Sensitivity, sensitivities};
use crate::input::Date;
use crate::job::Quote;
use crate::measure::{Noun, Unit, rounded};
use crate::money::{Money, Rounding, round_cents};
use crate::takeoff::{EntityRef, Takeoff};

impl RecapWriter<'_> {
    /// The last day of the bid, where the job says how long it stays open.
    pub(super) fn open_to(&self) -> Option<Date> {
        let head = &self.sources.reviewed.job().head;
        head.due?.date().plus_days(i64::from(head.valid_days?))
    }

    pub(super) fn quotes(&self) -> Vec<QuoteRow> {
        self.sources.reviewed.job().quotes.values().map(|quote| self.quote(quote)).collect()
    }

    fn quote(&self, quote: &Quote) -> QuoteRow {
        let catalog = self.sources.catalog;
        let supplier = catalog.suppliers.values().find(|it| it.name == quote.supplier);
        let item = catalog.items.get(&quote.item);
        let own = self.sources.takeoff.lines.iter().any(|line| *line.item == *quote.item);
        let name = item.map_or(quote.item.as_str(), |item| item.name.as_str());
        let left = self.open_to().map(|day| quote.valid_to.days_to(day));
        let stands = match left {
            Some(short) if short > 0 => format!(", {short} days before the bid expires"),
            Some(_) => ", after the bid expires".to_owned(),
            None => String::new(),
        };
        QuoteRow {
            item: if own { name.to_owned() } else { format!("{name} (not in this bid)") },
            supplier: quote.supplier.clone(),
            date: quote.date.to_string(),
            valid_to: format!("{}{stands}", quote.valid_to),
            freight: or_dash(supplier.map(|it| it.freight.print()).as_deref()),
            price: quote.price.print(),
            catalog: or_dash(item.and_then(|item| item.price.get()).map(|price| price.print()).as_deref()),
        }
    }

    /// Visits with what is paid for going there, and that in all.
    pub(super) fn visits(&self) -> (Vec<VisitRow>, String) {
        let takeoff = self.sources.takeoff;
        let costs: Vec<Money> = (0..takeoff.visits.len()).map(|at| self.going(at)).collect();
        let rows = takeoff.visits.iter().zip(&costs).map(|(visit, cost)| {
            let here = takeoff.labor.iter().filter(|it| it.site == Some(visit.site) && it.visit == visit.kind);
            let hours: Decimal = here.filter_map(|line| takeoff.ledger.value(line.hours).number_of(Unit::Hour)).sum();
            VisitRow {
                site: takeoff.arrangement.sites.get(visit.site).map_or_else(String::new, |site| site.name.clone()),
                visit: visit.kind.word().to_owned(),
                people: visit.people.to_string(),
                hours: plain(hours, 2),
                cost: cost.print(),
            }
        });
        let total = costs.iter().try_fold(Money::ZERO, |sum, cost| sum.checked_plus(*cost)).unwrap_or(Money::ZERO);
        (rows.collect(), total.print())
    }

    /// What is paid, apart from hours, because of a visit.
    fn going(&self, visit: usize) -> Money {
        let takeoff = self.sources.takeoff;
        let cost = |line: &crate::takeoff::Line| {
            let item = self.sources.catalog.items.get(&*line.item).filter(|item| item.cost == CostKind::Travel)?;
            let price = self.estimate.items.iter().find(|cost: &&ItemCost| *cost.item == *line.item)?.price;
            let number = takeoff.ledger.value(line.quantity).number_of(item.unit)?;
            let exact = Money::dollars(takeoff.ledger.value(price).value()).times(number)?;
            Some(round_cents(exact, Rounding::HalfAwayFromZero))
        };
        let lines = takeoff.lines.iter().filter(|line| line.of == EntityRef::Visit(visit));
        lines.filter_map(cost).try_fold(Money::ZERO, Money::checked_plus).unwrap_or(Money::ZERO)
    }

    pub(super) fn unknowns(&self) -> Vec<UnknownRow> {
        let row = |it: &crate::estimate::Exposure| UnknownRow {
            what: it.what.to_owned(),
            openings: it.openings.join(", "),
            cost: it.cost.map_or_else(|| "nothing".to_owned(), |cost| amount(self.sources.takeoff, cost)),
        };
        self.estimate.exposures.iter().map(row).collect()
    }

    /// What moves cost and bid, and how much of it the build-up bears.
    pub(super) fn swings(&self) -> (Vec<SensitivityRow>, String) {
        let takeoff: &Takeoff = self.sources.takeoff;
        match sensitivities(takeoff, self.estimate) {
            Ok(found) => (found.iter().map(swing_row).collect(), self.break_even(&found)),
            Err(fault) => (Vec::new(), format!("Sensitivity cannot be calculated: {fault}.")),
        }
    }

    fn break_even(&self, swings: &[Sensitivity]) -> String {
        let Some(every) = swings.iter().find(|it| it.of == SensitiveTo::EveryOpening) else { return String::new() };
        let value = |mark: &crate::estimate::Named| self.sources.takeoff.ledger.value(mark.amount).value();
        let added: Decimal = self.estimate.marks.iter().map(value).sum();
        let days = added.checked_div(every.more.cost.to_dollars()).unwrap_or_default();
        format!(
            "Markup over direct cost is {}; break-even at {} additional crew-days per opening.",
            Money::dollars(added).print(),
            rounded(days, 1).normalize()
        )
    }
}

fn swing_row(swing: &Sensitivity) -> SensitivityRow {
    let (name, how) = match &swing.of {
        SensitiveTo::Opening(mark, crew) => (mark.clone(), format!("{}, 1 day", Noun::PERSON.count(*crew))),
        SensitiveTo::EveryOpening => ("Every opening".to_owned(), "crew of each, 1 day".to_owned()),
        SensitiveTo::Runs => ("Length of conduit and cable".to_owned(), "10 % of every run".to_owned()),
    };
    let Change { cost: more_cost, bid: more_bid } = swing.more;
    let Change { cost: less_cost, bid: less_bid } = swing.less;
    SensitivityRow {
        name,
        how,
        more_cost: more_cost.print(),
        more_bid: more_bid.print(),
        less_cost: less_cost.print(),
        less_bid: less_bid.print(),
    }
}
