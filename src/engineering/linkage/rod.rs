//! The rod of a push arm: how long it has to be for the reveal, and what comes off it.
//!
//! In: a push arm at a measured reveal, rods as delivered. Out: the rod to take and the cut, rounded up to a step: what is
//! too long can be cut again. May not know: which end is kept; that is data of the operator.

use super::super::safe_rounding::length_up;
use super::place::PushArm;
use crate::measure::Length;

/// A rod and its cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RodCut {
    /// The length delivered.
    pub stock: Length,
    /// The length it needs, center to center, up to the step.
    pub needed: Length,
    /// What comes off; none where it fits as delivered.
    pub off: Length,
}

/// Why no rod fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RodFault {
    /// The longest rod is too short.
    Short {
        /// The length it needs.
        needed: Length,
        /// The longest delivered.
        longest: Length,
    },
    /// The rod would have to be shorter than it can be cut.
    Stub {
        /// The length it needs.
        needed: Length,
        /// The shortest it may be.
        shortest: Length,
    },
    /// The arm has no geometry: a length is missing or none.
    NoGeometry,
}

impl PushArm {
    /// The rod to take, the shortest delivered that is long enough, and its cut. Length by the position in which the main
    /// arm is fitted: `|B - S - a e(θ)|` (plane geometry), up to `step`.
    ///
    /// # Errors
    /// A [`RodFault`] where no rod can be cut to it.
    pub fn rod(&self, stock: &[Length], shortest: Length, step: Length) -> Result<RodCut, RodFault> {
        let exact = self.lever().map(|lever| lever.rod).ok_or(RodFault::NoGeometry)?;
        let needed = length_up(exact, step).ok_or(RodFault::NoGeometry)?;
        if needed < shortest {
            return Err(RodFault::Stub { needed, shortest });
        }
        let longest = stock.iter().copied().max().unwrap_or(Length::ZERO);
        let rod = stock.iter().copied().filter(|it| *it >= needed).min().ok_or(RodFault::Short { needed, longest })?;
        Ok(RodCut { stock: rod, needed, off: rod - needed })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Angle;

    const STEP: Length = Length::sixty_fourths(4);

    /// The worked arm of `linkage_tests`: spindle (9, 4), pin (25, 1.5), arm 13.5 at 75°, rod 19.9472 in.
    fn arm(reveal: Length) -> PushArm {
        PushArm {
            spindle_along: Length::inches(9),
            spindle_out: Length::inches(1),
            pin_along: Length::inches(25),
            pin_out: Length::ZERO,
            main: Length::sixty_fourths(13 * 64 + 32),
            shut: Angle::degrees(75),
            axis_to_face: Length::sixty_fourths(96),
            reveal,
        }
    }

    #[test]
    fn the_rod_is_cut_from_the_shortest_that_is_long_enough() {
        let worked = arm(Length::sixty_fourths(96));
        let cut = worked.rod(&[18, 22, 26].map(Length::inches), Length::inches(8), STEP).unwrap();
        // 19.9472 in, up to the sixteenth: 19 15/16 in is 19.9375, so 20 in; 2 in come off 22 in.
        assert_eq!((cut.stock, cut.needed, cut.off), (Length::inches(22), Length::inches(20), Length::inches(2)));
        let short = worked.rod(&[Length::inches(18)], Length::inches(8), STEP);
        assert_eq!(short, Err(RodFault::Short { needed: Length::inches(20), longest: Length::inches(18) }));
        let stub = worked.rod(&[Length::inches(22)], Length::inches(21), STEP);
        assert_eq!(stub, Err(RodFault::Stub { needed: Length::inches(20), shortest: Length::inches(21) }));
    }

    /// A deeper reveal puts the spindle further from the leaf, and with the main arm past square to it the elbow too.
    #[test]
    fn the_rod_grows_with_the_reveal() {
        let needed = |inches: i64| {
            arm(Length::inches(inches)).rod(&[Length::inches(60)], Length::inches(2), STEP).unwrap().needed
        };
        let lengths: Vec<Length> = (0..12).map(needed).collect();
        assert!(lengths.windows(2).all(|two| two[0] < two[1]), "{lengths:?}");
    }
}
