//! A sheet of fields, and what differs between two of them.
//!
//! In: texts by key. Out: changes, which turn one sheet into the other. May not know: what the fields mean.

use std::collections::BTreeMap;

use serde::Serialize;

/// Fields by key: `leaf 1.width` → `3 ft 0 in`.
pub type Sheet = BTreeMap<String, String>;

/// The value of a key that stands for a whole: a device, a run.
pub(super) const THERE: &str = "there";

/// A field that differs.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Change {
    /// Its key.
    pub field: String,
    /// What it was; none where it was not given.
    pub before: Option<String>,
    /// What it is; none where it is given no more.
    pub after: Option<String>,
}

/// Every field that differs, in order of keys.
pub fn differences(before: &Sheet, after: &Sheet) -> Vec<Change> {
    let keys = before.keys().chain(after.keys().filter(|key| !before.contains_key(*key)));
    let mut changes: Vec<Change> = keys
        .filter(|key| before.get(*key) != after.get(*key))
        .map(|key| Change { field: key.clone(), before: before.get(key).cloned(), after: after.get(key).cloned() })
        .collect();
    changes.sort();
    changes
}

/// How much alike two sheets are, from 0 for nothing in common to 1,000 for the same: the share of fields that are equal,
/// each with its weight, of those that either has. Two empty sheets are the same.
pub(super) fn likeness(one: &Sheet, other: &Sheet, weight: fn(&str) -> u32) -> u32 {
    let keys = one.keys().chain(other.keys().filter(|key| !one.contains_key(*key)));
    let (mut equal, mut all) = (0, 0);
    for key in keys {
        all += weight(key);
        equal += if one.get(key) == other.get(key) { weight(key) } else { 0 };
    }
    (equal * 1000).checked_div(all).unwrap_or(1000)
}
