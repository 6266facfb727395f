//! Words that lead to another place of the paper, each a tagged link that says where it leads.
//!
//! In: the links of every page, where blocks begin, and the elements that hold them. Out: annotations and their elements.
//! May not know: how a text came to lead anywhere.

use super::annotations::Numbering;
use super::content::{Content, Kid, Link};
use super::file::{File, Number};
use super::numbers::{Cp, hundredths, integer, row, text};
use super::structure::Structure;
use crate::fonts::plain;
use crate::markup::{Mp, Tree};
use crate::typeset::Pages;

/// The longest description of a target, in characters.
const LONGEST: usize = 100;

/// Where the objects of the links stand.
pub(super) struct Links<'c> {
    contents: &'c [Content],
    pub(super) numbers: Numbering,
}

impl<'c> Links<'c> {
    /// Sets numbers aside; `key` is the first key of the parent tree that is free.
    pub(super) fn new(contents: &'c [Content], key: usize, file: &mut File) -> Self {
        let counts = contents.iter().map(|content| content.links.len());
        Links { contents, numbers: Numbering::new(counts, key, file) }
    }

    /// Puts an element for each link into the file, with its words and its annotation; `first` is that of the document.
    pub(super) fn put_elements(&self, structure: &Structure, first: Number, pages: Number, file: &mut File) {
        for (page, content) in self.contents.iter().enumerate() {
            for (owner, at) in content.kids.iter().filter_map(|(owner, kid)| match kid {
                Kid::Link(at) => Some((*owner, *at as usize)),
                Kid::Marked(_) | Kid::Field(_) => None,
            }) {
                let position = self.numbers.position(page, at);
                let mut out = b"<</S/Link/P ".to_vec();
                first.plus(structure.holder(owner) as usize).refer(&mut out);
                out.extend_from_slice(b"/Pg ");
                pages.plus(page).refer(&mut out);
                out.extend_from_slice(b"/K[");
                for mark in &content.links[at].marks {
                    integer(&mut out, i64::from(*mark));
                    out.push(b' ');
                }
                out.extend_from_slice(b"<</Type/OBJR/Obj ");
                self.numbers.object(position).refer(&mut out);
                out.extend_from_slice(b">>]>>");
                file.put(self.numbers.element(position), out);
            }
        }
    }

    /// Puts the annotations into the file; `first` is the first page.
    pub(super) fn put(&self, tree: &Tree, pages: &Pages, first: Number, file: &mut File) {
        for (page, content) in self.contents.iter().enumerate() {
            for (at, link) in content.links.iter().enumerate() {
                let position = self.numbers.position(page, at);
                let mut out = b"<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]".to_vec();
                self.numbers.parent_key(position, &mut out);
                place(link, &mut out);
                if let Some(target) = pages.targets.get(&link.to) {
                    out.extend_from_slice(b"/Contents");
                    text(&mut out, &description(tree, link, target.page));
                    out.extend_from_slice(b"/Dest[");
                    first.plus(target.page).refer(&mut out);
                    out.extend_from_slice(b"/XYZ null ");
                    let height = pages.pages.get(target.page).map_or(Mp::ZERO, |page| page.height);
                    hundredths(&mut out, Cp::of(height - target.y + Mp::points(6))); // a little air above it
                    out.extend_from_slice(b" null]");
                }
                out.extend_from_slice(b">>");
                file.put(self.numbers.object(position), out);
            }
        }
    }
}

/// What a link leads to, in words: ISO 14289-1, 7.18.5.
fn description(tree: &Tree, link: &Link, page: usize) -> String {
    let words = plain(&tree.text(link.to)).chars().take(LONGEST).collect::<String>();
    if words.is_empty() { format!("Page {}", page + 1) } else { format!("{words}, page {}", page + 1) }
}

/// The rectangle around a link, and the lines in it that can be pressed (ISO 32000-1, table 173).
fn place(link: &Link, out: &mut Vec<u8>) {
    let edge =
        |at: usize, wins: fn(i32, i32) -> i32| Cp(link.frames.iter().map(|it| it[at].0).reduce(wins).unwrap_or(0));
    out.extend_from_slice(b"/Rect[");
    row(out, &[edge(0, i32::min), edge(1, i32::min), edge(2, i32::max), edge(3, i32::max)]);
    out.push(b']');
    if link.frames.len() > 1 {
        out.extend_from_slice(b"/QuadPoints[");
        for [left, bottom, right, top] in link.frames.iter().copied() {
            row(out, &[left, bottom, right, bottom, right, top, left, top]);
        }
        out.push(b']');
    }
}
