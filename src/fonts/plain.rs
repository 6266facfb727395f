//! Characters that steer line breaks and nothing else, and what a reader gets when they are copied.
//!
//! In: text as the papers hold it, with no-break characters that keep trade text whole. Out: plain text; which characters
//! print nothing and which spaces are made from the ordinary one. May not know: faces, pages.

use std::borrow::Cow;

/// Whether a character prints nothing: it allows or forbids a break, or marks the order of bytes.
/// A soft hyphen is among them: whoever breaks a line there sets a hyphen.
pub(super) fn is_dropped(character: char) -> bool {
    matches!(character, '\u{AD}' | '\u{200B}'..='\u{200D}' | '\u{2060}' | '\u{FEFF}')
}

/// Whether a space has a width by definition, which the shaper makes from the ordinary space where a face lacks it.
/// Unicode 16.0, section 6.2, table 6-2.
pub(super) fn is_synthetic_space(character: char) -> bool {
    matches!(character, '\u{A0}' | '\u{2000}'..='\u{200A}' | '\u{202F}' | '\u{205F}')
}

/// What a character becomes when it is copied from a paper: an ordinary space, a plain hyphen, nothing, or itself.
pub(super) fn plain_character(character: char) -> Option<char> {
    match character {
        dropped if is_dropped(dropped) => None,
        space if is_synthetic_space(space) => Some(' '),
        '\u{2010}' | '\u{2011}' => Some('-'),
        other => Some(other),
    }
}

/// Text as a reader copies it from a paper or searches for it: no-break spaces and hyphens are ordinary ones, joiners are
/// gone.
pub fn plain(text: &str) -> Cow<'_, str> {
    if text.chars().all(|character| plain_character(character) == Some(character)) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.chars().filter_map(plain_character).collect())
}
