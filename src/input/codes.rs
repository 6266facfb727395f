//! The findings that reading raises.
//!
//! In: nothing. Out: one constant a code, and the list of them. May not know: any file.

use crate::findings::{Code, Papers, Severity};

macro_rules! codes {
    ($($(#[doc = $help:literal])* $name:ident = $id:literal, $says:literal, $why:literal, $example:literal;)*) => {
        $(
            $(#[doc = $help])*
            pub static $name: Code = Code {
                id: $id,
                severity: Severity::Error,
                says: $says,
                why: $why,
                example: $example,
                blocks: Papers::ALL,
            };
        )*
        /// Every code that reading raises.
        pub static CODES: &[&Code] = &[$(&$name),*];
    };
}

codes! {
    /// The file stops being UTF-8.
    NOT_UTF8 = "not-utf8", "the file is not UTF-8 text: {found}",
        "Names and marks would come out wrong on the papers if the program guessed which old code page was meant.",
        "mark,site  (saved by a spreadsheet as \"CSV (Windows)\")";
    /// Nothing in the file.
    EMPTY_FILE = "empty-file", "the file is empty",
        "An empty file is most often a failed save or a file that a sync program has not fetched yet.", "";
    /// More than a file of a job can hold.
    TOO_LARGE = "too-large", "the file is too large to be read: {found}",
        "A job of ten thousand openings stays far below the bounds; a larger file is most often another one than was meant.", "";
    /// TOML syntax.
    NOT_TOML = "not-toml", "this is not TOML: {found}",
        "This text cannot be read at all, so nothing is reported missing from this file until it can.",
        "width = 3 ft 0 in";
    /// The same key twice.
    DUPLICATE_KEY = "duplicate-key", "`{found}` is written twice",
        "Only one of the two values could be used, and it is not clear which was meant.",
        "site = \"main\"\nsite = \"annex\"";
    /// A key that the table does not know.
    UNKNOWN_KEY = "unknown-key", "`{found}` is not a key of this table",
        "A mistyped key would otherwise be ignored without notice, with its effect.",
        "widht = \"3 ft 0 in\"";
    /// A key that must be there.
    MISSING_KEY = "missing-key", "{found} missing here",
        "The entry cannot be used without it.", "[[document]]\nnumber = \"A-601\"";
    /// A table where a text belongs, and the like.
    WRONG_TYPE = "wrong-type", "{found} is of the wrong type",
        "A value of another type would have to be guessed.", "width = 36";
    /// A number with a point, without quotes.
    BARE_DECIMAL = "bare-decimal", "{found} has no quotes",
        "Money and rates are exact. A bare number with a point is a binary fraction in TOML and would lose its last digits.",
        "price = 12.50";
    /// A measure that cannot be read.
    BAD_MEASURE = "bad-measure", "{found} is not a measure that is allowed here",
        "Lengths, weights and other measures have their unit, so that it is clear which was meant.",
        "width = \"36\"";
    /// A text that could be read in two ways.
    AMBIGUOUS = "ambiguous", "{found} can be read in more than one way",
        "The two readings differ enough to make a part that does not fit.", "width = \"3-6\"";
    /// A measure with a unit of another kind.
    WRONG_UNIT = "wrong-unit", "{found} has the wrong unit",
        "A weight where a length belongs is more often a wrong column or key than a wrong unit.", "width = \"36 lb\"";
    /// A number that cannot be read.
    BAD_NUMBER = "bad-number", "{found} is not a number that is allowed here",
        "The number is used as written, never rounded or guessed.", "share = \"12,5\"";
    /// Outside what the field allows.
    OUT_OF_RANGE = "out-of-range", "{found} is out of range",
        "A value this far out of range is a typing error; it would affect quantities and price.",
        "width = \"36 ft\"";
    /// A word that is not in the list.
    BAD_WORD = "bad-word", "{found} is not one of the words that are allowed here",
        "Each word has a fixed meaning for counts and papers; a word outside the list has none.",
        "hinges = \"lft\"";
    /// A name that cannot serve as an id.
    BAD_ID = "bad-id", "{found} cannot be an id",
        "Ids are used in file names, references and records: letters, digits, `-`, `_` and `.`, at most 64, none in front but a letter or digit.",
        "site = \"main / east\"";
    /// A date that does not exist or is not written as one.
    BAD_DATE = "bad-date", "{found} is not a date that is allowed here",
        "Dates are written year, month, day, so that month and day are not confused.", "date = 2026-02-30";
    /// A text with nothing in it.
    EMPTY_VALUE = "empty-value", "empty text",
        "An empty text prints as a gap. Omit the key if there is no text.", "owner = \"\"";
    /// A character that cannot be printed.
    CONTROL_CHARACTER = "control-character", "{found} is a character that cannot be printed",
        "Control and direction characters come from copying out of other programs; on paper they hide or reverse the text beside them.",
        "mark = \"101A\\u0007\"";
    /// A text longer than the field allows.
    TOO_LONG = "too-long", "the text is too long",
        "It would not fit any form or label it is printed on.", "";
    /// A name used twice.
    DUPLICATE_NAME = "duplicate-name", "`{found}` is defined twice",
        "References to it could mean either.", "[item.strike]  (in two files of the catalog)";
    /// A kind that is not there.
    UNKNOWN_KIND = "unknown-kind", "there is no kind `{found}`",
        "Everything that the kind would give is unknown; nothing more is said about this entry until the kind is found.",
        "kind = \"loby-single\"";
    /// Kinds that are like each other.
    KIND_RING = "kind-ring", "these kinds refer to each other in a circle: {found}",
        "A circle of kinds has no end, so none of them is used.",
        "[kind.a]\nlike = \"b\"\n[kind.b]\nlike = \"a\"";
    /// A key that cannot come from a kind.
    NOT_SHARED = "not-shared", "`{found}` is not allowed in a kind",
        "It belongs to one entry only and is not inherited, so it has no effect here.",
        "[kind.lobby]\nmark = \"101A\"";
    /// A day seen without a survey.
    SEEN_NOT_SURVEYED = "seen-not-surveyed", "`seen` belongs to `standing = \"surveyed\"` only",
        "A day on which something was measured contradicts that it was only drawn, assumed or estimated.",
        "standing = \"assumed\"\nseen = 2026-11-03";
    /// A column that the table does not know.
    UNKNOWN_HEAD = "unknown-head", "`{found}` is not a column of this table",
        "The column would otherwise be ignored without notice.", "mark,leaf.widht";
    /// The same column twice.
    DUPLICATE_HEAD = "duplicate-head", "the column `{found}` occurs twice",
        "Only one of the two could be used, and it is not clear which was meant.", "mark,site,site";
    /// A row with too few cells.
    SHORT_ROW = "short-row", "the row has {found} cells",
        "Cells may have moved to the left, so that every value is under the wrong head.", "mark,site\n101A";
    /// A row with too many cells.
    LONG_ROW = "long-row", "the row has {found} cells",
        "A comma inside a text without quotes moves every later value one column to the right.",
        "mark,site\n101A,main,north";
    /// A quote that is never closed.
    UNCLOSED_QUOTE = "unclosed-quote", "the quote that opens here is never closed",
        "Everything after it, to the end of the file, was taken for one cell.", "101A,\"main";
    /// A file outside of the folders that may be read.
    OUTSIDE_FOLDER = "outside-folder", "`{found}` is outside of {asked}, and was not read",
        "A job or a catalog that comes from another person could otherwise print any file of this machine. A link that leads out counts as outside.",
        "openings = \"../../other-job/openings.csv\"";
}
