//! What can be wrong with a paper once it is set.
//!
//! In: nothing. Out: the codes of this room's findings. May not know: any one paper.

use crate::findings::{Code, Papers, Severity};

/// A table whose columns need more width than the page has.
pub static TABLE_TOO_WIDE: Code = Code {
    id: "table-too-wide",
    severity: Severity::Error,
    says: "the columns of this table need {found}, and there are {asked}",
    why: "A cell is never clipped; a table that does not fit must be laid out again by its author.",
    example: "<col w=\"5in\"/><col w=\"5in\"/>",
    blocks: Papers::ALL,
};

/// A figure whose drawing is not among those that came with the view.
pub static UNKNOWN_DRAWING: Code = Code {
    id: "unknown-drawing",
    severity: Severity::Error,
    says: "there is no drawing of the key {found}",
    why: "A figure left out in silence would leave the words that point to it without their picture.",
    example: "<figure drawing=\"paln\"/>",
    blocks: Papers::ALL,
};

/// A drawing that reaches beyond its frame.
pub static DRAWING_OUTSIDE: Code = Code {
    id: "drawing-outside",
    severity: Severity::Error,
    says: "the drawing {found} reaches {asked} beyond its frame",
    why: "The page keeps the frame free and nothing more; what lies outside would run into text or over the edge.",
    example: "a frame of 200 by 100 pt, and a line to 210 pt",
    blocks: Papers::ALL,
};

/// A page that no file of the paper has.
pub static UNKNOWN_ENCLOSURE: Code = Code {
    id: "unknown-enclosure",
    severity: Severity::Error,
    says: "there is no page to enclose: {found}",
    why: "A sheet omitted in silence would be missing for the reviewer, although the package lists it.",
    example: "<enclosed key=\"plate\" page=\"9\" alt=\"Cut sheet\"/>",
    blocks: Papers::ALL,
};

/// A text that is given less width than a letter needs.
pub static TOO_NARROW: Code = Code {
    id: "too-narrow",
    severity: Severity::Error,
    says: "this text is given {found} of width, and needs at least {asked}",
    why: "Text is broken between letters where it must be, but a single letter cannot be broken and is never clipped.",
    example: "<col w=\"0.1in\"/>",
    blocks: Papers::ALL,
};

/// Numbers of pages whose printing moves what they tell of, again and again.
pub static PAGES_DO_NOT_SETTLE: Code = Code {
    id: "pages-do-not-settle",
    severity: Severity::Error,
    says: "the page numbers that this paper prints are still wrong after it was set {found} times",
    why: "A printed page number must be true; a longer number can move its target to another page.",
    example: "see page <pageof to=\"sets\"/>, where the text around it moves the sets",
    blocks: Papers::ALL,
};

/// A value of the theme that it cannot have.
pub static BAD_THEME: Code = Code {
    id: "bad-theme",
    severity: Severity::Error,
    says: "the theme's {found} must be {asked}",
    why: "Type too small to read, or rules too thin to print, are of no use.",
    example: "[theme]\ndesk_text = \"5pt\"",
    blocks: Papers::ALL,
};

/// Something of exact size, or that cannot be cut, that has less room than it needs.
pub static NO_ROOM: Code = Code {
    id: "no-room",
    severity: Severity::Error,
    says: "this needs {found}, and there are {asked}",
    why: "A stamp has the size that it has; an area for it that is printed smaller is of no use. What is taller than a page \
          and cannot be cut would run off its foot.",
    example: "<stamp w=\"9in\" h=\"3in\"/>",
    blocks: Papers::ALL,
};

/// Every code of this room.
pub static CODES: [&Code; 8] = [
    &BAD_THEME,
    &DRAWING_OUTSIDE,
    &NO_ROOM,
    &TABLE_TOO_WIDE,
    &UNKNOWN_DRAWING,
    &UNKNOWN_ENCLOSURE,
    &TOO_NARROW,
    &PAGES_DO_NOT_SETTLE,
];
