//! Trades, factors, suppliers, profiles, jurisdictions, terms: what work and goods cost, and by whose rules.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use rust_decimal::Decimal;

use super::When;
use crate::catalog::words::*;
use crate::findings::Place;
use crate::input::Slot;
use crate::measure::{Duration, Length};
use crate::money::{Money, Percent};

/// A part of a trade's burden.
#[derive(Clone, Debug)]
pub struct Burden {
    /// What it is.
    pub name: String,
    /// How much.
    pub amount: BurdenAmount,
    /// Where it stands.
    pub place: Place,
}

/// How much a burden is.
#[derive(Clone, Debug)]
pub enum BurdenAmount {
    /// Part of the wage.
    Rate(Percent),
    /// Dollars for an hour.
    Hourly(Money),
}

/// A trade.
#[derive(Clone, Debug)]
pub struct Trade {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Base wage of an hour, in dollars; absent while nobody knows it, bad where it was reported as unreadable.
    pub wage: Slot<Money>,
    /// Burden.
    pub burden: Vec<Burden>,
    /// Part of the wage added outside hours.
    pub overtime: Percent,
    /// Wage that this part is taken of, where it is not the trade's own.
    pub overtime_wage: Slot<Money>,
    /// Least hours of a visit.
    pub least_hours: Option<Duration>,
    /// Order in tables.
    pub order: u32,
    /// Licence.
    pub licence: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// A factor on hours.
#[derive(Clone, Debug)]
pub struct Factor {
    /// Id.
    pub id: String,
    /// What it is.
    pub name: String,
    /// Condition.
    pub when: When,
    /// Factor.
    pub factor: Option<Decimal>,
    /// Overtime.
    pub overtime: bool,
    /// Trades; empty is all.
    pub trades: Vec<String>,
    /// Visits; empty is all.
    pub visits: Vec<VisitKind>,
    /// Source.
    pub source: String,
    /// Where it stands.
    pub place: Place,
}

/// A supplier.
#[derive(Clone, Debug)]
pub struct Supplier {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Telephone.
    pub phone: Option<String>,
    /// Freight.
    pub freight: Percent,
    /// Weeks.
    pub weeks: Option<u32>,
    /// The visit before which what it sends must be there.
    pub before: VisitKind,
    /// Whether what it sends is submitted for review.
    pub submitted: bool,
    /// Where it stands.
    pub place: Place,
}

/// A jurisdiction.
#[derive(Clone, Debug)]
pub struct Jurisdiction {
    /// Id.
    pub id: String,
    /// Name and edition.
    pub name: String,
    /// Heights of plates at each place.
    pub plate_heights: Vec<Length>,
    /// Standby power.
    pub standby_power: bool,
    /// Clause.
    pub clause: String,
    /// Where it stands.
    pub place: Place,
}

/// A line of the build-up.
#[derive(Clone, Debug)]
pub struct Mark {
    /// Name.
    pub name: String,
    /// Bases.
    pub of: Vec<MarkBase>,
    /// Rate.
    pub rate: Percent,
    /// Markup or margin.
    pub kind: MarkKind,
    /// Where it stands.
    pub place: Place,
}

/// A tax.
#[derive(Clone, Debug)]
pub struct Tax {
    /// Name.
    pub name: String,
    /// Base.
    pub of: TaxBase,
    /// Rate.
    pub rate: Percent,
    /// Where it stands.
    pub place: Place,
}

/// A tier of the bond premium.
#[derive(Clone, Debug)]
pub struct Tier {
    /// Upper end.
    pub to: Option<Money>,
    /// Rate in it.
    pub rate: Percent,
    /// Where it stands.
    pub place: Place,
}

/// Terms of price.
#[derive(Clone, Debug)]
pub struct Terms {
    /// Id.
    pub id: String,
    /// Build-up.
    pub marks: Vec<Mark>,
    /// Taxes.
    pub taxes: Vec<Tax>,
    /// Bond tiers.
    pub bond: Vec<Tier>,
    /// Days after which a price is old.
    pub old_after_days: u32,
    /// Where it stands.
    pub place: Place,
}
