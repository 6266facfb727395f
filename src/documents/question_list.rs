//! The question list: every fact that is assumed or not known, as a numbered question with what hangs on its answer.
//!
//! In: sources and the priced offer. Out: a view of finished strings. May not know: costs; only shares of the price.
//!
//! A question is there while its fact is: what a person types into the job file in answer, as seen or as drawn, closes it.

use std::collections::BTreeSet;

use serde::Serialize;

use super::printing::{DASH, listed};
use super::{Count, Letterhead, Sources, counts, letterhead};
use crate::catalog::Substrate;
use crate::estimate::{Estimate, carried};
use crate::job::{HazardReport, PowerKnown, Release};
use crate::reading::{Date, Standing};
use crate::takeoff::{EntityRef, LeafWork, OpeningWork};

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
    /// What part of the price hangs on it.
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

/// A question before it is numbered and priced.
struct Question {
    asks: String,
    taken: String,
    about: Vec<String>,
    reference: String,
    before_bid: bool,
    answered_in: &'static str,
    /// The entities that carry what the answer decides.
    on: BTreeSet<EntityRef>,
    /// What stands instead of an amount where nothing is in the price.
    unpriced: &'static str,
}

/// Days before the bid is due that an answer is wanted (common practice, no source).
const DAYS_BEFORE: i64 = 3;

/// The view of the question list. Without an estimate no share can be said.
pub fn question_list(sources: &Sources, estimate: Option<&Estimate>) -> QuestionsView {
    let head = &sources.cleared.job().head;
    let due: Option<Date> = head.due.and_then(|due| due.date().plus_days(-DAYS_BEFORE));
    let by = due.map_or_else(|| DASH.to_owned(), |date| date.to_string());
    let row = |(at, question): (usize, Question)| QuestionRow {
        number: format!("Q{}", at + 1),
        about: listed(question.about, ", "),
        carries: carries(sources, estimate, &question.on, question.unpriced),
        asks: question.asks,
        taken: question.taken,
        reference: question.reference,
        by: if question.before_bid { by.clone() } else { "before anything is ordered".to_owned() },
        answered_in: question.answered_in.to_owned(),
    };
    QuestionsView {
        head: letterhead(sources, "Questions"),
        counts: counts(sources, None),
        questions: questions(sources).into_iter().enumerate().map(row).collect(),
    }
}

fn carries(sources: &Sources, estimate: Option<&Estimate>, on: &BTreeSet<EntityRef>, unpriced: &str) -> String {
    let share = estimate.and_then(|estimate| carried(sources.takeoff, estimate, |of| on.contains(&of)));
    match share {
        Some(share) => format!("about {} of the bid rests on it", share.print().trim_end_matches(".00")),
        None => unpriced.to_owned(),
    }
}

fn questions(sources: &Sources) -> Vec<Question> {
    let mut all = power(sources);
    all.extend(panels(sources));
    all.extend(runs(sources));
    all.extend(releases(sources));
    all.extend(substrates(sources));
    all.extend(hazards(sources));
    all.extend(unsurveyed(sources));
    all.extend(weights(sources));
    all
}

/// Openings that a condition holds for.
fn openings<'s>(
    sources: &'s Sources,
    holds: impl Fn(&OpeningWork) -> bool + 's,
) -> impl Iterator<Item = (usize, &'s OpeningWork<'s>)> {
    sources.takeoff.arrangement.openings.iter().enumerate().filter(move |(_, it)| !it.drives.is_empty() && holds(it))
}

fn marks<'o>(works: impl Iterator<Item = (usize, &'o OpeningWork<'o>)>) -> (Vec<usize>, Vec<String>) {
    works.map(|(at, work)| (at, work.opening.mark.clone())).unzip()
}

/// Power that nobody has seen or drawn: one question for what is assumed, one for what is not there.
fn power(sources: &Sources) -> Vec<Question> {
    let known = |work: &OpeningWork| work.opening.entry.power.get().and_then(|power| power.known.cloned());
    let ask = |none: bool| {
        let holds = move |work: &OpeningWork| match known(work) {
            Some(PowerKnown::None) => none,
            None | Some(PowerKnown::Assumed) => !none,
            Some(PowerKnown::Seen | PowerKnown::Drawn) => false,
        };
        let (at, about) = marks(openings(sources, holds));
        (!about.is_empty()).then(|| Question {
            asks: match none {
                true => "There is no power at these openings. From which panel, by which way and by whom does it come?",
                false => "Which panel feeds these openings, with how many spaces free, and by which way?",
            }
            .to_owned(),
            taken: "the panel and the runs as listed, spaces free".to_owned(),
            about,
            reference: documents(sources),
            before_bid: true,
            answered_in: "power of the opening: seen or drawn, with its panel",
            on: wiring(sources, &at),
            unpriced: "no wiring is in the bid for it",
        })
    };
    [false, true].into_iter().filter_map(ask).collect()
}

/// Circuits of openings, the runs that carry them alone, and their boxes at headers.
fn wiring(sources: &Sources, openings: &[usize]) -> BTreeSet<EntityRef> {
    let all = &sources.takeoff.arrangement;
    let alone = |headers: &[(usize, usize)]| headers.iter().all(|(at, _)| openings.contains(at));
    let circuits: Vec<usize> = (0..all.circuits.len()).filter(|at| alone(&all.circuits[*at].headers)).collect();
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
    let job = sources.cleared.job();
    let unknown = |id: &String| {
        let panel = &job.panels[id].entry;
        panel.known.get() == Some(&PowerKnown::Assumed) || panel.free.is_absent()
    };
    let all = &sources.takeoff.arrangement;
    let ids: Vec<String> = all.panels.iter().filter_map(|it| it.id.clone()).filter(unknown).collect();
    let on = all
        .circuits
        .iter()
        .enumerate()
        .filter(|(_, it)| all.panels[it.panel].id.as_ref().is_some_and(|id| ids.contains(id)));
    let on: BTreeSet<EntityRef> = on.map(|(at, _)| EntityRef::Circuit(at)).collect();
    let question = Question {
        asks: "How many spaces are free in these panels, and of which make are they?".to_owned(),
        taken: "spaces as listed; no work in the panel but breakers".to_owned(),
        about: ids,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the panel: free, and known as seen",
        on,
        unpriced: "a panel that is full is not in the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

/// Runs whose way is assumed.
fn runs(sources: &Sources) -> Vec<Question> {
    let all = &sources.takeoff.arrangement.runs;
    let assumed = |standing: &Standing| matches!(standing, Standing::Assumed | Standing::Estimated);
    let here = |at: &usize| all[*at].run.entry.length.given().is_some_and(|given| assumed(&given.standing));
    let found: Vec<usize> = (0..all.len()).filter(here).collect();
    let question = Question {
        asks: "May these ways be taken, and how long are they?".to_owned(),
        taken: "lengths as listed, walls and ceilings as drawn".to_owned(),
        about: found.iter().map(|at| all[*at].name()).collect(),
        reference: documents(sources),
        before_bid: true,
        answered_in: "the run: length and bends, surveyed",
        on: found.into_iter().map(EntityRef::Run).collect(),
        unpriced: "nothing hangs on it",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn releases(sources: &Sources) -> Vec<Question> {
    let unknown = |leaf: &LeafWork| leaf.powered && matches!(leaf.release(), None | Some(Release::Unknown));
    let (_, about) = marks(openings(sources, move |work| work.leaves.iter().any(unknown)));
    let question = Question {
        asks: "What latches these leaves, what is to let it go, and who furnishes, wires and programs that?".to_owned(),
        taken: "no release is included".to_owned(),
        about,
        reference: documents(sources),
        before_bid: true,
        answered_in: "the leaf: latch and release",
        on: BTreeSet::new(),
        unpriced: "not in the bid; strike, transfer, supply and cable would be added",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn substrates(sources: &Sources) -> Vec<Question> {
    let unknown = |work: &OpeningWork| {
        let frame = work.opening.entry.frame.get();
        frame.is_none_or(|it| it.fixed_to.or(Substrate::Unknown) == Substrate::Unknown && !it.fixed_to.is_bad())
    };
    let (at, about) = marks(openings(sources, unknown));
    let all = &sources.takeoff.arrangement.openings;
    let fixings = at.iter().flat_map(|at| (0..all[*at].fixings.len()).map(|which| EntityRef::Fixing(*at, which)));
    let question = Question {
        asks: "What is behind the face that the header is fixed to?".to_owned(),
        taken: "a fixing that is decided when it is seen".to_owned(),
        about,
        reference: documents(sources),
        before_bid: false,
        answered_in: "the frame: fixed_to",
        on: fixings.collect(),
        unpriced: "no fixing is in the bid",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn hazards(sources: &Sources) -> Vec<Question> {
    let sites = sources.takeoff.arrangement.sites.iter();
    let unknown = sites.filter(|site| site.entry.hazard.or(HazardReport::Unknown) == HazardReport::Unknown);
    let question = Question {
        asks: "May the owner's report on hazardous material be seen, and what does it say of these doors?".to_owned(),
        taken: "no such material is disturbed".to_owned(),
        about: unknown.map(|site| site.name.clone()).collect(),
        reference: "no report was seen".to_owned(),
        before_bid: true,
        answered_in: "the site: hazard",
        on: BTreeSet::new(),
        unpriced: "not in the bid; work stops where it is found",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn unsurveyed(sources: &Sources) -> Vec<Question> {
    let (at, about) = marks(openings(sources, |work| work.opening.surveys.is_empty()));
    let of = |of: &EntityRef| of.opening().is_some_and(|opening| at.contains(&opening));
    let lines = sources.takeoff.lines.iter().map(|line| line.of);
    let labor = sources.takeoff.labor.iter().map(|line| line.of);
    let question = Question {
        asks: "When may these openings be measured?".to_owned(),
        taken: "dimensions as drawn; nothing is released to order".to_owned(),
        about,
        reference: documents(sources),
        before_bid: false,
        answered_in: "a survey record of the opening",
        on: lines.chain(labor).filter(of).collect(),
        unpriced: "nothing hangs on it",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

fn weights(sources: &Sources) -> Vec<Question> {
    let estimated = |leaf: &LeafWork| leaf.powered && leaf.weight.as_ref().is_none_or(|it| it.estimated.is_some());
    let (_, about) = marks(openings(sources, move |work| work.leaves.iter().any(estimated)));
    let question = Question {
        asks: "What do these leaves weigh?".to_owned(),
        taken: "the most that a leaf so made weighs".to_owned(),
        about,
        reference: "estimated from what the leaf is made of".to_owned(),
        before_bid: false,
        answered_in: "the leaf: weight",
        on: BTreeSet::new(),
        unpriced: "another operator where a leaf is beyond this one's limit",
    };
    (!question.about.is_empty()).then_some(question).into_iter().collect()
}

/// The documents that the bid rests on, in one line.
fn documents(sources: &Sources) -> String {
    listed(sources.cleared.job().documents.iter().map(|it| it.number.clone()), ", ")
}
