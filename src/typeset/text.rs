//! Text to lines: shaping, breaking by Unicode's rules, alignment.
//!
//! In: pieces of text, a width, sizes. Out: lines of placed things, from the left and the top of each. Nothing is ever lost: a
//! word wider than its column is broken between letters. May not know: blocks, or pages.

use unicode_linebreak::linebreaks;

use std::sync::Arc;

use super::frame::{artifact, check};
use super::pages::{Form, Item, Owner, Placed};
use super::prepared_text::{LineContent, Part, PreparedText, stops};
use super::setting::Setting;
use super::theme::Theme;
use crate::fonts::{Run, Setter, Style};
use crate::markup::{Align, BlockId, Inline, Mp, Tree, Weight};

/// A line.
#[derive(Clone, Debug)]
pub struct SetLine {
    /// Its height.
    pub height: Mp,
    /// Its baseline, from its top.
    pub baseline: Mp,
    /// Its width, without white space at its end.
    pub width: Mp,
    /// What stands on it.
    pub items: Vec<Item>,
}

/// What ends a text without line ends inside.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    /// The block.
    Last,
    /// A line end that was written. A space stands before it, so that words do not run together in the file's text.
    Written,
}

/// Sets texts.
pub struct TextSetter<'a, 'f> {
    /// Shapes.
    pub setter: &'a mut Setter<'f>,
    /// The look.
    pub theme: &'a Theme,
    /// The paper, for where a text leads.
    pub tree: &'a Tree,
}

/// The letter that stands for a box or a blank where breaks are sought: breaks at it as at a word.
const OBJECT: char = 'X';

/// The side of a box to check in percent of the height of capitals.
const CHECK_SHARE: i64 = 150;

/// Where a word may be broken, by the one who wrote it.
const SOFT_HYPHEN: char = '\u{AD}';

/// The width of a run at a size.
pub fn width_of(run: &Run, size: Mp, units_per_em: i32) -> Mp {
    size.scaled(i64::from(run.advance), i64::from(units_per_em))
}

impl TextSetter<'_, '_> {
    /// Sets a text in a column of a width.
    pub fn lines(&mut self, inlines: &[Inline], width: Mp, setting: Setting) -> Vec<SetLine> {
        let mut lines = Vec::with_capacity(1);
        let mut segments = inlines.split(|inline| *inline == Inline::Break).peekable();
        while let Some(segment) = segments.next() {
            if segment.is_empty() {
                lines.push(self.empty_line(setting));
                continue;
            }
            let end = if segments.peek().is_some() { End::Written } else { End::Last };
            if end == End::Last
                && let Some(line) = self.whole(segment, width, setting)
            {
                lines.push(self.aligned(line, width, setting));
                continue;
            }
            let ready = self.ready(segment, end, setting);
            self.break_lines(&ready, width, setting, &mut lines);
        }
        lines
    }

    /// The short way, for most cells: letters of one look that fit on one line.
    fn whole(&mut self, segment: &[Inline], width: Mp, setting: Setting) -> Option<SetLine> {
        let [Inline::Text { text, weight, to }] = segment else { return None };
        let (style, size) = look(*weight, setting);
        let run = self.setter.shape(style, text);
        let wide = width_of(&run, size, self.setter.faces().units_per_em(style));
        if wide > width {
            return None;
        }
        let height = self.theme.line(size);
        let baseline = self.baseline(Style::Regular, size, height);
        let placed = Placed::Text { x: Mp::ZERO, y: baseline, size, gray: setting.gray, run };
        Some(SetLine {
            height,
            baseline,
            width: wide,
            items: vec![Item { owner: setting.owner, placed, to: self.target(to) }],
        })
    }

    /// The width of the longest line of a text, and that of its longest word.
    pub fn natural(&mut self, inlines: &[Inline], setting: Setting) -> (Mp, Mp) {
        let (mut longest, mut word) = (Mp::ZERO, Mp::ZERO);
        for segment in inlines.split(|inline| *inline == Inline::Break).filter(|segment| !segment.is_empty()) {
            let ready = self.ready(segment, End::Last, setting);
            let whole = ready.stops.last().map_or(Mp::ZERO, |(_, x)| *x);
            longest = longest.max(whole);
            let mut start = 0;
            let between_words = |at: &usize| !ready.is_hyphen(*at);
            for end in ready.breaks.iter().copied().filter(between_words) {
                word = word.max(ready.x(ready.trimmed(start, end)) - ready.x(start));
                start = end;
            }
        }
        (longest, word)
    }

    fn empty_line(&self, setting: Setting) -> SetLine {
        let height = self.theme.line(setting.size);
        let baseline = self.baseline(Style::Regular, setting.size, height);
        SetLine { height, baseline, width: Mp::ZERO, items: Vec::new() }
    }

    /// The baseline of a line: its letters stand in the middle of its height.
    pub fn baseline(&self, style: Style, size: Mp, height: Mp) -> Mp {
        let faces = self.setter.faces();
        let units = i64::from(faces.units_per_em(style));
        let ascent = size.scaled(i64::from(faces.ascent(style)), units);
        let descent = size.scaled(i64::from(faces.descent(style).abs()), units);
        (height - ascent - descent) / 2 + ascent
    }

    /// The side of a box to check beside text of a size: as large as its line allows, since boxes are checked with gloves on.
    pub fn check_side(&self, size: Mp) -> Mp {
        let faces = self.setter.faces();
        let capitals = i64::from(faces.cap_height(Style::Regular));
        size.scaled(capitals * CHECK_SHARE, i64::from(faces.units_per_em(Style::Regular)) * 100)
    }

    /// How far above the baseline the top of a box to check lies: its middle is that of the capitals.
    pub fn check_rise(side: Mp) -> Mp {
        side.scaled(CHECK_SHARE + 100, 2 * CHECK_SHARE)
    }

    fn ready<'t>(&mut self, segment: &'t [Inline], end: End, setting: Setting) -> PreparedText<'t> {
        let mut flat = String::new();
        let mut parts = Vec::with_capacity(segment.len());
        for (at, inline) in segment.iter().enumerate() {
            let start = flat.len();
            let thing = match inline {
                Inline::Text { text, weight, to } => {
                    flat.push_str(text);
                    if end == End::Written && at + 1 == segment.len() {
                        flat.push(' ');
                    }
                    let (style, size) = look(*weight, setting);
                    LineContent::Letters { run: self.setter.shape(style, &flat[start..]), size, to: self.target(to) }
                }
                object => {
                    flat.push(OBJECT);
                    LineContent::Object { inline: object, width: self.object_width(object, setting) }
                }
            };
            parts.push(Part { start, end: flat.len(), thing });
        }
        let stops = stops(&flat, &parts, self.setter.faces());
        let is_check = |at: usize| {
            parts.iter().any(|part| {
                part.end == at && matches!(part.thing, LineContent::Object { inline: Inline::Check { .. }, .. })
            })
        };
        // A box to check stays with the word that follows it.
        let mut breaks: Vec<usize> = linebreaks(&flat)
            .map(|(at, _)| at)
            .filter(|at| *at == flat.len() || !(flat[..*at].ends_with(' ') && is_check(at - 1)))
            .collect();
        let mut hyphens: Vec<usize> = breaks.iter().copied().filter(|at| flat[..*at].ends_with(SOFT_HYPHEN)).collect();
        // What is bold is short, and is looked for: headings, heads, sums.
        if self.theme.hyphenation && !setting.bold {
            hyphens.extend(super::hyphens::hyphens(&flat, &self.tree.lang));
            hyphens.sort_unstable();
            breaks.extend_from_slice(&hyphens);
            breaks.sort_unstable();
            breaks.dedup();
        }
        let hyphen = if hyphens.is_empty() { Mp::ZERO } else { self.hyphen(Style::Regular, setting.size).1 };
        PreparedText { flat, parts, stops, breaks, hyphens, hyphen }
    }

    /// A hyphen and its width.
    fn hyphen(&mut self, style: Style, size: Mp) -> (Arc<Run>, Mp) {
        let run = self.setter.shape(style, "-");
        let width = width_of(&run, size, self.setter.faces().units_per_em(style));
        (run, width)
    }

    fn object_width(&self, inline: &Inline, setting: Setting) -> Mp {
        match inline {
            Inline::Check { .. } => self.check_side(setting.size) + setting.size / 4,
            Inline::Blank { width, .. } => *width,
            Inline::Text { .. }
            | Inline::Break
            | Inline::PageOf { .. }
            | Inline::PageNumber
            | Inline::PageCount
            | Inline::SheetPageNumber
            | Inline::SheetPageCount => Mp::ZERO,
        }
    }

    fn break_lines(&mut self, ready: &PreparedText<'_>, width: Mp, setting: Setting, lines: &mut Vec<SetLine>) {
        let mut start = 0;
        while start < ready.flat.len() {
            let mut room = width;
            loop {
                let end = ready.line_end(start, room);
                let line = self.line(ready, start, end, setting);
                // Letters shaped anew for a line may be a hair wider than as part of the whole text.
                let over = line.width - width;
                if over <= Mp::ZERO || ready.is_last_resort(start, end) {
                    lines.push(self.aligned(line, width, setting));
                    start = end;
                    break;
                }
                room = room.min(ready.x(ready.trimmed(start, end)) - ready.x(start)) - Mp(1);
            }
        }
    }

    /// Sets the bytes of one line; white space at its end is kept, so that words do not run together in the file's text.
    fn line(&mut self, ready: &PreparedText<'_>, start: usize, end: usize, setting: Setting) -> SetLine {
        let (mut x, mut trailing, mut items) = (Mp::ZERO, Mp::ZERO, Vec::new());
        let parts = ready.parts.iter().filter(|part| part.end > start && part.start < end);
        let largest = parts.clone().map(|part| part.size(setting)).max().unwrap_or(setting.size);
        let height = self.theme.line(largest);
        let baseline = self.baseline(Style::Regular, largest, height);
        for part in parts {
            match &part.thing {
                LineContent::Object { inline, width } => {
                    trailing = Mp::ZERO;
                    items.extend(self.object(inline, x, baseline, *width, setting));
                    x += *width;
                }
                LineContent::Letters { run: whole, size, to } => {
                    let (from, until) = (part.start.max(start) - part.start, part.end.min(end) - part.start);
                    let run = self.setter.shape_part(whole, from..until);
                    let units = self.setter.faces().units_per_em(run.style);
                    let wide = width_of(&run, *size, units);
                    let shown = run.text.trim_end_matches(' ').len();
                    trailing = if shown < run.text.len() {
                        let advance = self.setter.advance_of(&run, 0..shown);
                        wide - size.scaled(i64::from(advance), i64::from(units))
                    } else {
                        Mp::ZERO
                    };
                    let placed = Placed::Text { x, y: baseline, size: *size, gray: setting.gray, run };
                    items.push(Item { owner: setting.owner, placed, to: *to });
                    x += wide;
                }
            }
        }
        let mut width = x - trailing;
        if let (true, Some((style, size))) = (ready.is_hyphen(end), ready.look_before(end)) {
            let (run, wide) = self.hyphen(style, size);
            items.push(artifact(Placed::Text { x, y: baseline, size, gray: setting.gray, run }));
            width = x + wide;
        }
        SetLine { height, baseline, width, items }
    }

    fn object(&self, inline: &Inline, x: Mp, baseline: Mp, width: Mp, setting: Setting) -> Vec<Item> {
        if let Inline::Check { on, field } = inline {
            // Its place is wider than the box, so that box and word do not touch.
            let side = self.check_side(setting.size);
            let (x, y) = (x + (width - side) / 2, baseline - Self::check_rise(side));
            return check(setting.owner, (x, y, side), *on, *field);
        }
        let y = baseline + setting.size / 8;
        let rule = Placed::Rule { x1: x, y1: y, x2: x + width, y2: y, width: self.theme.rule_strong, gray: 0 };
        let field = match (inline, setting.owner) {
            (Inline::Blank { field: Some(field), .. }, Owner::Block(_) | Owner::Label(_)) => *field,
            _ => return vec![Item::new(setting.owner, rule)],
        };
        let (size, height) = (setting.size, self.theme.line(setting.size));
        let placed = Placed::Field { x, y: y - height, width, height, size, form: Form::Line, field };
        vec![artifact(rule), Item::new(setting.owner, placed)]
    }

    fn target(&self, to: &Option<Arc<str>>) -> Option<BlockId> {
        to.as_deref().and_then(|to| self.tree.target(to))
    }

    fn aligned(&mut self, mut line: SetLine, width: Mp, setting: Setting) -> SetLine {
        let by = match setting.align {
            Align::Left => Mp::ZERO,
            Align::Center => (width - line.width) / 2,
            Align::Right => width - line.width,
            Align::Decimal => width - line.width - (setting.decimals - self.decimals_of(&line)).max(Mp::ZERO),
        };
        let by = by.max(Mp::ZERO);
        line.items.iter_mut().for_each(|item| item.placed.shift(by, Mp::ZERO));
        line
    }

    /// The width of what stands from the last decimal point on.
    pub fn decimals_of(&mut self, line: &SetLine) -> Mp {
        let Some(Item { placed: Placed::Text { run, size, .. }, .. }) = line.items.last() else { return Mp::ZERO };
        let Some(point) = run.text.rfind('.') else { return Mp::ZERO };
        let tail = self.setter.shape(run.style, &run.text[point..]);
        width_of(&tail, *size, self.setter.faces().units_per_em(run.style))
    }
}

fn look(weight: Weight, setting: Setting) -> (Style, Mp) {
    let style = Style::new(weight.bold || setting.bold, weight.italic);
    (style, if weight.large { setting.large } else { setting.size })
}
