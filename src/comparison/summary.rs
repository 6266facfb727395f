//! What differs between two states of a job, in a few short lines for the cover of a paper.
//!
//! In: a comparison. Out: lines without any amount of money, since papers leave the office. May not know: which paper.

use super::opening_match::Altered;
use super::sheet::THERE;
use super::{Change, Comparison, Member, MemberChange};

/// Lines at most; what is left is counted in the last.
const MOST_LINES: usize = 12;
/// Names in a line at most.
const MOST_NAMES: usize = 12;
/// A value longer than this is not printed.
const LONGEST_VALUE: usize = 40;
/// What changed at an opening is told by the names of its fields alone where old and new take more room than this.
const LONGEST_LINE: usize = 120;
/// What stands for something that is not given.
const NOTHING: &str = "not given";

/// Parts of the job file that a paper may name, by their keys. Those that hold amounts are not among them.
const PARTS: [(&str, &str); 6] = [
    ("addendum", "Addenda"),
    ("document", "Documents"),
    ("panel", "Panels"),
    ("paragraph", "Paragraphs of the specification"),
    ("run", "Runs"),
    ("site", "Sites"),
];

/// What differs, in short lines; none where nothing does that a paper may tell.
pub fn summary(comparison: &Comparison) -> Vec<String> {
    let openings = &comparison.openings;
    let mut lines = Vec::new();
    let marks = |words: &str, marks: &[String]| (!marks.is_empty()).then(|| format!("{words}: {}", names(marks)));
    lines.extend(marks("Openings added", &openings.added));
    lines.extend(marks("Openings deleted", &openings.removed));
    lines.extend(openings.renumbered.iter().map(renumbered));
    lines.extend(changed(&openings.changed));
    lines.extend(PARTS.iter().flat_map(|(key, word)| of_part(key, word, &comparison.members)));
    if lines.is_empty() {
        // Nothing was typed otherwise in the job: the catalog changed.
        let items: Vec<String> = comparison.quantities.iter().map(|it| it.name.clone()).collect();
        lines.extend(marks("Quantities", &items));
    }
    if lines.len() > MOST_LINES {
        let rest = lines.len() + 1 - MOST_LINES;
        lines.truncate(MOST_LINES - 1);
        lines.push(format!("And {rest} more, marked in their places"));
    }
    lines
}

/// Members of a part that came, went and changed, a line each.
fn of_part(key: &str, word: &str, members: &[Member]) -> Vec<String> {
    let each =
        [(MemberChange::Added, " added"), (MemberChange::Removed, " deleted"), (MemberChange::Changed, " changed")];
    let line = |(became, verb): (MemberChange, &str)| {
        let of = members.iter().filter(|it| it.part == key && it.became == became);
        let all: Vec<String> = of.map(|it| it.name.clone()).collect();
        (!all.is_empty()).then(|| format!("{word}{verb}: {}", names(&all)))
    };
    each.into_iter().filter_map(line).collect()
}

fn renumbered(it: &Altered) -> String {
    let says = says(&whole(&it.changes));
    let more = if says.is_empty() { String::new() } else { format!("; {says}") };
    format!("{} was {}{more}", it.after, it.before)
}

/// Openings that changed alike share a line.
fn changed(openings: &[Altered]) -> Vec<String> {
    let mut alike: Vec<(String, Vec<String>)> = Vec::new();
    for opening in openings {
        let says = says(&whole(&opening.changes));
        match alike.iter_mut().find(|(reported, _)| *reported == says) {
            Some((_, marks)) => marks.push(opening.after.clone()),
            None => alike.push((says, vec![opening.after.clone()])),
        }
    }
    alike.into_iter().map(|(says, marks)| format!("{}: {says}", names(&marks))).collect()
}

/// Changes without the fields of what came or went whole: of a new device only that it is there.
fn whole(changes: &[Change]) -> Vec<&Change> {
    let moved = |it: &&Change| it.before.as_deref() == Some(THERE) || it.after.as_deref() == Some(THERE);
    let moved: Vec<&str> = changes.iter().filter(moved).map(|it| it.field.as_str()).collect();
    let inside = |field: &str| moved.iter().any(|of| field.strip_prefix(of).is_some_and(|rest| rest.starts_with('.')));
    changes.iter().filter(|it| !inside(&it.field)).collect()
}

/// What changed: old and new where that is short, else the names of the fields.
fn says(changes: &[&Change]) -> String {
    let reported: Option<Vec<String>> = changes.iter().map(|it| turned(it)).collect();
    match reported.map(|reported| reported.join("; ")).filter(|reported| reported.chars().count() <= LONGEST_LINE) {
        Some(reported) => reported,
        None => names(&changes.iter().map(|it| plain(&it.field)).collect::<Vec<_>>()),
    }
}

/// What a field was and is, where both are short.
fn turned(change: &Change) -> Option<String> {
    let field = plain(&change.field);
    match (change.before.as_deref(), change.after.as_deref()) {
        (None, Some(THERE)) => Some(format!("{field} added")),
        (Some(THERE), None) => Some(format!("{field} deleted")),
        (before, after) => {
            let (before, after) = (before.unwrap_or(NOTHING), after.unwrap_or(NOTHING));
            let short = before.chars().count() + after.chars().count() <= LONGEST_VALUE;
            short.then(|| format!("{field}, was {before}, is {after}"))
        }
    }
}

fn plain(field: &str) -> String {
    field.replace(['.', '_'], " ")
}

fn names(all: &[String]) -> String {
    match all.len().checked_sub(MOST_NAMES) {
        Some(rest) if rest > 0 => format!("{} and {rest} more", all[..MOST_NAMES].join(", ")),
        _ => all.join(", "),
    }
}
