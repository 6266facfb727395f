//! Where words may be broken at the end of a line.
//!
//! In: a text and its language. Out: bytes between letters. May not know: widths.
//!
//! English words of six letters and more in small letters only: names, marks and all that holds a figure or is glued by a
//! no-break character stay whole. The patterns are those of Liang's method for English, which come with the library.

use hypher::Lang;

/// The shortest word that is broken, in letters.
const SHORTEST: usize = 6;

/// The bytes where a word of a text may be broken, in order; none where its language is not English.
pub fn hyphens(text: &str, lang: &str) -> Vec<usize> {
    let english = lang.split('-').next().is_some_and(|lang| lang.eq_ignore_ascii_case("en"));
    if !english {
        return Vec::new();
    }
    let mut at = 0;
    let mut breaks = Vec::new();
    for word in text.split_inclusive(' ') {
        breaks.extend(inside(word).map(|inside| at + inside));
        at += word.len();
    }
    breaks
}

/// The breaks inside what stands between two spaces, punctuation left out.
fn inside(word: &str) -> impl Iterator<Item = usize> {
    let from = word.len() - word.trim_start_matches(is_punctuation).len();
    let core = word[from..].trim_end_matches(|letter: char| letter == ' ' || is_punctuation(letter));
    let whole = core.len() < SHORTEST || !core.bytes().all(|byte| byte.is_ascii_lowercase());
    let syllables = (!whole).then(|| hypher::hyphenate(core, Lang::English));
    let mut at = from;
    let mut ends: Vec<usize> = syllables
        .into_iter()
        .flatten()
        .map(|syllable| {
            at += syllable.len();
            at
        })
        .collect();
    ends.pop(); // the end of the word
    ends.into_iter()
}

fn is_punctuation(letter: char) -> bool {
    matches!(letter, '(' | ')' | ',' | '.' | ';' | ':' | '!' | '?' | '“' | '”')
}

#[cfg(test)]
mod tests {
    use super::hyphens;

    fn shown(text: &str, lang: &str) -> String {
        let mut shown = text.to_string();
        hyphens(text, lang).into_iter().rev().for_each(|at| shown.insert(at, '|'));
        shown
    }

    #[test]
    fn english_words_are_broken_where_liangs_patterns_allow() {
        // hy-phen-ation is the example of Liang's thesis (Word Hy-phen-a-tion by Com-put-er, 1983, page 37) for these patterns.
        assert_eq!(shown("hyphenation (hyphenation).", "en-US"), "hy|phen|ation (hy|phen|ation).");
        for whole in
            ["Saltmarsh", "3'-0\"\u{a0}x\u{a0}7'-0\"", "low\u{2011}energy", "101A", "LHRLHR", "header/arm", "plate"]
        {
            assert_eq!(shown(whole, "en-US"), whole);
        }
        assert_eq!(shown("hyphenation", "de"), "hyphenation");
    }
}
