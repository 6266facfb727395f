//! The kinds of blocks and the words that describe them: a closed set.
//!
//! In: nothing. Out: the names that the tree is made of. May not know: how any of them is printed.

use super::Mp;

/// How large the three sizes of a paper are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scale {
    /// Read at a desk.
    #[default]
    Desk,
    /// Read at arm's length.
    Field,
}

/// What a block is. The set is closed: a reader of the tree matches every kind.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// The root. Holds a running head, a running foot, then sheets.
    Document,
    /// A running head, an artifact: holds slots.
    Head,
    /// A running foot, an artifact: holds slots.
    Foot,
    /// A part of a running head or foot: holds text.
    Slot(Slot),
    /// Pages of one size and orientation. May begin with a running head and foot of its own, then holds blocks.
    Sheet {
        /// The size of the paper.
        size: SheetSize,
        /// Which way it is turned.
        orientation: Orientation,
        /// Whether it begins on the front of a leaf where both sides are printed.
        on_front: bool,
    },
    /// A heading of level 1, 2 or 3: holds text.
    Heading(u8),
    /// A paragraph: holds text.
    Paragraph,
    /// A list: holds items.
    List(ListKind),
    /// An item of a list: holds text or blocks.
    Item {
        /// In a check list, whether its box is checked already.
        checked: bool,
    },
    /// A definition list: holds terms and details in turn.
    Definitions {
        /// How many pairs stand side by side.
        columns: u8,
    },
    /// The term of a definition: holds text.
    Term,
    /// The detail of a definition: holds text or blocks.
    Detail,
    /// A table: holds at most one head, one or more bodies, at most one foot.
    Table {
        /// How its columns are wide and aligned.
        columns: Vec<Column>,
        /// Which rules it has.
        look: TableLook,
    },
    /// The head rows of a table, repeated on each of its pages.
    TableHead,
    /// Body rows of a table.
    TableBody,
    /// The last rows of a table, printed once.
    TableFoot,
    /// A row: holds cells.
    Row {
        /// What it is for.
        kind: RowKind,
        /// What the rows up to it come to, for the foot of a page that ends here and the top of the next.
        carry: Option<String>,
    },
    /// A head cell (`header` true, with its scope) or a data cell: holds text or blocks.
    Cell {
        /// Set for a head cell: whether it heads its column or its row.
        scope: Option<Scope>,
        /// The first column that it covers, from 0; cells over several rows push those of the rows below to the right.
        column: u16,
        /// How many columns it covers, at least 1.
        colspan: u16,
        /// How many rows it covers, at least 1.
        rowspan: u16,
        /// Where its text stands, where that differs from its column.
        align: Option<Align>,
        /// The least height of what it holds, for an answer written by hand.
        height: Option<Mp>,
    },
    /// A framed box: holds blocks.
    Box {
        /// What it is for.
        kind: BoxKind,
        /// Its title, such as `Caution`.
        title: Option<String>,
    },
    /// A drawing, by its key; may hold a caption.
    Figure {
        /// The key of the drawing in the map given to the typesetter.
        drawing: String,
        /// What it shows, in words; none where the drawing's own words serve.
        alt: Option<String>,
        /// Its width, where it is not its own.
        width: Option<Mp>,
    },
    /// The caption of a figure: holds text.
    Caption,
    /// Parts side by side: holds parts.
    Side,
    /// A part of a side-by-side layout: holds blocks.
    Part {
        /// How wide it is.
        width: Width,
    },
    /// Blocks set in narrow columns of equal width, filled in turn.
    Columns {
        /// How many.
        count: u8,
    },
    /// Blocks that stay on one page where one page can hold them.
    Keep {
        /// Whether the first of what follows stays with them.
        with_next: bool,
    },
    /// A new page begins here.
    PageBreak,
    /// A thin rule across the column.
    Rule,
    /// Empty height.
    Space(Mp),
    /// A framed area for an answer written by hand.
    Answer {
        /// Its height.
        height: Mp,
        /// What to write, printed small inside.
        label: Option<String>,
    },
    /// A page of another's file: holds its marks.
    Enclosed {
        /// The key of the file.
        key: String,
        /// Which of its pages, from 1.
        page: u16,
        /// What it shows, in words.
        alt: String,
        /// The most width that it takes.
        width: Option<Mp>,
        /// The most height that it takes.
        height: Option<Mp>,
    },
    /// Words in the margin of such a page, with an arrow: holds text.
    Marked {
        /// How far down the page the arrow points, in ten-thousandths of its height.
        at: u16,
    },
    /// A framed area of exact size for a stamp or a seal.
    Stamp {
        /// Its width, to the middle of its rules.
        width: Mp,
        /// Its height, to the middle of its rules.
        height: Mp,
        /// What goes there, printed small inside.
        label: Option<String>,
    },
    /// What stands in the lower right corner of every page of a sheet: holds blocks.
    TitleBlock {
        /// Its width; none for that of the text.
        width: Option<Mp>,
    },
    /// A table of contents: the headings that follow it, each with its page.
    Contents {
        /// The lowest level of heading that it lists, 1 to 3.
        depth: u8,
    },
    /// Lines to sign on, side by side: holds signatures.
    Sign,
    /// A line to sign on: holds the text printed below it.
    Signature {
        /// How wide it is.
        width: Width,
    },
}

/// A part of a running head or foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// At the left margin.
    Left,
    /// In the middle.
    Middle,
    /// At the right margin.
    Right,
}

/// The size of the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetSize {
    /// 8.5 in by 11 in.
    #[default]
    Letter,
    /// 11 in by 17 in.
    Tabloid,
    /// 210 mm by 297 mm.
    A4,
}

/// Which way the paper is turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Orientation {
    /// Upright.
    #[default]
    Portrait,
    /// On its side.
    Landscape,
}

/// The marks of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ListKind {
    /// A bullet for each item.
    Bullet,
    /// 1., 2., 3. …
    Number,
    /// A box to check for each item.
    Check,
}

/// How wide a column or part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Width {
    /// A fixed extent.
    Fixed(Mp),
    /// A share of what the others leave.
    Share(u16),
    /// As wide as its longest line, where there is room.
    Fit,
}

impl Width {
    /// Reads an extent, `*`, `2*` or `fit`; none where it is none of them.
    pub fn read(text: &str) -> Option<Width> {
        if text == "fit" {
            return Some(Width::Fit);
        }
        match text.strip_suffix('*') {
            Some("") => Some(Width::Share(1)),
            Some(share) => share.parse().ok().filter(|share| (1..=100).contains(share)).map(Width::Share),
            None => Mp::read(text).filter(|extent| *extent > Mp::ZERO).map(Width::Fixed),
        }
    }
}

/// Where text stands in its column.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    #[default]
    Left,
    /// In the middle.
    Center,
    /// At the right.
    Right,
    /// With decimal points in line, figures at the right.
    Decimal,
}

/// A column of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// How wide it is.
    pub width: Width,
    /// Where its text stands.
    pub align: Align,
    /// Whether what rows come to stands in it; where no column says so, it stands in the last.
    pub carries: bool,
}

/// The rules of a table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TableLook {
    /// A rule below each row.
    #[default]
    Rows,
    /// A rule around each cell, to write in.
    Grid,
    /// Every second row on a light ground.
    Zebra,
    /// No rules but that below the head.
    Plain,
}

/// What a row is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RowKind {
    /// One record.
    #[default]
    Plain,
    /// The title of the rows that follow; stays with the next.
    Group,
    /// A sum of the rows before; stays with the last of them.
    Subtotal,
    /// The sum of all; stays with the row before.
    Total,
}

/// What a head cell heads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// The cells below.
    Column,
    /// The cells beside.
    Row,
}

/// What a framed box is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoxKind {
    /// Something can hurt someone.
    Caution,
    /// Something to know.
    Note,
    /// Do not go on before someone has signed or measured.
    Hold,
    /// Stop work and call.
    Stop,
}
