//! Tables: widths of columns, decimal points in line, rows with their rules, heads that repeat.
//!
//! In: a table and a width. Out: one piece a row, each knowing the head of its table. May not know: where a page ends.

use std::sync::Arc;

use super::flow::Flow;
use super::lists::is_one_line;
use super::pages::{Artifact, Owner};
use super::piece::{Content, InTable, Piece, Tie, set_gaps};
use super::row::{CellField, Line, Row, RowCell, RowRules};
use super::text::Setting;
use super::widths::Need;
use crate::markup::{Align, BlockId, Body, Column, Kind, Mp, RowKind, Scope, TableLook, Width};

/// Which part of a table a row stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Head,
    Body,
    Foot,
}

/// A table in the making.
struct Table {
    columns: Vec<Column>,
    /// Left edges of the columns, and the right edge of the last.
    edges: Vec<Mp>,
    /// The widest digits after a decimal point, by column.
    decimals: Vec<Mp>,
    look: TableLook,
    mark: Option<(Box<Piece>, Mp)>,
}

impl Flow<'_, '_> {
    /// A table.
    pub(super) fn table(&mut self, id: BlockId, columns: &[Column], look: TableLook, width: Mp) -> Vec<Piece> {
        let rows = self.rows(id);
        let needs = self.needs(columns, &rows);
        let widths: Vec<Width> = columns.iter().map(|column| column.width).collect();
        let extents = self.solve(id, &widths, &needs, width);
        let mut edges = vec![Mp::ZERO];
        edges.extend(extents.iter().scan(Mp::ZERO, |x, extent| {
            *x += *extent;
            Some(*x)
        }));
        let mut table = Table { columns: columns.to_vec(), edges, decimals: Vec::new(), look, mark: self.mark_piece() };
        table.decimals = self.decimals(&table.columns, &rows);
        let mut pieces = self.row_pieces(&rows, &table);
        self.join(&mut pieces, &rows);
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    fn rows(&self, id: BlockId) -> Vec<(Part, BlockId)> {
        let mut rows = Vec::new();
        for group in self.tree.children(id) {
            let part = match self.block(*group).kind {
                Kind::TableHead => Part::Head,
                Kind::TableFoot => Part::Foot,
                _ => Part::Body,
            };
            rows.extend(self.tree.children(*group).iter().map(|row| (part, *row)));
        }
        rows
    }

    /// The cells of a row: first column, columns covered, block.
    fn cells(&self, row: BlockId) -> Vec<(usize, usize, BlockId)> {
        let mut at = 0;
        let placed = self.tree.children(row).iter().map(|cell| {
            let span = match self.block(*cell).kind {
                Kind::Cell { colspan, .. } => usize::from(colspan),
                _ => 1,
            };
            at += span;
            (at - span, span, *cell)
        });
        placed.collect()
    }

    /// What the fitted columns need, insets included. Cells over several columns do not count.
    fn needs(&mut self, columns: &[Column], rows: &[(Part, BlockId)]) -> Vec<Need> {
        let mut needs = vec![Need::default(); columns.len()];
        if columns.iter().all(|column| column.width != Width::Fit) {
            return needs;
        }
        for (_, row) in rows {
            for (at, span, cell) in self.cells(*row) {
                if span != 1 || columns[at].width != Width::Fit {
                    continue;
                }
                let need = self.need(cell);
                // Heads and sums are bold, which is wider by a little.
                let inset = self.theme.cell_side * 2 + Mp(1);
                let bold = need.most.scaled(8, 100);
                needs[at].most = needs[at].most.max(need.most + bold + inset);
                needs[at].least = needs[at].least.max(need.least + need.least.scaled(8, 100) + inset);
            }
        }
        needs
    }

    /// The widest digits after a decimal point of each column.
    fn decimals(&mut self, columns: &[Column], rows: &[(Part, BlockId)]) -> Vec<Mp> {
        let mut decimals = vec![Mp::ZERO; columns.len()];
        for (part, row) in rows.iter().filter(|(part, _)| *part != Part::Head) {
            for (at, span, cell) in self.cells(*row) {
                if self.align(*part, cell, columns[at]) != Align::Decimal || span != 1 {
                    continue;
                }
                let Body::Text(inlines) = &self.block(cell).body else { continue };
                if is_one_line(inlines) {
                    let setting = Setting { bold: self.is_bold(*part, *row, cell), ..self.plain(cell) };
                    let mut texts = self.texts();
                    let lines = texts.lines(inlines, Mp(i32::MAX / 4), setting);
                    let tail = lines.first().map_or(Mp::ZERO, |line| texts.decimals_of(line));
                    decimals[at] = decimals[at].max(tail);
                }
            }
        }
        decimals
    }

    fn align(&self, part: Part, cell: BlockId, column: Column) -> Align {
        let own = match self.block(cell).kind {
            Kind::Cell { align, .. } => align,
            _ => None,
        };
        match (own, part, column.align) {
            (Some(align), ..) => align,
            (None, Part::Head, Align::Decimal) => Align::Right,
            (None, _, align) => align,
        }
    }

    fn is_bold(&self, part: Part, row: BlockId, cell: BlockId) -> bool {
        let strong_row = matches!(self.block(row).kind, Kind::Row(RowKind::Group | RowKind::Subtotal | RowKind::Total));
        let head = matches!(self.block(cell).kind, Kind::Cell { scope: Some(Scope::Column | Scope::Row), .. });
        part == Part::Head || strong_row || head
    }

    fn row_kind(&self, row: BlockId) -> RowKind {
        match self.block(row).kind {
            Kind::Row(kind) => kind,
            _ => RowKind::Plain,
        }
    }

    fn row_pieces(&mut self, rows: &[(Part, BlockId)], table: &Table) -> Vec<Piece> {
        let last_head = rows.iter().rposition(|(part, _)| *part == Part::Head);
        let mut striped = false;
        let mut pieces = Vec::with_capacity(rows.len());
        for (at, (part, row)) in rows.iter().enumerate() {
            let kind = self.row_kind(*row);
            striped = if kind == RowKind::Plain && *part == Part::Body { !striped } else { false };
            let rules = self.rules(*part, kind, table.look, last_head == Some(at), striped);
            pieces.push(self.row_piece(*part, *row, table, rules));
        }
        pieces
    }

    fn rules(&self, part: Part, kind: RowKind, look: TableLook, last_head: bool, striped: bool) -> RowRules {
        let theme = self.theme;
        let thin = Some(Line { width: theme.rule_thin, gray: theme.gray_rule });
        let strong = Some(Line { width: theme.rule_strong, gray: 0 });
        let writing = Some(Line { width: theme.rule_thin, gray: 0 });
        let grid = look == TableLook::Grid;
        let sum = matches!(kind, RowKind::Subtotal | RowKind::Total);
        let below = match (part, look) {
            (Part::Head, _) if last_head => strong,
            (_, TableLook::Grid) => writing,
            _ if kind == RowKind::Total => strong,
            (Part::Head, _) | (_, TableLook::Plain | TableLook::Zebra) => None,
            (_, TableLook::Rows) => thin,
        };
        let ground = if kind == RowKind::Group || (grid && part == Part::Head) {
            Some(theme.gray_ground)
        } else {
            (look == TableLook::Zebra && !striped && kind == RowKind::Plain && part == Part::Body)
                .then_some(theme.gray_zebra)
        };
        let above = if sum { strong } else { writing.filter(|_| grid) };
        RowRules { above, below, between: writing.filter(|_| grid), ground }
    }

    fn row_piece(&mut self, part: Part, row: BlockId, table: &Table, rules: RowRules) -> Piece {
        let (inset_side, inset) = (self.theme.cell_side, self.theme.cell_above);
        let mut least = self.theme.line(self.sizes.text);
        let mut cells = Vec::new();
        for (at, span, cell) in self.cells(row) {
            let (x, end) = (table.edges[at], table.edges[at + span]);
            let align = self.align(part, cell, table.columns[at]);
            let decimals = if span == 1 { table.decimals[at] } else { Mp::ZERO };
            let setting = Setting { bold: self.is_bold(part, row, cell), align, decimals, ..self.plain(cell) };
            let mut pieces = self.inside(cell, end - x - inset_side * 2, setting);
            if let Some(first) = pieces.first_mut() {
                first.above = Mp::ZERO;
            }
            if let Kind::Cell { height: Some(height), .. } = self.block(cell).kind {
                least = least.max(height.min(self.page.scaled(3, 4)));
            }
            let (owner, size) = (Owner::Block(cell), self.sizes.text);
            let field = self.block(cell).field.map(|field| CellField { owner, field, size });
            cells.push(RowCell { x, width: end - x, pieces, field });
        }
        let edges = (Mp::ZERO, table.edges.last().copied().unwrap_or_default());
        let row = Row { cells, inset_side, inset, rules, edges, mark: table.mark.clone() };
        let height = row.needed().max(least + inset * 2);
        Piece::new(height, Content::Row(row))
    }

    /// The mark of a row that began on an earlier page.
    fn mark_piece(&mut self) -> Option<(Box<Piece>, Mp)> {
        let owner = Owner::Artifact(Artifact::Repeated);
        let setting = Setting { gray: self.theme.gray_quiet, ..Setting::plain(self.sizes, owner) };
        let weight = crate::markup::Weight { italic: true, ..Default::default() };
        let inlines = [crate::markup::Inline::Text { text: self.theme.continued.clone(), weight, to: None }];
        let line = self.texts().lines(&inlines, Mp(i32::MAX / 4), setting).into_iter().next()?;
        let mut piece = Piece::items(line.height, line.items);
        piece.tie = Tie::Bound;
        Some((Box::new(piece), line.width))
    }

    /// Ties rows that belong together, and tells each the head of its table.
    fn join(&self, pieces: &mut [Piece], rows: &[(Part, BlockId)]) {
        let plain = |at: usize| {
            rows.get(at).is_some_and(|(part, row)| *part == Part::Body && self.row_kind(*row) == RowKind::Plain)
        };
        for at in 0..pieces.len() {
            let (part, row) = rows[at];
            let heads = part == Part::Head || self.row_kind(row) == RowKind::Group;
            let Some((next_part, next_row)) = rows.get(at + 1) else { break };
            let next_kind = self.row_kind(*next_row);
            let sums = *next_part == Part::Foot || matches!(next_kind, RowKind::Subtotal | RowKind::Total);
            // Of rows that follow each other no first and no last one is left alone before or after a page's end.
            let first = plain(at) && plain(at + 1) && (at == 0 || !plain(at - 1));
            let last = plain(at) && plain(at + 1) && !plain(at + 2);
            if heads || sums {
                pieces[at].tie = Tie::Bound;
            } else if first || last {
                pieces[at].tie = Tie::Kept;
            }
        }
        let head: Vec<Piece> =
            pieces.iter().zip(rows).filter(|(_, row)| row.0 == Part::Head).map(|(it, _)| it.clone()).collect();
        if head.is_empty() {
            return;
        }
        let head = Arc::new(head);
        for (piece, (part, _)) in pieces.iter_mut().zip(rows) {
            piece.table = Some(InTable { head: head.clone(), shift: Mp::ZERO, is_head: *part == Part::Head });
        }
    }
}
