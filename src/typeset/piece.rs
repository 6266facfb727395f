//! Pieces of a column of text: what is never cut, and what may be when a page cannot hold it.
//!
//! In: lines, rows and frames with their heights. Out: the same stacked at a position. May not know: what a block means.

use std::sync::Arc;

use super::columns::Columns;
use super::frame::{self, Frame};
use super::group::Group;
use super::pages::{Heading, Item, Owner, Placed};
use super::row::{Row, RowCell};
use super::text::width_of;
use crate::fonts::Faces;
use crate::markup::{BlockId, Mp};

/// How a piece holds on to the next one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeepWith {
    /// A page may end here.
    #[default]
    Free,
    /// Asked to stay with the next by a keep around other keeps, where a page can hold what is kept.
    Around,
    /// Asked to stay with the next by a keep, where a page can hold what is kept.
    Kept,
    /// The first or last item of a list, row of a table, or a short item to check: not left alone where a page can hold it.
    Company,
    /// A heading, a table's head, the first or last two lines of a paragraph: parted only where no page could hold them.
    Bound,
}

/// Whether a piece says something new.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Repetition {
    /// It is said here and nowhere else.
    #[default]
    Once,
    /// A "continued" mark, or the words that tell which row goes on: said again wherever the row was cut.
    Again,
    /// The head or the running total of a table that goes on: put there anew wherever the table is cut.
    Resumed,
}

/// What a piece is made of.
#[derive(Clone, Debug)]
pub enum Content {
    /// Placed things, from the left and the top of the piece.
    Items(Vec<Item>),
    /// Cells beside each other.
    Row(Box<Row>),
    /// Rows joined by cells over several of them.
    Group(Box<Group>),
    /// Narrow columns.
    Columns(Columns),
    /// A new page begins here.
    PageBreak,
}

/// The table that a piece is a row of.
#[derive(Clone, Debug)]
pub struct InTable {
    /// The head rows, as they are repeated.
    pub head: Arc<Vec<Piece>>,
    /// How far the table was moved to the right since its head was set.
    pub shift: Mp,
    /// Whether the piece is one of the head rows.
    pub is_head: bool,
}

/// What the rows of a table come to, said where a page ends.
#[derive(Clone, Debug)]
pub struct Total {
    /// The row at the foot of the page.
    pub foot: Arc<Piece>,
    /// The row at the top of the next.
    pub top: Arc<Piece>,
    /// How far the table was moved to the right since they were set.
    pub shift: Mp,
}

impl Total {
    /// The row at the foot of the page, where it stands.
    pub fn at_foot(&self) -> Piece {
        self.moved(&self.foot)
    }

    /// The row at the top of the next, where it stands.
    pub fn at_top(&self) -> Piece {
        self.moved(&self.top)
    }

    fn moved(&self, piece: &Piece) -> Piece {
        let mut piece = Piece { said: Repetition::Resumed, ..piece.clone() };
        piece.shift(self.shift);
        piece
    }
}

impl RunningTotals {
    /// Moves the rows of totals to the right; rows that share one share it still.
    fn shift(&mut self, by: Mp) {
        for total in [&mut self.before, &mut self.own].into_iter().flatten() {
            total.shift += by;
        }
    }
}

/// What is carried over the end of a page before and after a row.
#[derive(Clone, Debug, Default)]
pub struct RunningTotals {
    /// What the rows before it come to.
    pub before: Option<Total>,
    /// What the rows up to it come to.
    pub own: Option<Total>,
}

/// Something of a height in a column of text.
#[derive(Clone, Debug)]
pub struct Piece {
    /// What it is made of.
    pub content: Content,
    /// Its height.
    pub height: Mp,
    /// The space it wants above; none at the top of a page.
    pub above: Mp,
    /// The space it wants below; the larger of this and the next one's space above is taken.
    pub below: Mp,
    /// How it holds on to the next.
    pub tie: KeepWith,
    /// Whether it is nothing but height, and vanishes at the top of a page.
    pub is_space: bool,
    /// Whether it is new.
    pub said: Repetition,
    /// The baseline of its first line, for the mark of an item.
    pub baseline: Option<Mp>,
    /// Headings that begin here, from the top of the piece.
    pub headings: Vec<Heading>,
    /// The frames around it, outermost first.
    pub frames: Vec<Frame>,
    /// The table it is a row of.
    pub table: Option<InTable>,
    /// The running totals of its table.
    pub carry: Option<Box<RunningTotals>>,
}

/// Where pieces are placed.
#[derive(Debug, Default)]
pub struct Placing {
    /// Placed things.
    pub items: Vec<Item>,
    /// Headings.
    pub headings: Vec<Heading>,
}

impl Piece {
    /// A piece of a height.
    pub fn new(height: Mp, content: Content) -> Self {
        Piece {
            content,
            height,
            above: Mp::ZERO,
            below: Mp::ZERO,
            tie: KeepWith::Free,
            is_space: false,
            said: Repetition::Once,
            baseline: None,
            headings: Vec::new(),
            frames: Vec::new(),
            table: None,
            carry: None,
        }
    }

    /// Placed things of a height.
    pub fn items(height: Mp, items: Vec<Item>) -> Self {
        Piece::new(height, Content::Items(items))
    }

    /// Nothing but height; it stays with what it stands before.
    pub fn space(height: Mp) -> Self {
        Piece { is_space: true, tie: KeepWith::Bound, ..Piece::items(height, Vec::new()) }
    }

    /// How much of it is said once: its lines, and the rows around them. Whatever is cut leaves less of it for the next page,
    /// which is why there is a last page.
    pub fn unsaid(&self) -> usize {
        match &self.content {
            _ if self.said != Repetition::Once => 0,
            Content::Items(_) | Content::PageBreak => 1,
            Content::Row(row) => 1 + row.cells.iter().map(RowCell::unsaid).sum::<usize>(),
            Content::Group(group) => group.unsaid(),
            Content::Columns(columns) => columns.filled.iter().flatten().map(Piece::unsaid).sum(),
        }
    }

    /// The first block that something in it belongs to.
    pub fn block(&self) -> Option<BlockId> {
        match &self.content {
            Content::Items(items) => items.iter().find_map(|item| match item.owner {
                Owner::Block(id) | Owner::Label(id) => Some(id),
                Owner::Artifact(_) => None,
            }),
            Content::Row(row) => row.cells.iter().flat_map(|cell| &cell.pieces).find_map(Piece::block),
            Content::Group(group) => group.block(),
            Content::Columns(columns) => columns.filled.iter().flatten().find_map(Piece::block),
            Content::PageBreak => None,
        }
    }

    /// Adds a placed thing to a piece of such; others do not take any.
    pub fn push(&mut self, item: Item) {
        if let Content::Items(items) = &mut self.content {
            items.push(item);
        }
    }

    /// Makes all that it says lead to a block.
    pub fn lead_to(&mut self, block: BlockId) {
        if let Content::Items(items) = &mut self.content {
            items
                .iter_mut()
                .filter(|item| !matches!(item.owner, Owner::Artifact(_)))
                .for_each(|it| it.to = Some(block));
        }
    }

    /// Where its text ends at the right, without white space; zero where it holds none.
    pub fn right_edge(&self, faces: &Faces) -> Mp {
        let Content::Items(items) = &self.content else { return Mp::ZERO };
        let edge = |item: &Item| match &item.placed {
            Placed::Text { x, size, run, .. } => *x + width_of(run, *size, faces.units_per_em(run.style)),
            _ => Mp::ZERO,
        };
        items.iter().map(edge).max().unwrap_or_default()
    }

    /// Moves it to the right.
    pub fn shift(&mut self, by: Mp) {
        match &mut self.content {
            Content::Items(items) => items.iter_mut().for_each(|item| item.placed.shift(by, Mp::ZERO)),
            Content::Row(row) => row.shift(by),
            Content::Group(group) => group.shift(by),
            Content::Columns(columns) => columns.left += by,
            Content::PageBreak => {}
        }
        self.frames.iter_mut().for_each(|frame| frame.x += by);
        if let Some(table) = &mut self.table {
            table.shift += by;
        }
        if let Some(carry) = &mut self.carry {
            carry.shift(by);
        }
    }

    /// Places what it is made of.
    fn place(&mut self, x: Mp, y: Mp, into: &mut Placing) {
        into.headings.extend(self.headings.drain(..).map(|heading| Heading { y: heading.y + y, ..heading }));
        match std::mem::replace(&mut self.content, Content::PageBreak) {
            Content::Items(mut items) => {
                items.iter_mut().for_each(|item| item.placed.shift(x, y));
                into.items.append(&mut items);
            }
            Content::Row(row) => row.place(x, y, self.height, into),
            Content::Group(group) => group.place(x, y, into),
            Content::Columns(columns) => columns.place(x, y, into),
            Content::PageBreak => {}
        }
    }
}

impl Placed {
    /// Moves a placed thing rightward and downward.
    pub(super) fn shift(&mut self, dx: Mp, dy: Mp) {
        match self {
            Placed::Text { x, y, .. }
            | Placed::Fill { x, y, .. }
            | Placed::Drawing { x, y, .. }
            | Placed::Enclosed { x, y, .. }
            | Placed::Check { x, y, .. }
            | Placed::Field { x, y, .. } => {
                *x += dx;
                *y += dy;
            }
            Placed::Rule { x1, y1, x2, y2, .. } => {
                *x1 += dx;
                *x2 += dx;
                *y1 += dy;
                *y2 += dy;
            }
        }
    }
}

/// The height of pieces stacked from the top of a page or cell.
pub fn height<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> Mp {
    let mut height = Mp::ZERO;
    let mut below = None;
    for piece in pieces {
        height += gap(below, piece) + piece.height;
        below = Some(piece.below);
    }
    height
}

/// The space above a piece that follows one with the given space below; none at the top.
pub fn gap(below: Option<Mp>, next: &Piece) -> Mp {
    below.map_or(Mp::ZERO, |below| below.max(next.above))
}

/// Places pieces one below the other, and the frames around them below everything.
pub fn stack(mut pieces: Vec<Piece>, x: Mp, y: Mp, into: &mut Placing) {
    let start = into.items.len();
    let mut frames: Vec<(Frame, Mp, Mp)> = Vec::new();
    let (mut at, mut below) = (y, None);
    for piece in &mut pieces {
        at += gap(below, piece);
        below = Some(piece.below);
        let end = at + piece.height;
        for frame in &piece.frames {
            match frames.iter_mut().find(|(known, ..)| known.block == frame.block) {
                Some((_, _, bottom)) => *bottom = end,
                None => frames.push((*frame, at, end)),
            }
        }
        piece.place(x, at, into);
        at = end;
    }
    if !frames.is_empty() {
        let drawn =
            frames.iter().flat_map(|(frame, top, bottom)| frame::draw(frame, x, *top, *bottom)).collect::<Vec<_>>();
        into.items.splice(start..start, drawn);
    }
}

/// Ties all pieces but the last to the next ones, at least as strongly as asked.
pub fn tie_inside(pieces: &mut [Piece], tie: KeepWith) {
    if let Some((_, before)) = pieces.split_last_mut() {
        before.iter_mut().for_each(|piece| piece.tie = piece.tie.max(tie));
    }
}

/// Sets the space above the first piece and below the last.
pub fn set_gaps(pieces: &mut [Piece], above: Mp, below: Mp) {
    if let Some(first) = pieces.first_mut() {
        first.above = first.above.max(above);
    }
    if let Some(last) = pieces.last_mut() {
        last.below = last.below.max(below);
    }
}
