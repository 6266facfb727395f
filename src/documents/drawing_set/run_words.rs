//! Runs in words: what one is, who lays and connects it, what is taken off at its ends.
//!
//! In: sources, a run or an entity. Out: finished words. May not know: how a tree of wiring is made.

use super::super::Sources;
use super::super::printing::{ASSUMED_ROUTE, Printing};
use crate::catalog::{Group, VisitKind};
use crate::takeoff::{EntityRef, LaborLine, RunWork};

/// What is said of a cable or circuit that no run carries.
pub(super) const NO_WAY: &str = "route not laid out";

/// What is said of the cable of a device that no run carries: who furnishes the device brings it, or its way is still to be laid
/// out.
pub(super) fn without_run(by: Option<&str>) -> String {
    by.map_or_else(|| NO_WAY.to_owned(), |by| format!("by {by}"))
}

/// A run in words: its number, raceway, size and length.
pub(super) fn run_words(sources: &Sources, work: &RunWork) -> String {
    let printing = Printing::of(sources.reviewed.job());
    let run = work.run;
    let length = printing.size(run.length);
    let words = match run.kind {
        crate::job::RunKind::Cable => format!("{} {}, {length}", run.label(), run.kind),
        _ => format!("{} {} {}, {length}", run.label(), run.kind, work.size),
    };
    if run.assumed.is_some() { format!("{words}, {ASSUMED_ROUTE}") } else { words }
}

/// The trades whose hours the takeoff has at an entity.
pub(super) fn by_whom(sources: &Sources, of: EntityRef) -> Option<String> {
    trades(sources, of, |_| true)
}

/// The trades that make the final connection of an entity.
pub(super) fn final_by(sources: &Sources, of: EntityRef) -> Option<String> {
    trades(sources, of, |line| line.visit == VisitKind::FinalConnection)
}

fn trades(sources: &Sources, of: EntityRef, wanted: impl Fn(&LaborLine) -> bool) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    for line in sources.takeoff.labor_of(of).filter(|line| wanted(line)) {
        let name = sources.catalog.trades.get(&*line.trade).map_or(&*line.trade, |it| it.name.as_str());
        if !names.contains(&name) {
            names.push(name);
        }
    }
    (!names.is_empty()).then(|| format!("by {}", names.join(" and ").to_lowercase()))
}

/// Names of the items of a group that the takeoff has at an entity.
pub(super) fn items_of<'s>(sources: &Sources<'s>, of: EntityRef, group: Group) -> Vec<&'s str> {
    let lines = sources.takeoff.lines_of(of);
    let items = lines.filter_map(|line| sources.catalog.items.get(&*line.item)).filter(|item| item.group == group);
    let mut names: Vec<&str> = items.map(|item| item.name.as_str()).collect();
    names.dedup();
    names
}
