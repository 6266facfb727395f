//! Facts that a job leaves out: what depends on each, the question it becomes, and its share of the price.
//!
//! In: what the review found left out, a takeoff, its estimate. Out: questions, and findings with dollars, for the office.
//! May not know: which facts there are.

use std::collections::{BTreeMap, BTreeSet};

use super::{Question, Topic, documents, wiring};
use crate::documents::Sources;
use crate::estimate::{Estimate, dependent_share};
use crate::findings::{Findings, Subject};
use crate::job::RunEnd;
use crate::review::{Absence, DependentWork, absences};
use crate::takeoff::{EntityRef, Takeoff};

/// The work that depends on a fact that is left out.
fn dependent(takeoff: &Takeoff, absence: &Absence) -> BTreeSet<EntityRef> {
    let at: BTreeSet<usize> = absence.openings.iter().filter_map(|mark| takeoff.opening_at(mark)).collect();
    let of_opening = |holds: fn(EntityRef) -> bool| {
        let lines = takeoff.lines.iter().map(|line| line.of);
        let labor = takeoff.labor.iter().map(|line| line.of);
        let here = |of: &EntityRef| of.opening().is_some_and(|it| at.contains(&it)) && holds(*of);
        lines.chain(labor).filter(here).collect()
    };
    match absence.depends {
        DependentWork::LeftOut => BTreeSet::new(),
        DependentWork::Power => wiring(takeoff, &at.iter().copied().collect::<Vec<_>>()),
        DependentWork::Headers => {
            of_opening(|of| matches!(of, EntityRef::Header(..) | EntityRef::Fixing(..) | EntityRef::Drive(..)))
        }
        DependentWork::Leaves => of_opening(|of| matches!(of, EntityRef::Leaf(..))),
        DependentWork::Opening => of_opening(|_| true),
        DependentWork::AssumedRuns => {
            let here = |end: &RunEnd| end.opening().is_some_and(|mark| absence.openings.contains(mark));
            let runs = takeoff.arrangement.runs.iter().enumerate();
            let assumed = runs.filter(|(_, work)| work.run.assumed.is_some() && here(&work.run.to));
            assumed.map(|(at, _)| EntityRef::Run(at)).collect()
        }
    }
}

/// Says of each finding about a fact left out how much of the price depends on it.
pub fn price_absences(findings: &mut Findings, all: &[Absence], takeoff: &Takeoff, estimate: &Estimate) {
    for absence in all.iter().filter(|it| it.depends != DependentWork::LeftOut) {
        let on = dependent(takeoff, absence);
        let price = match dependent_share(takeoff, estimate, |of| on.contains(&of)) {
            Some(share) => format!("about {} of the bid depends on it", share.print().trim_end_matches(".00")),
            None => "nothing in the bid depends on it yet".to_owned(),
        };
        findings.amend(|finding| {
            if finding.code == absence.code && finding.subject == Subject::Site(absence.site.clone()) {
                finding.price = Some(price.clone());
            }
        });
    }
}

/// A question for each fact that is left out and not accepted, with all openings that lack it.
pub(super) fn questions(sources: &Sources) -> Vec<Question> {
    let reported: BTreeSet<(&str, &Subject)> = sources.findings.iter().map(|it| (it.code.id, &it.subject)).collect();
    let mut asked: BTreeMap<&str, Question> = BTreeMap::new();
    let mut order = Vec::new();
    for absence in absences(sources.reviewed.job(), sources.catalog) {
        let Some(question) = absence.question else { continue };
        if !reported.contains(&(absence.code.id, &Subject::Site(absence.site.clone()))) {
            continue;
        }
        let known = asked.entry(absence.code.id).or_insert_with(|| {
            order.push(absence.code.id);
            Question {
                topic: Topic::Other,
                asks: question.to_owned(),
                taken: absence.assumed.trim_start_matches("assumed: ").to_owned(),
                about: Vec::new(),
                reference: documents(sources),
                before_bid: true,
                answered_in: "the opening or the run, where it is left out".to_owned(),
                on: BTreeSet::new(),
                unpriced: "not in the bid",
            }
        });
        known.on.extend(dependent(sources.takeoff, &absence));
        known.about.extend(absence.openings);
    }
    order.into_iter().filter_map(|id| asked.remove(id)).collect()
}
