//! The openings of a set, the index by opening, and the architect's sets that are split.
//!
//! In: sets. Out: finished rows. May not know: pages, items.

use serde::Serialize;

use super::keys::{Keyed, touched, touched_when};
use super::set_names::set_name;
use super::sets::HardwareSet;
use crate::documents::Sources;
use crate::documents::heading::{Heading, heading};
use crate::documents::printing::{DASH, listed};
use crate::measure::Noun;
use crate::takeoff::{Form, OpeningWork};

/// An opening of a set.
#[derive(Clone, Debug, Serialize)]
pub struct SetOpening {
    /// What every paper says of it first.
    pub opening: Heading,
    /// The side its operator stands on, the room, and the end at which power enters.
    pub operator: String,
    /// Numbers of its keyed notes.
    pub notes: String,
    /// Keys and dates of the addenda that touch it.
    pub revision: String,
}

/// A line of the index.
#[derive(Clone, Debug, Serialize)]
pub struct IndexRow {
    /// Mark.
    pub mark: String,
    /// Form and hand.
    pub form: String,
    /// Our set.
    pub set: String,
    /// The architect's set.
    pub architect_set: String,
    /// Keys of the addenda that touch it.
    pub revision: String,
}

/// One of the architect's sets of which openings stand in several of ours.
#[derive(Clone, Debug, Serialize)]
pub struct SplitSet {
    /// As the architect names it.
    pub name: String,
    /// Our sets, with the openings of each.
    pub ours: String,
    /// What tells our sets apart.
    pub differ: String,
}

/// The openings of a set, in file order.
pub(super) fn openings(sources: &Sources, set: &HardwareSet, keyed: &Keyed) -> Vec<SetOpening> {
    let row = |at: &usize| {
        let work = sources.takeoff.arrangement.openings.get(*at)?;
        let opening = heading(sources, work);
        Some(SetOpening {
            operator: operator_side(work),
            notes: keyed.keys(*at),
            revision: touched_when(sources, &opening.mark),
            opening,
        })
    };
    set.openings.iter().filter_map(row).collect()
}

/// The side of the leaf an operator stands on, the room it hangs in, and the end of its header at which power enters.
fn operator_side(work: &OpeningWork) -> String {
    let several = work.headers.len() > 1;
    let each = work.headers.iter().map(|header| {
        let mut sides: Vec<&str> = header
            .drives
            .iter()
            .filter_map(|leaf| work.leaves.get(*leaf)?.operator_side())
            .map(|side| match side {
                crate::engineering::OperatorSide::Push => "push side",
                crate::engineering::OperatorSide::Pull => "pull side",
            })
            .collect();
        sides.dedup();
        let room = header.side.and_then(|side| work.room(side)).unwrap_or("room not given");
        let end = header.supply_end.map_or(DASH, crate::drawings::edge_word);
        let which = if several { format!("{}: ", header.number) } else { String::new() };
        format!("{which}{}, {room}; power entry\u{a0}{end}", sides.join(" and "))
    });
    listed(each, "; ")
}

/// How many openings of which form, such as `2 singles`.
pub(super) fn quantity(form: Form, openings: usize) -> String {
    let noun = match form {
        Form::Single => Noun::SINGLE,
        Form::Pair => Noun::PAIR,
        Form::DoubleEgress => Noun::DOUBLE_EGRESS,
    };
    noun.len(openings)
}

/// The openings of the job in file order, with their sets.
pub(super) fn index(sources: &Sources, sets: &[HardwareSet]) -> Vec<IndexRow> {
    let mut rows: Vec<(usize, IndexRow)> = Vec::new();
    for (number, set) in sets.iter().enumerate() {
        for opening in &set.openings {
            let Some(work) = sources.takeoff.arrangement.openings.get(*opening) else { continue };
            let of = heading(sources, work);
            let row = IndexRow {
                revision: touched(sources, &of.mark),
                mark: of.mark,
                form: format!("{}, {}", of.form, of.hand),
                set: set_name(number),
                architect_set: of.architect_set,
            };
            rows.push((*opening, row));
        }
    }
    rows.sort_by_key(|(opening, _)| *opening);
    rows.into_iter().map(|(_, row)| row).collect()
}

/// Most rows of a part of the index: what a page holds below its title, with room for a row that takes two lines.
const PART: usize = 22;

/// An index in blocks of two parts side by side, each block a page at the most.
pub(super) fn in_blocks(rows: Vec<IndexRow>) -> Vec<Vec<Vec<IndexRow>>> {
    let halves = |block: &[IndexRow]| block.chunks(block.len().div_ceil(2)).map(<[IndexRow]>::to_vec).collect();
    rows.chunks(2 * PART).map(halves).collect()
}

/// The architect's sets that are split, in the order of their first openings.
pub(super) fn split_sets(sources: &Sources, sets: &[HardwareSet]) -> Vec<SplitSet> {
    let openings = &sources.takeoff.arrangement.openings;
    let mut found: Vec<(&str, Vec<Part>)> = Vec::new();
    for (at, work) in openings.iter().enumerate() {
        let ours = sets.iter().position(|set| set.openings.contains(&at));
        let (Some(name), Some(ours)) = (work.opening.entry.architect_set.get(), ours) else { continue };
        if !found.iter().any(|(known, _)| *known == name.as_str()) {
            found.push((name.as_str(), Vec::new()));
        }
        let of_name = found.iter_mut().filter(|(known, _)| *known == name.as_str());
        for (_, parts) in of_name {
            match parts.iter_mut().find(|(set, _)| *set == ours) {
                Some((_, marks)) => marks.push(&work.opening.mark),
                None => parts.push((ours, vec![&work.opening.mark])),
            }
        }
    }
    found.retain(|(_, parts)| parts.len() > 1);
    let row = |(name, parts): (&str, Vec<Part>)| SplitSet {
        name: name.to_owned(),
        ours: listed(parts.iter().map(|(set, marks)| format!("{} ({})", set_name(*set), marks.join(", "))), "; "),
        differ: differences(sets, &parts),
    };
    found.into_iter().map(row).collect()
}

/// One of our sets by position, and marks of openings in it.
type Part<'s> = (usize, Vec<&'s str>);

/// What tells the parts of an architect's set apart, each facet once.
fn differences(sets: &[HardwareSet], parts: &[Part]) -> String {
    let mut facets: Vec<&str> = Vec::new();
    for (one, two) in parts.iter().zip(parts.iter().skip(1)) {
        let (Some(one), Some(two)) = (sets.get(one.0), sets.get(two.0)) else { continue };
        for facet in one.likeness.differs(&two.likeness) {
            if !facets.contains(&facet) {
                facets.push(facet);
            }
        }
    }
    facets.join(", ")
}
