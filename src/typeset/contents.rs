//! Tables of contents, and the numbers of pages in text.
//!
//! In: the headings of a paper and the numbers known so far. Out: a line for each heading; texts with their numbers.
//! May not know: whether the numbers are true yet.

use std::borrow::Cow;

use super::flow::Flow;
use super::frame::artifact;
use super::pages::{Item, Placed};
use super::piece::{KeepWith, Piece, set_gaps, tie_inside};
use super::setting::Setting;
use super::text::SetLine;
use crate::markup::{Align, BlockId, Body, Inline, Kind, Mp, Weight};

/// Between the words of a heading, the rule that leads to its page, and the number.
const LEADER_GAP: Mp = Mp(4_000);

/// No rule shorter than this leads to a number.
const SHORTEST_LEADER: Mp = Mp(9_000);

impl<'a> Flow<'a, '_> {
    /// The text of a block, with the numbers of pages that it tells.
    pub(super) fn inlines(&mut self, id: BlockId) -> Cow<'a, [Inline]> {
        let Body::Text(inlines) = &self.block(id).body else { return Cow::Borrowed(&[]) };
        if !self.tree.tells_pages() || !inlines.iter().any(|inline| matches!(inline, Inline::PageOf { .. })) {
            return Cow::Borrowed(inlines);
        }
        Cow::Owned(inlines.iter().map(|inline| self.numbered(inline)).collect())
    }

    fn numbered(&mut self, inline: &Inline) -> Inline {
        match inline {
            Inline::PageOf { to, weight } => match self.tree.target(to) {
                Some(block) => Inline::Text { text: self.numbers.of(block), weight: *weight, to: Some(to.clone()) },
                None => inline.clone(), // the tree holds no such text
            },
            other => other.clone(),
        }
    }

    /// A table of contents: the headings of its paper that follow it, down to a level, each with its page.
    pub(super) fn contents(&mut self, id: BlockId, depth: u8, width: Mp) -> Vec<Piece> {
        let listed = |block: &BlockId| matches!(self.block(*block).kind, Kind::Heading(level) if level <= depth);
        let last = self.tree.last_of_paper(id);
        let following = self.tree.ids().skip(id.0 as usize + 1).take_while(|block| *block <= last);
        let headings: Vec<BlockId> = following.filter(listed).collect();
        let numbers: Vec<SetLine> = headings.iter().filter_map(|heading| self.page_number(id, *heading)).collect();
        let column = numbers.iter().map(|line| line.width).max().unwrap_or_default();
        let mut pieces = Vec::new();
        let count = headings.len();
        for (at, (heading, number)) in headings.into_iter().zip(numbers).enumerate() {
            let mut entry = self.entry(id, heading, number, column, width);
            // No entry is left alone at the foot of a page or at the top of the next.
            if let Some(last) = entry.last_mut().filter(|_| at == 0 || at + 2 == count) {
                last.tie = if at + 1 < count { KeepWith::Kept } else { KeepWith::Free };
            }
            pieces.append(&mut entry);
        }
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.block_gap);
        pieces
    }

    fn page_number(&mut self, id: BlockId, heading: BlockId) -> Option<SetLine> {
        let number = self.numbers.of(heading);
        let setting = self.entry_setting(id, heading);
        self.label_lines(id, &number, Mp(i32::MAX / 4), setting).into_iter().next()
    }

    fn level(&self, heading: BlockId) -> u8 {
        if let Kind::Heading(level) = self.block(heading).kind { level } else { 1 }
    }

    fn entry_setting(&self, id: BlockId, heading: BlockId) -> Setting {
        Setting { bold: self.level(heading) == 1, ..self.plain(id) }
    }

    /// The lines of one heading; the last leads to its page.
    fn entry(&mut self, id: BlockId, heading: BlockId, number: SetLine, column: Mp, width: Mp) -> Vec<Piece> {
        let level = self.level(heading);
        let indent = self.theme.indent * i32::from(level - 1);
        // The space keeps words and number apart for one who hears the page.
        let text = format!("{} ", self.tree.text(heading));
        let words = Inline::Text { text, weight: Weight::default(), to: None };
        let setting = Setting { align: Align::Left, ..self.entry_setting(id, heading) };
        let room = width - indent - column - SHORTEST_LEADER - LEADER_GAP;
        let mut pieces = self.text(id, &[words], room, setting);
        pieces.iter_mut().for_each(|piece| piece.shift(indent));
        if let Some(last) = pieces.last_mut() {
            let baseline = last.baseline.unwrap_or(number.baseline);
            let from = last.right_edge(self.setter.faces()).max(indent);
            let mut items = number.items;
            items.iter_mut().for_each(|item| item.placed.shift(width - number.width, baseline - number.baseline));
            last.push(self.leader(from + LEADER_GAP, width - column - LEADER_GAP, baseline));
            items.into_iter().for_each(|item| last.push(item));
        }
        pieces.iter_mut().for_each(|piece| piece.lead_to(heading));
        tie_inside(&mut pieces, KeepWith::Bound);
        let above = if level == 1 { self.theme.paragraph_gap } else { Mp::ZERO };
        set_gaps(&mut pieces, above, self.theme.item_gap);
        pieces
    }

    /// The rule from the words of a heading to its page.
    fn leader(&self, from: Mp, to: Mp, baseline: Mp) -> Item {
        let (width, gray) = (self.theme.rule_thin, self.theme.gray_rule);
        artifact(Placed::Rule { x1: from, y1: baseline, x2: to.max(from), y2: baseline, width, gray })
    }
}
