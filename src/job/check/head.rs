//! The job itself, its sites and panels.
//!
//! In: their records. Out: checked. May not know: openings.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::findings::Subject;
use crate::job::codes;
use crate::job::file_entries::Head;
use crate::job::model::{Panel, Site};

/// The terms of price where the job names none.
const STANDARD: &str = "standard";

impl Check<'_, '_, '_> {
    /// The head. A text that is bad or missing was reported, holds every paper, and stands empty here, so that the rest
    /// of the job is looked at in the same run.
    pub(super) fn head(&mut self) -> Option<Head> {
        let entry = self.typed.entry.job.get()?;
        let catalog = self.catalog;
        let is_known = catalog.is_missing || catalog.terms.contains_key(STANDARD);
        if let (true, false, Some(place)) = (entry.terms.is_absent(), is_known, &entry.written_at) {
            let known: Vec<&str> = catalog.terms.keys().map(String::as_str).collect();
            self.unknown(&codes::UNKNOWN_TERMS, Subject::Job, STANDARD, place, known);
        }
        let terms = if entry.terms.is_absent() { STANDARD.to_owned() } else { entry.terms.value().unwrap_or_default() };
        let places = [entry.due.place(), entry.date.place(), entry.revision.place(), entry.valid_days.place()];
        let [due, date, revision, valid] = places.map(Option::<&_>::cloned);
        entry.checked(entry.jurisdictions.is_bad(), terms, due, date, revision, valid)
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

    pub(super) fn panels(&self) -> BTreeMap<String, Panel> {
        let typed = self.typed;
        let mut panels = BTreeMap::new();
        for (id, entry) in typed.entry.panel.members() {
            let Some(site) = entry.site.value() else { continue };
            panels.insert(id.to_owned(), Panel { id: id.to_owned(), site, entry: entry.clone() });
        }
        panels
    }
}
