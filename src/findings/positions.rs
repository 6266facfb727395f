//! Lines and columns of places, and the lines themselves.
//!
//! In: the snapshot and byte ranges. Out: line and column as people count them, and the text of one line in three parts.
//! May not know: what a finding says.

use std::collections::BTreeMap;

use super::{FileId, Files, Place, Span};

/// Line and column of a byte, both from 1; columns count characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// The line on which a span starts, cut where the span starts and ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// Where the span starts.
    pub(super) position: Position,
    /// Text before the span.
    pub(super) before: String,
    /// Text of the span, as far as it stands on this line.
    pub(super) marked: String,
    /// Text after it, without the end of the line.
    pub(super) after: String,
}

/// Finds lines; remembers where they start, for each file that was asked for.
pub struct Positions<'f> {
    files: &'f Files,
    starts: BTreeMap<FileId, Vec<usize>>,
    /// The byte of a file that was asked for last, with the start of its line and its column: findings come in file order, and many on a
    /// long line would have it counted from its start for each of them.
    last: Option<(FileId, usize, usize, usize)>,
}

/// A line that is longer on one side of a mark is shown no further.
const FARTHEST: usize = 2_000;

impl<'f> Positions<'f> {
    /// Nothing found yet.
    pub fn new(files: &'f Files) -> Self {
        Positions { files, starts: BTreeMap::new(), last: None }
    }

    /// Start of the line that holds a byte, and its number from 1.
    fn line_of(&mut self, file: FileId, byte: usize) -> (usize, usize) {
        let bytes = self.files.bytes(file);
        let starts = self.starts.entry(file).or_insert_with(|| {
            let ends = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n');
            std::iter::once(0).chain(ends.map(|(at, _)| at + 1)).collect()
        });
        let number = starts.partition_point(|start| *start <= byte);
        (starts[number - 1], number)
    }

    /// Line and column of a byte.
    pub fn position(&mut self, file: FileId, byte: usize) -> Position {
        let byte = byte.min(self.files.bytes(file).len());
        let (start, line) = self.line_of(file, byte);
        let (from, before) = match self.last {
            Some((known, of, at, column)) if known == file && of == start && at <= byte => (at, column),
            _ => (start, 1),
        };
        let between = text(&self.files.bytes(file)[from..byte], from == 0);
        let column = before + between.chars().count();
        self.last = Some((file, start, byte, column));
        Position { line, column }
    }

    /// A place in one word: `file:line:column`, the file alone, or the word of the command line.
    pub fn show(&mut self, place: &Place) -> String {
        match place {
            Place::File(file) => self.files.path(*file).to_owned(),
            Place::Text { file, span } => {
                let at = self.position(*file, span.start as usize);
                format!("{}:{}:{}", self.files.path(*file), at.line, at.column)
            }
        }
    }

    /// The line on which a span starts; nothing where the span stands further along it than anybody reads.
    pub(super) fn line(&mut self, file: FileId, span: Span) -> Option<Line> {
        let bytes = self.files.bytes(file);
        let from = (span.start as usize).min(bytes.len());
        let to = (span.end as usize).clamp(from, bytes.len());
        let (start, _) = self.line_of(file, from);
        if from - start > FARTHEST {
            return None;
        }
        let shown = &bytes[from..(from + FARTHEST).min(bytes.len())];
        let mut end = from + shown.iter().position(|byte| *byte == b'\n').unwrap_or(shown.len());
        while end > from && bytes.get(end).is_some_and(|byte| byte & 0xC0 == 0x80) {
            end -= 1; // not inside a character
        }
        if end > from && bytes[end - 1] == b'\r' {
            end -= 1;
        }
        let to = to.min(end);
        Some(Line {
            position: self.position(file, from),
            before: text(&bytes[start..from], start == 0),
            marked: text(&bytes[from..to], false),
            after: text(&bytes[to..end], false),
        })
    }
}

/// Bytes as text, whatever they are; the mark of byte order at the start of a file is no column.
fn text(bytes: &[u8], at_start: bool) -> String {
    let text = String::from_utf8_lossy(bytes).into_owned();
    match text.strip_prefix('\u{feff}') {
        Some(rest) if at_start => rest.to_owned(),
        _ => text,
    }
}
