//! Work required by others: a page for each receiver, with what he must do before we can do our part, where, and by when.
//!
//! In: sources. Out: the view of the paper. May not know: pages.
//!
//! Every line comes of the catalog's needs and of the facts that takeoff and packet rest on; where a condition or a value is
//! not known, the line says that it is to be confirmed.

use serde::Serialize;

use super::conditions::ConditionEvaluator;
use super::counts::site_of;
use super::{Count, Letterhead, Printing, Sources, counts, letterhead};
use crate::catalog::{Need, Party, VisitKind};
use crate::job::Site;
use crate::takeoff::EntityRef;

/// The view of the paper.
#[derive(Clone, Debug, Serialize)]
pub struct NeedsView {
    /// Letterhead.
    pub head: Letterhead,
    /// Counts.
    pub counts: Vec<Count>,
    /// Needs by receiver, site and the catalog's order, in one list, since templates loop no deeper than rows and values.
    pub needs: Vec<NeedRows>,
}

/// One need at a site, with the places where it arises.
#[derive(Clone, Debug, Default, Serialize)]
pub struct NeedRows {
    /// Name of the receiver.
    pub name: String,
    /// Whether his page begins here.
    pub first: bool,
    /// Whether his page ends here.
    pub last: bool,
    /// Name and address of the site, where its needs begin.
    pub site: String,
    /// What, in a few words.
    pub what: String,
    /// What, as it is to be done.
    pub says: String,
    /// By when: a day, or the visit before which it must be done.
    pub by: String,
    /// Heads of the columns after the first.
    pub heads: Vec<String>,
    /// Columns of its table: the place, those, and whether it is done.
    pub columns: usize,
    /// Rows: the place, what is told of it.
    pub rows: Vec<NeedRow>,
}

/// A place where a need arises.
#[derive(Clone, Debug, Serialize)]
pub struct NeedRow {
    /// Name of the row, such as `need.backing.101A, header 1`.
    pub name: String,
    /// The place.
    pub place: String,
    /// Values under the heads.
    pub values: Vec<String>,
}

/// What stands where a fact is not known.
const OPEN: &str = "to be confirmed";

/// The view of what others must do.
pub fn needs(sources: &Sources) -> NeedsView {
    let asking = Asking {
        sources,
        conditions: ConditionEvaluator::new(sources),
        printing: Printing::of(sources.reviewed.job()),
    };
    let mut parties: Vec<&Party> = sources.catalog.parties.values().collect();
    parties.sort_by(|a, b| (a.order, &a.id).cmp(&(b.order, &b.id)));
    let needs = parties.into_iter().flat_map(|party| asking.of(party)).collect();
    NeedsView { head: letterhead(sources, "Work required by others"), counts: counts(sources, None), needs }
}

struct Asking<'a> {
    sources: &'a Sources<'a>,
    conditions: ConditionEvaluator<'a>,
    printing: Printing,
}

impl Asking<'_> {
    /// What is asked of a party, site by site.
    fn of(&self, party: &Party) -> Vec<NeedRows> {
        let sites = self.sources.takeoff.arrangement.sites.iter().enumerate();
        let mut all: Vec<NeedRows> = sites.flat_map(|(at, site)| self.at_site(party, at, site)).collect();
        if let Some(first) = all.first_mut() {
            first.first = true;
        }
        if let Some(last) = all.last_mut() {
            last.last = true;
        }
        all
    }

    fn at_site(&self, party: &Party, at: usize, site: &Site) -> Vec<NeedRows> {
        let needs = self.sources.catalog.needs.iter().filter(|need| need.of == party.id);
        let rows = needs.filter_map(|need| self.rows(need, at, site));
        let mut needs: Vec<NeedRows> = rows.map(|need| NeedRows { name: party.name.clone(), ..need }).collect();
        if let Some(first) = needs.first_mut() {
            first.site = format!("{}, {}", site.name, site.address);
        }
        needs
    }

    fn rows(&self, need: &Need, at: usize, site: &Site) -> Option<NeedRows> {
        let takeoff = self.sources.takeoff;
        let here = takeoff.entities(need.per).into_iter().filter(|of| site_of(takeoff, *of) == Some(at));
        let rows: Vec<NeedRow> = here.filter_map(|of| self.row(need, of)).collect();
        let heads = need.tell.iter().map(|(head, _)| head.clone()).collect();
        (!rows.is_empty()).then(|| NeedRows {
            what: need.what.clone(),
            says: need.says.clone(),
            by: by(need.before, site),
            columns: need.tell.len() + 2,
            heads,
            rows,
            ..NeedRows::default()
        })
    }

    /// The row of an entity, unless the condition says that nothing is needed there.
    fn row(&self, need: &Need, of: EntityRef) -> Option<NeedRow> {
        let decided = self.conditions.decided(need.when.as_ref(), of);
        if decided == Some(false) {
            return None;
        }
        let place = self.sources.takeoff.name(of);
        // The title of the table says that it is of boxes.
        let at = place.strip_prefix("box for ").unwrap_or(place);
        let values = need.tell.iter().map(|(_, fact)| {
            self.conditions
                .reported(fact, of, self.printing)
                .filter(|it| !it.is_empty())
                .unwrap_or_else(|| OPEN.to_owned())
        });
        Some(NeedRow {
            name: format!("need.{}.{place}", need.id),
            place: if decided.is_none() { format!("{at} ({OPEN})") } else { at.to_owned() },
            values: values.collect(),
        })
    }
}

/// The day of the visit, where the job file gives it; else the visit alone.
fn by(before: VisitKind, site: &Site) -> String {
    let day = site.entry.days.get().and_then(|days| days.of(before));
    match day {
        Some(day) => format!("Required by {day}, before visit: {}", before.word()),
        None => format!("Required before visit: {} (date to be agreed)", before.word()),
    }
}
