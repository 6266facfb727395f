//! A whole paper: sheets to pages, with running heads and feet.
//!
//! In: a block tree, faces, a theme, drawings. Out: pages, or findings. May not know: how a page is written to a file.

use std::collections::{BTreeMap, VecDeque};

use super::cut::cut;
use super::flow::{Flow, Shown};
use super::frame::artifact;
use super::margin_marks::carriers;
use super::numbers::{Numbers, PASSES, targets};
use super::pages::{Artifact, Item, Owner, Page, Pages, Placed};
use super::piece::{Piece, Placing, Repetition, height, stack};
use super::setting::Setting;
use super::supply::Supply;
use super::text::SetLine;
use super::theme::Theme;
use crate::findings::{Finding, Findings, Subject};
use crate::fonts::{Faces, Setter, missing_character};
use crate::markup::{Align, BlockId, Body, Inline, Kind, Mp, Orientation, SheetSize, Slot, Tree, Weight};

/// Sets a paper. None where anything is wrong; what it is, is pushed.
pub fn typeset<'s>(
    tree: &Tree,
    faces: &Faces,
    theme: &Theme,
    shown: impl Into<Shown<'s>>,
    findings: &mut Findings,
) -> Option<Pages> {
    set_in(tree, faces, theme, shown.into(), PASSES, findings)
}

/// Sets a paper in the look that ships with the tool, in so many passes at most.
#[cfg(test)]
pub(super) fn set(tree: &Tree, passes: usize, findings: &mut Findings) -> Option<Pages> {
    set_in(tree, &Faces::built_in(), &Theme::default(), (&BTreeMap::new()).into(), passes, findings)
}

fn set_in(
    tree: &Tree,
    faces: &Faces,
    theme: &Theme,
    shown: Shown,
    passes: usize,
    findings: &mut Findings,
) -> Option<Pages> {
    let mut flow = flow(tree, faces, theme, shown);
    let pages = flow.paper(passes);
    let mut found = std::mem::take(&mut flow.findings);
    for finding in flow.missing_findings() {
        found.push(finding);
    }
    let whole = found.is_empty();
    findings.extend(found.sorted());
    whole.then_some(pages)
}

/// What sets a paper, before anything is set.
pub(super) fn flow<'a, 'f>(tree: &'a Tree, faces: &'f Faces, theme: &'a Theme, shown: Shown<'a>) -> Flow<'a, 'f> {
    Flow {
        tree,
        theme,
        sizes: theme.sizes(tree.scale),
        setter: Setter::new(faces, theme.features),
        shown,
        page: Mp::ZERO,
        numbers: Numbers::default(),
        findings: Findings::default(),
        missing: BTreeMap::new(),
    }
}

/// The running head and foot of a sheet: its own, or those of the document.
#[derive(Clone, Copy)]
struct Running {
    head: Option<BlockId>,
    foot: Option<BlockId>,
}

/// What running heads and feet may tell of a page: its number among those of the paper and of its sheet, from 1.
#[derive(Clone, Copy)]
struct PageCount {
    page: usize,
    pages: usize,
    sheet_page: usize,
    sheet_pages: usize,
}

impl PageCount {
    /// Wide figures, for which room is kept before any page is counted.
    const WIDE: PageCount = PageCount { page: 888, pages: 888, sheet_page: 88, sheet_pages: 88 };
}

/// The counts of pages that belong to these sheets, in order; the pages of a sheet follow one another.
fn page_counts(sheets: &[usize]) -> Vec<PageCount> {
    let of_sheet = |pages: &[usize]| (1..=pages.len()).map(|at| (at, pages.len())).collect::<Vec<_>>();
    let reported = sheets.chunk_by(|one, next| one == next).flat_map(of_sheet).enumerate();
    let count =
        |(at, (sheet_page, sheet_pages))| PageCount { page: at + 1, pages: sheets.len(), sheet_page, sheet_pages };
    reported.map(count).collect()
}

/// The page of a sheet, before anything stands on it.
struct Geometry {
    width: Mp,
    height: Mp,
    left: Mp,
    measure: Mp,
    top: Mp,
    bottom: Mp,
    running: Running,
    /// Whether it begins on the front of a leaf.
    on_front: bool,
}

impl Geometry {
    /// A page on which nothing stands yet.
    fn empty_page(&self) -> Page {
        Page { width: self.width, height: self.height, items: Vec::new(), headings: Vec::new() }
    }
}

impl Flow<'_, '_> {
    /// Sets the paper, again where it tells pages and what it told was not true.
    fn paper(&mut self, passes: usize) -> Pages {
        let children = self.tree.children(self.tree.root());
        let common = self.running(children, Running { head: None, foot: None });
        let mut sheets = Vec::new();
        for sheet in children.iter().copied() {
            let Kind::Sheet { size, orientation, on_front } = self.block(sheet).kind else { continue };
            let running = self.running(self.tree.children(sheet), common);
            sheets.push((sheet, Geometry { on_front, ..self.geometry(size, orientation, running) }));
        }
        let (mut pages, mut of) = self.pages(&sheets);
        let mut pass = 1;
        while self.tree.tells_pages() && !self.numbers.settle(&pages, self.tree) {
            if pass == passes {
                let place = self.block(self.tree.root()).place.clone();
                self.findings.push(super::do_not_settle(&self.tree.template, passes, place));
                break;
            }
            pass += 1;
            self.findings = Findings::default();
            (pages, of) = self.pages(&sheets);
        }
        let targets = targets(&pages, self.tree);
        let counts = page_counts(&of);
        let carriers = carriers(self.tree);
        let stamped = pages.into_iter().zip(of).zip(counts);
        let finished = stamped.map(|((mut page, sheet), count)| {
            let geometry = &sheets[sheet].1;
            if let Some(carriers) = &carriers {
                self.put_marks(&mut page, carriers, (geometry.left, geometry.measure));
            }
            self.stamp(page, geometry, count)
        });
        let pages = finished.collect();
        Pages { pages, features: self.theme.features, targets }
    }

    /// The pages of all sheets, and the sheet of each.
    fn pages(&mut self, sheets: &[(BlockId, Geometry)]) -> (Vec<Page>, Vec<usize>) {
        let (mut pages, mut of) = (Vec::new(), Vec::new());
        for (at, (sheet, geometry)) in sheets.iter().enumerate() {
            if let Some((before, (_, of_before))) = at.checked_sub(1).and_then(|it| Some((it, sheets.get(it)?)))
                && geometry.on_front
                && pages.len() % 2 == 1
            {
                // The back of the leaf before stays empty.
                pages.push(of_before.empty_page());
                of.push(before);
            }
            pages.append(&mut self.sheet(*sheet, geometry));
            of.resize(pages.len(), at);
        }
        (pages, of)
    }

    fn running(&self, children: &[BlockId], outer: Running) -> Running {
        let find = |kind: Kind| children.iter().copied().find(|child| self.block(*child).kind == kind);
        Running { head: find(Kind::Head).or(outer.head), foot: find(Kind::Foot).or(outer.foot) }
    }

    fn geometry(&mut self, size: SheetSize, orientation: Orientation, running: Running) -> Geometry {
        let (short, long) = match size {
            SheetSize::Letter => (Mp::mils(8_500), Mp::mils(11_000)),
            SheetSize::Tabloid => (Mp::mils(11_000), Mp::mils(17_000)),
            // 210 mm by 297 mm.
            SheetSize::A4 => (Mp(595_276), Mp(841_890)),
        };
        let (width, height) = match orientation {
            Orientation::Portrait => (short, long),
            Orientation::Landscape => (long, short),
        };
        let left = self.theme.margin_side;
        let measure = width - left * 2;
        let room = |height: Mp, gap: Mp| if height > Mp::ZERO { height + gap } else { Mp::ZERO };
        let gap = self.theme.running_gap;
        let head = running.head.map_or(Mp::ZERO, |head| self.running_lines(head, measure, PageCount::WIDE).1);
        let foot = running.foot.map_or(Mp::ZERO, |foot| self.running_lines(foot, measure, PageCount::WIDE).1);
        let top = self.theme.margin_top + room(head, gap);
        let bottom = height - self.theme.margin_bottom - room(foot, gap);
        Geometry { width, height, left, measure, top, bottom, running, on_front: false }
    }

    fn sheet(&mut self, sheet: BlockId, geometry: &Geometry) -> Vec<Page> {
        self.page = geometry.bottom - geometry.top;
        let corner = self.corner(sheet, geometry.measure);
        let taken = corner.as_ref().map_or(Mp::ZERO, |corner| corner.takes(self.theme.running_gap));
        let room = self.page - taken;
        self.page = room;
        let mut supply = Supply::new(self.tree.children(sheet), geometry.measure);
        let mut queue = VecDeque::new();
        let mut pages = Vec::new();
        loop {
            self.refill(&mut supply, &mut queue);
            let taken = cut(&mut queue, room, room, true);
            if taken.is_empty() && !pages.is_empty() {
                return pages;
            }
            self.check_height(sheet, &taken, geometry.measure);
            let mut placing = Placing::default();
            stack(taken, geometry.left, geometry.top, &mut placing);
            if let Some(corner) = &corner {
                corner.place(geometry.left + geometry.measure, geometry.bottom, pages.is_empty(), &mut placing);
            }
            let Placing { mut items, headings } = placing;
            // Grounds first, so that none covers half of a rule.
            items.sort_by_key(|item| !is_ground(item));
            pages.push(Page { items, headings, ..geometry.empty_page() });
        }
    }

    /// A finding where something is taller than a page and cannot be cut.
    fn check_height(&mut self, sheet: BlockId, taken: &[Piece], width: Mp) {
        let (tall, room) = (height(taken), self.page);
        if tall > room {
            let block = taken.iter().filter(|piece| piece.said == Repetition::Once).find_map(Piece::block);
            let place = self.block(block.unwrap_or(sheet)).place.clone();
            self.findings.push(super::no_room(&self.tree.template, (width, tall), (width, room), place));
        }
    }

    /// Puts the running head and foot on a page.
    fn stamp(&mut self, mut page: Page, geometry: &Geometry, count: PageCount) -> Page {
        let (left, measure) = (geometry.left, geometry.measure);
        let half_gap = self.theme.running_gap / 3;
        if let Some(head) = geometry.running.head {
            let (mut items, height) = self.running_lines(head, measure, count);
            items.iter_mut().for_each(|item| item.placed.shift(left, self.theme.margin_top));
            items.push(self.running_rule(
                left,
                measure,
                self.theme.margin_top + height + half_gap,
                Artifact::RunningHead,
            ));
            page.items.splice(0..0, items);
        }
        if let Some(foot) = geometry.running.foot {
            let (mut items, height) = self.running_lines(foot, measure, count);
            let top = geometry.height - self.theme.margin_bottom - height;
            items.iter_mut().for_each(|item| item.placed.shift(left, top));
            page.items.push(self.running_rule(left, measure, top - half_gap, Artifact::RunningFoot));
            page.items.append(&mut items);
        }
        page
    }

    fn running_rule(&self, left: Mp, measure: Mp, y: Mp, of: Artifact) -> Item {
        let (width, gray) = (self.theme.rule_thin, self.theme.gray_rule);
        let rule = artifact(Placed::Rule { x1: left, y1: y, x2: left + measure, y2: y, width, gray });
        Item { owner: Owner::Artifact(of), ..rule }
    }

    /// The items of a running head or foot from the upper left of its place, and its height.
    fn running_lines(&mut self, id: BlockId, measure: Mp, count: PageCount) -> (Vec<Item>, Mp) {
        let of = if self.block(id).kind == Kind::Head { Artifact::RunningHead } else { Artifact::RunningFoot };
        let slots = self.tree.children(id);
        let plain = Setting::plain(self.sizes, Owner::Artifact(of));
        let plain = Setting { gray: self.theme.gray_quiet, ..plain };
        let mut texts: Vec<(BlockId, Slot, Vec<Inline>)> = slots
            .iter()
            .filter_map(|slot| match (&self.block(*slot).kind, &self.block(*slot).body) {
                (Kind::Slot(side), Body::Text(inlines)) => Some((*slot, *side, numbered(inlines, count))),
                _ => None,
            })
            .collect();
        if self.block(id).kind == Kind::Head && !self.theme.mark.is_empty() {
            self.put_mark(id, &mut texts);
        }
        // Where they do not fit beside each other, each gets its part.
        let gutter = self.theme.gutter;
        let wanted: Vec<Mp> = texts.iter().map(|(_, _, inlines)| self.texts().natural(inlines, plain).0).collect();
        let middle = texts.iter().any(|(_, slot, _)| *slot == Slot::Middle);
        let parts = if middle { 3 } else { texts.len().max(1) as i32 };
        let part = (measure - gutter * (parts - 1)) / parts;
        let fits = if middle {
            wanted.iter().all(|width| *width <= part)
        } else {
            wanted.iter().copied().sum::<Mp>() + gutter * (parts - 1) <= measure
        };
        let mut beside = Vec::new();
        for (block, slot, inlines) in texts {
            let (width, x, align) = match slot {
                Slot::Left => (if fits { measure } else { part }, Mp::ZERO, Align::Left),
                Slot::Middle => (part, part + gutter, Align::Center),
                Slot::Right if fits => (measure, Mp::ZERO, Align::Right),
                Slot::Right => (part, measure - part, Align::Right),
            };
            let lines = self.texts().lines(&inlines, width, Setting { align, ..plain });
            self.check_letters(block, &lines);
            beside.push((x, lines));
        }
        on_one_baseline(beside)
    }

    /// Sets the mark of the company at the left of a running head.
    fn put_mark(&self, head: BlockId, texts: &mut Vec<(BlockId, Slot, Vec<Inline>)>) {
        let weight = Weight { bold: true, ..Weight::default() };
        let mark = Inline::Text { text: self.theme.mark.clone(), weight, to: None };
        match texts.iter_mut().find(|(_, slot, _)| *slot == Slot::Left) {
            Some((_, _, inlines)) => {
                let between = Inline::Text { text: " · ".to_string(), weight: Weight::default(), to: None };
                inlines.splice(0..0, [mark, between]);
            }
            None => texts.insert(0, (head, Slot::Left, vec![mark])),
        }
    }

    /// One finding for each place that holds characters that no face has.
    fn missing_findings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (place, characters) in &self.missing {
            let subject = Subject::Template(self.tree.template.clone());
            let one = |character: &char| missing_character(subject.clone(), *character);
            let found: Vec<String> = characters.iter().map(|character| one(character).found).collect();
            findings.extend(characters.first().map(|first| one(first).found(found.join(", ")).at(place.clone())));
        }
        findings
    }
}

/// Texts beside each other, first lines on one baseline whatever the size of their letters; and the height of all.
fn on_one_baseline(texts: Vec<(Mp, Vec<SetLine>)>) -> (Vec<Item>, Mp) {
    let first = |lines: &[SetLine]| lines.first().map(|line| line.baseline);
    let baseline = texts.iter().filter_map(|(_, lines)| first(lines)).max().unwrap_or_default();
    let (mut items, mut height) = (Vec::new(), Mp::ZERO);
    for (x, lines) in texts {
        let mut y = first(&lines).map_or(Mp::ZERO, |own| baseline - own);
        for mut line in lines {
            line.items.iter_mut().for_each(|item| item.placed.shift(x, y));
            items.append(&mut line.items);
            y += line.height;
        }
        height = height.max(y);
    }
    (items, height)
}

/// Whether an item is a ground, on which others stand.
fn is_ground(item: &Item) -> bool {
    matches!(item, Item { owner: Owner::Artifact(Artifact::Layout), placed: Placed::Fill { .. }, .. })
}

/// A text with its page numbers filled in.
fn numbered(inlines: &[Inline], count: PageCount) -> Vec<Inline> {
    let mut out: Vec<Inline> = Vec::with_capacity(inlines.len());
    let mut weight = Weight::default();
    for inline in inlines {
        let reported = match inline {
            Inline::PageNumber => Some(count.page),
            Inline::PageCount => Some(count.pages),
            Inline::SheetPageNumber => Some(count.sheet_page),
            Inline::SheetPageCount => Some(count.sheet_pages),
            _ => None,
        };
        let piece = match reported {
            Some(number) => Inline::Text { text: number.to_string(), weight, to: None },
            None => inline.clone(),
        };
        match (out.last_mut(), piece) {
            (Some(Inline::Text { text, weight: last, .. }), Inline::Text { text: more, weight: own, .. })
                if *last == own =>
            {
                text.push_str(&more);
            }
            (_, piece) => {
                if let Inline::Text { weight: own, .. } = &piece {
                    weight = *own;
                }
                out.push(piece);
            }
        }
    }
    out
}
