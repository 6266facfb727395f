//! What a person types of the price: alternates, unit prices, allowances, quotes, adjustments: field tables.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether the values make sense together, or any amount but these.

use super::entries::OpeningEntry;
use crate::input::{Date, Id, SignedMoney, Text, record};
use crate::money::Money;

record! {
    /// A change that an alternate makes: openings, and what becomes different at them.
    pub struct ChangeEntry as "change" blocks(bid, recap) {
        /// Marks of the openings.
        openings: Vec<Text>, needed, "[\"101A\"]";
        /// What is different at each of them.
        with: OpeningEntry, "{ energy = \"full energy\" }";
    }
}

record! {
    /// An alternate: changes to the job, priced as the job with them less the job without.
    pub struct AlternateEntry as "alternate" blocks(bid, recap) {
        /// Its number on the bid form.
        number: Id, needed, "1";
        /// What it is.
        title: Text, needed, "Add opening 204";
        /// Openings that it leaves out.
        omits: Vec<Text>, "[\"103\"]";
        /// Openings that it adds; they have `base = false`.
        adds: Vec<Text>, "[\"204\"]";
        /// Openings that it changes.
        change: Vec<ChangeEntry>, "";
    }
}

record! {
    /// One part of what a unit price buys.
    pub struct UnitPartEntry as "part" blocks(bid, recap) {
        /// An item of the catalog.
        item: Id, "emt-half";
        /// Or a task of the catalog.
        task: Id, "run-emt";
        /// How much of it, with its unit.
        quantity: Text, needed, "1 ft";
    }
}

record! {
    /// A unit price, made from items and tasks with the bid's own build-up.
    pub struct UnitPriceEntry as "unit price" blocks(bid, recap) {
        /// Its number on the bid form.
        number: Id, needed, "U1";
        /// What it buys.
        title: Text, needed, "Conduit, 1/2 in, installed";
        /// The unit it is offered by.
        unit: Text, needed, "ft";
        /// What it is made of.
        part: Vec<UnitPartEntry>, needed, "";
    }
}

record! {
    /// An allowance: an amount the documents ask to be carried.
    pub struct AllowanceEntry as "allowance" blocks(bid, recap) {
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
    pub struct QuoteEntry as "quote" blocks(bid, recap) {
        /// The item quoted.
        item: Id, needed, "header-low";
        /// Who quoted.
        supplier: Text, needed, "Fenwick Supply";
        /// Price for one unit of sale.
        price: Money, needed, "\"412.50\"";
        /// Day it was given.
        date: Date, needed, "2026-11-20";
        /// Last day it holds.
        valid_to: Date, needed, "2027-02-20";
    }
}

record! {
    /// An amount added to or taken off the price by hand, with its reason.
    pub struct AdjustmentEntry as "adjustment" blocks(bid, recap) {
        /// What it is.
        title: Text, needed, "Rounding agreed with the owner";
        /// The amount; below zero takes off.
        amount: SignedMoney, needed, "\"-12.40\"";
        /// Why.
        reason: Text, needed, "agreed by telephone, 2026-12-07";
    }
}
