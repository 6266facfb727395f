//! Rows joined by cells that cover several of them: whole where a page can hold them, and how they are cut where none can.
//!
//! In: rows, and the cells over several of them. Out: placed cells; or two groups, the cells that go on marked in the second.
//! May not know: columns of a table, or pages.

use std::collections::VecDeque;

use super::cut::{cut, repeated, resume};
use super::piece::{Piece, Placing, height};
use super::row::{Row, RowCell};
use crate::markup::{BlockId, Mp};

/// A cell over several rows of a group.
#[derive(Clone, Debug)]
pub struct Spanning {
    /// The cell.
    pub cell: RowCell,
    /// The first row that it covers.
    pub first: usize,
    /// One past the last.
    pub end: usize,
    /// The least height that it was given, without insets.
    pub least: Mp,
}

/// A row of a group.
#[derive(Clone, Debug)]
struct GroupRow {
    row: Row,
    /// The height that its own cells need.
    own: Mp,
    /// Its height.
    height: Mp,
}

/// Rows joined by cells over several of them.
#[derive(Clone, Debug)]
pub struct Group {
    rows: Vec<GroupRow>,
    spanning: Vec<Spanning>,
}

impl Group {
    /// Joins rows of the given heights; the last row that a cell covers grows where the cell needs more than they have.
    pub fn new(rows: Vec<(Row, Mp)>, spanning: Vec<Spanning>) -> Self {
        let rows = rows.into_iter().map(|(row, own)| GroupRow { row, own, height: own }).collect();
        let mut group = Group { rows, spanning };
        group.grow();
        group
    }

    fn grow(&mut self) {
        self.rows.iter_mut().for_each(|row| row.height = row.own);
        self.spanning.sort_by_key(|spanning| (spanning.end, spanning.cell.x));
        for Spanning { cell, first, end, least } in &self.spanning {
            let covered = self.rows.get_mut(*first..*end).unwrap_or_default();
            let given: Mp = covered.iter().map(|row| row.height).sum();
            if let Some(last) = covered.last_mut() {
                let needed = height(&cell.pieces).max(*least) + last.row.inset * 2;
                last.height += (needed - given).max(Mp::ZERO);
            }
        }
    }

    /// Its height.
    pub fn height(&self) -> Mp {
        self.rows.iter().map(|row| row.height).sum()
    }

    /// Moves it to the right.
    pub fn shift(&mut self, by: Mp) {
        self.rows.iter_mut().for_each(|it| it.row.shift(by));
        self.spanning.iter_mut().for_each(|spanning| spanning.cell.x += by);
    }

    /// Its cells.
    pub fn cells(&mut self) -> impl Iterator<Item = &mut RowCell> {
        let own = self.rows.iter_mut().flat_map(|it| it.row.cells.iter_mut());
        own.chain(self.spanning.iter_mut().map(|spanning| &mut spanning.cell))
    }

    /// Places row below row; a cell over several stands with those of its first.
    pub fn place(self, x: Mp, y: Mp, into: &mut Placing) {
        let heights: Vec<Mp> = self.rows.iter().map(|row| row.height).collect();
        let mut spanning = self.spanning;
        let mut top = y;
        for (at, GroupRow { mut row, height, .. }) in self.rows.into_iter().enumerate() {
            for mut over in spanning.extract_if(.., |spanning| spanning.first == at) {
                over.cell.over = Some(heights[over.first..over.end].iter().copied().sum());
                let before = row.cells.partition_point(|cell| cell.x < over.cell.x);
                row.cells.insert(before, over.cell);
            }
            row.place(x, top, height, into);
            top += height;
        }
    }

    /// How much of it is said once.
    pub fn unsaid(&self) -> usize {
        let own = self.rows.iter().flat_map(|it| &it.row.cells).map(RowCell::unsaid).sum::<usize>();
        self.rows.len() + own + self.spanning.iter().map(|spanning| spanning.cell.unsaid()).sum::<usize>()
    }

    /// The first block that something in it belongs to.
    pub fn block(&self) -> Option<BlockId> {
        let over = self.spanning.iter().filter(|spanning| spanning.first == 0).map(|spanning| &spanning.cell);
        let own = self.rows.iter().flat_map(|it| &it.row.cells);
        over.chain(own).flat_map(|cell| &cell.pieces).find_map(Piece::block)
    }

    /// Cuts it below the last row that fits into `room`, or inside its first where none does; the first part may be empty.
    /// None where there is no row to cut below.
    pub fn split(mut self, room: Mp, fresh: Mp) -> Option<(Group, Group)> {
        let mut used = Mp::ZERO;
        let fits = |row: &&GroupRow| {
            used += row.height;
            used <= room
        };
        let mut kept = self.rows.iter().take_while(fits).count();
        if kept == 0 {
            self.split_first(room, fresh);
            kept = 1;
        }
        if kept >= self.rows.len() {
            return None;
        }
        let mut below = Group { rows: self.rows.split_off(kept), spanning: Vec::new() };
        let mut above = Group { rows: self.rows, spanning: Vec::new() };
        for spanning in self.spanning {
            match spanning {
                it if it.end <= kept => above.spanning.push(it),
                it if it.first >= kept => below.spanning.push(it.moved_up(kept)),
                it => above.part(&mut below, it, room, fresh),
            }
        }
        above.grow();
        below.grow();
        Some((above, below))
    }

    /// Makes two rows of the first; both are empty where all that it shows is cells over several rows.
    fn split_first(&mut self, room: Mp, fresh: Mp) {
        let Some(row) = self.rows.first().map(|first| first.row.clone()) else { return };
        let is_empty = row.cells.iter().all(|cell| cell.pieces.is_empty());
        let (first, rest) = if is_empty { (row.clone(), row) } else { row.split(room, fresh) };
        let halves = [first, rest].map(|row| GroupRow { own: row.needed(), height: row.needed(), row });
        self.rows.splice(..1, halves);
        for spanning in &mut self.spanning {
            spanning.first += usize::from(spanning.first > 0);
            spanning.end += 1;
        }
    }

    /// Shares a cell that goes on below the cut; there it says so, below the first line of what it holds.
    fn part(&mut self, below: &mut Group, mut whole: Spanning, room: Mp, fresh: Mp) {
        let kept = self.rows.len();
        let before: Mp = self.rows[..whole.first].iter().map(|row| row.height).sum();
        let Some(last) = self.rows.last_mut() else { return };
        last.row.covered.iter_mut().for_each(|covered| covered.below = false);
        let (inset, inset_side) = (last.row.inset, last.row.inset_side);
        let next = below.rows.first_mut();
        let mark = next.and_then(|next| {
            next.row.covered.iter_mut().for_each(|covered| covered.above = false);
            next.row.mark.clone()
        });
        let mut queue = VecDeque::from(std::mem::take(&mut whole.cell.pieces));
        let room = room - before - inset * 2;
        let taken = cut(&mut queue, room, fresh - inset * 2, false);
        let ended = queue.is_empty();
        let mut rest: Vec<Piece> = if ended { taken.first().map(repeated).into_iter().collect() } else { Vec::new() };
        rest.extend(
            mark.filter(|(_, width)| *width <= whole.cell.width - inset_side * 2).map(|(mark, _)| (*mark).clone()),
        );
        rest.append(&mut resume(queue));
        let going_on = RowCell { pieces: rest, field: None, ..whole.cell.clone() };
        below.spanning.push(Spanning { cell: going_on, first: 0, end: whole.end - kept, least: Mp::ZERO });
        whole.cell.pieces = taken;
        whole.least = whole.least.min(room);
        self.spanning.push(Spanning { end: kept, ..whole });
    }
}

impl Spanning {
    fn moved_up(self, by: usize) -> Self {
        Spanning { first: self.first - by, end: self.end - by, ..self }
    }
}
