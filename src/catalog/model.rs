//! The checked catalog: every reference holds, every rule is parsed and unit-checked.
//!
//! In: nothing. Out: plain types with the catalog's own words. May not know: how any of it was typed, or any job.
//!
//! Catalog
//! ├ firm, suppliers, parties, finishes
//! ├ items ─ group, set place, unit, price, waste, pack, electric
//! ├ operators ─ dimensions, limits, cartons, kits, rod, settings
//! ├ tasks ─ visit, phase, trade, hours, steps, tools, cautions, hold
//! ├ rules ─ per entity, when, item or task, quantity
//! ├ trades, factors, terms, profiles, jurisdictions
//! └ notes, sequences, faults, settings, responsibilities

use std::collections::BTreeMap;

use super::words::*;
use crate::findings::Place;
use crate::measure::{Amps, Angle, Duration, Length, Quantity, Unit, Volts, Weight};
use crate::money::{Money, Percent};
use crate::reading::Date;
use crate::rules;
use rust_decimal::Decimal;

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
    /// Rules, in order of their ids.
    pub rules: Vec<Rule>,
    /// Rows of the settings sheet, in their order.
    pub settings: Vec<Setting>,
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
    /// Terms of price.
    pub terms: BTreeMap<String, Terms>,
    /// Parties of the matrix.
    pub parties: BTreeMap<String, Party>,
    /// Rows of the matrix, in their order.
    pub responsibilities: Vec<Responsibility>,
    /// Lines of papers, by kind and order.
    pub notes: Vec<Note>,
    /// Sequences of operation, by state and order.
    pub sequences: Vec<Sequence>,
    /// Faults, in their order.
    pub faults: Vec<Fault>,
    /// Path and value of everything that was typed, for the fingerprint.
    pub values: Vec<(String, String)>,
}

/// The contractor whose papers these are.
#[derive(Clone, Debug, Default)]
pub struct Firm {
    /// Name.
    pub name: String,
    /// Address.
    pub address: String,
    /// Telephone.
    pub phone: String,
    /// Mail address.
    pub mail: String,
    /// Licences.
    pub licences: Vec<String>,
    /// Subcontractors named on the bid.
    pub subcontractors: Vec<String>,
}

/// What an electrified item draws and who has to do with it.
#[derive(Clone, Debug)]
pub struct Electric {
    /// Volts.
    pub volts: Option<Volts>,
    /// Amps, running.
    pub amps: Option<Amps>,
    /// Amps at the start.
    pub inrush: Option<Amps>,
    /// What it does when power fails.
    pub fails: FailState,
    /// Who furnishes it.
    pub furnished_by: String,
    /// Who installs it.
    pub installed_by: String,
    /// Who wires it.
    pub wired_by: String,
    /// Who programs it.
    pub programmed_by: String,
}

/// A pack an item is sold in.
#[derive(Clone, Debug)]
pub struct Pack {
    /// Its name.
    pub name: String,
    /// How much it holds, of the item's own dimension.
    pub holds: Quantity,
}

/// Something bought.
#[derive(Clone, Debug)]
pub struct Item {
    /// Id.
    pub id: String,
    /// Plain words.
    pub name: String,
    /// Group.
    pub group: Group,
    /// Place in a hardware set.
    pub set: SetPlace,
    /// Part of the cost.
    pub cost: CostKind,
    /// Unit of sale.
    pub unit: Unit,
    /// Price of one unit.
    pub price: Money,
    /// Day of the price.
    pub priced: Date,
    /// Where the price stands.
    pub price_place: Place,
    /// Supplier's id.
    pub supplier: String,
    /// Waste that the price carries.
    pub waste: Percent,
    /// Pack it is sold in.
    pub pack: Option<Pack>,
    /// Finish.
    pub finish: Option<String>,
    /// Size or grade.
    pub size: Option<String>,
    /// Standard and type.
    pub standard: Option<String>,
    /// Weight of one.
    pub weight: Option<Weight>,
    /// Listed for labelled openings.
    pub fire_listed: bool,
    /// Whether freight is added.
    pub freight: bool,
    /// Whether tax is added.
    pub taxed: bool,
    /// Electric data.
    pub electric: Option<Electric>,
    /// Where it stands.
    pub place: Place,
}

/// A condition with the place of its text.
#[derive(Clone, Debug)]
pub struct When {
    /// The checked condition.
    pub condition: rules::Condition,
    /// Where it stands.
    pub place: Place,
}

/// A formula with the place of its text.
#[derive(Clone, Debug)]
pub struct Amount {
    /// The checked formula.
    pub formula: rules::Formula,
    /// Where it stands.
    pub place: Place,
}

/// What a rule takes off.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// An item, by id.
    Item(String),
    /// A task, by id.
    Task(String),
}

/// A checked rule.
#[derive(Clone, Debug)]
pub struct Rule {
    /// Its id.
    pub id: String,
    /// What it ranges over.
    pub per: Entity,
    /// The item whose lines it ranges over, with `per` item.
    pub of: Option<String>,
    /// The operator it belongs to, where it stands inside one: a condition of its own.
    pub operator: Option<String>,
    /// Condition.
    pub when: Option<When>,
    /// What it takes off.
    pub target: Target,
    /// How much; none is one.
    pub quantity: Option<Amount>,
    /// Why.
    pub because: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// Labor, and what the installer is told.
#[derive(Clone, Debug)]
pub struct Task {
    /// Id.
    pub id: String,
    /// Plain words.
    pub name: String,
    /// Visit.
    pub visit: VisitKind,
    /// Phase.
    pub phase: Phase,
    /// Order inside the phase.
    pub order: u32,
    /// Trade's id.
    pub trade: String,
    /// People.
    pub crew: Option<Amount>,
    /// Hours of the clock for one unit.
    pub hours: Duration,
    /// Unit of the quantity.
    pub unit: Unit,
    /// Where the hours come from.
    pub source: String,
    /// Steps.
    pub steps: Vec<String>,
    /// Tools.
    pub tools: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Hold point.
    pub hold: Option<String>,
    /// Where it stands.
    pub place: Place,
    /// Where its hours stand.
    pub hours_place: Place,
}

/// A carton of a kit.
#[derive(Clone, Debug)]
pub struct Carton {
    /// Tag.
    pub tag: String,
    /// Contents.
    pub holds: Vec<String>,
    /// Weight.
    pub weight: Weight,
    /// Entity it comes with.
    pub per: Entity,
}

/// Fasteners of a kit for one material.
#[derive(Clone, Debug)]
pub struct Kit<Into> {
    /// What they go into.
    pub into: Into,
    /// What they are.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Reuse, replace or discard.
    pub advice: Option<String>,
    /// Where the count stands.
    pub place: Place,
}

/// A rod and how it is cut.
#[derive(Clone, Debug)]
pub struct Rod {
    /// Length as delivered.
    pub length: Length,
    /// The reveal it fits uncut.
    pub fits_reveal: Length,
    /// Inches off for each inch of reveal less.
    pub off_per_inch: Decimal,
    /// End that may be cut.
    pub cut_end: RodEnd,
    /// Tolerance of the cut.
    pub tolerance: Length,
}

/// A setting of an operator.
#[derive(Clone, Debug)]
pub struct OperatorSetting {
    /// As delivered.
    pub default: Option<String>,
    /// What we set.
    pub target: Option<String>,
}

/// An operator family.
#[derive(Clone, Debug)]
pub struct Operator {
    /// Id.
    pub id: String,
    /// Plain words.
    pub name: String,
    /// Energy classes.
    pub energy: Vec<EnergyClass>,
    /// Mounts.
    pub mounts: Vec<Mount>,
    /// Can push.
    pub pushes: bool,
    /// Can pull.
    pub pulls: bool,
    /// Takes two drives in a header.
    pub two_drives: bool,
    /// May stand on a labelled opening.
    pub fire_listed: bool,
    /// May stand outdoors.
    pub outdoors: bool,
    /// Height of the header.
    pub height: Length,
    /// Depth of the header.
    pub depth: Length,
    /// Head room.
    pub head_room: Length,
    /// Clearance in front.
    pub face_clearance: Length,
    /// Widest leaf.
    pub widest: Length,
    /// Narrowest leaf.
    pub narrowest: Length,
    /// Heaviest leaf.
    pub heaviest: Weight,
    /// Hinge line to spindle.
    pub spindle_offset: Length,
    /// Hinge line to bracket.
    pub bracket_offset: Length,
    /// Deepest reveal.
    pub deepest_reveal: Length,
    /// Position in which the arm is fitted.
    pub arm_fitted: String,
    /// Rod.
    pub rod: Option<Rod>,
    /// Volts.
    pub volts: Volts,
    /// Amps running.
    pub amps: Amps,
    /// Amps peak.
    pub peak: Amps,
    /// Amps for devices.
    pub accessory_amps: Option<Amps>,
    /// Trade size of its holes.
    pub entry: String,
    /// Greatest angle.
    pub opens_to: Option<Angle>,
    /// What closes it without power.
    pub closes_by: String,
    /// Weight of a foot of header.
    pub header_weight: Weight,
    /// Weight of a drive.
    pub drive_weight: Weight,
    /// Cartons.
    pub cartons: Vec<Carton>,
    /// Kit for the header.
    pub header_kit: Vec<Kit<Substrate>>,
    /// Kit for the arm.
    pub arm_kit: Vec<Kit<LeafMade>>,
    /// Screws of the header.
    pub header_screws: u32,
    /// Screws of an arm.
    pub arm_screws: u32,
    /// Settings, by the id of their row.
    pub settings: BTreeMap<String, OperatorSetting>,
    /// Telephone of help.
    pub help: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// A row of the settings sheet.
#[derive(Clone, Debug)]
pub struct Setting {
    /// Id.
    pub id: String,
    /// What is set.
    pub name: String,
    /// Order.
    pub order: u32,
    /// Limit in words.
    pub limit: Option<String>,
    /// Limit as a formula over the drive.
    pub limit_rule: Option<Amount>,
    /// Instrument.
    pub instrument: Option<String>,
}

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
    /// Base wage of an hour.
    pub wage: Money,
    /// Where the wage stands.
    pub wage_place: Place,
    /// Burden.
    pub burden: Vec<Burden>,
    /// Part of the wage added outside hours.
    pub overtime: Percent,
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
    /// Where it stands.
    pub place: Place,
}

/// An owner's profile.
#[derive(Clone, Debug)]
pub struct Profile {
    /// Id.
    pub id: String,
    /// The owner.
    pub name: String,
    /// Least trade size.
    pub least_raceway: String,
    /// Circuit policy, as a word of the job.
    pub circuits: String,
    /// Amps that headers may share.
    pub shared_amps: Option<Amps>,
    /// Months of warranty.
    pub warranty_months: u32,
    /// Retainage.
    pub retainage: Option<Percent>,
    /// Order of places in a set.
    pub set_order: Vec<SetPlace>,
    /// Tax exempt.
    pub tax_exempt: bool,
    /// Circuit label.
    pub label: Option<String>,
    /// Bonds asked for.
    pub bond: bool,
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

/// A party of the matrix.
#[derive(Clone, Debug)]
pub struct Party {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Short form.
    pub short: String,
    /// Order.
    pub order: u32,
}

/// A row of the responsibility matrix. A cell is a party's id; none where the row has no such work.
#[derive(Clone, Debug)]
pub struct Responsibility {
    /// Id.
    pub id: String,
    /// What the row is about.
    pub name: String,
    /// Order.
    pub order: u32,
    /// Furnish, install, wire, terminate, program, test.
    pub cells: [Option<String>; 6],
}

/// The heads of the matrix' cells, in order.
pub const RESPONSIBILITY_CELLS: [&str; 6] = ["furnish", "install", "wire", "terminate", "program", "test"];

/// A line that papers print when its condition holds.
#[derive(Clone, Debug)]
pub struct Note {
    /// Id.
    pub id: String,
    /// Kind.
    pub kind: NoteKind,
    /// The line.
    pub says: String,
    /// Party's id.
    pub by: Option<String>,
    /// What it ranges over.
    pub per: Entity,
    /// Condition.
    pub when: Option<When>,
    /// Order.
    pub order: u32,
}

/// What happens in a state.
#[derive(Clone, Debug)]
pub struct Sequence {
    /// Id.
    pub id: String,
    /// State.
    pub state: DoorState,
    /// Condition over the opening.
    pub when: Option<When>,
    /// What happens.
    pub says: String,
    /// Order.
    pub order: u32,
}

/// A symptom and its checks.
#[derive(Clone, Debug)]
pub struct Fault {
    /// Id.
    pub id: String,
    /// Symptom.
    pub symptom: String,
    /// Checks, cheapest first.
    pub checks: Vec<String>,
    /// Order.
    pub order: u32,
}
