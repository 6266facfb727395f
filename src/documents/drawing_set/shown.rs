//! What the drawings of an opening show beyond its own entries: lengths of the takeoff, what review calculates, what editions ask.
//!
//! In: sources, an opening. Out: the opening as it is drawn, or what is not known. May not know: sheets.

use super::super::Sources;
use super::super::printing::Printing;
use super::holding::{back, piece};
use crate::catalog::{ClauseOf, Group};
use crate::drawings::{DrawnClearance, DrawnOpening};
use crate::engineering::Room;
use crate::job::Side;
use crate::measure::Length;
use crate::mechanics::swept;
use crate::review::rooms_to_maneuver;
use crate::takeoff::{EntityRef, OpeningWork, room_of};

/// An opening as it is drawn, with its position.
pub(in crate::documents) fn shown(
    sources: &Sources,
    at: usize,
    work: &OpeningWork,
) -> Result<DrawnOpening, Vec<&'static str>> {
    let mut of = DrawnOpening::of(work, Printing::of(sources.reviewed.job()).is_inch())?;
    for (leaf, drawn) in work.leaves.iter().zip(&mut of.leaves) {
        let arm = work.operator.and_then(|operator| swept(&work.opening.entry, leaf.entry, operator));
        drawn.arm = arm.filter(|_| leaf.powered).map(|it| it.arm);
    }
    for (number, header) in of.headers.iter_mut().enumerate() {
        let taken = piece(sources, EntityRef::Header(at, number), Group::Header);
        header.length = taken.or_else(|| over_leaves(work, number, &header.leaves));
        header.back = back(sources, at, number);
    }
    of.signs = sign_heights(sources);
    of.floor_space = clause(sources, ClauseOf::FloorSpace).and_then(|it| it.least.zip(it.depth));
    of.clearances = clearances(sources, work);
    of.vestibule = vestibule(sources, work);
    Ok(of)
}

/// The lowest and the highest place of the centers of signs, where an edition of the job says so.
fn sign_heights(sources: &Sources) -> Option<(Length, Length)> {
    clause(sources, ClauseOf::Signs).and_then(|it| it.least.zip(it.most))
}

/// Where the centers of signs stand, in words; empty where no edition of the job says so.
pub(super) fn signs(sources: &Sources) -> String {
    let printing = Printing::of(sources.reviewed.job());
    let words = |(low, high): (Length, Length)| {
        format!("center {} to {} above the floor, drawn at mid-height", printing.inches(low), printing.inches(high))
    };
    sign_heights(sources).map(words).unwrap_or_default()
}

/// A header that comes as one piece: over its leaves, and beyond them at its free ends as the operator says.
fn over_leaves(work: &OpeningWork, number: usize, leaves: &[usize]) -> Option<Length> {
    let back = work.operator?.mechanics.as_ref()?.back.as_ref()?;
    let free_ends = i64::try_from(work.headers.get(number)?.free_ends).ok()?;
    let widths = leaves.iter().map(|leaf| work.leaves.get(*leaf)?.entry.width.cloned());
    Some(widths.sum::<Option<Length>>()? + back.past_hinge * free_ends)
}

/// The first clause about a subject in the editions that the job names.
fn clause<'c>(sources: &Sources<'c>, of: ClauseOf) -> Option<&'c crate::catalog::Clause> {
    let editions = sources.reviewed.job().head.rules.iter().filter_map(|id| sources.catalog.editions.get(id));
    editions.flat_map(|edition| &edition.clauses).find(|clause| clause.of == of)
}

fn clearances(sources: &Sources, work: &OpeningWork) -> Vec<DrawnClearance> {
    let leaf = work.leaves.iter().position(|it| it.powered).unwrap_or(0);
    let rooms = rooms_to_maneuver(sources.reviewed.job(), sources.catalog, &work.opening.mark);
    rooms.into_iter().map(|(side, asked)| DrawnClearance { room: room_of(side), leaf, asked }).collect()
}

/// The room that an opening shares with the other door of its vestibule, that door, and how far it is.
fn vestibule(sources: &Sources, work: &OpeningWork) -> Option<(Room, String, Length)> {
    let typed = work.opening.entry.vestibule.get()?;
    let partner = sources.reviewed.job().opening(typed.partner.get()?.as_str())?;
    let shares = |side: Side| {
        let name = work.room(side)?;
        partner.entry.between.list().iter().any(|room| room.as_str() == name).then_some(side)
    };
    let side = shares(Side::Outside).or_else(|| shares(Side::Inside))?;
    Some((room_of(side), partner.mark.clone(), *typed.distance.get()?))
}
