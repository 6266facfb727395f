//! The look of papers: sizes, spaces, rules and grays.
//!
//! In: nothing; the default is our own. Out: extents in thousandths of a point and grays in thousandths. May not know: any
//! one paper.

use crate::fonts::Features;
use crate::markup::{Mp, Scale};

/// The three sizes of type of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sizes {
    /// Text, tables, running heads: at least 9 pt.
    pub text: Mp,
    /// Headings of the second level, and what must be read from a ladder.
    pub large: Mp,
    /// The title.
    pub title: Mp,
}

/// The look of a paper. Every field is plain, so that a table of keys and values can fill it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Theme {
    /// Sizes of papers read at a desk.
    pub desk: Sizes,
    /// Sizes of papers read at arm's length.
    pub field: Sizes,
    /// Distance of baselines, in thousandths of the size.
    pub leading: i32,
    /// Forms of letters asked of the faces.
    pub features: Features,

    /// Empty paper at the left and right.
    pub margin_side: Mp,
    /// Empty paper above the running head.
    pub margin_top: Mp,
    /// Empty paper below the running foot.
    pub margin_bottom: Mp,
    /// Between the running head or foot and the text.
    pub running_gap: Mp,

    /// Above and below a paragraph.
    pub paragraph_gap: Mp,
    /// Above headings of level 1, 2 and 3.
    pub heading_above: [Mp; 3],
    /// Below headings of level 1, 2 and 3.
    pub heading_below: [Mp; 3],
    /// Between items of a list.
    pub item_gap: Mp,
    /// How far items are set in.
    pub indent: Mp,
    /// Above and below tables, boxes, figures and side-by-side layouts.
    pub block_gap: Mp,
    /// Between parts side by side, and between columns.
    pub gutter: Mp,
    /// Inside cells, at the left and right.
    pub cell_side: Mp,
    /// Inside cells, above and below.
    pub cell_above: Mp,
    /// Inside framed boxes.
    pub box_inset: Mp,
    /// The thick bar at the left of a caution.
    pub bar: Mp,
    /// The height left above a line to sign on.
    pub sign_height: Mp,

    /// Thickness of rules between rows: at most 0.5 pt.
    pub rule_thin: Mp,
    /// Thickness of rules below heads, above sums, and of frames: at most 0.5 pt.
    pub rule_strong: Mp,
    /// Gray of rules between rows.
    pub gray_rule: u16,
    /// Gray of running heads, labels and captions.
    pub gray_quiet: u16,
    /// Gray of the ground of every second row of a zebra table.
    pub gray_zebra: u16,
    /// Gray of the ground of group rows and of the title of a hold box.
    pub gray_ground: u16,

    /// Whether English words are broken at the ends of lines.
    pub hyphenation: bool,
    /// The mark of the company, at the left of running heads; nothing where there is none.
    pub mark: String,
    /// The mark of an item without number.
    pub bullet: String,
    /// The mark of a row that began on an earlier page.
    pub continued: String,
    /// Before a running total at the foot of a page.
    pub carried: String,
    /// Before it at the top of the next.
    pub brought: String,
}

impl Default for Theme {
    fn default() -> Self {
        Theme {
            desk: Sizes { text: Mp(9_500), large: Mp(12_000), title: Mp(17_000) },
            field: Sizes { text: Mp(11_000), large: Mp(14_000), title: Mp(20_000) },
            leading: 1_280,
            features: Features::default(),
            margin_side: Mp::mils(750),
            margin_top: Mp::mils(550),
            margin_bottom: Mp::mils(550),
            running_gap: Mp(12_000),
            paragraph_gap: Mp(5_000),
            heading_above: [Mp(14_000), Mp(14_000), Mp(10_000)],
            heading_below: [Mp(7_000), Mp(5_000), Mp(3_500)],
            item_gap: Mp(2_500),
            indent: Mp(17_000),
            block_gap: Mp(8_000),
            gutter: Mp(18_000),
            cell_side: Mp(4_000),
            cell_above: Mp(2_600),
            box_inset: Mp(7_000),
            bar: Mp(5_000),
            sign_height: Mp(26_000),
            rule_thin: Mp(300),
            rule_strong: Mp(500),
            gray_rule: 550,
            gray_quiet: 320,
            gray_zebra: 945,
            gray_ground: 900,
            hyphenation: false,
            mark: String::new(),
            bullet: "\u{2022}".to_string(),
            continued: "continued".to_string(),
            carried: "carried forward".to_string(),
            brought: "brought forward".to_string(),
        }
    }
}

impl Theme {
    /// The sizes of a scale.
    pub fn sizes(&self, scale: Scale) -> Sizes {
        match scale {
            Scale::Desk => self.desk,
            Scale::Field => self.field,
        }
    }

    /// The distance of baselines of a size.
    pub fn line(&self, size: Mp) -> Mp {
        size.scaled(i64::from(self.leading), 1000)
    }
}
