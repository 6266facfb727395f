//! Two days of a job of which one comes before the other: one row a pair of days.
//!
//! In: a job. Out: `days-out-of-order`. May not know: which of the two days is right, or what day it is.

use super::{Check, CheckScope};
use crate::catalog::Catalog;
use crate::findings::{Code, Papers, Place, Severity, Subject};
use crate::input::{Date, Slot};
use crate::job::{Job, Quote, VisitDaysEntry};
use crate::review::pair::{Compared, Disagreement, PairCheck, Statement};

/// Two days in the wrong order.
pub(in crate::review) static DAYS: Check = Check {
    code: &Code {
        id: "days-out-of-order",
        severity: Severity::Warning,
        says: "{found} is after {asked}",
        why: "A slip of a digit in a day moves everything that is counted from it: last days to order, ages of prices, which survey lies over \
              which. Papers cannot rest on what is dated after them.",
        example: "[job]\ndate = 2026-12-08\n\n[[addendum]]\nnumber = \"2\"\ndate = 2027-11-24",
        blocks: Papers::NONE,
    },
    clause: None,
    over: CheckScope::Pair(PairCheck {
        between: ["this day", "this one comes later"],
        used: "both as typed",
        compared: Compared::Job(days),
    }),
};

/// A day with what it is called and where it is typed.
type Day<'j> = (String, Date, &'j Place);

/// Two days, the first of which must not be after the second.
struct Ordered<'j> {
    subject: Subject,
    first: Day<'j>,
    second: Day<'j>,
}

/// Every pair of days: where they are found in a job.
const PAIRS: [fn(&Job) -> Vec<Ordered>; 6] =
    [documents_and_papers, addenda_and_papers, quotes_and_papers, quotes_and_their_ends, surveys_and_papers, visits];

fn days(job: &Job, _: &Catalog) -> Vec<Disagreement> {
    let all = PAIRS.iter().flat_map(|pair| pair(job));
    let reversed = all.filter(|it| it.first.1 > it.second.1);
    let each = reversed.map(|it| Disagreement {
        subject: it.subject,
        one: Statement::new(format!("{}, {},", it.first.0, it.first.1), it.first.2),
        other: Statement::new(format!("{}, {}", it.second.0, it.second.1), it.second.2),
        margin: Some(format!("{} d", it.second.1.days_to(it.first.1))),
        write: "correct the day that is wrong".to_owned(),
    });
    each.collect()
}

/// The day of the papers; none where it cannot be read.
fn papers(job: &Job) -> Option<Day<'_>> {
    Some(("the date of the papers".to_owned(), job.head.date, job.head.date_place.as_ref()?))
}

fn documents_and_papers(job: &Job) -> Vec<Ordered<'_>> {
    let Some(papers) = papers(job) else { return Vec::new() };
    let each = job.documents.iter().map(|it| Ordered {
        subject: Subject::Entry("document", it.number.clone()),
        first: (format!("document {}", it.number), it.date, &it.place),
        second: papers.clone(),
    });
    each.collect()
}

fn addenda_and_papers(job: &Job) -> Vec<Ordered<'_>> {
    let Some(papers) = papers(job) else { return Vec::new() };
    let each = job.addenda.iter().map(|it| Ordered {
        subject: Subject::Entry("addendum", it.number.clone()),
        first: (format!("addendum {}", it.number), it.date, &it.place),
        second: papers.clone(),
    });
    each.collect()
}

/// A day of a quote, and where it is typed.
fn of_quote<'q>(quote: &'q Quote, named: &str, day: Date, place: &'q Option<Place>) -> Day<'q> {
    (named.to_owned(), day, place.as_ref().unwrap_or(&quote.place))
}

fn quotes_and_papers(job: &Job) -> Vec<Ordered<'_>> {
    let Some(papers) = papers(job) else { return Vec::new() };
    let each = job.quotes.values().map(|it| Ordered {
        subject: Subject::Entry("quote", it.item.clone()),
        first: of_quote(it, &format!("the quote of {}", it.item), it.date, &it.date_place),
        second: papers.clone(),
    });
    each.collect()
}

fn quotes_and_their_ends(job: &Job) -> Vec<Ordered<'_>> {
    let each = job.quotes.values().map(|it| Ordered {
        subject: Subject::Entry("quote", it.item.clone()),
        first: of_quote(it, &format!("the quote of {}", it.item), it.date, &it.date_place),
        second: of_quote(it, "its last day", it.valid_to, &it.valid_place),
    });
    each.collect()
}

/// Surveys of an opening are sorted by pass; a first pass is made before a second.
fn surveys_and_papers(job: &Job) -> Vec<Ordered<'_>> {
    let mut all = Vec::new();
    for opening in &job.openings {
        let subject = || Subject::Opening(opening.mark.clone());
        let survey = |at: usize| {
            let made = &opening.surveys[at];
            (format!("survey {} of {}", made.pass, opening.mark), made.seen, &made.place)
        };
        for at in 0..opening.surveys.len() {
            all.extend(papers(job).map(|second| Ordered { subject: subject(), first: survey(at), second }));
            if at > 0 {
                all.push(Ordered { subject: subject(), first: survey(at - 1), second: survey(at) });
            }
        }
    }
    all
}

/// A visit, and the slot of its day.
type VisitDay = (&'static str, fn(&VisitDaysEntry) -> &Slot<Date>);

/// Visits that cannot be made before one another: each chain in its order (common practice, no source).
const CHAINS: [&[VisitDay]; 2] = [
    &[
        ("survey", |it| &it.survey),
        ("rough-in", |it| &it.rough_in),
        ("setting", |it| &it.set),
        ("final connection", |it| &it.final_connection),
        ("inspection", |it| &it.inspection),
        ("punch list", |it| &it.punch),
    ],
    &[("rough-in", |it| &it.rough_in), ("devices", |it| &it.devices), ("inspection", |it| &it.inspection)],
];

fn visits(job: &Job) -> Vec<Ordered<'_>> {
    let mut all = Vec::new();
    for site in job.sites.values() {
        let Some(days) = site.entry.days.get() else { continue };
        for chain in CHAINS {
            let given: Vec<Day> = chain
                .iter()
                .filter_map(|(named, slot)| {
                    slot(days).given().map(|it| (format!("the {named} visit"), it.value, &it.place))
                })
                .collect();
            all.extend(given.windows(2).map(|two| Ordered {
                subject: Subject::Site(site.id.clone()),
                first: two[0].clone(),
                second: two[1].clone(),
            }));
        }
    }
    all
}
