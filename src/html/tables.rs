//! Tables: in rows and columns where there is room, as cards with labeled values on a phone.
//!
//! In: a table of the tree. Out: its markup; as a card, every cell carries the
//! head of its column. May not know: how wide the window is.

use super::blocks::Browser;
use super::fields;
use crate::markup::{Align, BlockId, Body, Column, Inline, Kind, RowKind, Scope, TableLook};

/// From so many columns a table turns into cards on a phone.
const CARDS: usize = 4;

/// What cells need to know of their table.
pub struct Grid<'t> {
    columns: &'t [Column],
    heads: Vec<String>,
    cards: bool,
}

/// Which part of a table a row stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Section {
    Head,
    Body,
    Foot,
}

impl Section {
    fn of(kind: &Kind) -> Section {
        match kind {
            Kind::TableHead => Section::Head,
            Kind::TableFoot => Section::Foot,
            _ => Section::Body,
        }
    }

    fn element(self) -> &'static str {
        match self {
            Section::Head => "thead",
            Section::Body => "tbody",
            Section::Foot => "tfoot",
        }
    }
}

/// Writes a table.
pub fn write(browser: &mut Browser<'_>, table: BlockId, columns: &[Column], look: TableLook) {
    let tree = browser.tree();
    let heads = heads(browser, table, columns.len());
    let grid = Grid { columns, heads, cards: columns.len() >= CARDS };
    browser.out.raw("<table");
    let look = match look {
        TableLook::Rows => "rows",
        TableLook::Grid => "grid",
        TableLook::Zebra => "zebra",
        TableLook::Plain => "plain",
    };
    browser.out.attribute("class", &format!("{look}{}", if grid.cards { " cards" } else { "" }));
    role(browser, &grid, "table");
    browser.out.raw(">");
    for part in tree.children(table) {
        let section = Section::of(&tree.block(*part).kind);
        browser.out.raw(&format!("<{}", section.element()));
        role(browser, &grid, "rowgroup");
        browser.out.raw(">");
        tree.children(*part).iter().for_each(|id| row(browser, *id, &grid, section));
        browser.out.raw(&format!("</{}>\n", section.element()));
    }
    browser.out.raw("</table>\n");
}

/// Cards are no table to the eye; to a screen reader they stay one.
fn role(browser: &mut Browser<'_>, grid: &Grid<'_>, role: &str) {
    if grid.cards {
        browser.out.attribute("role", role);
    }
}

/// The words above each column: those of all head rows that cover it.
fn heads(browser: &Browser<'_>, table: BlockId, count: usize) -> Vec<String> {
    let tree = browser.tree();
    let mut heads = vec![String::new(); count];
    for part in tree.children(table).iter().filter(|id| tree.block(**id).kind == Kind::TableHead) {
        for row in tree.children(*part) {
            for cell in tree.children(*row) {
                let (at, covers) = spot(&tree.block(*cell).kind);
                let words = tree.text(*cell);
                for head in heads.iter_mut().skip(at).take(covers).filter(|_| !words.is_empty()) {
                    let gap = if head.is_empty() { "" } else { ", " };
                    head.push_str(gap);
                    head.push_str(&words);
                }
            }
        }
    }
    heads
}

fn row(browser: &mut Browser<'_>, row: BlockId, grid: &Grid<'_>, section: Section) {
    let tree = browser.tree();
    browser.out.raw("<tr");
    let first = tree.children(row).first();
    let class = match &tree.block(row).kind {
        Kind::Row { kind: RowKind::Group, .. } => "group",
        Kind::Row { kind: RowKind::Subtotal, .. } => "subtotal",
        Kind::Row { kind: RowKind::Total, .. } => "total",
        // Cells of the rows above stand for its first columns too: as a card it goes on with theirs.
        _ if first.is_some_and(|cell| spot(&tree.block(*cell).kind).0 > 0) => "more",
        _ => "",
    };
    if !class.is_empty() {
        browser.out.attribute("class", class);
    }
    if tree.block(row).id.is_some() {
        browser.out.attribute("id", &format!("b{}", row.0));
    }
    role(browser, grid, "row");
    browser.out.raw(">");
    for id in tree.children(row) {
        let (at, _) = spot(&tree.block(*id).kind);
        // A row has its mark in its first cell.
        let mark = (first == Some(id)).then_some(row);
        cell(browser, *id, &CellPosition { grid, section, at, mark });
    }
    browser.out.raw("</tr>\n");
}

/// The first column of a cell, and how many it covers.
fn spot(cell: &Kind) -> (usize, usize) {
    match cell {
        Kind::Cell { column, colspan, .. } => (usize::from(*column), usize::from(*colspan)),
        _ => (0, 1),
    }
}

/// Where a cell stands.
struct CellPosition<'s> {
    grid: &'s Grid<'s>,
    section: Section,
    at: usize,
    /// The row whose mark the cell carries.
    mark: Option<BlockId>,
}

impl CellPosition<'_> {
    fn head(&self) -> &str {
        self.grid.heads.get(self.at).map_or("", String::as_str)
    }
}

fn cell(browser: &mut Browser<'_>, id: BlockId, spot: &CellPosition<'_>) {
    let tree = browser.tree();
    let block = tree.block(id);
    let Kind::Cell { scope, colspan, rowspan, align, .. } = &block.kind else { return };
    let empty = is_empty(&block.body);
    // A head cell without words heads nothing.
    let element = if scope.is_some() && !empty { "th" } else { "td" };
    browser.out.raw(&format!("<{element}"));
    match scope {
        Some(Scope::Column) if !empty => browser.out.attribute("scope", "col"),
        Some(Scope::Row) if !empty => browser.out.attribute("scope", "row"),
        _ => {}
    }
    for (name, count) in [("colspan", colspan), ("rowspan", rowspan)] {
        if *count > 1 {
            browser.out.attribute(name, &count.to_string());
        }
    }
    let column = spot.grid.columns.get(spot.at).map(|column| column.align);
    let class = match align.or(column).unwrap_or_default() {
        _ if is_tick(&block.body) => "tick",
        Align::Left => "",
        Align::Center => "center",
        Align::Right | Align::Decimal => "figure",
    };
    if !class.is_empty() {
        browser.out.attribute("class", class);
    }
    if spot.grid.cards {
        card(browser, spot, *scope, *colspan);
    }
    browser.out.raw(">");
    spot.mark.into_iter().for_each(|row| browser.mark(row));
    browser.anchor(id);
    browser.block_field(id, |out, field| fields::line(out, field, None));
    browser.body(id);
    browser.out.raw(&format!("</{element}>"));
}

/// What a cell of a card needs besides: its role, and the head of its column to print before it.
fn card(browser: &mut Browser<'_>, spot: &CellPosition<'_>, scope: Option<Scope>, colspan: u16) {
    let role = match scope {
        Some(Scope::Column) => "columnheader",
        Some(Scope::Row) => "rowheader",
        None => "cell",
    };
    browser.out.attribute("role", role);
    let head = spot.head();
    if spot.section != Section::Head && spot.at > 0 && colspan == 1 && !head.is_empty() {
        browser.out.attribute("data-head", head);
    }
}

fn is_empty(body: &Body) -> bool {
    match body {
        Body::Empty => true,
        Body::Text(inlines) => inlines.is_empty(),
        Body::Blocks(blocks) => blocks.is_empty(),
    }
}

/// Whether a cell holds boxes to check and no words: as part of a card, several stand in one line.
fn is_tick(body: &Body) -> bool {
    let Body::Text(inlines) = body else { return false };
    let word = |it: &Inline| matches!(it, Inline::Text { text, .. } if !text.trim().is_empty());
    inlines.iter().any(|it| matches!(it, Inline::Check { .. })) && !inlines.iter().any(word)
}
