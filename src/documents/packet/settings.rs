//! The settings sheet of an opening: default, target, limit, and room for what was left.
//!
//! In: rows of the catalog, the operator's settings, facts of the drives. Out: rows. May not know: pages.

use serde::Serialize;

use super::super::printing::{DASH, or_dash};
use super::super::{Judge, Sources};
use crate::catalog::Setting;
use crate::takeoff::{EntityRef, OpeningWork};

/// A row of the settings sheet.
#[derive(Clone, Debug, Serialize)]
pub struct SettingRow {
    /// What is set.
    pub name: String,
    /// As delivered.
    pub default: String,
    /// What we set.
    pub target: String,
    /// What it may not pass.
    pub limit: String,
    /// What it is measured with.
    pub instrument: String,
    /// Whether the operator has it.
    pub applies: bool,
}

/// What stands where an operator lacks a setting.
const LACKS: &str = "n/a";

/// The settings of an opening, by its position. A row that the operator lacks says so: left blank it would be looked for.
pub(super) fn settings(sources: &Sources, judge: &Judge, at: usize) -> Vec<SettingRow> {
    let work = &sources.takeoff.arrangement.openings[at];
    let Some(operator) = work.operator else { return Vec::new() };
    let rows = sources.catalog.settings.iter().map(|setting| match operator.settings.get(&setting.id) {
        None => SettingRow {
            name: setting.name.clone(),
            default: LACKS.to_owned(),
            target: LACKS.to_owned(),
            limit: LACKS.to_owned(),
            instrument: LACKS.to_owned(),
            applies: false,
        },
        Some(own) => SettingRow {
            name: setting.name.clone(),
            default: or_dash(own.default.as_deref()),
            target: or_dash(own.target.as_deref()),
            limit: limit(work, judge, at, setting),
            instrument: or_dash(setting.instrument.as_deref()),
            applies: true,
        },
    });
    rows.collect()
}

/// The limit in words, and what its formula comes to for each drive.
fn limit(work: &OpeningWork, judge: &Judge, at: usize, setting: &Setting) -> String {
    let words = setting.limit.clone();
    let Some(rule) = &setting.limit_rule else { return or_dash(words.as_deref()) };
    let several = work.drives.len() > 1;
    let mut values: Vec<String> = Vec::new();
    for number in 0..work.drives.len() {
        let value = judge.printed(rule, EntityRef::Drive(at, number));
        let value = value.unwrap_or_else(|| "not known: ask the office".to_owned());
        let leaf = work.drives[number].leaf + 1;
        values.push(if several { format!("leaf {leaf}: {value}") } else { value });
    }
    let values = if values.is_empty() { DASH.to_owned() } else { values.join(", ") };
    match words {
        Some(words) => format!("{words}: {values}"),
        None => values,
    }
}
