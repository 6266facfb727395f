//! A text made ready for breaking: where its lines may end, and how wide everything before each letter is.
//!
//! In: shaped letters and objects one after the other. Out: the end of the line that fits into a width. May not know: how a
//! line is placed, or blocks.

use std::sync::Arc;

use super::setting::Setting;
use crate::fonts::{Faces, Run, Style};
use crate::markup::{BlockId, Inline, Mp};

/// A part of a text of one look, before it is broken.
pub struct Part<'t> {
    /// Its first byte.
    pub start: usize,
    /// One past its last byte.
    pub end: usize,
    /// What it is.
    pub thing: LineContent<'t>,
}

/// What stands on a line.
pub enum LineContent<'t> {
    /// Letters, shaped as if they were all on one line.
    Letters {
        /// The letters.
        run: Arc<Run>,
        /// Their size.
        size: Mp,
        /// The block that they lead to.
        to: Option<BlockId>,
    },
    /// A box to check or a blank.
    Object {
        /// Which.
        inline: &'t Inline,
        /// How wide its place is.
        width: Mp,
    },
}

/// A text without line ends inside, made ready for breaking.
pub struct PreparedText<'t> {
    /// All of it; a letter stands for each object.
    pub flat: String,
    /// What it is made of.
    pub parts: Vec<Part<'t>>,
    /// Bytes where a line may be cut between letters, each with the width of all before it; first and last included.
    pub stops: Vec<(usize, Mp)>,
    /// Bytes where a line may end, those inside words among them.
    pub breaks: Vec<usize>,
    /// Bytes inside words, where a line that ends gets a hyphen.
    pub hyphens: Vec<usize>,
    /// How wide that is.
    pub hyphen: Mp,
}

impl Part<'_> {
    /// The size of its letters, or of the text around it.
    pub fn size(&self, setting: Setting) -> Mp {
        match self.thing {
            LineContent::Letters { size, .. } => size,
            LineContent::Object { .. } => setting.size,
        }
    }
}

impl PreparedText<'_> {
    /// The width of all before a byte.
    pub fn x(&self, at: usize) -> Mp {
        let next = self.stops.partition_point(|(stop, _)| *stop < at);
        self.stops.get(next).or(self.stops.last()).map_or(Mp::ZERO, |(_, x)| *x)
    }

    /// The end of the visible text of a line.
    pub fn trimmed(&self, start: usize, end: usize) -> usize {
        start + self.flat[start..end].trim_end_matches(' ').len()
    }

    /// Where the line that begins at `start` ends.
    pub fn line_end(&self, start: usize, room: Mp) -> usize {
        let limit = self.x(start) + room;
        let first = self.breaks.partition_point(|at| *at <= start);
        let end = |at: usize| self.x(self.trimmed(start, at));
        let within = self.breaks[first..].iter().take_while(|at| end(**at) <= limit);
        let hyphen = |at: usize| if self.is_hyphen(at) { self.hyphen } else { Mp::ZERO };
        let fits = within.filter(|at| end(**at) + hyphen(**at) <= limit).last();
        if let Some(end) = fits {
            return *end;
        }
        // A word wider than the column: as many letters as fit, and at least one.
        let first = self.stops.partition_point(|(at, _)| *at <= start);
        let fitting = self.stops[first..].iter().take_while(|(_, x)| *x <= limit).last();
        fitting.or(self.stops.get(first)).map_or(self.flat.len(), |(at, _)| *at)
    }

    /// Whether a line that ends at a byte ends inside a word.
    pub fn is_hyphen(&self, at: usize) -> bool {
        self.hyphens.binary_search(&at).is_ok()
    }

    /// The look of the letters before a byte.
    pub fn look_before(&self, at: usize) -> Option<(Style, Mp)> {
        let part = self.parts.iter().find(|part| part.start < at && at <= part.end)?;
        match &part.thing {
            LineContent::Letters { run, size, .. } => Some((run.style, *size)),
            LineContent::Object { .. } => None,
        }
    }

    /// Whether a line holds one letter, which cannot be broken.
    pub fn is_last_resort(&self, start: usize, end: usize) -> bool {
        let first = self.stops.partition_point(|(at, _)| *at <= start);
        self.stops.get(first).is_none_or(|(at, _)| *at >= end)
    }
}

/// Bytes where a line may be cut between letters, each with the width of all before it.
pub fn stops(flat: &str, parts: &[Part<'_>], faces: &Faces) -> Vec<(usize, Mp)> {
    let mut stops = Vec::with_capacity(flat.len() + 1);
    let mut x = Mp::ZERO;
    for part in parts {
        match &part.thing {
            LineContent::Object { width, .. } => {
                stops.push((part.start, x));
                x += *width;
            }
            LineContent::Letters { run, size, .. } => {
                let units = i64::from(faces.units_per_em(run.style));
                let mut advance = 0;
                for glyph in &run.glyphs {
                    let at = part.start + glyph.cluster as usize;
                    if stops.last().is_none_or(|(last, _)| *last < at) && !is_mark(&flat[at..]) {
                        stops.push((at, x + size.scaled(advance, units)));
                    }
                    advance += i64::from(glyph.advance);
                }
                x += size.scaled(advance, units);
            }
        }
    }
    stops.push((flat.len(), x));
    stops
}

/// Whether a text begins with a mark that belongs to the letter before it.
fn is_mark(text: &str) -> bool {
    matches!(text.chars().next(), Some('\u{300}'..='\u{36F}' | '\u{200D}' | '\u{FE00}'..='\u{FE0F}'))
}
