//! The names that renumbered openings go by now.
//!
//! In: marks before and after. Out: marks and sentences of the earlier state in today's names, so that what only bears
//! another name is not told as a difference. May not know: what is at an opening.

use std::collections::BTreeMap;

use super::opening_match::Openings;

/// Marks now, by marks before.
#[derive(Clone, Debug, Default)]
pub struct Renaming(BTreeMap<String, String>);

impl Renaming {
    /// That of a comparison.
    pub(super) fn of(openings: &Openings) -> Self {
        Renaming(openings.renumbered.iter().map(|it| (it.before.clone(), it.after.clone())).collect())
    }

    /// The renaming that leaves everything as it is called.
    pub(super) fn none() -> Self {
        Renaming(BTreeMap::new())
    }

    /// The mark that an opening goes by now.
    pub fn mark(&self, mark: &str) -> String {
        self.0.get(mark).map_or_else(|| mark.to_owned(), String::clone)
    }

    /// A sentence with the marks in it as they are now. A mark stands between white space and signs of punctuation.
    pub(super) fn words(&self, text: &str) -> String {
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

    /// What a part of a paper is called now: a heading in words, or a name whose parts stand between dots, such as `sheet.101`.
    pub fn part(&self, name: &str) -> String {
        let dotted = |(mark, now): (&String, &String)| {
            let (before, rest) = name.split_once('.')?;
            let after = rest.strip_prefix(mark.as_str())?;
            (after.is_empty() || after.starts_with('.')).then(|| format!("{before}.{now}{after}"))
        };
        self.0.iter().find_map(dotted).unwrap_or_else(|| self.words(name))
    }
}

#[cfg(test)]
mod tests {
    use super::Renaming;

    #[test]
    fn parts_of_papers_go_by_marks_of_now() {
        let now = Renaming([("105", "106"), ("A.1", "A.2")].map(|(was, is)| (was.to_owned(), is.to_owned())).into());
        let cases = [
            ("sheet.105", "sheet.106"),
            ("sheet.105.2", "sheet.106.2"),
            ("opening-sheet.A.1", "opening-sheet.A.2"),
            ("sheet.1055", "sheet.1055"),
            ("riser.music.1", "riser.music.1"),
            ("105: settings", "106: settings"),
            ("101, 105", "101, 106"),
            ("terminations", "terminations"),
        ];
        for (was, is) in cases {
            assert_eq!(now.part(was), is);
        }
    }
}
