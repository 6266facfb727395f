//! Texts as findings show them and as TOML writes them.
//!
//! In: texts as they were typed. Out: the same, cut, with what cannot be seen as codes, or in quotes. May not know: what a text says.

/// A text with its unprintable characters written as codes, cut after 60 characters.
pub(super) fn visible(text: &str) -> String {
    let shown = |it: char| if is_unprintable(it) { format!("U+{:04X}", u32::from(it)) } else { it.to_string() };
    let mut out: String = text.chars().take(60).map(shown).collect();
    if text.chars().nth(60).is_some() {
        out.push('…');
    }
    out
}

/// Characters that are refused in any text: controls, line and paragraph separators, marks that turn the direction of
/// writing, and the byte order mark inside a text.
pub(super) fn is_unprintable(it: char) -> bool {
    it.is_control()
        || matches!(it, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{feff}')
}

/// A text as TOML writes it.
pub fn quoted(text: &str) -> String {
    if text.contains('"') && !text.contains(['\'', '\n', '\r']) {
        return format!("'{text}'");
    }
    let escape = |it: char| match it {
        '"' | '\\' => format!("\\{it}"),
        '\n' => "\\n".to_owned(),
        it if it.is_control() => format!("\\u{:04X}", u32::from(it)),
        it => it.to_string(),
    };
    format!("\"{}\"", text.chars().map(escape).collect::<String>())
}
