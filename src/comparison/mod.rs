//! Two states of a job: what became of its openings, what that does to quantities, hours and price, and which checks turned.
//!
//! In: two jobs, each read, reviewed, taken off and priced.
//! Out: differences as data, in finished words; amounts that add up to the cent.
//! May not know: files, pages, how the papers are made.

mod facts;
mod findings;
mod list_members;
mod opening_match;
mod price;
mod quantities;
mod renaming;
mod sheet;
mod summary;

pub use findings::{Turned, Verdict};
pub use list_members::{Member, MemberChange};
pub use opening_match::{Altered, Candidate, Openings};
pub use price::{PriceChange, PriceLine};
pub use quantities::{AtPlace, QuantityChange};
pub use renaming::Renaming;
pub use sheet::{Change, Sheet, differences};
pub use summary::summary;

use rust_decimal::Decimal;
use serde::{Serialize, Serializer};

use crate::catalog::Catalog;
use crate::estimate::{AlternatePrice, Estimate};
use crate::findings::Findings;
use crate::job::{Job, PrintUnits};
use crate::measure::System;
use crate::takeoff::Takeoff;

/// One of the two states of a job.
#[derive(Clone, Copy)]
pub struct State<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its catalog.
    pub catalog: &'a Catalog,
    /// Its takeoff.
    pub takeoff: &'a Takeoff<'a>,
    /// Its price; none where it cannot be worked out.
    pub estimate: Option<&'a Estimate>,
    /// The prices of its alternates.
    pub alternates: &'a [AlternatePrice],
    /// Finding in it and not accepted.
    pub findings: &'a Findings,
    /// The fields of its job file that belong to no opening.
    pub elsewhere: &'a Sheet,
}

/// What differs between two states of a job.
#[derive(Clone, Debug, Serialize)]
pub struct Comparison {
    /// What became of the openings.
    pub openings: Openings,
    /// Fields of the job file that belong to no opening.
    pub elsewhere: Vec<Change>,
    /// Members of the job file's lists and tables, such as runs, that came, went or changed.
    pub members: Vec<Member>,
    /// Quantities that differ, net of waste.
    pub quantities: Vec<QuantityChange>,
    /// Labor hours that differ, by visit and trade.
    pub hours: Vec<QuantityChange>,
    /// Lines of the price that differ, and the bids; none where either job has no price.
    pub price: Option<PriceChange>,
    /// Checks that turned.
    pub checks: Turned,
}

impl Comparison {
    /// The names that renumbered openings go by now.
    pub fn renaming(&self) -> Renaming {
        Renaming::of(&self.openings)
    }

    /// Whether nothing differs.
    pub fn is_empty(&self) -> bool {
        self.openings.is_unchanged()
            && self.elsewhere.is_empty()
            && self.quantities.is_empty()
            && self.hours.is_empty()
            && self.price.as_ref().is_none_or(PriceChange::is_empty)
            && self.checks.is_empty()
    }
}

/// A number as its digits: a binary float never touches money.
fn digits<S: Serializer>(number: &Decimal, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(number)
}

/// The same where there may be none.
fn digits_or_none<S: Serializer>(number: &Option<Decimal>, to: S) -> Result<S::Ok, S::Error> {
    match number {
        Some(number) => digits(number, to),
        None => to.serialize_none(),
    }
}

/// Compares two states of a job.
pub fn compare(before: State, after: State) -> Comparison {
    let system = match after.job.head.units {
        PrintUnits::Inch => System::Inch,
        PrintUnits::Mm => System::Millimetre,
    };
    let openings =
        opening_match::match_openings(&facts::openings_of(before.job, system), &facts::openings_of(after.job, system));
    // What was renumbered is one place, whatever it is called.
    let (now, same) = (Renaming::of(&openings), Renaming::none());
    let (was, is) = (quantities::taken(&before, &now), quantities::taken(&after, &same));
    let (worked, works) = (quantities::worked(&before, &now), quantities::worked(&after, &same));
    let (elsewhere, members) = list_members::compare(before.elsewhere, after.elsewhere, &now);
    Comparison {
        elsewhere,
        members,
        quantities: quantities::compare(&was, &is),
        hours: quantities::compare(&worked, &works),
        price: price::compare(&before, &after),
        checks: findings::compare(before.findings, after.findings, &now),
        openings,
    }
}
