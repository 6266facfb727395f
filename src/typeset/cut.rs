//! Where a page ends: takes from a queue of pieces what one page or cell can hold.
//!
//! In: pieces, the room there is, the room that a fresh page has. Out: the pieces that fit, with table heads repeated; the
//! queue keeps the rest. May not know: what the pieces are, or where the page is.

use std::collections::VecDeque;
use std::sync::Arc;

use super::pages::{Artifact, Owner, Placed};
use super::piece::{Content, InTable, KeepWith, Piece, Repetition, Total, gap, height};
use crate::markup::Mp;

/// A page in the making.
struct PageBuilder<'q> {
    queue: &'q mut VecDeque<Piece>,
    taken: Vec<Piece>,
    used: Mp,
    room: Mp,
    fresh: Mp,
}

/// Pieces tied together.
struct KeepGroup {
    count: usize,
    /// The height that they need at least.
    needed: Mp,
    /// How much of it is nothing but height before the first of them, which vanishes on a fresh page.
    empty: Mp,
}

/// Takes the pieces that fit into `room`. With `force` at least one is taken, whatever its height, so that a page is never empty.
pub fn cut(queue: &mut VecDeque<Piece>, room: Mp, fresh: Mp, force: bool) -> Vec<Piece> {
    let mut page = PageBuilder { queue, taken: Vec::new(), used: Mp::ZERO, room, fresh };
    page.say_again();
    page.skip_space();
    page.repeat_head();
    page.bring_forward();
    while page.take_some() {}
    if force && page.is_bare() {
        let first = page.queue.pop_front();
        page.taken.extend(first);
    }
    // What is said again waits for something to say it about, if there is any.
    if page.is_bare() && !page.queue.is_empty() {
        page.taken.clear();
    }
    page.carry_forward();
    page.taken
}

impl PageBuilder<'_> {
    /// Whether nothing new is said yet.
    fn is_bare(&self) -> bool {
        self.taken.iter().all(|piece| piece.said != Repetition::Once)
    }

    /// Takes what an earlier cut put before what goes on here. Heads and totals are put there anew, if there is room for them.
    fn say_again(&mut self) {
        let count = self.queue.iter().take_while(|piece| piece.said != Repetition::Once).count();
        self.taken.extend(self.queue.drain(..count).filter(|piece| piece.said == Repetition::Again));
        self.used = height(&self.taken);
    }

    /// Empty height at the top of a page vanishes, and so does a page break there.
    fn skip_space(&mut self) {
        while self.queue.front().is_some_and(|it| it.is_space || matches!(it.content, Content::PageBreak)) {
            self.queue.pop_front();
        }
    }

    /// Repeats the head of the table that goes on, unless it would take half the page.
    fn repeat_head(&mut self) {
        let Some(InTable { head, shift, is_head: false }) = self.queue.front().and_then(|piece| piece.table.clone())
        else {
            return;
        };
        let tall = height(head.iter());
        if tall * 2 > self.room {
            return;
        }
        for piece in head.iter() {
            let piece = repeated_head(piece, &head, shift);
            self.used += gap(self.taken.last().map(|it: &Piece| it.below), &piece) + piece.height;
            self.taken.push(piece);
        }
    }

    /// Says at the top what the rows of the page before came to.
    fn bring_forward(&mut self) {
        let before = self.queue.front().and_then(|next| next.carry.as_ref()?.before.clone());
        if let Some(total) = before.filter(|total| self.used + total.top.height * 2 < self.room) {
            self.used += total.top.height;
            self.taken.push(total.at_top());
        }
    }

    /// Says at the foot what the rows so far come to, where their table goes on.
    fn carry_forward(&mut self) {
        if let Some(total) = self.carried(self.taken.last(), self.queue.front()) {
            self.taken.push(total.at_foot());
        }
    }

    /// The total that is said where a page ends between two rows.
    fn carried(&self, last: Option<&Piece>, next: Option<&Piece>) -> Option<Total> {
        let own = last?.carry.as_ref()?.own.as_ref()?;
        let before = next?.carry.as_ref()?.before.as_ref()?;
        Arc::ptr_eq(&own.foot, &before.foot).then(|| own.clone())
    }

    /// The height that is needed for what is said at the foot, where a page ends after so many of the next pieces.
    fn foot_after(&self, count: usize) -> Mp {
        let last = count.checked_sub(1).and_then(|at| self.queue.get(at));
        self.carried(last, self.queue.get(count)).map_or(Mp::ZERO, |total| total.foot.height)
    }

    /// Takes the next pieces that belong together; false where the page ends before them.
    fn take_some(&mut self) -> bool {
        match self.queue.front().map(|next| &next.content) {
            None => return false,
            Some(Content::PageBreak) => {
                if self.is_bare() {
                    self.skip_space();
                    return true;
                }
                self.queue.pop_front();
                return false;
            }
            Some(_) => {}
        }
        let holding = self.is_holding();
        let may_wait = !self.is_bare() && !holding;
        for tie in [KeepWith::Around, KeepWith::Kept, KeepWith::Company, KeepWith::Bound] {
            let KeepGroup { count, needed, empty } = self.together(tie);
            if self.used + needed + self.foot_after(count) <= self.room {
                return (0..count).all(|_| self.take(false));
            }
            let on_fresh = needed - empty;
            let fits_fresh = self.queue.front().is_some_and(|next| on_fresh <= self.fresh_for(next));
            let at_foot = self.room - self.used - empty < self.fresh / 3;
            if !fits_fresh {
                self.give_way(tie);
            }
            // Where not even a fresh page holds it, it begins here, but not at the foot of the page.
            if may_wait && (fits_fresh || at_foot) {
                return false;
            }
        }
        self.take(holding)
    }

    /// Frees what is tied together at the front of ties of this strength, all at once: a rest that stayed tied would fit a
    /// fresh page by itself, and leave this one nearly empty. What is bound is parted only where it must be.
    fn give_way(&mut self, tie: KeepWith) {
        if tie == KeepWith::Bound {
            return;
        }
        for piece in self.queue.iter_mut().take_while(|piece| !matches!(piece.content, Content::PageBreak)) {
            if piece.tie < tie {
                return;
            }
            if piece.tie == tie {
                piece.tie = KeepWith::Free;
            }
        }
    }

    /// Whether what was taken last is bound to what comes next.
    fn is_holding(&self) -> bool {
        !self.is_bare() && self.taken.last().is_some_and(|last| last.tie == KeepWith::Bound)
    }

    /// The pieces that are tied together at the front.
    fn together(&self, tie: KeepWith) -> KeepGroup {
        let mut below = self.taken.last().map(|piece| piece.below);
        let (mut count, mut needed, mut empty) = (0, Mp::ZERO, Mp::ZERO);
        let mut leading = true;
        for piece in self.queue.iter().take_while(|piece| !matches!(piece.content, Content::PageBreak)) {
            let (above, least) = (gap(below, piece), self.least(piece));
            needed += above + least;
            below = Some(piece.below);
            count += 1;
            if leading {
                leading = piece.is_space;
                empty += above + if leading { least } else { Mp::ZERO };
            }
            // Beyond a fresh page the exact height does not matter.
            if piece.tie < tie || needed - empty > self.fresh {
                break;
            }
        }
        KeepGroup { count, needed, empty }
    }

    /// The height that a piece needs on this page: a third of a page where it is cut in any case, and of columns, which are
    /// many lines and go on in columns.
    fn least(&self, piece: &Piece) -> Mp {
        let fresh = self.fresh_for(piece);
        match piece.content {
            Content::Columns(_) => piece.height.min(fresh / 3),
            Content::Row(_) | Content::Group(_) if piece.height > fresh => fresh / 3,
            _ => piece.height,
        }
    }

    /// Takes the next piece, or as much of it as fits; false where the page ends with or before it. A row is whole unless it
    /// is taller than a page, or than what a page leaves it below the headings that hold it.
    fn take(&mut self, held: bool) -> bool {
        let foot = self.foot_after(1);
        let Some(piece) = self.queue.pop_front() else { return false };
        let gap = gap(self.taken.last().map(|it| it.below), &piece);
        if self.used + gap + piece.height + foot <= self.room {
            self.used += gap + piece.height;
            self.taken.push(piece);
            return true;
        }
        let before = piece.carry.as_ref().and_then(|carry| carry.before.as_ref());
        let room = self.room - self.used - gap - before.map_or(Mp::ZERO, |total| total.foot.height);
        // All of it may fit but for what is said at the foot below it; then not all of it stays.
        let room = room.min(piece.height - Mp(1));
        let fresh = self.fresh_for(&piece);
        let again = height(self.taken.iter().filter(|piece| piece.said == Repetition::Again));
        // Where an empty page has no room for it, none has.
        let none_has = self.is_bare() && self.room >= self.fresh;
        let must = held || none_has || matches!(piece.content, Content::Columns(_)) || piece.height > fresh;
        match if must { split(&piece, room, fresh - again) } else { None } {
            Some((first, rest)) => {
                self.taken.push(first);
                self.queue.push_front(rest);
            }
            None => self.queue.push_front(piece),
        }
        false
    }

    /// The room that a piece would find on a fresh page.
    fn fresh_for(&self, piece: &Piece) -> Mp {
        let head = piece.table.as_ref().filter(|table| !table.is_head);
        let before = piece.carry.as_ref().and_then(|carry| carry.before.as_ref());
        let totals = before.map_or(Mp::ZERO, |total| total.top.height + total.foot.height);
        self.fresh - totals - head.map_or(Mp::ZERO, |table| height(table.head.iter()))
    }
}

/// Puts the head of a table above the rows that go on in the second part of a cell.
pub fn resume(queue: VecDeque<Piece>) -> Vec<Piece> {
    let mut pieces = Vec::with_capacity(queue.len());
    if let Some(InTable { head, shift, is_head: false }) = queue.front().and_then(|piece| piece.table.as_ref()) {
        pieces.extend(head.iter().map(|piece| repeated_head(piece, head, *shift)));
    }
    let before = queue.front().and_then(|next| next.carry.as_ref()?.before.as_ref());
    pieces.extend(before.map(Total::at_top));
    pieces.extend(queue);
    pieces
}

fn repeated_head(piece: &Piece, head: &Arc<Vec<Piece>>, shift: Mp) -> Piece {
    let mut piece = repeated(piece);
    piece.shift(shift);
    piece.table = Some(InTable { head: head.clone(), shift, is_head: true });
    piece.said = Repetition::Resumed;
    piece
}

/// Cuts a piece; none where that would leave as much of it as there was.
fn split(piece: &Piece, room: Mp, fresh: Mp) -> Option<(Piece, Piece)> {
    let outer = Piece { content: Content::PageBreak, ..piece.clone() };
    let ((first, first_height), (rest, rest_height)) = match piece.content.clone() {
        Content::Row(row) => {
            let (first, rest) = row.split(room, fresh);
            let heights = (first.needed(), rest.needed());
            ((Content::Row(Box::new(first)), heights.0), (Content::Row(Box::new(rest)), heights.1))
        }
        Content::Group(group) => {
            let (first, rest) = group.split(room, fresh)?;
            let heights = (first.height(), rest.height());
            ((Content::Group(Box::new(first)), heights.0), (Content::Group(Box::new(rest)), heights.1))
        }
        Content::Columns(columns) => {
            let ((first, first_height), (rest, rest_height)) = columns.split(room, fresh);
            ((Content::Columns(first), first_height), (Content::Columns(rest), rest_height))
        }
        Content::Items(_) | Content::PageBreak => return None,
    };
    // Nothing stands between the parts but what is said at the foot of a page and at the top of the next.
    let mut first =
        Piece { content: first, height: first_height, below: Mp::ZERO, tie: KeepWith::Free, ..outer.clone() };
    if let Some(carry) = &mut first.carry {
        carry.own = carry.before.clone();
    }
    let rest = Piece { content: rest, height: rest_height, above: Mp::ZERO, headings: Vec::new(), ..outer };
    (rest.unsaid() < piece.unsaid()).then_some((first, rest))
}

/// A copy of a piece whose content is said already.
pub fn repeated(piece: &Piece) -> Piece {
    let mut copy = piece.clone();
    copy.headings.clear();
    copy.said = Repetition::Again;
    mark_repeated(&mut copy);
    copy
}

fn mark_repeated(piece: &mut Piece) {
    match &mut piece.content {
        Content::Items(items) => {
            // What is said twice is filled in once.
            items.retain(|item| !matches!(item.placed, Placed::Field { .. }));
            for item in items.iter_mut().filter(|item| !matches!(item.owner, Owner::Artifact(_))) {
                item.owner = Owner::Artifact(Artifact::Repeated);
            }
        }
        Content::Row(row) => {
            row.cells.iter_mut().for_each(|cell| cell.field = None);
            row.cells.iter_mut().flat_map(|cell| &mut cell.pieces).for_each(mark_repeated);
        }
        Content::Group(group) => group.cells().for_each(|cell| {
            cell.field = None;
            cell.pieces.iter_mut().for_each(mark_repeated);
        }),
        Content::Columns(columns) => columns.filled.iter_mut().flatten().for_each(mark_repeated),
        Content::PageBreak => {}
    }
}
