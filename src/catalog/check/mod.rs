//! Typed catalog to checked catalog: every reference followed, every rule parsed.
//!
//! In: records of all catalog files, sheets of facts. Out: the checked catalog; what is bad is left out and reported. What takes one
//! field is checked by the records' own declarations (`=>` in `record!`), so what is here takes several.
//! May not know: any job.

mod editions;
mod items;
mod operators;
mod papers;
mod profiles;
mod proofs;
mod rates;
mod rules;
mod sheets;
mod tasks;
mod terminals;

use std::cell::OnceCell;
use std::sync::Arc;

use super::codes;
use super::file_entries::CatalogFileEntry;
use super::model::{Catalog, ThemeValue};
use super::theme_entries::ThemeEntry;
use super::words::Entity;
use crate::findings::{FileId, Finding, Place, Subject};
use crate::input::{Formula, Id, Named, Names, Reader, Record, References, Slot, Spelling, Text, record, unread};
use crate::measure::Dimension;
use crate::rules::{self as language, Fault, Sheet};

use super::conditions::{Amount, When};

/// Which facts each entity has; the takeoff knows.
pub type Sheets<'s> = &'s dyn Fn(Entity) -> Arc<Sheet>;

/// Reads and checks every `.toml` file that stands directly in a folder of the snapshot.
pub fn read(reader: &mut Reader, folder: &str, named_at: Option<&Place>, sheets: Sheets) -> Catalog {
    let files: Vec<FileId> = reader.files().ids().filter(|file| is_in(reader.files().path(*file), folder)).collect();
    let at = |finding: Finding| named_at.cloned().into_iter().fold(finding, Finding::at);
    let mut all_unread: Vec<&str> = reader.files().all_unread().map(|(path, _)| path).collect();
    all_unread.retain(|path| *path == folder || is_in(path, folder));
    for path in &all_unread {
        let inside = if *path == folder { "the folder that holds the job's" } else { "the catalog's folder" };
        let found = unread(reader.files(), path, inside, Subject::Job).map(at);
        found.into_iter().for_each(|it| reader.push(it));
    }
    let is_missing = files.is_empty();
    if is_missing && all_unread.is_empty() {
        let finding = Finding::new(&codes::NO_CATALOG, Subject::Job)
            .found(if folder.is_empty() { "." } else { folder })
            .asked("a folder with the catalog's .toml files")
            .advise("give the folder relative to the job file");
        reader.push(at(finding));
    }
    let mut all = CatalogFileEntry::default();
    for file in files {
        let one: CatalogFileEntry = reader.toml(file);
        join(&mut all, one, reader);
    }
    // Files of a catalog stand in any order, and so do rules that stand alone.
    if let Some(rules) = all.rule.given_mut() {
        rules.value.sort_by(|a, b| a.id.get().map(Id::as_str).cmp(&b.id.get().map(Id::as_str)));
    }
    let mut values = Vec::new();
    record::dump(&all, "catalog", Spelling::Exact, &mut values);
    values.sort();
    let tables = tables(&all);
    References::new(reader, tables).walk(&mut all);
    Catalog { values, is_missing, ..Check { all: &all, reader, sheets, widest: OnceCell::new() }.catalog() }
}

/// The tables whose entries others name.
fn tables(all: &CatalogFileEntry) -> [Names; 8] {
    [
        Names::of(&all.item, &codes::UNKNOWN_ITEM),
        Names::of(&all.task, &codes::UNKNOWN_TASK),
        Names::of(&all.trade, &codes::UNKNOWN_TRADE),
        Names::of(&all.supplier, &codes::UNKNOWN_SUPPLIER),
        Names::of(&all.party, &codes::UNKNOWN_PARTY),
        Names::of(&all.setting, &codes::UNKNOWN_SETTING),
        Names::of(&all.terminal, &codes::UNKNOWN_TERMINAL),
        Names::of(&all.operator, &codes::TERMINAL_OPERATOR),
    ]
}

fn is_in(path: &str, folder: &str) -> bool {
    let rest =
        if folder.is_empty() { Some(path) } else { path.strip_prefix(folder).and_then(|it| it.strip_prefix('/')) };
    rest.is_some_and(|rest| !rest.contains('/') && rest.ends_with(".toml"))
}

/// Joins what another file of the catalog says.
fn join(all: &mut CatalogFileEntry, one: CatalogFileEntry, reader: &mut Reader) {
    if let (Some(first), Some(second)) = (all.firm.given(), one.firm.given()) {
        let finding = Finding::new(&codes::TWO_FIRMS, Subject::Job)
            .at(second.place.clone())
            .near(first.place.clone(), "first described here");
        reader.push(finding.advise("keep one [firm]"));
    }
    if all.firm.is_absent() {
        all.firm = one.firm;
    }
    if let (Some(first), Some(second)) = (all.theme.given(), one.theme.given()) {
        let finding = Finding::new(&codes::TWO_THEMES, Subject::Job)
            .at(second.place.clone())
            .near(first.place.clone(), "first here");
        reader.push(finding.advise("keep one [theme]"));
    }
    if all.theme.is_absent() {
        all.theme = one.theme;
    }
    absorb(&mut all.finish, one.finish, reader);
    absorb(&mut all.item, one.item, reader);
    absorb(&mut all.task, one.task, reader);
    absorb(&mut all.operator, one.operator, reader);
    absorb(&mut all.fastener, one.fastener, reader);
    absorb(&mut all.setting, one.setting, reader);
    absorb(&mut all.assumed_route, one.assumed_route, reader);
    absorb(&mut all.trade, one.trade, reader);
    absorb(&mut all.factor, one.factor, reader);
    absorb(&mut all.supplier, one.supplier, reader);
    absorb(&mut all.profile, one.profile, reader);
    absorb(&mut all.jurisdiction, one.jurisdiction, reader);
    absorb(&mut all.edition, one.edition, reader);
    absorb(&mut all.terms, one.terms, reader);
    absorb(&mut all.party, one.party, reader);
    absorb(&mut all.responsibility, one.responsibility, reader);
    absorb(&mut all.note, one.note, reader);
    absorb(&mut all.need, one.need, reader);
    absorb(&mut all.proof, one.proof, reader);
    absorb(&mut all.terminal, one.terminal, reader);
    absorb(&mut all.termination, one.termination, reader);
    absorb(&mut all.cable, one.cable, reader);
    absorb(&mut all.sequence, one.sequence, reader);
    absorb(&mut all.fault, one.fault, reader);
    match (all.rule.given_mut(), one.rule) {
        (Some(own), Slot::Given(other)) => own.value.extend(other.value),
        (None, other) => all.rule = other,
        _ => {}
    }
}

fn absorb<R: Record>(all: &mut Slot<Named<R>>, one: Slot<Named<R>>, reader: &mut Reader) {
    match (all.given_mut(), one) {
        (Some(own), Slot::Given(other)) => own.value.absorb(other.value, reader),
        (None, other) => *all = other,
        _ => {}
    }
}

/// A check in progress.
pub(super) struct Check<'c, 'r, 'f> {
    all: &'c CatalogFileEntry,
    reader: &'r mut Reader<'f>,
    sheets: Sheets<'c>,
    /// Every fact of every entity, once it was asked for.
    widest: OnceCell<Arc<Sheet>>,
}

impl Check<'_, '_, '_> {
    fn catalog(mut self) -> Catalog {
        let (rules, rules_refused) = self.rules();
        Catalog {
            firm: self.all.firm.value().unwrap_or_default(),
            finishes: self
                .all
                .finish
                .members()
                .filter_map(|(id, entry)| Some((id.to_owned(), words(&entry.name)?)))
                .collect(),
            items: self.items(),
            tasks: self.tasks(),
            operators: self.operators(),
            fasteners: self.all.fastener.members().filter_map(|(_, entry)| entry.checked()).collect(),
            rules,
            rules_refused,
            is_missing: false,
            without_rules: self.without_rules(),
            settings: self.settings(),
            assumed_routes: self.all.assumed_route.members().filter_map(|(_, entry)| entry.checked()).collect(),
            trades: self.trades(),
            factors: self.factors(),
            suppliers: self.suppliers(),
            profiles: self.profiles(),
            jurisdictions: self.jurisdictions(),
            editions: self.editions(),
            terms: self.terms(),
            parties: self.parties(),
            responsibilities: self.responsibilities(),
            notes: self.notes(),
            needs: self.needs(),
            proofs: self.proofs(),
            terminals: self.terminals(),
            sequences: self.sequences(),
            faults: self.faults(),
            theme: self.theme(|entry| entry.values().into()),
            faces: self.theme(|entry| entry.faces().into()),
            values: Vec::new(),
        }
    }

    /// Some values of the theme, in the order of its keys.
    fn theme(&self, some: impl Fn(&ThemeEntry) -> Vec<(&'static str, &Slot<Text>)>) -> Vec<ThemeValue> {
        let Some(entry) = self.all.theme.get() else { return Vec::new() };
        let value = |(key, slot): (&'static str, &Slot<Text>)| {
            let given = slot.given()?;
            Some(ThemeValue { key, value: given.value.as_str().to_owned(), place: Some(given.place.clone()) })
        };
        some(entry).into_iter().filter_map(value).collect()
    }

    fn condition(&mut self, slot: &Slot<Formula>, sheet: &Sheet, subject: &Subject) -> Result<Option<When>, ()> {
        let Some(given) = slot.given() else { return if slot.is_bad() { Err(()) } else { Ok(None) } };
        match language::Condition::read(given.value.as_str(), sheet) {
            Ok(condition) => Ok(Some(When { condition, place: given.place.clone() })),
            Err(faults) => self.refuse(&faults, &given.value, &given.place, subject),
        }
    }

    fn amount(
        &mut self,
        slot: &Slot<Formula>,
        sheet: &Sheet,
        dimension: Dimension,
        subject: &Subject,
    ) -> Result<Option<Amount>, ()> {
        let Some(given) = slot.given() else { return if slot.is_bad() { Err(()) } else { Ok(None) } };
        match language::Formula::read(given.value.as_str(), sheet, dimension) {
            Ok(formula) => Ok(Some(Amount { formula, place: given.place.clone() })),
            Err(faults) => self.refuse(&faults, &given.value, &given.place, subject),
        }
    }

    fn refuse<T>(&mut self, faults: &[Fault], text: &Formula, whole: &Place, subject: &Subject) -> Result<T, ()> {
        for fault in faults {
            let finding = fault.finding(subject.clone(), &|bytes| text.place(bytes).unwrap_or_else(|| whole.clone()));
            self.reader.push(finding);
        }
        Err(())
    }

    /// Every fact of every entity: for conditions that speak of whatever a line belongs to.
    fn widest(&self) -> Arc<Sheet> {
        let sheets = self.sheets;
        let all = || Entity::ALL.iter().fold(Sheet::new("any entity"), |all, kind| all.and(&sheets(*kind)));
        self.widest.get_or_init(|| Arc::new(all())).clone()
    }
}

/// The text of a slot.
pub(super) fn words(slot: &Slot<Text>) -> Option<String> {
    slot.get().map(|text| text.as_str().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::assert_targets;

    #[test]
    fn every_table_that_a_field_refers_to_is_looked_up() {
        assert_targets::<CatalogFileEntry>(&tables(&CatalogFileEntry::default()));
    }
}
