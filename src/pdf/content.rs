//! Pages to content streams, with every item marked as content of its block or as an artifact.
//!
//! In: placed items of one page, runs written out. Out: a deflated content stream, the owner of each marked
//! content, and the places to fill in.
//! May not know: how the structure is written, other pages.
//!
//! Grounds, rules and frames are drawn first and together; then what stands on them, in reading order. One text object
//! (`BT … ET`) holds as much as it can, since every new one costs a position in full.

use std::sync::Arc;

use super::alphabet::{Alphabet, Piece, Words};
use super::deflate::{Level, deflate};
use super::enclosed::Sheets;
use super::fonts::resource_name;
use super::numbers::{Cp, decimal, hundredths, integer, row};
use super::roles::role_of;
use crate::fonts::{Run, Style};
use crate::markup::{BlockId, FieldId, Mp, Tree};
use crate::typeset::{Artifact, Form, Item, Owner, Page, Placed};

/// The content of one page.
pub(super) struct Content {
    /// The stream, deflated; empty once it is put into the file.
    pub(super) stream: Vec<u8>,
    /// What stands on the page with its owner, in reading order.
    pub(super) kids: Vec<(Owner, Kid)>,
    /// How many marked contents there are.
    pub(super) marks: u32,
    /// The places to fill in, in reading order.
    pub(super) widgets: Vec<Widget>,
    /// The words that lead somewhere, in reading order.
    pub(super) links: Vec<Link>,
}

/// What an element of the structure holds of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kid {
    /// A marked content, by its id; ids count from 0.
    Marked(u32),
    /// A place to fill in, by its position among those of the page.
    Field(u32),
    /// A link, by its position among those of the page.
    Link(u32),
}

/// Words that lead somewhere.
pub(super) struct Link {
    /// The block that they lead to.
    pub(super) to: BlockId,
    /// The ids of their marked contents.
    pub(super) marks: Vec<u32>,
    /// Left, bottom, right and top of each of their texts on the page.
    pub(super) frames: Vec<[Cp; 4]>,
}

/// A place to fill in.
pub(super) struct Widget {
    /// Which of the paper's fields it is.
    pub(super) field: FieldId,
    /// How it is filled in.
    pub(super) form: Form,
    /// Left, bottom, right and top on its page.
    pub(super) frame: [Cp; 4],
    /// Size of the type that is filled in.
    pub(super) size: Cp,
}

/// Writes the content of a page.
pub(super) fn content(page: &Page, tree: &Tree, (words, alphabet, sheets): (&Words, &Alphabet, &Sheets)) -> Content {
    let mut pen = Pen::new(page.height, tree, words, alphabet, sheets);
    let under = |item: &&Item| item.owner == Owner::Artifact(Artifact::Layout);
    page.items.iter().filter(under).for_each(|item| pen.item(item));
    page.items.iter().filter(|item| !under(item)).for_each(|item| pen.item(item));
    pen.close_mark();
    pen.leave_text();
    let stream = deflate(&pen.out, Level::Small);
    Content { stream, kids: pen.kids, marks: pen.marks, widgets: pen.widgets, links: pen.links }
}

/// What writes a content stream, and what it must know of the state that a reader is in.
pub(super) struct Pen<'p> {
    pub(super) out: Vec<u8>,
    height: Mp,
    tree: &'p Tree,
    pub(super) words: &'p Words,
    pub(super) alphabet: &'p Alphabet,
    pub(super) sheets: &'p Sheets,
    kids: Vec<(Owner, Kid)>,
    marks: u32,
    widgets: Vec<Widget>,
    links: Vec<Link>,
    /// The open mark: whose it is, where it leads, and whether it was opened inside a text object, where it must end as well.
    mark: Option<(Owner, Option<BlockId>, bool)>,
    in_text: bool,
    /// Where the last line of the text object began.
    origin: (Cp, Cp),
    font: Option<(Style, i32)>,
    fill: u16,
    stroke: u16,
    width: Cp,
}

impl<'p> Pen<'p> {
    fn new(height: Mp, tree: &'p Tree, words: &'p Words, alphabet: &'p Alphabet, sheets: &'p Sheets) -> Self {
        Pen {
            out: Vec::with_capacity(16 * 1024),
            height,
            tree,
            words,
            alphabet,
            sheets,
            kids: Vec::new(),
            marks: 0,
            widgets: Vec::new(),
            links: Vec::new(),
            mark: None,
            in_text: false,
            origin: Default::default(),
            font: None,
            fill: 0,
            stroke: 0,
            width: Cp(100), // a line is 1 pt wide until told otherwise: ISO 32000-1, table 52
        }
    }

    fn item(&mut self, item: &Item) {
        if matches!(item.placed, Placed::Field { .. }) {
            return self.field(item);
        }
        let is_text = matches!(item.placed, Placed::Text { .. });
        self.open_mark(item.owner, item.to, is_text);
        self.widen_link(item);
        match &item.placed {
            Placed::Text { x, y, size, gray, run } => {
                self.fill_gray(*gray);
                self.move_to(Cp::of(*x), self.upward(*y));
                self.show(run, size.0);
            }
            Placed::Rule { x1, y1, x2, y2, width, gray } => {
                self.stroke_gray(*gray);
                self.line_width(Cp::of(*width));
                self.line(&[(Cp::of(*x1), self.upward(*y1)), (Cp::of(*x2), self.upward(*y2))]);
                self.operator(b"S");
            }
            Placed::Fill { x, y, width, height, gray } => {
                self.fill_gray(*gray);
                self.rectangle(*x, *y, *width, *height);
                self.operator(b"f");
            }
            Placed::Drawing { x, y, width, drawing } => self.drawing(*x, *y, *width, drawing),
            Placed::Enclosed { x, y, width, sheet } => self.sheet((*x, *y), *width, sheet),
            Placed::Check { x, y, side, on } => self.check(item.owner, *x, *y, *side, *on),
            Placed::Field { .. } => {}
        }
    }

    /// The link that the last words belong to, if they are the same owner's and lead to the same block; else a new one.
    fn link(&mut self, owner: Owner, to: BlockId) -> &mut Link {
        let goes_on = match self.kids.last() {
            Some((last, Kid::Link(at))) => *last == owner && self.links[*at as usize].to == to,
            _ => false,
        };
        if !goes_on {
            self.kids.push((owner, Kid::Link(self.links.len() as u32)));
            self.links.push(Link { to, marks: Vec::new(), frames: Vec::new() });
        }
        let last = self.links.len() - 1; // one was pushed above if there was none
        &mut self.links[last]
    }

    /// Adds the place of a text to the link that it belongs to.
    fn widen_link(&mut self, item: &Item) {
        let (Some(to), Placed::Text { x, y, size, run, .. }) = (item.to, &item.placed) else { return };
        if matches!(item.owner, Owner::Artifact(_)) {
            return; // what is repeated leads nowhere: its first print does
        }
        let right = *x + size.scaled(i64::from(self.alphabet.length(run)), 1000);
        let frame = [Cp::of(*x), self.upward(*y + *size / 4), Cp::of(right), self.upward(*y - *size * 3 / 4)];
        let frames = &mut self.link(item.owner, to).frames;
        match frames.last_mut() {
            // Texts on one line, and what is between them, are pressed as one.
            Some(last) if (last[1], last[3]) == (frame[1], frame[3]) => last[2] = last[2].max(frame[2]),
            _ => frames.push(frame),
        }
    }

    /// Notes a place to fill in. The mark ends here, so that what comes behind the field is read behind it.
    fn field(&mut self, item: &Item) {
        let Placed::Field { x, y, width, height, size, form, field } = item.placed else { return };
        if matches!(item.owner, Owner::Artifact(_)) {
            return; // what stands on every page cannot be filled in
        }
        self.close_mark();
        let frame = [Cp::of(x), self.upward(y + height), Cp::of(x + width), self.upward(y)];
        self.kids.push((item.owner, Kid::Field(self.widgets.len() as u32)));
        self.widgets.push(Widget { field, form, frame, size: Cp::of(size) });
    }

    /// A distance from the upper edge as one from the lower.
    pub(super) fn upward(&self, y: Mp) -> Cp {
        Cp::of(self.height - y)
    }

    /// Sees to it that what follows is marked as the owner's.
    fn open_mark(&mut self, owner: Owner, to: Option<BlockId>, in_text: bool) {
        if self.mark == Some((owner, to, in_text)) {
            return;
        }
        self.close_mark();
        if in_text {
            self.enter_text()
        } else {
            self.leave_text()
        }
        self.mark = Some((owner, to, in_text));
        match owner {
            Owner::Artifact(artifact) => self.out.extend_from_slice(match artifact {
                Artifact::RunningHead => b"/Artifact<</Type/Pagination/Subtype/Header>>BDC\n".as_slice(),
                Artifact::RunningFoot => b"/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n",
                Artifact::Repeated => b"/Artifact<</Type/Pagination>>BDC\n",
                Artifact::Layout | Artifact::Revision => b"/Artifact<</Type/Layout>>BDC\n",
            }),
            Owner::Block(_) | Owner::Label(_) => {
                self.out.push(b'/');
                self.out.extend_from_slice(role_of(self.tree, owner).name().as_bytes());
                self.out.extend_from_slice(b"<</MCID ");
                integer(&mut self.out, i64::from(self.marks));
                self.out.extend_from_slice(b">>BDC\n");
                let id = self.marks;
                match to {
                    None => self.kids.push((owner, Kid::Marked(id))),
                    Some(to) => self.link(owner, to).marks.push(id),
                }
                self.marks += 1;
            }
        }
    }

    fn close_mark(&mut self) {
        if self.mark.take().is_some() {
            self.operator(b"EMC");
        }
    }

    pub(super) fn enter_text(&mut self) {
        if !self.in_text {
            self.operator(b"BT");
            self.in_text = true;
            self.origin = Default::default();
        }
    }

    pub(super) fn leave_text(&mut self) {
        if self.in_text {
            self.operator(b"ET");
            self.in_text = false;
        }
    }

    fn move_to(&mut self, x: Cp, y: Cp) {
        let (from_x, from_y) = std::mem::replace(&mut self.origin, (x, y));
        row(&mut self.out, &[Cp(x.0 - from_x.0), Cp(y.0 - from_y.0)]);
        self.operator(b"Td");
    }

    /// Shows a run at the place moved to, in a size of so many thousandths of a point.
    pub(super) fn show(&mut self, run: &Arc<Run>, size: i32) {
        if self.font != Some((run.style, size)) {
            self.font = Some((run.style, size));
            self.out.push(b'/');
            self.out.extend_from_slice(resource_name(run.style).as_bytes());
            self.out.push(b' ');
            decimal(&mut self.out, i64::from(size), 1000);
            self.operator(b" Tf");
        }
        let alphabet = self.alphabet;
        match alphabet.pieces(run) {
            [] => {}
            [Piece { rise: 0, shows }] => self.out.extend_from_slice(shows),
            pieces => {
                for piece in pieces {
                    self.rise(i64::from(piece.rise) * i64::from(size) / 1000);
                    self.out.extend_from_slice(&piece.shows);
                }
                self.rise(0);
            }
        }
    }

    fn rise(&mut self, thousandths: i64) {
        decimal(&mut self.out, thousandths, 1000);
        self.operator(b" Ts");
    }

    pub(super) fn fill_gray(&mut self, gray: u16) {
        if std::mem::replace(&mut self.fill, gray) != gray {
            decimal(&mut self.out, i64::from(gray), 1000);
            self.operator(b" g");
        }
    }

    pub(super) fn stroke_gray(&mut self, gray: u16) {
        if std::mem::replace(&mut self.stroke, gray) != gray {
            decimal(&mut self.out, i64::from(gray), 1000);
            self.operator(b" G");
        }
    }

    pub(super) fn line_width(&mut self, width: Cp) {
        if std::mem::replace(&mut self.width, width) != width {
            hundredths(&mut self.out, width);
            self.operator(b" w");
        }
    }

    /// A path through points, neither closed nor painted.
    pub(super) fn line(&mut self, points: &[(Cp, Cp)]) {
        for (at, (x, y)) in points.iter().enumerate() {
            row(&mut self.out, &[*x, *y]);
            self.operator(if at == 0 { b"m" } else { b"l" });
        }
    }

    /// A rectangle by its upper left corner; its edges are rounded, not its extent, so that neighbors meet.
    fn rectangle(&mut self, x: Mp, y: Mp, width: Mp, height: Mp) {
        let (left, right) = (Cp::of(x), Cp::of(x + width));
        let (top, bottom) = (self.upward(y), self.upward(y + height));
        row(&mut self.out, &[left, bottom, Cp(right.0 - left.0), Cp(top.0 - bottom.0)]);
        self.operator(b"re");
    }

    pub(super) fn operator(&mut self, name: &[u8]) {
        self.out.extend_from_slice(name);
        self.out.push(b'\n');
    }

    /// A box to check: a square, and a mark in it where it is checked. A reader hears the character.
    fn check(&mut self, owner: Owner, x: Mp, y: Mp, side: Mp, on: bool) {
        let speaks = !matches!(owner, Owner::Artifact(_));
        if speaks {
            let character = if on { b"2611" } else { b"2610" };
            self.out.extend_from_slice(b"/Span<</ActualText<FEFF");
            self.out.extend_from_slice(character);
            self.out.extend_from_slice(b">>>BDC\n");
        }
        let pen = Mp(side.0 / 14);
        let half = Mp(pen.0 / 2);
        self.stroke_gray(0);
        self.line_width(Cp::of(pen));
        self.rectangle(x + half, y + half, side - pen, side - pen);
        self.operator(b"S");
        if on {
            let at =
                |right: i64, down: i64| (Cp::of(x + side.scaled(right, 100)), self.upward(y + side.scaled(down, 100)));
            let tick = [at(22, 52), at(42, 74), at(80, 26)];
            self.line_width(Cp::of(Mp(pen.0 * 2)));
            self.line(&tick);
            self.operator(b"S");
        }
        if speaks {
            self.operator(b"EMC");
        }
    }
}
