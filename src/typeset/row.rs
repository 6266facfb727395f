//! Rows: cells beside each other, whole where a page can hold them, and how they are cut where none can.
//!
//! In: cells with their pieces. Out: placed cells with ground and rules; or two rows, the second marked. May not know: columns
//! of a table, or pages.

use std::collections::VecDeque;
use std::sync::Arc;

use super::cut::{cut, repeated, resume};
use super::frame::artifact;
use super::pages::{Form, Item, Owner, Placed};
use super::piece::{Piece, Placing, height, stack};
use crate::markup::{FieldId, Mp};

/// A cell of a row.
#[derive(Clone, Debug)]
pub struct RowCell {
    /// Its left edge.
    pub x: Mp,
    /// Its width, insets included.
    pub width: Mp,
    /// What it holds, from its inner left edge.
    pub pieces: Vec<Piece>,
    /// The field that the whole of it is.
    pub field: Option<CellField>,
    /// Its height where it covers more rows than its own.
    pub over: Option<Mp>,
}

impl RowCell {
    /// A cell that is not to be filled in.
    pub fn new(x: Mp, width: Mp, pieces: Vec<Piece>) -> Self {
        RowCell { x, width, pieces, field: None, over: None }
    }

    /// How much of it is said once.
    pub fn unsaid(&self) -> usize {
        self.pieces.iter().map(Piece::unsaid).sum()
    }
}

/// Where a cell of another row stands in a row, too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Covered {
    /// Its left edge.
    pub x: Mp,
    /// Its width.
    pub width: Mp,
    /// Whether it began in a row above.
    pub above: bool,
    /// Whether it goes on in the row below.
    pub below: bool,
}

/// A cell to fill in.
#[derive(Clone, Copy, Debug)]
pub struct CellField {
    /// Whose it is.
    pub owner: Owner,
    /// Which it is.
    pub field: FieldId,
    /// Size of the type that is filled in.
    pub size: Mp,
}

/// Between the rules of a cell and the field in it: at the sides, and above and below.
const FIELD_INSET: (Mp, Mp) = (Mp(3_000), Mp(1_000));

/// Which rules a row has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RowRules {
    /// Above.
    pub above: Option<Line>,
    /// Below.
    pub below: Option<Line>,
    /// Between and beside cells.
    pub between: Option<Line>,
    /// Gray of the ground.
    pub ground: Option<u16>,
}

/// A rule's thickness and gray.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    /// Thickness.
    pub width: Mp,
    /// 0 is black.
    pub gray: u16,
}

/// Cells beside each other.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its cells, left to right.
    pub cells: Vec<RowCell>,
    /// Inside each cell, at the left and right.
    pub inset_side: Mp,
    /// Inside each cell, above and below.
    pub inset: Mp,
    /// Where cells over several rows stand.
    pub covered: Vec<Covered>,
    /// Its rules and ground.
    pub rules: RowRules,
    /// Its left and right edge.
    pub edges: (Mp, Mp),
    /// The mark set into a row that began on an earlier page; its inner width.
    pub mark: Option<(Arc<Piece>, Mp)>,
}

impl Row {
    /// The height that its cells need.
    pub fn needed(&self) -> Mp {
        let tallest = self.cells.iter().map(|cell| height(&cell.pieces)).max().unwrap_or_default();
        tallest + self.inset * 2
    }

    /// Moves it to the right.
    pub fn shift(&mut self, by: Mp) {
        self.cells.iter_mut().for_each(|cell| cell.x += by);
        self.covered.iter_mut().for_each(|covered| covered.x += by);
        self.edges = (self.edges.0 + by, self.edges.1 + by);
    }

    /// Places ground, cells and rules.
    pub fn place(self, x: Mp, y: Mp, height: Mp, into: &mut Placing) {
        let (left, right) = (x + self.edges.0, x + self.edges.1);
        if let Some(gray) = self.rules.ground {
            into.items.push(artifact(Placed::Fill { x: left, y, width: right - left, height, gray }));
        }
        let mut uprights = Vec::new();
        if self.rules.between.is_some() {
            uprights.push(left);
            uprights.extend(self.covered.iter().map(|covered| x + covered.x + covered.width));
            uprights.extend(self.cells.iter().map(|cell| x + cell.x + cell.width));
        }
        for cell in self.cells {
            let tall = cell.over.unwrap_or(height);
            into.items.extend(cell.field.map(|field| field.placed(x + cell.x, y, cell.width, tall)));
            stack(cell.pieces, x + cell.x + self.inset_side, y + self.inset, into);
        }
        let mut level = |line: Option<Line>, y: Mp, through: fn(&Covered) -> bool| {
            let Some(Line { width, gray }) = line else { return };
            for (x1, x2) in
                between(left, right, self.covered.iter().filter(|it| through(it)).map(|it| (x + it.x, it.width)))
            {
                into.items.push(artifact(Placed::Rule { x1, y1: y, x2, y2: y, width, gray }));
            }
        };
        // Rules stand on the border of two rows, so that the lower one's and the upper one's are one.
        level(self.rules.above, y, |covered| covered.above);
        level(self.rules.below, y + height, |covered| covered.below);
        if let Some(Line { width, gray }) = self.rules.between {
            uprights.sort_unstable();
            uprights.dedup();
            let last = uprights.len() - 1;
            for (at, x) in uprights.into_iter().enumerate() {
                // The outer rules stand inside the row's edges.
                let x = if at == 0 {
                    x + width / 2
                } else if at == last {
                    x - width / 2
                } else {
                    x
                };
                into.items.push(artifact(Placed::Rule { x1: x, y1: y, x2: x, y2: y + height, width, gray }));
            }
        }
    }

    /// Cuts it so that the first part fits into `room`; that part may be empty.
    pub fn split(mut self, room: Mp, fresh: Mp) -> (Row, Row) {
        let (room, fresh) = (room - self.inset * 2, fresh - self.inset * 2);
        let (mut first, mut rest) = (Vec::new(), Vec::new());
        for cell in std::mem::take(&mut self.cells) {
            let mut queue = VecDeque::from(cell.pieces);
            first.push(RowCell { pieces: cut(&mut queue, room, fresh, false), ..cell });
            rest.push(RowCell::new(cell.x, cell.width, resume(queue)));
        }
        self.mark_rest(&first, &mut rest);
        (Row { cells: first, mark: None, ..self.clone() }, Row { cells: rest, ..self })
    }

    /// Says in a row's second part that it goes on, and which row it is: by the first line of its first cell.
    fn mark_rest(&self, first: &[RowCell], rest: &mut [RowCell]) {
        if let Some((mark, width)) = &self.mark {
            // The mark stands in the widest cell that goes on, if it fits there.
            let inner = |cell: &RowCell| cell.width - self.inset_side * 2;
            let going_on = rest.iter_mut().filter(|cell| !cell.pieces.is_empty() && inner(cell) >= *width);
            if let Some(cell) = going_on.max_by_key(|cell| inner(cell)) {
                cell.pieces.insert(0, (**mark).clone());
            }
            if let (Some(head), Some(cell)) = (first.first(), rest.first_mut().filter(|cell| cell.pieces.is_empty())) {
                cell.pieces.extend(head.pieces.first().map(repeated));
            }
        }
    }
}

/// What is left of a rule between its ends where it may not run through some stretches, given by left end and width.
fn between(left: Mp, right: Mp, stretches: impl Iterator<Item = (Mp, Mp)>) -> Vec<(Mp, Mp)> {
    let mut kept = Vec::new();
    let mut from = left;
    let mut stretches: Vec<(Mp, Mp)> = stretches.collect();
    stretches.sort_unstable();
    for (x, width) in stretches {
        if x > from {
            kept.push((from, x));
        }
        from = from.max(x + width);
    }
    if right > from {
        kept.push((from, right));
    }
    kept
}

impl CellField {
    /// The field over a cell of the given place and extent.
    fn placed(self, x: Mp, y: Mp, width: Mp, height: Mp) -> Item {
        let form = if height > self.size * 3 { Form::Area } else { Form::Line };
        let (width, height) = (width - FIELD_INSET.0 * 2, height - FIELD_INSET.1 * 2);
        let (x, y, size) = (x + FIELD_INSET.0, y + FIELD_INSET.1, self.size);
        Item::new(self.owner, Placed::Field { x, y, width, height, size, form, field: self.field })
    }
}
