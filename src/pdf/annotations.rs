//! Numbers of what lies over the pages: links and places to fill in, each an object with an element of its own.
//!
//! In: how many there are on each page. Out: the numbers of their objects and elements, and their keys in the parent tree.
//! May not know: what they are.

use super::file::{File, Number};
use super::numbers::integer;

/// Objects and elements of one kind, page by page.
pub(super) struct Numbering {
    objects: Number,
    elements: Number,
    /// How many there are before each page, and in all.
    starts: Vec<usize>,
    /// The key of the first in the parent tree.
    key: usize,
}

impl Numbering {
    /// Sets numbers aside; `key` is the first key of the parent tree that is free.
    pub(super) fn new(counts: impl Iterator<Item = usize>, key: usize, file: &mut File) -> Self {
        let mut starts = vec![0];
        starts.extend(counts.scan(0, |sum, count| {
            *sum += count;
            Some(*sum)
        }));
        let count = starts.last().copied().unwrap_or_default();
        Numbering { objects: file.reserve(count), elements: file.reserve(count), starts, key }
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.starts.last().copied().unwrap_or_default()
    }

    /// The first key of the parent tree that is free behind these.
    pub(super) fn next_key(&self) -> usize {
        self.key + self.count()
    }

    /// The position of one of a page among all.
    pub(super) fn position(&self, page: usize, at: usize) -> usize {
        self.starts[page] + at
    }

    /// The object at a position.
    pub(super) fn object(&self, position: usize) -> Number {
        self.objects.plus(position)
    }

    /// The element at a position.
    pub(super) fn element(&self, position: usize) -> Number {
        self.elements.plus(position)
    }

    /// Writes the entry that leads from the object at a position to the parent tree.
    pub(super) fn parent_key(&self, position: usize, out: &mut Vec<u8>) {
        out.extend_from_slice(b"/StructParent ");
        integer(out, (self.key + position) as i64);
    }

    /// Writes references to the objects of a page, each with a space before it.
    pub(super) fn list(&self, page: usize, out: &mut Vec<u8>) {
        for position in self.starts[page]..self.starts[page + 1] {
            out.push(b' ');
            self.object(position).refer(out);
        }
    }

    /// Writes the key and the element of every one for the parent tree.
    pub(super) fn inverse(&self, out: &mut Vec<u8>) {
        for position in 0..self.count() {
            integer(out, (self.key + position) as i64);
            out.push(b' ');
            self.element(position).refer(out);
            out.push(b' ');
        }
    }
}
