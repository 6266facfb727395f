//! The settings sheet of an opening: default, target, limit, and room for what was left.
//!
//! In: rows of the catalog, the operator's settings, facts of the drives. Out: rows, and what the operator lacks.
//! May not know: pages.

use serde::Serialize;

use super::super::conditions::Unknown;
use super::super::printing::{DASH, listed, or_dash};
use super::super::{ConditionEvaluator, Sources};
use crate::catalog::{OperatorSetting, Setting};
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

impl SettingsSheet {
    /// Whether there is nothing to set.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty() && self.tried.is_empty() && self.lacks.is_empty()
    }
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

/// What stands for a limit that is not asked of the opening's class.
const OWN_STANDARD: &str = "full energy: A156.10";

/// What stands for a target or a limit that hangs on a fact nobody knows.
const ASK: &str = "energy class not known: call";

/// The settings of an opening, by its position: those that something stands there to be set for.
pub(super) fn settings(sources: &Sources, conditions: &ConditionEvaluator, at: usize) -> SettingsSheet {
    let Some(work) = sources.takeoff.arrangement.openings.get(at) else { return SettingsSheet::default() };
    let Some(operator) = work.operator else { return SettingsSheet::default() };
    let mut sheet = SettingsSheet { two_drives: work.drives.len() > 1, ..SettingsSheet::default() };
    let mut lacks = Vec::new();
    for setting in sources.catalog.settings.iter().filter(|it| stands(conditions, work, at, it)) {
        match operator.settings.get(&setting.id) {
            Some(own) => {
                let list = if setting.instrument.is_some() { &mut sheet.rows } else { &mut sheet.tried };
                list.push(row(work, conditions, at, setting, own));
            }
            None => lacks.push(setting.name.clone()),
        }
    }
    sheet.lacks = if lacks.is_empty() { String::new() } else { listed(lacks, "; ") };
    sheet
}

/// Whether a setting has anything to set at any drive of an opening. An unknown fact leaves the row in.
fn stands(conditions: &ConditionEvaluator, work: &OpeningWork, at: usize, setting: &Setting) -> bool {
    let mut drives = 0..work.drives.len();
    drives.any(|number| conditions.holds(setting.when.as_ref(), EntityRef::Drive(at, number), Unknown::Yes))
}

fn row(
    work: &OpeningWork,
    conditions: &ConditionEvaluator,
    at: usize,
    setting: &Setting,
    own: &OperatorSetting,
) -> SettingRow {
    let drives = work.drives.iter().enumerate().map(|(number, drive)| (EntityRef::Drive(at, number), drive.leaf + 1));
    let drives: Vec<(EntityRef, usize)> = drives.collect();
    SettingRow {
        name: setting.name.clone(),
        default: by_drive(&drives, |drive| default(conditions, setting, own, drive)),
        target: by_drive(&drives, |drive| target(conditions, own, drive)),
        limit: limit(conditions, setting, &drives),
        instrument: or_dash(setting.instrument.as_deref()),
    }
}

/// As delivered: what the operator's mechanics say, or else its own words.
fn default(conditions: &ConditionEvaluator, setting: &Setting, own: &OperatorSetting, drive: EntityRef) -> String {
    let said = setting.default_rule.as_ref().and_then(|rule| conditions.printed(rule, drive));
    said.unwrap_or_else(|| or_dash(own.default.as_deref()))
}

/// What is set at a drive: the target of the first case that holds, or else the setting's own. Where a case cannot be
/// decided neither is printed, for a leaf set by the target of another class may strike someone.
fn target(conditions: &ConditionEvaluator, own: &OperatorSetting, drive: EntityRef) -> String {
    for (when, target) in &own.cases {
        match conditions.decided(Some(when), drive) {
            Some(true) => return target.clone(),
            Some(false) => {}
            None => return ASK.to_owned(),
        }
    }
    or_dash(own.target.as_deref())
}

/// The limit in words, after what its formula comes to for each drive: `4.9 s or slower`.
fn limit(conditions: &ConditionEvaluator, setting: &Setting, drives: &[(EntityRef, usize)]) -> String {
    let asked = drives.iter().map(|(drive, _)| conditions.decided(setting.limit_when.as_ref(), *drive));
    let words = setting.limit.as_deref();
    match (asked.min().unwrap_or(Some(true)), &setting.limit_rule) {
        (None, _) => ASK.to_owned(),
        (Some(false), _) => OWN_STANDARD.to_owned(),
        (Some(true), None) => or_dash(words),
        (Some(true), Some(rule)) => {
            let said =
                by_drive(drives, |drive| conditions.printed(rule, drive).unwrap_or_else(|| "not known".to_owned()));
            listed([Some(said), words.map(str::to_owned)].into_iter().flatten(), " ")
        }
    }
}

/// What is said of the drives: once where it is the same of all, else by their leaves.
fn by_drive(drives: &[(EntityRef, usize)], says: impl Fn(EntityRef) -> String) -> String {
    let said: Vec<(String, usize)> = drives.iter().map(|(drive, leaf)| (says(*drive), *leaf)).collect();
    match said.as_slice() {
        [] => DASH.to_owned(),
        [(first, _), rest @ ..] if rest.iter().all(|(other, _)| other == first) => first.clone(),
        _ => listed(said.iter().map(|(words, leaf)| format!("leaf {leaf}: {words}")), ", "),
    }
}
