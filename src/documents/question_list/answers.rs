//! The other answers to an open question whose price can be worked out: the job as it would be with each.
//!
//! In: a reviewed job and its takeoff. Out: jobs, each with the words of the answer. May not know: prices; whoever prices papers
//! prices these too.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{Topic, of_powered, wiring};
use crate::catalog::{Catalog, Substrate};
use crate::input::{Given, Slot, Standing};
use crate::job::{Job, LatchKind, LeafEntry, Opening, Release};
use crate::money::Money;
use crate::review::{ReviewedJob, releases_for};
use crate::takeoff::{EntityRef, Takeoff};

/// An answer, and the job as it would be.
pub struct Answer {
    /// What is asked.
    pub topic: Topic,
    /// The answer in words.
    pub words: String,
    /// The job with it.
    pub job: Job,
}

/// An answer, and what it changes of the base bid.
#[derive(Clone, Debug)]
pub struct PricedAnswer {
    /// What is asked.
    pub topic: Topic,
    /// The answer in words.
    pub words: String,
    /// The bid with it less the bid.
    pub change: Money,
}

/// Substrates that are tried where nobody knows what is behind a header.
const SUBSTRATES: [Substrate; 4] = [Substrate::Wood, Substrate::SteelStud, Substrate::Masonry, Substrate::Concrete];

/// Every answer with a job of its own: each release that fits, each substrate, and power that others bring to the header.
pub fn answers(reviewed: &ReviewedJob, catalog: &Catalog, takeoff: &Takeoff) -> Vec<Answer> {
    let job = reviewed.job();
    let releases = Release::ALL.iter().filter_map(|release| released(job, *release));
    let substrates = SUBSTRATES.into_iter().filter_map(|substrate| fixed_to(job, catalog, takeoff, substrate));
    releases.chain(substrates).chain(brought_by_others(job, takeoff)).collect()
}

fn given<T>(value: T, slot: &Slot<T>, job: &Job) -> Slot<T> {
    let place = slot.place().unwrap_or(&job.head.place).clone();
    Slot::Given(Given { value, place, standing: Standing::Assumed, through: None })
}

/// Leaves whose release nobody knows, let go by one that fits the latch of some of them.
fn released(job: &Job, release: Release) -> Option<Answer> {
    let open = |leaf: &LeafEntry| {
        let latch = leaf.latch.cloned().filter(|it| *it != LatchKind::None)?;
        let unknown = leaf.release.is_absent() || leaf.release.get() == Some(&Release::Unknown);
        (leaf.powered.or(false) && unknown && releases_for(latch).contains(&release)).then_some(())
    };
    let mut changed = job.clone();
    let mut marks = Vec::new();
    let asked = |it: &Opening| it.leaves.iter().any(|leaf| open(leaf).is_some());
    for opening in changed.openings.iter_mut().filter(|it| it.base && !job.is_set_aside(&it.mark) && asked(it)) {
        let opening = Arc::make_mut(opening);
        for leaf in opening.leaves.iter_mut().filter(|leaf| open(leaf).is_some()) {
            leaf.release = given(release, &leaf.release, job);
            marks.push(opening.mark.clone());
        }
    }
    marks.dedup();
    let words = format!("{} at {}", release.word(), marks.join(", "));
    (!marks.is_empty()).then_some(Answer { topic: Topic::Release, words, job: changed })
}

/// Headers whose substrate nobody knows, fixed to one.
fn fixed_to(job: &Job, catalog: &Catalog, takeoff: &Takeoff, substrate: Substrate) -> Option<Answer> {
    let at: BTreeSet<&str> =
        of_powered(takeoff, super::substrate_unknown).map(|(_, work)| work.opening.mark.as_str()).collect();
    if at.is_empty() || !catalog.fasteners.iter().any(|it| it.into == substrate) {
        return None;
    }
    let mut changed = job.clone();
    for opening in changed.openings.iter_mut().filter(|it| at.contains(it.mark.as_str())) {
        if let Some(frame) = Arc::make_mut(opening).entry.frame.given_mut() {
            frame.value.fixed_to = given(substrate, &frame.value.fixed_to, job);
        }
    }
    Some(Answer { topic: Topic::Substrate, words: substrate.word().to_owned(), job: changed })
}

/// Power that is not there, or only assumed, brought to the header by others: without the runs that carry it alone.
fn brought_by_others(job: &Job, takeoff: &Takeoff) -> Vec<Answer> {
    let answer = |topic: Topic, none: bool| {
        let at: Vec<usize> = of_powered(takeoff, move |work| super::power_open(work, none)).map(|(at, _)| at).collect();
        let on = wiring(takeoff, &at);
        let runs = takeoff.arrangement.runs.iter().enumerate().filter(|(at, _)| on.contains(&EntityRef::Run(*at)));
        let numbers: BTreeSet<usize> = runs.map(|(_, work)| work.run.number).collect();
        let mut changed = job.clone();
        changed.runs.retain(|run| !numbers.contains(&run.number));
        let words = "brought to the header by others".to_owned();
        (!numbers.is_empty()).then_some(Answer { topic, words, job: changed })
    };
    [answer(Topic::PowerAssumed, false), answer(Topic::PowerNone, true)].into_iter().flatten().collect()
}
