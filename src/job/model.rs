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

use super::entries::{LeafEntry, OpeningEntry};
use super::file_entries::{PrintUnits, StatementKind};
use super::site_entries::{PanelEntry, RunClass, RunEntry, RunKind, SiteEntry, TradeSize};
use super::specification::Paragraph;
use super::submittals::{Section, Submittal, Transmittal};
use crate::findings::Place;
use crate::input::{Date, DateTime};
use crate::measure::Length;
use crate::money::Money;

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
    /// Sites by id.
    pub sites: BTreeMap<String, Site>,
    /// Panels by id.
    pub panels: BTreeMap<String, Panel>,
    /// Openings, in file order; those of alternates only have `base` false. A job that is changed shares those that stay the same.
    pub openings: Vec<Arc<Opening>>,
    /// Runs, in file order.
    pub runs: Vec<Run>,
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

/// The job itself.
#[derive(Clone, Debug)]
pub struct Head {
    /// Number.
    pub number: String,
    /// Name of the project.
    pub name: String,
    /// Solicitation.
    pub solicitation: Option<String>,
    /// Owner.
    pub owner: String,
    /// Firm the bid goes to.
    pub to: String,
    /// Person it goes to.
    pub attention: Option<String>,
    /// Day and hour due; none where it is missing, which holds the bid.
    pub due: Option<DateTime>,
    /// Date of the papers.
    pub date: Date,
    /// Revision.
    pub revision: Option<String>,
    /// Where it stands.
    pub revision_place: Option<Place>,
    /// Units of the papers.
    pub units: PrintUnits,
    /// Editions to review against.
    pub rules: Vec<String>,
    /// Owner's profile.
    pub profile: String,
    /// Jurisdictions.
    pub jurisdictions: Vec<String>,
    /// Number of the contract.
    pub contract: Option<String>,
    /// Section.
    pub section: Option<String>,
    /// Days the price stays open.
    pub valid_days: Option<u32>,
    /// Where those stand.
    pub valid_place: Option<Place>,
    /// Days from award to start.
    pub start_days: Option<u32>,
    /// Days from start to completion.
    pub complete_days: Option<u32>,
    /// Weeks from approval to delivery.
    pub lead_weeks: Option<u32>,
    /// Wage basis.
    pub wages: Option<String>,
    /// Who signs.
    pub signed_by: Option<String>,
    /// Terms of price.
    pub terms: String,
    /// Where the job's table stands.
    pub place: Place,
}

/// A document the bid rests on.
#[derive(Clone, Debug)]
pub struct Document {
    /// Number.
    pub number: String,
    /// Title.
    pub title: String,
    /// Date.
    pub date: Date,
}

/// An addendum.
#[derive(Clone, Debug)]
pub struct Addendum {
    /// Number.
    pub number: String,
    /// Date.
    pub date: Date,
    /// What it changed for us.
    pub changes: Option<String>,
    /// Marks of the openings it touches.
    pub openings: Vec<String>,
    /// Ids of the items whose lines it changes there.
    pub items: Vec<String>,
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
    /// Where it stands.
    pub place: Place,
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
}

/// An opening.
#[derive(Clone, Debug)]
pub struct Opening {
    /// The architect's mark, untouched.
    pub mark: String,
    /// Site's id.
    pub site: String,
    /// The kind it is like.
    pub kind: Option<String>,
    /// Whether it belongs to the base bid.
    pub base: bool,
    /// Its values, kinds and surveys merged in.
    pub entry: OpeningEntry,
    /// Its leaves, with what they share merged in.
    pub leaves: Vec<LeafEntry>,
    /// Surveys made.
    pub surveys: Vec<SurveyMade>,
    /// Where it stands.
    pub place: Place,
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
    /// Where it stands.
    pub place: Place,
}

/// A change of an alternate.
#[derive(Clone, Debug)]
pub struct Change {
    /// Marks.
    pub openings: Vec<String>,
    /// What is different.
    pub with: OpeningEntry,
}

/// An alternate.
#[derive(Clone, Debug)]
pub struct Alternate {
    /// Number.
    pub number: String,
    /// Title.
    pub title: String,
    /// Openings left out.
    pub omits: Vec<String>,
    /// Openings added.
    pub adds: Vec<String>,
    /// Openings changed.
    pub changes: Vec<Change>,
    /// Where it stands.
    pub place: Place,
}

/// What a part of a unit price is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartOf {
    /// An item, by id.
    Item(String),
    /// A task, by id.
    Task(String),
}

/// A part of a unit price.
#[derive(Clone, Debug)]
pub struct UnitPart {
    /// What.
    pub of: PartOf,
    /// How much, in the unit of the item or task.
    pub quantity: crate::measure::Quantity,
    /// Where it stands.
    pub place: Place,
}

/// A unit price.
#[derive(Clone, Debug)]
pub struct UnitPrice {
    /// Number.
    pub number: String,
    /// What it buys.
    pub title: String,
    /// Unit it is offered by.
    pub unit: String,
    /// Parts.
    pub parts: Vec<UnitPart>,
    /// Where it stands.
    pub place: Place,
}

/// An allowance.
#[derive(Clone, Debug)]
pub struct Allowance {
    /// Number.
    pub number: String,
    /// What it is for.
    pub title: String,
    /// Amount.
    pub amount: Money,
    /// Where the amount stands.
    pub place: Place,
}

/// A supplier's quote.
#[derive(Clone, Debug)]
pub struct Quote {
    /// Item's id.
    pub item: String,
    /// Supplier's name.
    pub supplier: String,
    /// Price of one unit.
    pub price: Money,
    /// Day given.
    pub date: Date,
    /// Last day.
    pub valid_to: Date,
    /// Where the price stands.
    pub place: Place,
}

/// An adjustment.
#[derive(Clone, Debug)]
pub struct Adjustment {
    /// What it is.
    pub title: String,
    /// Amount.
    pub amount: Money,
    /// Why.
    pub reason: String,
    /// Where the amount stands.
    pub place: Place,
}

/// An opening set aside.
#[derive(Clone, Debug)]
pub struct SetAside {
    /// Mark.
    pub mark: String,
    /// Why.
    pub reason: String,
}

/// A warning accepted.
#[derive(Clone, Debug)]
pub struct Accepted {
    /// Code.
    pub code: String,
    /// What about; none is everything.
    pub about: Option<String>,
    /// Why.
    pub reason: String,
    /// Where it stands.
    pub place: Place,
}

/// A line added by hand.
#[derive(Clone, Debug)]
pub struct Statement {
    /// Kind.
    pub kind: StatementKind,
    /// The line.
    pub says: String,
    /// Who does it.
    pub by: Option<String>,
}

impl Job {
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
        }
    }
}
