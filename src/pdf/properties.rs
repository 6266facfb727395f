//! What a file says about itself, besides its pages.
//!
//! In: words and a date from the caller. Out: the same, checked where the format asks. May not know: the clock.

/// A calendar day, as the job gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Day {
    /// The year, four digits.
    pub year: u16,
    /// The month, 1 to 12.
    pub month: u8,
    /// The day of the month, 1 to 31.
    pub day: u8,
}

/// Which standards the file says that it keeps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Claim {
    /// PDF/UA-1 (ISO 14289-1) and PDF/A-2a (ISO 19005-2).
    #[default]
    Accessible,
    /// None: a file that holds the pages of others.
    Nothing,
}

/// What a file says about itself. Title and language come with the block tree.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Properties {
    /// Who made the paper: a firm or a person.
    pub author: String,
    /// What it is about, in a few words.
    pub subject: String,
    /// Its date; none leaves the dates out.
    pub date: Option<Day>,
    /// The fingerprint of the values printed, whole, in hex. The paper itself prints it short.
    pub fingerprint: String,
    /// Whether the paper stays in the office. Its file carries a mark by which it is known and never enclosed in another.
    pub internal: bool,
    /// The standards that it keeps.
    pub claim: Claim,
}
