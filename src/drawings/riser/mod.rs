//! The wiring riser of a site: a tree of panels, boxes, disconnects, operators and devices, without crossings.
//!
//! In: trees of nodes with finished words. Out: drawings, as many as the frame asks for. May not know: jobs, circuits.
//!
//! A node stands in the column of its class. What is fed in a column farther right stands at its right from its own row down;
//! what is fed in the same column stands below all that, set in. Rows go through the tree in one order, so no two lines cross.

mod draw;
mod layout;
mod split;
mod wrap;

use super::board::{Board, Titled};
use super::{Frame, Ruler};
use crate::shapes::{Drawing, NOT_TO_SCALE};

/// What a node is: its column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RiserClass {
    /// A panel with its breakers.
    Panel,
    /// A box that runs share.
    Box,
    /// The box and the disconnecting means at an opening.
    Disconnect,
    /// A header with its drives.
    Operator,
    /// A device.
    Device,
}

/// How many classes there are.
const CLASSES: usize = 5;

/// What joins a node to the one that feeds it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RiserLine {
    /// Words over the line.
    pub over: String,
    /// Words under it, a line each.
    pub under: Vec<String>,
    /// Whether it is no raceway or cable of ours: radio, harness, or a way that nobody has laid out yet.
    pub dashed: bool,
}

/// A node and all that it feeds.
#[derive(Clone, Debug, PartialEq)]
pub struct RiserNode {
    /// Its name, by which its part of the drawing is found.
    pub name: String,
    /// Its class.
    pub class: RiserClass,
    /// Words in its box, a line each; the first is bold.
    pub words: Vec<String>,
    /// What it feeds.
    pub feeds: Vec<(RiserLine, RiserNode)>,
}

/// The riser of trees: as many drawings as it takes, in order; the way to what stands on a later one is repeated there. Nothing
/// where the frame is too narrow, or too low for a single node.
pub fn riser(title: &str, trees: &[RiserNode], frame: Frame, ruler: &Ruler) -> Option<Vec<Drawing>> {
    let narrowed = wrap::TRIED.into_iter().find_map(|most| {
        let trees: Vec<RiserNode> = trees.iter().map(|it| wrap::wrapped(it, most, frame.text, ruler)).collect();
        let widths = layout::Columns::of(&trees, frame.text, ruler);
        (widths.total() <= frame.width - 2.0).then_some((trees, widths))
    });
    let (trees, widths) = narrowed?;
    let sheets = split::sheets(&trees, frame.height - 2.0, frame.text)?;
    let count = sheets.len();
    let each = sheets.into_iter().enumerate().map(|(at, trees)| {
        let mut board = Board::new(ruler, frame.text);
        let placed = layout::place(&trees, &widths, frame.text);
        draw::draw(&mut board, &placed, &widths);
        let of = if count > 1 { format!(" ({} of {count})", at + 1) } else { String::new() };
        let alt = in_words(title, &trees);
        // As high as it is: it hangs from the top of its place.
        let own = board.extent().map_or(frame.height, |it| it.height() + 2.0);
        let frame = Frame { height: own.min(frame.height), ..frame };
        board.finish(frame, Titled { title: format!("{title}{of}"), alt, scale: NOT_TO_SCALE })
    });
    each.collect()
}

/// A riser in words: every node with what feeds it.
fn in_words(title: &str, trees: &[RiserNode]) -> String {
    fn tell(node: &RiserNode, words: &mut Vec<String>) {
        for (line, fed) in &node.feeds {
            let by =
                [&line.over].into_iter().chain(&line.under).filter(|it| !it.is_empty()).cloned().collect::<Vec<_>>();
            let by = if by.is_empty() { String::new() } else { format!(" by {}", by.join(", ")) };
            words.push(format!("{} feeds {}{by}.", node.name, fed.name));
            tell(fed, words);
        }
    }
    let mut words = vec![format!("{title}.")];
    trees.iter().for_each(|tree| tell(tree, &mut words));
    words.join(" ")
}

#[cfg(test)]
mod tests;
