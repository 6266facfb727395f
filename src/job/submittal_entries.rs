//! What a person types of submittals: sections, what is sent together, what was sent and came back: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether what is named is there, or what an owner's words mean.

use crate::catalog::{Disposition, Group};
use crate::input::{Date, Id, Text, record, vocabulary};

vocabulary! {
    /// What a submittal can hold.
    pub enum SubmittalPart {
        /// The hardware schedule.
        Schedule = "schedule",
        /// What each product is.
        ProductData = "product data",
        /// The paragraphs of the specification, each with our answer.
        Compliance = "compliance",
        /// What doors and frames of others must be prepared for.
        Templates = "templates",
        /// Certificates and other proofs.
        Certificates = "certificates",
        /// The warranty.
        Warranty = "warranty",
        /// How the owner keeps what we leave.
        MaintenanceData = "maintenance data",
        /// Drawings of openings and of the wiring.
        ShopDrawings = "shop drawings",
    }
}

record! {
    /// A section of the project manual that some of what we furnish belongs to.
    pub struct SectionEntry as "section" blocks(packet, register) => Section[place] {
        /// Its number, as the project manual writes it.
        number: Text, needed, "26 05 33";
        /// Its title.
        title: Text, needed, "Raceways and boxes";
        /// Groups of items that belong to it; a group that no section names belongs to the job's own.
        groups: Vec<Group>, "[\"raceway\", \"box\"]";
    }
}

record! {
    /// What is sent for review together.
    pub struct SubmittalEntry as "submittal" blocks(packet, register) called(id) => Submittal[place] {
        /// Its id.
        id: Id, needed, "schedule";
        /// What it is called.
        title: Text, needed, "Hardware schedule and product data";
        /// The submittal that must be approved before this one is sent.
        after: Id, refers(submittal), "schedule";
        /// What it holds.
        parts: Vec<SubmittalPart>, needed default(Vec::new()), "[\"schedule\", \"product data\"]";
    }
}

/// What a reviewer answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReviewAnswer {
    /// The day it came back.
    pub back: Date,
    /// What he put on it.
    pub disposition: Disposition,
    /// Who he is.
    pub by: Option<String>,
    /// What he noted, each after a semicolon.
    pub note: Option<String>,
}

record! {
    /// A time that a transmittal was sent, and what came of it.
    pub struct RoundEntry as "round" blocks(packet, register) => Round[place] {
        /// Revision of the job that was sent.
        revision: Id, needed, "A";
        /// The day it was sent.
        sent: Date, needed, "2026-12-21";
        /// The day it came back.
        back: Date, apart, "2027-01-08";
        /// What the reviewer put on it, in the words of the owner's profile.
        disposition: Text, apart, "approved as noted";
        /// Who reviewed it.
        by: Text, apart, "Ostrey Lund Architects";
        /// What he noted.
        note: Text, apart, "Cylinder by the key shop";
        /// What he noted besides.
        notes: Vec<Text>, apart, "[\"Confirm the finish of the arms\"]";
    } with {
        /// What came back; none while the reviewer has it.
        answer: Option<ReviewAnswer>,
    }
}

record! {
    /// What goes to the reviewer under one section, and every time it went.
    pub struct TransmittalEntry as "transmittal" blocks(packet, register) called(section, number) => Transmittal[place] {
        /// The submittal, by id.
        submittal: Id, needed refers(submittal), "schedule";
        /// The section, by number.
        section: Text, needed refers(section), "08 71 13";
        /// Its number within the section.
        number: Id, needed, "3";
        /// What it is called; left out, as its submittal.
        title: Text, "Product data of raceway and wire";
        /// Each time it was sent, first to last.
        round: Vec<RoundEntry>, apart, "[{ revision = \"A\", sent = 2026-12-21 }]";
    } with {
        /// Each time it was sent, first to last.
        rounds: Vec<Round>,
    }
}
