//! Addenda, alternates, unit prices, allowances, quotes.
//!
//! In: their records. Out: checked, in file order. May not know: prices.

use std::collections::BTreeMap;

use super::{Check, each};
use crate::findings::{Finding, Place, Subject};
use crate::input::{Id, Slot, Text};
use crate::job::codes;
use crate::job::file_entries::Addendum;
use crate::job::price_entries::*;
use crate::measure::{Dimension, Quantity, read_quantity};

impl Check<'_, '_, '_> {
    pub(super) fn addenda(&mut self) -> Vec<Addendum> {
        let typed = self.typed;
        self.numbers_differ("addendum", typed.entry.addendum.list().iter().map(|it| &it.number));
        each(&typed.entry.addendum)
    }

    /// Reports a number that an entry of the kind has already.
    pub(super) fn numbers_differ<'n>(&mut self, what: &'static str, numbers: impl Iterator<Item = &'n Slot<Id>>) {
        let mut seen: BTreeMap<&str, &Place> = BTreeMap::new();
        for given in numbers.filter_map(Slot::given) {
            if let Some(first) = seen.insert(given.value.as_str(), &given.place) {
                let finding = Finding::new(&codes::DUPLICATE_NUMBER, Subject::Entry(what, given.value.to_string()))
                    .at(given.place.clone())
                    .near(first.clone(), "first numbered here")
                    .found(given.value.as_str())
                    .asked(format!("a number of its own for each {what}"));
                self.reader.push(finding.advise("give one of the two another number"));
            }
        }
    }

    pub(super) fn alternates(&mut self) -> Vec<Alternate> {
        let typed = self.typed;
        self.numbers_differ("alternate", typed.entry.alternate.list().iter().map(|it| &it.number));
        let alternate = |entry: &AlternateEntry| {
            let changes = entry.change.list().iter().filter_map(|it| it.checked(it.with.cloned()?));
            entry.checked(changes.collect())
        };
        typed.entry.alternate.list().iter().filter_map(alternate).collect()
    }

    pub(super) fn unit_prices(&mut self) -> Vec<UnitPrice> {
        let typed = self.typed;
        self.numbers_differ("unit price", typed.entry.unit_price.list().iter().map(|it| &it.number));
        typed.entry.unit_price.list().iter().filter_map(|it| self.unit_price(it)).collect()
    }

    fn unit_price(&mut self, entry: &UnitPriceEntry) -> Option<UnitPrice> {
        let subject = Subject::Entry("unit price", entry.number.value()?);
        let typed: Vec<Option<UnitPart>> = entry.part.list().iter().map(|part| self.part(part, &subject)).collect();
        let parts: Option<Vec<UnitPart>> = typed.into_iter().collect();
        entry.checked(parts?)
    }

    fn part(&mut self, entry: &UnitPartEntry, subject: &Subject) -> Option<UnitPart> {
        let catalog = self.catalog;
        let place = entry.written_at.clone()?;
        let (of, dimension) = match (entry.item.given(), entry.task.given()) {
            (Some(item), None) => {
                let known = catalog.items.get(item.value.as_str())?;
                (PartOf::Item(known.id.clone()), known.unit.dimension())
            }
            (None, Some(task)) => {
                let known = catalog.tasks.get(task.value.as_str())?;
                (PartOf::Task(known.id.clone()), known.unit.dimension())
            }
            (both, _) => {
                if !entry.item.is_bad() && !entry.task.is_bad() {
                    let found = if both.is_some() { "both" } else { "neither" };
                    let finding = Finding::new(&codes::PART_TARGET, subject.clone()).at(place).found(found);
                    self.reader.push(finding.asked("`item` or `task`").advise("name one item or one task"));
                }
                return None;
            }
        };
        let quantity = self.part_quantity(&entry.quantity, dimension, subject)?;
        entry.checked(of, quantity)
    }

    fn part_quantity(&mut self, slot: &Slot<Text>, dimension: Dimension, subject: &Subject) -> Option<Quantity> {
        let given = slot.given()?;
        match read_quantity(&given.value, self.reader.system()) {
            Ok((quantity, _)) if quantity.dimension() == dimension => Some(quantity),
            _ => {
                let asked = crate::ledger::kind_of(dimension);
                let finding = Finding::new(&codes::PART_MISFIT, subject.clone())
                    .at(given.place.clone())
                    .found(given.value.as_str())
                    .asked(asked);
                self.reader.push(finding.advise("write a number with the unit of the item or task"));
                None
            }
        }
    }

    pub(super) fn allowances(&mut self) -> Vec<Allowance> {
        let typed = self.typed;
        self.numbers_differ("allowance", typed.entry.allowance.list().iter().map(|it| &it.number));
        each(&typed.entry.allowance)
    }

    pub(super) fn quotes(&mut self) -> BTreeMap<String, Quote> {
        let typed = self.typed;
        let mut quotes: BTreeMap<String, Quote> = BTreeMap::new();
        for entry in typed.entry.quote.list() {
            let Some(item) = entry.item.given() else { continue };
            let id = item.value.as_str().to_owned();
            let subject = Subject::Entry("quote", id.clone());
            if let Some(first) = quotes.get(&id) {
                let finding = Finding::new(&codes::TWO_QUOTES, subject)
                    .at(item.place.clone())
                    .near(first.place.clone(), "quoted first here")
                    .found(id.as_str())
                    .advise("keep the quote that the bid rests on");
                self.reader.push(finding);
                continue;
            }
            let places = (entry.date.place().cloned(), entry.valid_to.place().cloned());
            quotes.extend(entry.checked(places.0, places.1).map(|quote| (id, quote)));
        }
        quotes
    }
}
