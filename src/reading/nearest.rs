//! The legal word that is nearest to what was typed.
//!
//! In: a typed word and the legal ones. Out: one of them, or none when nothing is close.
//! May not know: whether the words are keys, heads, names or values.

/// The candidate with the fewest slips (letters wrong, missing, added or swapped), case aside; the first of several.
/// None where more than a third of the letters would be wrong.
pub fn nearest<'c>(typed: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let typed = typed.to_lowercase();
    let allowed = (typed.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&typed, &candidate.to_lowercase()), candidate))
        .filter(|(slips, candidate)| *slips <= allowed && *slips < candidate.chars().count())
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

/// Words in a row: `a, b or c`, with `joint` before the last.
pub(super) fn row(words: &[&str], joint: &str) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} {joint} {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn finds_the_word_with_the_fewest_slips() {
        let keys = ["width", "height", "weight", "hinges"];
        assert_eq!(nearest("widht", keys), Some("width"));
        assert_eq!(nearest("Hieght", keys), Some("height"));
        assert_eq!(nearest("colour", keys), None);
        assert_eq!(nearest("x", ["a", "b"]), None, "every letter wrong is not near");
    }
}
