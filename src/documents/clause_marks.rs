//! How well a clause is known, as papers show it: a mark in the line, explained once in a key.
//!
//! In: citations of findings, which say it in words. Out: citations with marks, and the key of those that occur. May not know: which
//! paper prints them.

/// Words of a citation and the mark that papers print instead, with what the key says of it.
const MARKS: [(&str, &str, &str); 2] = [
    (" (secondary)", "\u{2020}", "\u{2020} Clause cited from a secondary source."),
    (" (from memory)", "\u{2021}", "\u{2021} Clause cited from memory; verify against the published text."),
];

/// A citation with marks instead of words.
pub(super) fn marked(clause: &str) -> String {
    let clause =
        clause.replace(" (secondary; advice)", " (secondary) (advisory)").replace("(read, by analogy)", "(by analogy)");
    MARKS.iter().fold(clause, |clause, (words, mark, _)| clause.replace(words, mark))
}

/// The key of the marks that occur in some citations; empty where none does.
pub(super) fn key<'c>(clauses: impl IntoIterator<Item = &'c str>) -> String {
    let all: String = clauses.into_iter().collect();
    let said = MARKS.iter().filter(|(_, mark, _)| all.contains(mark)).map(|(_, _, says)| *says);
    said.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clause_that_was_not_read_has_a_mark_and_the_key_explains_those_that_occur() {
        let read = marked("ADA 2010 404.2.5");
        let memory = marked("NFPA 80 2016 4.1.3 (from memory)");
        let advice = marked("NEC 210.19(A) note (secondary; advice)");
        assert_eq!((read.as_str(), memory.as_str()), ("ADA 2010 404.2.5", "NFPA 80 2016 4.1.3\u{2021}"));
        assert_eq!(advice, "NEC 210.19(A) note\u{2020} (advisory)");
        assert_eq!(key([read.as_str()]), "");
        assert_eq!(key([read.as_str(), &memory]), MARKS[1].2);
        assert_eq!(key([advice.as_str(), &memory]), format!("{} {}", MARKS[0].2, MARKS[1].2));
    }
}
