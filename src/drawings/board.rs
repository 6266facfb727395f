//! What is drawn so far, with what its texts and symbols cover, so that nothing is written over anything.
//!
//! In: parts, texts. Out: a drawing in the middle of its frame, or nothing where it does not fit. May not know: what is drawn.

use super::Frame;
use super::pen::{filled, part};
use super::ruler::Ruler;
use crate::shapes::{Anchor, Drawing, Extent, Part, Point, Shape, at};

/// Empty paper between texts, in points.
const APART: f64 = 1.2;
/// What the ground of a text reaches beyond its ends, so that no interrupted line touches a letter.
const AIR: f64 = 1.0;
/// How often a label is tried farther from its point.
const RINGS: u32 = 14;

/// A drawing on its way.
pub(super) struct Board<'r, 'f> {
    pub ruler: &'r Ruler<'f>,
    /// Size of texts in points.
    pub text: f64,
    parts: Vec<Part>,
    /// Texts come last, each on a white ground that interrupts the lines below it.
    words: Vec<Part>,
    taken: Vec<Extent>,
}

/// The title, the words and the scale of a drawing.
pub(super) struct Titled {
    pub title: String,
    pub alt: String,
    pub scale: &'static str,
}

impl<'r, 'f> Board<'r, 'f> {
    pub fn new(ruler: &'r Ruler<'f>, text: f64) -> Self {
        Board { ruler, text, parts: Vec::new(), words: Vec::new(), taken: Vec::new() }
    }

    /// Adds lines and fills.
    pub fn draw(&mut self, name: impl Into<String>, shapes: Vec<Shape>) {
        self.parts.push(part(name, shapes));
    }

    /// Keeps paper free of labels that come later.
    pub fn take(&mut self, extent: Extent) {
        self.taken.push(extent);
    }

    /// Whether a rectangle is free.
    pub fn is_free(&self, extent: &Extent) -> bool {
        let wanted = extent.grown(APART);
        !self.taken.iter().any(|taken| taken.meets(&wanted))
    }

    /// Writes a text where it is wanted.
    pub fn write(&mut self, name: impl Into<String>, shape: Shape) {
        let Some(extent) = self.ruler.extent(&shape) else { return };
        let ground = filled(extent.left - AIR, extent.bottom, extent.right + AIR, extent.top, 1.0);
        self.taken.push(extent);
        self.words.push(part(name, vec![ground, shape]));
    }

    /// Writes a label beside a point, at the nearest place that is free: right of it (`first` to 1) or left (-1), on the other
    /// side, above, below, then farther. False where there is none.
    pub fn label(
        &mut self,
        name: impl Into<String>,
        (beside, clear): (Point, f64),
        first: i8,
        words: &str,
        bold: bool,
    ) -> bool {
        let size = self.text;
        let half = size * 0.27;
        let text = |point: Point, anchor: Anchor| Shape::Text {
            at: point,
            text: words.to_owned(),
            size,
            bold,
            anchor,
            turn: 0.0,
        };
        let found = (0..RINGS).find_map(|ring| {
            let far = clear + f64::from(ring) * size * 0.7;
            let (x, y) = (beside.x, beside.y);
            let sides = [text(at(x + far, y - half), Anchor::Start), text(at(x - far, y - half), Anchor::End)];
            let [one, other] = sides;
            let (one, other) = if first < 0 { (other, one) } else { (one, other) };
            let tries = [
                one,
                other,
                text(at(x, y + far + size * 0.22), Anchor::Middle),
                text(at(x, y - far - size * 0.76), Anchor::Middle),
                text(at(x + far, y + far), Anchor::Start),
                text(at(x - far, y + far), Anchor::End),
                text(at(x + far, y - far - size * 0.5), Anchor::Start),
                text(at(x - far, y - far - size * 0.5), Anchor::End),
            ];
            tries.into_iter().find(|it| self.ruler.extent(it).is_some_and(|extent| self.is_free(&extent)))
        });
        match found {
            Some(shape) => {
                self.write(name, shape);
                true
            }
            None => false,
        }
    }

    /// What everything on it covers.
    pub fn extent(&self) -> Option<Extent> {
        let shapes = self.parts.iter().chain(&self.words).flat_map(|part| &part.shapes);
        let each = shapes.filter_map(|shape| self.ruler.extent(shape));
        each.reduce(Extent::with)
    }

    /// The drawing in the middle of its frame; nothing where the frame is too small.
    pub fn finish(self, frame: Frame, titled: Titled) -> Option<Drawing> {
        let all = self.extent()?.grown(0.5);
        if all.width() > frame.width || all.height() > frame.height {
            return None;
        }
        let dx = (frame.width - all.width()) / 2.0 - all.left;
        let dy = (frame.height - all.height()) / 2.0 - all.bottom;
        let mut parts: Vec<Part> = self.parts.into_iter().chain(self.words).collect();
        parts.iter_mut().flat_map(|part| &mut part.shapes).for_each(|shape| shift(shape, dx, dy));
        let Titled { title, alt, scale } = titled;
        Some(Drawing { title, alt, scale: scale.to_owned(), width: frame.width, height: frame.height, parts })
    }
}

fn shift(shape: &mut Shape, dx: f64, dy: f64) {
    let move_point = |point: &mut Point| *point = at(point.x + dx, point.y + dy);
    match shape {
        Shape::Line { points, .. } | Shape::Fill { points, .. } => points.iter_mut().for_each(move_point),
        Shape::Arc { center, .. } => move_point(center),
        Shape::Text { at, .. } => move_point(at),
    }
}
