//! Where the nodes of a riser stand.
//!
//! In: trees, a ruler. Out: widths of columns, boxes of nodes, rows. May not know: frames.
//!
//! y runs downward here, from the top of the sheet.

use super::super::ruler::Ruler;
use super::{CLASSES, RiserClass, RiserLine, RiserNode};

/// Around the words of a box, between rows, and how far a node below its feeder is set in; in points.
const PAD: f64 = 3.0;
const GAP: f64 = 8.0;
pub(super) const INSET: f64 = 14.0;
/// Between a column and the upright lines that leave it, and around words on a line.
pub(super) const AWAY: f64 = 6.0;
const AIR: f64 = 4.0;
/// Distance of lines of words, by their size.
pub(super) const LEADING: f64 = 1.2;

/// Left edges and widths of columns.
pub(super) struct Columns {
    left: [f64; CLASSES],
    width: [f64; CLASSES],
}

/// A node where it stands.
pub(super) struct Placed<'t> {
    pub node: &'t RiserNode,
    /// Left edge, top, width and height of its box.
    pub left: f64,
    pub top: f64,
    pub width: f64,
    pub height: f64,
    /// What feeds it: the line, and the position of the feeder among the placed nodes.
    pub fed: Option<(&'t RiserLine, usize)>,
}

impl Placed<'_> {
    /// How far below the top of a box its line comes in.
    pub fn port(&self, text: f64) -> f64 {
        self.top + port(text)
    }
}

fn port(text: f64) -> f64 {
    PAD + text * 0.55
}

impl Columns {
    pub fn of(trees: &[RiserNode], text: f64, ruler: &Ruler) -> Columns {
        let mut width = [0.0_f64; CLASSES];
        let mut lines = [0.0_f64; CLASSES];
        for tree in trees {
            measure(tree, 0.0, (text, ruler), &mut width, &mut lines);
        }
        let mut left = [0.0; CLASSES];
        let mut x = 0.0;
        for class in 0..CLASSES {
            if width[class] > 0.0 {
                let gap = if lines[class] > 0.0 { lines[class] + 2.0 * AIR + AWAY } else { 2.0 * AIR + AWAY };
                x += if x > 0.0 { gap } else { 0.0 };
                left[class] = x;
                x += width[class];
            } else {
                left[class] = x;
            }
        }
        Columns { left, width }
    }

    /// From the left edge of the first to the right edge of the last.
    pub fn total(&self) -> f64 {
        self.left.iter().zip(&self.width).map(|(left, width)| left + width).fold(0.0, f64::max)
    }

    /// The x of the upright line that leaves a column.
    pub fn bus(&self, class: RiserClass) -> f64 {
        self.left[class as usize] + self.width[class as usize] + AWAY
    }
}

/// The widest box of every column, insets included, and the longest words on a line into it from another column. A line from
/// a node of the same column has room over it, since it is set below.
fn measure(node: &RiserNode, inset: f64, with: (f64, &Ruler), width: &mut [f64; CLASSES], lines: &mut [f64; CLASSES]) {
    let (text, ruler) = with;
    let class = node.class as usize;
    width[class] = width[class].max(inset + box_width(node, text, ruler));
    for (line, fed) in &node.feeds {
        let words =
            [&line.over].into_iter().chain(&line.under).map(|it| ruler.width(it, text, false)).fold(0.0, f64::max);
        let same = fed.class <= node.class;
        let deeper = if same { inset + INSET } else { 0.0 };
        if same {
            width[class] = width[class].max(deeper + words + AIR);
        } else {
            lines[fed.class as usize] = lines[fed.class as usize].max(words);
        }
        measure(fed, deeper, with, width, lines);
    }
}

fn box_width(node: &RiserNode, text: f64, ruler: &Ruler) -> f64 {
    let each = node.words.iter().enumerate().map(|(at, words)| ruler.width(words, text, at == 0));
    each.fold(0.0, f64::max) + 2.0 * PAD
}

fn box_height(node: &RiserNode, text: f64) -> f64 {
    node.words.len().max(1) as f64 * text * LEADING + 2.0 * PAD
}

/// What a node takes downward: its box, or the words under its line where they reach lower.
fn row_height(node: &RiserNode, line: Option<&RiserLine>, text: f64) -> f64 {
    let under = line.map_or(0, |it| it.under.len());
    box_height(node, text).max(port(text) + under as f64 * text * LEADING + 2.5)
}

/// What stands over a node: the words over its line, and all words where it is fed from its own column.
fn over(line: &RiserLine, same: bool, text: f64) -> f64 {
    let lines = if same { 1 + line.under.len() } else { 1 };
    let above = lines as f64 * text * LEADING;
    if same { above + 2.0 } else { (above + 2.0 - port(text)).max(0.0) }
}

/// The height of a tree below the top of its own row.
pub(super) fn height(node: &RiserNode, line: Option<&RiserLine>, text: f64) -> f64 {
    let mut y = 0.0;
    let mut bottom = row_height(node, line, text);
    for (at, (line, fed)) in right(node).enumerate() {
        y += if at == 0 { 0.0 } else { GAP + over(line, false, text) };
        y += height(fed, Some(line), text);
        bottom = bottom.max(y);
    }
    for (line, fed) in below(node) {
        bottom += GAP + over(line, true, text) + height(fed, Some(line), text);
    }
    bottom
}

/// The height of trees one below the other, with what stands over the first.
pub(super) fn stacked(trees: &[RiserNode], text: f64) -> f64 {
    trees.iter().map(|tree| head(text) + height(tree, None, text)).sum()
}

/// Room over a tree: a gap, and words over the first line of its first row.
fn head(text: f64) -> f64 {
    GAP + text * LEADING
}

/// What a node feeds in columns farther right.
pub(super) fn right(node: &RiserNode) -> impl Iterator<Item = &(RiserLine, RiserNode)> {
    node.feeds.iter().filter(|(_, fed)| fed.class > node.class)
}

/// What it feeds in its own column.
pub(super) fn below(node: &RiserNode) -> impl Iterator<Item = &(RiserLine, RiserNode)> {
    node.feeds.iter().filter(|(_, fed)| fed.class <= node.class)
}

/// Places trees one below the other.
pub(super) fn place<'t>(trees: &'t [RiserNode], columns: &Columns, text: f64) -> Vec<Placed<'t>> {
    let mut placing = Placing { columns, text, all: Vec::new() };
    let mut top = 0.0;
    for tree in trees {
        top += head(text);
        placing.node(tree, None, (0.0, top));
        top += height(tree, None, text);
    }
    placing.all
}

struct Placing<'t, 'c> {
    columns: &'c Columns,
    text: f64,
    all: Vec<Placed<'t>>,
}

impl<'t> Placing<'t, '_> {
    fn node(&mut self, node: &'t RiserNode, fed: Option<(&'t RiserLine, usize)>, (inset, top): (f64, f64)) {
        let class = node.class as usize;
        let own = self.all.len();
        self.all.push(Placed {
            node,
            left: self.columns.left[class] + inset,
            top,
            width: self.columns.width[class] - inset,
            height: box_height(node, self.text),
            fed,
        });
        let mut y = 0.0;
        let mut bottom = row_height(node, fed.map(|it| it.0), self.text);
        for (at, (line, fed)) in right(node).enumerate() {
            y += if at == 0 { 0.0 } else { GAP + over(line, false, self.text) };
            self.node(fed, Some((line, own)), (0.0, top + y));
            y += height(fed, Some(line), self.text);
            bottom = bottom.max(y);
        }
        for (line, fed) in below(node) {
            bottom += GAP + over(line, true, self.text);
            self.node(fed, Some((line, own)), (inset + INSET, top + bottom));
            bottom += height(fed, Some(line), self.text);
        }
    }
}
