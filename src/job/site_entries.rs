//! What a person types of sites: how to come there, when, panels and runs: field tables.
//!
//! In: nothing. Out: records that `input` fills. May not know: openings, or whether what is named is there.

use super::words::{HazardReport, PowerKnown};
use crate::catalog::VisitKind;
pub use crate::catalog::{RunClass, RunKind};
use crate::input::{Count, Date, Flag, Id, Text, record, vocabulary};
use crate::measure::{Amps, Length, Volts};

vocabulary! {
    /// Trade sizes of raceway, in inches.
    pub enum TradeSize {
        /// Half an inch.
        Half = "1/2",
        /// Three quarters.
        ThreeQuarter = "3/4",
        /// One inch.
        One = "1",
        /// One and a quarter.
        OneQuarter = "1-1/4",
    }
}

record! {
    /// A site: one building or place that a crew goes to.
    pub struct SiteEntry as "site" {
        /// Its name.
        name: Text, needed, "Main library";
        /// Its address.
        address: Text, needed, "12 Alder Row";
        /// Person to call.
        contact: Text, "J. Marsh, custodian, 555-0142";
        /// Working hours.
        hours: Text, "Mon-Fri 6:00-14:30";
        /// Badges and keys.
        badge: Text, "Sign in at the desk";
        /// Parking and unloading.
        parking: Text, "Loading bay, east side";
        /// Where material is staged.
        staging: Text, "Room 014";
        /// Way of a lift.
        lift_path: Text, "Ramp at the east door";
        /// Nearest help in an emergency.
        emergency: Text, "911; meet at the east door";
        /// Year of construction.
        year: Count, ["1500" to "2500"], "1974";
        /// What is known of hazardous material.
        hazard: HazardReport, "unknown";
        /// Road distance from the shop, one way.
        road: Length, "14 mi";
        /// Order in which sites are worked.
        order: Count, ["0" to "9999"], "1";
        /// Permit and inspection by whom.
        permit: Text, "electrical permit by us";
        /// Days on which the crew comes, by visit; papers for others name them.
        days: VisitDaysEntry, "";
    }
}

record! {
    /// Days of the visits to a site.
    pub struct VisitDaysEntry as "days of visits" blocks(needs) {
        /// Measuring.
        survey: Date, "2027-01-11";
        /// Raceway, boxes and backing.
        rough_in: Date, "2027-02-08";
        /// Headers, drives and arms.
        set: Date, "2027-03-08";
        /// Line voltage made live.
        final_connection: Date, "2027-03-15";
        /// Devices, and systems of others.
        devices: Date, "2027-03-17";
        /// The inspector's visit.
        inspection: Date, "2027-03-24";
        /// What was left.
        punch: Date, "2027-03-29";
    }
}

impl VisitDaysEntry {
    /// The day of a visit, where it is given. Work in the shop has none.
    pub fn of(&self, visit: VisitKind) -> Option<Date> {
        let slot = match visit {
            VisitKind::Survey => &self.survey,
            VisitKind::RoughIn => &self.rough_in,
            VisitKind::Set => &self.set,
            VisitKind::FinalConnection => &self.final_connection,
            VisitKind::Devices => &self.devices,
            VisitKind::Inspection => &self.inspection,
            VisitKind::Punch => &self.punch,
            VisitKind::Shop => return None,
        };
        slot.cloned()
    }
}

record! {
    /// A circuit of a panel that is there.
    pub struct PanelCircuitEntry as "circuit" called(number) blocks(bid, recap, schedule, packet) {
        /// Its number in the panel's directory.
        number: Text, needed, "9";
        /// What it feeds today.
        serves: Text, "receptacles, east corridor";
        /// Running amps of what it feeds today.
        amps: Amps, "4.0 A";
        /// Amps of its breaker; left out, the usual one of a drive.
        breaker: Amps, "20 A";
        /// Why it must not be used for an operator; left out, it may be.
        forbidden: Text, "lighting of an exit route";
    }
}

record! {
    /// A panel that feeds openings.
    pub struct PanelEntry as "panel" stands blocks(bid, recap, schedule, packet) {
        /// The site it stands in.
        site: Id, needed refers(site), "main";
        /// Where it stands.
        place: Text, "Electrical room 011";
        /// Volts, line to neutral.
        volts: Volts, "120 V";
        /// Spaces free for breakers.
        free: Count, ["0" to "999"], "4";
        /// How well it is known.
        known: PowerKnown, "seen";
        /// Rules for shutting it down.
        shutdown: Text, "48 hours' notice to the custodian";
        /// Circuits of it that are there, as far as they matter to the work.
        circuit: Vec<PanelCircuitEntry>, "";
    }
}

record! {
    /// A further part of a run, of another kind.
    pub struct RunPartEntry as "part of a run" stands blocks(bid, recap, schedule, packet) {
        /// Kind of raceway.
        kind: RunKind, needed, "flexible";
        /// Trade size; left out, the owner's least size.
        size: TradeSize, "1/2";
        /// Length along the route.
        length: Length, needed, "3 ft";
        /// Bends, in degrees; left out of what is flexible, none.
        bends: Vec<Count>, ["1" to "360"], "[90]";
        /// Whether it is outdoors or in a wet place; left out, as the run.
        wet: Flag, "false";
        /// Length of it that lies in a trench.
        trench: Length, "0 ft";
    }
}

record! {
    /// A run of raceway or cable of a site, between panels, boxes, openings and devices.
    pub struct RunEntry as "run" stands blocks(bid, recap, schedule, packet) {
        /// Where it starts: a panel, a box, an opening's mark, or a device as `101A/P1`.
        from: Text, needed, "LP-1";
        /// Where it ends.
        to: Text, needed, "101A";
        /// The site, where neither end tells it.
        site: Id, refers(site), "main";
        /// Kind of raceway.
        kind: RunKind, needed, "EMT";
        /// Trade size; left out, the owner's least size.
        size: TradeSize, "1/2";
        /// Length along the route.
        length: Length, needed, "38 ft";
        /// Bends, in degrees.
        bends: Vec<Count>, ["1" to "360"], "[90, 90, 45]";
        /// What it goes on as, part by part, to the same end: length and bends before are those of its first part.
        then: Vec<RunPartEntry>, "[{ kind = \"flexible\", length = \"3 ft\" }]";
        /// What it carries.
        class: RunClass, needed, "line";
        /// Fire-rated walls and floors it goes through.
        rated_walls: Count, ["0" to "99"], "1";
        /// Cores drilled through masonry or concrete.
        cores: Count, ["0" to "99"], "0";
        /// Whether it is outdoors or in a wet place.
        wet: Flag, "false";
        /// Length of it that lies in a trench.
        trench: Length, "0 ft";
        /// Whether it runs in a space that returns air.
        plenum: Flag, "false";
    }
}
