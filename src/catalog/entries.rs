//! What a person types of a catalog: field tables.
//!
//! In: nothing. Out: records that `input` fills. May not know: whether references hold, or any job.

use super::edition_entries::*;
use super::mechanics_entries::*;
use super::paper_entries::*;
use super::profile_entries::ProfileEntry;
use super::proof_entries::ProofEntry;
use super::rate_entries::*;
use super::terminal_entries::{CableEntry, TerminalEntry, TerminationEntry};
use super::theme_entries::ThemeEntry;
use super::wiring_entries::{BatteryEntry, GivesEntry, WireEntry};
use super::words::*;
use crate::input::{Count, CountFromOne, Date, Flag, Formula, Id, Named, Text, record};
use crate::measure::{Amps, Angle, Duration, Length, Volts, Weight};
use crate::money::{Money, Percent};

record! {
    /// A rule: for each entity that meets the condition, so much of an item, or so many times a task.
    pub struct RuleEntry as "rule" blocks(bid, recap, schedule, packet) {
        /// Its name; left out inside an item, a task or an operator, it is numbered.
        id: Id, "plates-on-wood";
        /// What it ranges over.
        per: Entity, needed, "header";
        /// The item whose lines it ranges over, with `per = "item"`.
        of: Id, "wire-12";
        /// Condition; left out, always.
        when: Formula, "fixing.substrate = \"wood\"";
        /// Item it takes off; implied inside an item.
        item: Id, "header-low";
        /// Task it takes off; implied inside a task.
        task: Id, "hang-header";
        /// How much; left out, one.
        quantity: Formula, "header.leaf_width + 2 in";
        /// Why, or the clause it follows.
        because: Text, "two signs on each powered leaf";
    }
}

record! {
    /// What an electrified item draws and does, and who has to do with it.
    pub struct ElectricEntry as "electric" blocks(schedule, packet) {
        /// Volts.
        volts: Volts, "24 V";
        /// Amps, running.
        amps: Amps, "0.45 A";
        /// Amps, at the start.
        inrush: Amps, "1.2 A";
        /// Whether it takes the same power whatever its voltage, as what has a switching supply does.
        constant_power: Flag, "false";
        /// The fewest volts it works with.
        least_volts: Volts, "20.4 V";
        /// What it does when power fails.
        fails: FailState, "fail secure";
        /// Who furnishes it.
        furnished_by: Text, "us";
        /// Who installs it.
        installed_by: Text, "us";
        /// Who wires it.
        wired_by: Text, "electrician";
        /// Who programs it.
        programmed_by: Text, "us";
    }
}

record! {
    /// How an item is packed for sale.
    pub struct PackEntry as "pack" blocks(bid, recap) {
        /// Its name.
        name: Text, needed, "stick";
        /// How much is in it, in the item's unit.
        holds: Text, needed, "10 ft";
    }
}

record! {
    /// An item: something bought.
    pub struct ItemEntry as "item" blocks(bid, recap, schedule, packet) {
        /// What it is, in plain words.
        name: Text, needed, "Header, low energy, one leaf";
        /// Its group.
        group: Group, needed, "header";
        /// Its place in a hardware set; left out, apart.
        set: SetPlace, "operate";
        /// The part of the cost it belongs to; left out, material.
        cost: CostKind, blocks(bid, recap), "material";
        /// The unit it is sold by.
        unit: Text, needed, "each";
        /// Price of one unit, as text.
        price: Money, blocks(bid, recap), "\"412.50\"";
        /// Day of the price.
        priced: Date, blocks(bid, recap), "2026-10-05";
        /// Supplier, by id.
        supplier: Id, needed blocks(bid, recap), "fenwick";
        /// Waste that the price carries.
        waste: Percent, blocks(bid, recap), "5 %";
        /// Pack it is sold in.
        pack: PackEntry, blocks(bid, recap), "{ name = \"stick\", holds = \"10 ft\" }";
        /// Finish, where it has one; `by opening` takes the finish of header and arms.
        finish: Text, "clear anodized";
        /// Size or grade, for the schedule.
        size: Text, "3/8 in x 2 in";
        /// Standard and type it meets, for the schedule.
        standard: Text, "low-energy operator";
        /// Weight of one.
        weight: Weight, "38 lb";
        /// Listed for use on a labeled opening.
        fire_listed: Flag, "true";
        /// How many the owner keeps as spares, for the maintenance data.
        spare: Text, blocks(submittal), "one for every ten in use";
        /// Whether it takes a cylinder of the owner's key system.
        keyed: Flag, "true";
        /// Whether freight is added; left out, yes.
        freight: Flag, blocks(bid, recap), "true";
        /// Whether sales tax is added; left out, yes.
        taxed: Flag, blocks(bid, recap), "true";
        /// What it draws and who has to do with it, where it is electrified.
        electric: ElectricEntry, "{ volts = \"24 V\" }";
        /// Its wire, where it is a conductor or a cable.
        wire: WireEntry, blocks(recap), "{ awg = 12 }";
        /// What it gives, where it is a supply.
        gives: GivesEntry, blocks(recap), "{ volts = \"24 V\", amps = \"4 A\" }";
        /// Its battery, where it sends by radio.
        battery: BatteryEntry, blocks(recap), "{ capacity = 1000 }";
        /// The maker's own sheet about it, a PDF, from the catalog's folder.
        sheet: Text, "sheets/plate.pdf";
        /// Pages of the sheet that are enclosed; left out, all.
        sheet_pages: Vec<CountFromOne>, ["1" to "9999"], "[1, 2]";
        /// What is marked on the sheet.
        sheet_marks: Vec<SheetMarkEntry>, "";
        /// Rules that take it off.
        rule: Vec<RuleEntry>, "";
    }
}

record! {
    /// Words in the margin of the maker's sheet, with an arrow: which of what it offers is meant.
    pub struct SheetMarkEntry as "sheet mark" {
        /// Page of the sheet; left out, the first.
        page: CountFromOne, ["1" to "9999"], "1";
        /// How far down the page it points.
        at: Percent, needed, "35 %";
        /// What it says.
        says: Text, needed, "Selected: square, hard-wired";
    }
}

record! {
    /// A task: labor, and what the installer is told.
    pub struct TaskEntry as "task" blocks(bid, recap, packet) {
        /// What it is, in plain words.
        name: Text, needed, "Mount the header";
        /// Visit in which it is done.
        visit: VisitKind, needed, "set";
        /// Phase of the installation.
        phase: Phase, needed, "hang";
        /// Its order inside the phase.
        order: Count, needed, ["0" to "9999"], "10";
        /// Trade, by id.
        trade: Id, needed, "installer";
        /// People; a formula over the entity, so that a heavy header asks for two.
        crew: Formula, "if header.weight > 60 lb then 2 else 1";
        /// Hours of the whole crew's clock for one unit of the rule's quantity.
        hours: Duration, needed, "0.5 h";
        /// Unit of the rule's quantity, where it is not a count.
        unit: Text, "ft";
        /// Where the hours come from.
        source: Text, needed blocks(recap), "shop record, six jobs";
        /// Steps told to the installer; none for work that needs no telling.
        steps: Vec<Text>, blocks(packet), "[\"Lift with two people.\"]";
        /// Tools needed.
        tools: Vec<Text>, blocks(packet), "[\"4 ft level\"]";
        /// Cautions printed before the steps.
        cautions: Vec<Text>, blocks(packet), "[\"Two-person lift.\"]";
        /// Hold point: nobody goes on until this is signed.
        hold: Text, blocks(packet), "Fastener count; pull by hand.";
        /// Rules that take it off.
        rule: Vec<RuleEntry>, "";
    }
}

record! {
    /// One carton of an operator's kit.
    pub struct CartonEntry as "carton" blocks(packet) {
        /// What is printed on its tag.
        tag: Text, needed, "drive";
        /// What lies in it.
        holds: Vec<Text>, needed, "[\"drive\", \"power cord\"]";
        /// Its weight.
        weight: Weight, needed, "24 lb";
        /// Which entity it comes with.
        per: Entity, needed, "drive";
    }
}

record! {
    /// Fasteners that the kit gives for the header on one substrate.
    pub struct HeaderKitEntry as "header kit" blocks(bid, recap, schedule, packet) {
        /// What they go into.
        into: Substrate, needed, "wood";
        /// What they are.
        name: Text, needed, "#14 x 2 1/2 in wood screw";
        /// How many.
        count: Count, needed, ["0" to "999"], "8";
        /// What becomes of them: only screws that are reused count toward what the joint needs.
        screws: KitScrews, "reuse";
        /// What the installer should know of them.
        advice: Text, blocks(packet), "not into old closer holes";
    }
}

record! {
    /// Fasteners that the kit gives for the arm on one kind of leaf.
    pub struct ArmKitEntry as "arm kit" blocks(bid, recap, schedule, packet) {
        /// What they go into.
        into: LeafMade, needed, "wood";
        /// What they are.
        name: Text, needed, "#14 x 2 1/2 in wood screw";
        /// How many.
        count: Count, needed, ["0" to "999"], "8";
        /// What becomes of them: only screws that are reused count toward what the joint needs.
        screws: KitScrews, "reuse";
        /// What the installer should know of them.
        advice: Text, blocks(packet), "not into old closer holes";
    }
}

record! {
    /// Another target of a setting, for the drives that it is meant for.
    pub struct TargetEntry as "target" blocks(packet) {
        /// Condition over the drive. The first that holds gives the target, none the setting's own.
        when: Formula, needed, "opening.energy = \"low energy\"";
        /// What we set it to there.
        target: Text, needed, "limit or slower";
    }
}

record! {
    /// A setting of an operator, by the id of its row in the catalog's settings.
    pub struct OperatorSettingEntry as "operator setting" blocks(packet) {
        /// As delivered.
        default: Text, "4 s";
        /// What we set it to.
        target: Text, "5 s";
        /// Other targets, such as that of another energy class.
        case: Vec<TargetEntry>, "";
    }
}

record! {
    /// An operator family: dimensions, limits, cartons, arms, settings, and the rules that take it off.
    pub struct OperatorEntry as "operator" blocks(bid, recap, schedule, packet) {
        /// What it is, in plain words.
        name: Text, needed, "Surface operator, low energy";
        /// Energy classes it can be set to.
        energy: Vec<EnergyClass>, needed, "[\"low energy\"]";
        /// Where it can be mounted.
        mounts: Vec<Mount>, needed, "[\"surface\"]";
        /// Whether it can push.
        pushes: Flag, needed, "true";
        /// Whether it can pull.
        pulls: Flag, needed, "true";
        /// Whether one header takes two drives.
        two_drives: Flag, needed, "true";
        /// Whether it may stand on a labeled opening.
        fire_listed: Flag, needed, "true";
        /// Whether it may stand outdoors.
        outdoors: Flag, "false";
        /// Height of the header.
        height: Length, needed, "6 in";
        /// Depth of the header, front to back.
        depth: Length, needed, "4 3/4 in";
        /// Head room it needs above the frame.
        head_room: Length, needed, "6 1/4 in";
        /// Clearance it needs in front of the face.
        face_clearance: Length, needed, "5 1/2 in";
        /// Widest leaf.
        widest: Length, needed, "48 in";
        /// Narrowest leaf.
        narrowest: Length, needed, "30 in";
        /// Heaviest leaf.
        heaviest: Weight, needed, "250 lb";
        /// Distance from the hinge line to the spindle, along the header.
        spindle_offset: Length, needed, "5 in";
        /// Distance from the hinge line to the bracket of the leaf.
        bracket_offset: Length, needed, "22 in";
        /// Deepest reveal that the arm reaches.
        deepest_reveal: Length, needed, "8 in";
        /// Position of the leaf in which the arm is fitted.
        arm_fitted: Text, needed blocks(packet), "leaf closed, one tooth of preload";
        /// Rod of the push arm.
        rod: RodEntry, blocks(packet), "{ lengths = [\"26 in\", \"30 in\"] }";
        /// Torques, times and arms, from which reach, forces, times and mounting are reckoned.
        mechanics: MechanicsEntry, blocks(packet), "{ torque = \"45 lbf ft\" }";
        /// Volts.
        volts: Volts, needed, "120 V";
        /// Amps, running.
        amps: Amps, needed, "1.8 A";
        /// Amps, peak.
        peak: Amps, needed, "4.5 A";
        /// Amps it gives to low-voltage devices.
        accessory_amps: Amps, "1.0 A";
        /// Volts it gives to them.
        accessory_volts: Volts, "24 V";
        /// The longest it can wait between letting a latch go and moving the leaf; left out, it does not wait.
        release_delay: Duration, "2 s";
        /// Holes for raceway in the header, by trade size.
        entry: Text, needed, "1/2";
        /// Greatest opening angle.
        opens_to: Angle, "110 deg";
        /// What powers it down does: how the leaf closes without power.
        closes_by: Text, needed, "spring";
        /// Weight of the header for a foot of length, without drives.
        header_weight: Weight, needed, "7 lb";
        /// Weight of one drive.
        drive_weight: Weight, needed, "24 lb";
        /// Cartons of its kit.
        carton: Vec<CartonEntry>, needed blocks(packet), "";
        /// Fasteners of its kit for the header.
        header_kit: Vec<HeaderKitEntry>, "";
        /// Fasteners of its kit for the arm.
        arm_kit: Vec<ArmKitEntry>, "";
        /// Screws that its header is made for, in all; how many of them land and hold is reckoned.
        header_screws: Count, needed, ["0" to "60"], "8";
        /// Screws or bolts that fix an arm to a leaf.
        arm_screws: Count, needed, ["0" to "60"], "4";
        /// Settings it has.
        setting: Named<OperatorSettingEntry>, blocks(packet), "";
        /// Telephone of the supplier's help, by the supplier.
        help: Text, blocks(packet), "555-0177";
        /// Rules that take off its parts.
        rule: Vec<RuleEntry>, "";
    }
}

record! {
    /// A row of the settings sheet.
    pub struct SettingEntry as "setting" blocks(packet) {
        /// What is set.
        name: Text, needed, "Opening time to backcheck or 80 degrees";
        /// Its order on the sheet.
        order: Count, needed, ["0" to "9999"], "10";
        /// As delivered, as a formula over the drive, where the operator's mechanics say it.
        default_rule: Formula, "operator.opens_in";
        /// Limit, in words.
        limit: Text, "5 s or more";
        /// Limit as a formula over the drive, where it depends on the leaf.
        limit_rule: Formula, "drive.opening_time";
        /// Condition over the drive, such as its energy class, under which the limit is asked; else its own standard is named.
        limit_when: Formula, "opening.energy = \"low energy\"";
        /// Instrument it is measured with.
        instrument: Text, "stopwatch";
        /// Condition over the drive: where it does not hold, there is nothing to set and the row is not printed.
        when: Formula, "header.drives = 2";
    }
}

record! {
    /// A file of a catalog; a catalog is any number of them, in any order.
    pub struct CatalogFileEntry as "catalog file" {
        /// The contractor.
        firm: FirmEntry, "";
        /// The look of papers.
        theme: ThemeEntry, "";
        /// Finishes.
        finish: Named<FinishEntry>, "";
        /// Items.
        item: Named<ItemEntry>, "";
        /// Tasks.
        task: Named<TaskEntry>, "";
        /// Operators.
        operator: Named<OperatorEntry>, "";
        /// Fasteners of headers, with what they may carry.
        fastener: Named<FastenerEntry>, "";
        /// Rules that stand by themselves.
        rule: Vec<RuleEntry>, "";
        /// Rows of the settings sheet.
        setting: Named<SettingEntry>, "";
        /// Trades.
        trade: Named<TradeEntry>, "";
        /// Factors on hours.
        factor: Named<FactorEntry>, "";
        /// Suppliers.
        supplier: Named<SupplierEntry>, "";
        /// Owners' profiles.
        profile: Named<ProfileEntry>, "";
        /// Jurisdictions.
        jurisdiction: Named<JurisdictionEntry>, "";
        /// Editions of codes and standards.
        edition: Named<EditionEntry>, "";
        /// Terms of price.
        terms: Named<TermsEntry>, "";
        /// Parties.
        party: Named<PartyEntry>, "";
        /// Rows of the responsibility matrix.
        responsibility: Named<ResponsibilityEntry>, "";
        /// Lines of papers.
        note: Named<NoteEntry>, "";
        /// What others must do before we can, by id.
        need: Named<NeedEntry>, "";
        /// Proofs that go with submittals, by id.
        proof: Named<ProofEntry>, "";
        /// Terminals at headers, by id.
        terminal: Named<TerminalEntry>, "";
        /// How things are terminated, by id.
        termination: Named<TerminationEntry>, "";
        /// Colors of low-voltage cables, by id.
        cable: Named<CableEntry>, "";
        /// Sequences of operation.
        sequence: Named<SequenceEntry>, "";
        /// Faults.
        fault: Named<FaultEntry>, "";
    }
}
