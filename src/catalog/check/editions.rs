//! Editions of codes and standards.
//!
//! In: their records. Out: checked, by id. May not know: which of them a job names.

use std::collections::BTreeMap;

use super::Check;
use crate::catalog::{ClauseEntry, Edition};

impl Check<'_, '_, '_> {
    pub(super) fn editions(&mut self) -> BTreeMap<String, Edition> {
        let each = self.all.edition.members().filter_map(|(id, entry)| {
            let clauses = entry.clause.list().iter().filter(|clause| !has_bad_limit(clause));
            let clauses = clauses.filter_map(ClauseEntry::checked).collect();
            Some((id.to_owned(), entry.checked(id.to_owned(), clauses)?))
        });
        each.collect()
    }
}

/// A limit that cannot be read was reported; without it the clause would ask for nothing.
fn has_bad_limit(entry: &ClauseEntry) -> bool {
    [&entry.least, &entry.most, &entry.depth].into_iter().any(|slot| slot.is_bad())
}
