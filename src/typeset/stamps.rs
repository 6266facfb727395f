//! Areas of exact size for stamps, and what stands in the corner of every page of a sheet.
//!
//! In: such a block. Out: its pieces, or a finding where its page has less room; nothing is made smaller than it was asked
//! for. May not know: what is stamped.

use super::cut::repeated;
use super::flow::Flow;
use super::frame::rectangle;
use super::pages::Owner;
use super::piece::{Piece, Placing, height, set_gaps, stack};
use super::setting::Setting;
use crate::markup::{BlockId, Kind, Mp};

/// What stands in the corner of every page of a sheet.
pub struct Corner {
    pieces: Vec<Piece>,
    height: Mp,
    width: Mp,
}

impl Corner {
    /// The height that it takes from a page, with the space above it.
    pub fn takes(&self, gap: Mp) -> Mp {
        self.height + gap
    }

    /// Places it with its lower right corner at a point; on every page but the first it is said already.
    pub fn place(&self, right: Mp, bottom: Mp, first: bool, into: &mut Placing) {
        let pieces = if first { self.pieces.clone() } else { self.pieces.iter().map(repeated).collect() };
        stack(pieces, right - self.width, bottom - self.height, into);
    }
}

impl Flow<'_, '_> {
    /// An area of exact size.
    pub(super) fn stamp_area(&mut self, id: BlockId, size: (Mp, Mp), label: Option<&str>, room: Mp) -> Vec<Piece> {
        let (width, tall) = size;
        self.check_room(id, size, (room, self.page));
        let mut items = rectangle(Mp::ZERO, Mp::ZERO, width, tall, self.theme.rule_strong, 0);
        if let Some(label) = label {
            let (inset, mut y) = (self.theme.cell_side, self.theme.cell_above);
            let setting = Setting { gray: self.theme.gray_quiet, ..Setting::plain(self.sizes, Owner::Label(id)) };
            for mut line in self.label_lines(id, label, width - inset * 2, setting) {
                line.items.iter_mut().for_each(|item| item.placed.shift(inset, y));
                items.append(&mut line.items);
                y += line.height;
            }
            self.check_room(id, (Mp::ZERO, y), (width, tall));
        }
        let mut pieces = vec![Piece::items(tall, items)];
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    /// What stands in the corner of every page of a sheet.
    pub(super) fn corner(&mut self, sheet: BlockId, measure: Mp) -> Option<Corner> {
        let is_corner = |child: &&BlockId| matches!(self.block(**child).kind, Kind::TitleBlock { .. });
        let id = *self.tree.children(sheet).iter().find(is_corner)?;
        let Kind::TitleBlock { width } = self.block(id).kind else { return None };
        let width = width.unwrap_or(measure);
        let pieces = self.inside(id, width.min(measure), self.plain(id));
        let height = height(&pieces);
        self.check_room(id, (width, height), (measure, self.page / 2));
        Some(Corner { pieces, height, width: width.min(measure) })
    }

    /// A finding where something of exact size has less room than it needs.
    pub(super) fn check_room(&mut self, id: BlockId, needed: (Mp, Mp), room: (Mp, Mp)) {
        if needed.0 > room.0 || needed.1 > room.1 {
            let place = self.block(id).place.clone();
            self.findings.push(super::no_room(&self.tree.template, needed, room, place));
        }
    }
}
