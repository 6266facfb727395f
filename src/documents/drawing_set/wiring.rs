//! The wiring of a site as a tree: panels, boxes, disconnects, headers, devices, from the graph of runs that the job holds.
//!
//! In: sources, a site. Out: trees of a riser with finished words; runs that are on no tree. May not know: frames.
//!
//! Line runs are followed outward from panels, in file order; a run to what is reached already is a second way and is told
//! apart. What no run reaches hangs on its panel by a dashed line: its way is still to be laid out.

use std::collections::VecDeque;

use super::super::Sources;
use super::super::printing::{amps, volts};
use super::branch::opening_nodes;
use super::run_words::*;
use crate::drawings::{RiserClass, RiserLine, RiserNode};
use crate::job::{RunClass, RunEnd};
use crate::measure::Noun;
use crate::review::line_conductor;
use crate::takeoff::{CircuitWork, EntityRef, RunWork};

/// The wiring of a site.
pub(super) struct Wiring {
    /// Trees.
    pub trees: Vec<RiserNode>,
    /// Numbers of line runs that are on no tree.
    pub left: Vec<String>,
}

/// A place that runs lead to, with the run that reached it and what is reached from there.
struct Reached<'j> {
    end: RunEnd,
    by: Option<&'j RunWork<'j>>,
    next: Vec<usize>,
}

/// The wiring of a site, by position.
pub(super) fn wiring(sources: &Sources, site: usize) -> Wiring {
    let all = &sources.takeoff.arrangement;
    let Some(id) = all.sites.get(site).map(|it| &it.id) else { return Wiring { trees: Vec::new(), left: Vec::new() } };
    let panels = || all.panels.iter().filter(|panel| &panel.site == id);
    let mut found: Vec<Reached> = Vec::new();
    for panel in panels() {
        if let Some(name) = &panel.id {
            found.push(Reached { end: RunEnd::Panel(name.clone()), by: None, next: Vec::new() });
        }
    }
    let roots = found.len();
    let runs: Vec<&RunWork> =
        all.runs.iter().filter(|run| &run.run.site == id && run.run.class == RunClass::Line).collect();
    let used = follow(&runs, &mut found);
    let mut trees: Vec<RiserNode> = found.iter().take(roots).map(|root| grown(sources, &found, root)).collect();
    let unfed = panels().any(|panel| panel.id.is_none());
    if unfed {
        trees.push(no_panel());
    }
    let reached = |mark: &str| found.iter().any(|it| it.end == RunEnd::Opening(mark.to_owned()));
    for (at, work) in all.openings.iter().enumerate() {
        if &work.site.id != id || work.headers.is_empty() || reached(&work.opening.mark) {
            continue;
        }
        let panel = all.circuits.iter().find(|circuit| circuit.headers.iter().any(|(opening, _)| *opening == at));
        let panel = panel.and_then(|circuit| all.panels.get(circuit.panel)?.id.clone());
        let tree = trees.iter_mut().find(|tree| Some(&tree.name) == panel.as_ref());
        let line = RiserLine { over: NO_WAY.to_owned(), under: Vec::new(), dashed: true };
        match tree {
            Some(tree) => tree.feeds.push((line, disconnect(sources, &work.opening.mark, at))),
            None => {
                let mut tree = no_panel();
                tree.feeds.push((line, disconnect(sources, &work.opening.mark, at)));
                match trees.iter_mut().find(|it| it.name == tree.name) {
                    Some(known) => known.feeds.append(&mut tree.feeds),
                    None => trees.push(tree),
                }
            }
        }
    }
    let left = runs.iter().enumerate().filter(|(at, _)| !used.contains(at)).map(|(_, run)| run.run.label());
    Wiring { trees, left: left.collect() }
}

/// Follows runs outward from what is reached, nearest first; the positions of the runs that reached something new.
fn follow<'j>(runs: &[&'j RunWork<'j>], found: &mut Vec<Reached<'j>>) -> Vec<usize> {
    let mut used = Vec::new();
    let mut open: VecDeque<usize> = (0..found.len()).collect();
    while let Some(here) = open.pop_front() {
        for (at, run) in runs.iter().enumerate().filter(|(_, run)| !run.circuits.is_empty()) {
            let ends = [(&run.run.from, &run.run.to), (&run.run.to, &run.run.from)];
            let leads_on = |near: &RunEnd| found.get(here).is_some_and(|it| *near == it.end);
            let Some((_, far)) = ends.into_iter().find(|(near, _)| leads_on(near)) else { continue };
            if used.contains(&at) || found.iter().any(|it| it.end == *far) {
                continue;
            }
            used.push(at);
            let next = found.len();
            found.push(Reached { end: far.clone(), by: Some(run), next: Vec::new() });
            if let Some(it) = found.get_mut(here) {
                it.next.push(next);
            }
            open.push_back(next);
        }
    }
    used
}

fn grown(sources: &Sources, found: &[Reached], here: &Reached) -> RiserNode {
    let mut node = match &here.end {
        RunEnd::Panel(name) => panel(sources, name),
        RunEnd::Opening(mark) => match sources.takeoff.opening_at(mark) {
            Some(opening) => disconnect(sources, mark, opening),
            None => plain(mark.clone(), RiserClass::Disconnect),
        },
        RunEnd::Box(name) => plain(name.clone(), RiserClass::Box),
        end @ RunEnd::Device(..) => plain(end.to_string(), RiserClass::Device),
        // Named by what is there: no box.
        RunEnd::Joint(..) => plain("change of raceway".to_owned(), RiserClass::Box),
    };
    for next in here.next.iter().filter_map(|next| found.get(*next)) {
        let line = next.by.map(|run| run_line(sources, run)).unwrap_or_default();
        node.feeds.push((line, grown(sources, found, next)));
    }
    node
}

fn plain(name: String, class: RiserClass) -> RiserNode {
    RiserNode { words: vec![name.clone()], name, class, feeds: Vec::new() }
}

/// Power that has panel not assigned.
fn no_panel() -> RiserNode {
    plain("panel not assigned".to_owned(), RiserClass::Panel)
}

/// A panel with its circuits.
fn panel(sources: &Sources, name: &str) -> RiserNode {
    let all = &sources.takeoff.arrangement;
    let mut words = vec![name.to_owned()];
    let place = sources.reviewed.job().panels.get(name).and_then(|it| it.entry.place.get());
    words.extend(place.map(|it| it.as_str().to_owned()));
    let of_panel = |circuit: &CircuitWork| all.panels.get(circuit.panel).and_then(|it| it.id.as_deref()) == Some(name);
    for circuit in all.circuits.iter().filter(|it| of_panel(it)) {
        let poles = circuit.poles.map(|it| Noun::POLE.len(it));
        let total = sources.takeoff.amps_on(circuit, sources.catalog).map(amps);
        let load = [poles, circuit.volts.map(volts), total];
        words.push(format!(
            "{} {}: {}",
            if circuit.existing.is_some() { "existing circuit" } else { "circuit" },
            circuit.label(),
            load.into_iter().flatten().collect::<Vec<_>>().join(", ")
        ));
    }
    if let Some(panel) = sources.reviewed.job().panels.get(name) {
        let unused = panel.entry.circuit.list().iter().filter(|it| it.forbidden.get().is_some());
        words.extend(unused.filter_map(|it| Some(format!("circuit {}: do not use", it.number.get()?))));
    }
    RiserNode { name: name.to_owned(), class: RiserClass::Panel, words, feeds: Vec::new() }
}

/// The box and the disconnecting means at an opening, with its headers and devices.
fn disconnect(sources: &Sources, mark: &str, opening: usize) -> RiserNode {
    let all = &sources.takeoff.arrangement;
    let mut words = vec![mark.to_owned(), "disconnect".to_owned(), "within sight".to_owned()];
    // What it breaks: all that is on the circuit of this opening alone; of a shared one the panel says more.
    for circuit in all.circuits.iter().filter(|it| it.headers.iter().all(|(at, _)| *at == opening)) {
        let load = [circuit.volts.map(volts), sources.takeoff.amps_on(circuit, sources.catalog).map(amps)];
        let load: Vec<String> = load.into_iter().flatten().collect();
        words.extend((!load.is_empty() && circuit.existing.is_none()).then(|| load.join(", ")));
    }
    RiserNode { name: mark.to_owned(), class: RiserClass::Disconnect, words, feeds: opening_nodes(sources, opening) }
}

/// A line run: what it is, what is in it, who runs it.
fn run_line(sources: &Sources, work: &RunWork) -> RiserLine {
    let all = &sources.takeoff.arrangement;
    let mut numbers: Vec<String> = work.circuits.iter().filter_map(|it| Some(all.circuits.get(*it)?.label())).collect();
    numbers.dedup();
    let word = Noun::CIRCUIT.beside(numbers.len() as u64);
    let conductors = 2 * work.circuits.len();
    let (conductor, _) = line_conductor(sources.catalog);
    let mut under =
        vec![format!("{word} {}", numbers.join(", ")), format!("{conductors} + ground, {} AWG", conductor.awg())];
    let run = all.runs.iter().position(|it| std::ptr::eq(it.run, work.run));
    under.extend(run.and_then(|run| by_whom(sources, EntityRef::Run(run))));
    RiserLine { over: run_words(sources, work), under, dashed: work.run.assumed.is_some() }
}
