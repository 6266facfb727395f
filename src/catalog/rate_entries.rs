//! What a person types of rates: trades, factors, suppliers, jurisdictions, terms.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether references hold, or any job.

use super::words::*;
use crate::input::{Count, Flag, Formula, Id, Ratio, Text, record};
use crate::measure::{Duration, Length};
use crate::money::{Money, Percent};

record! {
    /// A part of a trade's burden.
    pub struct BurdenEntry as "burden" blocks(bid, recap) {
        /// What it is.
        name: Text, needed, "payroll taxes";
        /// Part of the base wage.
        rate: Percent, "11 %";
        /// Or an amount for an hour.
        amount: Money, "\"6.20\"";
    }
}

record! {
    /// A trade and what its hour costs.
    pub struct TradeEntry as "trade" blocks(bid, recap, packet) {
        /// Its name.
        name: Text, needed, "Installer";
        /// Base wage of an hour.
        wage: Money, blocks(bid, recap), "\"38.40\"";
        /// What is added to the wage.
        burden: Vec<BurdenEntry>, blocks(bid, recap), "";
        /// Part of the base wage added outside working hours.
        overtime: Percent, blocks(bid, recap), "50 %";
        /// Wage that this part is taken of, where a wage law sets one that is higher than what is paid in wages.
        overtime_wage: Money, blocks(bid, recap), "\"41.20\"";
        /// Least hours paid for a visit.
        least_hours: Duration, blocks(bid, recap), "4 h";
        /// Order in tables.
        order: Count, ["0" to "9999"], "1";
        /// Licence that papers print.
        licence: Text, "electrical contractor EC-000";
    }
}

record! {
    /// A factor on hours.
    pub struct FactorEntry as "factor" blocks(bid, recap) {
        /// What it is.
        name: Text, needed, "occupied building";
        /// What it ranges over: the entity of the task's rule, or what that stands in.
        when: Formula, needed, "list contains(opening.conditions, \"occupied\")";
        /// Factor on the hours.
        factor: Ratio, "\"1.15\"";
        /// Whether the hours are paid with the trade's overtime.
        overtime: Flag, "false";
        /// Trades it applies to; left out, all.
        trades: Vec<Id>, "[\"installer\"]";
        /// Visits it applies to; left out, all.
        visits: Vec<VisitKind>, "[\"set\"]";
        /// Where it comes from.
        source: Text, needed, "shop record";
    }
}

record! {
    /// A supplier.
    pub struct SupplierEntry as "supplier" blocks(bid, recap) {
        /// Its name.
        name: Text, needed, "Fenwick Supply";
        /// Its telephone.
        phone: Text, "555-0110";
        /// Freight as part of the price of what it sends.
        freight: Percent, "4 %";
        /// Weeks from order to delivery.
        weeks: Count, ["0" to "260"], "6";
        /// The visit before which what it sends must be there; left out, the one that sets the headers.
        before: VisitKind, "set";
        /// Whether what it sends is submitted for review; left out, it is.
        submitted: Flag, "true";
    }
}

record! {
    /// A jurisdiction whose rules change quantities.
    pub struct JurisdictionEntry as "jurisdiction" blocks(bid, recap, schedule, packet) {
        /// Its name and edition.
        name: Text, needed, "Two plate heights";
        /// Heights at which a plate is wanted at each place; each makes a device of its own. An actuation bar reaches all of them, and stays one device.
        plate_heights: Vec<Length>, "[\"8 in\", \"36 in\"]";
        /// Whether the opening needs standby power.
        standby_power: Flag, "false";
        /// The clause and its edition.
        clause: Text, needed, "state code, 2022 edition";
    }
}

record! {
    /// A line of the build-up, in order.
    pub struct MarkEntry as "mark" blocks(bid, recap) {
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
    pub struct TaxEntry as "tax" blocks(bid, recap) {
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
    pub struct TierEntry as "tier" blocks(bid, recap) {
        /// The tier goes up to this price; left out, without end.
        to: Money, "\"100000.00\"";
        /// Premium, as part of the price in the tier.
        rate: Percent, needed, "2.5 %";
    }
}

record! {
    /// Terms of price.
    pub struct TermsEntry as "terms" blocks(bid, recap) {
        /// Lines of the build-up, in order.
        mark: Vec<MarkEntry>, needed, "";
        /// Taxes.
        tax: Vec<TaxEntry>, "";
        /// Tiers of the bond premium, lowest first.
        bond: Vec<TierEntry>, "";
        /// Days after which a price of the catalog is old.
        old_after_days: Count, needed, ["0" to "3650"], "120";
    }
}
