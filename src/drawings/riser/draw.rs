//! Boxes, lines and words of a riser.
//!
//! In: placed nodes. Out: parts on a board. May not know: how they were placed.

use super::layout::{AWAY, Columns, INSET, LEADING, Placed};
use crate::drawings::board::Board;
use crate::drawings::pen::*;
use crate::shapes::{Anchor, Point, Stroke, at};

/// Draws placed nodes: lines first, words last.
pub(super) fn draw(board: &mut Board, placed: &[Placed], columns: &Columns) {
    for node in placed {
        if let Some((line, feeder)) = node.fed {
            let stroke = if line.dashed { DASHED } else { OUTLINE };
            lead(board, node, &placed[feeder], columns, stroke);
        }
    }
    for node in placed {
        own_box(board, node);
    }
}

fn lead(board: &mut Board, node: &Placed, feeder: &Placed, columns: &Columns, stroke: Stroke) {
    let text = board.text;
    let (line_of, _) = match node.fed {
        Some(fed) => fed,
        None => return,
    };
    let port = at(node.left, -node.port(text));
    let same = node.node.class <= feeder.node.class;
    let points: Vec<Point> = if same {
        // Down from the feeder's box, left of everything that it feeds in its own column.
        let x = feeder.left + INSET / 2.0;
        vec![at(x, -(feeder.top + feeder.height)), at(x, port.y), port]
    } else {
        let bus = columns.bus(feeder.node.class);
        let start = at(feeder.left + feeder.width, -feeder.port(text));
        vec![start, at(bus, start.y), at(bus, port.y), port]
    };
    board.draw(format!("line {}", node.node.name), vec![line(&points, stroke)]);
    let lines: Vec<&String> = [&line_of.over].into_iter().chain(&line_of.under).collect();
    for (row, words) in lines.into_iter().enumerate().filter(|(_, words)| !words.is_empty()) {
        let step = text * LEADING;
        let shape = if same {
            // Over its box, since the line itself is short.
            let lowest = -node.top + 2.0 + text * 0.22;
            let y = lowest + step * (line_of.under.len() - row) as f64;
            crate::drawings::pen::text(at(node.left, y), words, text, Anchor::Start)
        } else {
            let y = if row == 0 { port.y + text * 0.4 } else { port.y - text * 0.98 - step * (row - 1) as f64 };
            crate::drawings::pen::text(at(port.x - AWAY / 2.0, y), words, text, Anchor::End)
        };
        board.write(format!("words {} {row}", node.node.name), shape);
    }
}

fn own_box(board: &mut Board, node: &Placed) {
    let text = board.text;
    let (left, top) = (node.left, -node.top);
    let outline = rectangle(left, top - node.height, left + node.width, top, OUTLINE);
    board.draw(format!("node {}", node.node.name), vec![outline]);
    for (row, words) in node.node.words.iter().enumerate() {
        let y = top - 3.0 - text * 0.8 - row as f64 * text * LEADING;
        let place = at(left + 3.0, y);
        let shape = if row == 0 {
            bold(place, words, text, Anchor::Start)
        } else {
            crate::drawings::pen::text(place, words, text, Anchor::Start)
        };
        board.write(format!("node words {} {row}", node.node.name), shape);
    }
}
