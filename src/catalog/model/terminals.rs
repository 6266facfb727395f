//! Terminals, what is wired to them, and the colors of low-voltage conductors, as a whole.
//!
//! In: nothing. Out: plain types. May not know: how any of it was typed, or any job.

use std::collections::BTreeMap;

use crate::catalog::terminal_entries::*;
use crate::catalog::wired_words::*;

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
