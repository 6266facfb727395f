//! The sheets of an opening in the packet.
//!
//! In: sources, an opening, how much had to move. Out: the view of its sheets, and its plan. May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::super::devices::{DeviceRow, device_rows};
use super::super::heading::{Heading, heading};
use super::super::judging::Unknown;
use super::super::printing::{Printing, listed};
use super::super::survey_form::surveys_made;
use super::super::{Judge, Sources};
use super::cutting::{CutRow, cutting};
use super::power::{CircuitRow, RunRow, circuits_of, runs_of};
use super::settings::{SettingRow, settings};
use super::steps::{Detail, Part, StepGroup, steps};
use super::values::{ValueRow, values};
use crate::catalog::NoteKind;
use crate::drawings::{Frame, opening_plan};
use crate::shapes::Drawing;

/// The sheets of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct OpeningSheet {
    /// Its name, such as `opening-sheet.101A`.
    pub name: String,
    /// Heading.
    pub heading: Heading,
    /// Key of its plan; empty where hand or width is not known.
    pub plan: String,
    /// The plan in words.
    pub plan_alt: String,
    /// The plan's scale.
    pub plan_scale: String,
    /// Surveys made.
    pub surveyed: String,
    /// Whether nobody has measured it yet.
    pub not_released: bool,
    /// Whether it has two drives.
    pub two_drives: bool,
    /// Values to check.
    pub values: Vec<ValueRow>,
    /// What to cut, drill and fix.
    pub cutting: Vec<CutRow>,
    /// Circuits.
    pub circuits: Vec<CircuitRow>,
    /// Numbers of its runs, for whoever looks them up on the site sheet.
    pub run_numbers: String,
    /// Runs; empty where they moved.
    pub runs: Vec<RunRow>,
    /// Devices; empty where they moved.
    pub devices: Vec<DeviceRow>,
    /// Cautions of the opening.
    pub cautions: Vec<String>,
    /// Steps in the shop; empty where they moved.
    pub before: Vec<StepGroup>,
    /// Steps on the site; names alone where their words moved.
    pub steps: Vec<StepGroup>,
    /// Settings; empty where they moved.
    pub settings: Vec<SettingRow>,
    /// What moved to the site sheet, in words; empty where nothing did.
    pub moved: String,
}

/// The sheets of an opening, by its position. `moved` of [`super::MOVES`] stand on the site sheet.
pub(super) fn sheet(
    sources: &Sources,
    judge: &Judge,
    at: usize,
    moved: usize,
    drawings: &mut BTreeMap<String, Drawing>,
) -> OpeningSheet {
    let work = &sources.takeoff.arrangement.openings[at];
    let mark = &work.opening.mark;
    let inch = Printing::of(sources.cleared.job()).is_inch();
    let frame = Frame { width: 232.0, height: 214.0, text: 9.5 };
    let key = format!("plan.{mark}");
    let drawing = opening_plan(work, inch, frame);
    let (plan_alt, plan_scale) = drawing.as_ref().map(|it| (it.alt.clone(), it.scale.clone())).unwrap_or_default();
    let plan = if drawing.is_some() { key.clone() } else { String::new() };
    drawings.extend(drawing.map(|drawing| (key, drawing)));
    let here = |of: crate::takeoff::EntityRef| of.opening() == Some(at);
    // The ranks are the positions of `MOVES`, from 1.
    let stays = |rank: usize| moved < rank;
    let detail = if stays(1) { Detail::Words } else { Detail::Names };
    let runs = runs_of(sources, at);
    OpeningSheet {
        name: format!("{}{mark}", super::OPENING_SHEET),
        heading: heading(sources, at),
        plan,
        plan_alt,
        plan_scale,
        surveyed: surveys_made(work),
        not_released: work.opening.surveys.is_empty(),
        two_drives: work.drives.len() > 1,
        values: values(sources, work),
        cutting: cutting(sources, judge, at),
        circuits: circuits_of(sources, at),
        before: if stays(2) { steps(sources, Part::Before, detail, here) } else { Vec::new() },
        run_numbers: listed(runs.iter().map(|run| run.number.clone()), ", "),
        runs: if stays(3) { runs } else { Vec::new() },
        devices: if stays(4) { device_rows(sources, at) } else { Vec::new() },
        settings: if stays(5) { settings(sources, judge, at) } else { Vec::new() },
        cautions: judge.notes_at(NoteKind::Caution, at, Unknown::Yes).iter().map(|note| note.says.clone()).collect(),
        steps: steps(sources, Part::OnSite, detail, here),
        moved: super::MOVES[..moved.min(super::MOVES.len())].join(", "),
    }
}
