//! A job with alternates carried out.
//!
//! In: a checked job and the positions of alternates. Out: the job as it would be. May not know: prices.

use super::model::{Change, Job, Opening};
use crate::reading::{Field, Record};

impl Job {
    /// The job with these alternates, in their order: openings left out and added, then changed.
    pub fn with_alternates(&self, positions: &[usize]) -> Job {
        let mut job = self.clone();
        for alternate in positions.iter().filter_map(|at| self.alternates.get(*at)) {
            for opening in &mut job.openings {
                if alternate.omits.contains(&opening.mark) {
                    opening.base = false;
                }
                if alternate.adds.contains(&opening.mark) {
                    opening.base = true;
                }
                for change in &alternate.changes {
                    if change.openings.contains(&opening.mark) {
                        apply(opening, change);
                    }
                }
            }
        }
        job
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
