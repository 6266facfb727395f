//! Surveyed values beside an empty column for what is found, each with its tolerance.
//!
//! In: an opening. Out: rows of leaf and frame. May not know: pages.
//!
//! Tolerances: 1/8 in on leaf and frame, the rod's own on the reveal, and for room and clearance the operator's least
//! (common practice, no source, but for what the catalog gives). Outside of them: stop and call.

use serde::Serialize;

use super::super::Sources;
use super::super::heading::leaf_weight;
use super::super::printing::{DASH, Printing, word};
use super::super::survey_form::{pass_words, standing};
use crate::catalog::Substrate;
use crate::input::Slot;
use crate::job::{FrameEntry, Rating};
use crate::measure::Length;
use crate::takeoff::{LeafWork, OpeningWork};

/// A value to be checked before anything is drilled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ValueRow {
    /// What it is.
    pub name: String,
    /// Its value, marked where the last survey did not measure it.
    pub value: String,
    /// What is still right.
    pub tolerance: String,
}

/// How far leaf and frame may be off: 1/8 in (common practice, no source).
const OFF: Length = Length::sixty_fourths(8);

/// Stands behind a value that the last survey did not measure.
pub(super) const NOT_SURVEYED: char = '†';

/// What stands in place of a tolerance where there is no value to hold to.
const ASK: &str = "measure, call";

/// The values of an opening's leaves.
pub(super) fn leaf_values(sources: &Sources, work: &OpeningWork) -> Vec<ValueRow> {
    let printing = Printing::of(sources.reviewed.job());
    let mut rows: Vec<ValueRow> = work.leaves.iter().flat_map(|leaf| leaf_rows(work, leaf, printing)).collect();
    let rating = work.opening.entry.rating.or(Rating::None);
    if rating != Rating::None {
        rows.push(row("Fire label", rating.word().to_owned(), "legible".to_owned()));
    }
    rows
}

/// The values of an opening's frame and of what is around it.
pub(super) fn frame_values(sources: &Sources, work: &OpeningWork) -> Vec<ValueRow> {
    let printing = Printing::of(sources.reviewed.job());
    let empty = FrameEntry::default();
    let frame = work.opening.entry.frame.get().unwrap_or(&empty);
    let off = |length: Length| format!("±\u{a0}{}", printing.short(length));
    let least =
        |length: Option<Length>| length.map_or_else(|| DASH.to_owned(), |it| format!("≥\u{a0}{}", printing.short(it)));
    let rod = work.operator.and_then(|it| it.rod.as_ref()).map_or(OFF, |rod| rod.tolerance);
    let short = |slot: &Slot<Length>| known(work, slot, printing.short_of(slot));
    let fixed = known(work, &frame.fixed_to, frame.fixed_to.or(Substrate::Unknown).word().to_owned());
    vec![
        row("Face × depth", pair(&short(&frame.face), &short(&frame.depth)), off(OFF)),
        row("Reveal", short(&frame.reveal), off(rod)),
        row("Headroom", short(&frame.head_room), least(work.operator.map(|it| it.head_room))),
        row("Clear depth", short(&frame.face_clearance), least(work.operator.map(|it| it.face_clearance))),
        row("Fixed to", fixed, "same".to_owned()),
    ]
}

fn leaf_rows(work: &OpeningWork, leaf: &LeafWork, printing: Printing) -> Vec<ValueRow> {
    let entry = leaf.entry;
    let named = |name: &str| if work.leaves.len() > 1 { format!("{name}, {}", leaf.number) } else { name.to_owned() };
    let off = format!("±\u{a0}{}", printing.short(OFF));
    let width = known(work, &entry.width, printing.size_of(&entry.width));
    let height = known(work, &entry.height, printing.size_of(&entry.height));
    let mut rows = vec![row(&named("W × H"), pair(&width, &height), off.clone())];
    if !leaf.powered {
        return rows;
    }
    let made = known(work, &entry.made, word(&entry.made));
    let thick = known(work, &entry.thickness, printing.short_of(&entry.thickness));
    // The mark of both stands once, behind the last.
    let made = if thick.ends_with(NOT_SURVEYED) { made.trim_end_matches(NOT_SURVEYED) } else { &made };
    rows.push(row(&named("Material"), format!("{made}, {thick}"), "same".to_owned()));
    if entry.stile.get().is_some() {
        rows.push(row(&named("Stile"), known(work, &entry.stile, printing.short_of(&entry.stile)), off));
    }
    if entry.gap.get().is_some() || entry.undercut.get().is_some() {
        let measured = pair(&printing.short_of(&entry.gap), &printing.short_of(&entry.undercut));
        rows.push(row(&named("Gap × undercut"), measured, "same".to_owned()));
    }
    // An estimate says so itself.
    let weight = known(work, &entry.weight, leaf_weight(leaf, printing));
    let most = work.operator.map_or_else(|| DASH.to_owned(), |it| format!("≤\u{a0}{}", printing.weight(it.heaviest)));
    rows.push(row(&named("Weight"), weight, most));
    rows
}

fn pair(one: &str, other: &str) -> String {
    format!("{one}\u{a0}×\u{a0}{other}")
}

/// A row; where there is no value, what is asked is to measure it.
fn row(name: &str, value: String, tolerance: String) -> ValueRow {
    let tolerance = if value.contains(DASH) { ASK.to_owned() } else { tolerance };
    ValueRow { name: name.to_owned(), value, tolerance }
}

/// A printed value; marked where the last survey did not measure it.
fn known<T>(work: &OpeningWork, slot: &Slot<T>, printed: String) -> String {
    if not_by_last(work, slot) { format!("{printed}{NOT_SURVEYED}") } else { printed }
}

/// Whether an opening was surveyed, and a value is known otherwise than by its last survey.
fn not_by_last<T>(work: &OpeningWork, slot: &Slot<T>) -> bool {
    let last = work.opening.surveys.iter().map(|it| it.pass).max();
    // Where nobody has surveyed, the whole sheet says so above.
    slot.get().is_some() && last.is_some_and(|pass| standing(work, Some(slot)) != pass_words(pass))
}
