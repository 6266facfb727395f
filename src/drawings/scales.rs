//! The usual scales of architects' drawings.
//!
//! In: units. Out: scales, largest first. May not know: what is drawn.

/// A scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    /// Points of paper for an inch of building.
    pub points: f64,
    /// As it is stated.
    pub words: &'static str,
}

const fn scale(points: f64, words: &'static str) -> Scale {
    Scale { points, words }
}

/// Inches to the foot: the scales of an architect's rule (common practice, no source). 72 points to the inch of paper.
const INCH: [Scale; 10] = [
    scale(36.0, "6 in = 1 ft"),
    scale(18.0, "3 in = 1 ft"),
    scale(9.0, "1 1/2 in = 1 ft"),
    scale(6.0, "1 in = 1 ft"),
    scale(4.5, "3/4 in = 1 ft"),
    scale(3.0, "1/2 in = 1 ft"),
    scale(2.25, "3/8 in = 1 ft"),
    scale(1.5, "1/4 in = 1 ft"),
    scale(1.125, "3/16 in = 1 ft"),
    scale(0.75, "1/8 in = 1 ft"),
];

/// Metric scales (ISO 5455, recommended scales).
const METRIC: [Scale; 6] = [
    scale(36.0, "1 : 2"),
    scale(14.4, "1 : 5"),
    scale(7.2, "1 : 10"),
    scale(3.6, "1 : 20"),
    scale(1.44, "1 : 50"),
    scale(0.72, "1 : 100"),
];

/// The usual scales, largest first.
pub(super) fn usual(inch: bool) -> &'static [Scale] {
    if inch { &INCH } else { &METRIC }
}
