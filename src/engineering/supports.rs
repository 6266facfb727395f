//! How many supports a raceway needs.
//!
//! In: lengths between terminations. Out: counts. May not know: what the supports are fixed to.

use crate::measure::Length;

/// A kind of raceway by how it is supported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Raceway {
    /// Electrical metallic tubing: within 3 ft of each termination and every 10 ft, NEC 358.30(A)
    /// (forums.mikeholt.com/threads/code-for-straping-emt-and-rigid-from-box-and-coupling.89973, secondary).
    Emt,
    /// Flexible metal conduit, dry or liquidtight: within 12 in of each termination and every 4 1/2 ft, NEC 348.30(A)
    /// (ecmweb.com/nec/2014-national-electrical-code-changes, secondary) and 350.30(A) (from memory).
    Flexible,
}

impl Raceway {
    /// Longest distance from a termination, and between supports.
    pub fn distances(self) -> (Length, Length) {
        match self {
            Raceway::Emt => (Length::feet(3), Length::feet(10)),
            Raceway::Flexible => (Length::feet(1), Length::inches(54)),
        }
    }
}

/// Supports between two terminations: one if it can stand within reach of both ends, else one more for every started
/// spacing of what is left: EMT `1 + ceil((L - 6 ft) / 10 ft)`, flexible `1 + ceil((L - 2 ft) / 4.5 ft)`. None for no
/// length. Derived from the distances of [`Raceway`].
pub fn supports_between(length: Length, raceway: Raceway) -> i64 {
    if length <= Length::ZERO {
        return 0;
    }
    let (end, spacing) = raceway.distances();
    // A spacing above zero always gives a count.
    1 + (length - end * 2).pieces_of(spacing).unwrap_or(0)
}

/// Supports of a run of which only the total length and the number of pull boxes are known: a pull box adds two
/// terminations, and the boxes are taken to divide the run evenly.
pub fn supports_with_pull_boxes(total: Length, pull_boxes: u32, raceway: Raceway) -> i64 {
    let parts = i64::from(pull_boxes) + 1;
    // The part is rounded up to the next nanometre, so that no support is lost.
    let part = Length::nanometres((total.to_nanometres() + parts - 1).div_euclid(parts));
    parts * supports_between(part, raceway)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_follow_the_distances() {
        // Arithmetic on the distances of the code sections named at `Raceway`.
        let emt = [(0, 0), (1, 1), (6, 1), (7, 2), (16, 2), (17, 3), (38, 5)];
        for (feet, count) in emt {
            assert_eq!(supports_between(Length::feet(feet), Raceway::Emt), count, "EMT {feet} ft");
        }
        let flexible = [(12, 1), (24, 1), (25, 2), (78, 2), (79, 3), (72, 2)];
        for (inches, count) in flexible {
            assert_eq!(supports_between(Length::inches(inches), Raceway::Flexible), count, "flexible {inches} in");
        }
    }

    /// Puts the supports as far apart as the distances allow and looks whether the count reaches from end to end, and
    /// whether one less would not.
    #[test]
    fn the_count_reaches_and_one_less_does_not() {
        for raceway in [Raceway::Emt, Raceway::Flexible] {
            let (end, spacing) = raceway.distances();
            for inches in 1..1_200 {
                let length = Length::inches(inches);
                let count = supports_between(length, raceway);
                let reach = |count: i64| if count == 0 { Length::ZERO } else { end * 2 + spacing * (count - 1) };
                assert!(reach(count) >= length, "{raceway:?} {inches}");
                assert!(reach(count - 1) < length, "{raceway:?} {inches}");
            }
        }
    }

    #[test]
    fn a_pull_box_adds_two_terminations() {
        assert_eq!(supports_with_pull_boxes(Length::feet(12), 0, Raceway::Emt), 2);
        assert_eq!(supports_with_pull_boxes(Length::feet(12), 1, Raceway::Emt), 2);
        assert_eq!(supports_with_pull_boxes(Length::feet(38), 1, Raceway::Emt), 6);
        assert_eq!(supports_with_pull_boxes(Length::ZERO, 2, Raceway::Emt), 0);
    }
}
