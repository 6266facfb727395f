//! What a person types of a job besides its openings: field tables.
//!
//! In: nothing. Out: records that `reading` fills. May not know: whether the values make sense together.

use super::entries::{OpeningEntry, SurveyEntry};
use super::words::{HazardReport, PowerKnown};
use crate::catalog::VisitKind;
use crate::measure::{Length, Volts};
use crate::money::Money;
use crate::reading::{Count, Date, DateTime, Flag, Id, Named, SignedMoney, Text, record, vocabulary};

vocabulary! {
    /// Units that papers print.
    pub enum PrintUnits {
        /// Feet and inches.
        Inch = "inch",
        /// Millimetres.
        Mm = "mm",
    }
}

vocabulary! {
    /// A raceway, or cable without one.
    pub enum RunKind {
        /// Electrical metallic tubing.
        Emt = "EMT",
        /// Flexible metal conduit.
        Flexible = "flexible",
        /// Liquid-tight flexible conduit.
        LiquidTight = "liquid-tight",
        /// Surface raceway.
        Surface = "surface raceway",
        /// Cable on supports, no raceway.
        Cable = "open cable",
    }
}

vocabulary! {
    /// What a run carries.
    pub enum RunClass {
        /// Line voltage.
        Line = "line",
        /// Low voltage, class 2.
        Low = "low",
    }
}

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

vocabulary! {
    /// Kinds of lines that the estimator adds to the bid by hand.
    pub enum StatementKind {
        /// Something that is in.
        Inclusion = "inclusion",
        /// Something that is not in, and who is expected to do it.
        Exclusion = "exclusion",
        /// Something the price rests on.
        Clarification = "clarification",
    }
}

record! {
    /// The job itself.
    pub struct JobEntry as "job" {
        /// Number of the job; also names the folder of its papers.
        number: Id, needed, "2611-04";
        /// Name of the project.
        name: Text, needed, "Alder Row Library, doors 2026";
        /// Number of the solicitation.
        solicitation: Text, "IFB 26-118";
        /// Owner of the buildings.
        owner: Text, needed, "Town of Alder Row";
        /// Firm the bid goes to.
        to: Text, needed, "Crane Hollow Builders";
        /// Person it goes to.
        attention: Text, "M. Okafor";
        /// Day and hour it is due.
        due: DateTime, needed blocks(bid), "2026-12-10T14:00:00";
        /// Date that the papers carry.
        date: Date, needed, "2026-12-08";
        /// Revision that the papers carry.
        revision: Id, "A";
        /// Units that papers print.
        units: PrintUnits, "inch";
        /// Editions of codes and standards to review against.
        rules: Vec<Id>, "[\"ada-2010\", \"ibc-2021\", \"nec-2023\"]";
        /// Folder of the catalog, from the job file.
        catalog: Text, needed, "catalog";
        /// Table of openings, from the job file.
        openings: Text, "openings.csv";
        /// Table of survey records, from the job file.
        surveys: Text, "survey.csv";
        /// Owner's profile in the catalog.
        profile: Id, needed blocks(bid, recap, schedule, packet), "private";
        /// Jurisdictions in the catalog whose rules change quantities.
        jurisdictions: Vec<Id>, blocks(bid, recap, schedule, packet), "[\"two-heights\"]";
        /// Specification section, as the project manual numbers it.
        section: Text, "08 71 13";
        /// Calendar days the price stays open.
        valid_days: Count, blocks(bid), "60";
        /// Days from award to start.
        start_days: Count, blocks(bid), "20";
        /// Days from start to completion.
        complete_days: Count, blocks(bid), "45";
        /// Weeks from approved submittal to delivery.
        lead_weeks: Count, blocks(bid), "8";
        /// Wage basis.
        wages: Text, blocks(bid), "open shop, straight time";
        /// Who signs the bid.
        signed_by: Text, blocks(bid), "R. Tallow, estimator";
        /// Terms of price in the catalog; left out, the catalog's `standard`.
        terms: Id, blocks(bid, recap), "standard";
    }
}

record! {
    /// A drawing, a section or another document that the bid rests on.
    pub struct DocumentEntry as "document" blocks(bid, schedule) {
        /// Its number.
        number: Text, needed, "A-601";
        /// Its title.
        title: Text, needed, "Door schedule";
        /// Its date.
        date: Date, needed, "2026-10-01";
    }
}

record! {
    /// An addendum, acknowledged by number and date.
    pub struct AddendumEntry as "addendum" blocks(bid, schedule) {
        /// Its number.
        number: Id, needed, "1";
        /// Its date.
        date: Date, needed, "2026-11-12";
        /// What it changed for us.
        changes: Text, "Opening 204 added";
        /// Marks of the openings it touches; papers mark their lines with its number.
        openings: Vec<Text>, "[\"204\"]";
        /// Items, by id, whose lines it changes at those openings; the schedule marks them with its number and date.
        items: Vec<Id>, "[\"hdr-low\"]";
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
        year: Count, "1974";
        /// What is known of hazardous material.
        hazard: HazardReport, "unknown";
        /// Road distance from the shop, one way.
        road: Length, "14 mi";
        /// Order in which sites are worked.
        order: Count, "1";
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
    /// A panel that feeds openings.
    pub struct PanelEntry as "panel" stands blocks(bid, recap, schedule, packet) {
        /// The site it stands in.
        site: Id, needed, "main";
        /// Where it stands.
        place: Text, "Electrical room 011";
        /// Volts, line to neutral.
        volts: Volts, "120 V";
        /// Spaces free for breakers.
        free: Count, "4";
        /// How well it is known.
        known: PowerKnown, "seen";
        /// Rules for shutting it down.
        shutdown: Text, "48 hours' notice to the custodian";
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
        site: Id, "main";
        /// Kind of raceway.
        kind: RunKind, needed, "EMT";
        /// Trade size; left out, the owner's least size.
        size: TradeSize, "1/2";
        /// Length along the route.
        length: Length, needed, "38 ft";
        /// Bends, in degrees.
        bends: Vec<Count>, "[90, 90, 45]";
        /// What it carries.
        class: RunClass, needed, "line";
        /// Fire-rated walls and floors it goes through.
        rated_walls: Count, "1";
        /// Cores drilled through masonry or concrete.
        cores: Count, "0";
        /// Whether it is outdoors or in a wet place.
        wet: Flag, "false";
        /// Length of it that lies in a trench.
        trench: Length, "0 ft";
        /// Whether it runs in a space that returns air.
        plenum: Flag, "false";
    }
}

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

record! {
    /// An opening taken out of the job, with a reason that prints as an exclusion.
    pub struct SetAsideEntry as "set aside" {
        /// Its mark.
        opening: Text, needed, "118";
        /// Why.
        reason: Text, needed, "frame to be replaced by others";
    }
}

record! {
    /// A warning that was looked at and accepted; the reason is printed.
    pub struct AcceptEntry as "accept" blocks(bid, recap) {
        /// Code of the finding.
        code: Text, needed, "price-old";
        /// The opening, site or entry it is about; left out, every one.
        about: Text, "101A";
        /// Why it is all right.
        reason: Text, needed, "confirmed by telephone";
    }
}

record! {
    /// A line the estimator adds to the bid by hand.
    pub struct AddedStatementEntry as "statement" blocks(bid) {
        /// What kind of line.
        kind: StatementKind, needed, "clarification";
        /// The line.
        says: Text, needed, "Work is priced for weekday mornings.";
        /// Who is expected to do it, for an exclusion.
        by: Text, "general contractor";
    }
}

record! {
    /// A whole job file.
    pub struct JobFileEntry as "job file" {
        /// The job itself.
        job: JobEntry, needed, "";
        /// Documents that the bid rests on.
        document: Vec<DocumentEntry>, "";
        /// Addenda.
        addendum: Vec<AddendumEntry>, "";
        /// Sites by id.
        site: Named<SiteEntry>, needed, "main";
        /// Panels by id.
        panel: Named<PanelEntry>, "LP-1";
        /// Kinds of openings by id.
        kind: Named<OpeningEntry>, "lobby-single";
        /// Openings, unless they stand in a table of their own.
        opening: Vec<OpeningEntry>, "";
        /// Survey records, unless they stand in a table of their own.
        survey: Vec<SurveyEntry>, "";
        /// Runs of raceway and cable.
        run: Vec<RunEntry>, "";
        /// Alternates.
        alternate: Vec<AlternateEntry>, "";
        /// Unit prices.
        unit_price: Vec<UnitPriceEntry>, "";
        /// Allowances.
        allowance: Vec<AllowanceEntry>, "";
        /// Quotes.
        quote: Vec<QuoteEntry>, "";
        /// Adjustments.
        adjustment: Vec<AdjustmentEntry>, "";
        /// Openings set aside.
        set_aside: Vec<SetAsideEntry>, "";
        /// Warnings accepted.
        accept: Vec<AcceptEntry>, "";
        /// Lines added by hand.
        statement: Vec<AddedStatementEntry>, "";
    }
}
