//! Names and flags of field tables, worked out while compiling.
//!
//! In: identifiers as the macros see them. Out: keys as a person types them, papers that a field holds.
//! May not know: any record.

use crate::findings::{Paper, Papers};

/// The flags that a field may have.
pub const FLAGS: &[&str] =
    &["inherits", "needed", "undoable", "blocks", "refers", "default", "option", "slot", "apart"];

/// The flags that a record may have.
pub const MODES: &[&str] = &["stands", "blocks", "called", "short"];

/// A flag as it was written, with what is inside its brackets, word by word.
pub type Flag = (&'static str, &'static [&'static str]);

/// Whether the absence of a field can be reported where its record is read: what is needed comes from no kind.
pub const fn absence_is_plain(flags: &[&str]) -> bool {
    !(has(flags, "needed") && has(flags, "inherits"))
}

/// Whether a flag was written.
pub const fn flagged(flags: &[Flag], word: &str) -> bool {
    inside(flags, word).is_some()
}

/// What is inside the brackets of a flag, where it was written.
pub const fn inside(flags: &[Flag], word: &str) -> Option<&'static [&'static str]> {
    let mut at = 0;
    while at < flags.len() {
        if same(flags[at].0.as_bytes(), word.as_bytes()) {
            return Some(flags[at].1);
        }
        at += 1;
    }
    None
}

/// How many bytes the key of a field's name has.
pub const fn key_length(name: &str) -> usize {
    let bytes = name.as_bytes();
    if is_raw(bytes) { bytes.len() - 2 } else { bytes.len() }
}

/// The key of a field's name: the same, without `r#`. Rules call facts by the same words, so keys have no hyphens.
pub const fn key<const N: usize>(name: &str) -> [u8; N] {
    let bytes = name.as_bytes();
    let skip = bytes.len() - N;
    let mut out = [0; N];
    let mut at = 0;
    while at < N {
        out[at] = bytes[at + skip];
        at += 1;
    }
    out
}

const fn is_raw(bytes: &[u8]) -> bool {
    bytes.len() > 2 && bytes[0] == b'r' && bytes[1] == b'#'
}

/// Whether a word is in a list.
pub const fn has(words: &[&str], word: &str) -> bool {
    let mut at = 0;
    while at < words.len() {
        if same(words[at].as_bytes(), word.as_bytes()) {
            return true;
        }
        at += 1;
    }
    false
}

const fn same(a: &[u8], b: &[u8]) -> bool {
    if a.len() != b.len() {
        return false;
    }
    let mut at = 0;
    while at < a.len() {
        if a[at] != b[at] {
            return false;
        }
        at += 1;
    }
    true
}

/// The papers named; a word that names none stops the compiler.
pub const fn papers(words: &[&str]) -> Papers {
    let mut held = Papers::NONE;
    let mut at = 0;
    while at < words.len() {
        held = held.with(Papers::of(&[paper(words[at])]));
        at += 2; // a comma stands between two words
    }
    held
}

const fn paper(word: &str) -> Paper {
    let mut at = 0;
    while at < Paper::ALL.len() {
        if same(Paper::ALL[at].word().as_bytes(), word.as_bytes()) {
            return Paper::ALL[at];
        }
        at += 1;
    }
    panic!("blocks(...) names papers")
}

/// The papers that a field holds: those it names, else those its record names, else every one.
pub const fn blocks(field: &[Flag], record: &[Flag]) -> Papers {
    match (inside(field, "blocks"), inside(record, "blocks")) {
        (Some(own), _) => papers(own),
        (None, Some(shared)) => papers(shared),
        (None, None) => Papers::ALL,
    }
}

/// The range of a field, where one was written.
pub const fn range(written: &[(&'static str, &'static str)]) -> Option<(&'static str, &'static str)> {
    if written.is_empty() { None } else { Some(written[0]) }
}
