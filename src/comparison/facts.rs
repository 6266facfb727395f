//! An opening as a sheet of fields, in the words of the job file.
//!
//! In: an opening of a checked job. Out: its fields by key, kinds and surveys merged in. May not know: other openings.

use std::collections::BTreeMap;

use super::opening_match::Entry;
use super::sheet::{Sheet, THERE};
use crate::input::Record;
use crate::job::{DeviceEntry, Job, Opening};
use crate::measure::System;

/// Every opening of a job, those of alternates too.
pub(super) fn openings_of(job: &Job, system: System) -> Vec<Entry> {
    job.openings.iter().map(|opening| Entry { mark: opening.mark.clone(), fields: fields(opening, system) }).collect()
}

fn fields(opening: &Opening, system: System) -> Sheet {
    let mut sheet = Sheet::new();
    let merged = opening.entry.readable(system);
    // The mark is the opening's name, and what leaves share was merged into each; devices go by their ids.
    let outer = merged
        .into_iter()
        .filter(|(path, _)| path != "mark" && path != "like" && !is_inside(path, "leaf") && !is_inside(path, "device"));
    sheet.extend(outer);
    sheet.insert("site".to_owned(), opening.site.clone());
    for (at, leaf) in opening.leaves.iter().enumerate() {
        sheet.extend(leaf.readable(system).into_iter().map(|(path, value)| (format!("leaf {}.{path}", at + 1), value)));
    }
    for (at, device) in opening.entry.device.list().iter().enumerate() {
        let name = name_of(device, at);
        let inside = device.readable(system).into_iter().filter(|(path, _)| path != "id");
        sheet.extend(inside.map(|(path, value)| (format!("device {name}.{path}"), value)));
        // A device of which nothing but its id is typed stands there all the same.
        sheet.insert(format!("device {name}"), THERE.to_owned());
    }
    for survey in &opening.surveys {
        sheet.insert(format!("survey {}", survey.pass), format!("{} by {}", survey.seen, survey.by));
    }
    joined(sheet)
}

fn name_of(device: &DeviceEntry, at: usize) -> String {
    device.id.get().map_or_else(|| format!("D{}", at + 1), |id| id.as_str().to_owned())
}

fn is_inside(path: &str, field: &str) -> bool {
    path.strip_prefix(field).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// Members of a list of plain values as one text: `between.1`, `between.2` are `between`.
fn joined(sheet: Sheet) -> Sheet {
    let member = |key: &str| {
        let (list, number) = key.rsplit_once('.')?;
        Some((list.to_owned(), number.parse::<usize>().ok()?))
    };
    let (mut out, mut lists) = (Sheet::new(), BTreeMap::<String, BTreeMap<usize, String>>::new());
    for (key, value) in sheet {
        match member(&key) {
            Some((list, number)) => drop(lists.entry(list).or_default().insert(number, value)),
            None => drop(out.insert(key, value)),
        }
    }
    out.extend(lists.into_iter().map(|(list, members)| (list, members.into_values().collect::<Vec<_>>().join("; "))));
    out
}
