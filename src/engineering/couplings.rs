//! Couplings of conduit.
//!
//! In: the length of a run, that of a stick. Out: counts. May not know: cut lists: conduit is coupled, not cut to least bars.

use crate::measure::Length;

/// Couplings of one run: one for every full stick in it, `floor(run / stick)`. A run of exactly so many sticks has one joint
/// less; the coupling over is there for a run that starts with an offcut. None where the stick has no length. Common
/// practice, no source.
pub fn couplings(run: Length, stick: Length) -> Option<i64> {
    if stick <= Length::ZERO {
        return None;
    }
    Some(run.to_nanometres().max(0) / stick.to_nanometres())
}

#[cfg(test)]
mod tests {
    use super::*;

    const STICK: Length = Length::feet(10);

    /// Joints of a run laid from whole sticks are one less than its sticks; the count is never below them.
    #[test]
    fn couplings_cover_the_joints() {
        for (feet, count) in [(0, 0), (9, 0), (10, 1), (11, 1), (12, 1), (30, 3), (38, 3)] {
            assert_eq!(couplings(Length::feet(feet), STICK), Some(count), "{feet} ft");
        }
        for inches in 1..1_200 {
            let run = Length::inches(inches);
            let joints = run.pieces_of(STICK).unwrap() - 1;
            assert!((joints..=joints + 1).contains(&couplings(run, STICK).unwrap()), "{inches} in");
        }
        assert_eq!(couplings(Length::feet(3), Length::ZERO), None);
    }
}
