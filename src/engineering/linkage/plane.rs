//! Vectors of the plan in inches.
//!
//! In: numbers. Out: numbers. May not know: arms, leaves. Angles are radians, counterclockwise from the x axis.

use std::ops::{Add, Mul, Sub};

/// A point or a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::engineering) struct Vector {
    pub x: f64,
    pub y: f64,
}

impl Vector {
    pub fn new(x: f64, y: f64) -> Vector {
        Vector { x, y }
    }

    /// So long, at an angle.
    pub fn polar(length: f64, angle: f64) -> Vector {
        Vector { x: length * libm::cos(angle), y: length * libm::sin(angle) }
    }

    pub fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The third component of the vector product.
    pub fn cross(self, other: Vector) -> f64 {
        self.x * other.y - self.y * other.x
    }

    pub fn length(self) -> f64 {
        libm::sqrt(self.dot(self))
    }

    pub fn angle(self) -> f64 {
        libm::atan2(self.y, self.x)
    }

    pub fn unit(self) -> Vector {
        self * (1.0 / self.length())
    }

    /// Turned about the origin.
    pub fn turned(self, angle: f64) -> Vector {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        Vector { x: self.x * cos - self.y * sin, y: self.x * sin + self.y * cos }
    }

    /// Shortest distance from this point to the segment between two others.
    pub fn to_segment(self, from: Vector, to: Vector) -> f64 {
        let along = to - from;
        let square = along.dot(along);
        let at = if square > 0.0 { ((self - from).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
        (self - (from + along * at)).length()
    }
}

impl Add for Vector {
    type Output = Vector;
    fn add(self, other: Vector) -> Vector {
        Vector { x: self.x + other.x, y: self.y + other.y }
    }
}

impl Sub for Vector {
    type Output = Vector;
    fn sub(self, other: Vector) -> Vector {
        Vector { x: self.x - other.x, y: self.y - other.y }
    }
}

impl Mul<f64> for Vector {
    type Output = Vector;
    fn mul(self, factor: f64) -> Vector {
        Vector { x: self.x * factor, y: self.y * factor }
    }
}

/// An angle brought between -π and π.
pub(in crate::engineering) fn wrapped(angle: f64) -> f64 {
    libm::atan2(libm::sin(angle), libm::cos(angle))
}
