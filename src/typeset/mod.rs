//! Blocks to measured lines and rows to pages.
//!
//! In: a block tree, faces and a theme.
//! Out: pages of placed items, each with the id of its block.
//! May not know: PDF, doors, money.

mod codes;
mod columns;
mod contents;
mod cut;
#[cfg(test)]
mod cut_tests;
mod enclosed;
mod figure;
mod flow;
mod frame;
mod group;
mod hyphens;
#[cfg(test)]
mod keep_tests;
mod lists;
#[cfg(test)]
mod look_tests;
mod margin_marks;
mod numbers;
mod pages;
mod paper;
mod piece;
mod prepared_text;
mod row;
mod running_totals;
mod setting;
mod stamps;
mod supply;
mod table;
#[cfg(test)]
mod table_tests;
#[cfg(test)]
mod tests;
mod text;
mod theme;
mod theme_keys;
mod widths;

pub use crate::markup::Mp;
pub use codes::{
    BAD_THEME, CODES, DRAWING_OUTSIDE, NO_ROOM, PAGES_DO_NOT_SETTLE, TABLE_TOO_WIDE, TOO_NARROW, UNKNOWN_DRAWING,
    UNKNOWN_ENCLOSURE,
};
pub use flow::Shown;
pub use pages::{Artifact, EnclosedSheet, Form, Heading, Item, Owner, Page, Pages, Placed, Target};
pub use paper::typeset;
pub use theme::{Sizes, Theme};

use crate::findings::{Finding, Place, Subject};

fn unknown_drawing(template: &str, key: &str, place: Place) -> Finding {
    Finding::new(&UNKNOWN_DRAWING, Subject::Template(template.to_string())).at(place).found(key)
}

fn drawing_outside(template: &str, key: &str, outside: f64, place: Place) -> Finding {
    Finding::new(&DRAWING_OUTSIDE, Subject::Template(template.to_string()))
        .at(place)
        .found(key)
        .asked(format!("{outside:.1} pt"))
        .advise("a larger frame, or what is drawn moved into it")
}

fn unknown_enclosure(template: &str, found: String, place: Place) -> Finding {
    Finding::new(&UNKNOWN_ENCLOSURE, Subject::Template(template.to_string()))
        .at(place)
        .found(found)
        .advise("see what was found about the file, or ask for a page that it has")
}

fn no_room(template: &str, needed: (Mp, Mp), room: (Mp, Mp), place: Place) -> Finding {
    let both = |(width, height), up| format!("{} by {}", inches(width, up), inches(height, up));
    Finding::new(&NO_ROOM, Subject::Template(template.to_string()))
        .at(place)
        .found(both(needed, true))
        .asked(both(room, false))
        .advise("give it a larger sheet, or put it outside of narrow parts")
}

fn do_not_settle(template: &str, passes: usize, place: Place) -> Finding {
    Finding::new(&PAGES_DO_NOT_SETTLE, Subject::Template(template.to_string()))
        .at(place)
        .found(passes.to_string())
        .advise("begin a new page before what the numbers lead to, with <pagebreak/>")
}

/// Hundredths of an inch, rounded up for what is needed and down for what there is, so that a shortfall never prints as none.
fn inches(extent: Mp, up: bool) -> String {
    let extent = extent.0.max(0);
    let (whole, part) = (extent / 720, extent % 720);
    let hundredths = whole + i32::from(up && part > 0);
    format!("{}.{:02} in", hundredths / 100, hundredths % 100)
}

fn too_narrow(template: &str, given: Mp, needed: Mp, place: Place) -> Finding {
    Finding::new(&TOO_NARROW, Subject::Template(template.to_string()))
        .at(place)
        .found(inches(given, false))
        .asked(inches(needed, true))
        .advise("give its column more width, or set its list outside of the table")
}

fn too_wide(template: &str, needed: Mp, available: Mp, place: Place) -> Finding {
    Finding::new(&TABLE_TOO_WIDE, Subject::Template(template.to_string()))
        .at(place)
        .found(inches(needed, true))
        .asked(inches(available, false))
        .advise("give less width to its columns, or turn the sheet with orientation=\"landscape\"")
}
