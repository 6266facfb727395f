//! How much room texts and other shapes take.
//!
//! In: faces, shapes. Out: widths of texts in points, extents. May not know: what is drawn.

use std::cell::RefCell;

use crate::fonts::{Faces, Features, Setter, Style};
use crate::shapes::{Extent, Shape};

/// Measures texts in the faces that they are set in, and remembers them.
pub struct Ruler<'f>(RefCell<Setter<'f>>);

impl<'f> Ruler<'f> {
    /// A ruler for texts in these faces, in the forms that ship with the tool.
    pub fn new(faces: &'f Faces) -> Self {
        Ruler(RefCell::new(Setter::new(faces, Features::default())))
    }

    /// Width of a line of text, in points.
    pub fn width(&self, text: &str, size: f64, bold: bool) -> f64 {
        self.0.borrow_mut().width(Style::new(bold, false), text, size)
    }

    /// What a shape covers.
    pub fn extent(&self, shape: &Shape) -> Option<Extent> {
        shape.extent(|text, size, bold| self.width(text, size, bold))
    }
}
