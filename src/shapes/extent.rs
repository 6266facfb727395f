//! Upright rectangles on paper: what a shape covers.
//!
//! In: coordinates in points, how wide a text is. Out: rectangles, and whether they meet. May not know: what is drawn.

use super::{Anchor, Point, Shape};

/// Height of figures and capitals, and depth of commas and tails, of the size of the type.
const RISE: f64 = 0.76;
const FALL: f64 = 0.22;

/// An upright rectangle, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Left edge.
    pub left: f64,
    /// Lower edge.
    pub bottom: f64,
    /// Right edge.
    pub right: f64,
    /// Upper edge.
    pub top: f64,
}

impl Extent {
    /// Around a point, so far to every side.
    pub fn around(center: Point, half: f64) -> Extent {
        Extent { left: center.x - half, bottom: center.y - half, right: center.x + half, top: center.y + half }
    }

    /// Around points; nothing without any.
    pub fn of_points(points: &[Point]) -> Option<Extent> {
        let first = Extent::around(*points.first()?, 0.0);
        Some(points.iter().fold(first, |all, point| all.with(Extent::around(*point, 0.0))))
    }

    /// Whether both cover some of the same paper.
    pub fn meets(&self, other: &Extent) -> bool {
        self.left < other.right && other.left < self.right && self.bottom < other.top && other.bottom < self.top
    }

    /// Both together.
    pub fn with(self, other: Extent) -> Extent {
        Extent {
            left: self.left.min(other.left),
            bottom: self.bottom.min(other.bottom),
            right: self.right.max(other.right),
            top: self.top.max(other.top),
        }
    }

    /// Larger by so much on every side.
    pub fn grown(self, by: f64) -> Extent {
        Extent { left: self.left - by, bottom: self.bottom - by, right: self.right + by, top: self.top + by }
    }

    /// Its width.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Its height.
    pub fn height(&self) -> f64 {
        self.top - self.bottom
    }

    /// Whether a straight line between two points runs through it (Liang and Barsky's clipping).
    pub fn is_crossed(&self, from: Point, to: Point) -> bool {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        let sides = [
            (-dx, from.x - self.left),
            (dx, self.right - from.x),
            (-dy, from.y - self.bottom),
            (dy, self.top - from.y),
        ];
        for (toward, room) in sides {
            if toward == 0.0 {
                if room <= 0.0 {
                    return false;
                }
            } else if toward < 0.0 {
                enters = enters.max(room / toward);
            } else {
                leaves = leaves.min(room / toward);
            }
        }
        enters < leaves
    }
}

impl Shape {
    /// What it covers, its line weight left out; nothing without points. `width` tells how wide a text is in points, given its
    /// size in points and whether it is bold. Of turned texts only quarter turns are right.
    pub fn extent(&self, width: impl FnOnce(&str, f64, bool) -> f64) -> Option<Extent> {
        match self {
            Shape::Line { points, .. } | Shape::Fill { points, .. } => Extent::of_points(points),
            Shape::Arc { center, radius, from, sweep, .. } => {
                Extent::of_points(&arc_points(*center, *radius, *from, *sweep))
            }
            Shape::Text { at, text, size, bold, anchor, turn } => {
                let width = width(text, *size, *bold);
                let before = match anchor {
                    Anchor::Start => 0.0,
                    Anchor::Middle => width / 2.0,
                    Anchor::End => width,
                };
                let (from, to) = (-before, width - before);
                let (below, above) = (FALL * size, RISE * size);
                Some(if turn.abs() < 1.0 {
                    Extent { left: at.x + from, right: at.x + to, bottom: at.y - below, top: at.y + above }
                } else {
                    Extent { left: at.x - above, right: at.x + below, bottom: at.y + from, top: at.y + to }
                })
            }
        }
    }
}

/// Both ends of an arc and the points where it runs level or upright.
fn arc_points(center: Point, radius: f64, from: f64, sweep: f64) -> Vec<Point> {
    let (low, high) = if sweep < 0.0 { (from + sweep, from) } else { (from, from + sweep) };
    let quarters = (-8..=8).map(|quarter| f64::from(quarter) * 90.0).filter(|it| *it > low && *it < high);
    let turns = quarters.chain([low, high]);
    let on = |degrees: f64| {
        let (sin, cos) = libm::sincos(degrees.to_radians());
        Point { x: center.x + radius * cos, y: center.y + radius * sin }
    };
    turns.map(on).collect()
}

#[cfg(test)]
mod tests {
    use super::super::at;
    use super::*;

    #[test]
    fn a_line_crosses_a_rectangle_where_it_runs_inside_of_it() {
        let area = Extent { left: 0.0, bottom: 0.0, right: 10.0, top: 5.0 };
        assert!(area.is_crossed(at(-1.0, 2.0), at(11.0, 2.0)) && area.is_crossed(at(3.0, 3.0), at(4.0, 3.0)));
        assert!(area.is_crossed(at(-1.0, -1.0), at(6.0, 6.0)));
        assert!(!area.is_crossed(at(-1.0, 5.0), at(11.0, 5.0)), "along its edge is beside it");
        assert!(!area.is_crossed(at(-1.0, 4.0), at(1.0, 6.0)) && !area.is_crossed(at(12.0, 0.0), at(12.0, 5.0)));
    }

    #[test]
    fn an_arc_reaches_as_far_as_its_circle_where_it_passes_that_point() {
        let half = arc_points(at(0.0, 0.0), 2.0, 0.0, 180.0);
        let all = Extent::of_points(&half).unwrap();
        assert!((all.top - 2.0).abs() < 1e-9 && all.bottom.abs() < 1e-9 && (all.left + 2.0).abs() < 1e-9);
    }
}
