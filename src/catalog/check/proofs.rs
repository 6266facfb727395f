//! Proofs.
//!
//! In: their records. Out: checked, by kind and id. May not know: where they are needed.

use super::{Check, words};
use crate::catalog::codes;
use crate::catalog::model::Proof;
use crate::catalog::{Entity, ProofEntry};
use crate::findings::{Finding, Subject};

impl Check<'_, '_, '_> {
    pub(super) fn proofs(&mut self) -> Vec<Proof> {
        let all = self.all;
        let mut proofs: Vec<Proof> = all.proof.members().filter_map(|(id, entry)| self.proof(id, entry)).collect();
        proofs.sort_by(|a, b| (a.kind, &a.id).cmp(&(b.kind, &b.id)));
        proofs
    }

    fn proof(&mut self, id: &str, entry: &ProofEntry) -> Option<Proof> {
        let subject = Subject::Entry("proof", id.to_owned());
        let all = self.all;
        let items = self.known_ids(&entry.items, &all.item, &codes::UNKNOWN_ITEM, &subject);
        let per = entry.per.cloned();
        if let (None, false, Some(place)) = (per, entry.when.is_absent(), entry.when.place()) {
            let finding = Finding::new(&codes::CONDITION_OVER_NOTHING, subject.clone()).at(place.clone());
            self.reader.push(finding.advise("add what it is counted over, such as per = \"opening\""));
        }
        let facts = (self.sheets)(per.unwrap_or(Entity::Job));
        let when = self.condition(&entry.when, &facts, &subject).ok()?;
        let sheet = self.sheet(&entry.sheet, (&entry.sheet_pages, &entry.sheet_marks), &subject);
        Some(Proof {
            id: id.to_owned(),
            kind: entry.kind.cloned()?,
            says: words(&entry.says)?,
            items,
            groups: entry.groups.list().to_vec(),
            if_asked: entry.if_asked.or(false),
            per,
            when,
            number: words(&entry.number),
            by: words(&entry.by),
            date: entry.date.cloned(),
            expires: entry.expires.cloned(),
            sheet,
            place: entry.written_at.clone()?,
        })
    }
}
