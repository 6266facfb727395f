//! Trade sizes of raceways and the holes their connectors need.
//!
//! In: a trade size, the free face of a header. Out: hole and margin. May not know: which header.

use crate::measure::Length;

/// A trade size of raceway; a name, not a measure of anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TradeSize {
    /// 3/8, flexible only.
    ThreeEighths,
    /// 1/2.
    Half,
    /// 3/4.
    ThreeQuarter,
    /// 1.
    One,
    /// 1 1/4.
    OneAndQuarter,
    /// 1 1/2.
    OneAndHalf,
    /// 2.
    Two,
}

impl TradeSize {
    /// All sizes, rising.
    pub const ALL: [TradeSize; 7] = [
        TradeSize::ThreeEighths,
        TradeSize::Half,
        TradeSize::ThreeQuarter,
        TradeSize::One,
        TradeSize::OneAndQuarter,
        TradeSize::OneAndHalf,
        TradeSize::Two,
    ];

    /// The designator as written.
    pub fn word(self) -> &'static str {
        match self {
            TradeSize::ThreeEighths => "3/8",
            TradeSize::Half => "1/2",
            TradeSize::ThreeQuarter => "3/4",
            TradeSize::One => "1",
            TradeSize::OneAndQuarter => "1 1/4",
            TradeSize::OneAndHalf => "1 1/2",
            TradeSize::Two => "2",
        }
    }

    /// The size of a designator; `1-1/4` is read too, and an `in` behind it.
    pub fn parse(word: &str) -> Option<TradeSize> {
        let word = word.trim().trim_end_matches("in").trim_end().replace('-', " ");
        TradeSize::ALL.into_iter().find(|size| size.word() == word)
    }
}

/// The hole that a connector needs: 1/2 takes 7/8 in, 3/4 takes 1 1/8 in, 1 takes 1 3/8 in (knockout sizes, from
/// memory). Nothing for other sizes.
pub fn hole(size: TradeSize) -> Option<Length> {
    let eighths = match size {
        TradeSize::Half => 7,
        TradeSize::ThreeQuarter => 9,
        TradeSize::One => 11,
        _ => return None,
    };
    Some(Length::sixty_fourths(eighths * 8))
}

/// A hole in a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Entry {
    /// Diameter of the hole.
    pub hole: Length,
    /// What the free face has more than the hole; below zero the hole does not fit.
    pub margin: Length,
}

impl Entry {
    /// Whether the hole lies within the free face.
    pub fn fits(self) -> bool {
        !self.margin.is_negative()
    }
}

/// The hole of a connector in a header whose face is free over `free_face`, the smaller of its height and length. The
/// locknut needs more than the hole, so a small margin is a check for the site. Nothing for a size without a known hole.
pub fn entry(size: TradeSize, free_face: Length) -> Option<Entry> {
    hole(size).map(|hole| Entry { hole, margin: free_face - hole })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_larger_raceway_outgrows_the_hole_of_a_smaller_one() {
        // Knockout sizes, from memory.
        assert_eq!(hole(TradeSize::Half), Some(Length::sixty_fourths(56)));
        let entry_of = |size| entry(size, Length::sixty_fourths(56)).unwrap();
        assert!(entry_of(TradeSize::Half).fits());
        assert_eq!(entry_of(TradeSize::ThreeQuarter).margin, Length::sixty_fourths(-16));
        assert!(!entry_of(TradeSize::ThreeQuarter).fits());
        assert_eq!(entry(TradeSize::Two, Length::inches(6)), None);
    }

    #[test]
    fn designators_lead_back() {
        for size in TradeSize::ALL {
            assert_eq!(TradeSize::parse(size.word()), Some(size));
        }
        assert_eq!(TradeSize::parse("1-1/4 in"), Some(TradeSize::OneAndQuarter));
        assert_eq!(TradeSize::parse("5/8"), None);
    }
}
