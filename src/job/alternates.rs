//! A job with alternates carried out.
//!
//! In: a checked job and the positions of alternates. Out: the job as it would be. May not know: prices.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::model::{Job, Opening};
use super::price_entries::{Alternate, Change};
use crate::input::{Field, Record};

impl Job {
    /// The job with these alternates, in their order: openings left out and added, then changed. Openings that no alternate
    /// names are shared with this job.
    pub fn with_alternates(&self, positions: &[usize]) -> Job {
        let mut job = self.clone();
        for alternate in positions.iter().filter_map(|at| self.alternates.get(*at)) {
            let named = alternate.named();
            for opening in job.openings.iter_mut().filter(|it| named.contains(it.mark.as_str())) {
                let opening = Arc::make_mut(opening);
                let mark = opening.mark.clone();
                if alternate.omits.contains(&mark) {
                    opening.base = false;
                }
                if alternate.adds.contains(&mark) {
                    opening.base = true;
                }
                for change in alternate.changes.iter().filter(|it| it.openings.contains(&mark)) {
                    apply(opening, change);
                }
            }
        }
        job
    }
}

impl Alternate {
    /// Marks of the openings that it leaves out, adds or changes.
    fn named(&self) -> BTreeSet<&str> {
        let changed = self.changes.iter().flat_map(|change| &change.openings);
        self.omits.iter().chain(&self.adds).chain(changed).map(String::as_str).collect()
    }
}

/// Lays a change over an opening: key by key; a list of devices replaces; what is said of `leaf` goes for every leaf, or
/// leaf by leaf where the change lists them.
fn apply(opening: &mut Opening, change: &Change) {
    let mut with = change.with.clone();
    if let Some(leaves) = with.leaf.get() {
        if let Some(common) = leaves.common.get() {
            opening.leaves.iter_mut().for_each(|leaf| leaf.overlay_with(common));
        }
        for (leaf, changed) in opening.leaves.iter_mut().zip(leaves.list.list()) {
            leaf.overlay_with(changed);
        }
    }
    let leaf = opening.entry.leaf.clone();
    Field::overlay(&mut with.leaf, &leaf);
    opening.entry.overlay_with(&with);
    opening.entry.leaf = leaf;
}
