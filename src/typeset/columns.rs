//! Narrow columns of equal width, filled in turn and balanced.
//!
//! In: pieces set to the width of one column. Out: columns of about one height; or two parts, where a page cannot hold them.
//! May not know: pages.

use std::collections::VecDeque;

use super::cut::cut;
use super::piece::{KeepWith, Piece, Placing, Repetition, height, stack};
use crate::markup::Mp;

/// How finely heights are tried when columns are balanced.
const STEP: Mp = Mp(3_000);

/// Narrow columns.
#[derive(Clone, Debug)]
pub struct Columns {
    /// The left edge of the first.
    pub left: Mp,
    /// From the left edge of one to that of the next.
    pub pitch: Mp,
    /// How many.
    pub count: usize,
    /// What stands in them, column by column.
    pub filled: Vec<Vec<Piece>>,
}

impl Columns {
    /// Balances pieces over columns, and says how high they are.
    pub fn balanced(pieces: Vec<Piece>, left: Mp, pitch: Mp, count: usize) -> (Columns, Mp) {
        let whole = height(&pieces);
        let mut room = (whole / count as i32).max(tallest_kept(&pieces));
        loop {
            let mut queue = VecDeque::from(pieces.clone());
            let filled = fill(&mut queue, count, room, whole);
            if queue.is_empty() || room >= whole {
                let tallest = filled.iter().map(height).max().unwrap_or_default();
                return (Columns { left, pitch, count, filled }, tallest);
            }
            room += STEP;
        }
    }

    /// Places every column.
    pub fn place(self, x: Mp, y: Mp, into: &mut Placing) {
        for (at, pieces) in self.filled.into_iter().enumerate() {
            stack(pieces, x + self.left + self.pitch * at as i32, y, into);
        }
    }

    /// Fills columns of the height of `room`, and balances what is left; the columns may be empty.
    pub fn split(self, room: Mp, fresh: Mp) -> ((Columns, Mp), (Columns, Mp)) {
        let (left, pitch, count) = (self.left, self.pitch, self.count);
        // Heads of tables that go on in the next column are put there anew.
        let own = self.filled.into_iter().flatten().filter(|piece| piece.said != Repetition::Resumed);
        let mut queue: VecDeque<Piece> = own.collect();
        let filled = fill(&mut queue, count, room, fresh);
        let tallest = filled.iter().map(height).max().unwrap_or_default();
        let first = Columns { left, pitch, count, filled };
        ((first, tallest), Columns::balanced(queue.into(), left, pitch, count))
    }
}

/// The height of the tallest pieces that stay together: in a lower column they would be parted.
fn tallest_kept(pieces: &[Piece]) -> Mp {
    let kept = pieces.chunk_by(|one, _| one.tie > KeepWith::Free);
    kept.map(height).max().unwrap_or_default()
}

fn fill(queue: &mut VecDeque<Piece>, count: usize, room: Mp, fresh: Mp) -> Vec<Vec<Piece>> {
    (0..count).map(|_| cut(queue, room, fresh, false)).collect()
}
