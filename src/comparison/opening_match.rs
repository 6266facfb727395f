//! Which opening of one job is which opening of another.
//!
//! In: two rolls of openings, each with its mark and its fields. Out: added, removed, renumbered, changed, unchanged.
//! May not know: what is at an opening.
//!
//! The same mark is the same opening. Of the rest, openings that say the same are renumbered, in the order of their rolls.
//! Of what is then left, two are one renumbered and changed opening where they are alike to at least [`ALIKE`] and each is
//! by [`CLEAR`] more alike to the other than to anything else, so that the answer does not hang on the order of the rolls,
//! nor on which of the two jobs came first. Every other opening was added or removed.

use serde::Serialize;

use super::sheet::{Change, Sheet, differences, likeness};

/// Openings at least so much alike, in thousandths, may be one opening with another mark. Versions of a text are taken for
/// one renamed text from about a half on (common practice, no source); an opening shares much with every other of its kind.
pub const ALIKE: u32 = 600;
/// By so much, in thousandths, must the likeness be more than that to any other opening.
pub const CLEAR: u32 = 100;

/// An opening of a roll.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its mark.
    pub mark: String,
    /// Its fields.
    pub fields: Sheet,
}

/// An opening that is in both jobs and differs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Altered {
    /// Its mark before.
    pub before: String,
    /// Its mark after.
    pub after: String,
    /// How much alike the two are, in thousandths; 1,000 where only the mark differs, none where the mark is the same.
    pub alike: Option<u32>,
    /// Fields that differ.
    pub changes: Vec<Change>,
}

/// Two openings that may be one, and are not clearly so.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Candidate {
    /// The mark that is gone.
    pub before: String,
    /// The mark that is new.
    pub after: String,
    /// How much alike they are, in thousandths.
    pub alike: u32,
}

/// What became of the openings.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Openings {
    /// Marks of openings that came.
    pub added: Vec<String>,
    /// Marks of openings that went.
    pub removed: Vec<String>,
    /// Openings with another mark, and perhaps other fields.
    pub renumbered: Vec<Altered>,
    /// Openings with the same mark and other fields.
    pub changed: Vec<Altered>,
    /// Openings that are the same.
    pub unchanged: usize,
    /// Pairs of an added and a removed opening that are alike.
    pub candidates: Vec<Candidate>,
}

impl Openings {
    /// Whether every opening is the same.
    pub fn is_unchanged(&self) -> bool {
        self.added.is_empty() && self.removed.is_empty() && self.renumbered.is_empty() && self.changed.is_empty()
    }
}

/// Weights of fields by which an opening is known again: where it is, how large, how it hangs, what is on it.
fn weight(field: &str) -> u32 {
    let known = ["site", "between", "outside", "operator", "power.panel", "set"];
    let of_leaf = [".width", ".height", ".hinges", ".swing"];
    if known.contains(&field) || of_leaf.iter().any(|end| field.starts_with("leaf ") && field.ends_with(end)) {
        3
    } else {
        1
    }
}

/// Compares two rolls. Marks are unique in each.
pub fn match_openings(before: &[Entry], after: &[Entry]) -> Openings {
    let mut openings = Openings::default();
    let same_mark = |one: &Entry, roll: &'_ [Entry]| roll.iter().position(|it| it.mark == one.mark);
    let mut old: Vec<&Entry> = Vec::new();
    for one in before {
        let Some(at) = same_mark(one, after) else {
            old.push(one);
            continue;
        };
        match differences(&one.fields, &after[at].fields) {
            changes if changes.is_empty() => openings.unchanged += 1,
            changes => openings.changed.push(altered(one, &after[at], None, changes)),
        }
    }
    let mut new: Vec<&Entry> = after.iter().filter(|it| same_mark(it, before).is_none()).collect();
    // A pair leaves both rolls, so the rest of each keeps its order.
    old.retain(|one| match new.iter().position(|it| it.fields == one.fields) {
        None => true,
        Some(at) => {
            let other = new.remove(at);
            openings.renumbered.push(altered(one, other, Some(1000), Vec::new()));
            false
        }
    });
    let pairs = clear_pairs(&old, &new);
    for (at, to, alike) in &pairs {
        let changes = differences(&old[*at].fields, &new[*to].fields);
        openings.renumbered.push(altered(old[*at], new[*to], Some(*alike), changes));
    }
    let rest = |all: &[&Entry], taken: &dyn Fn(usize) -> bool| {
        all.iter().enumerate().filter(|(at, _)| !taken(*at)).map(|(_, it)| it.mark.clone()).collect::<Vec<_>>()
    };
    openings.removed = rest(&old, &|at| pairs.iter().any(|pair| pair.0 == at));
    openings.added = rest(&new, &|at| pairs.iter().any(|pair| pair.1 == at));
    openings.candidates = candidates(&old, &new, &openings);
    openings
}

fn altered(one: &Entry, other: &Entry, alike: Option<u32>, changes: Vec<Change>) -> Altered {
    Altered { before: one.mark.clone(), after: other.mark.clone(), alike, changes }
}

/// Pairs that are alike, and clearly more alike than either is to any other: positions in both, and how much.
fn clear_pairs(old: &[&Entry], new: &[&Entry]) -> Vec<(usize, usize, u32)> {
    let scores: Vec<Vec<u32>> =
        old.iter().map(|one| new.iter().map(|it| likeness(&one.fields, &it.fields, weight)).collect()).collect();
    let rival = |at: usize, to: usize| {
        let in_row = scores[at].iter().enumerate().filter(|(other, _)| *other != to).map(|(_, score)| *score);
        let in_column = scores.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, row)| row[to]);
        in_row.chain(in_column).max().unwrap_or(0)
    };
    let each = (0..old.len()).flat_map(|at| (0..new.len()).map(move |to| (at, to)));
    each.map(|(at, to)| (at, to, scores[at][to]))
        .filter(|(at, to, score)| *score >= ALIKE && *score >= rival(*at, *to) + CLEAR)
        .collect()
}

fn candidates(old: &[&Entry], new: &[&Entry], openings: &Openings) -> Vec<Candidate> {
    let gone = old.iter().filter(|it| openings.removed.contains(&it.mark));
    gone.flat_map(|one| {
        let came = new.iter().filter(|it| openings.added.contains(&it.mark));
        came.map(move |it| Candidate {
            before: one.mark.clone(),
            after: it.mark.clone(),
            alike: likeness(&one.fields, &it.fields, weight),
        })
    })
    .filter(|it| it.alike >= ALIKE)
    .collect()
}

#[cfg(test)]
#[path = "opening_match_tests.rs"]
mod tests;
