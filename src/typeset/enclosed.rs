//! Pages of other people's files, with words in their margin.
//!
//! In: such a block, the file. Out: one piece: the page as large as there is room, in a thin frame, its marks beside it.
//! May not know: what the page shows.

use super::flow::Flow;
use super::frame::{artifact, rectangle};
use super::pages::{EnclosedSheet, Item, Owner, Placed};
use super::piece::{Piece, set_gaps};
use super::setting::Setting;
use super::text::SetLine;
use crate::markup::{BlockId, Kind, Mp};

/// The margin that marks take beside a page.
const MARGIN: Mp = Mp::points(84);

/// What an arrow takes of it.
const ARROW: Mp = Mp::points(18);

/// Length and half the width of the head of an arrow.
const HEAD: (Mp, Mp) = (Mp::points(5), Mp(2_500));

/// The least space between the words of two marks.
const APART: Mp = Mp::points(3);

/// Words in the margin, set and placed.
struct Mark {
    block: BlockId,
    /// Where the arrow points, from the upper edge of the page.
    target: Mp,
    top: Mp,
    lines: Vec<SetLine>,
}

impl Mark {
    fn height(&self) -> Mp {
        self.lines.iter().map(|line| line.height).sum()
    }
}

impl Flow<'_, '_> {
    /// A page of another's file, never larger than it is.
    pub(super) fn enclosed(
        &mut self,
        id: BlockId,
        (key, page): (&str, u16),
        most: (Option<Mp>, Option<Mp>),
        width: Mp,
    ) -> Vec<Piece> {
        let Some(sheet) = self.enclosed_sheet(id, key, page) else { return Vec::new() };
        let margin = if self.tree.children(id).is_empty() { Mp::ZERO } else { MARGIN };
        let (own, tall) = (sheet.page().width, sheet.page().height);
        let tallest = most.1.unwrap_or(self.page).min(self.page.scaled(19, 20));
        let by_height = Mp::from_points((tallest.as_points() * own / tall).min(f64::from(width.0)));
        let drawn = Mp::from_points(own.min(14_400.0)).min(most.0.unwrap_or(width)).min(width - margin).min(by_height);
        let height = sheet.height(drawn);
        let marks = self.marks(id, height);
        let thick = self.theme.rule_thin;
        let half = thick / 2;
        let mut items =
            rectangle(margin - half, -half, margin + drawn + half, height + half, thick, self.theme.gray_rule);
        items.extend(marks.iter().flat_map(|mark| self.arrow(mark)));
        items.push(Item::new(Owner::Block(id), Placed::Enclosed { x: margin, y: Mp::ZERO, width: drawn, sheet }));
        for mark in marks {
            let mut y = mark.top;
            for mut line in mark.lines {
                line.items.iter_mut().for_each(|item| item.placed.shift(Mp::ZERO, y));
                items.append(&mut line.items);
                y += line.height;
            }
        }
        let mut pieces = vec![Piece::items(height, items)];
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    /// The page that a block asks for, or a finding.
    fn enclosed_sheet(&mut self, id: BlockId, key: &str, page: u16) -> Option<EnclosedSheet> {
        let at = usize::from(page).checked_sub(1)?;
        let found = match self.shown.enclosures.get(key) {
            None => format!("no file of the key {key} can be enclosed"),
            Some(enclosure) if at >= enclosure.pages.len() => {
                format!("page {page} of {key}, which has {}", enclosure.pages.len())
            }
            Some(enclosure) => return Some(EnclosedSheet { enclosure: enclosure.clone(), at }),
        };
        let place = self.block(id).place.clone();
        self.findings.push(super::unknown_enclosure(&self.tree.template, found, place));
        None
    }

    /// The marks beside a page from the top down, each as near to what it points to as those above and below let it.
    fn marks(&mut self, id: BlockId, height: Mp) -> Vec<Mark> {
        let blocks = self.tree.children(id).to_vec();
        let mut marks: Vec<Mark> = blocks.into_iter().map(|block| self.margin_mark(block, height)).collect();
        marks.sort_by_key(|mark| mark.target);
        let mut free = Mp::ZERO;
        for mark in &mut marks {
            mark.top = (mark.target - mark.height() / 2).max(free);
            free = mark.top + mark.height() + APART;
        }
        let mut free = height;
        for mark in marks.iter_mut().rev() {
            mark.top = mark.top.min(free - mark.height());
            free = mark.top - APART;
        }
        if let Some(first) = marks.first().filter(|first| first.top < Mp::ZERO) {
            self.check_room(first.block, (MARGIN, height - first.top), (MARGIN, height));
        }
        marks
    }

    fn margin_mark(&mut self, block: BlockId, height: Mp) -> Mark {
        let at = if let Kind::Marked { at } = self.block(block).kind { at } else { 0 };
        let (setting, inlines) = (Setting { bold: true, ..self.plain(block) }, self.inlines(block));
        let lines = self.texts().lines(&inlines, MARGIN - ARROW, setting);
        self.check_letters(block, &lines);
        Mark { block, target: height.scaled(i64::from(at), 10_000), top: Mp::ZERO, lines }
    }

    /// The arrow from the words of a mark to the edge of the page.
    fn arrow(&self, mark: &Mark) -> Vec<Item> {
        let (width, gray) = (self.theme.rule_strong, 0);
        let rule = |(x1, y1): (Mp, Mp), (x2, y2): (Mp, Mp)| artifact(Placed::Rule { x1, y1, x2, y2, width, gray });
        let tip = (MARGIN, mark.target);
        let tail = (MARGIN - ARROW + Mp::points(2), mark.top + mark.height() / 2);
        let (back, side) = (tip.0 - HEAD.0, HEAD.1);
        vec![rule(tail, tip), rule((back, tip.1 - side), tip), rule((back, tip.1 + side), tip)]
    }
}
