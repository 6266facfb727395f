//! Blocks to measured lines and rows to pages.
//!
//! In: a block tree, faces and a theme.
//! Out: pages of placed items, each with the id of its block.
//! May not know: PDF, doors, money.

mod codes;
mod columns;
mod cut;
mod flow;
mod frame;
mod lists;
mod pages;
mod paper;
mod piece;
mod row;
mod table;
mod text;
mod theme;
mod widths;

pub use crate::markup::Mp;
pub use codes::{CODES, TABLE_TOO_WIDE, TOO_NARROW, UNKNOWN_DRAWING};
pub use pages::{Artifact, Heading, Item, Owner, Page, Pages, Placed};
pub use paper::typeset;
pub use theme::{Sizes, Theme};

use crate::findings::{Finding, Place, Subject};

fn unknown_drawing(template: &str, key: &str, place: Place) -> Finding {
    Finding::new(&UNKNOWN_DRAWING, Subject::Template(template.to_string())).at(place).found(key)
}

fn inches(extent: Mp) -> String {
    format!("{:.2} in", extent.as_points() / 72.0)
}

fn too_narrow(template: &str, given: Mp, needed: Mp, place: Place) -> Finding {
    Finding::new(&TOO_NARROW, Subject::Template(template.to_string()))
        .at(place)
        .found(inches(given))
        .asked(inches(needed))
        .advise("give its column more width, or set its list outside of the table")
}

fn too_wide(template: &str, needed: Mp, available: Mp, place: Place) -> Finding {
    Finding::new(&TABLE_TOO_WIDE, Subject::Template(template.to_string()))
        .at(place)
        .found(inches(needed))
        .asked(inches(available))
        .advise("give less width to its columns, or turn the sheet with orientation=\"landscape\"")
}
