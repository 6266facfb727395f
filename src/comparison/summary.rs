//! What differs between two states of a job, in a few short lines for the cover of a paper.
//!
//! In: a comparison. Out: lines without any amount of money, since papers leave the office. May not know: which paper.

use std::collections::{BTreeMap, BTreeSet};

use super::roll::Altered;
use super::{Change, Comparison};

/// Lines at most; what is left is counted in the last.
const MOST_LINES: usize = 12;
/// Names in a line at most.
const MOST_NAMES: usize = 12;
/// A value longer than this is not printed.
const LONGEST_VALUE: usize = 40;

/// Parts of the job file that a paper may name, by their keys. Those that hold amounts are not among them.
const PARTS: [(&str, &str); 5] =
    [("addendum", "Addenda"), ("document", "Documents"), ("panel", "Panels"), ("run", "Runs"), ("site", "Sites")];

/// What differs, in short lines; none where nothing does that a paper may tell.
pub fn summary(comparison: &Comparison) -> Vec<String> {
    let openings = &comparison.openings;
    let mut lines = Vec::new();
    let marks = |words: &str, marks: &[String]| (!marks.is_empty()).then(|| format!("{words}: {}", names(marks)));
    lines.extend(marks("Openings added", &openings.added));
    lines.extend(marks("Openings taken out", &openings.removed));
    lines.extend(openings.renumbered.iter().map(renumbered));
    lines.extend(changed(&openings.changed));
    for (key, word) in PARTS {
        let of_part = comparison.elsewhere.iter().filter_map(|it| member(key, &it.field));
        let members: BTreeSet<String> = of_part.collect();
        lines.extend(marks(word, &members.into_iter().collect::<Vec<_>>()));
    }
    if lines.is_empty() {
        // Nothing was typed otherwise in the job: the catalog says something else.
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

fn renumbered(it: &Altered) -> String {
    let fields = fields(&it.changes);
    let more = if fields.is_empty() { String::new() } else { format!("; changed: {}", names(&fields)) };
    format!("{} was {}{more}", it.after, it.before)
}

/// Openings in which the same fields changed share a line.
fn changed(openings: &[Altered]) -> Vec<String> {
    let mut alike: BTreeMap<Vec<String>, Vec<&Altered>> = BTreeMap::new();
    for opening in openings {
        alike.entry(fields(&opening.changes)).or_default().push(opening);
    }
    let mut groups: Vec<(Vec<String>, Vec<&Altered>)> = alike.into_iter().collect();
    // In the order of the roll.
    groups.sort_by_key(|(_, group)| {
        openings.iter().position(|it| group.first().is_some_and(|first| first.after == it.after))
    });
    let line = |(fields, group): (Vec<String>, Vec<&Altered>)| {
        let marks: Vec<String> = group.iter().map(|it| it.after.clone()).collect();
        let says = turned(&group).unwrap_or_else(|| names(&fields));
        format!("{}: {says}", names(&marks))
    };
    groups.into_iter().map(line).collect()
}

/// A single field that turned from one short value to another, the same in every opening.
fn turned(group: &[&Altered]) -> Option<String> {
    let [Change { field, before: Some(before), after: Some(after) }] = group.first()?.changes.as_slice() else {
        return None;
    };
    let same = group.iter().all(|it| it.changes == group[0].changes);
    let short = before.chars().count() + after.chars().count() <= LONGEST_VALUE;
    (same && short).then(|| format!("{}, was {before}, is {after}", plain(field)))
}

/// What changed, each once: `leaf 1 arm`, `operator`.
fn fields(changes: &[Change]) -> Vec<String> {
    let each: BTreeSet<String> = changes.iter().map(|it| plain(&it.field)).collect();
    each.into_iter().collect()
}

fn plain(field: &str) -> String {
    field.replace(['.', '_'], " ")
}

/// The member of a part that a field belongs to: `LP-1` of `panel.LP-1.free`.
fn member(part: &str, field: &str) -> Option<String> {
    let rest = field.strip_prefix(part)?.strip_prefix('.')?;
    Some(rest.split('.').next().unwrap_or(rest).to_owned())
}

fn names(all: &[String]) -> String {
    match all.len().checked_sub(MOST_NAMES) {
        Some(rest) if rest > 0 => format!("{} and {rest} more", all[..MOST_NAMES].join(", ")),
        _ => all.join(", "),
    }
}
