//! What each run of raceway or cable serves, and what it needs along its way.
//!
//! In: runs of the job, circuits, devices. Out: circuits and cables on each run, its size, supports, pull boxes, connectors,
//! couplings. May not know: rules, prices.
//!
//! Runs are a graph. Line runs are followed outward from panels, low-voltage runs outward from openings; what lies beyond a
//! run is what it carries. Where two ways lead to one end, the one with fewer runs carries it, and of those the earlier.

use std::collections::BTreeSet;

use rustc_hash::FxHashMap;

use super::arrangement::OpeningWork;
use super::circuits::CircuitWork;
use crate::catalog::Catalog;
use crate::engineering::{
    self, Conductor, FilledRaceway, Raceway, RunGraph, couplings, pull_boxes, pull_length, smallest_size,
    supports_with_pull_boxes,
};
use crate::job::{Job, Link, Run, RunClass, RunEnd, RunKind, TradeSize};
use crate::measure::{Angle, Length};
use crate::review::line_conductor;

/// A run with what it serves and needs.
#[derive(Clone, Debug)]
pub struct RunWork<'j> {
    /// The run.
    pub run: &'j Run,
    /// Trade size: as typed, or the smallest that its circuits fit; never below the owner's least for a raceway.
    pub size: TradeSize,
    /// Supports along it.
    pub supports: u32,
    /// Pull boxes that its bends ask for.
    pub pull_boxes: u32,
    /// Connectors at its ends and pull boxes.
    pub connectors: u32,
    /// Couplings along it.
    pub couplings: u32,
    /// Junction boxes at its ends that no run before it ends at.
    pub junction_boxes: Vec<RunEnd>,
    /// Line circuits on it, as positions.
    pub circuits: Vec<usize>,
    /// Wired devices whose cables are on it: positions of opening and device.
    pub cables: Vec<(usize, usize)>,
}

/// Plans every run of the bid.
pub(super) fn plan<'j>(
    job: &'j Job,
    catalog: &Catalog,
    openings: &[OpeningWork<'j>],
    circuits: &[CircuitWork],
) -> Vec<RunWork<'j>> {
    let least = catalog.profiles.get(&job.head.profile).map_or("1/2", |profile| profile.least_raceway.as_str());
    let least = TradeSize::ALL.iter().copied().find(|size| size.word() == least).unwrap_or(TradeSize::Half);
    let runs: Vec<&Run> = job.runs.iter().filter(|run| job.sites.contains_key(&run.site)).collect();
    let mut works: Vec<RunWork> = Vec::with_capacity(runs.len());
    let mut before: Vec<Angle> = Vec::new();
    for run in &runs {
        // Bends count from box to box, and a joint is none.
        if !matches!(run.from, RunEnd::Joint(..)) {
            before.clear();
        }
        works.push(work(run, least, &mut before));
    }
    let ways = Ways::of(&runs);
    for (at, circuit) in circuits.iter().enumerate() {
        for (opening, _) in &circuit.headers {
            let Some(opening) = openings.get(*opening) else { continue };
            for run in ways.line(&opening.opening.mark) {
                if let Some(work) = works.get_mut(run).filter(|work| !work.circuits.contains(&at)) {
                    work.circuits.push(at);
                }
            }
        }
    }
    for (at, opening) in openings.iter().enumerate() {
        for (number, device) in opening.devices.iter().enumerate() {
            let group = opening.groups.iter().find(|group| std::ptr::eq(group.entry, device.entry));
            let Some(group) = group.filter(|_| device.entry.link.or(Link::Wired) == Link::Wired) else { continue };
            for run in ways.low(&opening.opening.mark, &group.id) {
                if let Some(work) = works.get_mut(run) {
                    work.cables.push((at, number));
                }
            }
        }
    }
    let (conductor, _) = line_conductor(catalog);
    for work in works.iter_mut().filter(|work| work.run.size.is_none()) {
        work.size = work.size.max(size_for(work.run.kind, conductor, work.circuits.len()).unwrap_or(work.size));
    }
    let elsewhere = elsewhere(job, openings, &runs, &ways);
    let carries = |work: &RunWork| !work.circuits.is_empty() || !work.cables.is_empty();
    let kept = works.into_iter().enumerate().filter(|(at, work)| carries(work) || !elsewhere.contains(at));
    let mut kept: Vec<RunWork> = kept.map(|(_, work)| work).collect();
    let mut known: BTreeSet<(&str, &RunEnd)> = BTreeSet::new();
    for work in &mut kept {
        let ends = [&work.run.from, &work.run.to].into_iter().filter(|end| matches!(end, RunEnd::Box(_)));
        let new = ends.filter(|end| known.insert((work.run.site.as_str(), end)));
        work.junction_boxes = new.cloned().collect();
    }
    kept
}

/// The smallest size that takes two conductors for each circuit and a ground; nothing for what is not filled by
/// area, or carries no circuit.
fn size_for(kind: RunKind, conductor: Conductor, circuits: usize) -> Option<TradeSize> {
    let raceway = match kind {
        RunKind::Emt => FilledRaceway::Emt,
        RunKind::Flexible => FilledRaceway::Fmc,
        RunKind::LiquidTight => FilledRaceway::Lfmc,
        RunKind::Surface | RunKind::Cable => return None,
    };
    let count = u32::try_from(circuits).ok().filter(|count| *count > 0)?.checked_mul(2)?.checked_add(1)?;
    let (size, _) = smallest_size(&[(conductor, count)], raceway, engineering::TradeSize::Half).ok()?;
    TradeSize::ALL.iter().copied().find(|it| engineering::TradeSize::parse(it.word()) == Some(size))
}

/// The ways through the runs of each class.
struct Ways<'j> {
    line: ClassWays<'j>,
    low: ClassWays<'j>,
}

/// The ways through the runs of a class, and which runs those are.
struct ClassWays<'j> {
    graph: RunGraph<'j, RunEnd>,
    runs: Vec<usize>,
}

impl<'j> Ways<'j> {
    fn of(runs: &[&'j Run]) -> Self {
        let class = |class: RunClass| {
            let of_class = || runs.iter().enumerate().filter(|(_, run)| run.class == class);
            let ends = of_class().map(|(_, run)| (&run.from, &run.to)).collect();
            ClassWays { graph: RunGraph::of(ends), runs: of_class().map(|(at, _)| at).collect() }
        };
        Ways { line: class(RunClass::Line), low: class(RunClass::Low) }
    }

    /// The runs from an opening to its panel.
    fn line(&self, mark: &str) -> Vec<usize> {
        self.line.from(&RunEnd::Opening(mark.to_owned()), |end| matches!(end, RunEnd::Panel(_)))
    }

    /// The runs from a device to its opening.
    fn low(&self, mark: &str, device: &str) -> Vec<usize> {
        let from = RunEnd::Device(mark.to_owned(), device.to_owned());
        self.low.from(&from, |end| matches!(end, RunEnd::Opening(it) if it == mark))
    }
}

impl ClassWays<'_> {
    fn from(&self, end: &RunEnd, reached: impl Fn(&RunEnd) -> bool) -> Vec<usize> {
        self.graph.shortest_path(end, reached).into_iter().filter_map(|at| self.runs.get(at).copied()).collect()
    }
}

/// Runs that serve openings which are not in the bid, or end at one: unless they carry something of the bid as well, they
/// are not built.
fn elsewhere(job: &Job, openings: &[OpeningWork], runs: &[&Run], ways: &Ways) -> BTreeSet<usize> {
    let marks: BTreeSet<&str> = openings.iter().map(|it| it.opening.mark.as_str()).collect();
    let in_bid = |mark: &str| marks.contains(mark);
    let mut by_mark: FxHashMap<&str, Vec<(usize, &Run)>> = FxHashMap::default();
    for (at, run) in runs.iter().enumerate() {
        run.whole()
            .into_iter()
            .filter_map(RunEnd::opening)
            .for_each(|mark| by_mark.entry(mark).or_default().push((at, *run)));
    }
    let mut found = BTreeSet::new();
    for opening in job.openings.iter().filter(|opening| !in_bid(&opening.mark)) {
        found.extend(ways.line(&opening.mark));
        for (at, run) in by_mark.get(opening.mark.as_str()).into_iter().flatten() {
            found.insert(*at);
            for end in run.whole() {
                if let RunEnd::Device(mark, device) = end {
                    found.extend(ways.low(mark, device));
                }
            }
        }
    }
    found
}

/// A run by itself; `before` are the bends of the parts before it, to which its own are added.
fn work<'j>(run: &'j Run, least: TradeSize, before: &mut Vec<Angle>) -> RunWork<'j> {
    let raceway = match run.kind {
        RunKind::Emt | RunKind::Surface => Some(Raceway::Emt),
        RunKind::Flexible | RunKind::LiquidTight => Some(Raceway::Flexible),
        RunKind::Cable => None,
    };
    // A bend that is none, or too much by itself, is reported by the job's check; it asks for no box here.
    let boxes_of = |bends: &[Angle]| pull_boxes(bends).map_or(0, |boxes| boxes.len() as u32);
    let known = boxes_of(before);
    before.extend(run.bends.iter().map(|bend| Angle::degrees(*bend)));
    let boxes = if raceway.is_some() { boxes_of(before).saturating_sub(known) } else { 0 };
    let joints = ends_that(run, |end| matches!(end, RunEnd::Joint(..)));
    let size = run.size.unwrap_or(least);
    // Cable on supports follows the flexible spacing: closer, and so the safe side (common practice, no source).
    let supports = supports_with_pull_boxes(run.length, boxes, raceway.unwrap_or(Raceway::Flexible));
    let couplings = if raceway == Some(Raceway::Emt) { couplings(run.length, STICK).unwrap_or(0) } else { 0 };
    RunWork {
        run,
        size: if raceway.is_some() { size.max(least) } else { size },
        supports: u32::try_from(supports).unwrap_or(0),
        pull_boxes: boxes,
        connectors: if raceway.is_some() { 2 - joints + 2 * boxes } else { 0 },
        couplings: u32::try_from(couplings).unwrap_or(0),
        junction_boxes: Vec::new(),
        circuits: Vec::new(),
        cables: Vec::new(),
    }
}

/// How many of a run's two ends are of a kind.
fn ends_that(run: &Run, is: fn(&RunEnd) -> bool) -> u32 {
    u32::from(is(&run.from)) + u32::from(is(&run.to))
}

/// A stick of raceway (common practice, no source).
const STICK: Length = Length::feet(10);

impl RunWork<'_> {
    /// Length of one conductor pulled through it, with what is left free at boxes, pull boxes and headers.
    pub fn pull(&self) -> Option<Length> {
        let headers = ends_that(self.run, |end| matches!(end, RunEnd::Opening(_)));
        // A wire goes through a joint; nothing is left free there.
        let joints = ends_that(self.run, |end| matches!(end, RunEnd::Joint(..)));
        pull_length(self.run.length, 2 - headers - joints + 2 * self.pull_boxes, headers)
    }

    /// What it is called, such as `run 3, LP-1 to 101A`.
    pub fn name(&self) -> String {
        format!("run {}, {} to {}", self.run.label(), self.run.from, self.run.to)
    }
}
