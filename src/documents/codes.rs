//! Codes of findings that papers raise while they are made.
//!
//! In: nothing. Out: codes. May not know: any one finding.

use crate::findings::{Code, Papers, Severity};

/// The sheets of an opening in the packet hold more than fits them.
pub static SHEETS_OVERFULL: Code = Code {
    id: "sheets-overfull",
    severity: Severity::Warning,
    says: "the opening sheets of {subject} are full; moved to the site sheet: {found}",
    why: "An opening has two sheets in the packet, three with two leaves, so that an installer finds everything on a \
          ladder. What does not fit moves to the site sheet in a stated order, and the installer must know to look there.",
    example: "an opening with twelve devices and nine runs",
    blocks: Papers::NONE,
};

/// The codes of this room.
pub static CODES: &[&Code] = &[&SHEETS_OVERFULL];
