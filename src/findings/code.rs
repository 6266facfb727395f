//! Codes of findings: one constant each, owned by the room that raises it.
//!
//! In: nothing. Out: the name, severity, sentence, reason and example of a kind of finding, the same for the terminal,
//! JSON, `explain` and the reference page. May not know: any one finding.

use super::Papers;

/// How much a finding matters, and what it does to the papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// A contradiction, or a line that cannot be read or priced. Holds the papers that it names.
    Error,
    /// Something a person must decide; holds nothing, and may be accepted with a reason, which is printed.
    Warning,
    /// Cannot be known from the file; printed as a check for the site.
    FieldVerify,
}

impl Severity {
    /// The word printed before the code.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::FieldVerify => "field-verify",
        }
    }
}

/// A kind of finding.
///
/// A room lists its codes in a `CODES` slice; the pipeline joins the slices into the one registry that `explain` reads.
#[derive(Debug)]
pub struct Code {
    /// Code words, lower case, joined by hyphens, such as `unknown-key`.
    pub id: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// The sentence, with `{subject}`, `{found}`, `{asked}` and `{margin}` where a finding's own words go.
    /// Lower case, no final stop.
    pub says: &'static str,
    /// Why it matters, one or two sentences.
    pub why: &'static str,
    /// A small input that raises it, as a person would type it.
    pub example: &'static str,
    /// The papers that it holds unless the finding says otherwise; always empty for anything but an error.
    pub blocks: Papers,
}

impl PartialEq for Code {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Code {}
