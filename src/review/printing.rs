//! Forces, torques, times and energies as findings name them, in the units of the job.
//!
//! In: measures. Out: texts. May not know: any check.

use super::contexts::OpeningContext;
use crate::job::PrintUnits;
use crate::measure::{Duration, Energy, Force, Measure, Style, Torque, Unit};

/// One measure less another: by how much something fails.
pub(super) fn less<M: Measure + Default>(from: M, take: M) -> M {
    // Two of one type have one dimension, so there is always a difference.
    from.quantity().minus(take.quantity()).ok().and_then(M::of).unwrap_or_default()
}

impl OpeningContext<'_> {
    fn unit(&self, inch: Unit, metric: Unit) -> Unit {
        match self.job.head.units {
            PrintUnits::Inch => inch,
            PrintUnits::Mm => metric,
        }
    }

    /// A force, to a tenth.
    pub fn force(&self, force: Force) -> String {
        // The units below measure what they print, so there is always a text.
        force.print(self.unit(Unit::PoundForce, Unit::Newton), 1, Style::Plain).unwrap_or_default()
    }

    /// A torque, to a tenth.
    pub fn torque(&self, torque: Torque) -> String {
        torque.print(self.unit(Unit::PoundForceFoot, Unit::NewtonMetre), 1, Style::Plain).unwrap_or_default()
    }

    /// An energy, to a hundredth.
    pub fn energy(&self, energy: Energy) -> String {
        energy.print(self.unit(Unit::PoundForceFoot, Unit::Joule), 2, Style::Plain).unwrap_or_default()
    }

    /// A time in seconds, to a tenth.
    pub fn time(&self, time: Duration) -> String {
        time.print(Unit::Second, 1, Style::Plain).unwrap_or_default()
    }
}
