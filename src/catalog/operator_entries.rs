//! What a person types of operators, their kits and settings: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold,
//! or any job.

use std::collections::BTreeMap;

use super::conditions::{Amount, When};
use super::entries::RuleEntry;
use super::mechanics_entries::*;
use super::words::*;
use crate::findings::Place;
use crate::input::{Count, Flag, Formula, Named, Text, record};
use crate::measure::{Amps, Angle, Duration, Length, Volts, Weight};

record! {
    /// One carton of an operator's kit.
    pub struct CartonEntry as "carton" blocks(packet) => Carton {
        /// What is printed on its tag.
        tag: Text, needed, "drive";
        /// What lies in it.
        holds: Vec<Text>, needed default(Vec::new()), "[\"drive\", \"power cord\"]";
        /// Its weight.
        weight: Weight, needed, "24 lb";
        /// Which entity it comes with.
        per: Entity, needed, "drive";
    }
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
    /// What becomes of them.
    pub screws: KitScrews,
    /// What the installer should know of them.
    pub advice: Option<String>,
    /// Where the count stands.
    pub place: Place,
}

impl<Into> Kit<Into> {
    /// How many of them hold the joint in the end.
    pub fn holding(&self) -> u32 {
        if self.screws == KitScrews::Reuse { self.count } else { 0 }
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

/// A setting of an operator.
#[derive(Clone, Debug)]
pub struct OperatorSetting {
    /// As delivered.
    pub default: Option<String>,
    /// What we set, where no case holds.
    pub target: Option<String>,
    /// What we set instead at drives of which a condition holds, the first that does.
    pub cases: Vec<(When, String)>,
}

record! {
    /// An operator family: dimensions, limits, cartons, arms, settings, and the rules that take it off.
    pub struct OperatorEntry as "operator" blocks(bid, recap, schedule, packet) => Operator[place] {
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
        outdoors: Flag, default(false), "false";
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
        arm_fitted: Text, option needed blocks(packet), "leaf closed, one tooth of preload";
        /// Rod of the push arm.
        rod: RodEntry, blocks(packet), "{ lengths = [\"26 in\", \"30 in\"] }";
        /// Torques, times and arms, from which reach, forces, times and mounting are calculated.
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
        carton as cartons: Vec<CartonEntry>, needed default(Vec::new()) blocks(packet), "";
        /// Fasteners of its kit for the header.
        header_kit: Vec<HeaderKitEntry>, apart, "";
        /// Fasteners of its kit for the arm.
        arm_kit: Vec<ArmKitEntry>, apart, "";
        /// Screws that its header is made for, in all; how many of them land and hold is calculated.
        header_screws: Count, needed, ["0" to "60"], "8";
        /// Screws or bolts that fix an arm to a leaf.
        arm_screws: Count, needed, ["0" to "60"], "4";
        /// Settings it has.
        setting: Named<OperatorSettingEntry>, apart refers(setting) blocks(packet), "";
        /// Telephone of the supplier's help, by the supplier.
        help: Text, blocks(packet), "555-0177";
        /// Rules that take off its parts.
        rule: Vec<RuleEntry>, apart, "";
    } with {
        /// Id.
        id: String,
        /// Fasteners of its kit for the header.
        header_kit: Vec<Kit<Substrate>>,
        /// Fasteners of its kit for the arm.
        arm_kit: Vec<Kit<LeafMade>>,
        /// Settings, by the id of their row.
        settings: BTreeMap<String, OperatorSetting>,
    }
}

record! {
    /// A row of the settings sheet.
    pub struct SettingEntry as "setting" blocks(packet) => Setting {
        /// What is set.
        name: Text, needed, "Opening time to backcheck or 80 degrees";
        /// Its order on the sheet.
        order: Count, needed, ["0" to "9999"], "10";
        /// As delivered, as a formula over the drive, where the operator's mechanics say it.
        default_rule: Formula, apart, "operator.opens_in";
        /// Limit, in words.
        limit: Text, "5 s or more";
        /// Limit as a formula over the drive, where it depends on the leaf.
        limit_rule: Formula, apart, "drive.opening_time";
        /// Condition over the drive, such as its energy class, under which the limit is asked; else its own standard is named.
        limit_when: Formula, apart, "opening.energy = \"low energy\"";
        /// Instrument it is measured with.
        instrument: Text, "stopwatch";
        /// Condition over the drive: where it does not hold, there is nothing to set and the row is not printed.
        when: Formula, apart, "header.drives = 2";
    } with {
        /// Id.
        id: String,
        /// As delivered, as a formula over the drive.
        default_rule: Option<Amount>,
        /// Limit as a formula over the drive.
        limit_rule: Option<Amount>,
        /// Condition over the drive under which the limit is asked.
        limit_when: Option<When>,
        /// Condition over the drive, without which there is nothing to set.
        when: Option<When>,
    }
}
