//! The words of what is wired to an operator: devices, releases, systems, and what a conductor is for.
//!
//! In: nothing. Out: enums with the word a person types and one line of help each. May not know: any one terminal.

use crate::input::vocabulary;

vocabulary! {
    /// What lets the latch go before the drive moves the leaf.
    pub enum Release {
        /// No latch, nothing to release.
        NoLatch = "no latch",
        /// An electric strike in the frame.
        Strike = "electric strike",
        /// Electric latch retraction in the exit device.
        Retraction = "latch retraction",
        /// An electrified lock in the leaf.
        ElectrifiedLock = "electrified lock",
        /// Held and released by a system of others.
        Others = "held by others",
        /// Not known; a question to ask.
        Unknown = "unknown",
    }
}

vocabulary! {
    /// What starts, guards or stops the motion.
    pub enum DeviceKind {
        /// A plate pushed by hand.
        Plate = "push plate",
        /// A bar pushed by hand anywhere along its length; it stands for the two plates that some codes ask for.
        Bar = "actuation bar",
        /// A switch that sees a hand wave.
        Touchless = "touchless switch",
        /// A switch turned by a key.
        KeySwitch = "key switch",
        /// A button at a desk.
        DeskButton = "desk button",
        /// A reader of an access system of others.
        Reader = "card reader",
        /// Keys for a code, which is a credential.
        Keypad = "keypad",
        /// A button inside that locks the door while the room is in use.
        LockButton = "push-to-lock button",
        /// A sensor that asks the access system to unlock for a person who leaves.
        ExitSensor = "request-to-exit sensor",
        /// A sensor that opens for whoever comes near.
        Motion = "motion sensor",
        /// A sensor that keeps the leaf off people.
        Safety = "safety sensor",
    }
}

impl DeviceKind {
    /// Whether it takes a credential.
    pub fn is_credential(self) -> bool {
        matches!(self, DeviceKind::Reader | DeviceKind::Keypad)
    }

    /// Whether it locks or unlocks and starts no leaf.
    pub fn is_of_lock(self) -> bool {
        matches!(self, DeviceKind::LockButton | DeviceKind::ExitSensor)
    }

    /// Whether it sees a person, and no hand works it.
    pub fn is_sensor(self) -> bool {
        matches!(self, DeviceKind::Motion | DeviceKind::Safety | DeviceKind::ExitSensor)
    }
}

vocabulary! {
    /// How a device reaches the operator.
    pub enum Link {
        /// By cable.
        Wired = "wired",
        /// By radio, with a transmitter and a receiver.
        Wireless = "wireless",
    }
}

vocabulary! {
    /// What else is wired to a header, besides devices and releases.
    pub enum WiredSystem {
        /// The relay of the fire alarm.
        FireAlarm = "fire alarm",
        /// The other door of a vestibule.
        Vestibule = "vestibule",
        /// A supply that feeds the latch releases.
        Supply = "power supply",
    }
}

vocabulary! {
    /// What a low-voltage conductor is for; its color follows from that and from the cable.
    pub enum ConductorRole {
        /// Brings power.
        Positive = "positive",
        /// Takes it back.
        Negative = "negative",
        /// Tells that a contact is closed.
        Contact = "contact",
        /// Tells it the other way, between two controls.
        Return = "return contact",
        /// The other side of the contacts.
        Common = "common",
    }
}

vocabulary! {
    /// A raceway, or cable without one.
    pub enum RunKind {
        /// Electrical metallic tubing.
        Emt = "EMT",
        /// Flexible metal conduit.
        Flexible = "flexible",
        /// Liquid-tight flexible conduit.
        LiquidTight = "liquid-tight",
        /// Surface raceway.
        Surface = "surface raceway",
        /// Cable on supports, no raceway.
        Cable = "open cable",
    }
}

vocabulary! {
    /// What a run carries.
    pub enum RunClass {
        /// Line voltage.
        Line = "line",
        /// Low voltage, class 2.
        Low = "low",
    }
}

vocabulary! {
    /// What a route ends at, of which only the end is known.
    pub enum RouteEnd {
        /// A header, from the panel that feeds it.
        Header = "header",
        /// A wired device, from its header.
        Device = "device",
    }
}
