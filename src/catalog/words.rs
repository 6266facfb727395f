//! The closed lists of the catalog: groups of items, entities a rule may range over, visits, phases, parties.
//!
//! In: nothing. Out: enums with the word a person types and one line of help each.
//! May not know: any one item, task or rule.

use crate::input::vocabulary;

vocabulary! {
    /// What kind of thing an item is. Papers total and list by these groups, never by an item's id.
    pub enum Group {
        /// Headers, cut to length.
        Header = "header",
        /// Drives.
        Drive = "drive",
        /// Arms.
        Arm = "arm",
        /// Brackets between header and drive, or arm and leaf.
        Bracket = "bracket",
        /// Reinforcement plates.
        Plate = "plate",
        /// Screws, bolts, anchors, inserts.
        Fastener = "fastener",
        /// Strikes, latch retraction, electrified locks, magnets.
        LatchRelease = "latch release",
        /// Hinges and loops that carry wires into a leaf.
        PowerTransfer = "power transfer",
        /// Low-voltage supplies.
        PowerSupply = "power supply",
        /// Batteries that carry a door through an outage.
        StandbyPower = "standby power",
        /// Plates, switches and buttons that start the motion.
        Activation = "activation device",
        /// Sensors that start or guard the motion.
        Sensor = "sensor",
        /// Rails that guide people past a swinging leaf.
        GuideRail = "guide rail",
        /// Radio transmitters.
        Transmitter = "transmitter",
        /// Radio receivers.
        Receiver = "receiver",
        /// Relays, timers and interlocks.
        Relay = "relay",
        /// Outlet and device boxes with their covers.
        Box = "box",
        /// Posts for devices.
        Post = "post",
        /// Footings of posts.
        Footing = "footing",
        /// Raceway.
        Raceway = "raceway",
        /// Connectors, couplings, bushings.
        Fitting = "fitting",
        /// Straps and hangers.
        Support = "support",
        /// Pull boxes.
        PullBox = "pull box",
        /// Holes through which wires enter a header.
        Entry = "entry",
        /// Firestop and core drills.
        Penetration = "penetration",
        /// Low-voltage cable.
        Cable = "cable",
        /// Line-voltage conductors.
        Conductor = "conductor",
        /// Breakers.
        Breaker = "breaker",
        /// Disconnecting means.
        Disconnect = "disconnect",
        /// Labels of circuits, boxes and cables.
        Label = "label",
        /// Signs on leaves and at devices.
        Sign = "sign",
        /// Covers, fillers and cosmetics.
        Trim = "trim",
        /// What is rented: lifts, drills.
        Equipment = "equipment",
        /// Travel, parking, permits and fees.
        Expense = "expense",
        /// Work bought from another firm.
        Subcontract = "subcontract",
    }
}

vocabulary! {
    /// What becomes of the screws that an operator's kit gives.
    pub enum KitScrews {
        /// They hold the joint, and count toward what it needs.
        Reuse = "reuse",
        /// Ours take their place in the same holes.
        Replace = "replace",
        /// They only held it while it was set out or carried, and are thrown away.
        Discard = "discard",
    }
}

vocabulary! {
    /// Where an item stands inside a hardware set, unless an owner's profile orders otherwise.
    pub enum SetPlace {
        /// Hangs the leaf.
        Hang = "hang",
        /// Secures it.
        Secure = "secure",
        /// Operates it by hand.
        Trim = "trim",
        /// Belongs to pairs.
        Pair = "pair",
        /// Controls, closes, operates it by power.
        Operate = "operate",
        /// Protects it.
        Protect = "protect",
        /// Stops or holds it.
        Stop = "stop",
        /// Seals it.
        Seal = "seal",
        /// Electrical items.
        Electrical = "electrical",
        /// The rest.
        Other = "other",
        /// Not part of a hardware set: rough material, fees, rentals.
        Apart = "apart",
    }
}

vocabulary! {
    /// The part of the cost an item belongs to.
    pub enum CostKind {
        /// Bought and built in.
        Material = "material",
        /// Bought as work.
        Subcontract = "subcontract",
        /// Rented.
        Equipment = "equipment",
        /// Travel, parking, permits and fees.
        Travel = "travel",
    }
}

vocabulary! {
    /// What a rule ranges over: one line for each of these that meets its condition.
    pub enum Entity {
        /// The job, once.
        Job = "job",
        /// Each site.
        Site = "site",
        /// Each visit to a site that has work in it.
        Visit = "visit",
        /// Each panel that feeds a drive.
        Panel = "panel",
        /// Each circuit.
        Circuit = "circuit",
        /// Each run of raceway or cable.
        Run = "run",
        /// Each opening.
        Opening = "opening",
        /// Each leaf.
        Leaf = "leaf",
        /// Each leaf that a drive moves.
        PoweredLeaf = "powered leaf",
        /// Each header.
        Header = "header",
        /// Each drive.
        Drive = "drive",
        /// Each device, after jurisdictions have multiplied them.
        Device = "device",
        /// Each place of devices as the job file lists it, before jurisdictions multiply.
        DeviceGroup = "device group",
        /// Each box: of a device, or of a header.
        Box = "box",
        /// Each joint of header or arm with what carries it.
        Fixing = "fixing",
        /// Each line of another item, named by `of`.
        Item = "item",
    }
}

vocabulary! {
    /// The visits of a job, in order.
    pub enum VisitKind {
        /// Measuring.
        Survey = "survey",
        /// Raceway, boxes and backing.
        RoughIn = "rough-in",
        /// Headers, drives and arms.
        Set = "set",
        /// Line voltage made live.
        FinalConnection = "final connection",
        /// Devices, and systems of others.
        Devices = "devices",
        /// The inspector's visit.
        Inspection = "inspection",
        /// What was left.
        Punch = "punch",
        /// In the shop, before leaving.
        Shop = "shop",
    }
}

vocabulary! {
    /// The phases of an installation, in the order of work.
    pub enum Phase {
        /// Before leaving the shop.
        Before = "before leaving",
        /// Make safe.
        Safe = "make safe",
        /// Raceway and boxes.
        Rough = "rough-in",
        /// What carries the header.
        Structure = "structure",
        /// Laying out.
        Layout = "layout",
        /// At the bench.
        Bench = "bench",
        /// Hanging the header.
        Hang = "hang",
        /// Line connection.
        Line = "line connection",
        /// Drive and control.
        Control = "drive and control",
        /// Arm.
        Arm = "arm",
        /// First power.
        FirstPower = "first power",
        /// Devices.
        Devices = "devices",
        /// Settings.
        Settings = "settings",
        /// Finish.
        Finish = "finish",
        /// Measuring and office work that no installer does.
        Office = "office",
    }
}

vocabulary! {
    /// Whether a lock lets go or holds when its power fails.
    pub enum FailState {
        /// Lets go.
        Safe = "fail safe",
        /// Holds.
        Secure = "fail secure",
        /// Neither: not a lock.
        None = "none",
    }
}

vocabulary! {
    /// Which end of a rod may be cut.
    pub enum RodEnd {
        /// The end at the main arm's joint.
        Joint = "joint end",
        /// The end at the bracket of the leaf.
        Bracket = "bracket end",
    }
}

vocabulary! {
    /// How the strength of a fastener is calculated.
    pub enum FastenerSort {
        /// Withdrawal of a wood screw from framing.
        WoodScrew = "wood screw",
        /// Withdrawal of a lag screw from framing.
        Lag = "lag screw",
        /// A screw through the header's back into sheet steel.
        SheetSteel = "sheet steel screw",
        /// Not calculated: inserts, anchors in masonry and concrete; its own published report is looked up.
        Report = "by its report",
    }
}

vocabulary! {
    /// How many decimals or what step a line of the build-up is taken of.
    pub enum MarkBase {
        /// All direct cost.
        Direct = "direct cost",
        /// Material with freight and tax.
        Material = "material",
        /// Labor.
        Labor = "labor",
        /// Subcontracts.
        Subcontract = "subcontract",
        /// Equipment.
        Equipment = "equipment",
        /// Travel.
        Travel = "travel",
        /// Direct cost and every line of the build-up above this one.
        Running = "all above",
    }
}

vocabulary! {
    /// How a rate is applied to its base.
    pub enum MarkKind {
        /// Added on cost: cost times rate.
        Markup = "markup",
        /// Part of the price: cost over one less the rate, less cost.
        Margin = "margin",
    }
}

vocabulary! {
    /// What a sales tax is taken of.
    pub enum TaxBase {
        /// Material at cost, freight left out.
        MaterialCost = "material cost",
        /// Material and freight at cost.
        MaterialAndFreight = "material and freight",
        /// Equipment rented.
        Equipment = "equipment",
    }
}

vocabulary! {
    /// What a leaf is made of.
    pub enum LeafMade {
        /// Steel faces over a core.
        HollowMetal = "hollow metal",
        /// Solid-core wood.
        Wood = "wood",
        /// Aluminum stiles and rails around glass.
        Aluminum = "aluminum",
        /// Tempered glass with rails.
        Glass = "glass",
    }
}

vocabulary! {
    /// What the header will be fixed to.
    pub enum Substrate {
        /// Wood studs or a wood header.
        Wood = "wood",
        /// Steel studs.
        SteelStud = "steel stud",
        /// Grouted or hollow masonry.
        Masonry = "masonry",
        /// Concrete.
        Concrete = "concrete",
        /// The face of a steel frame.
        SteelFrame = "steel frame",
        /// Aluminum tube.
        AluminumTube = "aluminum tube",
        /// Not known yet; found at the survey.
        Unknown = "unknown",
    }
}

vocabulary! {
    /// Where the operator is mounted.
    pub enum Mount {
        /// On the face of frame or wall.
        Surface = "surface",
        /// Inside the head.
        Concealed = "concealed",
    }
}

vocabulary! {
    /// The end of a header that a part of one hand is for, seen from the header's room.
    pub enum HeaderEnd {
        /// The left end.
        Left = "left",
        /// The right end.
        Right = "right",
    }
}

vocabulary! {
    /// How much energy the operator puts into the leaf, and with it which equipment and signs it needs.
    pub enum EnergyClass {
        /// Full energy: opens for whoever comes; sensors, rails and signs of its own.
        Full = "full energy",
        /// Low energy: a knowing act opens it slowly.
        Low = "low energy",
        /// Power assist: takes effort off a push by hand.
        Assist = "power assist",
    }
}

vocabulary! {
    /// The arm between drive and leaf: a choice of the side the operator stands on.
    pub enum Arm {
        /// A double-lever arm that pushes; the operator is on the push side.
        Push = "push arm",
        /// A slide-track arm that pulls; the operator is on the pull side.
        Pull = "pull arm",
    }
}
