//! The checked catalog: every reference holds, every rule is parsed and unit-checked.
//!
//! In: nothing. Out: plain types with the catalog's own words. May not know: how any of it was typed, or any job.
//!
//! Catalog
//! ├ firm, suppliers, parties, finishes
//! ├ items ─ group, set place, unit, price, waste, pack, electric
//! ├ operators ─ dimensions, limits, cartons, kits, rod, mechanics, settings
//! ├ fasteners of headers
//! ├ terminals, terminations, colors of cables
//! ├ tasks ─ visit, phase, trade, hours, steps, tools, cautions, hold
//! ├ rules ─ per entity, when, item or task, quantity
//! ├ trades, factors, terms, profiles, jurisdictions, editions
//! └ notes, needs, proofs, sequences, faults, settings, responsibilities

mod terminals;

pub use terminals::*;

use std::collections::{BTreeMap, BTreeSet};

use super::edition_entries::Edition;
use super::entries::{Item, Rule, Target, Task};
use super::mechanics_entries::HeaderFastener;
use super::operator_entries::{Operator, Setting};
use super::paper_entries::{Fault, Firm, Need, Note, Party, Responsibility, Sequence};
use super::profile_entries::Profile;
use super::proof_entries::Proof;
use super::rate_entries::{Factor, Jurisdiction, Supplier, Terms, Trade};
use super::route_entries::AssumedRoute;
use crate::findings::Place;

/// A checked catalog. Every map goes by id, so that the order of tables in files changes nothing.
#[derive(Clone, Debug, Default)]
pub struct Catalog {
    /// The contractor.
    pub firm: Firm,
    /// Finishes: id to name.
    pub finishes: BTreeMap<String, String>,
    /// Items.
    pub items: BTreeMap<String, Item>,
    /// Tasks.
    pub tasks: BTreeMap<String, Task>,
    /// Operators.
    pub operators: BTreeMap<String, Operator>,
    /// Fasteners of headers, in order of their ids.
    pub fasteners: Vec<HeaderFastener>,
    /// Rules, in order of their ids.
    pub rules: Vec<Rule>,
    /// Whether a rule was refused: then nothing may be called missing for want of one.
    pub rules_refused: bool,
    /// Whether no catalog was found where one was to be: then nothing may be called unknown in it.
    pub is_missing: bool,
    /// Items and tasks that no rule takes off and that say so, with an empty list of rules.
    pub without_rules: BTreeSet<Target>,
    /// Rows of the settings sheet, in their order.
    pub settings: Vec<Setting>,
    /// Routes that are assumed, in order of their ids.
    pub assumed_routes: Vec<AssumedRoute>,
    /// Trades.
    pub trades: BTreeMap<String, Trade>,
    /// Factors on hours.
    pub factors: BTreeMap<String, Factor>,
    /// Suppliers.
    pub suppliers: BTreeMap<String, Supplier>,
    /// Owners' profiles.
    pub profiles: BTreeMap<String, Profile>,
    /// Jurisdictions.
    pub jurisdictions: BTreeMap<String, Jurisdiction>,
    /// Editions of codes and standards.
    pub editions: BTreeMap<String, Edition>,
    /// Terms of price.
    pub terms: BTreeMap<String, Terms>,
    /// Parties of the matrix.
    pub parties: BTreeMap<String, Party>,
    /// Rows of the matrix, in their order.
    pub responsibilities: Vec<Responsibility>,
    /// Lines of papers, by kind and order.
    pub notes: Vec<Note>,
    /// What others must do before we can.
    pub needs: Vec<Need>,
    /// Proofs, by kind and id.
    pub proofs: Vec<Proof>,
    /// Terminals, terminations and colors of low-voltage conductors.
    pub terminals: Terminals,
    /// Sequences of operation, by state and order.
    pub sequences: Vec<Sequence>,
    /// Faults, in their order.
    pub faults: Vec<Fault>,
    /// What the theme says, key by key.
    pub theme: Vec<ThemeValue>,
    /// The font files that the theme names: upright, bold, italic, bold italic, or those of them that are named.
    pub faces: Vec<ThemeValue>,
    /// Path and value of everything that was typed, for the fingerprint.
    pub values: Vec<(String, String)>,
}

/// A value of the theme, not yet read: what it may be is for the print wing to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThemeValue {
    /// Its key.
    pub key: &'static str,
    /// What is written.
    pub value: String,
    /// Where.
    pub place: Option<Place>,
}
