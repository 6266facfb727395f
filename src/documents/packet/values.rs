//! Surveyed values beside an empty column for what is found, each with its tolerance.
//!
//! In: an opening. Out: rows. May not know: pages.
//!
//! Tolerances: 1/8 in on leaf and frame, the rod's own on the reveal, and for room and clearance the operator's least
//! (common practice, no source, but for what the catalog gives). Outside of them: stop and call.

use serde::Serialize;

use super::super::Sources;
use super::super::heading::leaf_weight;
use super::super::printing::{DASH, Printing, word};
use super::super::survey_form::standing;
use crate::catalog::Substrate;
use crate::job::LeafEntry;
use crate::measure::Length;
use crate::reading::Slot;
use crate::takeoff::OpeningWork;

/// A value to be checked before anything is drilled.
#[derive(Clone, Debug, Serialize)]
pub struct ValueRow {
    /// What it is.
    pub name: String,
    /// Its value.
    pub value: String,
    /// How it is known.
    pub standing: String,
    /// What is still right.
    pub tolerance: String,
}

/// How far leaf and frame may be off: 1/8 in (common practice, no source).
const OFF: Length = Length::sixty_fourths(8);

/// The values of an opening.
pub(super) fn values(sources: &Sources, work: &OpeningWork) -> Vec<ValueRow> {
    let printing = Printing::of(sources.cleared.job());
    let mut rows: Vec<ValueRow> = work.leaves.iter().flat_map(|leaf| leaf_rows(work, leaf, printing)).collect();
    let Some(frame) = work.opening.entry.frame.get() else { return rows };
    let off = |length: Length| format!("±\u{a0}{}", printing.short(length));
    let least = |length: Option<Length>| {
        length.map_or_else(|| DASH.to_owned(), |it| format!("at least {}", printing.short(it)))
    };
    let rod = work.operator.and_then(|it| it.rod.as_ref()).map_or(OFF, |rod| rod.tolerance);
    let row = |name: &str, slot: &Slot<Length>, tolerance: String| ValueRow {
        name: name.to_owned(),
        value: printing.short_of(slot),
        standing: standing(work, Some(slot)),
        tolerance,
    };
    rows.push(row("Frame face at the head", &frame.face, off(OFF)));
    rows.push(row("Frame depth", &frame.depth, off(OFF)));
    rows.push(row("Reveal", &frame.reveal, off(rod)));
    rows.push(row("Head room", &frame.head_room, least(work.operator.map(|it| it.head_room))));
    rows.push(row(
        "Clear depth for the header",
        &frame.face_clearance,
        least(work.operator.map(|it| it.face_clearance)),
    ));
    rows.push(ValueRow {
        name: "Header fixed to".to_owned(),
        value: frame.fixed_to.or(Substrate::Unknown).word().to_owned(),
        standing: standing(work, Some(&frame.fixed_to)),
        tolerance: "the same".to_owned(),
    });
    rows
}

fn leaf_rows(work: &OpeningWork, leaf: &crate::takeoff::LeafWork, printing: Printing) -> Vec<ValueRow> {
    let entry: &LeafEntry = leaf.entry;
    let named =
        |name: &str| if work.leaves.len() > 1 { format!("Leaf {}: {name}", leaf.number) } else { capital(name) };
    let off = format!("±\u{a0}{}", printing.short(OFF));
    let row = |name: &str, value: String, standing: String, tolerance: &str| ValueRow {
        name: named(name),
        value,
        standing,
        tolerance: tolerance.to_owned(),
    };
    let mut rows = vec![
        row("leaf width", printing.size_of(&entry.width), standing(work, Some(&entry.width)), &off),
        row("leaf height", printing.size_of(&entry.height), standing(work, Some(&entry.height)), &off),
    ];
    if leaf.powered {
        let made = format!("{}, {}", word(&entry.made), printing.short_of(&entry.thickness));
        rows.push(row("made of, thickness", made, standing(work, Some(&entry.made)), "the same"));
        let known = match &leaf.weight {
            Some(weight) if weight.estimated.is_some() => "estimated".to_owned(),
            _ => standing(work, Some(&entry.weight)),
        };
        let most =
            work.operator.map_or_else(|| DASH.to_owned(), |it| format!("at most {}", printing.weight(it.heaviest)));
        rows.push(row("weight", leaf_weight(leaf, printing), known, &most));
    }
    rows
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
