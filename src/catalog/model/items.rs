//! Items and operators: what is bought.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed.

use std::collections::BTreeMap;

use rust_decimal::Decimal;

use super::{Amount, Gives, Mechanics, Rod, TransmitterBattery, When, Wire};
use crate::catalog::words::*;
use crate::findings::Place;
use crate::input::{Date, Slot};
use crate::measure::{Amps, Angle, Duration, Length, Quantity, Unit, Volts, Weight};
use crate::money::{Money, Percent};

/// What an electrified item draws and who has to do with it.
#[derive(Clone, Debug)]
pub struct Electric {
    /// Volts.
    pub volts: Option<Volts>,
    /// Amps, running.
    pub amps: Option<Amps>,
    /// Amps at the start.
    pub inrush: Option<Amps>,
    /// Whether it takes the same power whatever its voltage.
    pub constant_power: bool,
    /// The fewest volts it works with.
    pub least_volts: Option<Volts>,
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
    /// Price of one unit, in dollars; absent while nobody knows it, bad where it was reported as unreadable.
    pub price: Slot<Money>,
    /// Day of the price; absent or bad like the price.
    pub priced: Slot<Date>,
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
    /// Listed for labeled openings.
    pub fire_listed: bool,
    /// Takes a cylinder of the owner's key system.
    pub keyed: bool,
    /// How many the owner keeps as spares.
    pub spare: Option<String>,
    /// Whether freight is added.
    pub freight: bool,
    /// Whether tax is added.
    pub taxed: bool,
    /// Electric data.
    pub electric: Option<Electric>,
    /// Its wire.
    pub wire: Option<Wire>,
    /// What it gives.
    pub gives: Option<Gives>,
    /// Its battery.
    pub battery: Option<TransmitterBattery>,
    /// The maker's own sheet about it.
    pub sheet: Option<MakersSheet>,
    /// Where it stands.
    pub place: Place,
}

/// A maker's own sheet about an item, or the certificate of a proof, to be enclosed.
#[derive(Clone, Debug)]
pub struct MakersSheet {
    /// The file, from the catalog's folder.
    pub path: String,
    /// Which of its pages, from 1; none means all.
    pub pages: Vec<u16>,
    /// What is marked on it.
    pub marks: Vec<SheetMark>,
    /// Where it is named.
    pub place: Place,
}

/// Words in the margin of such a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetMark {
    /// Which page, from 1.
    pub page: u16,
    /// How far down the page it points, from nothing to the whole.
    pub at: Percent,
    /// What it says.
    pub says: String,
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
    /// May stand on a labeled opening.
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
    pub arm_fitted: Option<String>,
    /// Rod.
    pub rod: Option<Rod>,
    /// Torques, times and arms.
    pub mechanics: Option<Mechanics>,
    /// Volts.
    pub volts: Volts,
    /// Amps running.
    pub amps: Amps,
    /// Amps peak.
    pub peak: Amps,
    /// Amps for devices.
    pub accessory_amps: Option<Amps>,
    /// Volts for devices.
    pub accessory_volts: Option<Volts>,
    /// The longest wait between latch and motion.
    pub release_delay: Option<Duration>,
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
    /// As delivered, as a formula over the drive.
    pub default_rule: Option<Amount>,
    /// Limit in words.
    pub limit: Option<String>,
    /// Limit as a formula over the drive.
    pub limit_rule: Option<Amount>,
    /// Condition over the drive under which the limit is asked.
    pub limit_when: Option<When>,
    /// Instrument.
    pub instrument: Option<String>,
    /// Condition over the drive, without which there is nothing to set.
    pub when: Option<When>,
}

#[cfg(test)]
mod tests {
    use super::*;

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
