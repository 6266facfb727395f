//! What a header and its arm put on the fasteners: weight before the wall, and the arm at stall and with the open leaf blown
//! against it.
//!
//! In: header, arm, torques. Out: loads at the centroid of a group. May not know: fasteners.

use super::super::linkage::{ArmForce, PullArm, PushArm, Reacts, Vector, blown, stalled};
use super::super::safe_rounding::{number, radians};
use super::group::{Load, WallPoint};
use crate::measure::{Angle, Length, Torque, Unit, Weight};

/// A header on the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct HeaderMount {
    /// Length.
    pub length: Length,
    /// How far it reaches beyond the hinge axis at its drive end.
    pub past_hinge: Length,
    /// Depth, front to back; its weight is taken to lie in the middle.
    pub depth: Length,
    /// Weight with its drives.
    pub weight: Weight,
    /// Height of the lower row of fasteners above its lower edge.
    pub lower_row: Length,
    /// Height of the upper row; the same as the lower where there is one row.
    pub upper_row: Length,
    /// From its ends to the first fasteners.
    pub edge: Length,
    /// How far the arm lies below its lower edge.
    pub arm_below: Length,
}

/// The arm that a header carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ArmOnHeader {
    /// A double-lever arm.
    Push(PushArm),
    /// A slide-track arm.
    Pull(PullArm),
}

/// What moves or holds the leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct HeaderLoads {
    /// The arm.
    pub arm: ArmOnHeader,
    /// Torque of the drive at the spindle while it stalls.
    pub stall: Torque,
    /// Torque of the air on the open leaf about its hinges, where the arm alone holds it; none where a stop does.
    pub blown: Option<Torque>,
    /// The angle of the open leaf.
    pub open: Angle,
}

/// The case that governs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LoadCase {
    /// Weight alone.
    Weight,
    /// The drive stalls.
    Stall,
    /// The open leaf leans on the arm.
    Blown,
}

impl LoadCase {
    /// Its words.
    pub fn words(self) -> &'static str {
        match self {
            LoadCase::Weight => "its weight",
            LoadCase::Stall => "the drive at stall",
            LoadCase::Blown => "the open leaf blown against its arm",
        }
    }
}

/// A header in inches and pounds, and the forces of its arm on it by case.
pub(super) struct Acting {
    pub length: f64,
    pub edge: f64,
    pub rows: Vec<f64>,
    weight: f64,
    depth: f64,
    arm_height: f64,
    past_hinge: f64,
    wall: f64,
    forces: Vec<(LoadCase, ArmForce)>,
}

impl Acting {
    /// Nothing where a length is missing, or the arm does not reach.
    pub fn of(mount: &HeaderMount, loads: &HeaderLoads) -> Option<Acting> {
        let inch = |length: Length| number(length, Unit::Inch);
        let mut rows = vec![inch(mount.lower_row)?, inch(mount.upper_row)?];
        rows.dedup();
        Some(Acting {
            length: inch(mount.length)?,
            edge: inch(mount.edge)?,
            rows,
            weight: number(mount.weight, Unit::Pound)?,
            depth: inch(mount.depth)?,
            arm_height: -inch(mount.arm_below)?,
            past_hinge: inch(mount.past_hinge)?,
            wall: inch(loads.wall())?,
            forces: loads.forces()?,
        })
    }

    /// Loads at the centroid of a group by case; places count from the header's drive end and lower edge.
    pub fn loads(&self, centroid: WallPoint) -> Vec<(LoadCase, Load)> {
        let alone = self.load(centroid, ArmForce { force: Vector::new(0.0, 0.0), at: Vector::new(0.0, 0.0) });
        let armed = self.forces.iter().map(|(case, force)| (*case, self.load(centroid, *force)));
        std::iter::once((LoadCase::Weight, alone)).chain(armed).collect()
    }

    /// Statics of the header as a rigid body: a force `(Fx, Fy)` at `x`, `o` before the wall, at height `z`, and the weight in
    /// the middle of length and depth. Pulls balance `Fy`, `Fy (z - z0) + W depth/2` and `Fy (x - x0) - Fx o`.
    fn load(&self, centroid: WallPoint, arm: ArmForce) -> Load {
        let (along, pull) = (arm.force.x, arm.force.y);
        let (x, before) = (arm.at.x + self.past_hinge, arm.at.y - self.wall);
        let height = self.arm_height - centroid.z;
        Load {
            along,
            up: -self.weight,
            twist: -(self.length / 2.0 - centroid.x) * self.weight - height * along,
            pull,
            over_height: pull * height + self.weight * self.depth / 2.0,
            over_length: pull * (x - centroid.x) - along * before,
        }
    }
}

impl HeaderLoads {
    /// From the hinge axis to the face that the header hangs on.
    fn wall(&self) -> Length {
        match self.arm {
            ArmOnHeader::Push(arm) => arm.axis_to_face + arm.reveal,
            ArmOnHeader::Pull(arm) => arm.axis_to_face + arm.reveal,
        }
    }

    fn forces(&self) -> Option<Vec<(LoadCase, ArmForce)>> {
        match self.arm {
            ArmOnHeader::Push(arm) => self.forces_of(&arm.lever()?),
            ArmOnHeader::Pull(arm) => self.forces_of(&arm.track()?),
        }
    }

    fn forces_of(&self, arm: &dyn Reacts) -> Option<Vec<(LoadCase, ArmForce)>> {
        let inch_pounds = |torque: Torque| number(torque, Unit::PoundForceFoot).map(|it| it * 12.0);
        let open = radians(number(self.open, Unit::Degree)?);
        let stall = stalled(arm, inch_pounds(self.stall)?, open);
        let mut forces: Vec<(LoadCase, ArmForce)> = stall.into_iter().map(|it| (LoadCase::Stall, it)).collect();
        if let Some(torque) = self.blown {
            forces.extend(blown(arm, inch_pounds(torque)?, open).map(|it| (LoadCase::Blown, it)));
        }
        Some(forces)
    }
}
