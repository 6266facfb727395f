//! Lists, definitions, framed boxes, side-by-side layouts and lines to sign on.
//!
//! In: such a block and a width. Out: its pieces. May not know: where a page ends.

use super::flow::Flow;
use super::frame::{Frame, artifact, check};
use super::pages::{Form, Item, Owner, Placed};
use super::piece::{Content, KeepWith, Piece, set_gaps, tie_inside};
use super::row::{Row, RowCell, RowRules};
use super::setting::Setting;
use super::text::TextSetter;
use super::widths::{Need, solve};
use crate::markup::{BlockId, BoxKind, Inline, Kind, ListKind, Mp, Width};

/// Between the mark of an item and its text.
const MARK_GAP: Mp = Mp(5_000);

/// An item to check of at most so many lines is not broken over columns or pages.
const LONGEST_WHOLE: usize = 6;

impl Flow<'_, '_> {
    /// A list: marks at the left, what they mark set in.
    pub(super) fn list(&mut self, id: BlockId, kind: ListKind, width: Mp) -> Vec<Piece> {
        let indent = self.theme.indent;
        let mut pieces = Vec::new();
        let items = self.tree.children(id);
        for (at, item) in items.iter().copied().enumerate() {
            let mut inside = self.inside(item, width - indent, self.plain(item));
            if inside.is_empty() {
                inside.push(Piece::items(self.theme.line(self.sizes.text), Vec::new()));
            }
            inside.iter_mut().for_each(|piece| piece.shift(indent));
            self.mark(item, kind, at + 1, &mut inside);
            // What is done and checked off in one go is read in one go.
            if kind == ListKind::Check && inside.len() <= LONGEST_WHOLE {
                tie_inside(&mut inside, KeepWith::Company);
            }
            set_gaps(&mut inside, Mp::ZERO, self.theme.item_gap);
            // No item is left alone at the foot of a page or at the top of the next.
            if let Some(last) = inside.last_mut().filter(|_| at == 0 || at + 2 == items.len()) {
                last.tie = last.tie.max(if at + 1 < items.len() { KeepWith::Company } else { KeepWith::Free });
            }
            pieces.append(&mut inside);
        }
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    /// Puts the mark of an item beside its first line.
    fn mark(&mut self, item: BlockId, kind: ListKind, number: usize, inside: &mut [Piece]) {
        let size = self.sizes.text;
        let line = self.theme.line(size);
        let texts = self.texts();
        let usual = texts.baseline(crate::fonts::Style::Regular, size, line);
        let side = texts.check_side(size);
        let Some(first) = inside.first_mut() else { return };
        let baseline = first.baseline.unwrap_or(usual);
        let checked = matches!(self.block(item).kind, Kind::Item { checked: true });
        let mut items = match kind {
            ListKind::Check => {
                let y = baseline - TextSetter::check_rise(side);
                let x = (self.theme.indent - side - MARK_GAP).max(Mp::ZERO);
                check(Owner::Label(item), (x, y, side), checked, self.block(item).field)
            }
            ListKind::Bullet | ListKind::Number => {
                let text = if kind == ListKind::Number { format!("{number}.") } else { self.theme.bullet.clone() };
                let setting = Setting::plain(self.sizes, Owner::Label(item));
                let mut lines = self.label_lines(item, &text, self.theme.indent * 4, setting);
                let shift = baseline - lines.first().map_or(baseline, |line| line.baseline);
                let wide = lines.first().map_or(Mp::ZERO, |line| line.width);
                let by = (self.theme.indent - MARK_GAP - wide).max(Mp::ZERO);
                let mut items: Vec<Item> = lines.drain(..).flat_map(|line| line.items).collect();
                items.iter_mut().for_each(|item| item.placed.shift(by, shift));
                items
            }
        };
        // The mark comes first in reading order. Beside a row it stands in a piece of its own height.
        match &mut first.content {
            Content::Items(own) => {
                items.append(own);
                *own = items;
            }
            Content::Row(row) => {
                let pieces = vec![Piece::items(line, items)];
                row.cells.insert(0, RowCell::new(Mp::ZERO, self.theme.indent, pieces));
            }
            Content::Group(_) | Content::Columns(_) | Content::PageBreak => {}
        }
    }

    /// Labels and values in a grid without rules.
    pub(super) fn definitions(&mut self, id: BlockId, columns: u8, width: Mp) -> Vec<Piece> {
        let children = self.tree.children(id).to_vec();
        let pairs: Vec<(BlockId, BlockId)> = children.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect();
        let (count, gutter) = (i32::from(columns), self.theme.gutter);
        let pair = (width - gutter * (count - 1)) / count;
        let gap = self.theme.cell_side * 2;
        let mut labels = vec![Mp::ZERO; count as usize];
        for (at, (term, _)) in pairs.iter().enumerate() {
            let label = &mut labels[at % count as usize];
            *label = (*label).max(self.need(*term).most).min(pair.scaled(45, 100));
        }
        let mut pieces: Vec<Piece> = Vec::new();
        for line in pairs.chunks(count as usize) {
            let mut cells = Vec::new();
            for (at, (term, detail)) in line.iter().enumerate() {
                let (x, label) = ((pair + gutter) * at as i32, labels[at]);
                let setting = Setting { gray: self.theme.gray_quiet, ..self.plain(*term) };
                cells.push(RowCell::new(x, label, self.inside(*term, label, setting)));
                let inner = pair - label - gap;
                let inside = self.inside(*detail, inner, self.plain(*detail));
                cells.push(RowCell::new(x + label + gap, inner, inside));
            }
            let mut piece = self.bare_row(cells, width);
            piece.below = self.theme.item_gap;
            pieces.push(piece);
        }
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    /// Cells without insets and rules.
    fn bare_row(&self, cells: Vec<RowCell>, width: Mp) -> Piece {
        let (inset_side, inset, rules, edges) = (Mp::ZERO, Mp::ZERO, RowRules::default(), (Mp::ZERO, width));
        let row = Row { cells, inset_side, inset, covered: Vec::new(), rules, edges, mark: None };
        let baseline = row.cells.first().and_then(|cell| cell.pieces.first()).and_then(|piece| piece.baseline);
        Piece { baseline, ..Piece::new(row.needed(), Content::Row(Box::new(row))) }
    }

    /// A framed box: title, what it holds, and the space inside its frame.
    pub(super) fn framed(&mut self, id: BlockId, kind: BoxKind, title: Option<&str>, width: Mp) -> Vec<Piece> {
        let (inset, rule) = (self.theme.box_inset, self.theme.rule_strong);
        let bar = if kind == BoxKind::Caution { self.theme.bar } else { Mp::ZERO };
        let inner = width - inset * 2 - bar;
        let mut pieces = Vec::new();
        let banded = matches!(kind, BoxKind::Hold | BoxKind::Stop);
        match title {
            Some(title) if banded => pieces.push(self.band(id, kind, title, width)),
            Some(title) => {
                pieces.push(Piece::items(inset, Vec::new()));
                let setting = Setting { bold: true, ..Setting::plain(self.sizes, Owner::Label(id)) };
                for mut line in self.label_lines(id, title, inner, setting) {
                    line.items.iter_mut().for_each(|item| item.placed.shift(inset + bar, Mp::ZERO));
                    pieces.push(Piece::items(line.height, line.items));
                }
            }
            None => pieces.push(Piece::items(inset, Vec::new())),
        }
        let titled = pieces.len();
        let mut inside = self.inside(id, inner, self.plain(id));
        inside.iter_mut().for_each(|piece| piece.shift(inset + bar));
        if let Some(first) = inside.first_mut() {
            first.above = if banded && title.is_some() { inset.scaled(7, 10) } else { Mp::ZERO };
        }
        if let Some(last) = inside.last_mut() {
            last.below = Mp::ZERO;
            last.tie = KeepWith::Bound;
        }
        pieces.append(&mut inside);
        pieces.push(Piece::items(inset, Vec::new()));
        pieces[..titled].iter_mut().for_each(|piece| piece.tie = KeepWith::Bound);
        let gray = if kind == BoxKind::Note { self.theme.gray_rule } else { 0 };
        let frame = Frame { block: id, kind, x: Mp::ZERO, width, rule, gray, bar };
        pieces.iter_mut().for_each(|piece| piece.frames.insert(0, frame));
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    /// The title of a hold or stop box, on a ground of its own.
    fn band(&mut self, id: BlockId, kind: BoxKind, title: &str, width: Mp) -> Piece {
        let (inset, above) = (self.theme.box_inset, self.theme.cell_above);
        let (ground, gray) = if kind == BoxKind::Stop { (0, 1000) } else { (self.theme.gray_ground, 0) };
        let setting = Setting { bold: true, gray, ..Setting::plain(self.sizes, Owner::Label(id)) };
        let mut y = above;
        let mut items = Vec::new();
        for mut line in self.label_lines(id, title, width - inset * 2, setting) {
            line.items.iter_mut().for_each(|item| item.placed.shift(inset, y));
            items.append(&mut line.items);
            y += line.height;
        }
        let height = y + above;
        let fill = Placed::Fill { x: Mp::ZERO, y: Mp::ZERO, width, height, gray: ground };
        items.insert(0, artifact(fill));
        Piece::items(height, items)
    }

    /// Parts beside each other.
    pub(super) fn side(&mut self, id: BlockId, width: Mp) -> Vec<Piece> {
        let parts = self.tree.children(id).to_vec();
        let gutter = self.theme.gutter;
        let widths: Vec<Width> = parts.iter().map(|part| self.width_of(*part)).collect();
        let extents = self.solved(id, &widths, &parts, width - gutter * (parts.len() as i32 - 1));
        let (mut x, mut cells) = (Mp::ZERO, Vec::new());
        for (part, extent) in parts.into_iter().zip(extents) {
            let mut pieces = self.inside(part, extent, self.plain(part));
            set_gaps(&mut pieces, Mp::ZERO, Mp::ZERO);
            cells.push(RowCell::new(x, extent, pieces));
            x += extent + gutter;
        }
        let mut pieces = vec![self.bare_row(cells, width)];
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    fn width_of(&self, id: BlockId) -> Width {
        match self.block(id).kind {
            Kind::Part { width } | Kind::Signature { width } => width,
            _ => Width::Share(1),
        }
    }

    /// The widths of parts, or their finding.
    fn solved(&mut self, id: BlockId, widths: &[Width], parts: &[BlockId], available: Mp) -> Vec<Mp> {
        let needs: Vec<Need> = parts.iter().map(|part| self.need(*part)).collect();
        self.solve(id, widths, &needs, available)
    }

    /// Shares out a width, with a finding where it cannot be.
    pub(super) fn solve(&mut self, id: BlockId, widths: &[Width], needs: &[Need], available: Mp) -> Vec<Mp> {
        solve(widths, needs, available).unwrap_or_else(|too_wide| {
            let place = self.block(id).place.clone();
            self.findings.push(super::too_wide(&self.tree.template, too_wide.needed, available, place));
            vec![available / widths.len().max(1) as i32; widths.len()]
        })
    }

    /// The width of the longest line and the longest word of what a block holds.
    pub(super) fn need(&mut self, id: BlockId) -> Need {
        let block = self.block(id);
        let mut need = match &block.body {
            crate::markup::Body::Text(_) => {
                let (setting, inlines) = (self.plain(id), self.inlines(id));
                let (most, least) = self.texts().natural(&inlines, setting);
                Need { most, least }
            }
            crate::markup::Body::Blocks(children) => {
                let needs: Vec<Need> = children.iter().map(|child| self.need(*child)).collect();
                let over = |of: fn(&Need) -> Mp| needs.iter().map(of).max().unwrap_or_default();
                Need { most: over(|need| need.most), least: over(|need| need.least) }
            }
            crate::markup::Body::Empty => Need::default(),
        };
        let more = match &block.kind {
            Kind::Item { .. } => self.theme.indent,
            Kind::Box { .. } => self.theme.box_inset * 2 + self.theme.bar,
            _ => Mp::ZERO,
        };
        if let Kind::Figure { drawing, width, .. } = &block.kind {
            let own = self.shown.drawings.get(drawing).map(|drawing| Mp::from_points(drawing.width));
            need.most = need.most.max(width.or(own).unwrap_or_default());
        }
        need.most += more;
        need.least += more;
        need
    }

    /// Lines to sign on, with their texts below.
    pub(super) fn sign(&mut self, id: BlockId, width: Mp) -> Vec<Piece> {
        let lines = self.tree.children(id).to_vec();
        let gutter = self.theme.gutter;
        let widths: Vec<Width> = lines.iter().map(|line| self.width_of(*line)).collect();
        let extents = self.solved(id, &widths, &lines, width - gutter * (lines.len() as i32 - 1));
        let (mut x, mut cells) = (Mp::ZERO, Vec::new());
        for (line, extent) in lines.into_iter().zip(extents) {
            let y = self.theme.sign_height;
            let thick = self.theme.rule_strong;
            let rule = artifact(Placed::Rule { x1: Mp::ZERO, y1: y, x2: extent, y2: y, width: thick, gray: 0 });
            let mut items = vec![rule];
            if let Some(field) = self.block(line).field {
                let (height, size) = (y.min(self.theme.line(self.sizes.large)), self.sizes.text);
                let (form, y) = (Form::Line, y - height);
                let placed = Placed::Field { x: Mp::ZERO, y, width: extent, height, size, form, field };
                items.push(Item::new(Owner::Block(line), placed));
            }
            let mut pieces = vec![Piece::items(y + Mp(1_500), items)];
            let setting = Setting { gray: self.theme.gray_quiet, ..self.plain(line) };
            pieces.append(&mut self.inside(line, extent, setting));
            tie_inside(&mut pieces, KeepWith::Bound);
            cells.push(RowCell::new(x, extent, pieces));
            x += extent + gutter;
        }
        let mut pieces = vec![self.bare_row(cells, width)];
        set_gaps(&mut pieces, Mp::ZERO, self.theme.block_gap);
        pieces
    }
}

/// Whether a text holds nothing but one line of letters.
pub(super) fn is_one_line(inlines: &[Inline]) -> bool {
    matches!(inlines, [Inline::Text { .. }])
}
