//! The heading of an opening: what a schedule, a form and a packet say of it before anything else.
//!
//! In: sources and an opening. Out: finished strings. May not know: which paper prints them.

use serde::Serialize;

use super::Sources;
use super::printing::{DASH, Printing, amps, listed, or_dash, volts, word};
use crate::engineering::Hand;
use crate::input::Text;
use crate::job::{ExistingEntry, FailState, Rating, Side};
use crate::measure::{Style, Unit, Weight};
use crate::takeoff::{Form, HeaderWork, LeafWork, OpeningWork};

/// The heading of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct Heading {
    /// The architect's mark.
    pub mark: String,
    /// Name of its site.
    pub site: String,
    /// Single, pair or double egress.
    pub form: String,
    /// How many, for a schedule: `1 single`.
    pub quantity: String,
    /// The outside room.
    pub from: String,
    /// The inside room.
    pub to: String,
    /// Letters of its leaves.
    pub hand: String,
    /// Open angles of its leaves.
    pub degree: String,
    /// Width, height, thickness of its leaves.
    pub size: String,
    /// What the leaves are made of.
    pub door: String,
    /// What the frame is made of.
    pub frame: String,
    /// Fire label.
    pub rating: String,
    /// Energy class.
    pub energy: String,
    /// Operator, in plain words.
    pub operator: String,
    /// The same with the energy class that it is set to, where its name does not tell it.
    pub operator_as_set: String,
    /// Finish of header and arms.
    pub finish: String,
    /// The architect's set.
    pub architect_set: String,
    /// Arms of its drives.
    pub arms: String,
    /// The room each header hangs in, with drive and supply ends.
    pub header: String,
    /// What becomes of hardware that is there.
    pub existing: String,
    /// The opening's own notes.
    pub note: String,
}

/// What stands in place of a label.
pub(super) const NO_LABEL: &str = "no label";

/// The heading of an opening.
pub fn heading(sources: &Sources, work: &OpeningWork) -> Heading {
    let typed = &work.opening.entry;
    let printing = Printing::of(sources.reviewed.job());
    let finish = typed.finish.get().map(|id| sources.catalog.finishes.get(id.as_str()).map_or(id.as_str(), |it| it));
    let rating = typed.rating.or(Rating::None);
    let frame = typed.frame.get();
    let (operator, energy) = (or_dash(work.operator.map(|operator| operator.name.as_str())), word(&typed.energy));
    Heading {
        mark: work.opening.mark.clone(),
        site: work.site.name.clone(),
        form: work.form.word().to_owned(),
        quantity: quantity(work.form).to_owned(),
        from: or_dash(work.room(Side::Outside)),
        to: or_dash(work.room(Side::Inside)),
        hand: each_leaf(work, |leaf| leaf.hand.map_or(DASH, Hand::letters).to_owned()),
        degree: alike(work, degree),
        size: each_leaf(work, |leaf| leaf_size(leaf, printing)),
        door: alike(work, leaf_made),
        frame: frame.map_or_else(|| DASH.to_owned(), |frame| word(&frame.made)),
        rating: if rating == Rating::None { NO_LABEL.to_owned() } else { rating.word().to_owned() },
        operator_as_set: as_set(&operator, &energy),
        energy,
        operator,
        finish: or_dash(finish),
        architect_set: or_dash(typed.architect_set.get().map(|set| set.as_str())),
        arms: arms(work),
        header: listed(work.headers.iter().map(|header| header_words(work, header)), "; "),
        existing: existing(work),
        note: typed.note.get().into_iter().chain(typed.notes.list()).map(Text::as_str).collect::<Vec<_>>().join("; "),
    }
}

fn as_set(operator: &str, energy: &str) -> String {
    if energy == DASH || operator.contains(energy) {
        operator.to_owned()
    } else {
        format!("{operator}, set to {energy}")
    }
}

fn quantity(form: Form) -> &'static str {
    match form {
        Form::Single => "1 single",
        Form::Pair => "1 pair",
        Form::DoubleEgress => "1 pair, double egress",
    }
}

/// A text of every leaf: once where all are alike, else one after the other.
pub(super) fn each_leaf(work: &OpeningWork, text: impl Fn(&LeafWork) -> String) -> String {
    let all: Vec<String> = work.leaves.iter().map(text).collect();
    match all.as_slice() {
        [first, rest @ ..] if !rest.is_empty() && rest.iter().all(|it| it == first) => format!("both {first}"),
        _ => listed(all, " / "),
    }
}

/// A text of every leaf, once where all are alike, without saying so.
fn alike(work: &OpeningWork, text: impl Fn(&LeafWork) -> String) -> String {
    let said = each_leaf(work, text);
    said.strip_prefix("both ").map(str::to_owned).unwrap_or(said)
}

/// Width, height and thickness of a leaf.
pub(super) fn leaf_size(leaf: &LeafWork, printing: Printing) -> String {
    let entry = leaf.entry;
    let parts = [printing.size_of(&entry.width), printing.size_of(&entry.height), printing.short_of(&entry.thickness)];
    parts.join("\u{a0}× ")
}

fn leaf_made(leaf: &LeafWork) -> String {
    match leaf.entry.gauge.get() {
        Some(gauge) => format!("{}, {}\u{a0}ga", word(&leaf.entry.made), gauge.get()),
        None => word(&leaf.entry.made),
    }
}

/// The open angle of a leaf.
pub(super) fn degree(leaf: &LeafWork) -> String {
    leaf.entry.opens_to.get().map_or_else(|| DASH.to_owned(), |angle| angle.print(0, Style::Page))
}

fn arms(work: &OpeningWork) -> String {
    let arms = work.drives.iter().filter_map(|drive| Some((drive.leaf + 1, drive.arm?)));
    let several = work.drives.len() > 1;
    let words = arms.map(|(leaf, arm)| if several { format!("leaf {leaf}: {arm}") } else { arm.word().to_owned() });
    listed(words, ", ")
}

/// Where a header hangs and which end is which, seen from its own room.
fn header_words(work: &OpeningWork, header: &HeaderWork) -> String {
    let room = header.side.and_then(|side| work.room(side)).unwrap_or("room not given");
    let end = |edge: Option<crate::engineering::Edge>| edge.map_or(DASH, crate::drawings::edge_word);
    let drives = work.drives.iter().filter(|drive| drive.header + 1 == header.number);
    let drives: Vec<&str> = drives.map(|drive| end(drive.end)).collect();
    let which = if work.headers.len() > 1 { format!("header {}: ", header.number) } else { String::new() };
    format!("{which}in {room}; drive {}, power entry {}, facing it", drives.join(" and "), end(header.supply_end))
}

/// What is known of electric hardware that is there: whose it is, what it takes and from where, what it does without power.
pub(super) fn electric_words(it: &ExistingEntry) -> Option<String> {
    let proven = it.proven.get().map(|proven| if *proven { "proven" } else { "not proven" }.to_owned());
    let parts = [
        it.owner.get().map(|owner| format!("of {owner}")),
        it.volts.get().map(|it| volts(*it)),
        it.amps.get().map(|it| amps(*it)),
        it.fails.get().filter(|fails| **fails != FailState::None).map(|fails| fails.word().to_owned()),
        it.fed_by.get().map(|by| format!("on {by}")),
        proven,
    ];
    let words: Vec<String> = parts.into_iter().flatten().collect();
    (!words.is_empty()).then(|| words.join(", "))
}

fn existing(work: &OpeningWork) -> String {
    let of_leaf = |leaf: &LeafWork| {
        let which = if work.leaves.len() > 1 { format!("leaf {}: ", leaf.number) } else { String::new() };
        let each = leaf.entry.existing.list().iter().map(|it| {
            let by = it.by.get().map(|by| format!(" ({by})")).unwrap_or_default();
            let electric = electric_words(it).map(|words| format!(" ({words})")).unwrap_or_default();
            format!("{} – {}{by}{electric}", word(&it.what), word(&it.becomes))
        });
        let parts: Vec<String> = each.collect();
        (!parts.is_empty()).then(|| format!("{which}{}", parts.join(", ")))
    };
    let all: Vec<String> = work.leaves.iter().filter_map(of_leaf).collect();
    if all.is_empty() { "none".to_owned() } else { all.join("; ") }
}

/// The weight of a leaf, and how it is known.
pub(super) fn leaf_weight(leaf: &LeafWork, printing: Printing) -> String {
    match &leaf.weight {
        None => DASH.to_owned(),
        Some(known) => {
            let weight = printing.weight(up(known.weight));
            if known.estimated.is_some() { format!("{weight} (est.)") } else { weight }
        }
    }
}

/// A weight up to the whole pound: what is lifted is never called lighter than it is.
pub(super) fn up(weight: Weight) -> Weight {
    let pounds = weight.number_of(Unit::Pound).map(|pounds| pounds.ceil());
    pounds.and_then(|pounds| Weight::new(pounds, Unit::Pound)).unwrap_or(weight)
}
