//! Faces, shaping, advances, coverage, subsets.
//!
//! In: text and the font faces that ship with the tool.
//! Out: glyph runs with advances, missing characters, and subset font files.
//! May not know: pages, or what the text is about.
