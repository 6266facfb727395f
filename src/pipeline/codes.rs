//! Codes of findings that belong to no room below: files of papers, and the folder of templates.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use crate::findings::{Code, Papers, Severity};

/// Two papers that would be written to one file.
pub(super) static ONE_FILE: Code = Code {
    id: "one-file",
    severity: Severity::Error,
    says: "two papers would be written to one file, `{found}`",
    why: "The second would take the place of the first, which would be missing from what goes out. Capitals count as small letters, \
          since many disks take them for the same.",
    example: "[[transmittal]]\nsection = \"08 71 13\"\nnumber = \"1\"\n\n[[transmittal]]\nsection = \"087113\"\nnumber = \"1\"",
    blocks: Papers::ALL,
};

/// A template of one's own that is not text.
pub(super) static TEMPLATE_NOT_TEXT: Code = Code {
    id: "template-not-text",
    severity: Severity::Error,
    says: "the template `{found}` cannot be read: {asked}",
    why: "Papers would be set with the template that ships with the program instead, and look right.",
    example: "hingewright issue job.toml --templates my-templates   # where bid.xml was saved in another code",
    blocks: Papers::ALL,
};

/// A template of one's own that nothing uses.
pub(super) static TEMPLATE_NOT_USED: Code = Code {
    id: "template-not-used",
    severity: Severity::Warning,
    says: "no paper is set with the template `{found}`, and no other template includes it",
    why: "A template is used where it has the name of one that ships with the program; under another name it changes nothing.",
    example: "hingewright issue job.toml --templates my-templates   # where the folder holds bids.xml",
    blocks: Papers::NONE,
};

/// A leaf that hung otherwise in a recorded issue.
pub(super) static HAND_CHANGED: Code = Code {
    id: "hand-changed",
    severity: Severity::Warning,
    says: "the hand changes from {asked} to {found}, against the recorded issue",
    why: "Parts of one hand were submitted or ordered by the earlier issue. An outside that was moved to the other room mirrors a door \
          whose hinges and swing were left as they were.",
    example: "[[opening]]\noutside = \"Lobby\"   # and \"Street\" in the recorded issue, with the same hinges and swing",
    blocks: Papers::NONE,
};

/// The codes of this file.
pub(super) static CODES: &[&Code] = &[&ONE_FILE, &TEMPLATE_NOT_TEXT, &TEMPLATE_NOT_USED, &HAND_CHANGED];
