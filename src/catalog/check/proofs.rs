//! Proofs.
//!
//! In: their records. Out: checked, by kind and id. May not know: where they are needed.

use super::Check;
use crate::catalog::codes;
use crate::catalog::{Entity, Proof, ProofEntry};
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
        let per = entry.per.cloned();
        if let (None, false, Some(place)) = (per, entry.when.is_absent(), entry.when.place()) {
            let finding = Finding::new(&codes::CONDITION_OVER_NOTHING, subject.clone()).at(place.clone());
            self.reader.push(finding.advise("add what it is counted over, such as per = \"opening\""));
        }
        let facts = (self.sheets)(per.unwrap_or(Entity::Job));
        let when = self.condition(&entry.when, &facts, &subject).ok()?;
        let sheet = self.sheet(&entry.sheet, (&entry.sheet_pages, &entry.sheet_marks), &subject);
        entry.checked(id.to_owned(), when, sheet)
    }
}
