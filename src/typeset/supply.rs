//! The pieces of a sheet, set as its pages ask for them.
//!
//! In: the blocks of a sheet. Out: their pieces in order; of a long table no more rows than the next pages can hold and
//! some beyond. May not know: where a page ends.

use std::collections::VecDeque;

use super::flow::Flow;
use super::piece::{KeepWith, Piece};
use super::table::{BATCH, OpenTable, SHARE};
use crate::markup::{BlockId, Kind, Mp};

/// How many rows of an unfinished table are set before a page is cut. A page, and what is looked at behind it to see whether
/// it stays together, is far lower than so many lines.
const AHEAD: usize = 500;

/// What is still to be set of a sheet.
pub(super) struct Supply<'t> {
    blocks: &'t [BlockId],
    width: Mp,
    /// The table that is being handed out.
    open: Option<OpenTable>,
    /// How many of its rows were handed out.
    given: usize,
}

impl<'t> Supply<'t> {
    /// The blocks of a sheet in a width.
    pub(super) fn new(blocks: &'t [BlockId], width: Mp) -> Self {
        Supply { blocks, width, open: None, given: 0 }
    }
}

impl Flow<'_, '_> {
    /// Sets as many pieces as the next page can ask about, the last one free of those behind it.
    pub(super) fn refill(&mut self, supply: &mut Supply<'_>, queue: &mut VecDeque<Piece>) {
        loop {
            if let Some(open) = supply.open.as_mut().filter(|open| !open.is_done()) {
                let is_free = queue.back().is_some_and(|last| last.tie == KeepWith::Free);
                if is_free && queue.len().min(supply.given) >= AHEAD {
                    return;
                }
                // A batch that ends within a group that keeps together is topped up by little.
                let enough = queue.len().min(supply.given) >= AHEAD;
                let rows = self.next_rows(open, if enough { SHARE } else { BATCH });
                supply.given += rows.len();
                queue.extend(rows);
                continue;
            }
            supply.open = None;
            let Some((block, rest)) = supply.blocks.split_first() else { return };
            supply.blocks = rest;
            match &self.block(*block).kind {
                Kind::Table { columns, look } => {
                    supply.open = Some(self.open_table(*block, columns, *look, supply.width));
                    supply.given = 0;
                }
                kind => {
                    // Lines to sign on stay with what they sign.
                    queue
                        .back_mut()
                        .filter(|_| *kind == Kind::Sign)
                        .into_iter()
                        .for_each(|last| last.tie = KeepWith::Bound);
                    queue.extend(self.pieces(*block, supply.width));
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, VecDeque};
    use std::fmt::Write;

    use super::super::paper::flow;
    use super::super::tests::tree_of;
    use super::super::{Mp, Theme};
    use super::{AHEAD, Piece, Supply};
    use crate::fonts::Faces;

    /// A table of 5,000 rows, more than two batches, in groups of 7 and 11 with sums and what is carried; then lines to sign on.
    fn long() -> String {
        let mut text = String::from("<p>Before</p><table><thead><tr><th>Head</th><th>of two</th></tr></thead><tbody>");
        for at in 0..5_000 {
            let class = if at % 77 == 0 {
                "group"
            } else if at % 7 == 6 {
                "subtotal"
            } else {
                "plain"
            };
            let carry = if at % 5 == 0 { format!(" carry=\"{at}\"") } else { String::new() };
            let class = if class == "plain" { String::new() } else { format!(" class=\"{class}\"") };
            // Writing to a string cannot fail.
            let _ = write!(text, "<tr{class}{carry}><td>row {at}</td><td>{}</td></tr>", at * at % 97);
        }
        text + "</tbody></table><sign><line>Name</line></sign>"
    }

    /// All that a page asks of a piece before it takes it.
    fn asked(piece: &Piece) -> String {
        let total = |it: &Option<super::super::piece::Total>| it.as_ref().map(|it| it.foot.block());
        let carry = piece.carry.as_ref().map(|it| (total(&it.before), total(&it.own)));
        let head = piece.table.as_ref().map(|it| (it.is_head, it.head.len()));
        let Piece { tie, height, above, below, .. } = piece;
        format!("{:?} {tie:?} {height:?} {above:?} {below:?} {carry:?} {head:?}", piece.block())
    }

    #[test]
    fn rows_in_batches_are_those_of_the_table_set_at_once() {
        let (tree, faces, theme, none) = (tree_of(&long()), Faces::built_in(), Theme::default(), BTreeMap::new());
        let sheet = *tree.children(tree.root()).last().expect("the sheet");
        let start = || flow(&tree, &faces, &theme, (&none).into());
        let width = Mp::points(400);
        let whole: Vec<String> = start().blocks(tree.children(sheet), width).iter().map(asked).collect();
        let (mut flow, mut supply, mut queue) = (start(), Supply::new(tree.children(sheet), width), VecDeque::new());
        let (mut brought, mut most) = (Vec::new(), 0);
        loop {
            flow.refill(&mut supply, &mut queue);
            most = most.max(queue.len());
            let Some(piece) = queue.pop_front() else { break };
            brought.push(asked(&piece));
        }
        assert!(whole.len() > 5_000, "{}", whole.len());
        assert!(most < 5_000 / 2 + 2 * AHEAD, "{most} at once");
        assert_eq!(brought, whole);
    }
}
