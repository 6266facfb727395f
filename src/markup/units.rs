//! A tree as the units that a reader reads, each with what it says and shows and the section it stands in.
//!
//! In: a tree and its drawings. Out: units in reading order. May not know: what they are compared with.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{BlockId, Body, Inline, Kind, Tree};
use crate::shapes::Drawing;

/// What a reader reads as one.
pub struct Unit<'d> {
    /// Its block; of a term with its details all of them.
    pub blocks: Vec<BlockId>,
    /// The block that holds it.
    pub parent: BlockId,
    /// The named blocks and headings that it stands under, outermost first.
    pub section: Vec<String>,
    /// The same without the last headings that are known by their words alone.
    pub stands_in: Vec<String>,
    /// Its words and the boxes among them.
    pub says: String,
    /// Its drawings.
    pub shows: Vec<&'d Drawing>,
}

/// What parts the words of blocks and cells; no text holds it.
const APART: char = '\u{1f}';
/// Before a heading that is known by its words alone.
const BY_WORDS: char = '\u{1e}';

impl Unit<'_> {
    /// Whether its drawings look as those of another do.
    pub fn shows_like(&self, other: &Unit) -> bool {
        self.shows.len() == other.shows.len() && self.shows.iter().zip(&other.shows).all(|(one, it)| one.looks_like(it))
    }

    /// Calls the sections that it stands under by other names.
    pub fn call(&mut self, now: &dyn Fn(&str) -> String) {
        for name in self.section.iter_mut().chain(&mut self.stands_in) {
            *name = match name.strip_prefix(BY_WORDS) {
                Some(words) => format!("{BY_WORDS}{}", now(words)),
                None => now(name),
            };
        }
    }
}

/// The units of a tree, in reading order.
pub fn units<'d>(tree: &Tree, drawings: &'d BTreeMap<String, Arc<Drawing>>) -> Vec<Unit<'d>> {
    let mut gatherer = UnitCollector {
        tree,
        drawings,
        units: Vec::new(),
        named: Vec::new(),
        headings: Vec::new(),
        titles: Vec::new(),
    };
    gatherer.children(tree.root());
    gatherer.units
}

struct UnitCollector<'t, 'd> {
    tree: &'t Tree,
    drawings: &'d BTreeMap<String, Arc<Drawing>>,
    units: Vec<Unit<'d>>,
    /// Names of the blocks around.
    named: Vec<String>,
    /// The headings above, with their levels.
    headings: Vec<(u8, String)>,
    /// Titles of the boxes around.
    titles: Vec<String>,
}

impl<'d> UnitCollector<'_, 'd> {
    fn children(&mut self, parent: BlockId) {
        let tree = self.tree;
        let mut pair: Option<Vec<BlockId>> = None;
        for id in tree.children(parent) {
            match tree.block(*id).kind {
                Kind::Term => {
                    let before = pair.replace(vec![*id]);
                    before.into_iter().for_each(|blocks| self.unit(blocks, parent));
                }
                Kind::Detail => pair.get_or_insert_default().push(*id),
                _ => self.block(*id, parent),
            }
        }
        pair.into_iter().for_each(|blocks| self.unit(blocks, parent));
    }

    fn block(&mut self, id: BlockId, parent: BlockId) {
        let block = self.tree.block(id);
        match &block.kind {
            // What stands on every page, and what only has height or tells pages.
            Kind::Head | Kind::Foot | Kind::TitleBlock { .. } | Kind::Contents { .. } => {}
            Kind::PageBreak | Kind::Rule | Kind::Space(_) => {}
            Kind::Heading(level) => {
                self.headings.retain(|(above, _)| above < level);
                self.unit(vec![id], parent);
                let words = || format!("{BY_WORDS}{}", self.tree.text(id));
                self.headings.push((*level, block.id.as_ref().map_or_else(words, |id| id.to_string())));
            }
            Kind::Sheet { .. } => {
                self.headings.clear();
                self.inside(id);
                self.headings.clear();
            }
            Kind::Row { .. } | Kind::Item { .. } | Kind::Figure { .. } => self.unit(vec![id], parent),
            Kind::Box { title, .. } => {
                self.titles.extend(title.clone());
                self.inside(id);
                self.titles.truncate(self.titles.len() - title.iter().len());
            }
            _ => match &block.body {
                Body::Blocks(_) => self.inside(id),
                Body::Text(_) | Body::Empty => self.unit(vec![id], parent),
            },
        }
    }

    /// What a block holds; a box that holds nothing is a unit for its title.
    fn inside(&mut self, id: BlockId) {
        let block = self.tree.block(id);
        if matches!(block.body, Body::Empty) && matches!(block.kind, Kind::Box { .. }) {
            return self.unit(vec![id], id);
        }
        let name = block.id.as_deref().or(block.name.as_deref());
        self.named.extend(name.map(str::to_owned));
        self.children(id);
        self.named.truncate(self.named.len() - name.iter().len());
    }

    fn unit(&mut self, blocks: Vec<BlockId>, parent: BlockId) {
        let (mut says, mut shows) = (self.titles.concat(), Vec::new());
        blocks.iter().for_each(|id| self.gather(*id, &mut says, &mut shows));
        let headings = self.headings.iter().map(|(_, words)| words.clone());
        let section: Vec<String> = self.named.iter().cloned().chain(headings).collect();
        let by_words = section.iter().rev().take_while(|it| it.starts_with(BY_WORDS)).count();
        let stands_in = section[..section.len() - by_words].to_vec();
        self.units.push(Unit { blocks, parent, section, stands_in, says, shows });
    }

    fn gather(&self, id: BlockId, says: &mut String, shows: &mut Vec<&'d Drawing>) {
        let block = self.tree.block(id);
        says.push(APART);
        match &block.kind {
            Kind::Heading(level) => says.push(char::from(b'0' + level)),
            Kind::Item { checked } => says.push(if *checked { '+' } else { '-' }),
            Kind::Figure { drawing, .. } => shows.extend(self.drawings.get(drawing).map(|it| &**it)),
            Kind::Answer { label, .. } | Kind::Stamp { label, .. } => {
                says.push_str(label.as_deref().unwrap_or_default())
            }
            Kind::Box { title, .. } => says.push_str(title.as_deref().unwrap_or_default()),
            _ => {}
        }
        match &block.body {
            Body::Blocks(children) => children.iter().for_each(|child| self.gather(*child, says, shows)),
            Body::Text(inlines) => inlines.iter().for_each(|inline| said(inline, says)),
            Body::Empty => {}
        }
    }
}

/// What a piece of text says; numbers of pages say nothing of the paper's matter.
fn said(inline: &Inline, says: &mut String) {
    match inline {
        Inline::Text { text, .. } => says.push_str(text),
        Inline::Break => says.push('\n'),
        Inline::Check { on, .. } => says.push(if *on { '\u{2611}' } else { '\u{2610}' }),
        Inline::Blank { .. } => says.push('_'),
        Inline::PageOf { .. } | Inline::PageNumber | Inline::PageCount => {}
        Inline::SheetPageNumber | Inline::SheetPageCount => {}
    }
}
