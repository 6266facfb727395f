//! What papers say: parties, responsibilities, notes, sequences, faults.
//!
//! In: their records. Out: checked, in the order of papers. May not know: how a paper looks.

use std::collections::BTreeMap;

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::paper_entries::*;
use crate::catalog::words::Entity;
use crate::findings::{Finding, Subject};
use crate::input::nearest;

impl Check<'_, '_, '_> {
    pub(super) fn parties(&mut self) -> BTreeMap<String, Party> {
        let each = self.all.party.members();
        each.filter_map(|(id, entry)| Some((id.to_owned(), entry.checked(id.to_owned())?))).collect()
    }

    pub(super) fn responsibilities(&mut self) -> Vec<Responsibility> {
        let all = self.all;
        let mut rows: Vec<Responsibility> =
            all.responsibility.members().filter_map(|(id, entry)| self.responsibility(id, entry)).collect();
        rows.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        rows
    }

    fn responsibility(&mut self, id: &str, entry: &ResponsibilityEntry) -> Option<Responsibility> {
        let slots = [&entry.furnish, &entry.install, &entry.wire, &entry.terminate, &entry.program, &entry.test];
        let empty: Vec<&str> = RESPONSIBILITY_CELLS
            .into_iter()
            .zip(slots)
            .filter(|(_, slot)| slot.is_absent())
            .map(|(cell, _)| cell)
            .collect();
        if let (false, Some(place)) = (empty.is_empty(), &entry.written_at) {
            let name = entry.name.get().map_or(id, |name| name.as_str());
            let finding = Finding::new(&codes::EMPTY_CELL, Subject::Entry("responsibility", id.to_owned()))
                .at(place.clone())
                .found(format!("{name}: {}", empty.join(", ")))
                .asked("a party in each cell, or `none`");
            self.reader.push(finding.advise(format!("write {} = \"…\"", empty[0])));
        }
        let cells = slots.map(|slot| slot.value().filter(|id| id != NO_PARTY));
        entry.checked(id.to_owned(), cells)
    }

    pub(super) fn notes(&mut self) -> Vec<Note> {
        let all = self.all;
        let mut notes: Vec<Note> = all.note.members().filter_map(|(id, entry)| self.note(id, entry)).collect();
        notes.sort_by(|a, b| (a.kind, a.order, &a.id).cmp(&(b.kind, b.order, &b.id)));
        notes
    }

    fn note(&mut self, id: &str, entry: &NoteEntry) -> Option<Note> {
        let subject = Subject::Entry("note", id.to_owned());
        let sheet = (self.sheets)(entry.per.cloned()?);
        let when = self.condition(&entry.when, &sheet, &subject).ok()?;
        entry.checked(id.to_owned(), when)
    }

    pub(super) fn needs(&mut self) -> Vec<Need> {
        let all = self.all;
        let mut needs: Vec<Need> = all.need.members().filter_map(|(id, entry)| self.need(id, entry)).collect();
        needs.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        needs
    }

    fn need(&mut self, id: &str, entry: &NeedEntry) -> Option<Need> {
        let subject = Subject::Entry("need", id.to_owned());
        let per = entry.per.cloned()?;
        let sheet = (self.sheets)(per);
        let when = self.condition(&entry.when, &sheet, &subject);
        let tell = entry.tell.list().iter().filter_map(|it| {
            let fact = it.fact.given()?;
            if sheet.fact(&fact.value).is_none() {
                let names: Vec<&str> = sheet.facts().map(|(name, _)| name).collect();
                let finding = Finding::new(&codes::UNKNOWN_FACT, subject.clone())
                    .at(fact.place.clone())
                    .found(fact.value.as_str())
                    .asked(format!("a fact that rules may name of a {}", per.word()));
                let near = nearest(&fact.value, names.iter().copied());
                self.reader.push(match near {
                    Some(near) => finding.type_at(fact.place.clone(), self.reader.as_typed(&fact.place, near)),
                    None => finding.advise(format!("name one of {}", names.join(", "))),
                });
                return None;
            }
            Some((words(&it.head)?, fact.value.as_str().to_owned()))
        });
        let tell = tell.collect();
        entry.checked(id.to_owned(), when.ok()?, tell)
    }

    pub(super) fn sequences(&mut self) -> Vec<Sequence> {
        let all = self.all;
        let sheet = (self.sheets)(Entity::Opening);
        let mut sequences = Vec::new();
        for (id, entry) in all.sequence.members() {
            let subject = Subject::Entry("sequence", id.to_owned());
            let Ok(when) = self.condition(&entry.when, &sheet, &subject) else { continue };
            sequences.extend(entry.checked(id.to_owned(), when));
        }
        sequences.sort_by(|a, b| (a.state, a.order, &a.id).cmp(&(b.state, b.order, &b.id)));
        sequences
    }

    pub(super) fn faults(&mut self) -> Vec<Fault> {
        let each = self.all.fault.members().filter_map(|(id, entry)| entry.checked(id.to_owned()));
        let mut faults: Vec<Fault> = each.collect();
        faults.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        faults
    }
}
