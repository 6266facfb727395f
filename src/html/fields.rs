//! What can be filled in: check boxes, lines and areas under the names and labels of the tree.
//!
//! In: fields of the tree. Out: inputs that say what they are for, and under which name their value is kept. May not know:
//! where a browser keeps it.

use super::written::Written;
use crate::fonts::plain;
use crate::markup::Field;

/// A box to check.
pub fn check(out: &mut Written, field: &Field, on: bool) {
    out.raw("<input type=\"checkbox\"");
    named(out, field);
    if on {
        out.raw(" checked=\"checked\"");
    }
    out.raw("/>");
}

/// A line to write on, about as wide as `letters`.
pub fn line(out: &mut Written, field: &Field, letters: Option<u32>) {
    out.raw("<input type=\"text\"");
    named(out, field);
    if let Some(letters) = letters {
        out.attribute("style", &format!("width:{}ch", letters.max(3)));
    }
    out.raw("/>");
}

/// An area to write in.
pub fn area(out: &mut Written, field: &Field, rows: u32) {
    out.raw("<textarea");
    named(out, field);
    out.attribute("rows", &rows.max(2).to_string());
    out.raw("></textarea>");
}

fn named(out: &mut Written, field: &Field) {
    out.attribute("data-f", &format!("{}.{}", field.sheet, field.name));
    // A label is heard and copied out; what keeps words on one line is for the eye alone.
    out.attribute("aria-label", &plain(&field.label));
}
