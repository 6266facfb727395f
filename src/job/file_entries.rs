//! What a person types of the job itself, and the job file that holds it all: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether the values make sense together.

use super::entries::{OpeningEntry, SurveyEntry};
use super::price_entries::{AdjustmentEntry, AllowanceEntry, AlternateEntry, QuoteEntry, UnitPriceEntry};
use super::site_entries::{PanelEntry, RunEntry, SiteEntry};
use super::specification_entries::ParagraphEntry;
use super::submittal_entries::{SectionEntry, SubmittalEntry, TransmittalEntry};
use crate::findings::Place;
use crate::input::{Count, Date, DateTime, Id, Named, Text, record, vocabulary};

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
    pub struct JobEntry as "job" => Head[place] {
        /// Number of the job; also names the folder of its papers.
        number: Id, needed default(String::new()), "2611-04";
        /// Name of the project.
        name: Text, needed default(String::new()), "Alder Row Library, doors 2026";
        /// Number of the solicitation.
        solicitation: Text, "IFB 26-118";
        /// Owner of the buildings.
        owner: Text, needed default(String::new()), "Town of Alder Row";
        /// Firm the bid goes to.
        to: Text, needed default(String::new()), "Crane Hollow Builders";
        /// Person it goes to.
        attention: Text, "M. Okafor";
        /// Day and hour it is due.
        due: DateTime, option needed blocks(bid), "2026-12-10T14:00:00";
        /// Date that the papers carry.
        date: Date, needed, "2026-12-08";
        /// Revision that the papers carry.
        revision: Id, "A";
        /// Units that papers print.
        units: PrintUnits, default(PrintUnits::Inch), "inch";
        /// Editions of codes and standards to review against.
        rules: Vec<Id>, "[\"ada-2010\", \"ibc-2021\", \"nec-2023\"]";
        /// Folder of the catalog, from the job file.
        catalog: Text, apart needed, "catalog";
        /// Table of openings, from the job file.
        openings: Text, apart, "openings.csv";
        /// Table of survey records, from the job file.
        surveys: Text, apart, "survey.csv";
        /// Table of the specification's paragraphs, from the job file.
        specification: Text, apart, "specification.csv";
        /// Owner's profile in the catalog.
        profile: Id, needed default(String::new()) refers(profile) blocks(bid, recap, schedule, packet), "private";
        /// Jurisdictions in the catalog whose rules change quantities.
        jurisdictions: Vec<Id>, refers(jurisdiction) blocks(bid, recap, schedule, packet), "[\"two-heights\"]";
        /// Number of the contract, once there is one.
        contract: Text, "C-2027-014";
        /// Specification section, as the project manual numbers it.
        section: Text, "08 71 13";
        /// Calendar days the price stays open.
        valid_days: Count, blocks(bid), ["0" to "3650"], "60";
        /// Days from award to start.
        start_days: Count, blocks(bid), ["0" to "3650"], "20";
        /// Days from start to completion.
        complete_days: Count, blocks(bid), ["0" to "3650"], "45";
        /// Weeks from approved submittal to delivery.
        lead_weeks: Count, blocks(bid), ["0" to "520"], "8";
        /// Wage basis.
        wages: Text, blocks(bid), "open shop, straight time";
        /// Who signs the bid.
        signed_by: Text, blocks(bid), "R. Tallow, estimator";
        /// Terms of price in the catalog; left out, the catalog's `standard`.
        terms: Id, apart refers(terms) blocks(bid, recap), "standard";
    } with {
        /// Whether its jurisdictions cannot be read, so that none may be called missing.
        jurisdictions_unread: bool,
        /// Terms of price; empty where those that the job names are not there.
        terms: String,
        /// Where the day is written on which it is due.
        due_place: Option<Place>,
        /// Where the date of its papers is written.
        date_place: Option<Place>,
        /// Where its revision is written.
        revision_place: Option<Place>,
        /// Where the days are written that the price stays open.
        valid_place: Option<Place>,
    }
}

record! {
    /// A drawing, a section or another document that the bid rests on.
    pub struct DocumentEntry as "document" blocks(bid, schedule) => Document[place = date] {
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
    pub struct AddendumEntry as "addendum" blocks(bid, schedule) called(number) => Addendum[place = date] {
        /// Its number.
        number: Id, needed, "1";
        /// Its date.
        date: Date, needed, "2026-11-12";
        /// What it changed for us.
        changes: Text, "Opening 204 added";
        /// Marks of the openings it touches; papers mark their lines with its number.
        openings: Vec<Text>, refers(opening), "[\"204\"]";
        /// Items, by id, whose lines it changes at those openings; the schedule marks them with its number and date.
        items: Vec<Id>, refers(item), "[\"hdr-low\"]";
    }
}

record! {
    /// An opening taken out of the job, with a reason that prints as an exclusion.
    pub struct SetAsideEntry as "set aside" => SetAside {
        /// Its mark.
        opening as mark: Text, needed refers(opening), "118";
        /// Why.
        reason: Text, needed, "frame to be replaced by others";
    }
}

record! {
    /// A warning that was looked at and accepted; the reason is printed.
    pub struct AcceptEntry as "accept" blocks(bid, recap) => Accepted[place = code] {
        /// Code of the finding.
        code: Text, needed, "price-old";
        /// The opening, site or entry it is about; left out, every one.
        about: Text, "101A";
        /// What the finding found when it was accepted, in its own words; left out, whatever it finds.
        found: Text, "F108 to F108/N1";
        /// Why it is all right.
        reason: Text, needed, "confirmed by telephone";
    }
}

record! {
    /// A line the estimator adds to the bid by hand.
    pub struct AddedStatementEntry as "statement" blocks(bid) => Statement {
        /// What kind of line.
        kind: StatementKind, needed, "clarification";
        /// The line.
        says: Text, needed, "Work is priced for weekday mornings.";
        /// Who is expected to do it, for an exclusion.
        by: Text, "general contractor";
    }
}

record! {
    /// Of a job file the job's own table alone, which names all other files.
    pub struct JobNamesEntry as "job file" {
        /// The job itself.
        job: JobEntry, needed, "";
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
        /// Sections of the project manual we submit under, besides the job's own.
        section: Vec<SectionEntry>, "";
        /// What is sent for review together.
        submittal: Vec<SubmittalEntry>, "";
        /// What was sent, a section each, and what came back.
        transmittal: Vec<TransmittalEntry>, "";
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
        /// Paragraphs of the specification, unless they stand in a table of their own.
        paragraph: Vec<ParagraphEntry>, "";
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
