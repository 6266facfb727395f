//! The submittal register: what each supplier sends to each site, when it must be there, and the last days to order it and to
//! submit it so that it is.
//!
//! In: sources. Out: the view of the paper. May not know: pages, what was submitted.
//!
//! Days are worked back from the visit at which goods are needed: less the supplier's weeks is the last safe day to order,
//! less one review the last day to submit again what came back, less two the last day to submit at first. A Veterans
//! Affairs specification (01 33 23, 1.4, read) says to plan at least 14 days for a review, and that late or rejected submittals
//! give no more time.

use std::collections::BTreeSet;

use serde::Serialize;

use super::counts::site_of;
use super::{Count, Letterhead, Sources, counts, letterhead};
use crate::catalog::{Group, Supplier};
use crate::job::Site;
use crate::reading::Date;

/// The view of the register.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// How long a review takes, in words.
    pub review: String,
    /// Rows, by site and supplier.
    pub rows: Vec<RegisterRow>,
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
    /// Last day to submit at first, so that two reviews fit.
    pub first: String,
    /// Last day to submit again.
    pub again: String,
    /// Last safe day to order.
    pub order: String,
    /// Day on which it must be there.
    pub needed: String,
}

/// What stands where a day cannot be worked out.
const OPEN: &str = "to be agreed";

/// The view of the register.
pub fn register(sources: &Sources) -> RegisterView {
    let profile = sources.catalog.profiles.get(&sources.cleared.job().head.profile);
    let days = profile.and_then(|profile| profile.review_days);
    let review = match days {
        Some(days) => format!("{days} days for each review, as the owner's profile says"),
        None => "the owner's profile does not say how long a review takes, so no day to submit can be told".to_owned(),
    };
    let sites = sources.takeoff.arrangement.sites.iter().enumerate();
    let rows = sites.flat_map(|(at, site)| rows(sources, at, site, days)).collect();
    RegisterView { head: letterhead(sources, "Submittal register"), counts: counts(sources, None), review, rows }
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
    let here = sources.takeoff.lines.iter().filter(|line| site_of(sources.takeoff, line.of) == Some(at));
    let sent = here.filter_map(|line| sources.catalog.items.get(&line.item)).filter(|item| item.supplier == from.id);
    let goods: BTreeSet<Group> = sent.map(|item| item.group).collect();
    if goods.is_empty() {
        return None;
    }
    let needed = site.entry.days.get().and_then(|days| days.of(from.before));
    let less = |day: Option<Date>, days: Option<u32>| day?.plus_days(-i64::from(days?));
    let order = less(needed, from.weeks.map(|weeks| weeks * 7));
    let again = less(order, review);
    let told = |day: Option<Date>| day.map_or_else(|| OPEN.to_owned(), |day| day.to_string());
    Some(RegisterRow {
        name: format!("register.{}.{}", site.id, from.id),
        site: String::new(),
        supplier: from.name.clone(),
        goods: goods.iter().map(|group| group.word()).collect::<Vec<_>>().join(", "),
        first: told(less(again, review)),
        again: told(again),
        order: told(order),
        needed: match needed {
            Some(day) => format!("{day}, {}", from.before.word()),
            None => format!("{OPEN}, {}", from.before.word()),
        },
    })
}

/// Nothing is ordered for a site before each of its openings was measured twice.
fn released(sources: &Sources, at: usize) -> String {
    let arrangement = &sources.takeoff.arrangement;
    let here = arrangement.openings.iter().filter(|work| work.site.id == arrangement.sites[at].id);
    let open: Vec<&str> = here
        .filter(|work| !work.opening.surveys.iter().any(|survey| survey.pass >= 2))
        .map(|work| work.opening.mark.as_str())
        .collect();
    match open.len() {
        0 => "every opening was measured twice".to_owned(),
        _ => format!("NOT RELEASED TO ORDER, not measured a second time: {}", open.join(", ")),
    }
}
