//! What a person types of the price: alternates, unit prices, allowances, quotes, adjustments: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether the values make sense together, or any amount but these.

use super::entries::OpeningEntry;
use crate::findings::Place;
use crate::input::{Date, Id, SignedMoney, Text, record};
use crate::measure::Quantity;
use crate::money::Money;

record! {
    /// A change that an alternate makes: openings, and what becomes different at them.
    pub struct ChangeEntry as "change" blocks(bid, recap) => Change {
        /// Marks of the openings.
        openings: Vec<Text>, needed default(Vec::new()) refers(opening), "[\"101A\"]";
        /// What is different at each of them.
        with: OpeningEntry, apart, "{ energy = \"full energy\" }";
    } with {
        /// What is different at each of them.
        with: OpeningEntry,
    }
}

record! {
    /// An alternate: changes to the job, priced as the job with them less the job without.
    pub struct AlternateEntry as "alternate" blocks(bid, recap) called(number) => Alternate[place] {
        /// Its number on the bid form.
        number: Id, needed, "1";
        /// What it is.
        title: Text, needed, "Add opening 204";
        /// Openings that it leaves out.
        omits: Vec<Text>, refers(opening), "[\"103\"]";
        /// Openings that it adds; they have `base = false`.
        adds: Vec<Text>, refers(opening), "[\"204\"]";
        /// Openings that it changes.
        change: Vec<ChangeEntry>, apart, "";
    } with {
        /// What it changes.
        changes: Vec<Change>,
    }
}

/// What a part of a unit price is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartOf {
    /// An item, by id.
    Item(String),
    /// A task, by id.
    Task(String),
}

record! {
    /// One part of what a unit price buys.
    pub struct UnitPartEntry as "part" blocks(bid, recap) => UnitPart[place] {
        /// An item of the catalog.
        item: Id, apart refers(item), "emt-half";
        /// Or a task of the catalog.
        task: Id, apart refers(task), "run-emt";
        /// How much of it, with its unit.
        quantity: Text, apart needed, "1 ft";
    } with {
        /// What.
        of: PartOf,
        /// How much, in the unit of the item or task.
        quantity: Quantity,
    }
}

record! {
    /// A unit price, made from items and tasks with the bid's own build-up.
    pub struct UnitPriceEntry as "unit price" blocks(bid, recap) called(number) => UnitPrice[place] {
        /// Its number on the bid form.
        number: Id, needed, "U1";
        /// What it buys.
        title: Text, needed, "Conduit, 1/2 in, installed";
        /// The unit it is offered by.
        unit: Text, needed, "ft";
        /// What it is made of.
        part: Vec<UnitPartEntry>, apart needed, "";
    } with {
        /// What it is made of.
        parts: Vec<UnitPart>,
    }
}

record! {
    /// An allowance: an amount the documents ask to be carried.
    pub struct AllowanceEntry as "allowance" blocks(bid, recap) => Allowance[place = amount] {
        /// Its number.
        number: Id, needed, "AL1";
        /// What it is for, and what it leaves out.
        title: Text, needed, "Patch and paint at headers";
        /// The amount.
        amount: Money, needed, "\"2500.00\"";
    }
}

record! {
    /// A supplier's quote, which stands instead of the catalog's price.
    pub struct QuoteEntry as "quote" blocks(bid, recap) called(item) => Quote[place = price] {
        /// The item quoted.
        item: Id, needed refers(item), "header-low";
        /// Who quoted.
        supplier: Text, needed, "Fenwick Supply";
        /// Price for one unit of sale.
        price: Money, needed, "\"412.50\"";
        /// Day it was given.
        date: Date, needed, "2026-11-20";
        /// Last day it holds.
        valid_to: Date, needed, "2027-02-20";
    } with {
        /// Where its day is written.
        date_place: Option<Place>,
        /// Where its last day is written.
        valid_place: Option<Place>,
    }
}

record! {
    /// An amount added to or taken off the price by hand, with its reason.
    pub struct AdjustmentEntry as "adjustment" blocks(bid, recap) => Adjustment[place = amount] {
        /// What it is.
        title: Text, needed, "Rounding agreed with the owner";
        /// The amount; below zero takes off.
        amount: SignedMoney, needed, "\"-12.40\"";
        /// Why.
        reason: Text, needed, "agreed by telephone, 2026-12-07";
    }
}
