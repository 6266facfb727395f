//! Typed job to checked job.
//!
//! In: the records of the job file and its tables, a checked catalog. Out: the checked job; what is bad is reported once
//! and left out. May not know: codes and limits; those are the review's.

mod assumed_runs;
mod head;
mod implied;
mod lists;
mod names;
mod openings;
mod runs;
mod specification;
mod submittals;
mod surveys;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use names::JobNames;

use super::codes;
use super::entries::{OpeningEntry, SurveyEntry};
use super::file_entries::{JobEntry, JobFileEntry, PrintUnits};
use super::model::Job;
use super::specification_entries::ParagraphEntry;
use super::submittal_entries::TransmittalEntry;
use crate::catalog::Catalog;
use crate::findings::{Code, FileId, Finding, Place, Subject};
use crate::input::{Given, Names, Plain, Reader, References, Slot, Spelling, Text};
use crate::input::{chain, inherit_kind, nearest, record, unread};
use crate::measure::System;

/// A job file that was read but not yet checked, so that the caller can load the catalog it names first.
pub struct Typed {
    entry: JobFileEntry,
    folder: String,
    openings: Vec<OpeningEntry>,
    surveys: Vec<SurveyEntry>,
    paragraphs: Vec<ParagraphEntry>,
    /// Whether openings were typed that cannot be read, so that one that is named may be among them.
    openings_unread: bool,
    /// Whether surveys were typed that cannot be read.
    surveys_unread: bool,
    /// Whether kinds were typed that cannot be read.
    kinds_unread: bool,
}

impl Typed {
    /// Reads the job file and the tables that it names.
    pub fn read(reader: &mut Reader, file: FileId) -> Typed {
        let folder = folder_of(reader.files().path(file)).to_owned();
        let entry: JobFileEntry = reader.toml(file);
        let head = entry.job.get();
        if head.is_some_and(|head| head.units.get() == Some(&PrintUnits::Mm)) {
            reader.write_in(System::Millimetre);
        }
        let mut openings = entry.opening.list().to_vec();
        if let Some(given) = head.and_then(|head| head.openings.given()) {
            if !openings.is_empty() {
                let finding = Finding::new(&codes::TWO_TABLES, Subject::Job)
                    .at(given.place.clone())
                    .advise("move the [[opening]] tables into the table, or omit `openings`");
                reader.push(finding);
            }
            openings.extend(table::<OpeningEntry>(reader, &folder, given));
        }
        let mut surveys = entry.survey.list().to_vec();
        if let Some(given) = head.and_then(|head| head.surveys.given()) {
            surveys.extend(table::<SurveyEntry>(reader, &folder, given));
        }
        let mut paragraphs = entry.paragraph.list().to_vec();
        if let Some(given) = head.and_then(|head| head.specification.given()) {
            paragraphs.extend(table::<ParagraphEntry>(reader, &folder, given));
        }
        let table_unread = |named: fn(&JobEntry) -> &Slot<Text>| {
            let named = head.map(named);
            let path = named.and_then(Slot::get).map(|path| join(&folder, path));
            named.is_none_or(Slot::is_bad) || path.is_some_and(|path| reader.files().find(&path).is_none())
        };
        let unmarked = openings.iter().any(|it| it.mark.is_bad());
        let openings_unread = unmarked || entry.opening.is_bad() || table_unread(|it| &it.openings);
        let surveys_unread = entry.survey.is_bad() || table_unread(|it| &it.surveys);
        let kinds_unread = entry.kind.is_bad();
        Typed { entry, folder, openings, surveys, paragraphs, openings_unread, surveys_unread, kinds_unread }
    }

    /// What the job file names.
    pub fn names(&self) -> JobNames {
        JobNames { head: self.entry.job.get().cloned().unwrap_or_default(), folder: self.folder.clone() }
    }

    /// Path and value of everything that was typed, for the fingerprint.
    pub fn values(&self) -> Vec<(String, String)> {
        let mut values = Vec::new();
        record::dump(&self.entry, "job", Spelling::Exact, &mut values);
        for (at, opening) in self.openings.iter().enumerate() {
            record::dump(opening, &format!("openings.{}", at + 1), Spelling::Exact, &mut values);
        }
        for (at, survey) in self.surveys.iter().enumerate() {
            record::dump(survey, &format!("surveys.{}", at + 1), Spelling::Exact, &mut values);
        }
        for (at, paragraph) in self.paragraphs.iter().enumerate() {
            record::dump(paragraph, &format!("paragraphs.{}", at + 1), Spelling::Exact, &mut values);
        }
        values
    }

    /// Path and value, as a person reads them, of what was typed in the job file and its tables and belongs to no opening:
    /// everything but openings, kinds and surveys, which are merged into each opening.
    pub fn elsewhere(&self, system: System) -> BTreeMap<String, String> {
        let mut reported = Vec::new();
        record::dump(&self.entry, "", Spelling::Readable(system), &mut reported);
        let apart = ["opening", "kind", "survey", "paragraph"];
        reported.retain(|(path, _)| !apart.contains(&path.split('.').next().unwrap_or_default()));
        // Paragraphs of a table say the same as those of the job file.
        for (at, paragraph) in self.paragraphs.iter().enumerate() {
            record::dump(paragraph, &format!("paragraph.{}", at + 1), Spelling::Readable(system), &mut reported);
        }
        reported.into_iter().collect()
    }

    /// Checks the job against the catalog. Nothing comes of a job whose own table cannot be read, or whose catalog is not there.
    pub fn check(mut self, reader: &mut Reader, catalog: &Catalog) -> Option<Job> {
        let kinds = match self.entry.kind.given_mut() {
            Some(given) => {
                chain(&mut given.value, |kind| &kind.like, reader);
                given.value.clone()
            }
            None => Default::default(),
        };
        for opening in &mut self.openings {
            let subject = Subject::Opening(opening.mark.get().map(|mark| mark.to_string()).unwrap_or_default());
            if let (true, Some(place)) = (self.kinds_unread, opening.kind.place().cloned()) {
                opening.kind = Slot::Bad(place);
            }
            reader.about(subject, |reader| inherit_kind(opening, |it| &it.kind, &kinds, reader));
        }
        let sent = self.entry.transmittal.list().to_vec();
        self.refer(reader, catalog);
        let mut check = Check { typed: &self, sent, reader, catalog };
        check.job().filter(|_| !catalog.is_missing)
    }
}

impl Typed {
    /// Looks up what the job names. Kinds were merged into the openings, and the openings and surveys of the job file were put
    /// with those of its tables.
    fn refer(&mut self, reader: &mut Reader, catalog: &Catalog) {
        let tables = self.tables_named(reader.whole(), catalog);
        let mut references = References::new(reader, tables);
        (self.entry.kind, self.entry.opening, self.entry.survey) = (Slot::Absent, Slot::Absent, Slot::Absent);
        references.walk(&mut self.entry);
        for opening in &mut self.openings {
            let subject = Subject::Opening(opening.mark.value().unwrap_or_default());
            references.about(Some(subject), |references| references.walk(opening));
        }
        for survey in &mut self.surveys {
            let subject = Subject::Opening(survey.opening.value().unwrap_or_default());
            references.about(Some(subject), |references| references.walk(survey));
        }
    }

    /// The tables whose entries the job names. While a file could not be read whole, an opening may be in the rest of it.
    fn tables_named(&self, whole: bool, catalog: &Catalog) -> [Names; 12] {
        let entry = &self.entry;
        let marks = self.openings.iter().filter_map(|it| it.mark.value());
        let submittals = entry.submittal.list().iter().filter_map(|it| it.id.value());
        let submittal_is_bad = entry.submittal.is_bad() || entry.submittal.list().iter().any(|it| it.id.is_bad());
        let own = entry.job.get().map(|job| &job.section);
        let others = entry.section.list().iter().map(|it| &it.number);
        let sections: Vec<&Slot<Text>> = own.into_iter().chain(others).collect();
        let section_is_bad = entry.section.is_bad() || sections.iter().any(|it| it.is_bad());
        let sections = sections.into_iter().filter_map(Slot::value);
        [
            Names::of(&entry.site, &codes::UNKNOWN_SITE),
            Names::of(&entry.panel, &codes::UNKNOWN_PANEL),
            Names::new("opening", &codes::UNKNOWN_OPENING, marks)
                .about(Subject::Opening)
                .partial_if(!whole || self.openings_unread),
            Names::new("submittal", &codes::UNKNOWN_SUBMITTAL, submittals).partial_if(submittal_is_bad),
            Names::new("section", &codes::UNKNOWN_SECTION, sections).partial_if(section_is_bad),
            Names::new("operator", &codes::UNKNOWN_OPERATOR, catalog.operators.keys()).partial_if(catalog.is_missing),
            Names::new("finish", &codes::UNKNOWN_FINISH, catalog.finishes.keys()).partial_if(catalog.is_missing),
            Names::new("profile", &codes::UNKNOWN_PROFILE, catalog.profiles.keys()).partial_if(catalog.is_missing),
            Names::new("terms", &codes::UNKNOWN_TERMS, catalog.terms.keys()).partial_if(catalog.is_missing),
            Names::new("jurisdiction", &codes::UNKNOWN_JURISDICTION, catalog.jurisdictions.keys())
                .partial_if(catalog.is_missing),
            Names::new("item", &codes::UNKNOWN_ITEM, catalog.items.keys()).partial_if(catalog.is_missing),
            Names::new("task", &codes::UNKNOWN_TASK, catalog.tasks.keys()).partial_if(catalog.is_missing),
        ]
    }
}

fn table<R: crate::input::Record>(reader: &mut Reader, folder: &str, given: &Given<Text>) -> Vec<R> {
    let path = join(folder, &given.value);
    match reader.files().find(&path) {
        Some(file) => reader.csv(file),
        None => {
            if let Some(finding) = unread(reader.files(), &path, "the folders of the job and its catalog", Subject::Job)
            {
                reader.push(finding.at(given.place.clone()));
                return Vec::new();
            }
            let finding = Finding::new(&codes::NO_FILE, Subject::Job)
                .at(given.place.clone())
                .found(path)
                .asked("a file beside the job file")
                .advise("give the file name relative to the job file; a folder is not accepted");
            reader.push(finding);
            Vec::new()
        }
    }
}

/// Whether a path begins at the root of a disk, however that is written.
fn is_from_root(path: &str) -> bool {
    path.starts_with(['/', '\\']) || path.as_bytes().get(1) == Some(&b':')
}

/// The folder of a path; empty for the folder where the command runs.
pub fn folder_of(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}

/// A path that is named from a folder, with `.` and `..` taken out.
pub fn join(folder: &str, path: &str) -> String {
    let start: Vec<&str> =
        if path.starts_with('/') { vec![""] } else { folder.split('/').filter(|it| !it.is_empty()).collect() };
    let start = if folder.starts_with('/') && !path.starts_with('/') { [vec![""], start].concat() } else { start };
    let mut parts = start;
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => match parts.last() {
                Some(&last) if last != ".." && !last.is_empty() => drop(parts.pop()),
                _ => parts.push(".."),
            },
            other => parts.push(other),
        }
    }
    parts.join("/")
}

/// A check in progress.
pub(super) struct Check<'c, 'r, 'f> {
    /// What was typed; what names nothing is bad.
    typed: &'c Typed,
    /// What was sent, with the names as they were typed.
    sent: Vec<TransmittalEntry>,
    reader: &'r mut Reader<'f>,
    catalog: &'c Catalog,
}

impl Check<'_, '_, '_> {
    fn job(&mut self) -> Option<Job> {
        let sites = self.sites();
        let panels = self.panels();
        let openings = self.openings(&sites);
        let head = self.head();
        let mut runs = self.runs(&openings, &panels, &sites);
        let run = &self.typed.entry.run;
        let read = runs.iter().filter(|run| run.part.as_ref().is_none_or(|part| part.number == 1)).count();
        let runs_unread = run.is_bad() || read < run.list().len();
        // Where one that was typed cannot be read, it may be the one that would be assumed.
        if !runs_unread {
            runs.extend(self.assumed_runs(&openings, &runs));
        }
        let submitted = self.submitted();
        let job = Job {
            documents: each(&self.typed.entry.document),
            addenda: self.addenda(),
            sections: submitted.sections,
            submittals: submitted.submittals,
            transmittals_unread: submitted.transmittals_unread,
            transmittals: submitted.transmittals,
            alternates: self.alternates(),
            unit_prices: self.unit_prices(),
            allowances: self.allowances(),
            quotes: self.quotes(),
            adjustments: each(&self.typed.entry.adjustment),
            set_aside: each(&self.typed.entry.set_aside),
            accepted: each(&self.typed.entry.accept),
            statements: each(&self.typed.entry.statement),
            paragraphs: self.paragraphs(),
            head: head?,
            sites,
            panels,
            openings: openings.into_iter().map(Arc::new).collect(),
            runs_unread,
            runs,
        };
        Some(job)
    }

    /// Reports a name that is none of those known.
    fn unknown<'k>(
        &mut self,
        code: &'static Code,
        subject: Subject,
        found: &str,
        place: &Place,
        known: impl IntoIterator<Item = &'k str>,
    ) {
        let known: Vec<&str> = known.into_iter().collect();
        let asked = if known.is_empty() { "no such entry".to_owned() } else { known.join(", ") };
        let finding = Finding::new(code, subject).at(place.clone()).found(found).asked(asked);
        self.reader.push(match nearest(found, known.iter().copied()) {
            Some(near) => finding.type_at(place.clone(), self.reader.as_typed(place, near)),
            None => finding.advise("use an existing one, or add it"),
        });
    }

    /// Whether all openings could be read, so that a mark that is not found is really not there.
    fn marks_whole(&self) -> bool {
        self.reader.whole() && !self.typed.openings_unread
    }
}

/// What comes of the records of a list.
fn each<R: Plain>(list: &Slot<Vec<R>>) -> Vec<R::Value> {
    list.value().unwrap_or_default()
}

/// The text of a slot.
fn words(slot: &Slot<Text>) -> Option<String> {
    slot.get().map(|text| text.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::assert_targets;

    #[test]
    fn every_table_that_a_field_refers_to_is_looked_up() {
        let (openings, surveys, paragraphs) = (Vec::new(), Vec::new(), Vec::new());
        let typed = Typed {
            entry: JobFileEntry::default(),
            folder: String::new(),
            openings,
            surveys,
            paragraphs,
            openings_unread: false,
            surveys_unread: false,
            kinds_unread: false,
        };
        assert_targets::<JobFileEntry>(&typed.tables_named(true, &Catalog::default()));
    }
}
