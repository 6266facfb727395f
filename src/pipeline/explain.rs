//! `explain`: how a figure came to be, what stands at an opening, what a finding means.
//!
//! In: a snapshot and a few words. Out: finished lines. May not know: where they are printed.

use serde::Serialize;

use super::names::Names;
use super::{Loaded, Priced, Purpose, codes, codes_of_papers, conclude, gather, net, price_alternates, price_base};
use crate::catalog::Catalog;
use crate::findings::{Code, Files, Finding, Findings, Place, Positions};
use crate::ledger::{FigureId, Ledger, Line};
use crate::measure::Dimension;
use crate::review::{self, AcceptedFinding};
use crate::takeoff::{EntityRef, OpeningWork, Takeoff};

/// At most so many figures are explained at once.
const MOST: usize = 12;

/// So many lines are a screenful.
const SCREENFUL: usize = 36;

/// A figure that shares the screen with others has at least so many lines.
const LEAST_LINES: usize = 6;

/// How far from a figure its explanation goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// As far as fits on a screen.
    Screenful,
    /// So many steps.
    Levels(usize),
    /// To the end.
    All,
}

/// One explanation: a head and its lines.
#[derive(Debug, Serialize)]
pub struct Explanation {
    /// What is explained.
    pub title: String,
    /// The name by which it can be asked for; empty where it is no figure.
    pub name: String,
    /// Lines left out at the end because the screen is full.
    pub left_out: usize,
    /// How, line by line.
    pub lines: Vec<ExplainedLine>,
}

/// A line of an explanation.
#[derive(Debug, Serialize)]
pub struct ExplainedLine {
    /// How far in it stands.
    pub depth: usize,
    /// What it says.
    pub text: String,
    /// Where that was written, as `file:line:column`; empty where nowhere.
    pub place: String,
    /// The name by which the figure can be asked for; empty where the line is about no figure.
    pub name: String,
    /// How many figures under it are left out.
    pub under: usize,
}

impl ExplainedLine {
    fn plain(text: impl Into<String>) -> Self {
        ExplainedLine { depth: 0, text: text.into(), place: String::new(), name: String::new(), under: 0 }
    }
}

/// Explains an opening, an item, a task, a figure by its name or its amount, or a code. No explanation means that nothing
/// goes by those words. Alternates are priced only where nothing of the base bid does.
pub fn explain(files: &Files, job_path: &str, what: &str, depth: Depth) -> (Vec<Explanation>, Findings) {
    let (reported, findings) = net::worked(Purpose::Figures, (files, job_path), |loaded| {
        let (reported, findings) = explain_loaded(loaded, files, what, depth);
        (Some(reported), findings)
    });
    (reported.unwrap_or_default(), findings)
}

fn explain_loaded(loaded: Loaded, files: &Files, what: &str, depth: Depth) -> (Vec<Explanation>, Findings) {
    let code = codes().into_iter().find(|code| code.id == what);
    let mut findings = loaded.findings;
    let Some(job) = loaded.job else {
        let findings = findings.sorted();
        return (code.map(|code| of_code(code, &findings, &[], files)).into_iter().collect(), findings);
    };
    let reviewed = review::review(job, &loaded.catalog, &mut findings);
    let mut priced = price_base(&reviewed, &loaded.catalog);
    gather(&mut findings, &mut priced, &reviewed, &loaded.catalog);
    let (findings, accepted) = conclude(findings, &reviewed, &codes_of_papers());
    if let Some(code) = code {
        return (vec![of_code(code, &findings, &accepted, files)], findings);
    }
    let tell = |priced: &Priced| {
        let positions = Positions::new(files);
        let names = Names::of(&priced.takeoff.ledger);
        ExplanationWriter { positions, names, priced, catalog: &loaded.catalog, depth }.tell(what)
    };
    let reported = tell(&priced);
    if !reported.is_empty() || reviewed.job().alternates.is_empty() {
        return (reported, findings);
    }
    price_alternates(&mut priced, &reviewed, &loaded.catalog);
    (tell(&priced), findings)
}

/// What a code means, and where the job has it.
fn of_code(code: &Code, findings: &Findings, accepted: &[AcceptedFinding], files: &Files) -> Explanation {
    let holds: Vec<&str> = code.blocks.iter().map(|paper| paper.word()).collect();
    let holds = if holds.is_empty() { "holds no paper".to_owned() } else { format!("holds {}", holds.join(", ")) };
    let mut lines = vec![
        ExplainedLine::plain(format!("says: {}", code.says)),
        ExplainedLine::plain(format!("why: {}", code.why)),
        ExplainedLine::plain(holds),
        ExplainedLine::plain("example:"),
    ];
    lines.extend(code.example.lines().map(|line| ExplainedLine { depth: 1, ..ExplainedLine::plain(line) }));
    let mut positions = Positions::new(files);
    let mut here = |finding: &Finding, more: &str| {
        let place = finding.place().map(|place| positions.show(place)).unwrap_or_default();
        let text = format!("here: {}: {}{more}", finding.subject, finding.sentence());
        lines.push(ExplainedLine { place, ..ExplainedLine::plain(text) });
    };
    findings.iter().filter(|it| it.code.id == code.id).for_each(|it| here(it, ""));
    let accepted = accepted.iter().filter(|it| it.finding.code.id == code.id);
    accepted.for_each(|it| here(&it.finding, &format!("; accepted: {}", it.reason)));
    let title = format!("{} [{}]", code.severity.word(), code.id);
    Explanation { title, name: String::new(), left_out: 0, lines }
}

struct ExplanationWriter<'t> {
    positions: Positions<'t>,
    names: Names,
    priced: &'t Priced<'t>,
    catalog: &'t Catalog,
    depth: Depth,
}

impl ExplanationWriter<'_> {
    fn tell(&mut self, what: &str) -> Vec<Explanation> {
        let takeoff = &self.priced.takeoff;
        if let Some(at) = takeoff.arrangement.openings.iter().position(|it| it.opening.mark == what) {
            return vec![self.opening(at)];
        }
        let named = || self.names.figure(what).map(|figure| vec![figure]);
        let figures = self.by_id(what).or_else(named).or_else(|| self.by_amount(what)).unwrap_or_default();
        let total = figures.len();
        let room = (SCREENFUL / total.clamp(1, MOST)).max(LEAST_LINES);
        let each = figures.into_iter().take(MOST);
        let mut reported: Vec<Explanation> = each.map(|figure| self.figure(figure, room)).collect();
        if total > MOST {
            let title = format!("… and {} more", total - MOST);
            reported.push(Explanation { title, name: String::new(), left_out: 0, lines: Vec::new() });
        }
        reported
    }

    /// Quantities of an item and its cost, or hours of a task.
    fn by_id(&self, id: &str) -> Option<Vec<FigureId>> {
        let takeoff = &self.priced.takeoff;
        if self.catalog.items.contains_key(id) {
            let estimate = self.priced.estimate.as_ref();
            let cost = estimate.and_then(|it| it.items.iter().find(|cost| cost.item == id));
            let whole = cost.map(|cost| cost.extension);
            let lines = takeoff.lines.iter().filter(|line| &*line.item == id).map(|line| line.quantity);
            return Some(whole.into_iter().chain(lines.filter(|_| cost.is_none())).collect());
        }
        if self.catalog.tasks.contains_key(id) {
            return Some(takeoff.labor.iter().filter(|it| it.task.as_deref() == Some(id)).map(|it| it.hours).collect());
        }
        None
    }

    /// Figures of money that print so, what rests on most first: a total before its lines.
    fn by_amount(&self, what: &str) -> Option<Vec<FigureId>> {
        let wanted: rust_decimal::Decimal = what.replace(['$', ','], "").trim().parse().ok()?;
        let ledger = &self.priced.takeoff.ledger;
        let amounts: Vec<FigureId> = ledger
            .ids()
            .rev()
            .filter(|id| ledger.value(*id).dimension() == Dimension::MONEY && ledger.value(*id).value() == wanted)
            .collect();
        let rounded = amounts.iter().copied().filter(|id| !self.is_only_rounded(*id, &amounts)).collect();
        Some(rounded)
    }

    /// Whether a figure is the exact value of one that was found as well.
    fn is_only_rounded(&self, id: FigureId, found: &[FigureId]) -> bool {
        found.iter().any(|other| self.priced.takeoff.ledger.inputs(*other) == [id])
    }

    fn figure(&mut self, figure: FigureId, room: usize) -> Explanation {
        let ledger: &Ledger = &self.priced.takeoff.ledger;
        let title = format!("{}: {}", ledger.figure(figure).name, ledger.print(figure));
        let (reported, left_out) = match self.depth {
            Depth::All => (ledger.explain(figure), 0),
            Depth::Levels(levels) => (ledger.explain_to(figure, levels), 0),
            Depth::Screenful => screenful(ledger, figure, room),
        };
        let lines = reported.into_iter().map(|line| {
            let because = if line.because.is_empty() { String::new() } else { format!("  [{}]", line.because) };
            let seen = if line.seen { "  (shown above)" } else { "" };
            let place = line.place.map(|place| self.place(&place)).unwrap_or_default();
            let text = format!("{}: {}{because}{seen}", line.name, line.text);
            let name = self.names.name(line.figure).to_owned();
            ExplainedLine { depth: line.depth, text, place, name, under: line.under }
        });
        let lines = lines.collect();
        Explanation { title, name: self.names.name(figure).to_owned(), left_out, lines }
    }

    fn place(&mut self, place: &Place) -> String {
        self.positions.show(place)
    }

    /// What was derived of an opening, and every line that stands at it.
    fn opening(&mut self, at: usize) -> Explanation {
        let (priced, catalog) = (self.priced, self.catalog);
        let takeoff: &Takeoff = &priced.takeoff;
        let work = &takeoff.arrangement.openings[at];
        let mut lines = vec![ExplainedLine {
            place: self.place(&work.opening.place),
            ..ExplainedLine::plain(format!(
                "{}, site {}, operator {}",
                work.form.word(),
                work.site.name,
                work.operator.map_or("none", |operator| operator.name.as_str())
            ))
        }];
        lines.extend(derived(work));
        let here = |of: EntityRef| of.opening() == Some(at);
        let mut reported = |figure: FigureId, what: &str, of: EntityRef, rule: Option<usize>| {
            let rule = rule.map(|at| &catalog.rules[at]);
            let id = rule.map_or("least hours", |rule| rule.id.as_str());
            let text = format!("{what}: {} for {} [rule {id}]", takeoff.ledger.equation(figure), takeoff.name(of));
            let place = rule.map(|rule| self.place(&rule.place)).unwrap_or_default();
            lines.push(ExplainedLine { place, ..ExplainedLine::plain(text) });
        };
        for line in takeoff.lines.iter().filter(|line| here(line.of)) {
            let name = catalog.items.get(&*line.item).map_or(&*line.item, |item| item.name.as_str());
            reported(line.quantity, name, line.of, Some(line.rule));
        }
        for line in takeoff.labor.iter().filter(|line| here(line.of)) {
            let task = line.task.as_deref().and_then(|id| catalog.tasks.get(id));
            reported(line.hours, task.map_or("hours", |task| task.name.as_str()), line.of, line.rule);
        }
        Explanation { title: format!("opening {}", work.opening.mark), name: String::new(), left_out: 0, lines }
    }
}

/// The deepest explanation that fits, and how many lines of the shallowest are left out where not even that one does.
fn screenful(ledger: &Ledger, figure: FigureId, room: usize) -> (Vec<Line>, usize) {
    let mut best = ledger.explain_to(figure, 1);
    for levels in 2.. {
        if best.iter().all(|line| line.under == 0) {
            break;
        }
        let deeper = ledger.explain_to(figure, levels);
        if deeper.len() > room {
            break;
        }
        best = deeper;
    }
    let left_out = best.len().saturating_sub(room);
    best.truncate(room);
    (best, left_out)
}

/// What follows from the facts of an opening: hands, the rooms its headers hang in, the ends at which power enters.
fn derived(work: &OpeningWork) -> Vec<ExplainedLine> {
    let leaves = work.leaves.iter().map(|leaf| {
        let hand = leaf.hand.map_or("hand not known", |hand| hand.letters());
        let powered = if leaf.powered { "powered" } else { "not powered" };
        ExplainedLine::plain(format!("leaf {}: {hand}, {powered}", leaf.number))
    });
    let headers = work.headers.iter().map(|header| {
        let side = header.side.and_then(|side| work.room(side)).unwrap_or("a room not given");
        let supply = header.supply_end.map_or("not known", crate::takeoff::edge_word);
        ExplainedLine::plain(format!("header {}: in {side}, supply end {supply}", header.number))
    });
    leaves.chain(headers).collect()
}
