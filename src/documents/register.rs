//! The submittal register: what is submitted, when it must be sent and was sent, what came back; and what each supplier sends to
//! each site, with the last days to order it and to submit it so that it is there.
//!
//! In: sources. Out: the view of the paper. May not know: pages.
//!
//! Days come from the takeoff's room (`takeoff::due`). A register has planned days of every item, and which review each
//! is in (UFGS 01 33 00, 1.3.1; a Veterans Affairs specification, 01 33 23, 1.4: read).

use std::collections::BTreeSet;

use serde::Serialize;

use super::{Count, Letterhead, Sources, approval_status, counts, letterhead};
use crate::catalog::{Group, Supplier};
use crate::input::Date;
use crate::job::{Job, Round, Site, Submittal, SubmittalPart, Transmittal};
use crate::measure::Noun;
use crate::takeoff::{Due, due, sent};

/// The view of the register.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// How long a review takes, in words.
    pub review: String,
    /// Submittals, a transmittal at a time.
    pub packages: Vec<RegisterPackage>,
    /// Rows, by site and supplier.
    pub rows: Vec<RegisterRow>,
}

/// What goes to the reviewer under one section.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterPackage {
    /// Name, such as `transmittal.087113-1`.
    pub name: String,
    /// Its number, as the owner writes it, and what it is.
    pub title: String,
    /// The section.
    pub section: String,
    /// How it stands, and whether the reviews still fit.
    pub stands: String,
    /// Its items.
    pub parts: Vec<RegisterPart>,
    /// Each time it was sent.
    pub rounds: Vec<RegisterRound>,
}

/// An item of a transmittal.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterPart {
    /// Its number in the transmittal.
    pub number: String,
    /// What it is.
    pub what: String,
    /// Its days.
    pub days: RegisterDays,
}

/// Days as printed.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterDays {
    /// Last day to submit at first, so that two reviews fit.
    pub first: String,
    /// Day on which the first review ends: last day to submit again.
    pub again: String,
    /// Day on which the second review ends: last safe day to order.
    pub order: String,
    /// Day on which it must be there, and the visit.
    pub needed: String,
}

/// A time that a transmittal was sent.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterRound {
    /// Its number, as the owner writes it.
    pub number: String,
    /// Revision that was sent.
    pub revision: String,
    /// The day it was sent.
    pub sent: String,
    /// The day it came back; `not back` while it has not.
    pub back: String,
    /// What was put on it.
    pub disposition: String,
    /// By whom, and what he noted.
    pub note: String,
}

/// What one supplier sends to one site.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterRow {
    /// Name of the row, such as `register.hall.fenwick`.
    pub name: String,
    /// The site, where its rows begin, and whether anything may be ordered for it, as far as measuring goes.
    pub site: String,
    /// The supplier.
    pub supplier: String,
    /// What he sends.
    pub goods: String,
    /// Its days.
    pub days: RegisterDays,
    /// How its product data stands, section by section.
    pub stands: String,
}

/// What stands where a day cannot be worked out.
const OPEN: &str = "to be agreed";

/// The view of the register.
pub fn register(sources: &Sources) -> RegisterView {
    let days = approval_status::profile(sources).and_then(|profile| profile.review_days);
    let review = match days {
        Some(days) => format!("{} for each review, by the owner's requirements", Noun::DAY.count(days)),
        None => "the owner's review time is not known, so dates to submit are not calculated".to_owned(),
    };
    let sites = sources.takeoff.arrangement.sites.iter().enumerate();
    let rows = sites.flat_map(|(at, site)| rows(sources, at, site, days)).collect();
    RegisterView {
        head: letterhead(sources, "Submittal register"),
        counts: counts(sources, None),
        review,
        packages: sources.reviewed.job().transmittals.iter().map(|it| package(sources, it, days)).collect(),
        rows,
    }
}

fn package(sources: &Sources, transmittal: &Transmittal, review: Option<u32>) -> RegisterPackage {
    let job = sources.reviewed.job();
    let submittal = job.submittals.iter().find(|it| it.id == transmittal.submittal);
    let own = job.head.section.as_deref() == Some(transmittal.section.as_str());
    let parts = submittal.map(|it| it.parts.as_slice()).unwrap_or_default().iter();
    let parts: Vec<SubmittalPart> = parts.copied().filter(|part| own || !part.shows_openings()).collect();
    let (due, needed) = earliest(sources, &transmittal.section, review);
    let approval = transmittal.approval(job.head.revision.as_deref());
    let waiting = match transmittal.approval(None).approved {
        Some(_) => 0,
        None => waiting_for(job, transmittal, &mut BTreeSet::new()),
    };
    let shown = (0..waiting).fold(due, |due, _| due.before_next(review));
    let after =
        submittal.filter(|_| transmittal.rounds.is_empty()).and_then(|it| waits(sources, it, &transmittal.section));
    let stands =
        [Some(approval_status::sentence(sources, &approval)), after, short(due.late(&approval, job.head.date, review))];
    let number = approval_status::number(sources, transmittal, 0);
    let section = job.sections.iter().find(|it| it.number == transmittal.section);
    let section = section.map_or_else(String::new, |it| format!(", {}", it.title));
    let title = transmittal.title.as_ref().or(submittal.map(|it| &it.title)).unwrap_or(&transmittal.submittal);
    RegisterPackage {
        name: format!("transmittal.{number}"),
        title: format!("{number}: {title}"),
        section: format!("Section {}{section}", transmittal.section),
        stands: stands.into_iter().flatten().collect::<Vec<_>>().join("; "),
        parts: parts
            .iter()
            .enumerate()
            .map(|(at, part)| RegisterPart {
                number: (at + 1).to_string(),
                what: part.word().to_owned(),
                days: printed(&shown, &needed),
            })
            .collect(),
        rounds: transmittal.rounds.iter().enumerate().map(|(at, it)| round(sources, transmittal, at, it)).collect(),
    }
}

/// How many transmittals of the section wait for one another behind this one, none of them sent yet. What is in a ring, which was
/// reported, is counted once.
fn waiting_for<'j>(job: &'j Job, first: &'j Transmittal, counted: &mut BTreeSet<&'j str>) -> usize {
    if !counted.insert(&first.submittal) {
        return 0;
    }
    let waits = |it: &&Transmittal| {
        let submittal = job.submittals.iter().find(|submittal| submittal.id == it.submittal);
        let after = submittal.and_then(|submittal| submittal.after.as_ref());
        it.section == first.section && it.rounds.is_empty() && after == Some(&first.submittal)
    };
    let behind = job.transmittals.iter().filter(waits).map(|it| 1 + waiting_for(job, it, counted));
    behind.max().unwrap_or(0)
}

/// What is said of a submittal that is not sent before another is approved under the same section.
fn waits(sources: &Sources, submittal: &Submittal, section: &str) -> Option<String> {
    let job = sources.reviewed.job();
    let first = job.submittals.iter().find(|it| Some(&it.id) == submittal.after.as_ref())?;
    let sent = job.transmittals.iter().filter(|it| it.submittal == first.id && it.section == section);
    let open = sent.filter(|it| it.approval(None).approved.is_none()).map(|it| approval_status::number(sources, it, 0));
    let open: Vec<String> = open.collect();
    Some(match open.len() {
        0 => format!("{} approved: may be sent", first.title),
        _ => format!("send after approval of {}", open.join(" and ")),
    })
}

fn round(sources: &Sources, transmittal: &Transmittal, time: usize, round: &Round) -> RegisterRound {
    let answer = round.answer.as_ref();
    let note = answer.map(|it| [it.by.clone(), it.note.clone()].into_iter().flatten().collect::<Vec<_>>().join(": "));
    RegisterRound {
        number: approval_status::number(sources, transmittal, time),
        revision: round.revision.clone(),
        sent: round.sent.to_string(),
        back: answer.map_or_else(|| "not returned".to_owned(), |it| it.back.to_string()),
        disposition: answer.map_or_else(String::new, |it| it.disposition.word.clone()),
        note: note.unwrap_or_default(),
    }
}

/// The days of the goods of a section that are ordered first, and for which visit of which site.
fn earliest(sources: &Sources, section: &str, review: Option<u32>) -> (Due, String) {
    let job = sources.reviewed.job();
    let sites = sources.takeoff.arrangement.sites.iter().enumerate();
    let each = sites.flat_map(|(at, site)| {
        let suppliers = sources.catalog.suppliers.values().filter(|from| from.submitted);
        let here = suppliers.filter(move |from| {
            let mut goods = sent(sources.takeoff, sources.catalog, at, &from.id);
            goods.any(|item| job.section_of(item.group) == Some(section))
        });
        here.map(move |from| (due(site, from, review), format!("{}, {}", from.before.word(), site.name)))
    });
    let known = each.filter(|(due, _)| due.order.is_some());
    known.min_by_key(|(due, _)| due.order).unwrap_or_else(|| (Due::default(), String::new()))
}

/// What is said where the reviews still to come end after the last safe day to order.
fn short(late: Option<i64>) -> Option<String> {
    late.map(|days| format!("TWO REVIEWS DO NOT FIT before the order, {days} days short"))
}

fn printed(due: &Due, needed: &str) -> RegisterDays {
    let reported = |day: Option<Date>| day.map_or_else(|| OPEN.to_owned(), |day| day.to_string());
    RegisterDays {
        first: reported(due.first),
        again: reported(due.again),
        order: reported(due.order),
        needed: match (due.needed, needed.is_empty()) {
            (None, false) => format!("{needed}, date to be agreed"),
            (Some(day), false) => format!("{day}, {needed}"),
            (day, true) => reported(day),
        },
    }
}

fn rows(sources: &Sources, at: usize, site: &Site, review: Option<u32>) -> Vec<RegisterRow> {
    let suppliers = sources.catalog.suppliers.values().filter(|supplier| supplier.submitted);
    let mut rows: Vec<RegisterRow> =
        suppliers.filter_map(|supplier| row(sources, at, site, supplier, review)).collect();
    if let Some(first) = rows.first_mut() {
        first.site = format!("{}: {}", site.name, released(sources, at));
    }
    rows
}

/// The row of a supplier, unless he sends nothing to the site.
fn row(sources: &Sources, at: usize, site: &Site, from: &Supplier, review: Option<u32>) -> Option<RegisterRow> {
    let job = sources.reviewed.job();
    let goods: BTreeSet<Group> = sent(sources.takeoff, sources.catalog, at, &from.id).map(|item| item.group).collect();
    if goods.is_empty() {
        return None;
    }
    let due = due(site, from, review);
    let sections: BTreeSet<&str> = goods.iter().filter_map(|group| job.section_of(*group)).collect();
    let approvals = sections.iter().map(|section| job.approval(SubmittalPart::ProductData, section));
    let approvals: Vec<_> = approvals.collect();
    let late = approvals.iter().filter_map(|it| due.late(it, job.head.date, review)).max();
    let mut stands: Vec<String> = approvals.iter().map(|it| approval_status::sentence(sources, it)).collect();
    stands.dedup();
    stands.extend(short(late));
    Some(RegisterRow {
        name: format!("register.{}.{}", site.id, from.id),
        site: String::new(),
        supplier: from.name.clone(),
        goods: goods.iter().map(|group| group.word()).collect::<Vec<_>>().join(", "),
        days: printed(&due, from.before.word()),
        stands: stands.join("; "),
    })
}

/// Nothing is ordered for a site before each of its openings was measured twice.
fn released(sources: &Sources, at: usize) -> String {
    let arrangement = &sources.takeoff.arrangement;
    let site = arrangement.sites.get(at);
    let here = arrangement.openings.iter().filter(|work| site.is_some_and(|site| work.site.id == site.id));
    let open: Vec<&str> =
        here.filter(|work| !work.opening.is_measured_twice()).map(|work| work.opening.mark.as_str()).collect();
    match open.len() {
        0 => "second survey complete for all openings".to_owned(),
        _ => format!("NOT RELEASED TO ORDER, second survey not done: {}", open.join(", ")),
    }
}
