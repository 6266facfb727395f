//! Openings: kinds merged in already; references followed; sizes that no door has refused.
//!
//! In: opening and survey records. Out: checked openings in file order. May not know: hands, quantities.

use std::collections::{BTreeMap, BTreeSet};

use rustc_hash::FxHashMap;

use super::{Check, implied};
use crate::findings::{Finding, Place, Subject};
use crate::input::{Given, Slot};
use crate::job::codes;
use crate::job::entries::{LeafEntry, OpeningEntry, SurveyEntry};
use crate::job::model::{Opening, Site};
use crate::measure::{Angle, Finest, Length, LengthForm, Style};

/// Bounds of a leaf, in inches: outside of them a digit or a unit has slipped (common practice, no source).
const LEAF_WIDTH: (i64, i64) = (18, 72);
const LEAF_HEIGHT: (i64, i64) = (60, 144);
/// In sixty-fourths of an inch.
const LEAF_THICKNESS: (i64, i64) = (24, 256);
/// In degrees: a leaf folds back against the wall and no further.
const OPEN_ANGLE: (u32, u32) = (1, 180);

/// Marks of openings so far.
#[derive(Default)]
struct SeenMarks {
    /// Where each stands.
    places: BTreeMap<String, Place>,
    /// By their small letters: marks that sound alike. Only looked up.
    alike: FxHashMap<String, BTreeSet<String>>,
}

impl SeenMarks {
    fn insert(&mut self, mark: &str, place: Place) {
        self.alike.entry(mark.to_ascii_lowercase()).or_default().insert(mark.to_owned());
        self.places.insert(mark.to_owned(), place);
    }

    /// The first mark, by letters, that differs from this one in capitals alone, and where it stands.
    fn alike(&self, mark: &str) -> Option<(&str, &Place)> {
        let alike = self.alike.get(&mark.to_ascii_lowercase())?.first()?;
        Some((alike, self.places.get(alike)?))
    }
}

impl Check<'_, '_, '_> {
    pub(super) fn openings(&mut self, sites: &BTreeMap<String, Site>) -> Vec<Opening> {
        let typed = self.typed;
        if typed.openings.is_empty() && self.marks_whole() {
            let named = typed.entry.job.get();
            let place = named.and_then(|it| it.openings.place().or(it.written_at.as_ref()));
            let finding = Finding::new(&codes::NO_OPENINGS, Subject::Job);
            let finding = match place {
                Some(place) => finding.at(place.clone()),
                None => finding,
            };
            self.reader
                .push(finding.advise("add [[opening]] tables, or name a table with openings = \"openings.csv\""));
        }
        let mut seen = SeenMarks::default();
        let mut surveys: FxHashMap<&str, Vec<&SurveyEntry>> = FxHashMap::default();
        for entry in &typed.surveys {
            if let Some(mark) = entry.opening.get() {
                surveys.entry(mark.as_str()).or_default().push(entry);
            }
        }
        let mut openings = Vec::new();
        let astray = self.a_survey_is_of_no_opening();
        for entry in &typed.openings {
            let Some(mark) = self.mark(entry, &mut seen) else { continue };
            let surveys = surveys.get(mark.as_str()).map_or(&[][..], Vec::as_slice);
            openings.extend(self.opening(mark, entry, sites, (surveys, astray)));
        }
        self.partners(&openings, &seen.places);
        openings
    }

    fn mark(&mut self, entry: &OpeningEntry, seen: &mut SeenMarks) -> Option<String> {
        let place = entry.written_at.clone()?;
        let Some(given) = entry.mark.given() else {
            if entry.mark.is_absent() {
                let finding = Finding::new(&codes::MISSING_MARK, Subject::Job).at(place);
                self.reader.push(finding.asked("the architect's mark").advise("write mark = \"…\""));
            }
            return None;
        };
        let mark = given.value.to_string();
        if let Some(first) = seen.places.get(&mark) {
            let finding = Finding::new(&codes::DUPLICATE_MARK, Subject::Opening(mark.clone()))
                .at(given.place.clone())
                .near(first.clone(), "first marked here")
                .found(mark)
                .asked("a mark of its own for each opening")
                .advise("correct the mark, or take one of the two out");
            self.reader.push(finding);
            return None;
        }
        if let Some((alike, first)) = seen.alike(&mark) {
            let finding = Finding::new(&codes::MARK_ALIKE, Subject::Opening(mark.clone()))
                .at(given.place.clone())
                .near(first.clone(), "marked here")
                .found(format!("`{alike}` and `{mark}`"))
                .asked("marks that differ when read aloud")
                .advise(
                    "if both are the same opening, correct the mark; if they are two, accept this with that reason",
                );
            self.reader.push(finding);
        }
        seen.insert(&mark, given.place.clone());
        Some(mark)
    }

    fn opening(
        &mut self,
        mark: String,
        entry: &OpeningEntry,
        sites: &BTreeMap<String, Site>,
        (surveys, astray): (&[&SurveyEntry], bool),
    ) -> Option<Opening> {
        let subject = Subject::Opening(mark.clone());
        let place = entry.written_at.clone()?;
        let site = self.site(&mark, entry, &place, sites);
        self.rooms(entry, &subject);
        self.numbers_differ("device", entry.device.list().iter().map(|it| &it.id));
        let mut merged = entry.clone();
        let typed = surveys.len();
        let (surveys, remeasured) = self.lay_surveys(surveys, &mut merged, &subject);
        let survey_unread = astray || surveys.len() < typed;
        let mut leaves = merged.leaf.members();
        for leaf in &mut leaves {
            self.sizes(leaf, &subject);
            implied::fill_hardware(leaf);
        }
        if let Some(operator) = merged.operator.get().and_then(|id| self.catalog.operators.get(id.as_str())) {
            implied::fill(&mut merged, &mut leaves, operator);
        }
        let base = entry.base.or(true);
        Some(Opening { mark, site: site?, base, entry: merged, leaves, surveys, survey_unread, remeasured, place })
    }

    fn site(
        &mut self,
        mark: &str,
        entry: &OpeningEntry,
        place: &Place,
        sites: &BTreeMap<String, Site>,
    ) -> Option<String> {
        match entry.site.given() {
            Some(given) => Some(given.value.to_string()).filter(|id| sites.contains_key(id)),
            // A job with one site need not say it at every opening.
            None if entry.site.is_absent() && sites.len() == 1 => sites.keys().next().cloned(),
            None => {
                if entry.site.is_absent() && !sites.is_empty() {
                    let known: Vec<&str> = sites.keys().map(String::as_str).collect();
                    let finding = Finding::new(&codes::MISSING_SITE, Subject::Opening(mark.to_owned()))
                        .at(place.clone())
                        .found(mark)
                        .asked(known.join(", "));
                    self.reader.push(finding.advise(format!("write site = \"{}\"", known[0])));
                }
                None
            }
        }
    }

    fn rooms(&mut self, entry: &OpeningEntry, subject: &Subject) {
        let rooms = entry.between.list();
        if let Some(given) = entry.between.given()
            && rooms.len() != 2
        {
            let finding = Finding::new(&codes::ROOMS_COUNT, whose(given, subject))
                .at(given.place.clone())
                .found(rooms.len().to_string())
                .asked("two rooms");
            self.reader.push(
                finding.advise(
                    "write between = [\"…\", \"…\"]; in a table both rooms are in one cell, as \"Lobby; Street\"",
                ),
            );
            return;
        }
        if let Some(given) = entry.outside.given()
            && !rooms.is_empty()
            && rooms.iter().all(|room| room.as_str() != given.value.as_str())
        {
            let known: Vec<String> = rooms.iter().map(|room| room.to_string()).collect();
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            self.unknown(&codes::ROOM_UNKNOWN, whose(given, subject), &given.value, &given.place, known);
        }
    }

    fn partners(&mut self, openings: &[Opening], seen: &BTreeMap<String, Place>) {
        if !self.marks_whole() {
            return;
        }
        for opening in openings {
            let Some(given) = opening.entry.vestibule.get().and_then(|it| it.partner.given()) else { continue };
            if seen.contains_key(given.value.as_str()) && given.value.as_str() != opening.mark {
                continue;
            }
            let known: Vec<&str> = seen.keys().map(String::as_str).filter(|mark| *mark != opening.mark).collect();
            let subject = Subject::Opening(opening.mark.clone());
            self.unknown(&codes::PARTNER_MISSING, subject, &given.value, &given.place, known);
        }
    }

    fn sizes(&mut self, leaf: &mut LeafEntry, subject: &Subject) {
        let inches = |bounds: (i64, i64)| (Length::inches(bounds.0), Length::inches(bounds.1));
        let sixty_fourths = (Length::sixty_fourths(LEAF_THICKNESS.0), Length::sixty_fourths(LEAF_THICKNESS.1));
        let print = |length: Length| length.print(LengthForm::FeetInches, Finest::Sixteenth, Style::Plain);
        self.size(&mut leaf.width, inches(LEAF_WIDTH), print, "leaf width", subject);
        self.size(&mut leaf.height, inches(LEAF_HEIGHT), print, "leaf height", subject);
        self.size(&mut leaf.thickness, sixty_fourths, print, "leaf thickness", subject);
        let angles = (Angle::degrees(OPEN_ANGLE.0), Angle::degrees(OPEN_ANGLE.1));
        self.size(&mut leaf.opens_to, angles, |angle| angle.print(0, Style::Plain), "open angle", subject);
    }

    /// Reports a size that no leaf has, and makes it bad, so that whatever depends on it stays silent.
    fn size<M: Copy + PartialOrd>(
        &mut self,
        slot: &mut Slot<M>,
        bounds: (M, M),
        print: impl Fn(M) -> String,
        what: &str,
        subject: &Subject,
    ) {
        let Some(given) = slot.given() else { return };
        if (bounds.0..=bounds.1).contains(&given.value) {
            return;
        }
        let finding = Finding::new(&codes::IMPOSSIBLE_SIZE, whose(given, subject))
            .at(given.place.clone())
            .found(print(given.value))
            .asked(format!("{what}: {} to {}", print(bounds.0), print(bounds.1)))
            .advise("look for a slipped digit or unit");
        let place = given.place.clone();
        *slot = Slot::Bad(place);
        self.reader.push(finding);
    }
}

/// What a fault is about: a value of a kind is wrong once, wherever it is used, and the subject is then the kind.
pub(super) fn whose<T>(given: &Given<T>, subject: &Subject) -> Subject {
    match &given.through {
        Some(kind) => Subject::Entry("kind", kind.clone()),
        None => subject.clone(),
    }
}
