//! The legal word that is nearest to what was typed.
//!
//! In: a typed word and the legal ones. Out: one of them, or none when nothing is close.
//! May not know: whether the words are keys, heads, names or values.

/// The candidate with the fewest slips (letters wrong, missing, added or swapped), case aside; the first of several.
/// Where more than a third of the letters would be wrong, the one candidate that begins as what was typed: `L` is `left`,
/// `butts` is `butt hinge`. None where none or several do.
pub fn nearest<'c>(typed: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let candidates: Vec<&str> = candidates.into_iter().collect();
    fewest_slips(typed, &candidates).or_else(|| beginning(typed, &candidates))
}

fn beginning<'c>(typed: &str, candidates: &[&'c str]) -> Option<&'c str> {
    let typed = typed.to_lowercase();
    let stem = typed.trim_end_matches(['s', '.', ' ']);
    let mut meant = candidates.iter().filter(|it| !stem.is_empty() && it.to_lowercase().starts_with(stem));
    meant.next().filter(|_| meant.next().is_none()).copied()
}

fn fewest_slips<'c>(typed: &str, candidates: &[&'c str]) -> Option<&'c str> {
    let typed = typed.to_lowercase();
    let allowed = (typed.chars().count() / 3).max(1);
    candidates
        .iter()
        .copied()
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

    #[test]
    fn finds_the_one_word_that_begins_so() {
        let words = ["butt hinge", "continuous hinge", "offset pivot", "center pivot"];
        assert_eq!(nearest("butts", words), Some("butt hinge"));
        assert_eq!(nearest("L", ["left", "right"]), Some("left"));
        assert_eq!(nearest("c", words), None, "two begin so");
        assert_eq!(nearest("s", words), None, "nothing is left to begin with");
    }
}
