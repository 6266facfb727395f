//! What a person types of rates: trades, factors, suppliers, jurisdictions, terms.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold, or any job.

use super::conditions::When;
use super::words::*;
use crate::findings::Place;
use crate::input::{Count, Flag, Formula, Id, Ratio, Text, record};
use crate::measure::{Duration, Length};
use crate::money::{Money, Percent};

record! {
    /// A part of a trade's burden.
    pub struct BurdenEntry as "burden" blocks(bid, recap) => Burden[place] {
        /// What it is.
        name: Text, needed, "payroll taxes";
        /// Part of the base wage.
        rate: Percent, apart, "11 %";
        /// Or an amount for an hour.
        amount: Money, apart, "\"6.20\"";
    } with {
        /// How much.
        amount: BurdenAmount,
    }
}

/// How much a burden is.
#[derive(Clone, Debug)]
pub enum BurdenAmount {
    /// Part of the wage.
    Rate(Percent),
    /// Dollars for an hour.
    Hourly(Money),
}

record! {
    /// A trade and what its hour costs.
    pub struct TradeEntry as "trade" blocks(bid, recap, packet) => Trade[place] {
        /// Its name.
        name: Text, needed, "Installer";
        /// Base wage of an hour.
        wage: Money, slot blocks(bid, recap), "\"38.40\"";
        /// What is added to the wage.
        burden: Vec<BurdenEntry>, apart blocks(bid, recap), "";
        /// Part of the base wage added outside working hours.
        overtime: Percent, default(Percent::new(50)) blocks(bid, recap), "50 %";
        /// Wage that this part is taken of, where a wage law sets one that is higher than what is paid in wages.
        overtime_wage: Money, slot blocks(bid, recap), "\"41.20\"";
        /// Least hours paid for a visit.
        least_hours: Duration, blocks(bid, recap), "4 h";
        /// Order in tables.
        order: Count, default(u32::MAX), ["0" to "9999"], "1";
        /// Licence that papers print.
        licence: Text, "electrical contractor EC-000";
    } with {
        /// Id.
        id: String,
        /// What is added to the wage.
        burden: Vec<Burden>,
    }
}

record! {
    /// A factor on hours.
    pub struct FactorEntry as "factor" blocks(bid, recap) => Factor[place] {
        /// What it is.
        name: Text, needed, "occupied building";
        /// What it ranges over: the entity of the task's rule, or what that stands in.
        when: Formula, apart needed, "list contains(opening.conditions, \"occupied\")";
        /// Factor on the hours.
        factor: Ratio, "\"1.15\"";
        /// Whether the hours are paid with the trade's overtime.
        overtime: Flag, default(false), "false";
        /// Trades it applies to; left out, all.
        trades: Vec<Id>, refers(trade), "[\"installer\"]";
        /// Visits it applies to; left out, all.
        visits: Vec<VisitKind>, "[\"set\"]";
        /// Where it comes from.
        source: Text, needed, "shop record";
    } with {
        /// Id.
        id: String,
        /// Condition over the entity of the task's rule, or what that is in.
        when: When,
    }
}

record! {
    /// A supplier.
    pub struct SupplierEntry as "supplier" blocks(bid, recap) => Supplier {
        /// Its name.
        name: Text, needed, "Fenwick Supply";
        /// Its telephone.
        phone: Text, "555-0110";
        /// Freight as part of the price of what it sends.
        freight: Percent, default(Percent::new(0)), "4 %";
        /// Weeks from order to delivery.
        weeks: Count, ["0" to "260"], "6";
        /// The visit before which what it sends must be there; left out, the one that sets the headers.
        before: VisitKind, default(VisitKind::Set), "set";
        /// Whether what it sends is submitted for review; left out, it is.
        submitted: Flag, default(true), "true";
    } with {
        /// Id.
        id: String,
        /// Where its freight is written, else it itself.
        place: Place,
    }
}

record! {
    /// A jurisdiction whose rules change quantities.
    pub struct JurisdictionEntry as "jurisdiction" blocks(bid, recap, schedule, packet) => Jurisdiction[place] {
        /// Its name and edition.
        name: Text, needed, "Two plate heights";
        /// Heights at which a plate is wanted at each place; each makes a device of its own. An actuation bar reaches all of them, and stays one device.
        plate_heights: Vec<Length>, "[\"8 in\", \"36 in\"]";
        /// Whether the opening needs standby power.
        standby_power: Flag, default(false), "false";
        /// The clause and its edition.
        clause: Text, needed, "state code, 2022 edition";
    } with {
        /// Id.
        id: String,
    }
}

record! {
    /// A line of the build-up, in order.
    pub struct MarkEntry as "mark" blocks(bid, recap) => Mark[place = rate] {
        /// Its name.
        name: Text, needed, "overhead";
        /// What it is taken of.
        of: Vec<MarkBase>, needed, "[\"direct cost\"]";
        /// Rate.
        rate: Percent, needed, "12 %";
        /// Markup on cost, or margin of the price.
        kind: MarkKind, needed, "markup";
    }
}

record! {
    /// A tax.
    pub struct TaxEntry as "tax" blocks(bid, recap) => Tax[place = rate] {
        /// Its name.
        name: Text, needed, "sales tax";
        /// What it is taken of.
        of: TaxBase, needed, "material and freight";
        /// Rate.
        rate: Percent, needed, "6.25 %";
    }
}

record! {
    /// A tier of the bond premium.
    pub struct TierEntry as "tier" blocks(bid, recap) => Tier[place = rate] {
        /// The tier goes up to this price; left out, without end.
        to: Money, "\"100000.00\"";
        /// Premium, as part of the price in the tier.
        rate: Percent, needed, "2.5 %";
    }
}

record! {
    /// Terms of price.
    pub struct TermsEntry as "terms" blocks(bid, recap) => Terms[place] {
        /// Lines of the build-up, in order.
        mark as marks: Vec<MarkEntry>, needed default(Vec::new()), "";
        /// Taxes.
        tax as taxes: Vec<TaxEntry>, "";
        /// Tiers of the bond premium, lowest first.
        bond: Vec<TierEntry>, apart, "";
        /// Days after which a price of the catalog is old.
        old_after_days: Count, needed, ["0" to "3650"], "120";
    } with {
        /// Id.
        id: String,
        /// Tiers of the bond premium, lowest first.
        bond: Vec<Tier>,
    }
}
