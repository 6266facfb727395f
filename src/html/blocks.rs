//! Blocks and the text inside them.
//!
//! In: blocks of the tree in reading order. Out: their markup. May not know: how the file begins and ends.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::fields::{Fields, Label};
use super::written::Written;
use super::{picture, tables};
use crate::markup::{BlockId, Body, BoxKind, Inline, Kind, ListKind, Mp, Tree, Weight, Width};
use crate::shapes::Drawing;

/// A paper on its way into a browser.
pub struct Browser<'t> {
    tree: &'t Tree,
    drawings: &'t BTreeMap<String, Arc<Drawing>>,
    /// What was written.
    pub out: Written,
    /// Fields, numbered.
    pub fields: Fields,
    /// What a field answers that has no words of its own: the row and column it stands in, or the heading above.
    asks: String,
}

impl<'t> Browser<'t> {
    /// Nothing written yet.
    pub fn new(tree: &'t Tree, drawings: &'t BTreeMap<String, Arc<Drawing>>) -> Self {
        let (out, fields) = (Written::default(), Fields::default());
        Browser { tree, drawings, out, fields, asks: tree.title.clone() }
    }

    /// The tree.
    pub fn tree(&self) -> &'t Tree {
        self.tree
    }

    /// Cells of a row, each with its column and how many columns it covers.
    pub fn cells(&self, row: BlockId) -> Vec<(usize, BlockId, usize)> {
        let mut at = 0;
        let cells = self.tree.children(row).iter().map(|id| {
            let covers = match self.tree.block(*id).kind {
                Kind::Cell { colspan, .. } => usize::from(colspan),
                _ => 1,
            };
            let from = at;
            at += covers;
            (from, *id, covers)
        });
        cells.collect()
    }

    /// Does something while fields without words of their own answer `asks`.
    pub fn within(&mut self, asks: &str, then: impl FnOnce(&mut Self)) {
        let outer = std::mem::replace(&mut self.asks, asks.to_owned());
        then(self);
        self.asks = outer;
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

    fn wrapped(&mut self, start: &str, id: BlockId, end: &str) {
        self.out.raw(start);
        self.body(id);
        self.out.raw(end);
    }

    fn block(&mut self, id: BlockId) {
        let tree = self.tree;
        match &tree.block(id).kind {
            Kind::Heading(level) => self.heading(id, *level),
            Kind::Paragraph => self.wrapped("<p>", id, "</p>\n"),
            Kind::List(kind) => self.list(id, *kind),
            Kind::Definitions { .. } => self.wrapped("<dl>", id, "</dl>\n"),
            Kind::Term => self.wrapped("<dt>", id, "</dt>"),
            Kind::Detail => self.wrapped("<dd>", id, "</dd>\n"),
            Kind::Table { columns, look } => tables::write(self, id, columns, *look),
            Kind::Box { kind, title } => self.framed(id, *kind, title.as_deref()),
            Kind::Figure { drawing, alt, .. } => self.figure(id, drawing, alt.as_deref()),
            Kind::Caption => self.wrapped("<figcaption>", id, "</figcaption>"),
            Kind::Side => self.wrapped("<div class=\"side\">", id, "</div>\n"),
            Kind::Part { width } => self.part(id, *width),
            Kind::Columns { .. } => self.wrapped("<div class=\"columns\">", id, "</div>\n"),
            Kind::Keep => self.wrapped("<div class=\"keep\">", id, "</div>\n"),
            Kind::PageBreak => self.out.raw("<div class=\"break\"></div>\n"),
            Kind::Rule => self.out.raw("<hr/>\n"),
            Kind::Answer { height, label } => self.answer(*height, label.as_deref()),
            Kind::Sign => self.wrapped("<div class=\"sign\">", id, "</div>\n"),
            Kind::Signature { .. } => self.signature(id),
            // Empty height is the page's affair; what is left belongs to lists and tables, which write it themselves.
            Kind::Space(_) | Kind::Head | Kind::Foot | Kind::Slot(_) => {}
            _ => self.body(id),
        }
    }

    fn heading(&mut self, id: BlockId, level: u8) {
        self.asks = self.tree.text(id);
        self.wrapped(&format!("<h{level}>"), id, &format!("</h{level}>\n"));
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

    /// An item to check: its words are the label, unless blocks stand in it.
    fn check_item(&mut self, item: BlockId, on: bool) {
        let whole = match &self.tree.block(item).body {
            Body::Text(inlines) => !inlines.iter().any(is_field),
            _ => false,
        };
        if whole {
            self.out.raw("<li><label>");
            self.fields.check(&mut self.out, on, Label::Beside);
            self.out.raw(" <span>");
            self.body(item);
            self.out.raw("</span></label></li>\n");
        } else {
            self.out.raw("<li>");
            let words = self.tree.text(item);
            self.fields.check(&mut self.out, on, Label::Said(&words));
            self.out.raw(" ");
            self.within(&words, |browser| browser.body(item));
            self.out.raw("</li>\n");
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

    fn figure(&mut self, id: BlockId, key: &str, alt: Option<&str>) {
        self.out.raw("<figure>");
        if let Some(drawing) = self.drawings.get(key) {
            picture::write(&mut self.out, drawing, alt);
        }
        self.children(id);
        self.out.raw("</figure>\n");
    }

    fn part(&mut self, id: BlockId, width: Width) {
        let share = match width {
            Width::Fixed(extent) => format!("flex:0 1 {}pt", picture::number(extent.0 as f64 / 1000.0)),
            Width::Share(share) => format!("flex:{share} 1 0"),
            Width::Fit => "flex:0 1 auto".to_owned(),
        };
        self.out.raw("<div class=\"part\"");
        self.out.attribute("style", &share);
        self.wrapped(">", id, "</div>\n");
    }

    fn answer(&mut self, height: Mp, label: Option<&str>) {
        let rows = u32::try_from(height.0 / 16_000).unwrap_or(2);
        match label {
            Some(label) => {
                self.out.raw("<p class=\"answer\"><label>");
                self.out.text(label);
                self.fields.area(&mut self.out, rows, Label::Beside);
                self.out.raw("</label></p>\n");
            }
            None => {
                self.out.raw("<p class=\"answer\">");
                self.fields.area(&mut self.out, rows, Label::Said(&self.asks));
                self.out.raw("</p>\n");
            }
        }
    }

    fn signature(&mut self, id: BlockId) {
        self.out.raw("<p><label>");
        self.fields.line(&mut self.out, None, Label::Beside);
        self.wrapped("<span>", id, "</span></label></p>");
    }

    /// The text of a block, with its fields. A box to check takes the words up to the next field as its label.
    pub fn text_of(&mut self, id: BlockId) {
        let Body::Text(inlines) = &self.tree.block(id).body else { return };
        let mut at = 0;
        while at < inlines.len() {
            let inline = &inlines[at];
            at += 1;
            match inline {
                Inline::Check { on, .. } => {
                    let words = inlines[at..].iter().position(|next| is_field(next) || *next == Inline::Break);
                    let label = &inlines[at..words.map_or(inlines.len(), |words| at + words)];
                    self.check(*on, label);
                    at += label.len();
                }
                Inline::Blank { width, .. } => {
                    let label = said_before(&inlines[..at - 1]).unwrap_or_else(|| self.asks.clone());
                    let letters = u32::try_from(width.0 / 6_000).unwrap_or(8);
                    self.fields.line(&mut self.out, Some(letters), Label::Said(&label));
                }
                other => self.inline(other),
            }
        }
    }

    fn check(&mut self, on: bool, label: &[Inline]) {
        let spoken = label.iter().any(|it| matches!(it, Inline::Text { text, .. } if !text.trim().is_empty()));
        if spoken {
            self.out.raw("<label>");
            self.fields.check(&mut self.out, on, Label::Beside);
            label.iter().for_each(|it| self.inline(it));
            self.out.raw("</label>");
        } else {
            self.fields.check(&mut self.out, on, Label::Said(&self.asks));
            self.out.raw(" ");
        }
    }

    fn inline(&mut self, inline: &Inline) {
        match inline {
            Inline::Text { text, weight } => self.letters(text, *weight),
            Inline::Break => self.out.raw("<br/>"),
            // Fields are written where their words are known; pages have no number here.
            Inline::Check { .. } | Inline::Blank { .. } | Inline::PageNumber | Inline::PageCount => {}
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

/// The words right before a blank, back to the field or the line end before it.
fn said_before(before: &[Inline]) -> Option<String> {
    let from = before.iter().rposition(|it| is_field(it) || *it == Inline::Break).map_or(0, |at| at + 1);
    let words = before[from..].iter().filter_map(|it| match it {
        Inline::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    let words: String = words.collect();
    let words = words.trim().trim_end_matches(':');
    (!words.is_empty()).then(|| words.to_owned())
}
