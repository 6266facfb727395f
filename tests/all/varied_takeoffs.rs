//! A job made of one already taken off is worked again only where it differs, and comes to what it comes to worked anew.
//!
//! In: the demo, with each alternate, each two, each answer to an open question, and one random edit after the other. Out:
//! jobs that come to another quantity, another hour or another bid; the test wants none. Arithmetic, no source.

use std::collections::BTreeMap;
use std::sync::Arc;

use hingewright::documents::answers;
use hingewright::estimate;
use hingewright::findings::Findings;
use hingewright::job::Job;
use hingewright::review::ReviewedJob;
use hingewright::takeoff::{Takeoff, take_off_varied};
use rust_decimal::Decimal;

use crate::counts::{below, random};
use crate::demo::{clear, demo, dollars, estimated, taken_off};

/// Quantities and hours by entity, rule, and item or trade; none of them added up.
fn lines(takeoff: &Takeoff) -> BTreeMap<String, Vec<Decimal>> {
    let mut lines: BTreeMap<String, Vec<Decimal>> = BTreeMap::new();
    let value = |figure| takeoff.ledger.value(figure).value();
    for line in &takeoff.lines {
        let name = format!("{} {:?} {}", takeoff.name(line.of), line.rule, line.item);
        lines.entry(name).or_default().push(value(line.quantity));
    }
    for line in &takeoff.labor {
        let site = line.site.map(|at| takeoff.arrangement.sites[at].id.as_str());
        let name =
            format!("{} {:?} {} {:?} {site:?} {}", takeoff.name(line.of), line.rule, line.trade, line.visit, line.crew);
        lines.entry(name).or_default().push(value(line.hours));
    }
    lines.values_mut().for_each(|values| values.sort());
    lines
}

/// Holds a job that was made of the demo to the same job worked anew.
fn hold(base: &Takeoff, reviewed: &ReviewedJob, job: Job, what: &str) {
    let catalog = demo().catalog;
    let varied = reviewed.varied(job.clone());
    let mut quick = take_off_varied(base, &varied, catalog);
    let anew = clear(job, catalog);
    assert_eq!(lines(&quick), lines(&taken_off(&anew, catalog)), "{what}");
    let (takeoff, estimate) = estimated(&anew, catalog);
    let bid = estimate::bid(&mut quick, varied.job(), catalog, &mut Findings::default()).unwrap();
    assert_eq!(dollars(&quick, bid), dollars(&takeoff, estimate.bid), "{what}");
}

#[test]
fn a_varied_job_comes_to_what_it_comes_to_worked_anew() {
    let (reviewed, catalog) = (demo().reviewed, demo().catalog);
    let job = reviewed.job();
    let base = taken_off(reviewed, catalog);
    let count = job.alternates.len();
    assert!(count >= 3);
    for one in 0..count {
        hold(&base, reviewed, job.with_alternates(&[one]), &format!("alternate {one}"));
        for other in one + 1..count {
            hold(&base, reviewed, job.with_alternates(&[one, other]), &format!("alternates {one} and {other}"));
        }
    }
    let answers = answers(reviewed, catalog, &base);
    assert!(answers.len() >= 3, "{} answers", answers.len());
    for answer in answers {
        hold(&base, reviewed, answer.job, &answer.words);
    }
}

/// One edit after the other, so that ever more differs: openings in or out of the bid, like another one, without a device, and
/// runs that are gone.
#[test]
fn so_does_a_job_after_any_edits() {
    let (reviewed, catalog) = (demo().reviewed, demo().catalog);
    let base = taken_off(reviewed, catalog);
    let mut random = random(41);
    for turn in 0..12 {
        let mut job = reviewed.job().clone();
        for _ in 0..=turn % 4 {
            let openings = job.openings.len() as u64;
            let (at, other) = (below(&mut random, openings) as usize, below(&mut random, openings) as usize);
            match below(&mut random, 4) {
                0 => {
                    let opening = Arc::make_mut(&mut job.openings[at]);
                    opening.base = !opening.base;
                }
                1 => {
                    let like = job.openings[other].clone();
                    let opening = Arc::make_mut(&mut job.openings[at]);
                    (opening.entry, opening.leaves) = (like.entry.clone(), like.leaves.clone());
                }
                2 => {
                    let leaf = Arc::make_mut(&mut job.openings[at]).leaves.last_mut();
                    leaf.into_iter().for_each(|leaf| leaf.powered = hingewright::input::Slot::Absent);
                }
                _ => {
                    let run = below(&mut random, job.runs.len() as u64) as usize;
                    job.runs.remove(run);
                }
            }
        }
        hold(&base, reviewed, job, &format!("turn {turn}"));
    }
}
