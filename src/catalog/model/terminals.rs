//! Terminals, what is wired to them, and the colors of low-voltage conductors.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed, or any job.

use std::collections::BTreeMap;

use crate::catalog::wired_words::*;
use crate::findings::Place;

/// A terminal at the header.
#[derive(Clone, Debug)]
pub struct Terminal {
    /// Its name.
    pub name: String,
    /// What it is.
    pub says: String,
    /// Its name on operators that call it otherwise, by their ids.
    pub other: BTreeMap<String, String>,
    /// Where it stands.
    pub place: Place,
}

impl Terminal {
    /// What an operator calls it.
    pub fn name_on(&self, operator: Option<&str>) -> &str {
        operator.and_then(|id| self.other.get(id)).unwrap_or(&self.name)
    }
}

/// A conductor between what is wired and the header.
#[derive(Clone, Debug)]
pub struct TerminatedWire {
    /// The terminal where it starts.
    pub from: String,
    /// What it is for.
    pub role: ConductorRole,
    /// Id of the terminal at the header.
    pub to: String,
    /// Id of the terminal for a device on the inside, where it is another.
    pub inside: Option<String>,
    /// Its color, where it is no conductor of our cable.
    pub color: Option<String>,
}

/// How something is terminated.
#[derive(Clone, Debug)]
pub struct Termination {
    /// Id.
    pub id: String,
    /// What is wired.
    pub name: String,
    /// Kinds of devices.
    pub devices: Vec<DeviceKind>,
    /// How these devices reach the operator.
    pub link: Link,
    /// Releases.
    pub releases: Vec<Release>,
    /// What else.
    pub systems: Vec<WiredSystem>,
    /// What its conductors are, where they are of no cable that is taken off.
    pub conductor: Option<String>,
    /// Its conductors.
    pub wires: Vec<TerminatedWire>,
    /// Where it stands.
    pub place: Place,
}

/// Colors of the conductors of a cable.
#[derive(Clone, Debug)]
pub struct CableColors {
    /// Id.
    pub id: String,
    /// Gauges; none for harnesses and every other gauge.
    pub awg: Vec<u32>,
    /// Colors by role.
    pub colors: BTreeMap<ConductorRole, String>,
    /// Where its shield is landed.
    pub shield: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// Everything that is said of terminations.
#[derive(Clone, Debug, Default)]
pub struct Terminals {
    /// Terminals, by id.
    pub terminals: BTreeMap<String, Terminal>,
    /// Terminations, in order of their ids.
    pub terminations: Vec<Termination>,
    /// Cables, in order of their ids.
    pub cables: Vec<CableColors>,
    /// Whether some of it was refused: then nothing may be called missing.
    pub refused: bool,
}

impl Terminals {
    /// How a device is terminated.
    pub fn of_device(&self, kind: DeviceKind, link: Link) -> Option<&Termination> {
        self.terminations.iter().find(|it| it.link == link && it.devices.contains(&kind))
    }

    /// How a release is terminated.
    pub fn of_release(&self, release: Release) -> Option<&Termination> {
        self.terminations.iter().find(|it| it.releases.contains(&release))
    }

    /// How a system is terminated.
    pub fn of_system(&self, system: WiredSystem) -> Option<&Termination> {
        self.terminations.iter().find(|it| it.systems.contains(&system))
    }

    /// The colors of a cable of a gauge, or of a harness.
    pub fn cable(&self, awg: Option<u32>) -> Option<&CableColors> {
        let own = awg.and_then(|awg| self.cables.iter().find(|it| it.awg.contains(&awg)));
        own.or_else(|| self.cables.iter().find(|it| it.awg.is_empty()))
    }
}
