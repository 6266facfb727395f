//! What a person types of rules, items and tasks: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold,
//! or any job.

use rust_decimal::Decimal;

use super::conditions::{Amount, When};
use super::sheet_entries::{MakersSheet, SheetMarkEntry};
use super::wiring_entries::{BatteryEntry, GivesEntry, WireEntry};
use super::words::*;
use crate::findings::Place;
use crate::input::{Count, CountFromOne, Date, Flag, Formula, Id, Text, record};
use crate::measure::{Amps, Duration, Quantity, Unit, Volts, Weight};
use crate::money::{Money, Percent};

/// What a rule takes off.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// An item, by id.
    Item(String),
    /// A task, by id.
    Task(String),
}

record! {
    /// A rule: for each entity that meets the condition, so much of an item, or so many times a task.
    pub struct RuleEntry as "rule" blocks(bid, recap, schedule, packet) called(id) => Rule[place] {
        /// Its name; left out inside an item, a task or an operator, it is numbered.
        id: Id, apart, "plates-on-wood";
        /// What it ranges over.
        per: Entity, needed, "header";
        /// The item whose lines it ranges over, with `per = "item"`.
        of: Id, refers(item), "wire-12";
        /// Condition; left out, always.
        when: Formula, apart, "fixing.substrate = \"wood\"";
        /// Item it takes off; implied inside an item.
        item: Id, apart refers(item), "header-low";
        /// Task it takes off; implied inside a task.
        task: Id, apart refers(task), "hang-header";
        /// How much; left out, one.
        quantity: Formula, apart, "header.leaf_width + 2 in";
        /// Why, or the clause it follows.
        because: Text, "two signs on each powered leaf";
    } with {
        /// Id.
        id: String,
        /// The operator it belongs to, where it stands inside one: a condition of its own.
        operator: Option<String>,
        /// Condition.
        when: Option<When>,
        /// What it takes off.
        target: Target,
        /// How much; none is one.
        quantity: Option<Amount>,
    }
}

record! {
    /// What an electrified item draws and does, and who has to do with it.
    pub struct ElectricEntry as "electric" blocks(schedule, packet) => Electric {
        /// Volts.
        volts: Volts, "24 V";
        /// The most volts it takes, where it takes a range; left out, its volts alone.
        up_to_volts: Volts, "277 V";
        /// Amps, running.
        amps: Amps, "0.45 A";
        /// Amps, at the start.
        inrush: Amps, "1.2 A";
        /// Whether it takes the same power whatever its voltage, as what has a switching supply does.
        constant_power: Flag, default(false), "false";
        /// The fewest volts it works with.
        least_volts: Volts, "20.4 V";
        /// What it does when power fails.
        fails: FailState, default(FailState::None), "fail secure";
        /// Who furnishes it.
        furnished_by: Text, default("us".to_owned()), "us";
        /// Who installs it.
        installed_by: Text, default("us".to_owned()), "us";
        /// Who wires it.
        wired_by: Text, default("us".to_owned()), "electrician";
        /// Who programs it.
        programmed_by: Text, default("us".to_owned()), "us";
    }
}

impl Electric {
    /// Amps it takes from a branch circuit: those of what has line volts, as a supply or a charger does. None of low voltage.
    pub fn line_amps(&self) -> Option<Amps> {
        let line = self.volts?.number_of(Unit::Volt)? >= Decimal::ONE_HUNDRED;
        self.amps.filter(|_| line)
    }
}

record! {
    /// How an item is packed for sale.
    pub struct PackEntry as "pack" blocks(bid, recap) => Pack {
        /// Its name.
        name: Text, needed, "stick";
        /// How much is in it, in the item's unit.
        holds: Text, apart needed, "10 ft";
    } with {
        /// How much it holds, of the item's own dimension.
        holds: Quantity,
    }
}

impl Pack {
    /// Its name as a number of them is told: `box` of one, else `boxes`.
    pub fn name_of(&self, count: Decimal) -> String {
        if count == Decimal::ONE { self.name.clone() } else { self.plural() }
    }

    /// Its name in the plural, by the rule of English: of `bag of anchors` that of the bag.
    pub fn plural(&self) -> String {
        let (noun, of) = self.name.find(" of ").map_or((self.name.as_str(), ""), |at| self.name.split_at(at));
        let before_y = noun.strip_suffix('y').filter(|stem| !stem.ends_with(['a', 'e', 'i', 'o', 'u']));
        let hisses = ["s", "x", "z", "ch", "sh"].iter().any(|end| noun.ends_with(end));
        match before_y {
            Some(stem) => format!("{stem}ies{of}"),
            None if hisses => format!("{noun}es{of}"),
            None => format!("{noun}s{of}"),
        }
    }
}

record! {
    /// An item: something bought.
    pub struct ItemEntry as "item" blocks(bid, recap, schedule, packet) => Item[place] {
        /// What it is, in plain words.
        name: Text, needed, "Header, low energy, one leaf";
        /// Its group.
        group: Group, needed, "header";
        /// Its place in a hardware set; left out, apart.
        set: SetPlace, default(SetPlace::Apart), "operate";
        /// The part of the cost it belongs to; left out, material.
        cost: CostKind, default(CostKind::Material) blocks(bid, recap), "material";
        /// The unit it is sold by.
        unit: Text, apart needed, "each";
        /// Price of one unit, as text.
        price: Money, slot blocks(bid, recap), "\"412.50\"";
        /// Day of the price.
        priced: Date, slot blocks(bid, recap), "2026-10-05";
        /// Supplier, by id.
        supplier: Id, needed default(String::new()) refers(supplier) blocks(bid, recap), "fenwick";
        /// Waste that the price carries.
        waste: Percent, default(Percent::new(0)) blocks(bid, recap), "5 %";
        /// Pack it is sold in.
        pack: PackEntry, apart blocks(bid, recap), "{ name = \"stick\", holds = \"10 ft\" }";
        /// Finish, where it has one; `by opening` takes the finish of header and arms.
        finish: Text, "clear anodized";
        /// Size or grade, for the schedule.
        size: Text, "3/8 in x 2 in";
        /// The end of the header that it is for, where it is of one hand, seen from the header's room.
        end: HeaderEnd, blocks(bid, recap, schedule, packet), "left";
        /// Standard and type it meets, for the schedule.
        standard: Text, "low-energy operator";
        /// Weight of one.
        weight: Weight, "38 lb";
        /// Listed for use on a labeled opening.
        fire_listed: Flag, default(false), "true";
        /// How many the owner keeps as spares, for the maintenance data.
        spare: Text, blocks(submittal), "one for every ten in use";
        /// Whether it takes a cylinder of the owner's key system.
        keyed: Flag, default(false), "true";
        /// Whether freight is added; left out, yes.
        freight: Flag, default(true) blocks(bid, recap), "true";
        /// Whether sales tax is added; left out, yes.
        taxed: Flag, default(true) blocks(bid, recap), "true";
        /// What it draws and who has to do with it, where it is electrified.
        electric: ElectricEntry, "{ volts = \"24 V\" }";
        /// Its wire, where it is a conductor or a cable.
        wire: WireEntry, blocks(recap), "{ awg = 12 }";
        /// What it gives, where it is a supply.
        gives: GivesEntry, blocks(recap), "{ volts = \"24 V\", amps = \"4 A\" }";
        /// Its battery, where it sends by radio.
        battery: BatteryEntry, blocks(recap), "{ capacity = 1000 }";
        /// The maker's own sheet about it, a PDF, from the catalog's folder.
        sheet: Text, apart, "sheets/plate.pdf";
        /// Pages of the sheet that are enclosed; left out, all.
        sheet_pages: Vec<CountFromOne>, apart, ["1" to "9999"], "[1, 2]";
        /// What is marked on the sheet.
        sheet_marks: Vec<SheetMarkEntry>, apart, "";
        /// Rules that take it off; an empty list says that it is in unit prices alone.
        rule: Vec<RuleEntry>, apart, "";
    } with {
        /// Id.
        id: String,
        /// Unit of sale.
        unit: Unit,
        /// Pack it is sold in.
        pack: Option<Pack>,
        /// The maker's own sheet about it.
        sheet: Option<MakersSheet>,
    }
}

record! {
    /// A task: labor, and what the installer is told.
    pub struct TaskEntry as "task" blocks(bid, recap, packet) => Task[place] {
        /// What it is, in plain words.
        name: Text, needed, "Mount the header";
        /// Visit in which it is done.
        visit: VisitKind, needed, "set";
        /// Phase of the installation.
        phase: Phase, needed, "hang";
        /// Its order inside the phase.
        order: Count, needed, ["0" to "9999"], "10";
        /// Trade, by id.
        trade: Id, needed refers(trade), "installer";
        /// People; a formula over the entity, so that a heavy header asks for two.
        crew: Formula, apart, "if header.weight > 60 lb then 2 else 1";
        /// Hours of the whole crew's clock for one unit of the rule's quantity.
        hours: Duration, needed, "0.5 h";
        /// Unit of the rule's quantity, where it is not a count.
        unit: Text, apart, "ft";
        /// Where the hours come from.
        source: Text, needed default(String::new()) blocks(recap), "shop record, six jobs";
        /// Steps told to the installer; none for work that needs no telling.
        steps: Vec<Text>, blocks(packet), "[\"Lift with two people.\"]";
        /// Tools needed.
        tools: Vec<Text>, blocks(packet), "[\"4 ft level\"]";
        /// Cautions printed before the steps.
        cautions: Vec<Text>, blocks(packet), "[\"Two-person lift.\"]";
        /// Hold point: nobody goes on until this is signed.
        hold: Text, blocks(packet), "Fastener count; pull by hand.";
        /// Rules that take it off; an empty list says that it is in unit prices alone.
        rule: Vec<RuleEntry>, apart, "";
    } with {
        /// Id.
        id: String,
        /// People.
        crew: Option<Amount>,
        /// Unit of the quantity.
        unit: Unit,
        /// Where its hours are written.
        hours_place: Place,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Quantity;

    #[test]
    fn packs_are_reported_in_the_plural() {
        let pack = |name: &str| Pack { name: name.to_owned(), holds: Quantity::count(1) };
        let pairs = [
            ("box", "boxes"),
            ("bag", "bags"),
            ("roll", "rolls"),
            ("bundle", "bundles"),
            ("carton", "cartons"),
            ("length", "lengths"),
            ("reel", "reels"),
            ("bunch", "bunches"),
            ("tray", "trays"),
            ("caddy", "caddies"),
            ("box of anchors", "boxes of anchors"),
        ];
        for (one, many) in pairs {
            assert_eq!(pack(one).name_of(Decimal::ONE), one);
            assert_eq!([Decimal::TWO, Decimal::ZERO].map(|count| pack(one).name_of(count)), [many, many]);
        }
    }
}
