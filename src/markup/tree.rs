//! The block tree: what a paper says, in reading order, with nothing yet about where it stands on a page.
//!
//! In: checked elements of the rendered markup. Out: numbered blocks, each with its kind, its body, its name and the
//! place of its start tag. May not know: sizes of pages, faces, or what the paper is about.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Kind, Mp, Scale};
use crate::findings::Place;

/// A block by its position in the tree; parents come before their children, and siblings stand in reading order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BlockId(pub u32);

/// A field by its position among the fields of a paper, in reading order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FieldId(pub u32);

/// A place to fill in: a box to check, or a line or an area to write on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Field {
    /// The name of its sheet; the fields of a sheet belong together.
    pub sheet: String,
    /// Its name, unlike that of any other field of a sheet of this name. Neither name holds a point.
    pub name: String,
    /// What to fill in, in words, for one who hears the page.
    pub label: String,
}

/// A whole paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    /// The name of the template that it was made from.
    pub template: String,
    /// Its title, for the file's properties and the window of a reader.
    pub title: String,
    /// Its language as a BCP 47 tag, such as `en-US`.
    pub lang: String,
    /// How large its text is.
    pub scale: Scale,
    pub(super) blocks: Vec<Block>,
    pub(super) fields: Vec<Field>,
    /// The blocks that have an id.
    pub(super) targets: BTreeMap<Arc<str>, BlockId>,
    /// Whether any of its text, or a table of contents, tells the page of a block.
    pub(super) tells_pages: bool,
    /// The papers that are bound into it, in reading order.
    pub(super) bound: Vec<Span>,
}

/// The blocks of a paper that is bound into another: first and last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Span {
    pub(super) first: BlockId,
    pub(super) last: BlockId,
}

impl Tree {
    /// The root, whose kind is [`Kind::Document`].
    pub fn root(&self) -> BlockId {
        BlockId(0)
    }

    /// A block by its id.
    pub fn block(&self, id: BlockId) -> &Block {
        &self.blocks[id.0 as usize]
    }

    /// How many blocks there are; ids run from 0 to one less.
    pub fn len(&self) -> usize {
        self.blocks.len()
    }

    /// A place to fill in.
    pub fn field(&self, id: FieldId) -> &Field {
        &self.fields[id.0 as usize]
    }

    /// Every place to fill in, in reading order; ids count from 0.
    pub fn fields(&self) -> &[Field] {
        &self.fields
    }

    /// A tree always holds its root.
    pub fn is_empty(&self) -> bool {
        self.blocks.is_empty()
    }

    /// Every id, parents before children, in reading order.
    pub fn ids(&self) -> impl Iterator<Item = BlockId> + '_ {
        (0..self.blocks.len()).map(|at| BlockId(at as u32))
    }

    /// The blocks that a block holds; empty where it holds text or nothing.
    pub fn children(&self, id: BlockId) -> &[BlockId] {
        match &self.block(id).body {
            Body::Blocks(children) => children,
            Body::Text(_) | Body::Empty => &[],
        }
    }

    /// The block of an id. Every id that a text of the tree leads to has one.
    pub fn target(&self, id: &str) -> Option<BlockId> {
        self.targets.get(id).copied()
    }

    /// Whether any of its text, or a table of contents, tells the page of a block, so that its pages must be known before
    /// they are set.
    pub fn tells_pages(&self) -> bool {
        self.tells_pages
    }

    /// The last block that a block holds, directly or not; itself where it holds none. Its own are those up to this one.
    pub fn last_inside(&self, id: BlockId) -> BlockId {
        self.children(id).last().map_or(id, |last| self.last_inside(*last))
    }

    /// The text of a block and of all it holds, without looks: words joined by single spaces.
    pub fn text(&self, id: BlockId) -> String {
        let mut words = String::new();
        self.gather(id, &mut words);
        words
    }

    fn gather(&self, id: BlockId, words: &mut String) {
        match &self.block(id).body {
            Body::Blocks(children) => children.iter().for_each(|child| self.gather(*child, words)),
            Body::Text(inlines) => {
                if !words.is_empty() {
                    words.push(' ');
                }
                for inline in inlines {
                    match inline {
                        Inline::Text { text, .. } => words.push_str(text),
                        Inline::Break => words.push(' '),
                        Inline::Check { .. }
                        | Inline::Blank { .. }
                        | Inline::PageOf { .. }
                        | Inline::PageNumber
                        | Inline::PageCount
                        | Inline::SheetPageNumber
                        | Inline::SheetPageCount => {}
                    }
                }
            }
            Body::Empty => {}
        }
    }
}

/// One block.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// What it is.
    pub kind: Kind,
    /// A label without a look, such as `count.openings`, so that a reader or a test may find the block.
    pub name: Option<String>,
    /// What other places call it by, alone among the blocks of the paper.
    pub id: Option<Arc<str>>,
    /// Its start tag in the template.
    pub place: Place,
    /// What it holds.
    pub body: Body,
    /// The field that the block is: the box of a checked item, an empty cell, an answer, a line to sign on.
    pub field: Option<FieldId>,
    /// The revision whose mark stands beside it, where it says something new: see [`super::mark_changes`].
    pub revised: Option<Arc<str>>,
}

/// What a block holds: blocks or text, never both.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Other blocks, in reading order.
    Blocks(Vec<BlockId>),
    /// A line of text, before it is broken. Space is single, and none stands at either end.
    Text(Vec<Inline>),
    /// Nothing.
    Empty,
}

/// A piece of a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Inline {
    /// Letters of one look.
    Text {
        /// The letters, with single spaces.
        text: String,
        /// Their look.
        weight: Weight,
        /// The id of the block that they lead to.
        to: Option<Arc<str>>,
    },
    /// A line ends here.
    Break,
    /// A box to check.
    Check {
        /// Whether it is checked already.
        on: bool,
        /// Its field; none in running heads and feet.
        field: Option<FieldId>,
    },
    /// A line to write on.
    Blank {
        /// Its length.
        width: Mp,
        /// Its field; none in running heads and feet.
        field: Option<FieldId>,
    },
    /// The number of the page on which a block begins; it leads there.
    PageOf {
        /// The id of the block.
        to: Arc<str>,
        /// Its look.
        weight: Weight,
    },
    /// The number of the page; only in running heads and feet.
    PageNumber,
    /// The count of the pages; only in running heads and feet.
    PageCount,
    /// The number of the page among those of its sheet; only in running heads and feet.
    SheetPageNumber,
    /// The count of the pages of the sheet; only in running heads and feet.
    SheetPageCount,
}

/// The look of letters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Weight {
    /// Bold.
    pub bold: bool,
    /// Italic.
    pub italic: bool,
    /// The middle of the three sizes, to be read from a ladder.
    pub large: bool,
}
