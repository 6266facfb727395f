//! A riser over several sheets: each holds whole branches, with the way to them repeated.
//!
//! In: trees, the height of a sheet. Out: trees for every sheet. May not know: columns.

use super::RiserNode;
use super::layout::{height, stacked};

/// The trees of every sheet, in order; nothing where a single node is higher than a sheet.
pub(super) fn sheets(trees: &[RiserNode], most: f64, text: f64) -> Option<Vec<Vec<RiserNode>>> {
    let mut pieces = Vec::new();
    for tree in trees {
        pieces.extend(pieces_of(tree, most - lead(text), text)?);
    }
    let mut out: Vec<Vec<RiserNode>> = Vec::new();
    for piece in pieces {
        match out.last_mut() {
            Some(sheet) if fits(sheet, &piece, most, text) => sheet.push(piece),
            _ => out.push(vec![piece]),
        }
    }
    Some(out)
}

/// What stands over the first tree of a sheet.
fn lead(text: f64) -> f64 {
    let empty =
        RiserNode { name: String::new(), class: super::RiserClass::Panel, words: Vec::new(), feeds: Vec::new() };
    stacked(std::slice::from_ref(&empty), text) - height(&empty, None, text)
}

fn fits(sheet: &[RiserNode], piece: &RiserNode, most: f64, text: f64) -> bool {
    let more: Vec<RiserNode> = sheet.iter().cloned().chain([piece.clone()]).collect();
    stacked(&more, text) <= most
}

/// A tree in pieces no higher than `most`, each with the root repeated; nothing where the root alone is higher.
fn pieces_of(node: &RiserNode, most: f64, text: f64) -> Option<Vec<RiserNode>> {
    if height(node, None, text) <= most {
        return Some(vec![node.clone()]);
    }
    let bare = RiserNode { feeds: Vec::new(), ..node.clone() };
    let mut out: Vec<RiserNode> = Vec::new();
    let mut now = bare.clone();
    for (line, fed) in &node.feeds {
        // What a branch may take so that it fits below the root alone.
        let room = branch_room(&bare, line, fed, most, text);
        for piece in pieces_of(fed, room, text)? {
            let mut longer = now.clone();
            longer.feeds.push((line.clone(), piece.clone()));
            if height(&longer, None, text) > most && !now.feeds.is_empty() {
                out.push(now);
                longer = bare.clone();
                longer.feeds.push((line.clone(), piece));
            }
            if height(&longer, None, text) > most {
                return None;
            }
            now = longer;
        }
    }
    out.push(now);
    Some(out)
}

fn branch_room(bare: &RiserNode, line: &super::RiserLine, fed: &RiserNode, most: f64, text: f64) -> f64 {
    let leaf = RiserNode { feeds: Vec::new(), ..fed.clone() };
    let own = height(&leaf, None, text);
    let with = RiserNode { feeds: vec![(line.clone(), leaf)], ..bare.clone() };
    let around = height(&with, None, text) - own;
    most - around.max(0.0)
}
