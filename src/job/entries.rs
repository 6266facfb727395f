//! What a person types of an opening: field tables.
//!
//! In: nothing. Out: records that `input` fills, one slot a field, each with its place and standing.
//! May not know: whether the values make sense together.

use super::words::*;
use crate::input::{Count, Date, EachOrList, Flag, Id, Text, record};
use crate::measure::{Amps, Angle, Force, Length, Pressure, Speed, Volts, Weight};

record! {
    /// Hardware that is on the leaf already, and what becomes of it.
    pub struct ExistingEntry as "existing" blocks(bid, recap, schedule, packet) {
        /// What it is.
        what: ExistingKind, needed, "closer";
        /// What becomes of it.
        becomes: Disposition, needed, "remove";
        /// Who does it, where it is not us.
        by: Text, "owner";
        /// Whose it is, where it is not the building owner's.
        owner: Text, "access system vendor";
        /// Volts it works with, as its label says.
        volts: Volts, "24 V";
        /// Amps while it is held.
        amps: Amps, "0.25 A";
        /// Amps at the start; left out, the same.
        inrush: Amps, "0.9 A";
        /// What it does when power fails.
        fails: FailState, "fail secure";
        /// What feeds it once the operator releases it; left out, its own supply.
        fed_by: FedBy, "our supply";
        /// Whether its release was seen to work.
        proven: Flag, "true";
    }
}

impl ExistingEntry {
    /// Whether it stays and current lets it go or holds it, so that none is bought.
    pub fn is_release_that_stays(&self) -> bool {
        let electric = self.what.get().is_some_and(|what| what.is_electric_release());
        electric && self.becomes.get().is_some_and(|becomes| becomes.stays())
    }
}

record! {
    /// Something that hangs where header or arm will be. A word alone says what it is.
    pub struct ObstructionEntry as "obstruction" short(what) blocks(bid, recap, schedule, packet) {
        /// What it is.
        what: InTheWay, needed, "exit sign";
        /// Height of its underside above the floor.
        underside: Length, "7 ft 6 in";
        /// From the wall that the header is on to its near side; left out, on that wall.
        distance: Length, "0 in";
        /// What becomes of it; left out, others move it.
        becomes: Disposition, "relocate";
        /// Who does it, where it is not us.
        by: Text, "electrician";
    }
}

impl ObstructionEntry {
    /// Whether we deal with it: taken down or moved, and no other named for it.
    pub fn is_ours(&self, becomes: Disposition) -> bool {
        self.becomes.get() == Some(&becomes) && self.by.is_absent()
    }

    /// What becomes of it, and by whom: what is not ours and names no one, others do.
    pub fn becomes_in_words(&self) -> String {
        let by = self.by.get().map(|by| format!(" by {by}"));
        let becomes = self.becomes.get().copied();
        match becomes {
            Some(Disposition::Remove) => format!("removed{}", by.unwrap_or_else(|| " by us".to_owned())),
            Some(Disposition::Relocate) => format!("relocated{}", by.unwrap_or_else(|| " by us".to_owned())),
            Some(Disposition::Reuse) => "stays".to_owned(),
            Some(Disposition::Others) | None => format!("relocated{}", by.unwrap_or_else(|| " by others".to_owned())),
        }
    }

    /// Whether it hangs there after the work as before.
    pub fn stays(&self) -> bool {
        self.becomes.get() == Some(&Disposition::Reuse)
    }
}

record! {
    /// One leaf of an opening. What all leaves share is written once as `leaf`; a pair lists them as `[[opening.leaf]]`.
    pub struct LeafEntry as "leaf" stands blocks(bid, recap, schedule, packet) {
        /// Width, edge to edge.
        width: Length, inherits, "3 ft 0 in";
        /// Height, top to bottom.
        height: Length, inherits, "7 ft 0 in";
        /// Thickness.
        thickness: Length, inherits, "1 3/4 in";
        /// Weight with the hardware on it; left out, it is estimated from what the leaf is made of.
        weight: Weight, inherits undoable, "150 lb";
        /// Weight of the hardware on it, where the leaf's own is estimated; left out, an allowance.
        hardware_weight: Weight, inherits undoable, "12 lb";
        /// What it is made of.
        made: LeafMade, inherits, "hollow metal";
        /// Sheet gauge of a hollow metal leaf.
        gauge: Count, inherits undoable, ["0" to "40"], "16";
        /// Width of the stile on the latch side, where there is one.
        stile: Length, inherits undoable, "5 in";
        /// Weight of core and stiffeners, by its maker, where the leaf's own is estimated; left out, the estimate of a hollow metal leaf
        /// has none.
        core_weight: Weight, inherits undoable, "21 lb";
        /// Weight of facings that it carries, such as lead, panels or a mirror, where the leaf's own is estimated.
        facing_weight: Weight, inherits undoable, "14 lb";
        /// Force to open it by hand, 1 in from the latch edge, as measured.
        opening_force: Force, inherits undoable, "8 lbf";
        /// Widest gap around it at head, jambs and meeting edge, as measured.
        gap: Length, inherits undoable, "1/8 in";
        /// Gap under it, to the floor or the threshold, as measured.
        undercut: Length, inherits undoable, "5/8 in";
        /// Edge that hangs, seen from the outside.
        hinges: HingeEdge, inherits, "left";
        /// Way it swings, seen from the outside.
        swing: Swing, inherits, "toward";
        /// Hand as the schedule gives it; compared with the one that follows from the facts.
        hand: HandLetters, inherits undoable, "LHR";
        /// How it hangs.
        hangs: Hanging, inherits, "butt hinge";
        /// The part it plays in a pair.
        role: LeafRole, inherits, "active";
        /// Whether a drive moves it.
        powered: Flag, inherits, "true";
        /// The arm, and with it the side the operator stands on.
        arm: Arm, inherits undoable, "push arm";
        /// Angle to which it opens.
        opens_to: Angle, inherits, "90 deg";
        /// What stops it there.
        stopped_by: StoppedBy, inherits, "drive";
        /// What latches it.
        latch: LatchKind, inherits, "mortise lock";
        /// What lets the latch go.
        release: Release, inherits, "electric strike";
        /// Whether the leaf has a way for wires from hinge to lock.
        wire_chase: Flag, inherits, "false";
        /// Hardware that is on it already.
        existing: Vec<ExistingEntry>, inherits undoable, "";
    }
}

record! {
    /// The frame and what is around it.
    pub struct FrameEntry as "frame" stands blocks(bid, recap, schedule, packet) {
        /// What it is made of.
        made: FrameMade, inherits, "hollow metal";
        /// Width of the face at the head.
        face: Length, inherits, "2 in";
        /// Depth of the frame.
        depth: Length, inherits, "5 3/4 in";
        /// Reveal: how far the leaf's face stands back from the face the header hangs on.
        reveal: Length, inherits, "4 1/2 in";
        /// Height free above the frame for the header.
        head_room: Length, inherits, "8 in";
        /// Depth free in front of the face for the header.
        face_clearance: Length, inherits, "7 in";
        /// What the header will be fixed to.
        fixed_to: Substrate, inherits, "steel stud";
        /// Thickness of the steel studs in mils.
        stud_mils: Count, inherits undoable, ["0" to "999"], "33";
        /// Spacing of the studs; left out, 16 in.
        stud_spacing: Length, inherits undoable, "16 in";
        /// From the hinge line to a wall that stands beside it on the header's side.
        side_wall: Length, inherits undoable, "6 in";
        /// What hangs in the way of header or arm.
        in_the_way: Vec<ObstructionEntry>, inherits undoable, "[\"exit sign\"]";
    }
}

record! {
    /// One thing that starts, guards or stops the motion.
    pub struct DeviceEntry as "device" stands blocks(bid, recap, schedule, packet) {
        /// Its name on the schedule; left out, it is numbered.
        id: Id, "P1";
        /// What it is.
        kind: DeviceKind, needed, "push plate";
        /// The side it stands on.
        side: Side, needed, "outside";
        /// The leaf it opens, counted from 1; left out, every powered leaf.
        leaf: Count, ["0" to "20"], "1";
        /// How it reaches the operator.
        link: Link, "wired";
        /// What it is fixed to.
        mount: DeviceMount, needed, "wall";
        /// The wall it is on; left out, that of the door.
        wall: DeviceWall, "latch side wall";
        /// Height of its center above the floor.
        height: Length, "36 in";
        /// Heights of several alike above one another, each a device; left out, those that the opening or the local amendment
        /// asks for of a plate, else its height.
        heights: Vec<Length>, "[\"8 in\", \"36 in\"]";
        /// The device on whose post it is, at another opening with its mark (`101/P1`); left out, on a post of its own.
        post: Text, "P1";
        /// Distance from the leaf's latch edge along the floor.
        distance: Length, "24 in";
        /// How a person reaches it; left out, forward.
        reach_from: ReachFrom, "sideways";
        /// How deep a thing is that a person reaches over to it.
        reach_over: Length, "12 in";
        /// How far it stands out from its wall or post.
        stands_out: Length, "3 in";
        /// Way from it to beyond the open leaf; left out, its distance and the leaf's width.
        walk: Length, "9 ft 0 in";
        /// When it works.
        live: Live, "always";
        /// Times it is used in a day; left out, the catalog's figure for its battery.
        uses: Count, ["0" to "50000"], "200";
        /// Who furnishes it, where it is not us.
        by: Text, "access system vendor";
    }
}

record! {
    /// The supply of power.
    pub struct PowerEntry as "power" stands blocks(bid, recap, schedule, packet) {
        /// How well it is known.
        known: PowerKnown, inherits, "drawn";
        /// The panel that feeds it.
        panel: Id, refers(panel) inherits, "LP-1";
        /// How drives are put on circuits; left out, the owner's policy.
        policy: CircuitPolicy, inherits, "per header";
        /// The circuit of that panel that is there and that the opening joins, by its number; left out, a new one.
        circuit: Text, inherits undoable, "9";
        /// Volts of the circuit.
        volts: Volts, inherits, "120 V";
    }
}

record! {
    /// Air that leans on the shut leaf.
    pub struct AirEntry as "air" stands {
        /// Pressure of stack effect or fans, as the mechanical engineer gives it.
        pressure: Pressure, inherits, "0.05 in wg";
        /// Height from the neutral plane of the building to the opening, where stack effect is calculated.
        stack: Length, inherits undoable, "50 ft";
        /// By how many degrees Fahrenheit it is colder outside than the 70 inside, on the coldest day of the design.
        colder: Count, inherits undoable, ["0" to "250"], "70";
        /// Wind in which the opening is to work.
        wind: Speed, inherits, "20 mph";
    }
}

record! {
    /// The ceiling on the header's side.
    pub struct CeilingEntry as "ceiling" stands blocks(bid, recap, schedule, packet) {
        /// Its kind.
        kind: CeilingKind, inherits, "lay-in";
        /// Whether the space above it returns air.
        return_air: Flag, inherits, "false";
        /// Its height above the floor.
        height: Length, inherits, "9 ft 0 in";
    }
}

record! {
    /// The other door of a vestibule, and the locked line between them.
    pub struct VestibuleEntry as "vestibule" stands blocks(bid, recap, schedule, packet) {
        /// Mark of the partner.
        partner: Text, needed, "101B";
        /// Where the locked line is.
        locked: LockedLine, "here";
        /// Clear distance between the two leaves, both shut.
        distance: Length, "8 ft 0 in";
        /// Walk from the card reader to the plate.
        walk: Length, "6 ft 0 in";
    }
}

record! {
    /// Templates that the fabricators of door and frame cut by.
    pub struct TemplateEntry as "template" stands blocks(schedule, packet) {
        /// Whether the door's fabricator cuts by a template of ours; false where we lay out and cut on site.
        door: Flag, inherits, "true";
        /// Day the door's template went out.
        door_sent: Date, inherits undoable, "2026-11-03";
        /// Whether the frame's fabricator cuts by a template of ours.
        frame: Flag, inherits, "true";
        /// Day the frame's template went out.
        frame_sent: Date, inherits undoable, "2026-11-03";
    }
}

record! {
    /// Free floor on one side of an opening, for a person who comes one way.
    pub struct FloorEntry as "floor" stands {
        /// The side of the opening.
        side: Side, needed, "outside";
        /// The way a person comes; left out, straight to the leaf.
        approach: Approach, "front";
        /// Depth free before the leaf.
        deep: Length, needed, "60 in";
        /// Width free beyond the latch; for who comes from the hinge side on the push side, beyond the hinges.
        beyond: Length, needed, "18 in";
        /// How far what stands beside the latch comes out from the face of the leaf: the depth of a recess.
        recess: Length, "9 in";
    }
}

record! {
    /// What accessibility and egress ask to know of an opening.
    pub struct AccessEntry as "access" stands {
        /// Whose technician programs readers, credentials and hours there; `none` where there is no access system.
        programmed_by: Text, inherits, "access system vendor";
        /// Whether it is a public entrance.
        public_entrance: Flag, inherits, "true";
        /// Use group of the building.
        use_group: Text, inherits undoable, "A-3";
        /// Occupant load of the building.
        occupant_load: Count, inherits undoable, ["0" to "500000"], "420";
        /// Whether an accessible means of egress leads through it.
        egress: Flag, inherits, "true";
        /// Whether standby power keeps the operator working.
        standby_power: Flag, inherits, "false";
        /// Whether the opening was there before this job.
        existing: Flag, inherits, "true";
        /// Clear width of the opening as measured, the leaf at 90 degrees.
        clear_width: Length, inherits undoable, "33 1/2 in";
        /// Height of the threshold.
        threshold: Length, inherits undoable, "1/2 in";
        /// Whether the threshold is beveled on both sides.
        beveled: Flag, inherits, "true";
        /// Height of the header's underside above the floor.
        under_header: Length, inherits undoable, "80 in";
        /// Free floor, side by side and approach by approach.
        floor: Vec<FloorEntry>, inherits undoable, "";
    }
}

record! {
    /// An opening, or a kind of opening that others are like.
    pub struct OpeningEntry as "opening" stands {
        /// The kind it is like.
        kind: Id, "lobby-single";
        /// The kind that this kind is like.
        like: Id, "base";
        /// The architect's mark, untouched.
        mark: Text, "101A";
        /// The site it belongs to.
        site: Id, refers(site) inherits, "main";
        /// The architect's hardware set.
        architect_set: Text, inherits undoable, "HW-12";
        /// The rooms on its two sides.
        between: Vec<Text>, inherits, "[\"Lobby\", \"Street\"]";
        /// The room that counts as outside: the key side.
        outside: Text, inherits, "Street";
        /// Whether it belongs to the base bid; false where only an alternate adds it.
        base: Flag, inherits, "true";
        /// Leaves: one table for what they share, or one table each.
        leaf: EachOrList<LeafEntry>, inherits, "{ width = \"3 ft 0 in\", height = \"7 ft 0 in\" }";
        /// Frame and surroundings.
        frame: FrameEntry, inherits, "{ made = \"hollow metal\" }";
        /// Operator, by its id in the catalog.
        operator: Id, refers(operator) inherits undoable, "surf-low";
        /// Finish of header and arms.
        finish: Id, refers(finish) inherits, "clear";
        /// Where the operator is mounted.
        mount: Mount, inherits, "surface";
        /// How leaves share headers.
        headers: HeaderShare, inherits, "one header";
        /// Energy class.
        energy: EnergyClass, inherits, "low energy";
        /// Fire label.
        rating: Rating, inherits, "none";
        /// Whether the fire alarm lets it go.
        alarm_release: Flag, inherits, "false";
        /// Indoors or not.
        exposure: Exposure, inherits, "interior";
        /// Activation and safety devices.
        device: Vec<DeviceEntry>, inherits undoable, "";
        /// Heights that every push plate here is furnished at; left out, those of the local amendment, else each plate's own.
        plate_heights: Vec<Length>, inherits undoable, "[\"8 in\", \"36 in\"]";
        /// Supply of power.
        power: PowerEntry, inherits, "{ known = \"drawn\" }";
        /// Air that leans on the leaf.
        air: AirEntry, inherits undoable, "{ wind = \"20 mph\" }";
        /// Ceiling.
        ceiling: CeilingEntry, inherits, "{ kind = \"lay-in\" }";
        /// What accessibility and egress ask to know.
        access: AccessEntry, inherits, "{ egress = true }";
        /// The other door of a vestibule.
        vestibule: VestibuleEntry, inherits undoable, "{ partner = \"101B\" }";
        /// Templates for whoever makes door and frame.
        template: TemplateEntry, inherits, "{ door = true, frame = false }";
        /// Conditions that change labor.
        conditions: Vec<Condition>, inherits undoable, "[\"occupied\"]";
        /// A note for the schedule and the packet.
        note: Text, inherits undoable, "Glass sidelight at the latch side";
        /// Further notes for them.
        notes: Vec<Text>, inherits undoable, "[\"Key from the custodian\"]";
    }
}

record! {
    /// What was measured at an opening, by whom and when; overrides what the drawings say.
    pub struct SurveyEntry as "survey" called(opening) {
        /// Mark of the opening.
        opening: Text, needed refers(opening), "101A";
        /// First pass, before ordering, or second, before the crew goes.
        pass: Count, needed, ["0" to "9"], "1";
        /// The day.
        seen: Date, needed, "2026-11-03";
        /// The person.
        by: Text, needed, "R. Tallow";
        /// The room from which hinges and swing were seen; left out, the one that counts as outside.
        seen_from: Text, "Street";
        /// Leaves as found.
        leaf: EachOrList<LeafEntry>, "{ width = \"3 ft 0 in\" }";
        /// Frame as found.
        frame: FrameEntry, "{ reveal = \"4 1/2 in\" }";
        /// Power as found.
        power: PowerEntry, "{ known = \"seen\" }";
        /// Ceiling as found.
        ceiling: CeilingEntry, "{ kind = \"lay-in\" }";
        /// Clear width, threshold, floor and heights as found.
        access: AccessEntry, "{ clear_width = \"33 1/2 in\" }";
    }
}
