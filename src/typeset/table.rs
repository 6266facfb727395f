//! Tables: widths of columns, decimal points in line, rows with their rules, heads that repeat.
//!
//! In: a table and a width. Out: one piece a row, each knowing the head of its table; the rows of a long one in batches, so that
//! no more of them are set than pages are about to hold. May not know: where a page ends.

use std::sync::Arc;

use rayon::prelude::*;

use super::flow::Flow;
use super::group::{Group, Spanning};
use super::lists::is_one_line;
use super::pages::{Artifact, Owner};
use super::piece::{Content, InTable, KeepWith, Piece, Repetition, Total};
use super::row::{CellField, Covered, Line, Row, RowCell, RowRules};
use super::setting::Setting;
use super::widths::Need;
use crate::fonts::Shaped;
use crate::markup::{Align, BlockId, Body, Column, Kind, Mp, RowKind, Scope, TableLook, Width};

/// Which part of a table a row stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Head,
    Body,
    Foot,
}

/// A row as the markup has it.
pub(super) struct TableRow {
    pub(super) block: BlockId,
    part: Part,
    kind: RowKind,
    /// What the rows up to it come to.
    pub(super) carry: Option<String>,
    cells: Vec<CellAt>,
}

/// Where a cell stands.
#[derive(Clone, Copy)]
struct CellAt {
    /// Its first column.
    at: usize,
    columns: usize,
    rows: usize,
    block: BlockId,
}

/// A row that is set, and the cells that begin in it and cover more rows.
struct SetRow {
    row: Row,
    height: Mp,
    spanning: Vec<Spanning>,
}

/// A row, or rows that stay together.
pub(super) struct Unit {
    /// Its first row.
    pub(super) first: usize,
    /// One past its last row.
    pub(super) end: usize,
    /// What is set of it.
    pub(super) piece: Piece,
}

/// A row, or rows that stay together, before they are set.
struct Planned {
    part: Part,
    kind: RowKind,
    first: usize,
    end: usize,
    /// Whether every other row has a ground, and this one not.
    striped: bool,
    /// The last row of the head.
    ends_head: Option<usize>,
}

/// How many of them a thread sets in one go; the same on any number of threads.
pub(super) const SHARE: usize = 500;

/// How many shares are set before their rows are handed out.
const SHARES: usize = 4;
/// How many rows are set at once.
pub(super) const BATCH: usize = SHARE * SHARES;

/// A table in the making.
pub(super) struct Table {
    pub(super) columns: Vec<Column>,
    /// Left edges of the columns, and the right edge of the last.
    pub(super) edges: Vec<Mp>,
    /// The widest digits after a decimal point, by column.
    pub(super) decimals: Vec<Mp>,
    look: TableLook,
    mark: Option<(Arc<Piece>, Mp)>,
}

/// A table whose rows are set in order, batch by batch.
pub(super) struct OpenTable {
    rows: Vec<TableRow>,
    table: Table,
    planned: Vec<Planned>,
    /// The head rows, as they are repeated.
    head: Arc<Vec<Piece>>,
    /// What is set and not yet handed out.
    waiting: Vec<Unit>,
    /// The first that is not yet set.
    next: usize,
    /// What the rows set so far come to; none where no row brings anything.
    total: Option<Total>,
    carries: bool,
    /// What was shaped for each share, to be remembered in the next batch.
    shaped: Vec<Shaped>,
}

impl OpenTable {
    /// Whether all of its rows are handed out.
    pub(super) fn is_done(&self) -> bool {
        self.next == self.planned.len() && self.waiting.is_empty()
    }
}

impl Flow<'_, '_> {
    /// A table.
    pub(super) fn table(&mut self, id: BlockId, columns: &[Column], look: TableLook, width: Mp) -> Vec<Piece> {
        let mut open = self.open_table(id, columns, look, width);
        let mut pieces = self.next_rows(&mut open, BATCH);
        while !open.is_done() {
            pieces.append(&mut self.next_rows(&mut open, BATCH));
        }
        pieces
    }

    /// A table with its columns measured and its head set.
    pub(super) fn open_table(&mut self, id: BlockId, columns: &[Column], look: TableLook, width: Mp) -> OpenTable {
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
        let planned = planned(&rows);
        let carries = rows.iter().any(|row| row.carry.is_some());
        let (head, waiting, shaped) = (Arc::default(), Vec::new(), Vec::new());
        let mut open = OpenTable { rows, table, planned, head, waiting, next: 0, total: None, carries, shaped };
        // The markup has the head before all other rows.
        let heads = open.planned.iter().take_while(|it| it.part == Part::Head).count();
        open.waiting = self.set_units(&mut open, heads);
        open.head = Arc::new(open.waiting.iter().map(|unit| unit.piece.clone()).collect());
        open
    }

    /// The next rows of a table, at most so many.
    pub(super) fn next_rows(&mut self, open: &mut OpenTable, count: usize) -> Vec<Piece> {
        let mut units = std::mem::take(&mut open.waiting);
        let first = open.next - units.len();
        units.append(&mut self.set_units(open, count));
        let mut pieces: Vec<Piece> = units.into_iter().zip(first..).map(|(unit, at)| open.joined(unit, at)).collect();
        let gap = self.theme.block_gap;
        pieces.first_mut().filter(|_| first == 0).into_iter().for_each(|piece| piece.above = piece.above.max(gap));
        pieces.last_mut().filter(|_| open.is_done()).into_iter().for_each(|piece| piece.below = piece.below.max(gap));
        pieces
    }

    /// Sets at most so many of the rows that follow, with what is carried over them.
    fn set_units(&mut self, open: &mut OpenTable, count: usize) -> Vec<Unit> {
        let end = open.planned.len().min(open.next + count);
        let mut units = self.row_pieces(open, end);
        open.next = end;
        if open.carries {
            self.carry(&mut units, (&open.rows, &open.table), &mut open.total);
        }
        units
    }

    fn rows(&self, id: BlockId) -> Vec<TableRow> {
        let mut rows = Vec::new();
        for group in self.tree.children(id) {
            let part = match self.block(*group).kind {
                Kind::TableHead => Part::Head,
                Kind::TableFoot => Part::Foot,
                _ => Part::Body,
            };
            rows.extend(self.tree.children(*group).iter().map(|row| self.table_row(part, *row)));
        }
        rows
    }

    fn table_row(&self, part: Part, row: BlockId) -> TableRow {
        let (kind, carry) = match &self.block(row).kind {
            Kind::Row { kind, carry } => (*kind, carry.clone()),
            _ => (RowKind::Plain, None),
        };
        let place = |block: &BlockId| match self.block(*block).kind {
            Kind::Cell { column, colspan, rowspan, .. } => {
                CellAt { at: column.into(), columns: colspan.into(), rows: rowspan.into(), block: *block }
            }
            _ => CellAt { at: 0, columns: 1, rows: 1, block: *block },
        };
        TableRow { block: row, part, kind, carry, cells: self.tree.children(row).iter().map(place).collect() }
    }

    /// What the fitted columns need, insets included. Cells over several columns do not count.
    fn needs(&mut self, columns: &[Column], rows: &[TableRow]) -> Vec<Need> {
        let mut needs = vec![Need::default(); columns.len()];
        if columns.iter().all(|column| column.width != Width::Fit) {
            return needs;
        }
        let single = rows.iter().flat_map(|row| &row.cells).filter(|cell| cell.columns == 1);
        for cell in single.filter(|cell| columns[cell.at].width == Width::Fit) {
            let need = self.need(cell.block);
            // Heads and sums are bold, which is wider by a little.
            let inset = self.theme.cell_side * 2 + Mp(1);
            let bold = need.most.scaled(8, 100);
            let known = &mut needs[cell.at];
            known.most = known.most.max(need.most + bold + inset);
            known.least = known.least.max(need.least + need.least.scaled(8, 100) + inset);
        }
        needs
    }

    /// The widest digits after a decimal point of each column.
    fn decimals(&mut self, columns: &[Column], rows: &[TableRow]) -> Vec<Mp> {
        let mut decimals = vec![Mp::ZERO; columns.len()];
        for row in rows.iter().filter(|row| row.part != Part::Head) {
            for cell in row.cells.iter().filter(|cell| cell.columns == 1) {
                if self.align(row.part, cell.block, columns[cell.at]) != Align::Decimal {
                    continue;
                }
                let Body::Text(inlines) = &self.block(cell.block).body else { continue };
                if is_one_line(inlines) {
                    let setting = Setting { bold: self.is_bold(row, cell.block), ..self.plain(cell.block) };
                    let mut texts = self.texts();
                    let lines = texts.lines(inlines, Mp(i32::MAX / 4), setting);
                    let tail = lines.first().map_or(Mp::ZERO, |line| texts.decimals_of(line));
                    decimals[cell.at] = decimals[cell.at].max(tail);
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

    fn is_bold(&self, row: &TableRow, cell: BlockId) -> bool {
        let head = matches!(self.block(cell).kind, Kind::Cell { scope: Some(Scope::Column | Scope::Row), .. });
        row.part == Part::Head || row.kind != RowKind::Plain || head
    }

    /// One piece for each row up to the end, or for rows that cells over several of them join. Many are shared out among threads.
    fn row_pieces(&mut self, open: &mut OpenTable, end: usize) -> Vec<Unit> {
        let planned = &open.planned[open.next..end];
        if planned.len() <= SHARE {
            return planned.iter().map(|it| self.unit(it, &open.rows, &open.table)).collect();
        }
        let (start, rows, table) = (self.start(), &open.rows, &open.table);
        let mut shaped = std::mem::take(&mut open.shaped);
        shaped.resize_with(SHARES, Shaped::default);
        let set = |(share, shaped): (&[Planned], Shaped)| {
            let mut beside = start.flow(shaped);
            let units: Vec<Unit> = share.iter().map(|it| beside.unit(it, rows, table)).collect();
            (units, beside.learned())
        };
        let shares: Vec<_> = planned.par_chunks(SHARE).zip(shaped).map(set).collect();
        let mut units = Vec::with_capacity(planned.len());
        for (mut set, (learned, shaped)) in shares {
            units.append(&mut set);
            self.learn(learned);
            open.shaped.push(shaped);
        }
        units
    }

    /// Sets a row, or rows that stay together.
    fn unit(&mut self, planned: &Planned, rows: &[TableRow], table: &Table) -> Unit {
        let Planned { part, first, end, striped, ends_head, .. } = *planned;
        let set = (first..end).map(|at| {
            let rules = self.rules(part, rows[at].kind, table.look, ends_head == Some(at), striped);
            self.set_row(&rows[at], table, rules)
        });
        let set: Vec<SetRow> = set.collect();
        Unit { first, end, piece: unit_piece(set) }
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

    fn set_row(&mut self, row: &TableRow, table: &Table, rules: RowRules) -> SetRow {
        let (inset_side, inset) = (self.theme.cell_side, self.theme.cell_above);
        let mut least = self.theme.line(self.sizes.text);
        let (mut cells, mut spanning) = (Vec::with_capacity(row.cells.len()), Vec::new());
        for cell in &row.cells {
            let (set, own) = self.set_cell(row, cell, table);
            if cell.rows > 1 {
                spanning.push(Spanning { cell: set, first: 0, end: cell.rows, least: own });
            } else {
                least = least.max(own);
                cells.push(set);
            }
        }
        let edges = (Mp::ZERO, table.edges.last().copied().unwrap_or_default());
        let row = Row { cells, inset_side, inset, covered: Vec::new(), rules, edges, mark: table.mark.clone() };
        let height = row.needed().max(least + inset * 2);
        SetRow { row, height, spanning }
    }

    /// A cell, and the least height that it asks for.
    fn set_cell(&mut self, row: &TableRow, cell: &CellAt, table: &Table) -> (RowCell, Mp) {
        let CellAt { at, columns, block, .. } = *cell;
        let (x, end) = (table.edges[at], table.edges[at + columns]);
        let align = self.align(row.part, block, table.columns[at]);
        let decimals = if columns == 1 { table.decimals[at] } else { Mp::ZERO };
        let setting = Setting { bold: self.is_bold(row, block), align, decimals, ..self.plain(block) };
        let mut pieces = self.inside(block, end - x - self.theme.cell_side * 2, setting);
        if let Some(first) = pieces.first_mut() {
            first.above = Mp::ZERO;
        }
        let least = match self.block(block).kind {
            Kind::Cell { height: Some(height), .. } => height.min(self.page.scaled(3, 4)),
            _ => Mp::ZERO,
        };
        let (owner, size) = (Owner::Block(block), self.sizes.text);
        let field = self.block(block).field.map(|field| CellField { owner, field, size });
        (RowCell { field, ..RowCell::new(x, end - x, pieces) }, least)
    }

    /// The mark of a row that began on an earlier page.
    fn mark_piece(&mut self) -> Option<(Arc<Piece>, Mp)> {
        let owner = Owner::Artifact(Artifact::Repeated);
        let setting = Setting { gray: self.theme.gray_quiet, ..Setting::plain(self.sizes, owner) };
        let weight = crate::markup::Weight { italic: true, ..Default::default() };
        let inlines = [crate::markup::Inline::Text { text: self.theme.continued.clone(), weight, to: None }];
        let line = self.texts().lines(&inlines, Mp(i32::MAX / 4), setting).into_iter().next()?;
        let mut piece = Piece::items(line.height, line.items);
        (piece.tie, piece.said) = (KeepWith::Bound, Repetition::Again);
        Some((Arc::new(piece), line.width))
    }
}

impl OpenTable {
    /// A row, tied to the next where they belong together, with the head of its table.
    fn joined(&self, unit: Unit, at: usize) -> Piece {
        let is_head = self.planned[at].part == Part::Head;
        let table = InTable { head: self.head.clone(), shift: Mp::ZERO, is_head };
        Piece { tie: self.tie(at), table: Some(table).filter(|_| !self.head.is_empty()), ..unit.piece }
    }

    /// How a row holds on to the next.
    fn tie(&self, at: usize) -> KeepWith {
        let plain =
            |at: usize| self.planned.get(at).is_some_and(|it| it.part == Part::Body && it.kind == RowKind::Plain);
        let alone = |at: usize| self.planned[at].end - self.planned[at].first == 1;
        let (unit, Some(next)) = (&self.planned[at], self.planned.get(at + 1)) else { return KeepWith::Free };
        let heads = unit.part == Part::Head || unit.kind == RowKind::Group;
        let sums = next.part == Part::Foot || matches!(next.kind, RowKind::Subtotal | RowKind::Total);
        // Of rows that follow each other no first and no last one is left alone before or after a page's end.
        let follow = plain(at) && plain(at + 1);
        let first = follow && alone(at) && (at == 0 || !plain(at - 1));
        let last = follow && alone(at + 1) && !plain(at + 2);
        match (heads || sums, first || last) {
            (true, _) => KeepWith::Bound,
            (false, true) => KeepWith::Company,
            (false, false) => KeepWith::Free,
        }
    }
}

/// Which rows are set together, and which of them are striped.
fn planned(rows: &[TableRow]) -> Vec<Planned> {
    let ends_head = rows.iter().rposition(|row| row.part == Part::Head);
    let mut striped = false;
    let mut planned = Vec::with_capacity(rows.len());
    let mut first = 0;
    while first < rows.len() {
        let TableRow { part, kind, .. } = rows[first];
        striped = if kind == RowKind::Plain && part == Part::Body { !striped } else { false };
        let end = joined(rows, first);
        planned.push(Planned { part, kind, first, end, striped, ends_head });
        first = end;
    }
    planned
}

/// One past the last of the rows that cells over several of them join with the row at `from`.
fn joined(rows: &[TableRow], from: usize) -> usize {
    let (mut at, mut end) = (from, from + 1);
    while at < end {
        let reach = rows[at].cells.iter().map(|cell| at + cell.rows).max().unwrap_or(0);
        end = end.max(reach).min(rows.len());
        at += 1;
    }
    end
}

/// The piece of a row, or of rows joined by cells over several of them.
fn unit_piece(mut set: Vec<SetRow>) -> Piece {
    if set.len() == 1
        && let Some(SetRow { row, height, .. }) = set.pop()
    {
        return Piece::new(height, Content::Row(Box::new(row)));
    }
    let mut spanning = Vec::new();
    for (at, row) in set.iter_mut().enumerate() {
        spanning.extend(row.spanning.drain(..).map(|it| Spanning { first: at, end: at + it.end, ..it }));
    }
    for Spanning { cell, first, end, .. } in &spanning {
        for (at, row) in set.iter_mut().enumerate().take(*end).skip(*first) {
            let (above, below) = (at > *first, at + 1 < *end);
            row.row.covered.push(Covered { x: cell.x, width: cell.width, above, below });
        }
    }
    let group = Group::new(set.into_iter().map(|set| (set.row, set.height)).collect(), spanning);
    Piece::new(group.height(), Content::Group(Box::new(group)))
}
