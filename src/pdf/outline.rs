//! The outline that a reader shows beside the pages: a tree of headings.
//!
//! In: headings of the pages, in order. Out: objects of the file. May not know: structure, content.

use super::file::{File, Number};
use super::numbers::{Cp, hundredths, integer, text};
use crate::fonts::plain;
use crate::markup::Mp;
use crate::typeset::Pages;

/// An entry of the outline.
struct Entry<'p> {
    level: u8,
    words: &'p str,
    page: usize,
    top: Cp,
    parent: Option<usize>,
    children: Vec<usize>,
}

/// Puts the outline into the file; none where there is no heading. `first` is the number of the first page.
pub(super) fn write(pages: &Pages, first: Number, file: &mut File) -> Option<Number> {
    let entries = entries(pages);
    let tops: Vec<usize> = (0..entries.len()).filter(|at| entries[*at].parent.is_none()).collect();
    tops.first()?;
    let root = file.reserve(1);
    let base = file.reserve(entries.len());
    for (at, entry) in entries.iter().enumerate() {
        let siblings = entry.parent.map_or(&tops, |parent| &entries[parent].children);
        let position = siblings.iter().position(|sibling| *sibling == at).unwrap_or(0);
        let mut out = b"<</Title".to_vec();
        text(&mut out, &plain(entry.words));
        link(&mut out, "/Parent ", entry.parent.map_or(root, |parent| base.plus(parent)));
        if let Some(previous) = position.checked_sub(1).and_then(|before| siblings.get(before)) {
            link(&mut out, "/Prev ", base.plus(*previous));
        }
        if let Some(next) = siblings.get(position + 1) {
            link(&mut out, "/Next ", base.plus(*next));
        }
        family(&mut out, &entry.children, base, true);
        link(&mut out, "/Dest[", first.plus(entry.page));
        out.extend_from_slice(b"/XYZ null ");
        hundredths(&mut out, entry.top);
        out.extend_from_slice(b" null]>>");
        file.put(base.plus(at), out);
    }
    let mut out = b"<</Type/Outlines".to_vec();
    family(&mut out, &tops, base, false);
    out.extend_from_slice(b">>");
    file.put(root, out);
    Some(root)
}

fn link(out: &mut Vec<u8>, key: &str, number: Number) {
    out.extend_from_slice(key.as_bytes());
    number.refer(out);
}

/// Writes first and last child and their count; below the top they are shown folded.
fn family(out: &mut Vec<u8>, children: &[usize], base: Number, folded: bool) {
    if let (Some(first), Some(last)) = (children.first(), children.last()) {
        link(out, "/First ", base.plus(*first));
        link(out, "/Last ", base.plus(*last));
        out.extend_from_slice(b"/Count ");
        let count = children.len() as i64;
        integer(out, if folded { -count } else { count });
    }
}

/// The headings, each below the nearest one before it of a higher level.
fn entries(pages: &Pages) -> Vec<Entry<'_>> {
    let mut entries: Vec<Entry<'_>> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for (page, on) in pages.pages.iter().enumerate() {
        for heading in &on.headings {
            while open.last().is_some_and(|at| entries[*at].level >= heading.level) {
                open.pop();
            }
            let (at, parent) = (entries.len(), open.last().copied());
            if let Some(parent) = parent {
                entries[parent].children.push(at);
            }
            let top = Cp::of(on.height - heading.y + Mp::points(6)); // a little air above it
            entries.push(Entry { level: heading.level, words: &heading.text, page, top, parent, children: Vec::new() });
            open.push(at);
        }
    }
    entries
}
