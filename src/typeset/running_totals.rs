//! Running totals of a table, said where a page ends and again where the next begins.
//!
//! In: the finished texts that rows bring. Out: for each row what is said before and after it. May not know: what a text
//! means, or where a page ends.

use std::sync::Arc;

use super::flow::Flow;
use super::pages::{Artifact, Owner};
use super::piece::{Content, Piece, RunningTotals, Total};
use super::row::{Line, Row, RowCell, RowRules};
use super::setting::Setting;
use super::table::{Table, TableRow, Unit};
use crate::markup::{Align, BlockId, Inline, Mp, Weight};

impl Flow<'_, '_> {
    /// Tells each row what the rows before it and those up to it come to; a row that brings nothing leaves it as it was.
    /// `before` is what the rows before these come to, and becomes what all of them do.
    pub(super) fn carry(
        &mut self,
        units: &mut [Unit],
        (rows, table): (&[TableRow], &Table),
        before: &mut Option<Total>,
    ) {
        for unit in units {
            let brings = |row: &TableRow| Some((row.block, row.carry.clone()?));
            let brought = rows[unit.first..unit.end].iter().rev().find_map(brings);
            let own = brought.map(|(row, text)| self.total(row, &text, table)).or_else(|| before.clone());
            let before = std::mem::replace(before, own.clone());
            unit.piece.carry = Some(Box::new(RunningTotals { before, own }));
        }
    }

    fn total(&mut self, block: BlockId, text: &str, table: &Table) -> Total {
        let (carried, brought) = (self.theme.carried.clone(), self.theme.brought.clone());
        let foot = Arc::new(self.total_row(block, &carried, text, table));
        Total { foot, top: Arc::new(self.total_row(block, &brought, text, table)), shift: Mp::ZERO }
    }

    /// A row of words and an amount. The amount stands in the column that carries; the words before it, or after it where it is
    /// the first, or in the same cell where it is the only one.
    fn total_row(&mut self, block: BlockId, words: &str, amount: &str, table: &Table) -> Piece {
        let (inset_side, inset) = (self.theme.cell_side, self.theme.cell_above);
        let last = table.columns.len() - 1;
        let at = table.columns.iter().position(|column| column.carries).unwrap_or(last);
        let (x, after, end) = (table.edges[at], table.edges[at + 1], table.edges[last + 1]);
        let owner = Owner::Artifact(Artifact::Repeated);
        let plain = Setting { gray: self.theme.gray_quiet, align: Align::Right, ..Setting::plain(self.sizes, owner) };
        let align = if table.columns[at].align == Align::Decimal { Align::Decimal } else { Align::Right };
        let decimals = table.decimals[at];
        let own = |text: &str, here: &mut Self| {
            here.total_cell(block, text, x, after - x, Setting { align, decimals, ..plain })
        };
        let cells = match (at, last) {
            (0, 0) => vec![own(&format!("{words} {amount}"), self)],
            (0, _) => {
                let beside = Setting { align: Align::Left, ..plain };
                vec![own(amount, self), self.total_cell(block, words, after, end - after, beside)]
            }
            _ => vec![self.total_cell(block, words, Mp::ZERO, x, plain), own(amount, self)],
        };
        let line = Some(Line { width: self.theme.rule_thin, gray: self.theme.gray_rule });
        let rules = RowRules { above: None, below: line, between: None, ground: None };
        let covered = Vec::new();
        let row = Row { cells, inset_side, inset, covered, rules, edges: (Mp::ZERO, end), mark: None };
        Piece::new(row.needed(), Content::Row(Box::new(row)))
    }

    fn total_cell(&mut self, block: BlockId, text: &str, x: Mp, width: Mp, setting: Setting) -> RowCell {
        let weight = Weight { italic: true, ..Weight::default() };
        let inlines = [Inline::Text { text: text.to_string(), weight, to: None }];
        let inner = width - self.theme.cell_side * 2;
        let lines = self.texts().lines(&inlines, inner, setting);
        self.check_letters(block, &lines);
        let pieces: Vec<Piece> = lines.into_iter().map(|line| Piece::items(line.height, line.items)).collect();
        RowCell::new(x, width, pieces)
    }
}
