//! The structure tree: which element every block is, and what it holds on which page.
//!
//! In: the block tree, and the owner of each marked content. Out: elements in reading order with their contents, and the
//! element of every mark. May not know: how elements are written, positions, fonts.
//!
//! Elements are the standard ones of ISO 32000-1, 14.8.4. Layout blocks (parts side by side, columns, what is kept
//! together) have none: what they hold belongs to what holds them.

use super::content::{Content, Kid};
use super::roles::{Role, role_of};
use crate::markup::{BlockId, Body, Kind, Tree};
use crate::typeset::Owner;

/// An element of the tree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Element {
    /// What it is.
    pub(super) role: Role,
    /// The block that it comes from.
    pub(super) block: BlockId,
    /// Whose content stands directly in it.
    pub(super) own: Option<Owner>,
    /// The element that holds it; the first holds itself.
    pub(super) parent: u32,
    /// One past the last element that it holds, directly or not.
    pub(super) end: u32,
}

/// Where each owner's content is: page and mark or field, in reading order.
pub(super) struct Marks {
    starts: Vec<u32>,
    marks: Vec<(u32, Kid)>,
}

impl Marks {
    /// Sorts the marks of all pages by owner; of one owner they stay in order.
    pub(super) fn new(tree: &Tree, pages: &[Content]) -> Self {
        let mut starts = vec![0u32; 2 * tree.len() + 1];
        for slot in pages.iter().flat_map(|page| &page.kids).filter_map(|(owner, _)| slot(*owner)) {
            starts[slot + 1] += 1;
        }
        for at in 1..starts.len() {
            starts[at] += starts[at - 1];
        }
        let mut next = starts.clone();
        let mut marks = vec![(0, Kid::Marked(0)); starts[starts.len() - 1] as usize];
        for (page, content) in pages.iter().enumerate() {
            for (slot, kid) in content.kids.iter().filter_map(|(owner, kid)| Some((slot(*owner)?, *kid))) {
                marks[next[slot] as usize] = (page as u32, kid);
                next[slot] += 1;
            }
        }
        Marks { starts, marks }
    }

    /// The marks and fields of an owner, each with its page.
    pub(super) fn of(&self, owner: Owner) -> &[(u32, Kid)] {
        slot(owner).map_or(&[], |slot| &self.marks[self.starts[slot] as usize..self.starts[slot + 1] as usize])
    }
}

fn slot(owner: Owner) -> Option<usize> {
    match owner {
        Owner::Block(block) => Some(2 * block.0 as usize),
        Owner::Label(block) => Some(2 * block.0 as usize + 1),
        Owner::Artifact(_) => None,
    }
}

/// The elements of a paper, parents before children, in reading order.
pub(super) struct Structure {
    pub(super) elements: Vec<Element>,
    holders: Vec<u32>,
}

impl Structure {
    /// Builds the tree; blocks that have no content have no elements, save for the cells of a table.
    pub(super) fn new(tree: &Tree, marks: &Marks) -> Self {
        let mut builder = Builder { tree, marks, elements: Vec::with_capacity(tree.len()) };
        builder.element(Role::Document, tree.root(), None, 0, |builder, at| builder.inside(tree.root(), at));
        let mut holders = vec![0; 2 * tree.len()];
        for (at, element) in builder.elements.iter().enumerate() {
            if let Some(slot) = element.own.and_then(slot) {
                holders[slot] = at as u32;
            }
        }
        Structure { elements: builder.elements, holders }
    }

    /// The element that holds an owner's content.
    pub(super) fn holder(&self, owner: Owner) -> u32 {
        slot(owner).map_or(0, |slot| self.holders[slot])
    }

    /// The elements that an element holds directly.
    pub(super) fn children(&self, at: u32) -> impl Iterator<Item = u32> + '_ {
        let end = self.elements[at as usize].end;
        let within = move |next: u32| (next < end).then_some(next);
        std::iter::successors(within(at + 1), move |child| within(self.elements[*child as usize].end))
    }
}

struct Builder<'t> {
    tree: &'t Tree,
    marks: &'t Marks,
    elements: Vec<Element>,
}

impl Builder<'_> {
    /// Adds an element and what `fill` puts into it; takes it back where that leaves it empty.
    fn element(
        &mut self,
        role: Role,
        block: BlockId,
        own: Option<Owner>,
        parent: u32,
        fill: impl FnOnce(&mut Self, u32),
    ) {
        let at = self.elements.len() as u32;
        let own = own.filter(|owner| !self.marks.of(*owner).is_empty());
        self.elements.push(Element { role, block, own, parent, end: 0 });
        fill(self, at);
        let end = self.elements.len() as u32;
        self.elements[at as usize].end = end;
        if end == at + 1 && own.is_none() && !role.stays_empty() {
            self.elements.pop();
        }
    }

    /// An element with the content of one owner and nothing else.
    fn leaf(&mut self, owner: Owner, block: BlockId, parent: u32) {
        self.element(role_of(self.tree, owner), block, Some(owner), parent, |_, _| {});
    }

    /// An element with a block's own content and what its blocks make.
    fn holder(&mut self, block: BlockId, parent: u32) {
        let owner = Owner::Block(block);
        let role = role_of(self.tree, owner);
        self.element(role, block, Some(owner), parent, |builder, at| builder.children(block, at));
    }

    /// An element that groups what its blocks make.
    fn group(&mut self, role: Role, block: BlockId, parent: u32) {
        self.element(role, block, None, parent, |builder, at| builder.inside(block, at));
    }

    /// What a grouping block holds: its label and text as paragraphs, then its blocks.
    fn inside(&mut self, block: BlockId, parent: u32) {
        self.leaf(Owner::Label(block), block, parent);
        self.leaf(Owner::Block(block), block, parent);
        self.children(block, parent);
    }

    fn children(&mut self, block: BlockId, parent: u32) {
        let tree = self.tree;
        if let Body::Blocks(children) = &tree.block(block).body {
            children.iter().for_each(|child| self.block(*child, parent));
        }
    }

    fn block(&mut self, block: BlockId, parent: u32) {
        match self.tree.block(block).kind {
            Kind::Heading(_) | Kind::Paragraph | Kind::Signature { .. } | Kind::Caption | Kind::Cell { .. } => {
                self.holder(block, parent);
            }
            Kind::Figure { .. } | Kind::Enclosed { .. } | Kind::Marked { .. } => self.holder(block, parent),
            Kind::List(_) => self.group(Role::List, block, parent),
            Kind::Item { .. } => self.item(block, parent),
            Kind::Definitions { .. } => self.definitions(block, parent),
            Kind::Table { .. } => self.group(Role::Table, block, parent),
            Kind::TableHead => self.group(Role::TableHead, block, parent),
            Kind::TableBody => self.group(Role::TableBody, block, parent),
            Kind::TableFoot => self.group(Role::TableFoot, block, parent),
            Kind::Row { .. } => self.group(Role::Row, block, parent),
            Kind::Box { .. } => self.group(Role::Division, block, parent),
            Kind::Head | Kind::Foot | Kind::Slot(_) => {}
            Kind::Term | Kind::Detail => self.holder(block, parent),
            _ => self.inside(block, parent),
        }
    }

    fn item(&mut self, block: BlockId, parent: u32) {
        self.element(Role::Item, block, None, parent, |builder, at| {
            builder.leaf(Owner::Label(block), block, at);
            builder.holder(block, at);
        });
    }

    /// Terms and details as items of a list: the term is the label.
    fn definitions(&mut self, block: BlockId, parent: u32) {
        self.element(Role::List, block, None, parent, |builder, list| {
            let tree = builder.tree;
            let pairs = tree.children(block).chunk_by(|_, next| tree.block(*next).kind != Kind::Term);
            for pair in pairs {
                builder.element(Role::Item, pair[0], None, list, |builder, at| {
                    pair.iter().for_each(|part| builder.block(*part, at));
                });
            }
        });
    }
}
