//! Blocks and the text inside them.
//!
//! In: blocks of the tree in reading order. Out: their markup. May not know: how the file begins and ends.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::written::Written;
use super::{fields, tables};
use crate::fonts::{Faces, Features, Setter};
use crate::markup::{BlockId, Body, BoxKind, Field, FieldId, Inline, Kind, ListKind, Mp, Tree, Weight};
use crate::shapes::Drawing;

/// A paper on its way into a browser.
pub struct Browser<'t> {
    tree: &'t Tree,
    drawings: &'t BTreeMap<String, Arc<Drawing>>,
    /// Measures the texts of drawings in the faces that the drawings were made for.
    pub setter: Setter<'t>,
    /// What was written.
    pub out: Written,
}

impl<'t> Browser<'t> {
    /// Nothing written yet.
    pub fn new(tree: &'t Tree, drawings: &'t BTreeMap<String, Arc<Drawing>>, faces: &'t Faces) -> Self {
        Browser { tree, drawings, setter: Setter::new(faces, Features::default()), out: Written::default() }
    }

    /// The tree.
    pub fn tree(&self) -> &'t Tree {
        self.tree
    }

    /// The drawing of a key.
    pub fn drawing(&self, key: &str) -> Option<&'t Drawing> {
        self.drawings.get(key).map(|it| &**it)
    }

    /// Every block inside a block.
    pub fn children(&mut self, id: BlockId) {
        self.tree.children(id).iter().for_each(|child| self.block(*child));
    }

    /// What a block holds, blocks or text.
    pub fn body(&mut self, id: BlockId) {
        match &self.tree.block(id).body {
            Body::Blocks(_) => self.children(id),
            Body::Text(_) => self.text_of(id),
            Body::Empty => {}
        }
    }

    /// What a block holds, with its anchor, between two tags.
    pub fn wrapped(&mut self, start: &str, id: BlockId, end: &str) {
        self.out.raw(start);
        self.anchor(id);
        self.body(id);
        self.out.raw(end);
    }

    /// Where links arrive that lead to a block.
    pub fn anchor(&mut self, id: BlockId) {
        let block = self.tree.block(id);
        if block.id.is_some() || matches!(block.kind, Kind::Heading(_)) {
            self.out.raw(&format!("<span id=\"b{}\"></span>", id.0));
        }
        self.mark(id);
    }

    /// The mark of a block that a revision changed.
    pub fn mark(&mut self, id: BlockId) {
        if let Some(revision) = &self.tree.block(id).revised {
            self.out.raw("<span class=\"revised\" role=\"img\"");
            self.out.attribute("aria-label", &format!("changed in revision {revision}"));
            self.out.raw(">\u{25b3}");
            self.out.text(revision);
            self.out.raw("</span> ");
        }
    }

    /// A link to a block.
    fn link(&mut self, to: BlockId, write: impl FnOnce(&mut Self)) {
        self.out.raw(&format!("<a href=\"#b{}\">", to.0));
        write(self);
        self.out.raw("</a>");
    }

    /// A block.
    pub fn block(&mut self, id: BlockId) {
        let tree = self.tree;
        // What is not wrapped in an element of its own words has its anchor before it.
        if matches!(tree.block(id).body, Body::Empty) || !is_wrapped(&tree.block(id).kind) {
            self.anchor(id);
        }
        match &tree.block(id).kind {
            Kind::Heading(level) => self.wrapped(&format!("<h{level}>"), id, &format!("</h{level}>\n")),
            Kind::Paragraph => self.wrapped("<p>", id, "</p>\n"),
            Kind::List(kind) => self.list(id, *kind),
            Kind::Definitions { .. } => {
                self.out.raw("<dl>");
                self.children(id);
                self.out.raw("</dl>\n");
            }
            Kind::Term => self.wrapped("<dt>", id, "</dt>"),
            Kind::Detail => self.wrapped("<dd>", id, "</dd>\n"),
            Kind::Table { columns, look } => tables::write(self, id, columns, *look),
            Kind::Box { kind, title } => self.framed(id, *kind, title.as_deref()),
            Kind::Figure { drawing, alt, .. } => self.figure(id, drawing, alt.as_deref()),
            Kind::Enclosed { alt, .. } => self.enclosed(id, alt),
            Kind::Marked { .. } => self.wrapped("<li>", id, "</li>"),
            Kind::Stamp { label, .. } => self.stamp(label.as_deref()),
            Kind::TitleBlock { .. } => self.wrapped("<div class=\"titleblock\">", id, "</div>\n"),
            Kind::Caption => self.wrapped("<figcaption>", id, "</figcaption>"),
            Kind::Side => self.wrapped("<div class=\"side\">", id, "</div>\n"),
            Kind::Part { width } => self.part(id, *width),
            Kind::Columns { .. } => self.wrapped("<div class=\"columns\">", id, "</div>\n"),
            Kind::Keep { .. } => self.wrapped("<div class=\"keep\">", id, "</div>\n"),
            Kind::Contents { depth } => self.contents(id, *depth),
            Kind::PageBreak => self.out.raw("<div class=\"break\"></div>\n"),
            Kind::Rule => self.out.raw("<hr/>\n"),
            Kind::Answer { height, label } => self.answer(id, *height, label.as_deref()),
            Kind::Sign => self.wrapped("<div class=\"sign\">", id, "</div>\n"),
            Kind::Signature { .. } => self.signature(id),
            // Empty height is the page's affair; what is left belongs to lists and tables, which write it themselves.
            Kind::Space(_) | Kind::Head | Kind::Foot | Kind::Slot(_) => {}
            _ => self.body(id),
        }
    }

    fn list(&mut self, id: BlockId, kind: ListKind) {
        let (start, end) = match kind {
            ListKind::Bullet => ("<ul>", "</ul>\n"),
            ListKind::Number => ("<ol>", "</ol>\n"),
            ListKind::Check => ("<ul class=\"checks\">", "</ul>\n"),
        };
        self.out.raw(start);
        for item in self.tree.children(id) {
            match (&self.tree.block(*item).kind, kind) {
                (Kind::Item { checked }, ListKind::Check) => self.check_item(*item, *checked),
                _ => self.wrapped("<li>", *item, "</li>\n"),
            }
        }
        self.out.raw(end);
    }

    /// The headings that follow, down to a level.
    fn contents(&mut self, id: BlockId, depth: u8) {
        let tree = self.tree;
        self.out.raw("<ul class=\"contents\">");
        let after = tree.ids().skip_while(|other| *other <= id);
        for heading in after.filter(|it| matches!(tree.block(*it).kind, Kind::Heading(level) if level <= depth)) {
            self.out.raw("<li>");
            self.link(heading, |browser| browser.out.text(&tree.text(heading)));
            self.out.raw("</li>");
        }
        self.out.raw("</ul>\n");
    }

    /// An item to check: a touch on its words checks it, unless other fields stand among them.
    fn check_item(&mut self, item: BlockId, on: bool) {
        let whole = match &self.tree.block(item).body {
            Body::Text(inlines) => !inlines.iter().any(is_field),
            _ => false,
        };
        let (start, end) = if whole { ("<label>", "</label>") } else { ("", "") };
        self.out.raw(&format!("<li>{start}"));
        self.anchor(item);
        self.block_field(item, |out, field| fields::check(out, field, on));
        self.out.raw(if whole { " <span>" } else { " " });
        self.body(item);
        self.out.raw(if whole { "</span>" } else { "" });
        self.out.raw(&format!("{end}</li>\n"));
    }

    /// Writes the field that a block is, where it is one.
    pub fn block_field(&mut self, id: BlockId, write: impl FnOnce(&mut Written, &Field)) {
        if let Some(field) = self.tree.block(id).field {
            write(&mut self.out, self.tree.field(field));
        }
    }

    fn framed(&mut self, id: BlockId, kind: BoxKind, title: Option<&str>) {
        let (class, word) = match kind {
            BoxKind::Caution => ("caution", "Caution"),
            BoxKind::Note => ("note", "Note"),
            BoxKind::Hold => ("hold", "Hold"),
            BoxKind::Stop => ("stop", "Stop"),
        };
        self.out.raw("<div role=\"group\"");
        self.out.attribute("class", &format!("box {class}"));
        self.out.attribute("aria-label", title.unwrap_or(word));
        self.out.raw(">");
        if let Some(title) = title {
            self.out.raw("<p class=\"title\">");
            self.out.text(title);
            self.out.raw("</p>");
        }
        self.children(id);
        self.out.raw("</div>\n");
    }

    fn answer(&mut self, id: BlockId, height: Mp, label: Option<&str>) {
        let rows = u32::try_from(height.0 / 16_000).unwrap_or(2);
        self.out.raw("<p class=\"answer\">");
        self.out.text(label.unwrap_or_default());
        self.block_field(id, |out, field| fields::area(out, field, rows));
        self.out.raw("</p>\n");
    }

    fn signature(&mut self, id: BlockId) {
        self.out.raw("<p>");
        self.block_field(id, |out, field| fields::line(out, field, None));
        self.wrapped("<span>", id, "</span></p>");
    }

    /// The text of a block, with its fields. A touch on the words behind a box checks it.
    pub fn text_of(&mut self, id: BlockId) {
        let Body::Text(inlines) = &self.tree.block(id).body else { return };
        let mut at = 0;
        while at < inlines.len() {
            let inline = &inlines[at];
            at += 1;
            match inline {
                Inline::Check { on, field: Some(field) } => {
                    let end = inlines[at..].iter().position(|next| is_field(next) || *next == Inline::Break);
                    let words = &inlines[at..end.map_or(inlines.len(), |end| at + end)];
                    self.check(*field, *on, words);
                    at += words.len();
                }
                Inline::Blank { width, field: Some(field) } => {
                    let letters = u32::try_from(width.0 / 6_000).unwrap_or(8);
                    fields::line(&mut self.out, self.tree.field(*field), Some(letters));
                }
                other => self.inline(other),
            }
        }
    }

    fn check(&mut self, field: FieldId, on: bool, words: &[Inline]) {
        self.out.raw("<label>");
        fields::check(&mut self.out, self.tree.field(field), on);
        words.iter().for_each(|it| self.inline(it));
        self.out.raw("</label>");
    }

    fn inline(&mut self, inline: &Inline) {
        match inline {
            Inline::Text { text, weight, to } => match to.as_ref().and_then(|to| self.tree.target(to)) {
                Some(to) => self.link(to, |browser| browser.letters(text, *weight)),
                None => self.letters(text, *weight),
            },
            // A page has no number here; its place is a touch away.
            Inline::PageOf { to, weight } => {
                if let Some(to) = self.tree.target(to) {
                    self.link(to, |browser| browser.letters("here", *weight));
                }
            }
            Inline::Break => self.out.raw("<br/>"),
            // Fields are written where their words are known; pages have no number here.
            Inline::Check { .. }
            | Inline::Blank { .. }
            | Inline::PageNumber
            | Inline::PageCount
            | Inline::SheetPageNumber
            | Inline::SheetPageCount => {}
        }
    }

    fn letters(&mut self, text: &str, weight: Weight) {
        let looks = [
            (weight.large, "<span class=\"large\">", "</span>"),
            (weight.bold, "<b>", "</b>"),
            (weight.italic, "<i>", "</i>"),
        ];
        looks.iter().filter(|(on, ..)| *on).for_each(|(_, start, _)| self.out.raw(start));
        self.out.text(text);
        looks.iter().rev().filter(|(on, ..)| *on).for_each(|(.., end)| self.out.raw(end));
    }
}

fn is_field(inline: &Inline) -> bool {
    matches!(inline, Inline::Check { .. } | Inline::Blank { .. })
}

/// Whether the anchor of a block stands inside its element.
fn is_wrapped(kind: &Kind) -> bool {
    matches!(
        kind,
        Kind::Heading(_)
            | Kind::Paragraph
            | Kind::Term
            | Kind::Detail
            | Kind::Caption
            | Kind::Marked { .. }
            | Kind::TitleBlock { .. }
            | Kind::Side
            | Kind::Part { .. }
            | Kind::Columns { .. }
            | Kind::Keep { .. }
            | Kind::Sign
            | Kind::Signature { .. }
    )
}
