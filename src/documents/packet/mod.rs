//! The install packet of a site: the site sheet, then two sheets an opening, three with two leaves.
//!
//! In: sources, a site, and what had to move off the sheets of openings. Out: the view of the paper.
//! May not know: pages; whoever sets them tells what did not fit, and the paper is made again.

mod checks;
mod cutting;
mod facts;
mod opening;
mod power;
mod settings;
mod site;
mod steps;
mod values;

use opening::OpeningSheet;
use site::SiteSheet;

use std::collections::BTreeMap;

use serde::Serialize;

use super::{
    ConditionEvaluator, Count, Draft, Letterhead, PacketApproval, Sources, approval_status, codes, counts, letterhead,
};
use crate::findings::{Finding, Subject};
use crate::takeoff::OpeningWork;

/// What may move from the sheets of an opening to the site sheet, in this order, until the rest fits: first what is read at
/// another visit, last what keeps a person from harm. What stays is of a bounded size: mark, hand, plan, values to measure,
/// room to write.
pub const MOVES: [&str; 7] =
    ["runs", "device table", "settings", "steps", "names and notes", "cutting and fastening list", "cautions"];

/// The parts of [`MOVES`], in the same order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Move {
    Runs,
    Devices,
    Settings,
    Steps,
    Names,
    Cutting,
    Cautions,
}

impl Move {
    /// Whether it stays on the sheets of an opening of which the first `moved` have moved.
    fn stays(self, moved: usize) -> bool {
        self as usize >= moved
    }

    /// Its word.
    fn word(self) -> &'static str {
        MOVES.get(self as usize).copied().unwrap_or_default()
    }
}

/// A label and its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// Label.
    pub label: String,
    /// Value.
    pub value: String,
}

/// How names of sheets of openings begin; a mark follows.
const OPENING_SHEET: &str = "opening-sheet.";

/// How many of [`MOVES`] have moved, by mark.
pub type Moved = BTreeMap<String, usize>;

/// The install packet of a site.
#[derive(Clone, Debug, Serialize)]
pub struct PacketView {
    /// Head and foot.
    pub head: Letterhead,
    /// Whether what the crew works by is approved.
    pub approval: PacketApproval,
    /// The shared counts, of the job and of the site.
    pub counts: Vec<Count>,
    /// The site sheet.
    pub site: SiteSheet,
    /// The sheets of openings.
    pub sheets: Vec<OpeningSheet>,
}

/// Makes the packet of a site, by the site's position in the takeoff's arrangement.
pub fn packet(sources: &Sources, site: usize, moved: &Moved) -> Draft<PacketView> {
    packet_of(sources, site, moved, |_| true)
}

/// A packet with the sheets of some openings alone, by their marks: enough to see how many pages these take.
pub fn packet_of(sources: &Sources, site: usize, moved: &Moved, wanted: impl Fn(&str) -> bool) -> Draft<PacketView> {
    let conditions = ConditionEvaluator::new(sources);
    let all = &sources.takeoff.arrangement;
    let of = all.sites.get(site);
    let here = all.openings.iter().enumerate().filter(|(_, work)| of.is_some_and(|of| work.site.id == of.id));
    let here: Vec<(usize, &OpeningWork)> = here.filter(|(_, work)| wanted(&work.opening.mark)).collect();
    let mut drawings = BTreeMap::new();
    let mut sheets = Vec::new();
    for (at, work) in &here {
        let steps = moved.get(&work.opening.mark).copied().unwrap_or(0);
        sheets.push(opening::sheet(sources, &conditions, (*at, work), steps, &mut drawings));
    }
    let title = format!("Install packet, {}", of.map_or("", |of| of.name.as_str()));
    let approval = approval_status::of_packet(sources);
    let (stop, stop_of, approved) = (approval.stop.clone(), approval.stop_of.clone(), approval.approved.clone());
    let view = PacketView {
        head: Letterhead { stop, stop_of, approved, ..letterhead(sources, &title) },
        approval,
        counts: counts(sources, Some(site)),
        site: site::sheet(sources, &conditions, site, &here, moved),
        sheets,
    };
    Draft::drawn(view, drawings)
}

/// The opening whose sheets have this name in the packet's template; none for the site sheet.
pub fn mark_of_sheet(name: &str) -> Option<&str> {
    name.strip_prefix(OPENING_SHEET)
}

/// How many pages the sheets of an opening may take: two, or three with two leaves.
pub fn pages_allowed(sources: &Sources, mark: &str) -> usize {
    let opening = sources.takeoff.opening_at(mark).and_then(|at| sources.takeoff.arrangement.openings.get(at));
    if opening.is_some_and(|it| it.leaves.len() > 1) { 3 } else { 2 }
}

/// What is said of a site at whose openings something had to move; none where nothing had to. `longer` are marks of openings
/// that take more pages than they may although all has moved.
pub fn moved_finding(sources: &Sources, site: usize, moved: &Moved, longer: &[String]) -> Option<Finding> {
    let of = sources.takeoff.arrangement.sites.get(site)?;
    let here = sources.takeoff.arrangement.openings_of(&of.id);
    let marks: Vec<(&str, usize)> = here
        .map(|it| (it.opening.mark.as_str(), moved.get(&it.opening.mark).copied().unwrap_or(0)))
        .filter(|(_, count)| *count > 0)
        .collect();
    let most = marks.iter().map(|(_, count)| *count).max()?;
    let each = MOVES.iter().take(most).enumerate().map(|(rank, what)| {
        let of_rank = marks.iter().filter(|(_, count)| *count > rank).map(|(mark, _)| *mark);
        format!("{what} of {}", of_rank.collect::<Vec<_>>().join(", "))
    });
    let still = (!longer.is_empty()).then(|| format!("still too long: {}", longer.join(", ")));
    let found = each.chain(still).collect::<Vec<_>>().join("; ");
    let asked = "two pages per opening, three with two leaves";
    Some(Finding::new(&codes::SHEETS_OVERFULL, Subject::Site(of.id.clone())).found(found).asked(asked))
}
