//! What an arm does to the header it hangs on: force and place in the plan.
//!
//! In: a mechanism at one angle of the leaf, a torque at spindle or leaf in lbf·in. Out: the force on the header in lbf and
//! a point of its line. May not know: headers.

use super::lever::{Lever, LeverState};
use super::plane::Vector;
use super::track::{Track, TrackState};

/// A force on the header and a point of its line of action, in the frame of the hinge axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct ArmForce {
    pub force: Vector,
    pub at: Vector,
}

/// An arm whose force on the header can be told.
pub(in crate::engineering) trait Reacts {
    /// Force on the header for one lbf·in at the spindle that opens the leaf, at an angle of the leaf.
    fn opening(&self, phi: f64) -> Option<ArmForce>;
    /// Force on the header for one lbf·in at the leaf that opens it further, held by the arm.
    fn held(&self, phi: f64) -> Option<ArmForce>;
}

impl Lever {
    fn along(&self, state: &LeverState) -> Vector {
        (state.pin - state.elbow).unit()
    }

    /// The direction of the rod's force on the leaf where it opens it.
    fn opens(&self, state: &LeverState) -> Vector {
        let along = self.along(state);
        along * (self.sense * state.pin.cross(along)).signum()
    }
}

impl Reacts for Lever {
    /// The rod is a two-force member: `F = τ / |(E - S) × ρ|` along it.
    fn opening(&self, phi: f64) -> Option<ArmForce> {
        let state = self.at(phi)?;
        let lever = (state.elbow - self.spindle).cross(self.along(&state)).abs();
        (lever > 0.0).then(|| ArmForce { force: self.opens(&state) * (-1.0 / lever), at: state.elbow })
    }

    /// `F = τ / |B × ρ|`, the other way round.
    fn held(&self, phi: f64) -> Option<ArmForce> {
        let state = self.at(phi)?;
        let lever = state.pin.cross(self.along(&state)).abs();
        (lever > 0.0).then(|| ArmForce { force: self.opens(&state) * (1.0 / lever), at: state.elbow })
    }
}

impl Track {
    /// The square to the track on the side toward which the leaf opens.
    fn square(&self, phi: f64) -> Vector {
        Vector::polar(1.0, phi + std::f64::consts::FRAC_PI_2)
    }

    fn state(&self, phi: f64) -> Option<TrackState> {
        self.at(phi).filter(|state| state.place > 0.0)
    }
}

impl Reacts for Track {
    /// The roller pushes square to the track: `F = τ G / s`, friction left out.
    fn opening(&self, phi: f64) -> Option<ArmForce> {
        let state = self.state(phi)?;
        Some(ArmForce { force: self.square(phi) * (-state.ratio / state.place), at: state.roller })
    }

    fn held(&self, phi: f64) -> Option<ArmForce> {
        let state = self.state(phi)?;
        Some(ArmForce { force: self.square(phi) * (1.0 / state.place), at: state.roller })
    }
}

/// Forces on the header while the drive stalls with `torque` lbf·in at the spindle, at every two degrees to `most`.
pub(in crate::engineering) fn stalled(arm: &dyn Reacts, torque: f64, most: f64) -> Vec<ArmForce> {
    let steps = (most / STEP) as usize;
    let forces = (0..=steps).filter_map(|step| arm.opening(step as f64 * STEP));
    forces.map(|it| ArmForce { force: it.force * torque, ..it }).collect()
}

/// Force on the header while the open leaf is held by the arm against `torque` lbf·in at the leaf.
pub(in crate::engineering) fn blown(arm: &dyn Reacts, torque: f64, open: f64) -> Option<ArmForce> {
    arm.held(open).map(|it| ArmForce { force: it.force * torque, ..it })
}

/// Two degrees.
const STEP: f64 = std::f64::consts::PI / 90.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Statics of the leaf: the force on the leaf is the other way round and turns it with the torque at the spindle times
    /// the ratio.
    #[test]
    fn the_force_turns_the_leaf_with_the_ratio() {
        let lever = Lever::fitted(Vector::new(9.0, 4.0), Vector::new(25.0, 1.5), 13.5, -1.0, 1.3);
        let track = Track { spindle: Vector::new(9.0, 3.0), main: 17.0, offset: 1.25, start: 5.0, end: 30.0 };
        for degrees in 0..100 {
            let phi = f64::from(degrees).to_radians();
            let state = lever.at(phi).unwrap();
            let force = lever.opening(phi).unwrap().force;
            assert!((state.pin.cross(force * -1.0) * lever.sense - state.ratio).abs() < 1e-9);
            let held = lever.held(phi).unwrap().force;
            assert!((state.pin.cross(held) * lever.sense - 1.0).abs() < 1e-9);
            let slid = track.at(phi).unwrap();
            let force = track.opening(phi).unwrap().force;
            assert!((slid.roller.cross(force * -1.0) - slid.ratio).abs() < 1e-9, "{degrees}");
        }
        assert_eq!(stalled(&lever, 10.0, std::f64::consts::FRAC_PI_2).len(), 46);
    }
}
