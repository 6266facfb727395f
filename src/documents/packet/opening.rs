//! The sheets of an opening in the packet.
//!
//! In: sources, an opening, how much had to move. Out: the view of its sheets, its plan, and what moved off them.
//! May not know: pages.

use std::collections::BTreeMap;
use std::mem::take;

use serde::Serialize;

use super::super::conditions::Unknown;
use super::super::devices::{DeviceRow, device_rows};
use super::super::heading::{Heading, heading};
use super::super::printing::Printing;
use super::super::{ConditionEvaluator, Sources};
use super::cutting::{CutRow, cutting};
use super::facts::facts;
use super::power::{RunRow, circuits_of, runs_of};
use super::settings::{SettingsSheet, settings};
use super::steps::{StepGroup, steps, unnamed};
use super::values::{ValueRow, frame_values, leaf_values};
use super::{Fact, Move};
use crate::catalog::NoteKind;
use crate::drawings::{Frame, opening_plan};
use crate::shapes::Drawing;
use crate::takeoff::OpeningWork;

/// The sheets of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct OpeningSheet {
    /// Its name, such as `opening-sheet.101A`.
    pub name: String,
    /// Its mark, and where its names stay the rooms it stands between.
    pub title: String,
    /// Heading.
    pub heading: Heading,
    /// Key of its plan; empty where hand or width is not known.
    pub plan: String,
    /// The plan in words.
    pub plan_alt: String,
    /// The plan's scale.
    pub plan_scale: String,
    /// Whether nobody has measured it yet.
    pub not_released: bool,
    /// Values of its leaves to check.
    pub leaf_values: Vec<ValueRow>,
    /// Values of its frame to check.
    pub frame_values: Vec<ValueRow>,
    /// Which leaf a step is done at that names none; empty where there is but one.
    pub unnamed: String,
    /// Whatever stays of what may move.
    pub parts: Parts,
    /// What moved to the site sheet, and to where on it.
    pub away: Away,
}

/// What stands on the site sheet in place of the sheets of its opening.
#[derive(Clone, Debug, Serialize)]
pub struct Away {
    /// Whether its runs do: they stand among those of the site.
    pub runs: bool,
    /// What else does, in words; empty where nothing does.
    pub rest: String,
    /// The id of the place where the rest stands.
    pub to: String,
}

/// What may move from the sheets of an opening to the site sheet, each empty where it stands on the other one.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Parts {
    /// Runs that end at the opening.
    pub runs: Vec<RunRow>,
    /// Devices, those at one place on one row.
    pub devices: Vec<DeviceRow>,
    /// Settings.
    pub settings: SettingsSheet,
    /// Steps on the site, by name.
    pub steps: Vec<StepGroup>,
    /// What it is made of, what is there, where power is.
    pub facts: Vec<Fact>,
    /// What to cut, drill and fix.
    pub cutting: Vec<CutRow>,
    /// Cautions of the opening.
    pub cautions: Vec<String>,
}

impl Parts {
    /// Everything of an opening, by its position.
    fn of(
        sources: &Sources,
        conditions: &ConditionEvaluator,
        (at, work): (usize, &OpeningWork),
        heading: &Heading,
    ) -> Parts {
        let runs = runs_of(sources, at);
        let cautions = conditions.notes_at(NoteKind::Caution, at, Unknown::Yes);
        Parts {
            facts: facts(sources, work, heading, &circuits_of(sources, at), &runs),
            runs: runs.own,
            devices: together(device_rows(sources, at)),
            settings: settings(sources, conditions, at),
            steps: steps(sources, at),
            cutting: cutting(sources, conditions, at),
            cautions: cautions.iter().map(|note| note.says.clone()).collect(),
        }
    }

    /// Takes out what moves where the first `moved` of [`Move`] do.
    fn split(&mut self, moved: usize) -> Parts {
        fn part<T: Default>(from: &mut T, of: Move, moved: usize) -> T {
            if of.stays(moved) { T::default() } else { take(from) }
        }
        Parts {
            runs: part(&mut self.runs, Move::Runs, moved),
            devices: part(&mut self.devices, Move::Devices, moved),
            settings: part(&mut self.settings, Move::Settings, moved),
            steps: part(&mut self.steps, Move::Steps, moved),
            facts: part(&mut self.facts, Move::Names, moved),
            cutting: part(&mut self.cutting, Move::Cutting, moved),
            cautions: part(&mut self.cautions, Move::Cautions, moved),
        }
    }
}

impl Parts {
    /// What they hold but for runs, by the words of [`super::MOVES`].
    pub(super) fn words(&self) -> String {
        let held = [
            (Move::Devices, !self.devices.is_empty()),
            (Move::Settings, !self.settings.is_empty()),
            (Move::Steps, !self.steps.is_empty()),
            (Move::Names, !self.facts.is_empty()),
            (Move::Cutting, !self.cutting.is_empty()),
            (Move::Cautions, !self.cautions.is_empty()),
        ];
        held.iter().filter(|(_, holds)| *holds).map(|(of, _)| of.word()).collect::<Vec<_>>().join(", ")
    }
}

/// The id of the place on the site sheet where stands what moved off the sheets of an opening, by its position.
pub(super) fn place_of_moved(at: usize) -> String {
    format!("moved-{}", at + 1)
}

/// The sheets of an opening, by its position. The first `moved` of [`Move`] stand on the site sheet.
pub(super) fn sheet(
    sources: &Sources,
    conditions: &ConditionEvaluator,
    (at, work): (usize, &OpeningWork),
    moved: usize,
    drawings: &mut BTreeMap<String, Drawing>,
) -> OpeningSheet {
    let mark = &work.opening.mark;
    let inch = Printing::of(sources.reviewed.job()).is_inch();
    let frame = Frame { width: 187.0, height: 172.0, text: 9.5 };
    let key = format!("plan.{mark}");
    let drawing = opening_plan(work, inch, frame);
    let (plan_alt, plan_scale) = drawing.as_ref().map(|it| (it.alt.clone(), it.scale.clone())).unwrap_or_default();
    let plan = if drawing.is_some() { key.clone() } else { String::new() };
    drawings.extend(drawing.map(|drawing| (key, drawing)));
    let heading = heading(sources, work);
    let mut parts = Parts::of(sources, conditions, (at, work), &heading);
    let gone = parts.split(moved);
    let named = Move::Names.stays(moved);
    OpeningSheet {
        name: format!("{}{mark}", super::OPENING_SHEET),
        title: if named { format!("{mark}, {} to {}", heading.from, heading.to) } else { mark.clone() },
        heading,
        plan,
        plan_alt,
        plan_scale,
        not_released: work.opening.surveys.is_empty(),
        leaf_values: leaf_values(sources, work),
        frame_values: frame_values(sources, work),
        unnamed: unnamed(work),
        parts,
        away: Away { runs: !gone.runs.is_empty(), rest: gone.words(), to: place_of_moved(at) },
    }
}

/// What moved off the sheets of an opening, by its position.
pub(super) fn moved_parts(
    sources: &Sources,
    conditions: &ConditionEvaluator,
    (at, work): (usize, &OpeningWork),
    moved: usize,
) -> Parts {
    Parts::of(sources, conditions, (at, work), &heading(sources, work)).split(moved)
}

/// Devices of one place, such as plates at two heights, on one row.
fn together(rows: Vec<DeviceRow>) -> Vec<DeviceRow> {
    let mut out: Vec<DeviceRow> = Vec::new();
    for row in rows {
        match out.last_mut() {
            Some(last) if same_place(last, &row) => {
                add(&mut last.id, &row.id);
                add(&mut last.height, &row.height);
                add(&mut last.runs, &row.runs);
            }
            _ => out.push(row),
        }
    }
    out
}

fn same_place(one: &DeviceRow, other: &DeviceRow) -> bool {
    let place = |row: &DeviceRow| {
        [&row.room, &row.kind, &row.opens, &row.mount, &row.distance, &row.link, &row.live, &row.by].map(String::clone)
    };
    place(one) == place(other)
}

/// Adds to a list in words what is not in it yet.
fn add(to: &mut String, more: &str) {
    if !to.split(", ").any(|it| it == more) {
        *to = format!("{to}, {more}");
    }
}
