//! What stands beside the plan of an opening: operator, leaf, frame, what is there, what is in the way, power, labels.
//!
//! In: an opening. Out: labels and values in the order an installer asks for them. May not know: pages.

use std::collections::BTreeSet;

use super::super::Sources;
use super::super::heading::{Heading, NO_LABEL};
use super::super::printing::{Printing, listed, or_dash, word};
use super::super::survey_form::surveys_made;
use super::Fact;
use super::power::{CircuitRow, OpeningRuns};
use super::values::NOT_SURVEYED;
use crate::review::header_space::{Clearance, HeaderSpace};
use crate::takeoff::OpeningWork;

/// The facts of an opening.
pub(super) fn facts(
    sources: &Sources,
    work: &OpeningWork,
    heading: &Heading,
    circuits: &[CircuitRow],
    runs: &OpeningRuns,
) -> Vec<Fact> {
    let mut facts = vec![
        fact("Header", heading.header.clone()),
        fact("Operator", operator(heading)),
        fact("Door", door(heading)),
        fact("Survey", survey(work)),
        fact("Existing", heading.existing.clone()),
    ];
    facts.extend(in_the_way(sources, work).map(|it| fact("Obstructions", it)));
    facts.extend(ceiling(sources, work).map(|it| fact("Ceiling", it)));
    facts.extend(
        circuits.iter().map(|it| {
            fact("Power", listed([it.name.clone(), it.place.clone(), it.load.clone(), it.known.clone()], ", "))
        }),
    );
    // Circuits of one panel give one label.
    let labels: BTreeSet<String> = circuits.iter().map(|it| cover_label(work, it)).collect();
    facts.extend(labels.into_iter().map(|it| fact("Cover label", it)));
    facts.extend(run_numbers(runs).map(|it| fact("Runs", it)));
    let programs = work.opening.entry.access.get().and_then(|it| it.programmed_by.get());
    facts.extend(programs.map(|it| fact("Programming", it.as_str().to_owned())));
    if !heading.note.is_empty() {
        facts.push(fact("Note", heading.note.clone()));
    }
    facts
}

fn fact(label: &str, value: String) -> Fact {
    Fact { label: label.to_owned(), value }
}

/// Surveys made, and the mark of values that the last of them did not measure.
fn survey(work: &OpeningWork) -> String {
    match work.opening.surveys.as_slice() {
        [] => "not surveyed; values as drawn or given".to_owned(),
        _ => format!("{} ({NOT_SURVEYED}\u{a0}not by it)", surveys_made(work)),
    }
}

/// What leaf and frame are made of, and their label. Sizes stand in the table of what is measured.
fn door(heading: &Heading) -> String {
    let frame =
        if heading.frame == heading.door { "frame same".to_owned() } else { format!("frame {}", heading.frame) };
    let label = if heading.rating == NO_LABEL { heading.rating.clone() } else { format!("label {}", heading.rating) };
    [heading.door.clone(), frame, label].join("; ")
}

/// Operator, energy class and finish.
fn operator(heading: &Heading) -> String {
    listed([heading.operator_as_set.clone(), heading.finish.clone()], ", ")
}

/// What hangs where header or arm will be, how far it reaches into the space of the header, and what becomes of it.
fn in_the_way(sources: &Sources, work: &OpeningWork) -> Option<String> {
    let printing = Printing::of(sources.reviewed.job());
    let entry = &work.opening.entry;
    let space = work.operator.and_then(|operator| HeaderSpace::of(entry, &work.opening.leaves, operator));
    let words = entry.frame.get()?.in_the_way.list().iter().map(|it| {
        let measured = it.underside.get().map(|height| format!(", underside {}", printing.size(*height)));
        let off = it.distance.get().map(|off| format!(", {} from the wall", printing.short(*off)));
        let short = match space.map(|space| space.clearance_of(it)) {
            Some(Clearance::Short(by)) => format!(" ({} too low for the header)", printing.short(by)),
            _ => String::new(),
        };
        let (measured, off) = (measured.unwrap_or_default(), off.unwrap_or_default());
        format!("{}{measured}{off}{short}: {}", word(&it.what), it.becomes_in_words())
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join("; "))
}

fn ceiling(sources: &Sources, work: &OpeningWork) -> Option<String> {
    let ceiling = work.opening.entry.ceiling.get()?;
    let height = ceiling.height.get().map(|it| format!("at {}", Printing::of(sources.reviewed.job()).size(*it)));
    let air = ceiling.return_air.get().filter(|it| **it).map(|_| "return-air plenum above".to_owned());
    Some(listed([Some(word(&ceiling.kind)), height, air].into_iter().flatten(), ", "))
}

/// What is written at the header and inside of the box: panel, circuit, volts, opening.
fn cover_label(work: &OpeningWork, circuit: &CircuitRow) -> String {
    let number = circuit.number.as_ref().map_or("circuit number as found".to_owned(), |it| format!("circuit {it}"));
    format!("{}, {number}, {}, {}", circuit.panel, or_dash(Some(&circuit.volts)), work.opening.mark)
}

/// Runs that end here, and those that they are fed through.
fn run_numbers(runs: &OpeningRuns) -> Option<String> {
    let own = runs.own.iter().map(|run| run.number.clone()).collect::<Vec<_>>().join(", ");
    let shared = runs.shared.join(", ");
    match (own.is_empty(), shared.is_empty()) {
        (true, true) => None,
        (false, true) => Some(own),
        (true, false) => Some(format!("fed through {shared}")),
        (false, false) => Some(format!("{own}, fed through {shared}")),
    }
}
