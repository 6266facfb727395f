//! What a person types of editions of codes and standards: dated data that a job chooses from.
//!
//! In: nothing. Out: records that `input` fills, and the checked types that come of them. May not know: any job, or which check asks.

use crate::input::{Count, Date, Flag, Text, record, vocabulary};
use crate::measure::Length;

vocabulary! {
    /// What a clause is about. A check asks for the clauses of its own subject, whatever edition they stand in.
    pub enum ClauseOf {
        /// Clear width of an opening.
        ClearWidth = "clear width",
        /// Clear width of an opening deeper than 24 in.
        DeepClearWidth = "clear width, deep opening",
        /// Height of a threshold.
        Threshold = "threshold",
        /// Height of a beveled threshold at an opening that is there already.
        OldThreshold = "threshold, existing and beveled",
        /// Clear distance between doors in series, to which the width of each leaf that swings in is added.
        Series = "doors in series",
        /// Turning space that is to fit between doors in series.
        SeriesTurning = "turning space between doors",
        /// Head room under what hangs above a way.
        HeadRoom = "head room",
        /// Head room under closers and stops.
        CloserHeadRoom = "head room, closers and stops",
        /// Height of a device that is reached forward.
        ForwardReach = "forward reach",
        /// Height of a device that is reached sideways.
        SideReach = "side reach",
        /// How far something may stand out from a wall.
        WallProtrusion = "protrusion from a wall",
        /// How far something may stand out from a post.
        PostProtrusion = "protrusion from a post",
        /// Floor space before a device, outside of the swing.
        FloorSpace = "floor space at a device",
        /// Operable parts of devices.
        OperableParts = "operable parts",
        /// Changes of level in the floor: upright to `most`, beveled to `depth`.
        LevelChange = "changes of level",
        /// An alcove deeper than `depth` in which a device stands: its least width.
        Alcove = "alcove at a device",
        /// What stands within `depth` of the latch and out from the leaf's face by more than `most`.
        Recess = "recess beside the latch",
        /// What stands out into the way through an open leaf: nothing below `depth`, no more than `most` above it.
        Projection = "projections into the clear width",
        /// Maneuvering clearance of a power-assisted door, and of an automatic one.
        Maneuvering = "maneuvering clearance",
        /// Force that opens a door by hand, power off.
        PowerOffForce = "force by hand, power off",
        /// A door that works by power through an outage.
        StandbyPower = "standby power",
        /// An automatic door at a public entrance.
        AutomaticDoor = "automatic door at a public entrance",
        /// Disconnecting means.
        Disconnect = "disconnecting means",
        /// Distance of class 2 conductors from power conductors.
        ClassTwo = "class 2 separation",
        /// Cable in a ceiling that returns air.
        Plenum = "cable in a return-air space",
        /// Holes in studs: from the hole to the nearest edge.
        BoredFraming = "bored framing",
        /// Conductors in a raceway.
        Fill = "conduit fill",
        /// How equipment grounds count in a box.
        BoxFill = "box fill",
        /// Holes drilled on site in a labeled leaf.
        FireHoles = "holes in a labeled leaf" or "holes in a labelled leaf",
        /// Gaps around a labeled leaf.
        FireGaps = "gaps of a labeled leaf" or "gaps of a labelled leaf",
        /// A strike of a labeled opening, power off.
        FireStrike = "strike of a labeled opening" or "strike of a labelled opening",
        /// Rails that guard the swing of a full-energy leaf, and its finger guards.
        Rails = "guide rails and finger guards",
        /// Signs on a powered leaf.
        Signs = "signs",
        /// Distance of a knowing act from the leaf.
        KnowingAct = "place of a knowing act",
        /// How long a leaf stays open for a device that is further off.
        HoldOpen = "hold-open time",
    }
}

vocabulary! {
    /// How well the words of a clause are known to the one who typed them.
    pub enum ClauseKnown {
        /// The text itself, or its publisher's page, was read.
        Read = "read",
        /// A page that quotes it was read.
        Secondary = "secondary",
        /// From memory.
        Memory = "memory",
    }
}

vocabulary! {
    /// The way a person comes to a leaf.
    pub enum Approach {
        /// Straight to it.
        Front = "front",
        /// Along the wall, from the hinge side.
        Hinge = "hinge side",
        /// Along the wall, from the latch side.
        Latch = "latch side",
    }
}

vocabulary! {
    /// A side of a leaf.
    pub enum LeafFace {
        /// The side it swings away from.
        Push = "push side",
        /// The side it swings toward.
        Pull = "pull side",
    }
}

vocabulary! {
    /// What a leaf must have for a clearance to grow.
    pub enum MoreWhen {
        /// A closer.
        Closer = "closer",
        /// A closer and a latch.
        CloserAndLatch = "closer and latch",
    }
}

record! {
    /// A clause, and the length it asks for where it asks for one.
    pub struct ClauseEntry as "clause" => Clause {
        /// What it is about.
        of: ClauseOf, needed, "clear width";
        /// Not less.
        least: Length, "32 in";
        /// Not more.
        most: Length, "1/2 in";
        /// It goes up to this depth of what is reached over.
        depth: Length, "20 in";
        /// Its number.
        number: Text, needed, "404.2.3";
        /// How well its words are known.
        known: ClauseKnown, needed, "read";
    }
}

record! {
    /// A row of the maneuvering clearances. Two rows of one approach and side are alternatives.
    pub struct ManeuverEntry as "maneuver" => Maneuver {
        /// The way a person comes.
        approach: Approach, needed, "front";
        /// The side of the leaf.
        side: LeafFace, needed, "pull side";
        /// Depth, perpendicular to the wall.
        deep: Length, needed, "60 in";
        /// Width beyond the latch; on the push side of a hinge approach, beyond the hinge.
        beyond: Length, needed, "18 in";
        /// What is added to the depth.
        more_deep: Length, default(Length::ZERO), "6 in";
        /// What is added beyond.
        more_beyond: Length, default(Length::ZERO), "12 in";
        /// When it is added.
        more_when: MoreWhen, "closer and latch";
        /// What is added beyond on the exterior side of an exterior door.
        exterior_beyond: Length, default(Length::ZERO), "6 in";
        /// Its clause.
        number: Text, needed, "404.2.4.1";
    }
}

record! {
    /// When a public entrance needs an automatic door.
    pub struct TriggerEntry as "trigger" => Trigger {
        /// Use groups.
        groups: Vec<Text>, needed default(Vec::new()), "[\"B\", \"M\", \"R-1\"]";
        /// Occupant load above which it does.
        above: Count, needed, ["0" to "500000"], "500";
    }
}

record! {
    /// An edition of a code or standard. A job names those it is reviewed against in `rules`.
    pub struct EditionEntry as "edition" => Edition[place] {
        /// Its name, as findings cite it.
        name: Text, needed, "ADA 2010";
        /// Its date.
        date: Date, needed, "2010-09-15";
        /// Where it was read.
        source: Text, needed, "access-board.gov/ada";
        /// Whether the clear width counts one leaf alone; left out, all leaves that open.
        one_leaf: Flag, default(false), "true";
        /// Grounds in a box that count as one; each further counts a quarter. Left out, all count as one.
        grounds_as_one: Count, ["0" to "99"], "4";
        /// Clauses.
        clause: Vec<ClauseEntry>, apart, "";
        /// Maneuvering clearances.
        maneuver as maneuvers: Vec<ManeuverEntry>, "";
        /// Automatic doors at public entrances, by use and occupant load.
        trigger as triggers: Vec<TriggerEntry>, "";
    } with {
        /// Id.
        id: String,
        /// Clauses whose limits can be read.
        clauses: Vec<Clause>,
    }
}

impl Edition {
    /// A clause as findings cite it: edition, number, and how well it is known where that is not by reading it.
    pub fn cite(&self, number: &str, known: ClauseKnown) -> String {
        match known {
            ClauseKnown::Read => format!("{} {number}", self.name),
            ClauseKnown::Secondary => format!("{} {number} (secondary)", self.name),
            ClauseKnown::Memory => format!("{} {number} (from memory)", self.name),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Raw, read_word};

    /// Editions typed before the words were spelled as the papers are.
    #[test]
    fn british_spellings_are_still_read() {
        for (typed, word) in [
            ("holes in a labelled leaf", "holes in a labeled leaf"),
            ("gaps of a labelled leaf", "gaps of a labeled leaf"),
            ("strike of a labelled opening", "strike of a labeled opening"),
        ] {
            assert_eq!(read_word::<ClauseOf>(Raw::Text(typed)).map(ClauseOf::word).ok(), Some(word));
        }
    }
}
