//! The hand of a leaf, from how it hangs and where the observer stands.
//!
//! In: three facts: which side is the outside, hinge edge seen from there, swing. Out: LH, RH, LHR or RHR.
//! May not know: operators, headers; how a hand is drawn.
//!
//! The plan: the wall lies on the x axis, the opening from its first end at x = 0 to its second end at x = width; the
//! first room lies at y < 0, the second at y > 0. An observer in the first room looks along +y and has the first end at
//! his left.

/// One of the two rooms at an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Room {
    /// The room at y < 0.
    First,
    /// The room at y > 0.
    Second,
}

impl Room {
    /// Both rooms.
    pub const ALL: [Room; 2] = [Room::First, Room::Second];

    /// The room on the other side of the wall.
    pub fn other(self) -> Room {
        match self {
            Room::First => Room::Second,
            Room::Second => Room::First,
        }
    }

    /// The sign of y in this room.
    pub fn sign(self) -> i64 {
        match self {
            Room::First => -1,
            Room::Second => 1,
        }
    }

    /// The end of the opening that an observer in this room has at the given hand.
    pub fn end_at(self, edge: Edge) -> PlanEnd {
        match (self, edge) {
            (Room::First, Edge::Left) | (Room::Second, Edge::Right) => PlanEnd::First,
            (Room::First, Edge::Right) | (Room::Second, Edge::Left) => PlanEnd::Second,
        }
    }

    /// At which hand an observer in this room has an end of the opening.
    pub fn edge_of(self, end: PlanEnd) -> Edge {
        if self.end_at(Edge::Left) == end { Edge::Left } else { Edge::Right }
    }
}

/// One of the two ends of an opening in the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlanEnd {
    /// x = 0.
    First,
    /// x = width.
    Second,
}

/// Left or right, as seen by an observer who faces the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edge {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Edge {
    /// Both edges.
    pub const ALL: [Edge; 2] = [Edge::Left, Edge::Right];

    /// The other edge.
    pub fn other(self) -> Edge {
        match self {
            Edge::Left => Edge::Right,
            Edge::Right => Edge::Left,
        }
    }
}

/// Where the leaf goes, as seen by an observer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Swing {
    /// Toward the observer.
    Toward,
    /// Away from the observer.
    Away,
}

impl Swing {
    /// Both swings.
    pub const ALL: [Swing; 2] = [Swing::Toward, Swing::Away];
}

/// The hand of a leaf, as the trade writes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// Left hand: hinges left, swings away.
    Lh,
    /// Right hand: hinges right, swings away.
    Rh,
    /// Left hand reverse: hinges left, swings toward.
    Lhr,
    /// Right hand reverse: hinges right, swings toward.
    Rhr,
}

impl Hand {
    /// All four hands.
    pub const ALL: [Hand; 4] = [Hand::Lh, Hand::Rh, Hand::Lhr, Hand::Rhr];

    /// The hand of the facts as seen from the outside (dimensions.com/element/door-hand-conventions). Some pages state
    /// the opposite sense of swing; that is why the facts are kept and the letters follow.
    pub fn of(hinges: Edge, swing: Swing) -> Hand {
        match (hinges, swing) {
            (Edge::Left, Swing::Away) => Hand::Lh,
            (Edge::Right, Swing::Away) => Hand::Rh,
            (Edge::Left, Swing::Toward) => Hand::Lhr,
            (Edge::Right, Swing::Toward) => Hand::Rhr,
        }
    }

    /// Hinge edge and swing, as seen from the outside.
    pub fn facts(self) -> (Edge, Swing) {
        match self {
            Hand::Lh => (Edge::Left, Swing::Away),
            Hand::Rh => (Edge::Right, Swing::Away),
            Hand::Lhr => (Edge::Left, Swing::Toward),
            Hand::Rhr => (Edge::Right, Swing::Toward),
        }
    }

    /// The letters.
    pub fn letters(self) -> &'static str {
        match self {
            Hand::Lh => "LH",
            Hand::Rh => "RH",
            Hand::Lhr => "LHR",
            Hand::Rhr => "RHR",
        }
    }

    /// The hand of the letters, in either case.
    pub fn parse(letters: &str) -> Option<Hand> {
        Hand::ALL.into_iter().find(|hand| hand.letters().eq_ignore_ascii_case(letters.trim()))
    }
}

/// How a leaf hangs in the plan, whoever looks at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hang {
    /// The end of the opening (of the leaf's own part, in a pair) at which its hinges are.
    pub hinges: PlanEnd,
    /// The room it swings into: its pull side.
    pub into: Room,
}

impl Hang {
    /// The hang of a leaf described by an observer in `from`.
    pub fn seen_from(from: Room, hinges: Edge, swing: Swing) -> Hang {
        let into = if swing == Swing::Toward { from } else { from.other() };
        Hang { hinges: from.end_at(hinges), into }
    }

    /// The hand of the leaf where `outside` is the outside.
    pub fn hand(self, outside: Room) -> Hand {
        let swing = if self.into == outside { Swing::Toward } else { Swing::Away };
        Hand::of(outside.edge_of(self.hinges), swing)
    }

    /// The hand of a leaf of a double egress pair, read from the side it swings toward (common practice, no source), so
    /// that both leaves are LHR or both are RHR.
    pub fn hand_in_double_egress(self) -> Hand {
        self.hand(self.into)
    }

    /// The hang in the mirror image of the plan.
    pub fn mirrored(self) -> Hang {
        let hinges = if self.hinges == PlanEnd::First { PlanEnd::Second } else { PlanEnd::First };
        Hang { hinges, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Hand {
        /// The same leaf called from its other side: LH and RHR, RH and LHR.
        fn called_from_other_side(self) -> Hand {
            let (hinges, swing) = self.facts();
            let swing = if swing == Swing::Toward { Swing::Away } else { Swing::Toward };
            Hand::of(hinges.other(), swing)
        }
    }

    fn all_hangs() -> impl Iterator<Item = Hang> {
        [PlanEnd::First, PlanEnd::Second].into_iter().flat_map(|hinges| Room::ALL.map(|into| Hang { hinges, into }))
    }

    #[test]
    fn the_hand_is_the_published_table() {
        // dimensions.com/element/door-hand-conventions, engineerfix.com how-to-determine-the-handing.
        let table = [
            (Edge::Left, Swing::Away, "LH"),
            (Edge::Right, Swing::Away, "RH"),
            (Edge::Left, Swing::Toward, "LHR"),
            (Edge::Right, Swing::Toward, "RHR"),
        ];
        for outside in Room::ALL {
            for (hinges, swing, letters) in table {
                let hand = Hang::seen_from(outside, hinges, swing).hand(outside);
                assert_eq!(hand.letters(), letters);
                assert_eq!(hand.facts(), (hinges, swing));
                assert_eq!(Hand::parse(letters), Some(hand));
            }
        }
        assert_eq!(Hand::parse("LHB"), None);
    }

    #[test]
    fn the_other_side_and_the_mirror_change_the_letters_as_they_must() {
        for hang in all_hangs() {
            for outside in Room::ALL {
                let hand = hang.hand(outside);
                assert_eq!(hang.hand(outside.other()), hand.called_from_other_side());
                let (hinges, swing) = hand.facts();
                assert_eq!(hang.mirrored().hand(outside), Hand::of(hinges.other(), swing));
            }
        }
        let pairs = [(Hand::Lh, Hand::Rhr), (Hand::Rh, Hand::Lhr)];
        for (one, other) in pairs {
            assert_eq!((one.called_from_other_side(), other.called_from_other_side()), (other, one));
        }
    }

    #[test]
    fn leaves_of_a_double_egress_have_one_hand() {
        for hang in all_hangs() {
            let hinges = if hang.hinges == PlanEnd::First { PlanEnd::Second } else { PlanEnd::First };
            let other = Hang { hinges, into: hang.into.other() };
            let hands = (hang.hand_in_double_egress(), other.hand_in_double_egress());
            assert!(matches!(hands, (Hand::Lhr, Hand::Lhr) | (Hand::Rhr, Hand::Rhr)), "{hands:?}");
        }
    }
}
