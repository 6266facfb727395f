//! Counts with their nouns: the one place where a plural is made.
//!
//! In: a count, a noun of the list. Out: both as text, such as `1 drive` or `3 drives`. May not know: what is counted.

/// A noun that is counted on papers and in findings, in the singular and the plural.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Noun {
    one: &'static str,
    many: &'static str,
}

macro_rules! nouns {
    ($($(#[$doc:meta])* $name:ident = $one:literal, $many:literal;)*) => {
        impl Noun {
            $($(#[$doc])* pub const $name: Noun = Noun { one: $one, many: $many };)*

            /// Every noun of the list.
            pub const ALL: &'static [Noun] = &[$(Noun::$name),*];
        }
    };
}

nouns! {
    /// A cable.
    CABLE = "cable", "cables";
    /// A day of the calendar.
    CALENDAR_DAY = "calendar day", "calendar days";
    /// A branch circuit.
    CIRCUIT = "circuit", "circuits";
    /// A column of screws.
    COLUMN = "column", "columns";
    /// A cored hole.
    CORE = "core", "cores";
    /// A day.
    DAY = "day", "days";
    /// A double egress pair.
    DOUBLE_EGRESS = "double egress pair", "double egress pairs";
    /// A drive of an operator.
    DRIVE = "drive", "drives";
    /// An error.
    ERROR = "error", "errors";
    /// Something to verify on the site.
    FIELD_VERIFICATION = "field verification", "field verifications";
    /// A line of a table.
    LINE = "line", "lines";
    /// A load on a power supply.
    LOAD = "load", "loads";
    /// A month.
    MONTH = "month", "months";
    /// An output of a power supply.
    OUTPUT = "output", "outputs";
    /// A page.
    PAGE = "page", "pages";
    /// A pair of leaves.
    PAIR = "pair", "pairs";
    /// A panel.
    PANEL = "panel", "panels";
    /// A paragraph of a specification.
    PARAGRAPH = "paragraph", "paragraphs";
    /// A person.
    PERSON = "person", "people";
    /// A pole of a breaker.
    POLE = "pole", "poles";
    /// A pull box.
    PULL_BOX = "pull box", "pull boxes";
    /// A rated wall that is firestopped.
    RATED_WALL = "rated wall: firestop", "rated walls: firestop";
    /// A run of raceway or cable.
    RUN = "run", "runs";
    /// A sheet.
    SHEET = "sheet", "sheets";
    /// A single leaf.
    SINGLE = "single", "singles";
    /// A space for a breaker.
    SPACE = "space", "spaces";
    /// A stud.
    STUD = "stud", "studs";
    /// A support of a run.
    SUPPORT = "support", "supports";
    /// A warning.
    WARNING = "warning", "warnings";
    /// A week.
    WEEK = "week", "weeks";
}

impl Noun {
    /// The noun alone, as it stands beside a count.
    pub fn beside(self, count: u64) -> &'static str {
        if count == 1 { self.one } else { self.many }
    }

    /// The count with the noun, such as `1 week` or `2 weeks`.
    pub fn count(self, count: impl Into<u64>) -> String {
        let count = count.into();
        format!("{count} {}", self.beside(count))
    }

    /// The count of a list with the noun.
    pub fn len(self, count: usize) -> String {
        self.count(count as u64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_singular_and_every_other_count_plural() {
        for noun in Noun::ALL {
            assert_ne!(noun.one, noun.many);
            assert_eq!(noun.count(1_u64), format!("1 {}", noun.one));
            for count in [0_u64, 2, 3, 11, 21, 101] {
                assert_eq!(noun.count(count), format!("{count} {}", noun.many));
            }
        }
        assert_eq!(Noun::PERSON.len(2), "2 people");
        assert_eq!(Noun::DRIVE.len(1), "1 drive");
    }
}
