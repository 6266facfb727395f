//! Papers bound into another: several block trees to one.
//!
//! In: trees that were rendered each by itself. Out: one tree with the blocks of all, so that the bound paper has one outline, one
//! run of page numbers and one structure. May not know: what any of them says.
//!
//! A bound paper stands behind a sheet of the other and one level below its heading: its headings go down a level, the third
//! stays the third. Its own running head and foot give way to those of the paper that it is bound into; those of its sheets stay.
//! Ids, and names of sheets and of their fields, get the paper's word before them, since two papers may use one.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::tree::{Inline, Span};
use super::{Block, BlockId, Body, Field, FieldId, Kind, Tree};

/// A paper to be bound.
pub struct Bound {
    /// The id of a block on the sheet behind which it stands; behind the last one where there is no such block.
    pub behind: String,
    /// The word that stands before its names, such as `schedule`.
    pub word: &'static str,
    /// The paper.
    pub tree: Tree,
}

impl Tree {
    /// This paper with others bound into it. Title, language and scale stay its own. Papers behind one sheet stay in order.
    pub fn bind(self, papers: impl IntoIterator<Item = Bound>) -> Tree {
        let mut papers: Vec<(BlockId, Bound)> =
            papers.into_iter().map(|paper| (self.sheet_of(&paper.behind), paper)).collect();
        papers.sort_by_key(|(sheet, _)| *sheet);
        let mut binding = Binding { tells_pages: self.tells_pages, ..Binding::default() };
        let ends: Vec<BlockId> = papers.iter().map(|(sheet, _)| self.last_inside(*sheet)).collect();
        let mut waiting = ends.into_iter().zip(papers.into_iter().map(|(_, paper)| paper)).peekable();
        let front = &self;
        let mut own = Places::default();
        for id in front.ids() {
            own.of.insert(id, binding.place());
            while let Some((_, paper)) = waiting.next_if(|(end, _)| *end == id) {
                binding.reserve(paper);
            }
        }
        binding.finish(self, own)
    }

    /// The last block of the paper that a block is of: of a bound one its own last, otherwise the last of all.
    pub fn last_of_paper(&self, id: BlockId) -> BlockId {
        let of = self.bound.iter().find(|span| span.first <= id && id <= span.last);
        of.map_or(BlockId(self.blocks.len() as u32 - 1), |span| span.last)
    }

    /// The sheet on which the block of an id stands; else the last.
    fn sheet_of(&self, id: &str) -> BlockId {
        let sheets = || self.children(self.root()).iter().rev().copied();
        let of = self.target(id).and_then(|block| sheets().find(|sheet| *sheet <= block));
        of.or_else(|| sheets().next()).unwrap_or_default()
    }
}

/// Where the blocks of a paper stand once all are bound.
#[derive(Default)]
struct Places {
    of: BTreeMap<BlockId, BlockId>,
    word: Option<&'static str>,
}

/// Papers while they are bound.
#[derive(Default)]
struct Binding {
    count: u32,
    papers: Vec<(Tree, Places)>,
    spans: Vec<Span>,
    tells_pages: bool,
}

impl Binding {
    /// The next free place.
    fn place(&mut self) -> BlockId {
        self.count += 1;
        BlockId(self.count - 1)
    }

    /// Gives places to the blocks of a paper, all but its root and its own running head and foot.
    fn reserve(&mut self, paper: Bound) {
        let first = BlockId(self.count);
        let mut places = Places { word: Some(paper.word), ..Places::default() };
        for child in paper.tree.children(paper.tree.root()) {
            if !matches!(paper.tree.block(*child).kind, Kind::Head | Kind::Foot) {
                let last = paper.tree.last_inside(*child);
                for at in child.0..=last.0 {
                    places.of.insert(BlockId(at), self.place());
                }
            }
        }
        if self.count > first.0 {
            self.spans.push(Span { first, last: BlockId(self.count - 1) });
        }
        self.tells_pages |= paper.tree.tells_pages;
        self.papers.push((paper.tree, places));
    }

    fn finish(self, front: Tree, own: Places) -> Tree {
        let mut tree = Tree { tells_pages: self.tells_pages, bound: self.spans, ..front.clone() };
        tree.targets.clear();
        let mut blocks: BTreeMap<BlockId, (Block, Vec<Field>)> = BTreeMap::new();
        let mut sheets = Vec::new();
        for (paper, places) in std::iter::once((front, own)).chain(self.papers) {
            let root = paper.children(paper.root()).iter().filter_map(|child| places.of.get(child));
            sheets.extend(root.copied());
            let named = paper.targets.iter().filter_map(|(id, block)| Some((places.id(id), *places.of.get(block)?)));
            tree.targets.extend(named);
            let Tree { blocks: its_blocks, fields, .. } = paper;
            for (at, block) in its_blocks.into_iter().enumerate() {
                if let Some(place) = places.of.get(&BlockId(at as u32)) {
                    blocks.insert(*place, places.moved(block, &fields));
                }
            }
        }
        sheets.sort();
        tree.fields.clear();
        tree.blocks.clear();
        for (mut block, fields) in blocks.into_values() {
            number(&mut block, tree.fields.len() as u32);
            tree.fields.extend(fields);
            tree.blocks.push(block);
        }
        if let Some(root) = tree.blocks.first_mut() {
            root.body = Body::Blocks(sheets);
        }
        tree
    }
}

impl Places {
    fn id(&self, id: &str) -> Arc<str> {
        match self.word {
            Some(word) => Arc::from(format!("{word}.{id}")),
            None => Arc::from(id),
        }
    }

    fn named(&self, name: String) -> String {
        match self.word {
            Some(word) => format!("{word}-{name}"),
            None => name,
        }
    }

    /// A block as it stands in the bound paper, with its fields in the order in which it names them.
    fn moved(&self, mut block: Block, all: &[Field]) -> (Block, Vec<Field>) {
        if self.word.is_some() {
            match &mut block.kind {
                Kind::Heading(level) => *level = (*level + 1).min(3),
                Kind::Contents { depth } => *depth = (*depth + 1).min(3),
                _ => {}
            }
        }
        if matches!(block.kind, Kind::Sheet { .. }) {
            block.name = block.name.map(|name| self.named(name));
        }
        block.id = block.id.map(|id| self.id(&id));
        match &mut block.body {
            Body::Blocks(children) => {
                *children = children.iter().filter_map(|child| self.of.get(child)).copied().collect();
            }
            Body::Text(inlines) => {
                for inline in inlines {
                    if let Inline::Text { to: Some(to), .. } | Inline::PageOf { to, .. } = inline {
                        *to = self.id(to);
                    }
                }
            }
            Body::Empty => {}
        }
        let fields = fields(&mut block).into_iter().filter_map(|field| all.get(field.0 as usize));
        let fields = fields.cloned().map(|field| Field { sheet: self.named(field.sheet.clone()), ..field }).collect();
        (block, fields)
    }
}

/// The fields of a block: its own and those of its text, in order.
fn fields(block: &mut Block) -> Vec<&mut FieldId> {
    let in_text = match &mut block.body {
        Body::Text(inlines) => inlines.as_mut_slice(),
        Body::Blocks(_) | Body::Empty => &mut [],
    };
    let in_text = in_text.iter_mut().filter_map(|inline| match inline {
        Inline::Check { field, .. } | Inline::Blank { field, .. } => field.as_mut(),
        _ => None,
    });
    block.field.iter_mut().chain(in_text).collect()
}

/// Numbers the fields of a block on from a number.
fn number(block: &mut Block, from: u32) {
    for (field, at) in fields(block).into_iter().zip(from..) {
        *field = FieldId(at);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{Files, Findings};
    use crate::markup::{Source, Templates};

    fn tree(sheets: &str) -> Tree {
        let text = format!("<document title=\"t\" lang=\"en-US\"><foot><left>own</left></foot>{sheets}</document>");
        let files = Files::new([("a.xml".to_string(), text.clone().into_bytes())]);
        let file = files.find("a.xml").expect("just put there");
        let mut findings = Findings::default();
        let templates = Templates::load([Source { name: "a.xml", file, text: &text }], &mut findings);
        let tree = templates.render("a.xml", &serde_json::json!({}), &mut findings);
        tree.unwrap_or_else(|| panic!("{findings:#?}"))
    }

    fn bound() -> Tree {
        let front = tree(
            "<sheet name=\"a\"><h1 id=\"one\">One</h1><p>from <pageof to=\"one\"/> <check field=\"x\"/> x</p></sheet>\
             <sheet><h1 id=\"two\">Two</h1><p><check/> y</p></sheet>",
        );
        let behind = tree(
            "<sheet name=\"a\"><contents depth=\"1\"/><h1 id=\"one\">Inner</h1><h2>Below</h2><h3>Last</h3>\
             <p><see to=\"one\">there</see> <blank w=\"1in\" field=\"x\"/></p></sheet>",
        );
        front.bind([Bound { behind: "one".to_owned(), word: "in", tree: behind }])
    }

    #[test]
    fn a_paper_stands_behind_its_sheet_in_reading_order() {
        let tree = bound();
        let texts: Vec<String> =
            tree.ids().filter(|id| matches!(tree.block(*id).kind, Kind::Heading(_))).map(|id| tree.text(id)).collect();
        assert_eq!(texts, ["One", "Inner", "Below", "Last", "Two"]);
        // Parents come before children, every block but the root is somebody's child once, and siblings stand in order.
        let mut seen = vec![0; tree.len()];
        for id in tree.ids() {
            assert!(tree.children(id).is_sorted());
            for child in tree.children(id) {
                assert!(*child > id);
                seen[child.0 as usize] += 1;
            }
        }
        assert!(seen[0] == 0 && seen[1..].iter().all(|count| *count == 1), "{seen:?}");
        let feet = tree.ids().filter(|id| tree.block(*id).kind == Kind::Foot).count();
        assert_eq!(feet, 1, "one running foot for all");
    }

    #[test]
    fn headings_go_down_a_level_and_names_get_the_word() {
        let tree = bound();
        let levels: Vec<u8> = tree
            .ids()
            .filter_map(|id| match tree.block(id).kind {
                Kind::Heading(level) => Some(level),
                _ => None,
            })
            .collect();
        assert_eq!(levels, [1, 2, 3, 3, 1]);
        for (id, text) in [("one", "One"), ("in.one", "Inner"), ("two", "Two")] {
            assert_eq!(tree.target(id).map(|block| tree.text(block)).as_deref(), Some(text), "{id}");
        }
        let fields: Vec<String> = tree.fields().iter().map(|it| format!("{}.{}", it.sheet, it.name)).collect();
        assert_eq!(fields, ["a.x", "in-a.x", "sheet-2.y"]);
    }

    #[test]
    fn fields_and_leads_are_those_of_the_bound_paper() {
        let tree = bound();
        let mut seen = Vec::new();
        for id in tree.ids() {
            if let Body::Text(inlines) = &tree.block(id).body {
                for inline in inlines {
                    match inline {
                        Inline::Check { field: Some(field), .. } | Inline::Blank { field: Some(field), .. } => {
                            seen.push(field.0)
                        }
                        Inline::Text { to: Some(to), .. } | Inline::PageOf { to, .. } => {
                            assert!(tree.target(to).is_some(), "{to}")
                        }
                        _ => {}
                    }
                }
            }
        }
        assert_eq!(seen, [0, 1, 2], "in reading order");
    }

    #[test]
    fn a_bound_paper_ends_with_its_own_last_block() {
        let tree = bound();
        let contents =
            tree.ids().find(|id| matches!(tree.block(*id).kind, Kind::Contents { depth: 2 })).expect("it is there");
        let last = tree.last_of_paper(contents);
        assert!(tree.target("in.one").expect("it is there") < last && last < tree.target("two").expect("it is there"));
        assert_eq!(tree.last_of_paper(tree.target("one").expect("it is there")).0 as usize, tree.len() - 1);
    }
}
