//! The names that renumbered openings go by now.
//!
//! In: marks before and after. Out: marks and sentences of the earlier state in today's names, so that what only bears
//! another name is not told as a difference. May not know: what is at an opening.

use std::collections::BTreeMap;

use super::roll::Openings;

/// Marks now, by marks before.
pub(super) struct Renaming(BTreeMap<String, String>);

impl Renaming {
    /// That of a comparison.
    pub fn of(openings: &Openings) -> Self {
        Renaming(openings.renumbered.iter().map(|it| (it.before.clone(), it.after.clone())).collect())
    }

    /// The renaming that leaves everything as it is called.
    pub fn none() -> Self {
        Renaming(BTreeMap::new())
    }

    /// The mark that an opening goes by now.
    pub fn mark(&self, mark: &str) -> String {
        self.0.get(mark).map_or_else(|| mark.to_owned(), String::clone)
    }

    /// A sentence with the marks in it as they are now. A mark stands between white space and signs of punctuation.
    pub fn words(&self, text: &str) -> String {
        if self.0.is_empty() {
            return text.to_owned();
        }
        let ends = |it: char| it.is_whitespace() || ",;:()/".contains(it);
        text.split_inclusive(ends)
            .map(|piece| {
                let word = piece.trim_end_matches(ends);
                self.mark(word) + &piece[word.len()..]
            })
            .collect()
    }
}
