//! What stands where: the entities that rules range over, derived from the openings once and for all.
//!
//! In: a reviewed job and the catalog. Out: sites, panels, circuits, runs, openings with leaves, headers, drives, devices,
//! boxes and fixings. May not know: rules, quantities, prices.
//!
//! What is inferred, from what:
//! hand from outside, hinges and swing; the header's side from arm and swing; drive end from side and hinges; devices from
//! device groups and the jurisdictions' plate heights; boxes from wired devices and headers; circuits from policy, panel
//! and drives; what a run serves from the graph of runs.

mod deriving;
mod fixings;
mod openings;
mod sides;

pub use sides::{room_of, side_of};

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use rustc_hash::FxHashMap;

use crate::catalog::{Arm, Catalog, Operator};
use crate::engineering::{Edge, Hand};
use crate::job::{DeviceEntry, Job, LeafEntry, Opening, Side, Site};
use crate::measure::Length;
use crate::mechanics::{HeaderHold, LeafWeight};
use crate::review::ReviewedJob;

use super::circuits::{CircuitWork, PanelWork};
use super::routes::RunWork;

/// Everything that rules range over.
#[derive(Clone, Debug)]
pub struct Arrangement<'j> {
    /// Sites, in the order of work.
    pub sites: Vec<&'j Site>,
    /// Openings of the bid, in file order.
    pub openings: Vec<OpeningWork<'j>>,
    /// Panels that feed a drive, by id.
    pub panels: Vec<PanelWork>,
    /// Circuits, by panel and number.
    pub circuits: Vec<CircuitWork>,
    /// Runs, in file order.
    pub runs: Vec<RunWork<'j>>,
}

/// The form of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// One leaf.
    Single,
    /// Two leaves that swing the same way.
    Pair,
    /// Two leaves that swing opposite ways.
    DoubleEgress,
}

impl Form {
    /// The word that schedules and rules use.
    pub fn word(self) -> &'static str {
        match self {
            Form::Single => "single",
            Form::Pair => "pair",
            Form::DoubleEgress => "double egress",
        }
    }

    /// Every form.
    pub const ALL: [Form; 3] = [Form::Single, Form::Pair, Form::DoubleEgress];
}

/// An opening with all that stands at it.
#[derive(Clone, Debug)]
pub struct OpeningWork<'j> {
    /// The opening.
    pub opening: &'j Opening,
    /// Its site.
    pub site: &'j Site,
    /// Its operator, where it has one.
    pub operator: Option<&'j Operator>,
    /// Its form.
    pub form: Form,
    /// Its leaves.
    pub leaves: Vec<LeafWork<'j>>,
    /// Its headers.
    pub headers: Vec<HeaderWork<'j>>,
    /// Its drives.
    pub drives: Vec<DriveWork>,
    /// Places of devices as typed.
    pub groups: Vec<GroupWork<'j>>,
    /// Devices.
    pub devices: Vec<DeviceWork<'j>>,
    /// Boxes.
    pub boxes: Vec<BoxWork>,
    /// Joints of headers and arms with what carries them.
    pub fixings: Vec<FixingWork>,
    /// Whether a jurisdiction asks for standby power.
    pub standby_power: bool,
}

/// A leaf.
#[derive(Clone, Debug)]
pub struct LeafWork<'j> {
    /// Its number, from 1.
    pub number: usize,
    /// As typed.
    pub entry: &'j LeafEntry,
    /// Its hand, where the facts tell it.
    pub hand: Option<Hand>,
    /// Its weight and how it is known.
    pub weight: Option<LeafWeight>,
    /// Whether a drive moves it.
    pub powered: bool,
}

/// A header.
#[derive(Clone, Debug)]
pub struct HeaderWork<'j> {
    /// Its number, from 1.
    pub number: usize,
    /// The leaves it spans, as positions in the opening.
    pub leaves: Vec<usize>,
    /// The powered leaves whose drives it carries.
    pub drives: Vec<usize>,
    /// Sum of the widths it spans.
    pub leaf_width: Option<Length>,
    /// The side of the opening it is mounted on.
    pub side: Option<Side>,
    /// The end at which power enters, seen from its own room.
    pub supply_end: Option<Edge>,
    /// Ends that no other header of the opening adjoins: two, or one where each leaf of a pair has a header of its own on
    /// one side. Only at those may it be longer than its leaves are wide.
    pub free_ends: usize,
    /// How it is held, and with which plate; none without an operator.
    pub hold: Option<HeaderHold<'j>>,
}

/// A drive.
#[derive(Clone, Debug)]
pub struct DriveWork {
    /// Its number, from 1.
    pub number: usize,
    /// Position of its header.
    pub header: usize,
    /// Position of its leaf.
    pub leaf: usize,
    /// Its arm.
    pub arm: Option<Arm>,
    /// The end of the header it stands at, seen from the header's own room: also the hand of its bracket.
    pub end: Option<Edge>,
}

/// A place of devices as the job file lists it.
#[derive(Clone, Debug)]
pub struct GroupWork<'j> {
    /// Its id.
    pub id: String,
    /// As typed.
    pub entry: &'j DeviceEntry,
    /// How many devices it makes.
    pub devices: usize,
}

/// A device.
#[derive(Clone, Debug)]
pub struct DeviceWork<'j> {
    /// Its id.
    pub id: String,
    /// As typed.
    pub entry: &'j DeviceEntry,
    /// Its height, after jurisdictions.
    pub height: Option<Length>,
}

/// What a box is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoxFor {
    /// A device, by position.
    Device(usize),
    /// A header, by position.
    Header(usize),
}

/// A box.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoxWork {
    /// What it is for.
    pub of: BoxFor,
    /// What it is fixed to, in the word of a device mount.
    pub mount: &'static str,
    /// Cubic inches that its line conductors need; none for a box without any.
    pub volume: Option<Decimal>,
}

/// A joint of header or arm with what carries it.
#[derive(Clone, Debug)]
pub enum FixingWork {
    /// A header, by position.
    Header(usize),
    /// The arm of a drive, by position.
    Arm(usize),
}

impl<'j> Arrangement<'j> {
    /// Derives everything from a reviewed job.
    pub fn of(reviewed: &'j ReviewedJob, catalog: &'j Catalog) -> Self {
        let job = reviewed.job();
        let openings = job.base_openings().filter_map(|opening| OpeningWork::of(opening, job, catalog)).collect();
        Arrangement::around(openings, job, catalog)
    }

    /// Derives everything from a job that was made of another one by changing openings: an opening that both share is taken
    /// from there. With each opening comes where it was, if nothing is different at it.
    pub(super) fn of_varied(
        reviewed: &'j ReviewedJob,
        catalog: &'j Catalog,
        base: &Arrangement<'j>,
    ) -> (Self, Vec<Option<usize>>) {
        let job = reviewed.job();
        let address = |opening: &Opening| std::ptr::from_ref(opening).addr();
        let known: FxHashMap<usize, usize> =
            base.openings.iter().enumerate().map(|(at, work)| (address(work.opening), at)).collect();
        let works = job.base_openings().filter_map(|opening| match known.get(&address(opening)) {
            Some(was) => Some((base.openings.get(*was)?.clone(), Some(*was))),
            None => Some((OpeningWork::of(opening, job, catalog)?, None)),
        });
        let (openings, was): (Vec<OpeningWork>, Vec<Option<usize>>) = works.unzip();
        let all = Arrangement::around(openings, job, catalog);
        // A circuit that is shared may put other conductors into the boxes of an opening that is the same otherwise.
        let same = |(work, was): (&OpeningWork, Option<usize>)| {
            was.filter(|was| base.openings.get(*was).is_some_and(|it| it.boxes == work.boxes))
        };
        let was = all.openings.iter().zip(was).map(same).collect();
        (all, was)
    }

    fn around(mut openings: Vec<OpeningWork<'j>>, job: &'j Job, catalog: &Catalog) -> Self {
        let mut sites: Vec<&Site> = job.sites.values().collect();
        sites.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
        let (panels, circuits) = super::circuits::plan(job, catalog, &openings);
        let runs = super::routes::plan(job, catalog, &openings, &circuits);
        super::circuits::fill_boxes(job, catalog, &circuits, &mut openings);
        let with_work: BTreeSet<&str> = openings.iter().map(|it| it.site.id.as_str()).collect();
        sites.retain(|site| with_work.contains(site.id.as_str()));
        Arrangement { sites, openings, panels, circuits, runs }
    }

    /// The openings of a site, in file order.
    pub fn openings_of(&self, site: &str) -> impl Iterator<Item = &OpeningWork<'j>> {
        self.openings.iter().filter(move |it| it.site.id == site)
    }
}
