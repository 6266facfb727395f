//! What a person types of terminals, of what is wired to them, and of the colors of low-voltage conductors: field tables.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: whether references hold, or any job.

use std::collections::BTreeMap;

use super::wired_words::*;
use crate::input::{Count, Id, Text, record};

record! {
    /// What one operator calls a terminal, where it is not called as on the others.
    pub struct TerminalOnEntry as "terminal on" blocks(drawings, submittal) => TerminalOn {
        /// The operator, by id.
        operator: Id, needed refers(operator), "surf-low";
        /// Its name there.
        name: Text, needed, "START OUTSIDE";
    }
}

record! {
    /// A terminal at the header, by a name of our own.
    pub struct TerminalEntry as "terminal" blocks(drawings, submittal) => Terminal[place] {
        /// Its name, as it is printed.
        name: Text, needed, "OPEN OUTSIDE";
        /// What it is, for the list of terminals.
        says: Text, needed, "input: a closed contact opens the leaf, from outside";
        /// Operators on which it has another name.
        other: Vec<TerminalOnEntry>, "[{ operator = \"surf-full\", name = \"START OUTSIDE\" }]";
    }
}

impl Terminal {
    /// What an operator calls it.
    pub fn name_on(&self, operator: Option<&str>) -> &str {
        self.other.iter().rev().find(|on| operator == Some(&on.operator)).map_or(&self.name, |on| &on.name)
    }
}

record! {
    /// A conductor: from which terminal of what is wired, what it is for, and to which terminal at the header.
    pub struct TerminatedWireEntry as "wire" blocks(drawings, submittal) => TerminatedWire {
        /// The terminal or lead where it starts.
        from: Text, needed, "contact";
        /// What it is for.
        role: ConductorRole, needed, "contact";
        /// The terminal at the header, by id.
        to: Id, needed refers(terminal), "open-outside";
        /// The terminal for a device on the inside; left out, the same.
        inside: Id, refers(terminal), "open-inside";
        /// Its color, where it is not a conductor of our cable.
        color: Text, "by vendor";
    }
}

record! {
    /// How something is terminated at the header, conductor by conductor.
    pub struct TerminationEntry as "termination" blocks(drawings, submittal) => Termination[place] {
        /// What is wired, in plain words.
        name: Text, needed, "push plate, bar or button";
        /// Kinds of devices that are wired like this.
        devices: Vec<DeviceKind>, "[\"push plate\", \"desk button\"]";
        /// How these devices reach the operator; left out, by cable. By radio it is the receiver that is wired.
        link: Link, default(Link::Wired), "wireless";
        /// Releases that are wired like this.
        releases: Vec<Release>, "[\"electric strike\"]";
        /// What else is wired like this.
        systems: Vec<WiredSystem>, "[\"fire alarm\"]";
        /// What the conductors are, where they are not of a cable that is taken off.
        conductor: Text, "by the fire alarm vendor";
        /// Its conductors, in the order in which they are landed.
        wire: Vec<TerminatedWireEntry>, apart needed, "[{ from = \"contact\", role = \"contact\", to = \"open-outside\" }]";
    } with {
        /// Id.
        id: String,
        /// Its conductors.
        wires: Vec<TerminatedWire>,
    }
}

record! {
    /// Colors of conductors by what they are for.
    pub struct CableColorEntry as "cable color" blocks(drawings, submittal) {
        /// Of the conductor that brings power.
        positive: Text, "red";
        /// Of the one that takes it back.
        negative: Text, "black";
        /// Of the one that tells of a contact.
        contact: Text, "white";
        /// Of the one that tells it the other way.
        return_contact: Text, "red";
        /// Of the other side of the contacts.
        common: Text, "green";
    }
}

record! {
    /// A low-voltage cable, by its gauge: the colors of its conductors and what becomes of its shield.
    pub struct CableEntry as "cable" blocks(drawings, submittal) => CableColors[place] {
        /// Gauges that it is for; left out, harnesses and cables of every other gauge.
        awg: Vec<Count>, ["0" to "40"], "[22]";
        /// Colors of its conductors.
        color: CableColorEntry, apart needed, "{ positive = \"red\", negative = \"black\" }";
        /// Where its shield is landed.
        shield: Text, "to GROUND at the header only";
    } with {
        /// Id.
        id: String,
        /// Colors by role.
        colors: BTreeMap<ConductorRole, String>,
    }
}
