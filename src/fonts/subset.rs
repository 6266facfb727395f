//! Subsets: a font file that holds the glyphs of one paper and no others.
//!
//! In: a face and the numbers of the glyphs used. Out: a smaller font file and the new numbers.
//! May not know: text, pages, PDF.

use std::collections::{BTreeMap, BTreeSet};

use subsetter::GlyphRemapper;

use super::faces::{Faces, Style};
use super::unhinted::without_hints;

/// A font file cut down to some glyphs.
#[derive(Clone, Debug)]
pub struct Subset {
    /// The file; it has no character map, since a PDF brings its own.
    pub bytes: Vec<u8>,
    /// The new number of every glyph asked for, and of glyph 0, which stands for what is missing. New numbers rise with
    /// the old ones, without gaps.
    pub glyphs: BTreeMap<u16, u16>,
}

/// A face that cannot be cut down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotSubset {
    /// The face's style.
    pub style: Style,
    /// What the subsetting library says.
    pub fault: String,
}

/// Cuts a face down to the glyphs used.
pub fn subset(faces: &Faces, style: Style, used: &BTreeSet<u16>) -> Result<Subset, NotSubset> {
    let mut remapper = GlyphRemapper::new();
    let mut glyphs = BTreeMap::from([(0, 0)]);
    for glyph in used {
        glyphs.insert(*glyph, remapper.remap(*glyph));
    }
    let cut = subsetter::subset(faces.bytes(style), 0, &remapper)
        .map_err(|fault| NotSubset { style, fault: fault.to_string() })?;
    let bytes =
        without_hints(&cut).ok_or_else(|| NotSubset { style, fault: "its tables do not hold together".to_string() })?;
    Ok(Subset { bytes, glyphs })
}
