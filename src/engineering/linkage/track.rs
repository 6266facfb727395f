//! The slide-track arm that pulls: one arm, and a roller in a track that is fixed to the leaf.
//!
//! In: spindle, arm and track in inches. Out: positions, torque ratio, place of the roller. May not know: where the
//! dimensions come from. Frame as in `lever`; the leaf opens toward the header.

use super::plane::Vector;

/// A slider on the leaf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct Track {
    pub spindle: Vector,
    pub main: f64,
    /// From the hinge-axis line of the leaf to the line on which the roller runs.
    pub offset: f64,
    /// Ends of the roller's way, from the hinge axis along the leaf.
    pub start: f64,
    pub end: f64,
}

/// The slider at one angle of the leaf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct TrackState {
    /// Angle of the arm.
    pub arm: f64,
    pub roller: Vector,
    /// From the hinge axis along the leaf.
    pub place: f64,
    /// Torque at the leaf for one at the spindle.
    pub ratio: f64,
    /// Between the arm and the square to the track, taken from π/2: at none the arm stands square to the leaf and slides.
    pub drive: f64,
}

impl Track {
    /// The slider at an angle of the leaf; nothing where the arm does not reach the track.
    pub fn at(&self, phi: f64) -> Option<TrackState> {
        let along = Vector::polar(1.0, phi);
        let across = Vector::new(-along.y, along.x);
        let sine = (self.offset - self.spindle.dot(across)) / self.main;
        if sine.abs() > 1.0 || !sine.is_finite() {
            return None;
        }
        let lean = libm::asin(sine);
        let roller = self.spindle + Vector::polar(self.main, phi + lean);
        let place = roller.dot(along);
        let cosine = libm::cos(lean);
        Some(TrackState {
            arm: phi + lean,
            roller,
            place,
            ratio: place / (self.main * cosine),
            drive: std::f64::consts::FRAC_PI_2 - lean.abs(),
        })
    }

    /// By how much the roller is beyond an end of its way; below none it is inside.
    pub fn beyond(&self, state: &TrackState) -> f64 {
        (self.start - state.place).max(state.place - self.end)
    }
}
