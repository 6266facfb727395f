//! The located tree: what was written, with a place on every key and value.
//!
//! In: pieces that the TOML and CSV readers found. Out: tables, lists and raw values for field tables to read.
//! May not know: which keys are legal or what a value means.

use std::ops::Range;

use crate::findings::{FileId, Place};

/// Text as it reads after quotes and escapes are taken away, which still knows where each byte of it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The text.
    pub text: String,
    file: FileId,
    /// `(offset in text, offset in file)`, one wherever the distance between the two changes; never empty.
    steps: Vec<(u32, u32)>,
}

impl Written {
    /// Text of a file; `steps` says where its bytes stand, first the start of the text.
    pub(super) fn new(text: String, file: FileId, steps: Vec<(u32, u32)>) -> Self {
        Written { text, file, steps }
    }

    /// The place where a range of bytes of the text was written: `0..text.len()` is all of it, without its quotes.
    pub fn place(&self, range: Range<usize>) -> Place {
        let start = self.source(range.start);
        Place::text(self.file, start, self.source(range.end).max(start))
    }

    /// A part of the text, with its places.
    pub(super) fn part(&self, range: Range<usize>) -> Written {
        let mut steps = vec![(0, self.source(range.start) as u32)];
        let inside = self.steps.iter().filter(|(at, _)| *at as usize > range.start && *at as usize <= range.end);
        steps.extend(inside.map(|(at, source)| (at - range.start as u32, *source)));
        Written { text: self.text[range].to_owned(), file: self.file, steps }
    }

    fn source(&self, offset: usize) -> usize {
        let after = self.steps.partition_point(|(at, _)| *at as usize <= offset);
        let (at, source) = self.steps[after.saturating_sub(1)];
        source as usize + offset - (at as usize).min(offset)
    }
}

/// A value with its place.
#[derive(Clone, Debug)]
pub struct Node {
    /// Where it stands, quotes and brackets included.
    pub place: Place,
    /// What stands there.
    pub tree: Tree,
}

/// What was written.
#[derive(Clone, Debug)]
pub enum Tree {
    /// A quoted TOML string.
    Text(Written),
    /// A cell of a table, which may stand for a value of any kind.
    Cell(Written),
    /// A whole number, in decimal digits.
    Integer(String),
    /// A number with a point or exponent, as it was typed.
    Float(String),
    /// True or false.
    Flag(bool),
    /// A date, a time or both, as it was typed.
    Date(String),
    /// A list.
    List(Vec<Node>),
    /// A table.
    Table(Table),
    /// Something on a line that is not TOML, which was reported: whatever reads it is bad without a word.
    Unread,
}

/// Keys and their values, in the order written.
#[derive(Clone, Debug)]
pub struct Table {
    /// Its head, or the whole of an inline table, a row, or the key that opened it.
    pub place: Place,
    /// What it holds.
    pub entries: Vec<Entry>,
}

/// One key of a table.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where it was written.
    pub key_place: Place,
    /// Its value.
    pub node: Node,
}

impl Node {
    /// A table that holds nothing, for a member of which nothing was written; findings about it stand at this place.
    pub fn empty_table(place: Place) -> Self {
        Node { place: place.clone(), tree: Tree::Table(Table { place, entries: Vec::new() }) }
    }
}

impl Table {
    /// The value of a key.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entries.iter().find(|entry| entry.key == key).map(|entry| &entry.node)
    }

    /// Splits off the entries whose keys are positions, such as `1` and `2`: the members of a list that is written with
    /// dotted keys or heads. They come with their positions and in order of them; the rest keep their order.
    pub(super) fn split_positions(&self) -> (Vec<(u32, &Entry)>, Table) {
        let mut members: Vec<(u32, &Entry)> = Vec::new();
        let mut rest = Table { place: self.place.clone(), entries: Vec::new() };
        for entry in &self.entries {
            match position(&entry.key) {
                Some(at) => members.push((at, entry)),
                None => rest.entries.push(entry.clone()),
            }
        }
        members.sort_by_key(|(at, _)| *at);
        (members, rest)
    }
}

/// The position that a key such as `2` stands for, counted from 1.
pub(super) fn position(key: &str) -> Option<u32> {
    let digits = !key.is_empty() && !key.starts_with('0') && key.bytes().all(|byte| byte.is_ascii_digit());
    if digits { key.parse().ok() } else { None }
}
