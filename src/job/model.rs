//! The checked job: every reference holds, kinds are merged in, survey records lie over what the drawings said.
//!
//! In: nothing. Out: plain types where a value must be there, and slots where a person may not know it yet.
//! May not know: hands, quantities, prices.
//!
//! Job
//! ├ head ─ number, name, owner, to, due, date, revision, profile, terms
//! ├ documents, addenda, sites, panels, runs
//! ├ sections, submittals, transmittals with their rounds
//! ├ openings ─ entry (frame, power, ceiling, devices), leaves, surveys
//! └ alternates, unit prices, allowances, quotes, adjustments, set aside, accepted, statements

use std::collections::BTreeMap;
use std::sync::Arc;

use super::entries::{DeviceEntry, LeafEntry, OpeningEntry, PowerEntry};
use super::file_entries::{Accepted, Addendum, Document, Head, SetAside, Statement};
use super::price_entries::{Adjustment, Allowance, Alternate, Quote, UnitPrice};
use super::remeasured::Remeasured;
use super::site_entries::{PanelEntry, RunClass, RunEntry, RunKind, SiteEntry, TradeSize};
use super::specification_entries::Paragraph;
use super::submittal_entries::{Section, Submittal, Transmittal};
use super::words::DeviceKind;
use crate::findings::Place;
use crate::input::Date;
use crate::measure::Length;

/// A checked job.
#[derive(Clone, Debug)]
pub struct Job {
    /// The job itself.
    pub head: Head,
    /// Documents the bid rests on.
    pub documents: Vec<Document>,
    /// Addenda.
    pub addenda: Vec<Addendum>,
    /// Sections of the project manual we submit under, besides the job's own.
    pub sections: Vec<Section>,
    /// What is sent for review together.
    pub submittals: Vec<Submittal>,
    /// What was sent, a section each, and what came back.
    pub transmittals: Vec<Transmittal>,
    /// Transmittals that were typed and cannot be read, which was reported: the id of the submittal that each is most likely of, or
    /// none where it may be of any. What they are of may not be called missing.
    pub transmittals_unread: Vec<Option<String>>,
    /// Sites by id.
    pub sites: BTreeMap<String, Site>,
    /// Panels by id.
    pub panels: BTreeMap<String, Panel>,
    /// Openings, in file order; those of alternates only have `base` false. A job that is changed shares those that stay the same.
    pub openings: Vec<Arc<Opening>>,
    /// Runs, in file order.
    pub runs: Vec<Run>,
    /// Whether a run was typed that cannot be read or ends nowhere, which was reported: none may be called missing then.
    pub runs_unread: bool,
    /// Alternates.
    pub alternates: Vec<Alternate>,
    /// Unit prices.
    pub unit_prices: Vec<UnitPrice>,
    /// Allowances.
    pub allowances: Vec<Allowance>,
    /// Quotes by item.
    pub quotes: BTreeMap<String, Quote>,
    /// Adjustments.
    pub adjustments: Vec<Adjustment>,
    /// Openings set aside.
    pub set_aside: Vec<SetAside>,
    /// Warnings accepted.
    pub accepted: Vec<Accepted>,
    /// Lines added by hand.
    pub statements: Vec<Statement>,
    /// Paragraphs of the specification, in file order.
    pub paragraphs: Vec<Paragraph>,
}

/// A site.
#[derive(Clone, Debug)]
pub struct Site {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Address.
    pub address: String,
    /// Place in the order of work.
    pub order: u32,
    /// The rest, as typed.
    pub entry: SiteEntry,
}

/// A panel.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Id.
    pub id: String,
    /// Site's id.
    pub site: String,
    /// The rest, as typed.
    pub entry: PanelEntry,
}

/// A survey that was made at an opening.
#[derive(Clone, Debug)]
pub struct SurveyMade {
    /// First or second pass.
    pub pass: u32,
    /// The day.
    pub seen: Date,
    /// The person.
    pub by: String,
    /// Where its day is typed.
    pub place: Place,
}

/// An opening.
#[derive(Clone, Debug)]
pub struct Opening {
    /// The architect's mark, untouched.
    pub mark: String,
    /// Site's id.
    pub site: String,
    /// Whether it belongs to the base bid.
    pub base: bool,
    /// Its values, kinds and surveys merged in.
    pub entry: OpeningEntry,
    /// Its leaves, with what they share merged in.
    pub leaves: Vec<LeafEntry>,
    /// Surveys made.
    pub surveys: Vec<SurveyMade>,
    /// Whether a survey was typed that cannot be read and may be of this opening; it was reported.
    pub survey_unread: bool,
    /// What surveys state otherwise than what was said before them.
    pub remeasured: Vec<Remeasured>,
    /// Where it stands.
    pub place: Place,
}

impl Opening {
    /// Heights of the devices that one entry makes: as typed of it, of plates else those of the opening or of the local amendment,
    /// else its one height. Each is none where it is not known.
    pub fn heights_of(&self, device: &DeviceEntry, local: &[Length]) -> Vec<Option<Length>> {
        let plate = device.kind.get() == Some(&DeviceKind::Plate);
        let of_opening = self.entry.plate_heights.list();
        let of_plates = if of_opening.is_empty() { local } else { of_opening };
        match device.heights.list() {
            [] if plate && !of_plates.is_empty() => of_plates.iter().copied().map(Some).collect(),
            [] => vec![device.height.cloned()],
            typed => typed.iter().copied().map(Some).collect(),
        }
    }
}

/// The end of a run.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RunEnd {
    /// A panel, by id.
    Panel(String),
    /// An opening, by mark.
    Opening(String),
    /// A device of an opening: mark and device id.
    Device(String, String),
    /// A box of the site that other runs share.
    Box(String),
    /// Where a run goes on as another kind of raceway: its number and the part before.
    Joint(usize, usize),
}

/// A run of raceway or cable.
#[derive(Clone, Debug)]
pub struct Run {
    /// Its number in file order, from 1.
    pub number: usize,
    /// Where it starts.
    pub from: RunEnd,
    /// Where it ends.
    pub to: RunEnd,
    /// Site's id.
    pub site: String,
    /// Kind.
    pub kind: RunKind,
    /// Class.
    pub class: RunClass,
    /// Size typed, if any.
    pub size: Option<TradeSize>,
    /// Length.
    pub length: Length,
    /// Bends in degrees.
    pub bends: Vec<u32>,
    /// The rest, as typed.
    pub entry: RunEntry,
    /// Where it stands; of an assumed run that which it leads to.
    pub place: Place,
    /// Which part of a run it is, from 1, and the ends of the whole; nothing of a run of one kind.
    pub part: Option<RunPart>,
    /// What the length of a run that nobody laid out is made of, in words; nothing of a run that is typed.
    pub assumed: Option<String>,
}

/// A part of a run that goes on as another kind of raceway.
#[derive(Clone, Debug)]
pub struct RunPart {
    /// Which, from 1.
    pub number: usize,
    /// Where the whole run starts and ends.
    pub whole: (RunEnd, RunEnd),
}

impl Run {
    /// Its number, with that of its part: `12`, `12.2`.
    pub fn label(&self) -> String {
        match &self.part {
            Some(part) => format!("{}.{}", self.number, part.number),
            None => self.number.to_string(),
        }
    }

    /// Where the whole run starts and ends.
    pub fn whole(&self) -> [&RunEnd; 2] {
        self.part.as_ref().map_or([&self.from, &self.to], |part| [&part.whole.0, &part.whole.1])
    }
}

impl RunEnd {
    /// The mark of the opening that it is or whose device it is.
    pub fn opening(&self) -> Option<&str> {
        match self {
            RunEnd::Opening(mark) | RunEnd::Device(mark, _) => Some(mark),
            RunEnd::Panel(_) | RunEnd::Box(_) | RunEnd::Joint(..) => None,
        }
    }
}

impl Job {
    /// The circuit that is there and that an opening joins, by its position among those of its panel; none where it names none, or
    /// one that its panel does not list.
    pub fn joined_circuit(&self, power: &PowerEntry) -> Option<usize> {
        let wanted = power.circuit.get()?;
        let panel = self.panels.get(power.panel.get()?.as_str())?;
        panel.entry.circuit.list().iter().position(|it| it.number.get() == Some(wanted))
    }

    /// Finds an opening by its mark.
    pub fn opening(&self, mark: &str) -> Option<&Opening> {
        self.openings.iter().map(Arc::as_ref).find(|opening| opening.mark == mark)
    }

    /// The openings that are priced in the base bid: neither set aside nor of an alternate only.
    pub fn base_openings(&self) -> impl Iterator<Item = &Opening> {
        self.openings.iter().map(Arc::as_ref).filter(|opening| opening.base && !self.is_set_aside(&opening.mark))
    }

    /// Whether an opening is set aside.
    pub fn is_set_aside(&self, mark: &str) -> bool {
        self.set_aside.iter().any(|aside| aside.mark == mark)
    }
}

impl Opening {
    /// The mark of the other opening of its vestibule, where it has one.
    pub fn partner(&self) -> Option<&str> {
        Some(self.entry.vestibule.get()?.partner.get()?.as_str())
    }

    /// Whether it was measured a second time, so that what is made for it may be ordered.
    pub fn is_measured_twice(&self) -> bool {
        self.surveys.iter().any(|survey| survey.pass >= 2)
    }
}

impl std::fmt::Display for RunEnd {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            RunEnd::Panel(name) | RunEnd::Opening(name) | RunEnd::Box(name) => f.write_str(name),
            RunEnd::Device(mark, device) => write!(f, "{mark}/{device}"),
            RunEnd::Joint(run, part) => write!(f, "joint {run}.{part}"),
        }
    }
}
