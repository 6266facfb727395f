//! Vocabularies: closed lists of words, each with a line of help.
//!
//! In: `vocabulary!` with variants, words and help. Out: an enum that is read from its words, with the nearest as a hint.
//! May not know: what a word means.

use super::Word;
use super::nearest::nearest;
use super::{Fix, Raw, Refusal, codes};

/// An enum made by `vocabulary!`.
pub trait Vocabulary: Copy + Eq + 'static {
    /// Every value, in order.
    const ALL: &'static [Self];
    /// Word and help of every value, in the same order.
    const WORDS: &'static [Word];
    /// Other spellings that are read, and never printed or proposed.
    const SPELLINGS: &'static [(&'static str, Self)];

    /// The word a person types for it.
    fn word(self) -> &'static str;
}

/// Declares a closed list of words as an enum. A word may be read in another spelling too, so that files typed before it was
/// changed are still read.
///
/// ```text
/// vocabulary! {
///     /// Which edge hangs.
///     pub enum HingeEdge {
///         /// Hinges at the left.
///         Left = "left",
///         /// No edge: it turns about its center.
///         Center = "center" or "centre",
///     }
/// }
/// ```
macro_rules! vocabulary {
    (
        $(#[doc = $about:literal])*
        $vis:vis enum $name:ident {
            $(
                $(#[doc = $help:literal])*
                $variant:ident = $word:literal $(or $spelling:literal)*
            ),* $(,)?
        }
    ) => {
        $(#[doc = $about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $name {
            $($(#[doc = $help])* $variant,)*
        }

        impl $name {
            /// Every value, in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];

            /// The word a person types for it.
            pub fn word(self) -> &'static str {
                match self {
                    $($name::$variant => $word,)*
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }

        impl $crate::input::Vocabulary for $name {
            const ALL: &'static [Self] = $name::ALL;
            const WORDS: &'static [$crate::input::Word] = &[$(
                $crate::input::Word { word: $word, help: concat!($($help),*).trim_ascii() }
            ),*];
            const SPELLINGS: &'static [(&'static str, Self)] = &[$($(($spelling, $name::$variant),)*)*];

            fn word(self) -> &'static str {
                $name::word(self)
            }
        }

        impl $crate::input::Scalar for $name {
            const WORDS: &'static str = "a word";

            fn from_raw(
                raw: $crate::input::Raw<'_>,
                _: &$crate::input::Reader<'_>,
            ) -> Result<Self, $crate::input::Refusal> {
                $crate::input::read_word(raw)
            }

            fn readable(&self, _: $crate::measure::System) -> String {
                self.word().to_owned()
            }

            fn words() -> Option<&'static [$crate::input::Word]> {
                Some(<$name as $crate::input::Vocabulary>::WORDS)
            }
        }

        $crate::input::scalar_fields!($name);
    };
}
pub(crate) use vocabulary;

/// Reads a word of a vocabulary, capitals and small letters alike.
///
/// # Errors
/// A refusal that lists all words, and names the nearest.
pub fn read_word<V: Vocabulary>(raw: Raw<'_>) -> Result<V, Refusal> {
    let list: Vec<&str> = V::WORDS.iter().map(|word| word.word).collect();
    let asked = list.join(", ");
    let typed = match raw {
        Raw::Text(text) | Raw::Cell(text) => text,
        Raw::Integer(text) | Raw::Float(text) if list.contains(&text) => {
            return Err(Refusal::wrong_type().asked(asked).fix(Fix::Text(text.to_owned())));
        }
        _ => return Err(Refusal::wrong_type().asked(format!("one of {asked}"))),
    };
    if let Some(at) = list.iter().position(|word| word.eq_ignore_ascii_case(typed)) {
        return Ok(V::ALL[at]);
    }
    if let Some((_, value)) = V::SPELLINGS.iter().find(|(spelling, _)| spelling.eq_ignore_ascii_case(typed)) {
        return Ok(*value);
    }
    let refusal = Refusal::new(&codes::BAD_WORD).asked(asked);
    Err(match nearest(typed, list.iter().copied()) {
        Some(word) => refusal.fix(Fix::Text(word.to_owned())),
        None => refusal,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    vocabulary! {
        /// Where a leaf turns.
        pub enum Turns {
            /// About an edge.
            Edge = "edge",
            /// About its center.
            Center = "center" or "centre" or "middle",
        }
    }

    #[test]
    fn another_spelling_is_read_and_never_proposed() {
        for typed in ["center", "Center", "centre", "MIDDLE"] {
            assert_eq!(read_word::<Turns>(Raw::Text(typed)).ok(), Some(Turns::Center), "{typed}");
        }
        assert_eq!(Turns::Center.word(), "center");
        let refusal = read_word::<Turns>(Raw::Cell("centrum")).expect_err("no such word");
        assert!(!format!("{refusal:?}").contains("centre"), "{refusal:?}");
    }
}
