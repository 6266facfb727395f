//! What can be filled in: check boxes, lines and areas, each with a label that says what it is for.
//!
//! In: the words around a field. Out: numbered inputs, so that what is typed can be kept and found again. May not know: where
//! a browser keeps it.

use super::written::Written;

/// Numbers the fields of a paper in reading order.
#[derive(Debug, Default)]
pub struct Fields {
    count: u32,
}

/// How a field comes by its label.
#[derive(Clone, Copy, Debug)]
pub enum Label<'l> {
    /// The words stand beside it, inside one `label` element.
    Beside,
    /// The words are said, and stand elsewhere on the page.
    Said(&'l str),
}

impl Fields {
    /// A box to check.
    pub fn check(&mut self, out: &mut Written, on: bool, label: Label<'_>) {
        out.raw("<input type=\"checkbox\"");
        self.number(out, label);
        if on {
            out.raw(" checked=\"checked\"");
        }
        out.raw("/>");
    }

    /// A line to write on, about as wide as `letters`.
    pub fn line(&mut self, out: &mut Written, letters: Option<u32>, label: Label<'_>) {
        out.raw("<input type=\"text\"");
        self.number(out, label);
        if let Some(letters) = letters {
            out.attribute("style", &format!("width:{}ch", letters.max(3)));
        }
        out.raw("/>");
    }

    /// An area to write in.
    pub fn area(&mut self, out: &mut Written, rows: u32, label: Label<'_>) {
        out.raw("<textarea");
        self.number(out, label);
        out.attribute("rows", &rows.max(2).to_string());
        out.raw("></textarea>");
    }

    fn number(&mut self, out: &mut Written, label: Label<'_>) {
        self.count += 1;
        out.attribute("data-f", &format!("f{}", self.count));
        if let Label::Said(words) = label {
            out.attribute("aria-label", words);
        }
    }
}
