//! Faces, shaping, advances, coverage, subsets.
//!
//! In: text and the font faces that ship with the tool.
//! Out: glyph runs with advances, missing characters, and subset font files.
//! May not know: pages, or what the text is about.

mod character_map;
mod faces;
mod fractions;
mod plain;
mod shaper;
mod subset;
mod unhinted;

pub use character_map::with_characters;
pub use faces::{Faces, Style, Unreadable};
pub use plain::plain;
pub use shaper::{Features, Glyph, Run, Setter, Shaped};
pub use subset::{NotSubset, Subset, subset};

use crate::findings::{Code, Finding, Papers, Severity, Subject};

/// A character that the faces cannot print.
pub static MISSING_CHARACTER: Code = Code {
    id: "missing-character",
    severity: Severity::Error,
    says: "{subject} holds {found}, which the typeface cannot print",
    why: "A character that the typeface does not have would print as nothing or as an empty box, and a reader could not \
          know what stood there. Latin, Greek and Cyrillic letters, figures and the signs of the trade are all there.",
    example: "client = \"山田工業\"",
    blocks: Papers::ALL,
};

/// The kinds of finding that this room raises.
pub static CODES: &[&Code] = &[&MISSING_CHARACTER];

/// The finding for a character that the faces cannot print; its place is for the caller to add.
pub fn missing_character(subject: Subject, character: char) -> Finding {
    let shown = if character.is_control() { String::new() } else { format!(" ({character})") };
    Finding::new(&MISSING_CHARACTER, subject)
        .found(format!("the character U+{:04X}{shown}", character as u32))
        .advise("write it in Latin, Greek or Cyrillic letters")
}

#[cfg(test)]
mod tests;
