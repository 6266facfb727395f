//! The double-lever arm that pushes: main arm, rod and leaf as a four-bar in the plan.
//!
//! In: spindle, bracket pin and lengths in inches. Out: positions, torque ratio, angles of transmission, dead points.
//! May not know: where the dimensions come from.
//!
//! The hinge axis is the origin, x runs along the shut leaf, y toward the side of the header; the leaf turns by `-φ`
//! where it opens away from the header.

use super::plane::{Vector, wrapped};

/// A four-bar: ground from hinge to spindle, crank `main`, coupler `rod`, rocker from hinge to pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct Lever {
    pub spindle: Vector,
    /// The pin of the bracket, while the leaf is shut.
    pub pin: Vector,
    pub main: f64,
    pub rod: f64,
    /// -1 where the leaf opens away from the spindle's side, +1 where it opens toward it.
    pub sense: f64,
    /// The side to which the elbow bends: +1 or -1, and never changes through the swing.
    pub bend: f64,
}

/// The linkage at one angle of the leaf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct LeverState {
    /// Angle of the main arm.
    pub arm: f64,
    pub elbow: Vector,
    pub pin: Vector,
    /// Torque at the leaf for one at the spindle, which is also the main arm's turn for one of the leaf.
    pub ratio: f64,
    /// Between rod and the line from hinge to pin, 0 to π/2: at none the arm cannot move the leaf.
    pub transmission: f64,
    /// Between main arm and rod, 0 to π/2: at none both are in line, and the arm reaches no further.
    pub drive: f64,
}

impl Lever {
    /// The rod that puts the main arm at `arm` while the leaf is shut, and the linkage with it.
    pub fn fitted(spindle: Vector, pin: Vector, main: f64, sense: f64, arm: f64) -> Lever {
        let elbow = spindle + Vector::polar(main, arm);
        let bend = if wrapped(arm - (pin - spindle).angle()) < 0.0 { -1.0 } else { 1.0 };
        Lever { spindle, pin, main, rod: (pin - elbow).length(), sense, bend }
    }

    /// The pin at an angle of the leaf.
    pub fn pin_at(&self, phi: f64) -> Vector {
        self.pin.turned(self.sense * phi)
    }

    /// By how much the pin lies beyond the reach of arm and rod, or inside of it; below none it is reached.
    pub fn beyond(&self, phi: f64) -> f64 {
        let far = (self.pin_at(phi) - self.spindle).length();
        (far - (self.main + self.rod)).max((self.main - self.rod).abs() - far)
    }

    /// The linkage at an angle of the leaf; nothing where it does not reach.
    pub fn at(&self, phi: f64) -> Option<LeverState> {
        let pin = self.pin_at(phi);
        let to_pin = pin - self.spindle;
        let far = to_pin.length();
        let (main, rod) = (self.main, self.rod);
        let cosine = (main * main + far * far - rod * rod) / (2.0 * main * far);
        if self.beyond(phi) > 0.0 || !cosine.is_finite() {
            return None;
        }
        let arm = to_pin.angle() + self.bend * libm::acos(cosine.clamp(-1.0, 1.0));
        let elbow = self.spindle + Vector::polar(main, arm);
        let along = (pin - elbow).unit();
        let (leaf, spindle) = (pin.cross(along), (elbow - self.spindle).cross(along));
        Some(LeverState {
            arm,
            elbow,
            pin,
            ratio: (leaf / spindle).abs(),
            transmission: libm::asin((leaf / pin.length()).abs().min(1.0)),
            drive: libm::asin((spindle / main).abs().min(1.0)),
        })
    }

    /// Angles of the leaf from shut to `most` at which arm and rod are in line, in order: the limits of reach, where
    /// `|B - S|` is the sum or the difference of their lengths. Closed form by the law of cosines.
    pub fn dead_points(&self, most: f64) -> Vec<f64> {
        let (ground, rocker) = (self.spindle.length(), self.pin.length());
        let from = self.spindle.angle() - self.pin.angle();
        let mut found = Vec::new();
        for reach in [self.main + self.rod, (self.main - self.rod).abs()] {
            let cosine = (ground * ground + rocker * rocker - reach * reach) / (2.0 * ground * rocker);
            if cosine.abs() > 1.0 {
                continue;
            }
            let between = libm::acos(cosine);
            for turn in [from + between, from - between] {
                let phi = wrapped(self.sense * turn);
                if (0.0..=most).contains(&phi) {
                    found.push(phi);
                }
            }
        }
        found.sort_by(f64::total_cmp);
        found
    }
}
