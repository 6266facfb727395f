//! Why a file cannot be enclosed, and what of one is left out.
//!
//! In: what the reading came upon. Out: codes and findings that say what to do. May not know: where the file is named.

use super::limits::{LARGEST_FILE, MOST_PAGES};
use crate::findings::{Code, Finding, Paper, Papers, Severity};

/// The papers that enclose pages of others; one with a sheet left out would look whole.
const SUBMITTAL: Papers = Papers::of(&[Paper::Submittal]);

/// A file whose pages cannot be enclosed.
pub static ENCLOSURE_REFUSED: Code = Code {
    id: "enclosure-refused",
    severity: Severity::Error,
    says: "the pages of {found} cannot be enclosed: {asked}",
    why: "A reviewer returns a submittal with a missing or damaged sheet, and a harmful file must not be sent \
          under the contractor's name.",
    example: "[item.plate-wired]\nsheet = \"sheets/damaged.pdf\"",
    blocks: SUBMITTAL,
};

/// What of a file does not come along with its pages.
pub static ENCLOSURE_REDUCED: Code = Code {
    id: "enclosure-reduced",
    severity: Severity::Warning,
    says: "the pages of {found} are enclosed without {asked}",
    why: "Only what is printed is enclosed; send the file itself where the rest is needed.",
    example: "[item.plate-wired]\nsheet = \"sheets/with-a-form.pdf\"",
    blocks: Papers::NONE,
};

/// A file that is named and not there.
pub static ENCLOSURE_MISSING: Code = Code {
    id: "enclosure-missing",
    severity: Severity::Error,
    says: "there is no file {found}",
    why: "A reviewer returns a submittal with a missing sheet.",
    example: "[item.plate-wired]\nsheet = \"sheets/paltes.pdf\"",
    blocks: SUBMITTAL,
};

/// A page that a file does not have.
pub static ENCLOSURE_PAGE: Code = Code {
    id: "enclosure-page",
    severity: Severity::Error,
    says: "page {found} is requested, and the file has {asked}",
    why: "A page omitted in silence would be missing for the reviewer, and a marked page must be enclosed.",
    example: "sheet_pages = [9]",
    blocks: SUBMITTAL,
};

/// The kinds of finding that this room raises.
pub static CODES: &[&Code] = &[&ENCLOSURE_REFUSED, &ENCLOSURE_REDUCED, &ENCLOSURE_MISSING, &ENCLOSURE_PAGE];

/// Why a file cannot be enclosed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It does not begin as a PDF does.
    NotPdf,
    /// It is larger than we read.
    TooLarge,
    /// It holds something that no PDF holds, or lacks what each has.
    Damaged(&'static str),
    /// Its parts stand in one another deeper than any honest file needs.
    TooDeep,
    /// It unpacks to more than we carry.
    UnpacksTooLarge,
    /// It opens only with a password.
    NeedsPassword,
    /// It is encrypted in a way that we cannot read.
    UnknownLock,
    /// It opens, and whoever made it does not let its content be copied.
    MayNotBeCopied,
    /// It is a paper of ours that stays in the office.
    Internal,
    /// It has no page.
    NoPages,
    /// It has more pages than we enclose.
    TooManyPages,
}

impl Fault {
    /// What is wrong, in words.
    fn says(self) -> String {
        match self {
            Fault::NotPdf => "it is not a PDF".to_owned(),
            Fault::TooLarge => format!("it is larger than {} MB", LARGEST_FILE >> 20),
            Fault::Damaged(what) => format!("it is damaged: {what}"),
            Fault::TooDeep => "its parts are nested too deeply".to_owned(),
            Fault::UnpacksTooLarge => "it unpacks to more than any sheet needs".to_owned(),
            Fault::NeedsPassword => "it opens only with a password".to_owned(),
            Fault::UnknownLock => "its encryption is not supported".to_owned(),
            Fault::MayNotBeCopied => "its author does not permit its content to be copied".to_owned(),
            Fault::Internal => "it is a paper of our own that stays in the office".to_owned(),
            Fault::NoPages => "it has no page".to_owned(),
            Fault::TooManyPages => format!("it has more than {MOST_PAGES} pages"),
        }
    }

    /// What to do about it.
    fn advice(self) -> &'static str {
        match self {
            Fault::NotPdf => "name a PDF file",
            Fault::TooLarge | Fault::TooManyPages => "print the pages that are needed to a new PDF, and name that",
            Fault::Damaged(_) | Fault::TooDeep | Fault::UnpacksTooLarge | Fault::UnknownLock => {
                "get the file again from its source, or open it and print it to a new PDF"
            }
            Fault::NeedsPassword | Fault::MayNotBeCopied => "ask its source for a copy without protection",
            Fault::Internal => "name the maker's sheet; internal papers do not leave the office",
            Fault::NoPages => "name a file that has the pages",
        }
    }

    /// Completes a finding that was begun with its subject and place.
    pub(super) fn tell(self, finding: Finding, name: &str) -> Finding {
        finding.found(name).asked(self.says()).advise(self.advice())
    }
}

/// What of a file does not come along.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct LeftBehind {
    pub(super) fields: bool,
    pub(super) links: bool,
    pub(super) unseen_notes: bool,
    pub(super) layers: bool,
    pub(super) scripts: bool,
    pub(super) files: bool,
    pub(super) lock: bool,
}

impl LeftBehind {
    /// What is lost in words; none where nothing is.
    pub(super) fn says(self) -> Option<String> {
        let said = [
            (self.fields, "its form fields (they are drawn as they are filled in)"),
            (self.links, "its links"),
            (self.unseen_notes, "notes that have no picture of their own"),
            (self.layers, "its layers (all of them are shown)"),
            (self.scripts, "its scripts and actions"),
            (self.files, "the files attached to it"),
            (self.lock, "its encryption"),
        ];
        let said: Vec<&str> = said.into_iter().filter(|(is, _)| *is).map(|(_, words)| words).collect();
        (!said.is_empty()).then(|| said.join(", "))
    }
}
