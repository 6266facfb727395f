//! Documents, addenda, alternates, unit prices, allowances, quotes, adjustments, and what was said of openings.
//!
//! In: their records. Out: checked, in file order. May not know: prices.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::findings::{Finding, Place, Subject};
use crate::input::{Id, Slot, Text};
use crate::job::codes;
use crate::job::model::*;
use crate::job::price_entries::{AlternateEntry, UnitPartEntry, UnitPriceEntry};
use crate::measure::{Dimension, Quantity, read_quantity};

impl Check<'_, '_, '_> {
    pub(super) fn documents(&self) -> Vec<Document> {
        let each = self.typed.entry.document.list().iter().filter_map(|it| {
            Some(Document { number: words(&it.number)?, title: words(&it.title)?, date: it.date.cloned()? })
        });
        each.collect()
    }

    pub(super) fn addenda(&mut self, marks: &[String]) -> Vec<Addendum> {
        let typed = self.typed;
        self.numbers_differ("addendum", typed.entry.addendum.list().iter().map(|it| &it.number));
        let mut addenda = Vec::new();
        for it in typed.entry.addendum.list() {
            let openings = self.marks_known(&it.openings, marks);
            let (Some(number), Some(date)) = (it.number.get(), it.date.cloned()) else { continue };
            let items = self.items_known(&it.items, &Subject::Entry("addendum", number.to_string()));
            addenda.push(Addendum { number: number.to_string(), date, changes: words(&it.changes), openings, items });
        }
        addenda
    }

    /// The ids of a list that are items of the catalog; the others are reported.
    fn items_known(&mut self, slot: &Slot<Vec<Id>>, subject: &Subject) -> Vec<String> {
        let Some(given) = slot.given() else { return Vec::new() };
        let catalog = self.catalog;
        let mut items = Vec::new();
        for item in &given.value {
            if catalog.items.contains_key(item.as_str()) {
                items.push(item.to_string());
            } else {
                let known = catalog.items.keys().map(String::as_str);
                self.unknown(&codes::UNKNOWN_ITEM, subject.clone(), item, &given.place, known);
            }
        }
        items
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

    pub(super) fn alternates(&mut self, marks: &[String], panels: &BTreeMap<String, Panel>) -> Vec<Alternate> {
        let typed = self.typed;
        self.numbers_differ("alternate", typed.entry.alternate.list().iter().map(|it| &it.number));
        typed.entry.alternate.list().iter().filter_map(|it| self.alternate(it, marks, panels)).collect()
    }

    fn alternate(
        &mut self,
        entry: &AlternateEntry,
        marks: &[String],
        panels: &BTreeMap<String, Panel>,
    ) -> Option<Alternate> {
        let omits = self.marks_known(&entry.omits, marks);
        let adds = self.marks_known(&entry.adds, marks);
        let mut changes = Vec::new();
        for change in entry.change.list() {
            let openings = self.marks_known(&change.openings, marks);
            if let Some(with) = change.with.cloned() {
                let number = entry.number.get().map(|id| id.to_string()).unwrap_or_default();
                self.references(&with, &Subject::Entry("alternate", number), panels);
                changes.push(Change { openings, with });
            }
        }
        let number = entry.number.get()?.as_str().to_owned();
        Some(Alternate { number, title: words(&entry.title)?, omits, adds, changes, place: entry.written_at.clone()? })
    }

    fn marks_known(&mut self, slot: &Slot<Vec<Text>>, marks: &[String]) -> Vec<String> {
        let Some(given) = slot.given() else { return Vec::new() };
        let mut known = Vec::new();
        for mark in &given.value {
            if marks.iter().any(|it| it == mark.as_str()) {
                known.push(mark.to_string());
            } else if self.marks_whole() {
                self.mark_unknown(mark, &given.place, marks);
            }
        }
        known
    }

    fn mark_unknown(&mut self, mark: &Text, place: &Place, marks: &[String]) {
        let subject = Subject::Opening(mark.to_string());
        self.unknown(&codes::UNKNOWN_OPENING, subject, mark, place, marks.iter().map(String::as_str));
    }

    pub(super) fn unit_prices(&mut self) -> Vec<UnitPrice> {
        let typed = self.typed;
        self.numbers_differ("unit price", typed.entry.unit_price.list().iter().map(|it| &it.number));
        typed.entry.unit_price.list().iter().filter_map(|it| self.unit_price(it)).collect()
    }

    fn unit_price(&mut self, entry: &UnitPriceEntry) -> Option<UnitPrice> {
        let number = entry.number.get()?.as_str().to_owned();
        let subject = Subject::Entry("unit price", number.clone());
        let typed: Vec<Option<UnitPart>> = entry.part.list().iter().map(|part| self.part(part, &subject)).collect();
        let parts: Option<Vec<UnitPart>> = typed.into_iter().collect();
        Some(UnitPrice {
            number,
            title: words(&entry.title)?,
            unit: words(&entry.unit)?,
            parts: parts?,
            place: entry.written_at.clone()?,
        })
    }

    fn part(&mut self, entry: &UnitPartEntry, subject: &Subject) -> Option<UnitPart> {
        let catalog = self.catalog;
        let place = entry.written_at.clone()?;
        let (of, dimension) = match (entry.item.given(), entry.task.given()) {
            (Some(item), None) => {
                let Some(known) = catalog.items.get(item.value.as_str()) else {
                    let known = catalog.items.keys().map(String::as_str);
                    self.unknown(&codes::UNKNOWN_ITEM, subject.clone(), &item.value, &item.place, known);
                    return None;
                };
                (PartOf::Item(known.id.clone()), known.unit.dimension())
            }
            (None, Some(task)) => {
                let Some(known) = catalog.tasks.get(task.value.as_str()) else {
                    let known = catalog.tasks.keys().map(String::as_str);
                    self.unknown(&codes::UNKNOWN_TASK, subject.clone(), &task.value, &task.place, known);
                    return None;
                };
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
        Some(UnitPart { of, quantity, place })
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
        let each = typed.entry.allowance.list().iter().filter_map(|it| {
            Some(Allowance {
                number: it.number.get()?.as_str().to_owned(),
                title: words(&it.title)?,
                amount: it.amount.cloned()?,
                place: it.amount.place()?.clone(),
            })
        });
        each.collect()
    }

    pub(super) fn quotes(&mut self) -> BTreeMap<String, Quote> {
        let typed = self.typed;
        let catalog = self.catalog;
        let mut quotes: BTreeMap<String, Quote> = BTreeMap::new();
        for entry in typed.entry.quote.list() {
            let Some(item) = entry.item.given() else { continue };
            let id = item.value.as_str().to_owned();
            let subject = Subject::Entry("quote", id.clone());
            if !catalog.items.contains_key(&id) {
                let known = catalog.items.keys().map(String::as_str);
                self.unknown(&codes::UNKNOWN_ITEM, subject, &item.value, &item.place, known);
                continue;
            }
            if let Some(first) = quotes.get(&id) {
                let finding = Finding::new(&codes::TWO_QUOTES, subject)
                    .at(item.place.clone())
                    .near(first.place.clone(), "quoted first here")
                    .found(id)
                    .advise("keep the quote that the bid rests on");
                self.reader.push(finding);
                continue;
            }
            let quote = || {
                Some(Quote {
                    item: item.value.as_str().to_owned(),
                    supplier: words(&entry.supplier)?,
                    price: entry.price.cloned()?,
                    date: entry.date.cloned()?,
                    valid_to: entry.valid_to.cloned()?,
                    place: entry.price.place()?.clone(),
                })
            };
            quotes.extend(quote().map(|quote| (quote.item.clone(), quote)));
        }
        quotes
    }

    pub(super) fn adjustments(&self) -> Vec<Adjustment> {
        let each = self.typed.entry.adjustment.list().iter().filter_map(|it| {
            Some(Adjustment {
                title: words(&it.title)?,
                amount: it.amount.get()?.get(),
                reason: words(&it.reason)?,
                place: it.amount.place()?.clone(),
            })
        });
        each.collect()
    }

    pub(super) fn set_aside(&mut self, marks: &[String]) -> Vec<SetAside> {
        let typed = self.typed;
        let mut aside = Vec::new();
        for entry in typed.entry.set_aside.list() {
            let Some(given) = entry.opening.given() else { continue };
            if !marks.iter().any(|mark| mark == given.value.as_str()) {
                if self.marks_whole() {
                    self.mark_unknown(&given.value, &given.place, marks);
                }
                continue;
            }
            aside.extend(words(&entry.reason).map(|reason| SetAside { mark: given.value.to_string(), reason }));
        }
        aside
    }

    pub(super) fn accepted(&self) -> Vec<Accepted> {
        let each = self.typed.entry.accept.list().iter().filter_map(|it| {
            Some(Accepted {
                code: words(&it.code)?,
                about: words(&it.about),
                reason: words(&it.reason)?,
                place: it.code.place()?.clone(),
            })
        });
        each.collect()
    }

    pub(super) fn statements(&self) -> Vec<Statement> {
        let each =
            self.typed.entry.statement.list().iter().filter_map(|it| {
                Some(Statement { kind: it.kind.cloned()?, says: words(&it.says)?, by: words(&it.by) })
            });
        each.collect()
    }
}
