//! The settings sheet of an opening: default, target, limit, and room for what was left.
//!
//! In: rows of the catalog, the operator's settings, facts of the drives. Out: rows, and what the operator lacks.
//! May not know: pages.

use serde::Serialize;

use super::super::judging::Unknown;
use super::super::printing::{DASH, listed, or_dash};
use super::super::{Judge, Sources};
use crate::catalog::{OperatorSetting, Setting};
use crate::review::is_low_energy;
use crate::takeoff::{EntityRef, OpeningWork};

/// The settings sheet of an opening.
#[derive(Clone, Debug, Default, Serialize)]
pub struct SettingsSheet {
    /// What is set and measured.
    pub rows: Vec<SettingRow>,
    /// What is set and tried without an instrument.
    pub tried: Vec<SettingRow>,
    /// What others have and this operator lacks, in words; empty where it has all. Left out, it would be looked for.
    pub lacks: String,
    /// Whether two drives are set.
    pub two_drives: bool,
}

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
}

/// What stands for a limit that is reckoned for low energy alone.
const OWN_STANDARD: &str = "full energy: own standard";

/// The settings of an opening, by its position: those that something stands there to be set for.
pub(super) fn settings(sources: &Sources, judge: &Judge, at: usize) -> SettingsSheet {
    let work = &sources.takeoff.arrangement.openings[at];
    let Some(operator) = work.operator else { return SettingsSheet::default() };
    let mut sheet = SettingsSheet { two_drives: work.drives.len() > 1, ..SettingsSheet::default() };
    let mut lacks = Vec::new();
    for setting in sources.catalog.settings.iter().filter(|it| stands(judge, work, at, it)) {
        match operator.settings.get(&setting.id) {
            Some(own) => {
                let list = if setting.instrument.is_some() { &mut sheet.rows } else { &mut sheet.tried };
                list.push(row(work, judge, at, setting, own));
            }
            None => lacks.push(setting.name.clone()),
        }
    }
    sheet.lacks = if lacks.is_empty() { String::new() } else { listed(lacks, "; ") };
    sheet
}

/// Whether a setting has anything to set at any drive of an opening. An unknown fact leaves the row in.
fn stands(judge: &Judge, work: &OpeningWork, at: usize, setting: &Setting) -> bool {
    let mut drives = 0..work.drives.len();
    drives.any(|number| judge.holds(setting.when.as_ref(), EntityRef::Drive(at, number), Unknown::Yes))
}

fn row(work: &OpeningWork, judge: &Judge, at: usize, setting: &Setting, own: &OperatorSetting) -> SettingRow {
    SettingRow {
        name: setting.name.clone(),
        default: default(work, judge, at, setting, own),
        target: or_dash(own.target.as_deref()),
        limit: limit(work, judge, at, setting),
        instrument: or_dash(setting.instrument.as_deref()),
    }
}

/// As delivered: what the operator's mechanics say, or else its own words.
fn default(work: &OpeningWork, judge: &Judge, at: usize, setting: &Setting, own: &OperatorSetting) -> String {
    let mut drives = 0..work.drives.len();
    let said = setting.default_rule.as_ref().zip(drives.next());
    let said = said.and_then(|(rule, drive)| judge.printed(rule, EntityRef::Drive(at, drive)));
    said.unwrap_or_else(|| or_dash(own.default.as_deref()))
}

/// The limit in words, after what its formula comes to for each drive: `4.9 s or slower`.
fn limit(work: &OpeningWork, judge: &Judge, at: usize, setting: &Setting) -> String {
    let words = setting.limit.as_deref();
    let Some(rule) = &setting.limit_rule else { return or_dash(words) };
    if !is_low_energy(&work.opening.entry) {
        return OWN_STANDARD.to_owned();
    }
    let values = (0..work.drives.len()).map(|number| judge.printed(rule, EntityRef::Drive(at, number)));
    let values: Vec<String> = values.map(|it| it.unwrap_or_else(|| "not known".to_owned())).collect();
    let alike = values.windows(2).all(|two| two[0] == two[1]);
    let said = match values.as_slice() {
        [] => DASH.to_owned(),
        [first, ..] if alike => first.clone(),
        _ => {
            let each =
                values.iter().zip(&work.drives).map(|(value, drive)| format!("leaf {}: {value}", drive.leaf + 1));
            listed(each, ", ")
        }
    };
    match words {
        Some(words) => format!("{said} {words}"),
        None => said,
    }
}
