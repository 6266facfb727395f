//! How much room a text takes.
//!
//! In: faces, texts. Out: widths in points, extents of texts as drawn. May not know: what is drawn.

use std::cell::RefCell;

use super::extent::Extent;
use crate::lettering::{Faces, Features, Setter, Style};
use crate::shapes::{Anchor, Shape};

/// Height of figures and capitals, and depth of commas and tails, of the size.
const RISE: f64 = 0.76;
const FALL: f64 = 0.22;

/// Measures texts in the faces that they are set in, and remembers them.
pub struct Ruler<'f>(RefCell<Setter<'f>>);

impl<'f> Ruler<'f> {
    /// A ruler for texts in these faces, in the forms that ship with the tool.
    pub fn new(faces: &'f Faces) -> Self {
        Ruler(RefCell::new(Setter::new(faces, Features::default())))
    }

    /// Width of a line of text, in points.
    pub fn width(&self, text: &str, size: f64, bold: bool) -> f64 {
        let style = Style::new(bold, false);
        let mut setter = self.0.borrow_mut();
        let em = f64::from(setter.faces().units_per_em(style));
        f64::from(setter.shape(style, text).advance) / em * size
    }

    /// What a text covers; nothing for another shape. Only quarter turns are measured.
    pub fn extent(&self, shape: &Shape) -> Option<Extent> {
        let Shape::Text { at, text, size, bold, anchor, turn } = shape else { return None };
        let width = self.width(text, *size, *bold);
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
