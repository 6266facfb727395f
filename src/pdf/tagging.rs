//! The structure tree as objects of the file, and its inverse from marks to elements.
//!
//! In: elements, marks, and the numbers of the pages. Out: groups of objects. May not know: how blocks became elements.
//!
//! Elements are written straight to bytes, in parallel: a dictionary for each would cost more than the rest of the file.

use rayon::prelude::*;

use super::annotations::Numbering;
use super::content::{Content, Kid};
use super::file::{File, Group, Number, Packed};
use super::forms::Forms;
use super::links::Links;
use super::numbers::{Cp, integer, row, text};
use super::roles::Role;
use super::structure::{Element, Marks, Structure};
use crate::fonts::plain;
use crate::markup::{Kind, ListKind, Scope, Tree};

/// How many elements go into one object stream.
const GROUP: usize = 1000;

/// What a figure says for those who cannot see it, and where it stands.
pub(super) struct Picture {
    /// Its text.
    pub(super) alt: String,
    /// Left, bottom, right and top on its page.
    pub(super) frame: [Cp; 4],
}

/// Everything that the writing of elements needs to look up.
pub(super) struct Tagging<'t> {
    pub(super) tree: &'t Tree,
    pub(super) structure: &'t Structure,
    pub(super) marks: &'t Marks,
    /// The number of the first page; the others follow it.
    pub(super) pages: Number,
    /// The figures, by block, in order.
    pub(super) pictures: &'t std::collections::BTreeMap<crate::markup::BlockId, Picture>,
    /// The places to fill in.
    pub(super) forms: &'t Forms<'t>,
    /// The links.
    pub(super) links: &'t Links<'t>,
}

impl Tagging<'_> {
    /// Puts the tree into the file; hands out the number of its root.
    pub(super) fn write(&self, contents: &[Content], file: &mut File) -> Number {
        let root = file.reserve(1);
        let first = file.reserve(self.structure.elements.len());
        let starts = (0..self.structure.elements.len()).into_par_iter().step_by(GROUP);
        let groups: Vec<Packed> = starts.map(|from| self.group(from, first, root).packed()).collect();
        groups.into_iter().for_each(|group| file.put_packed(group));
        self.forms.put_elements(self.structure, first, self.pages, file);
        self.links.put_elements(self.structure, first, self.pages, file);
        let inverse = self.inverse(contents, first, file);
        let mut out = b"<</Type/StructTreeRoot/K ".to_vec();
        first.refer(&mut out);
        out.extend_from_slice(b"/ParentTree ");
        inverse.refer(&mut out);
        out.extend_from_slice(b"/ParentTreeNextKey ");
        integer(&mut out, self.links.numbers.next_key() as i64);
        out.extend_from_slice(b">>");
        file.put(root, out);
        root
    }

    fn group(&self, from: usize, first: Number, root: Number) -> Group {
        let mut group = Group::new(first.plus(from));
        let to = self.structure.elements.len().min(from + GROUP);
        for at in from..to {
            self.element(at as u32, first, root, group.begin());
        }
        group
    }

    fn element(&self, at: u32, first: Number, root: Number, out: &mut Vec<u8>) {
        let element = &self.structure.elements[at as usize];
        out.extend_from_slice(b"<</S/");
        out.extend_from_slice(element.role.name().as_bytes());
        out.extend_from_slice(b"/P ");
        if at == 0 { root } else { first.plus(element.parent as usize) }.refer(out);
        self.name(element, out);
        self.attributes(element, out);
        self.contents(at, element, first, out);
        out.extend_from_slice(b">>");
    }

    /// Writes the name of a block as the title of the outermost element that comes from it.
    fn name(&self, element: &Element, out: &mut Vec<u8>) {
        let outermost = self.structure.elements[element.parent as usize].block != element.block;
        if let (true, Some(name)) = (outermost, &self.tree.block(element.block).name) {
            out.extend_from_slice(b"/T");
            text(out, name);
        }
    }

    /// Writes the page and the contents: marks first, then elements.
    fn contents(&self, at: u32, element: &Element, first: Number, out: &mut Vec<u8>) {
        let marks = element.own.map_or(&[][..], |owner| self.marks.of(owner));
        let page = marks.first().map(|(page, _)| *page);
        if let Some(page) = page {
            out.extend_from_slice(b"/Pg ");
            self.pages.plus(page as usize).refer(out);
        }
        let mut children = self.structure.children(at).peekable();
        if let ([(_, Kid::Marked(id))], None) = (marks, children.peek()) {
            out.extend_from_slice(b"/K ");
            integer(out, i64::from(*id));
            return;
        }
        if marks.is_empty() && children.peek().is_none() {
            return;
        }
        out.extend_from_slice(b"/K[");
        for (on, kid) in marks {
            match kid {
                Kid::Marked(id) => self.mark(*id, (Some(*on) != page).then_some(*on), out),
                Kid::Field(at) => child(&self.forms.numbers, *on, *at, out),
                Kid::Link(at) => child(&self.links.numbers, *on, *at, out),
            }
        }
        for child in children {
            first.plus(child as usize).refer(out);
            out.push(b' ');
        }
        out.push(b']');
    }

    /// Writes a mark; its page only where it is not that of the element.
    fn mark(&self, id: u32, page: Option<u32>, out: &mut Vec<u8>) {
        if let Some(page) = page {
            out.extend_from_slice(b"<</Type/MCR/Pg ");
            self.pages.plus(page as usize).refer(out);
            out.extend_from_slice(b"/MCID ");
            integer(out, i64::from(id));
            out.extend_from_slice(b">>");
        } else {
            integer(out, i64::from(id));
            out.push(b' ');
        }
    }

    fn attributes(&self, element: &Element, out: &mut Vec<u8>) {
        match element.role {
            Role::HeadCell(_) | Role::DataCell => self.cell(element, out),
            Role::List => {
                let numbering = match self.tree.block(element.block).kind {
                    Kind::List(ListKind::Bullet) => "Disc",
                    Kind::List(ListKind::Number) => "Decimal",
                    Kind::List(ListKind::Check) => "Square",
                    _ => return, // a list of definitions: its labels are words
                };
                out.extend_from_slice(b"/A<</O/List/ListNumbering/");
                out.extend_from_slice(numbering.as_bytes());
                out.extend_from_slice(b">>");
            }
            Role::Figure => {
                let Some(picture) = self.pictures.get(&element.block) else { return };
                out.extend_from_slice(b"/Alt");
                text(out, &plain(&picture.alt));
                out.extend_from_slice(b"/A<</O/Layout/Placement/Block/BBox[");
                row(out, &picture.frame);
                out.extend_from_slice(b"]>>");
            }
            _ => {}
        }
    }

    fn cell(&self, element: &Element, out: &mut Vec<u8>) {
        let Kind::Cell { scope, colspan, rowspan, .. } = &self.tree.block(element.block).kind else { return };
        if scope.is_none() && *colspan <= 1 && *rowspan <= 1 {
            return;
        }
        out.extend_from_slice(b"/A<</O/Table");
        match scope {
            Some(Scope::Column) => out.extend_from_slice(b"/Scope/Column"),
            Some(Scope::Row) => out.extend_from_slice(b"/Scope/Row"),
            None => {}
        }
        for (name, span) in [(b"/ColSpan ", colspan), (b"/RowSpan ", rowspan)] {
            if *span > 1 {
                out.extend_from_slice(name);
                integer(out, i64::from(*span));
            }
        }
        out.extend_from_slice(b">>");
    }

    /// The element of every mark of a page, by its id.
    fn holders(&self, page: usize, content: &Content, first: Number) -> Vec<Number> {
        let mut holders = vec![first; content.marks as usize];
        for (owner, kid) in &content.kids {
            match kid {
                Kid::Marked(id) => holders[*id as usize] = first.plus(self.structure.holder(*owner) as usize),
                Kid::Link(at) => {
                    let element = self.links.numbers.element(self.links.numbers.position(page, *at as usize));
                    content.links[*at as usize].marks.iter().for_each(|id| holders[*id as usize] = element);
                }
                Kid::Field(_) => {}
            }
        }
        holders
    }

    /// Writes, for each page, the element of every mark; then the elements of fields and links.
    fn inverse(&self, contents: &[Content], first: Number, file: &mut File) -> Number {
        let tree = file.reserve(1);
        let lists = file.reserve(contents.len());
        let mut out = b"<</Nums[".to_vec();
        for (page, content) in contents.iter().enumerate() {
            integer(&mut out, page as i64);
            out.push(b' ');
            lists.plus(page).refer(&mut out);
            out.push(b' ');
            let mut list = b"[".to_vec();
            for element in self.holders(page, content, first) {
                element.refer(&mut list);
                list.push(b' ');
            }
            list.push(b']');
            file.put(lists.plus(page), list);
        }
        self.forms.numbers.inverse(&mut out);
        self.links.numbers.inverse(&mut out);
        out.extend_from_slice(b"]>>");
        file.put(tree, out);
        tree
    }
}

/// Writes a reference to the element of something that lies over a page.
fn child(numbers: &Numbering, page: u32, at: u32, out: &mut Vec<u8>) {
    numbers.element(numbers.position(page as usize, at as usize)).refer(out);
    out.push(b' ');
}
