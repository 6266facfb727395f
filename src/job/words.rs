//! The words an opening may be described with: one closed list each.
//!
//! In: nothing. Out: enums with the word a person types and one line of help each, listed by `vocabularies()`.
//! May not know: how many openings use which.

use crate::input::vocabulary;

pub use crate::catalog::{
    Approach, Arm, DeviceKind, EnergyClass, FailState, LeafMade, Link, Mount, Release, Substrate,
};

vocabulary! {
    /// The edge of the leaf that hangs, seen from the outside.
    pub enum HingeEdge {
        /// Hinges at the left.
        Left = "left",
        /// Hinges at the right.
        Right = "right",
    }
}

vocabulary! {
    /// Which way the leaf swings, seen from the outside.
    pub enum Swing {
        /// Toward whoever stands outside.
        Toward = "toward",
        /// Away from whoever stands outside.
        Away = "away",
    }
}

vocabulary! {
    /// The hand, as letters on a schedule; compared with the one that follows from the facts.
    pub enum HandLetters {
        /// Left hand: hinges left, swings away.
        Lh = "LH",
        /// Right hand: hinges right, swings away.
        Rh = "RH",
        /// Left hand reverse: hinges left, swings toward.
        Lhr = "LHR",
        /// Right hand reverse: hinges right, swings toward.
        Rhr = "RHR",
    }
}

vocabulary! {
    /// How a leaf hangs.
    pub enum Hanging {
        /// Butt hinges.
        Butt = "butt hinge",
        /// A continuous hinge.
        Continuous = "continuous hinge",
        /// Pivots set off from the leaf's face.
        OffsetPivot = "offset pivot",
        /// Pivots in the middle of the leaf's thickness.
        CenterPivot = "center pivot",
    }
}

vocabulary! {
    /// The part a leaf plays in a pair.
    pub enum LeafRole {
        /// Opens first, and alone in daily use.
        Active = "active",
        /// Held by bolts until wanted.
        Inactive = "inactive",
    }
}

vocabulary! {
    /// What stops the leaf at its open angle.
    pub enum StoppedBy {
        /// The drive's own stop.
        Drive = "drive",
        /// An overhead stop.
        Overhead = "overhead stop",
        /// A stop on the floor.
        Floor = "floor stop",
        /// A stop on the wall.
        Wall = "wall stop",
    }
}

vocabulary! {
    /// What latches or locks a leaf.
    pub enum LatchKind {
        /// Nothing.
        None = "no latch",
        /// A cylindrical latch.
        Cylindrical = "cylindrical latch",
        /// A mortise lock.
        Mortise = "mortise lock",
        /// A rim exit device.
        RimExit = "rim exit device",
        /// A vertical-rod exit device.
        RodExit = "vertical rod exit device",
        /// Flush bolts.
        FlushBolts = "flush bolts",
        /// An electromagnet.
        Magnet = "electromagnet",
    }
}

vocabulary! {
    /// What a frame is made of.
    pub enum FrameMade {
        /// Pressed steel.
        HollowMetal = "hollow metal",
        /// Aluminum tube.
        Aluminum = "aluminum",
        /// Wood.
        Wood = "wood",
    }
}

vocabulary! {
    /// How leaves of one opening share headers.
    pub enum HeaderShare {
        /// One header over the whole opening.
        One = "one header",
        /// A header over each powered leaf.
        PerLeaf = "header per leaf",
    }
}

vocabulary! {
    /// What hangs where the header or the arm wants to be; moving it is never ours.
    pub enum InTheWay {
        /// An exit sign.
        ExitSign = "exit sign",
        /// A sprinkler head.
        Sprinkler = "sprinkler head",
        /// A smoke or heat detector.
        Detector = "detector",
        /// A camera.
        Camera = "camera",
        /// A light in the soffit.
        Light = "soffit light",
    }
}

vocabulary! {
    /// The fire label of the opening.
    pub enum Rating {
        /// Not labeled.
        None = "none",
        /// Twenty minutes.
        Min20 = "20 min",
        /// Forty-five minutes.
        Min45 = "45 min",
        /// One hour.
        Min60 = "60 min",
        /// An hour and a half.
        Min90 = "90 min",
    }
}

vocabulary! {
    /// Whether one side of the opening is outdoors.
    pub enum Exposure {
        /// Both sides indoors.
        Interior = "interior",
        /// One side outdoors.
        Exterior = "exterior",
    }
}

vocabulary! {
    /// The side of the opening a device stands on.
    pub enum Side {
        /// The outside.
        Outside = "outside",
        /// The inside.
        Inside = "inside",
    }
}

vocabulary! {
    /// How a person reaches a device.
    pub enum ReachFrom {
        /// Forward, facing it.
        Front = "forward",
        /// From the side, along the wall.
        Side = "sideways",
    }
}

vocabulary! {
    /// What a device is fixed to.
    pub enum DeviceMount {
        /// A wall box.
        Wall = "wall",
        /// The jamb of the frame.
        Jamb = "jamb",
        /// A post of its own.
        Post = "post",
        /// The header.
        Header = "header",
        /// The leaf itself.
        Leaf = "leaf",
        /// A desk.
        Desk = "desk",
    }
}

vocabulary! {
    /// The wall of a device that is not on the door's, seen from its side of the door.
    pub enum DeviceWall {
        /// The wall that stands out at the latch side.
        Latch = "latch side wall",
        /// The wall that stands out at the hinge side.
        Hinge = "hinge side wall",
        /// The wall across the room.
        Facing = "facing wall",
    }
}

vocabulary! {
    /// When a device works.
    pub enum Live {
        /// At all times.
        Always = "always",
        /// While the door is unlocked.
        Unlocked = "while unlocked",
        /// While the window after a credential is open.
        Credential = "credential window",
        /// By a schedule of others.
        Schedule = "schedule",
    }
}

vocabulary! {
    /// How well the supply of power is known.
    pub enum PowerKnown {
        /// Seen on site.
        Seen = "seen",
        /// Shown on the drawings.
        Drawn = "drawn",
        /// Taken for granted; says so on the bid.
        Assumed = "assumed",
        /// There is none.
        None = "none",
    }
}

vocabulary! {
    /// How drives are put on circuits.
    pub enum CircuitPolicy {
        /// One circuit for each header.
        PerHeader = "per header",
        /// One circuit for each drive.
        PerDrive = "per drive",
        /// Headers of one panel share a circuit up to the owner's limit.
        Shared = "shared",
    }
}

vocabulary! {
    /// The ceiling on the side of the header.
    pub enum CeilingKind {
        /// Tiles in a grid.
        LayIn = "lay-in",
        /// Closed gypsum board.
        Gypsum = "gypsum board",
        /// Open to structure.
        Open = "open",
    }
}

vocabulary! {
    /// What is known of hazardous material.
    pub enum HazardReport {
        /// The owner's report was seen and is clear.
        Clear = "clear",
        /// The owner's report was seen and names material to stay away from.
        Found = "found",
        /// No report was seen.
        Unknown = "unknown",
    }
}

vocabulary! {
    /// Conditions that change labor.
    pub enum Condition {
        /// People pass while we work.
        Occupied = "occupied",
        /// Work above ten feet.
        High = "high work",
        /// Little room to stand.
        Tight = "tight space",
        /// Outside of the owner's working hours.
        AfterHours = "after hours",
        /// A long way from truck to door.
        LongCarry = "long carry",
    }
}

vocabulary! {
    /// Hardware that is there already.
    pub enum ExistingKind {
        /// A surface closer.
        Closer = "closer",
        /// A closer in the head or the floor.
        ConcealedCloser = "concealed closer",
        /// An overhead holder or stop.
        OverheadHolder = "overhead holder",
        /// A magnetic holder.
        MagneticHolder = "magnetic holder",
        /// A coordinator of a pair.
        Coordinator = "coordinator",
        /// An astragal.
        Astragal = "astragal",
        /// A position switch.
        PositionSwitch = "position switch",
        /// Weatherstrip.
        Weatherstrip = "weatherstrip",
        /// A kick-down holder.
        KickDown = "kick-down holder",
        /// A mortise lock.
        Mortise = "mortise lock",
        /// A cylindrical latch.
        Cylindrical = "cylindrical latch",
        /// A rim exit device.
        RimExit = "rim exit device",
        /// A vertical-rod exit device.
        RodExit = "vertical rod exit device",
        /// Flush bolts.
        FlushBolts = "flush bolts",
        /// An electromagnet that holds the leaf shut.
        Magnet = "electromagnet",
        /// An electric strike.
        Strike = "electric strike",
        /// A motor or solenoid that retracts the latch of an exit device.
        Retraction = "latch retraction",
        /// A lock with a motor or solenoid of its own.
        ElectrifiedLock = "electrified lock",
        /// A power transfer between frame and leaf.
        Transfer = "power transfer",
    }
}

impl ExistingKind {
    /// The latch that it is, as a leaf states it.
    pub fn latch(self) -> Option<LatchKind> {
        LatchKind::ALL.iter().copied().find(|latch| latch.word() == self.word())
    }

    /// The release that it is, as a leaf states it. An electromagnet releases too, and a leaf states it as its latch.
    pub fn release(self) -> Option<Release> {
        Release::ALL.iter().copied().find(|release| release.word() == self.word())
    }

    /// Whether current lets it go or holds it.
    pub fn is_electric_release(self) -> bool {
        self == ExistingKind::Magnet || self.release().is_some()
    }
}

vocabulary! {
    /// What feeds electric hardware that is there.
    pub enum FedBy {
        /// The supply that feeds it today, which stays.
        Own = "its own supply",
        /// A supply of ours.
        Ours = "our supply",
    }
}

vocabulary! {
    /// What becomes of hardware that is there.
    pub enum Disposition {
        /// Taken off by us.
        Remove = "remove",
        /// Stays and is used.
        Reuse = "reuse",
        /// Moved by us.
        Relocate = "relocate",
        /// Dealt with by others.
        Others = "by others",
    }
}

impl Disposition {
    /// Whether what is there is used again, at its place or at another.
    pub fn stays(self) -> bool {
        matches!(self, Disposition::Reuse | Disposition::Relocate)
    }
}

vocabulary! {
    /// Where the locked line of a vestibule is.
    pub enum LockedLine {
        /// This opening is locked.
        Here = "here",
        /// The partner is locked.
        Partner = "partner",
        /// Neither is.
        Neither = "neither",
    }
}
