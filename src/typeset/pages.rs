//! Pages of placed items: what the typesetter hands on.
//!
//! In: measured lines, rules, fills and drawings. Out: the same with positions, in reading order, each with the block it
//! belongs to. May not know: how a page is written to a file.
//!
//! Positions are thousandths of a point from the upper left corner of the page, x rightward, y **downward**.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::fonts::{Features, Run};
use crate::markup::{BlockId, FieldId, Mp};
use crate::pdf_import::{EnclosedPage, Enclosure};
use crate::shapes::Drawing;

/// A paper, cut into pages.
#[derive(Clone, Debug, Default)]
pub struct Pages {
    /// The pages in order.
    pub pages: Vec<Page>,
    /// The forms of letters that it was set with, for the words of its drawings.
    pub features: Features,
    /// Where the blocks begin that something on the pages leads to.
    pub targets: BTreeMap<BlockId, Target>,
}

impl Pages {
    /// The pages, from 1, on which something is marked as changed.
    pub fn revised(&self) -> Vec<usize> {
        let marked = |page: &Page| page.items.iter().any(|item| item.owner == Owner::Artifact(Artifact::Revision));
        (1..=self.pages.len()).filter(|number| marked(&self.pages[number - 1])).collect()
    }
}

/// Where a block begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Target {
    /// Its page, from 0.
    pub page: usize,
    /// The top of the first thing of it on that page.
    pub y: Mp,
}

/// One page.
#[derive(Clone, Debug)]
pub struct Page {
    /// Width of the paper as it is read.
    pub width: Mp,
    /// Height of the paper as it is read.
    pub height: Mp,
    /// What stands on it. Items of blocks are in reading order; fills come before what stands on them.
    pub items: Vec<Item>,
    /// The headings on it, in order, for the outline.
    pub headings: Vec<Heading>,
}

/// A heading on a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    /// Its block.
    pub block: BlockId,
    /// 1, 2 or 3.
    pub level: u8,
    /// Its text without looks.
    pub text: String,
    /// The top of its first line.
    pub y: Mp,
}

/// A placed thing and whose it is.
#[derive(Clone, Debug)]
pub struct Item {
    /// Whose it is.
    pub owner: Owner,
    /// What it is and where it stands.
    pub placed: Placed,
    /// The block that it leads to; where that begins, [`Pages::targets`] tells.
    pub to: Option<BlockId>,
}

impl Item {
    /// A placed thing that leads nowhere.
    pub fn new(owner: Owner, placed: Placed) -> Self {
        Item { owner, placed, to: None }
    }
}

/// Whose an item is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Owner {
    /// Content of a block: the block that holds the text or drawing itself, not one that encloses it.
    Block(BlockId),
    /// What is printed with a block and is no part of its text: the number, bullet or box of an item, the title of a box,
    /// the label of an answer.
    Label(BlockId),
    /// No content of its own: a reader of the file may pass over it.
    Artifact(Artifact),
}

/// Why an item is no content.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Artifact {
    /// A running head.
    RunningHead,
    /// A running foot.
    RunningFoot,
    /// A table head or a "continued" mark, repeated because a page ended.
    Repeated,
    /// Rules, grounds and frames.
    Layout,
    /// A mark in the margin beside what a revision changed.
    Revision,
}

/// What stands on a page.
#[derive(Clone, Debug)]
pub enum Placed {
    /// Shaped letters of one style.
    Text {
        /// Left end of the baseline.
        x: Mp,
        /// The baseline.
        y: Mp,
        /// Size of the type.
        size: Mp,
        /// 0 is black, 1,000 is white.
        gray: u16,
        /// The letters; advances are in font units.
        run: Arc<Run>,
    },
    /// A straight rule.
    Rule {
        /// Start, x.
        x1: Mp,
        /// Start, y.
        y1: Mp,
        /// End, x.
        x2: Mp,
        /// End, y.
        y2: Mp,
        /// How thick it is.
        width: Mp,
        /// 0 is black, 1,000 is white.
        gray: u16,
    },
    /// A filled rectangle.
    Fill {
        /// Left edge.
        x: Mp,
        /// Upper edge.
        y: Mp,
        /// Width.
        width: Mp,
        /// Height.
        height: Mp,
        /// 0 is black, 1,000 is white.
        gray: u16,
    },
    /// A drawing, whose own coordinates run upward from its lower left corner.
    Drawing {
        /// Left edge of its frame.
        x: Mp,
        /// Upper edge of its frame.
        y: Mp,
        /// Width to draw its frame at; height follows.
        width: Mp,
        /// The drawing.
        drawing: Arc<Drawing>,
    },
    /// A page of another's file.
    Enclosed {
        /// Left edge.
        x: Mp,
        /// Upper edge.
        y: Mp,
        /// Width to show it at; height follows.
        width: Mp,
        /// The page.
        sheet: EnclosedSheet,
    },
    /// A box to check, drawn by lines, since no face need have it. Its text for a reader is U+2610 or U+2611.
    Check {
        /// Left edge.
        x: Mp,
        /// Upper edge.
        y: Mp,
        /// Side of the square.
        side: Mp,
        /// Whether it is checked.
        on: bool,
    },
    /// A place that a reader of the file can fill in. It shows nothing of itself but what is filled in: its box or line is
    /// drawn as an artifact below it.
    Field {
        /// Left edge.
        x: Mp,
        /// Upper edge.
        y: Mp,
        /// Width.
        width: Mp,
        /// Height.
        height: Mp,
        /// Size of the type that is filled in.
        size: Mp,
        /// How it is filled in.
        form: Form,
        /// Which of the paper's fields it is.
        field: FieldId,
    },
}

/// A page of another's file.
#[derive(Clone, Debug)]
pub struct EnclosedSheet {
    /// The file.
    pub enclosure: Arc<Enclosure>,
    /// The position of the page, from 0; the file has it.
    pub at: usize,
}

impl EnclosedSheet {
    /// The page.
    pub fn page(&self) -> &EnclosedPage {
        &self.enclosure.pages[self.at]
    }

    /// Its height where it is shown at a width.
    pub fn height(&self, width: Mp) -> Mp {
        Mp::from_points(width.as_points() * self.page().height / self.page().width)
    }
}

/// How a field is filled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// By a check.
    Check {
        /// Whether it is checked already.
        on: bool,
    },
    /// By one line of text.
    Line,
    /// By lines of text.
    Area,
}
