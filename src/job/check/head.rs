//! The job itself, its sites and panels.
//!
//! In: their records. Out: checked. May not know: openings.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::findings::Subject;
use crate::input::{Count, Id, Slot};
use crate::job::codes;
use crate::job::file_entries::PrintUnits;
use crate::job::model::{Head, Panel, Site};

impl Check<'_, '_, '_> {
    /// The head. A text that is bad or missing was reported, holds every paper, and stands empty here, so that the rest
    /// of the job is looked at in the same run.
    pub(super) fn head(&mut self) -> Option<Head> {
        let entry = self.typed.entry.job.get()?;
        let catalog = self.catalog;
        if let Some(given) = entry.profile.given()
            && !catalog.profiles.contains_key(given.value.as_str())
        {
            let known: Vec<&str> = catalog.profiles.keys().map(String::as_str).collect();
            self.unknown(&codes::UNKNOWN_PROFILE, Subject::Job, &given.value, &given.place, known);
        }
        if let Some(given) = entry.terms.given()
            && !catalog.terms.contains_key(given.value.as_str())
        {
            let known: Vec<&str> = catalog.terms.keys().map(String::as_str).collect();
            self.unknown(&codes::UNKNOWN_TERMS, Subject::Job, &given.value, &given.place, known);
        } else if let (true, false, Some(place)) =
            (entry.terms.is_absent(), catalog.terms.contains_key("standard"), &entry.written_at)
        {
            let known: Vec<&str> = catalog.terms.keys().map(String::as_str).collect();
            self.unknown(&codes::UNKNOWN_TERMS, Subject::Job, "standard", place, known);
        }
        if let Some(given) = entry.jurisdictions.given() {
            for id in &given.value {
                if !catalog.jurisdictions.contains_key(id.as_str()) {
                    let known: Vec<&str> = catalog.jurisdictions.keys().map(String::as_str).collect();
                    self.unknown(&codes::UNKNOWN_JURISDICTION, Subject::Job, id, &given.place, known);
                }
            }
        }
        let ids = |slot: &Slot<Vec<Id>>| slot.list().iter().map(|id| id.as_str().to_owned()).collect();
        let number = |slot: &Slot<Count>| slot.get().map(|it| it.get());
        let id = |slot: &Slot<Id>| slot.get().map_or_else(String::new, |id| id.as_str().to_owned());
        Some(Head {
            number: id(&entry.number),
            name: words(&entry.name).unwrap_or_default(),
            solicitation: words(&entry.solicitation),
            owner: words(&entry.owner).unwrap_or_default(),
            to: words(&entry.to).unwrap_or_default(),
            attention: words(&entry.attention),
            due: entry.due.cloned(),
            date: entry.date.cloned()?,
            revision: entry.revision.get().map(|id| id.as_str().to_owned()),
            revision_place: entry.revision.place().cloned(),
            units: entry.units.or(PrintUnits::Inch),
            rules: ids(&entry.rules),
            profile: id(&entry.profile),
            jurisdictions: ids(&entry.jurisdictions),
            contract: words(&entry.contract),
            section: words(&entry.section),
            valid_days: number(&entry.valid_days),
            valid_place: entry.valid_days.place().cloned(),
            start_days: number(&entry.start_days),
            complete_days: number(&entry.complete_days),
            lead_weeks: number(&entry.lead_weeks),
            wages: words(&entry.wages),
            signed_by: words(&entry.signed_by),
            terms: entry.terms.get().map_or_else(|| "standard".to_owned(), |id| id.as_str().to_owned()),
            place: entry.written_at.clone()?,
        })
    }

    pub(super) fn sites(&mut self) -> BTreeMap<String, Site> {
        let each = self.typed.entry.site.members().filter_map(|(id, entry)| {
            Some(Site {
                id: id.to_owned(),
                name: words(&entry.name)?,
                address: words(&entry.address)?,
                order: entry.order.get().map_or(u32::MAX, |it| it.get()),
                entry: entry.clone(),
            })
        });
        each.map(|site| (site.id.clone(), site)).collect()
    }

    pub(super) fn panels(&mut self, sites: &BTreeMap<String, Site>) -> BTreeMap<String, Panel> {
        let typed = self.typed;
        let mut panels = BTreeMap::new();
        for (id, entry) in typed.entry.panel.members() {
            let Some(given) = entry.site.given() else { continue };
            if !self.site_known(given.value.as_str(), sites) {
                let subject = Subject::Entry("panel", id.to_owned());
                self.unknown_site(&given.value, &given.place, subject);
                continue;
            }
            let Some(place) = entry.written_at.clone() else { continue };
            let site = given.value.as_str().to_owned();
            panels.insert(id.to_owned(), Panel { id: id.to_owned(), site, entry: entry.clone(), place });
        }
        panels
    }

    /// Whether a site is named anywhere, good or bad.
    pub(super) fn site_known(&self, id: &str, sites: &BTreeMap<String, Site>) -> bool {
        sites.contains_key(id) || self.typed.entry.site.get().is_some_and(|named| named.get(id).is_some())
    }

    pub(super) fn unknown_site(&mut self, id: &Id, place: &crate::findings::Place, subject: Subject) {
        if self.typed.entry.site.is_bad() {
            return;
        }
        let known: Vec<&str> = self.typed.entry.site.members().map(|(name, _)| name).collect();
        self.unknown(&codes::UNKNOWN_SITE, subject, id, place, known);
    }
}
