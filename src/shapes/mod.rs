//! A drawing as data: named parts made of lines, arcs, fills and texts.
//!
//! In: coordinates, in points of the paper (1/72 in), origin at the lower left of the drawing's own frame, y upward.
//! Out: the same, for whoever draws it: page or browser. May not know: what is drawn, or on what.

mod extent;

pub use extent::Extent;

/// A position or an extent in the frame, in points.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Rightward, in points.
    pub x: f64,
    /// Upward, in points.
    pub y: f64,
}

/// Shorthand for a point.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Width in points.
    pub width: f64,
    /// 0 is black, 1 is white.
    pub gray: f64,
    /// Lengths of dash and gap in points; none for a full line.
    pub dash: Option<(f64, f64)>,
}

/// Which point of a text stands at its position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The left end of the baseline.
    Start,
    /// The middle of the baseline.
    Middle,
    /// The right end of the baseline.
    End,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A straight line or a broken one, through two or more points.
    Line {
        /// The points in order.
        points: Vec<Point>,
        /// Whether the last joins the first.
        closed: bool,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// Part of a circle.
    Arc {
        /// Its center.
        center: Point,
        /// Its radius in points.
        radius: f64,
        /// Where it starts, in degrees counterclockwise from rightward.
        from: f64,
        /// How far it goes, in degrees, counterclockwise when positive.
        sweep: f64,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A filled polygon.
    Fill {
        /// Its corners in order.
        points: Vec<Point>,
        /// 0 is black, 1 is white.
        gray: f64,
    },
    /// A line of text.
    Text {
        /// Where its anchor stands.
        at: Point,
        /// The text.
        text: String,
        /// Its size in points.
        size: f64,
        /// Whether it is bold.
        bold: bool,
        /// Which point of it stands there.
        anchor: Anchor,
        /// Turned counterclockwise about its anchor, in degrees.
        turn: f64,
    },
}

/// A named part of a drawing, such as `leaf` or `swing`, so that a test or a reader can find it.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// What it is made of, in drawing order.
    pub shapes: Vec<Shape>,
}

/// What stands for the scale of a drawing that has none.
pub const NOT_TO_SCALE: &str = "not to scale";

/// A drawing, made for a frame of a given size.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Its title.
    pub title: String,
    /// What it shows, in words, for someone who cannot see it.
    pub alt: String,
    /// The scale as printed, such as `1/2 in = 1 ft`, or [`NOT_TO_SCALE`].
    pub scale: String,
    /// Width of the frame in points.
    pub width: f64,
    /// Height of the frame in points.
    pub height: f64,
    /// Its parts, in drawing order.
    pub parts: Vec<Part>,
}

impl Drawing {
    /// Whether lengths may be measured off it, where it is printed at the size of its frame.
    pub fn is_to_scale(&self) -> bool {
        self.scale != NOT_TO_SCALE
    }

    /// Whether it looks as another does: what stands in its frame, by whatever names.
    pub fn looks_like(&self, other: &Drawing) -> bool {
        let frame = |drawing: &Drawing| (drawing.width, drawing.height);
        frame(self) == frame(other)
            && self.scale == other.scale
            && self.parts.len() == other.parts.len()
            && self.parts.iter().zip(&other.parts).all(|(one, it)| one.shapes == it.shapes)
    }

    /// Finds a part by its name.
    pub fn part(&self, name: &str) -> Option<&Part> {
        self.parts.iter().find(|part| part.name == name)
    }
}
