//! Blocks to pieces: what each kind of block looks like in a column of a given width.
//!
//! In: a block and a width. Out: its pieces, from the left of the column. May not know: where a page ends.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::columns::Columns;
use super::frame::{artifact, rectangle};
use super::numbers::Numbers;
use super::pages::{Form, Heading, Item, Owner, Placed};
use super::piece::{Content, KeepWith, Piece, set_gaps, tie_inside};
use super::setting::Setting;
use super::text::{SetLine, TextSetter};
use super::theme::{Sizes, Theme};
use crate::findings::{Findings, Place};
use crate::fonts::{Faces, Setter, Shaped, Style};
use crate::markup::{Block, BlockId, Body, Inline, Kind, Mp, Tree};
use crate::pdf_import::Enclosure;
use crate::shapes::Drawing;

/// What a paper shows besides its words.
#[derive(Clone, Copy)]
pub struct Shown<'a> {
    /// Drawings by their keys.
    pub drawings: &'a BTreeMap<String, Arc<Drawing>>,
    /// Files of others by their keys.
    pub enclosures: &'a BTreeMap<String, Arc<Enclosure>>,
}

impl<'a> From<&'a BTreeMap<String, Arc<Drawing>>> for Shown<'a> {
    fn from(drawings: &'a BTreeMap<String, Arc<Drawing>>) -> Self {
        static NONE: BTreeMap<String, Arc<Enclosure>> = BTreeMap::new();
        Shown { drawings, enclosures: &NONE }
    }
}

/// What is needed to set the blocks of one paper.
pub struct Flow<'a, 'f> {
    /// The paper.
    pub tree: &'a Tree,
    /// The look.
    pub theme: &'a Theme,
    /// The sizes of this paper.
    pub sizes: Sizes,
    /// Shapes and remembers.
    pub setter: Setter<'f>,
    /// Drawings and files of others.
    pub shown: Shown<'a>,
    /// The height of a page's text on the sheet that is being set.
    pub page: Mp,
    /// What is wrong.
    pub findings: Findings,
    /// The pages of blocks, as far as they are known.
    pub numbers: Numbers,
    /// Characters that no face has, by the place of their block.
    pub missing: BTreeMap<Place, BTreeSet<char>>,
}

/// What a flow begins with that sets a part of a paper on another thread. What it learns is brought back with [`Flow::learn`].
pub struct FlowStart<'a, 'f> {
    tree: &'a Tree,
    theme: &'a Theme,
    sizes: Sizes,
    faces: &'f Faces,
    shown: Shown<'a>,
    page: Mp,
    numbers: Numbers,
}

impl<'a, 'f> FlowStart<'a, 'f> {
    /// Such a flow, which remembers what was shaped before.
    pub fn flow(&self, shaped: Shaped) -> Flow<'a, 'f> {
        let FlowStart { tree, theme, sizes, faces, shown, page, .. } = *self;
        let (setter, numbers) = (Setter::remembering(faces, theme.features, shaped), self.numbers.clone());
        let (findings, missing) = (Findings::default(), BTreeMap::new());
        Flow { tree, theme, sizes, setter, shown, page, findings, numbers, missing }
    }
}

/// What a flow learned on the way.
#[derive(Default)]
pub struct FlowResults {
    findings: Findings,
    numbers: Numbers,
    missing: BTreeMap<Place, BTreeSet<char>>,
}

impl<'a, 'f> Flow<'a, 'f> {
    /// What a flow beside this one begins with.
    pub fn start(&self) -> FlowStart<'a, 'f> {
        let Flow { tree, theme, sizes, shown, page, .. } = *self;
        FlowStart { tree, theme, sizes, faces: self.setter.faces(), shown, page, numbers: self.numbers.clone() }
    }

    /// What it learned, and what it shaped.
    pub fn learned(self) -> (FlowResults, Shaped) {
        (
            FlowResults { findings: self.findings, numbers: self.numbers, missing: self.missing },
            self.setter.into_shaped(),
        )
    }

    /// Takes over what a flow beside this one learned.
    pub fn learn(&mut self, learned: FlowResults) {
        self.findings.extend(learned.findings);
        self.numbers.join(learned.numbers);
        for (place, characters) in learned.missing {
            self.missing.entry(place).or_default().extend(characters);
        }
    }

    /// A block of the paper.
    pub fn block(&self, id: BlockId) -> &'a Block {
        self.tree.block(id)
    }

    /// Sets texts in the look of the paper.
    pub fn texts(&mut self) -> TextSetter<'_, 'f> {
        TextSetter { setter: &mut self.setter, theme: self.theme, tree: self.tree }
    }

    /// Plain text of a block.
    pub fn plain(&self, id: BlockId) -> Setting {
        Setting::plain(self.sizes, Owner::Block(id))
    }

    /// The pieces of a block.
    pub fn pieces(&mut self, id: BlockId, width: Mp) -> Vec<Piece> {
        match &self.block(id).kind {
            Kind::Heading(level) => self.heading(id, *level, width),
            Kind::Paragraph => self.paragraph(id, width),
            Kind::List(kind) => self.list(id, *kind, width),
            Kind::Definitions { columns } => self.definitions(id, *columns, width),
            Kind::Table { columns, look } => self.table(id, columns, *look, width),
            Kind::Box { kind, title } => self.framed(id, *kind, title.as_deref(), width),
            Kind::Figure { drawing, alt: _, width: wanted } => self.figure(id, drawing, *wanted, width),
            Kind::Side => self.side(id, width),
            Kind::Columns { count } => self.columns(id, *count, width),
            Kind::Keep { with_next } => self.keep(id, *with_next, width),
            Kind::PageBreak => vec![Piece::new(Mp::ZERO, Content::PageBreak)],
            Kind::Rule => self.rule(width),
            Kind::Space(height) => vec![Piece::space(*height)],
            Kind::Answer { height, label } => self.answer(id, *height, label.as_deref(), width),
            Kind::Sign => self.sign(id, width),
            Kind::Contents { depth } => self.contents(id, *depth, width),
            Kind::Stamp { width: own, height, label } => self.stamp_area(id, (*own, *height), label.as_deref(), width),
            Kind::Enclosed { key, page, width: most, height, .. } => {
                self.enclosed(id, (key, *page), (*most, *height), width)
            }
            // Parts of others: the blocks that hold them set them.
            Kind::Document
            | Kind::Head
            | Kind::Foot
            | Kind::Slot(_)
            | Kind::Sheet { .. }
            | Kind::Item { .. }
            | Kind::Term
            | Kind::Detail
            | Kind::TableHead
            | Kind::TableBody
            | Kind::TableFoot
            | Kind::Row { .. }
            | Kind::Cell { .. }
            | Kind::Caption
            | Kind::Marked { .. }
            | Kind::Part { .. }
            | Kind::TitleBlock { .. }
            | Kind::Signature { .. } => Vec::new(),
        }
    }

    /// The pieces of the blocks that a block holds, or of its own text.
    pub fn inside(&mut self, id: BlockId, width: Mp, setting: Setting) -> Vec<Piece> {
        match &self.block(id).body {
            Body::Blocks(children) => self.blocks(children, width),
            Body::Text(_) => {
                let inlines = self.inlines(id);
                self.text(id, &inlines, width, setting)
            }
            Body::Empty => Vec::new(),
        }
    }

    /// The pieces of blocks one below the other. Lines to sign on stay with what they sign.
    pub fn blocks(&mut self, children: &[BlockId], width: Mp) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        for child in children {
            if let (Kind::Sign, Some(last)) = (&self.block(*child).kind, pieces.last_mut()) {
                last.tie = KeepWith::Bound;
            }
            pieces.append(&mut self.pieces(*child, width));
        }
        pieces
    }

    /// The lines of a text, the first two and the last two bound together.
    pub fn text(&mut self, id: BlockId, inlines: &[Inline], width: Mp, setting: Setting) -> Vec<Piece> {
        let lines = self.texts().lines(inlines, width, setting);
        self.check_letters(id, &lines);
        let widest = lines.iter().map(|line| line.width).max().unwrap_or_default();
        if widest > width {
            let place = self.block(id).place.clone();
            self.findings.push(super::too_narrow(&self.tree.template, width, widest, place));
        }
        let mut pieces: Vec<Piece> = lines.into_iter().map(line_piece).collect();
        let count = pieces.len();
        if count > 1 {
            pieces[0].tie = KeepWith::Bound;
            pieces[count - 2].tie = KeepWith::Bound;
        }
        pieces
    }

    /// Notes the characters that no face has.
    pub fn check_letters(&mut self, id: BlockId, lines: &[SetLine]) {
        for item in lines.iter().flat_map(|line| &line.items) {
            let Placed::Text { run, .. } = &item.placed else { continue };
            if run.glyphs.iter().any(|glyph| glyph.id == 0) {
                self.note_missing(id, run.style, &run.text);
            }
        }
    }

    pub(super) fn note_missing(&mut self, id: BlockId, style: Style, text: &str) {
        let missing = self.setter.faces().missing(style, text);
        if !missing.is_empty() {
            let place = self.block(id).place.clone();
            self.missing.entry(place).or_default().extend(missing.into_iter().map(|(_, character)| character));
        }
    }

    fn heading(&mut self, id: BlockId, level: u8, width: Mp) -> Vec<Piece> {
        let size = match level {
            1 => self.sizes.title,
            2 => self.sizes.large,
            _ => self.sizes.text,
        };
        let setting = Setting { size, bold: true, ..self.plain(id) };
        let mut pieces = self.inside(id, width, setting);
        pieces.iter_mut().for_each(|piece| piece.tie = KeepWith::Bound);
        let at = usize::from(level.clamp(1, 3)) - 1;
        set_gaps(&mut pieces, self.theme.heading_above[at], self.theme.heading_below[at]);
        if let Some(first) = pieces.first_mut() {
            let text = crate::fonts::plain(&self.tree.text(id)).into_owned();
            first.headings.push(Heading { block: id, level, text, y: Mp::ZERO });
        }
        pieces
    }

    fn paragraph(&mut self, id: BlockId, width: Mp) -> Vec<Piece> {
        let mut pieces = self.inside(id, width, self.plain(id));
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    /// What is kept together. A keep around others gives way before they do.
    fn keep(&mut self, id: BlockId, with_next: bool, width: Mp) -> Vec<Piece> {
        let mut pieces = self.inside(id, width, self.plain(id));
        let tie = if self.holds_keep(id) { KeepWith::Around } else { KeepWith::Kept };
        tie_inside(&mut pieces, tie);
        if let Some(last) = pieces.last_mut().filter(|_| with_next) {
            last.tie = last.tie.max(tie);
        }
        pieces
    }

    fn holds_keep(&self, id: BlockId) -> bool {
        self.tree
            .children(id)
            .iter()
            .any(|child| matches!(self.block(*child).kind, Kind::Keep { .. }) || self.holds_keep(*child))
    }

    fn columns(&mut self, id: BlockId, count: u8, width: Mp) -> Vec<Piece> {
        let (count, gutter) = (i32::from(count), self.theme.gutter);
        let one = (width - gutter * (count - 1)) / count;
        let inside = self.inside(id, one, self.plain(id));
        let (columns, height) = Columns::balanced(inside, Mp::ZERO, one + gutter, count as usize);
        let mut pieces = vec![Piece::new(height, Content::Columns(columns))];
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    fn rule(&self, width: Mp) -> Vec<Piece> {
        let thick = self.theme.rule_strong;
        let y = thick / 2;
        let rule = Placed::Rule { x1: Mp::ZERO, y1: y, x2: width, y2: y, width: thick, gray: self.theme.gray_rule };
        let mut pieces = vec![Piece::items(thick, vec![artifact(rule)])];
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    fn answer(&mut self, id: BlockId, height: Mp, label: Option<&str>, width: Mp) -> Vec<Piece> {
        let height = height.min(self.page.scaled(4, 5));
        let half = self.theme.rule_strong / 2;
        let mut items = rectangle(half, half, width - half, height - half, self.theme.rule_strong, 0);
        let mut top = self.theme.cell_above;
        if let Some(label) = label {
            let inset = self.theme.cell_side;
            let setting = Setting { gray: self.theme.gray_quiet, ..Setting::plain(self.sizes, Owner::Label(id)) };
            let lines = self.label_lines(id, label, width - inset * 2, setting);
            for mut line in lines {
                line.items.iter_mut().for_each(|item| item.placed.shift(inset, top));
                items.append(&mut line.items);
                top += line.height;
            }
        }
        if let Some(field) = self.block(id).field {
            let (x, width) = (self.theme.cell_side, width - self.theme.cell_side * 2);
            let (size, form) =
                (self.sizes.text, if height - top > self.sizes.text * 3 { Form::Area } else { Form::Line });
            let placed = Placed::Field { x, y: top, width, height: height - top - half * 2, size, form, field };
            items.push(Item::new(Owner::Block(id), placed));
        }
        let mut pieces = vec![Piece::items(height, items)];
        set_gaps(&mut pieces, self.theme.paragraph_gap, self.theme.paragraph_gap);
        pieces
    }

    /// The lines of a text that is an attribute.
    pub fn label_lines(&mut self, id: BlockId, text: &str, width: Mp, setting: Setting) -> Vec<SetLine> {
        let inlines = [Inline::Text { text: text.trim().to_string(), weight: Default::default(), to: None }];
        let lines = self.texts().lines(&inlines, width, setting);
        self.check_letters(id, &lines);
        lines
    }
}

fn line_piece(line: SetLine) -> Piece {
    Piece { baseline: Some(line.baseline), ..Piece::items(line.height, line.items) }
}
