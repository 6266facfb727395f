//! The question list: every fact that is assumed or not known, as a numbered question with what hangs on its answer.
//!
//! In: sources, the priced offer, priced answers. Out: a view of finished strings. May not know: costs; only shares of the price.
//!
//! A question is there while its fact is: what a person types into the job file in answer, as seen or as drawn, closes it. Where
//! another answer makes a job that can be priced, the difference stands beside it; else what rests on it and its share.

mod answers;
mod assumed;
mod left_out;

pub use answers::{Answer, PricedAnswer, answers};
pub use left_out::price_absences;

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::printing::{DASH, listed};
use super::{Count, Letterhead, Sources, counts, letterhead};
use crate::catalog::{Group, Substrate};
use crate::estimate::{Estimate, dependent_share};
use crate::input::{Date, Standing};
use crate::job::{HazardReport, PowerKnown, Release};
use crate::measure::Noun;
use crate::money::Money;
use crate::takeoff::{EntityRef, LeafWork, OpeningWork, RunWork, Takeoff};

/// A question.
#[derive(Clone, Debug, Serialize)]
pub struct QuestionRow {
    /// Its number.
    pub number: String,
    /// The question.
    pub asks: String,
    /// What the bid takes for granted meanwhile.
    pub taken: String,
    /// Openings, panels or runs.
    pub about: String,
    /// What was looked at: the job's documents, or a survey.
    pub reference: String,
    /// Day by which an answer is needed.
    pub by: String,
    /// What the answer changes, without an amount: this paper leaves the office.
    pub effect: String,
}

/// A question as the office reads it: what its answer changes of the price, and where the answer is typed.
#[derive(Clone, Debug, Serialize)]
pub struct QuestionCost {
    /// Its number.
    pub number: String,
    /// The question.
    pub asks: String,
    /// Openings, panels or runs.
    pub about: String,
    /// What another answer changes of the bid; or what depends on the answer, and its share.
    pub carries: String,
    /// Where in the job the answer is typed.
    pub answered_in: String,
}

/// The view of the question list.
#[derive(Clone, Debug, Serialize)]
pub struct QuestionsView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// Questions.
    pub questions: Vec<QuestionRow>,
}

/// What a question is about, where other answers to it are priced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// Power that is only assumed.
    PowerAssumed,
    /// Power that is not there.
    PowerNone,
    /// What lets a latch go.
    Release,
    /// What a header is fixed to.
    Substrate,
    /// Anything else.
    Other,
}

/// A question before it is numbered and priced.
struct Question {
    topic: Topic,
    asks: String,
    taken: String,
    about: Vec<String>,
    reference: String,
    before_bid: bool,
    answered_in: String,
    /// The entities that carry what the answer decides.
    on: BTreeSet<EntityRef>,
    /// What stands instead of an amount where nothing is in the price.
    unpriced: &'static str,
}

/// Days before the bid is due that an answer is wanted (common practice, no source).
const DAYS_BEFORE: i64 = 3;

/// The view of the question list. Without an estimate no share can be said.
pub fn question_list(sources: &Sources, estimate: Option<&Estimate>, answers: &[PricedAnswer]) -> QuestionsView {
    let head = &sources.reviewed.job().head;
    let wanted: Option<Date> = head.due.and_then(|due| due.date().plus_days(-DAYS_BEFORE));
    let by = match (wanted, head.due) {
        // A day that has passed helps nobody who reads these papers.
        (Some(day), Some(due)) if day < head.date => {
            format!("now; bid due {}", due.date())
        }
        (Some(day), _) => day.to_string(),
        (None, _) => DASH.to_owned(),
    };
    let row = |(at, question): (usize, Question)| QuestionRow {
        number: format!("Q{}", at + 1),
        effect: effect(sources, estimate, &question, answers),
        about: listed(question.about, ", "),
        asks: question.asks,
        taken: question.taken,
        reference: question.reference,
        by: if question.before_bid { by.clone() } else { "before ordering".to_owned() },
    };
    QuestionsView {
        head: letterhead(sources, "Questions"),
        counts: counts(sources, None),
        questions: questions(sources).into_iter().enumerate().map(row).collect(),
    }
}

/// The questions of the list with what each answer costs, for the recap: nothing of it leaves the office.
pub fn question_costs(sources: &Sources, estimate: &Estimate, answers: &[PricedAnswer]) -> Vec<QuestionCost> {
    let row = |(at, question): (usize, Question)| QuestionCost {
        number: format!("Q{}", at + 1),
        carries: consequence(sources, Some(estimate), &question, answers),
        about: listed(question.about, ", "),
        asks: question.asks,
        answered_in: question.answered_in,
    };
    questions(sources).into_iter().enumerate().map(row).collect()
}

/// What the answer changes, in words: whether each priced answer adds or deducts; or what depends on it.
fn effect(sources: &Sources, estimate: Option<&Estimate>, asked: &Question, answers: &[PricedAnswer]) -> String {
    let priced: Vec<String> =
        of_topic(asked, answers).map(|it| format!("{}: {}", it.words, direction(it.change))).collect();
    if !priced.is_empty() {
        return listed(priced, "; ");
    }
    match estimate.and_then(|estimate| dependent_share(sources.takeoff, estimate, |of| asked.on.contains(&of))) {
        Some(_) => format!("included in the bid: {}", resting(sources, &asked.on).0),
        None => asked.unpriced.to_owned(),
    }
}

fn of_topic<'a>(asked: &Question, answers: &'a [PricedAnswer]) -> impl Iterator<Item = &'a PricedAnswer> {
    let topic = asked.topic;
    answers.iter().filter(move |it| it.topic == topic && topic != Topic::Other)
}

fn direction(change: Money) -> &'static str {
    match change {
        change if change.is_zero() => "no change",
        change if change.is_negative() => "deduct",
        _ => "add",
    }
}

/// What each other answer changes of the bid; or what rests on the answer, and its share.
fn consequence(sources: &Sources, estimate: Option<&Estimate>, asked: &Question, answers: &[PricedAnswer]) -> String {
    let priced: Vec<String> =
        of_topic(asked, answers).map(|it| format!("{}: {}", it.words, signed(it.change))).collect();
    if !priced.is_empty() {
        return listed(priced, "; ");
    }
    let share = estimate.and_then(|estimate| dependent_share(sources.takeoff, estimate, |of| asked.on.contains(&of)));
    match share {
        Some(share) => {
            let (groups, lines) = resting(sources, &asked.on);
            format!("{lines} ({groups}): about {} of the bid", share.print().trim_end_matches(".00"))
        }
        None => asked.unpriced.to_owned(),
    }
}

fn signed(change: Money) -> String {
    match change {
        change if change.is_zero() => "no change".to_owned(),
        change if change.is_negative() => change.print(),
        change => format!("+{}", change.print()),
    }
}

/// Of which groups lines rest on some entities, and how many lines there are.
fn resting(sources: &Sources, on: &BTreeSet<EntityRef>) -> (String, String) {
    let lines = sources.takeoff.lines.iter().filter(|line| on.contains(&line.of));
    let mut groups: BTreeMap<Group, usize> = BTreeMap::new();
    for item in lines.filter_map(|line| sources.catalog.items.get(&*line.item)) {
        *groups.entry(item.group).or_default() += 1;
    }
    let labor = sources.takeoff.labor.iter().filter(|line| on.contains(&line.of)).count();
    let count = groups.values().sum::<usize>() + labor;
    let mut named: Vec<(Group, usize)> = groups.into_iter().collect();
    named.sort_by_key(|(group, count)| (std::cmp::Reverse(*count), *group));
    let words = named.iter().take(NAMED).map(|(group, _)| group.word().to_owned());
    let words = words.chain((labor > 0).then(|| "labor".to_owned()));
    (listed(words, ", "), Noun::LINE.len(count))
}

/// Groups of items that are named of what rests on an answer.
const NAMED: usize = 3;

fn questions(sources: &Sources) -> Vec<Question> {
    let mut all = power(sources);
    all.extend(panels(sources));
    all.extend(runs(sources));
    all.extend(releases(sources));
    all.extend(substrates(sources));
    all.extend(hazards(sources));
    all.extend(unsurveyed(sources));
    all.extend(weights(sources));
    all.extend(assumed::questions(sources));
    all.extend(assumed::undecided(sources));
    all.extend(left_out::questions(sources));
    all
}

/// Openings with a drive that a condition holds for.
fn of_powered<'s, 'j>(
    takeoff: &'s Takeoff<'j>,
    holds: impl Fn(&OpeningWork) -> bool + 's,
) -> impl Iterator<Item = (usize, &'s OpeningWork<'j>)> {
    takeoff.arrangement.openings.iter().enumerate().filter(move |(_, it)| !it.drives.is_empty() && holds(it))
}

fn marks<'o, 'j: 'o>(works: impl Iterator<Item = (usize, &'o OpeningWork<'j>)>) -> (Vec<usize>, Vec<String>) {
    works.map(|(at, work)| (at, work.opening.mark.clone())).unzip()
}

/// Whether power is not there, or else is only assumed.
fn power_open(work: &OpeningWork, none: bool) -> bool {
    match work.opening.entry.power.get().and_then(|power| power.known.cloned()) {
        Some(PowerKnown::None) => none,
        None | Some(PowerKnown::Assumed) => !none,
        Some(PowerKnown::Seen | PowerKnown::Drawn) => false,
    }
}

/// Power that nobody has seen or drawn: one question for what is assumed, one for what is not there.
fn power(sources: &Sources) -> Vec<Question> {
    let ask = |none: bool| {
        let holds = move |work: &OpeningWork| power_open(work, none);
        let (at, about) = marks(of_powered(sources.takeoff, holds));
        (!about.is_empty()).then(|| Question {
            topic: if none { Topic::PowerNone } else { Topic::PowerAssumed },
            asks: match none {
                true => {
                    "No power exists at these openings. Which panel feeds them, by which route, and by which trade?"
                }
                false => "Which panel feeds these openings, how many spaces are free, and what is the route?",
            }
            .to_owned(),
            taken: "panel and runs as listed, with free spaces".to_owned(),
            about,
            reference: documents(sources),
            before_bid: true,
            answered_in: "power of the opening: seen or drawn, with its panel".to_owned(),
            on: wiring(sources.takeoff, &at),
            unpriced: "no wiring is included",
        })
    };
    [false, true].into_iter().filter_map(ask).collect()
}

/// Circuits of openings, the runs that carry them alone, and their boxes at headers.
fn wiring(takeoff: &Takeoff, openings: &[usize]) -> BTreeSet<EntityRef> {
    let all = &takeoff.arrangement;
    let openings: BTreeSet<usize> = openings.iter().copied().collect();
    let alone = |headers: &[(usize, usize)]| headers.iter().all(|(at, _)| openings.contains(at));
    let of_these = all.circuits.iter().enumerate().filter(|(_, circuit)| alone(&circuit.headers));
    let circuits: BTreeSet<usize> = of_these.map(|(at, _)| at).collect();
    let mut on: BTreeSet<EntityRef> = circuits.iter().map(|at| EntityRef::Circuit(*at)).collect();
    for (at, run) in all.runs.iter().enumerate() {
        if !run.circuits.is_empty() && run.circuits.iter().all(|circuit| circuits.contains(circuit)) {
            on.insert(EntityRef::Run(at));
        }
    }
    on
}

/// Panels that are only assumed, or whose free spaces nobody counted.
fn panels(sources: &Sources) -> Vec<Question> {
    let job = sources.reviewed.job();
    let unknown = |id: &String| {
        // A panel that the job lacks, or that no site can be found for, has a finding of its own and no question.
        let Some(panel) = job.panels.get(id).map(|panel| &panel.entry) else { return false };
        panel.known.get() == Some(&PowerKnown::Assumed) || panel.free.is_absent()
    };
    let all = &sources.takeoff.arrangement;
    let ids: Vec<String> = all.panels.iter().filter_map(|it| it.id.clone()).filter(unknown).collect();
    let on = all.circuits.iter().enumerate().filter(|(_, it)| {
        all.panels.get(it.panel).and_then(|panel| panel.id.as_ref()).is_some_and(|id| ids.contains(id))
    });
    let on: BTreeSet<EntityRef> = on.map(|(at, _)| EntityRef::Circuit(at)).collect();
    let question = Question {
        topic: Topic::Other,
        asks: "How many spaces are free in these panels, and what is the make of panel?".to_owned(),
        taken: "spaces as listed; no panel work except breakers".to_owned(),
        about: ids,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the panel: free, and known as seen".to_owned(),
        on,
        unpriced: "panel replacement is not in the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

/// Runs whose way is assumed.
fn runs(sources: &Sources) -> Vec<Question> {
    let all = &sources.takeoff.arrangement.runs;
    let assumed = |standing: &Standing| matches!(standing, Standing::Assumed | Standing::Estimated);
    // Those that nobody typed are asked about as left out.
    let typed = |work: &RunWork| work.run.assumed.is_none();
    let here =
        |work: &RunWork| typed(work) && work.run.entry.length.given().is_some_and(|given| assumed(&given.standing));
    let (on, about) = all
        .iter()
        .enumerate()
        .filter(|(_, work)| here(work))
        .map(|(at, work)| (EntityRef::Run(at), work.name()))
        .unzip();
    let question = Question {
        topic: Topic::Other,
        asks: "Are these routes acceptable, and what are their lengths?".to_owned(),
        taken: "lengths as listed, walls and ceilings as drawn".to_owned(),
        about,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the run: length and bends, surveyed".to_owned(),
        on,
        unpriced: "no change to the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn releases(sources: &Sources) -> Vec<Question> {
    let unknown = |leaf: &LeafWork| leaf.powered && matches!(leaf.release(), None | Some(Release::Unknown));
    let (_, about) = marks(of_powered(sources.takeoff, move |work| work.leaves.iter().any(unknown)));
    let question = Question {
        topic: Topic::Release,
        asks: "What latch is on these leaves, what releases it, and who furnishes, wires and programs the release?"
            .to_owned(),
        taken: "no latch release is included".to_owned(),
        about,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the leaf: latch and release".to_owned(),
        on: BTreeSet::new(),
        unpriced: "not in the bid; strike, power transfer, power supply and cable are added",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn substrate_unknown(work: &OpeningWork) -> bool {
    let frame = work.opening.entry.frame.get();
    frame.is_none_or(|it| it.fixed_to.or(Substrate::Unknown) == Substrate::Unknown && !it.fixed_to.is_bad())
}

fn substrates(sources: &Sources) -> Vec<Question> {
    let (at, about) = marks(of_powered(sources.takeoff, substrate_unknown));
    let all = &sources.takeoff.arrangement.openings;
    let count = |at: usize| all.get(at).map_or(0, |work| work.fixings.len());
    let fixings = at.iter().flat_map(|at| (0..count(*at)).map(|which| EntityRef::Fixing(*at, which)));
    let question = Question {
        topic: Topic::Substrate,
        asks: "What is the substrate behind the header?".to_owned(),
        taken: "fastener to be decided by survey".to_owned(),
        about,
        reference: documents(sources),
        before_bid: false,
        answered_in: "the frame: fixed_to".to_owned(),
        on: fixings.collect(),
        unpriced: "no fasteners are in the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn hazards(sources: &Sources) -> Vec<Question> {
    let sites = sources.takeoff.arrangement.sites.iter();
    let unknown = sites.filter(|site| site.entry.hazard.or(HazardReport::Unknown) == HazardReport::Unknown);
    let question = Question {
        topic: Topic::Other,
        asks: "Please furnish the owner's hazardous material report. What does it list for these doors?".to_owned(),
        taken: "no hazardous material is disturbed".to_owned(),
        about: unknown.map(|site| site.name.clone()).collect(),
        reference: "no report received".to_owned(),
        before_bid: true,
        answered_in: "the site: hazard".to_owned(),
        on: BTreeSet::new(),
        unpriced: "not in the bid; work stops where it is found",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn unsurveyed(sources: &Sources) -> Vec<Question> {
    let (at, about) = marks(of_powered(sources.takeoff, |work| work.opening.surveys.is_empty()));
    let of = |of: &EntityRef| of.opening().is_some_and(|opening| at.contains(&opening));
    let lines = sources.takeoff.lines.iter().map(|line| line.of);
    let labor = sources.takeoff.labor.iter().map(|line| line.of);
    let question = Question {
        topic: Topic::Other,
        asks: "When can these openings be surveyed?".to_owned(),
        taken: "dimensions as drawn; not released to order".to_owned(),
        about,
        reference: documents(sources),
        before_bid: false,
        answered_in: "a survey record of the opening".to_owned(),
        on: lines.chain(labor).filter(of).collect(),
        unpriced: "no change to the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn weights(sources: &Sources) -> Vec<Question> {
    let estimated = |leaf: &LeafWork| leaf.powered && leaf.weight.as_ref().is_none_or(|it| it.estimated.is_some());
    let (at, about) = marks(of_powered(sources.takeoff, move |work| work.leaves.iter().any(estimated)));
    let question = Question {
        topic: Topic::Other,
        asks: "What is the weight of these leaves?".to_owned(),
        taken: "maximum weight for a leaf of this construction".to_owned(),
        about,
        reference: "estimated from leaf construction".to_owned(),
        before_bid: false,
        answered_in: "the leaf: weight".to_owned(),
        // A leaf beyond this operator's limit takes another: what hangs on leaves, drives and headers is bought anew.
        on: assumed::hangs(sources, "leaf", &at.into_iter().collect()),
        unpriced: "a different operator where a leaf exceeds the operator's limit",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

/// The documents that the bid rests on, in one line.
fn documents(sources: &Sources) -> String {
    listed(sources.reviewed.job().documents.iter().map(|it| it.number.clone()), ", ")
}
