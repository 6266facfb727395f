//! Marks in the margin beside what a revision changed: a triangle that holds its letter, and a bar beside longer passages.
//!
//! In: pages that are set, and the blocks that carry a mark. Out: the same pages with marks; nothing else on them moves.
//! May not know: what changed, or why.
//!
//! A passage is marked in the nearer of the two margins. What stands close together has one bar and one triangle, so that marks
//! never run into each other. Marks are black and told apart by their form, and no part of the text: a reader of the file may
//! pass over them.

use super::flow::Flow;
use super::pages::{Artifact, Item, Owner, Page, Placed};
use super::text::width_of;
use crate::fonts::Style;
use crate::markup::{BlockId, Mp, Tree};
use crate::shapes::Drawing;

/// From the text to the bar.
const TO_BAR: Mp = Mp(4_000);
/// Width of the bar.
const BAR: Mp = Mp(1_500);
/// From the bar to the triangle.
const TO_TRIANGLE: Mp = Mp(1_500);
/// Paper that many printers leave white at the edge (common practice, no source).
const EDGE: Mp = Mp(14_000);
/// The smallest triangle.
const LEAST: Mp = Mp(6_000);
/// White between letters and the sides of their triangle.
const CLEAR: Mp = Mp(1_000);

/// The block that carries the mark of each block: itself or the nearest around it.
pub(super) fn carriers(tree: &Tree) -> Option<Vec<Option<BlockId>>> {
    tree.ids().find(|id| tree.block(*id).revised.is_some())?;
    let mut carriers = vec![None; tree.len()];
    for id in tree.ids() {
        if tree.block(id).revised.is_some() {
            carriers[id.0 as usize] = Some(id);
        }
        for child in tree.children(id) {
            carriers[child.0 as usize] = carriers[id.0 as usize];
        }
    }
    Some(carriers)
}

/// Where something stands on a page.
#[derive(Clone, Copy, Debug)]
struct Extent {
    left: Mp,
    right: Mp,
    top: Mp,
    bottom: Mp,
}

impl Extent {
    fn with(self, other: Extent) -> Extent {
        Extent {
            left: self.left.min(other.left),
            right: self.right.max(other.right),
            top: self.top.min(other.top),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

/// A margin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Margin {
    Left,
    Right,
}

/// What stands together beside one bar.
struct Passage {
    top: Mp,
    bottom: Mp,
    carrier: BlockId,
}

impl Flow<'_, '_> {
    /// Puts the marks of a page into its margins, beside text from `left` on and so wide.
    pub(super) fn put_marks(&mut self, page: &mut Page, carriers: &[Option<BlockId>], (left, measure): (Mp, Mp)) {
        let units = self.marked_units(page, carriers);
        let middle = left + measure / 2;
        for margin in [Margin::Left, Margin::Right] {
            let nearer = |it: &Extent| if it.left < middle { Margin::Left } else { Margin::Right };
            let of_margin = units.iter().filter(|(_, extent)| nearer(extent) == margin);
            let text_end = if margin == Margin::Left { left } else { left + measure };
            for passage in passages(of_margin, self.sizes.text) {
                page.items.extend(self.mark_of(&passage, margin, text_end, page.width));
            }
        }
    }

    /// The extent of every block with a mark that has something on the page.
    fn marked_units(&self, page: &Page, carriers: &[Option<BlockId>]) -> Vec<(BlockId, Extent)> {
        let mut units: Vec<(BlockId, Extent)> = Vec::new();
        for item in &page.items {
            let (Owner::Block(block) | Owner::Label(block)) = item.owner else { continue };
            let Some(carrier) = carriers[block.0 as usize] else { continue };
            let Some(extent) = self.extent(&item.placed) else { continue };
            match units.iter_mut().find(|(known, _)| *known == carrier) {
                Some((_, known)) => *known = known.with(extent),
                None => units.push((carrier, extent)),
            }
        }
        units
    }

    fn extent(&self, placed: &Placed) -> Option<Extent> {
        let faces = self.setter.faces();
        let extent =
            |left: Mp, top: Mp, width: Mp, height: Mp| Extent { left, right: left + width, top, bottom: top + height };
        Some(match placed {
            Placed::Text { x, y, size, run, .. } => {
                let per_em = i64::from(faces.units_per_em(run.style));
                let of_size = |units: i32| size.scaled(i64::from(units), per_em);
                let (above, below) = (of_size(faces.cap_height(run.style)), of_size(faces.descent(run.style).abs()));
                extent(*x, *y - above, width_of(run, *size, faces.units_per_em(run.style)), above + below)
            }
            Placed::Drawing { x, y, width, drawing } => extent(*x, *y, *width, drawn_height(drawing, *width)),
            Placed::Enclosed { x, y, width, sheet } => extent(*x, *y, *width, sheet.height(*width)),
            Placed::Check { x, y, side, .. } => extent(*x, *y, *side, *side),
            Placed::Field { x, y, width, height, .. } | Placed::Fill { x, y, width, height, .. } => {
                extent(*x, *y, *width, *height)
            }
            Placed::Rule { .. } => return None,
        })
    }

    /// The bar and the triangle of a passage.
    fn mark_of(&mut self, passage: &Passage, margin: Margin, text_end: Mp, page: Mp) -> Vec<Item> {
        let outward = |from: Mp, width: Mp| match margin {
            Margin::Left => (text_end - from - width, text_end - from),
            Margin::Right => (text_end + from, text_end + from + width),
        };
        let room = if margin == Margin::Left { text_end } else { page - text_end };
        // In a narrow margin all comes closer to the edge.
        let most = (room - TO_BAR - BAR - TO_TRIANGLE - EDGE).max(LEAST);
        let mut items = Vec::new();
        let height = passage.bottom - passage.top;
        if height > self.sizes.text * 2 {
            let (x, _) = outward(TO_BAR, BAR);
            items.push(mark_item(Placed::Fill { x, y: passage.top, width: BAR, height, gray: 0 }));
        }
        items.extend(self.triangle(passage, most, |wide| outward(TO_BAR + BAR + TO_TRIANGLE, wide)));
        items
    }

    /// The triangle of a passage with its letters, or without them where it would be wider than it may be.
    fn triangle(&mut self, passage: &Passage, most: Mp, outward: impl Fn(Mp) -> (Mp, Mp)) -> Vec<Item> {
        let (size, style) = (self.sizes.text, Style::new(true, false));
        let revision = self.block(passage.carrier).revised.clone().unwrap_or_default();
        let run = self.setter.shape(style, &revision);
        let faces = self.setter.faces();
        let per_em = faces.units_per_em(style);
        let cap = size.scaled(i64::from(faces.cap_height(style)), i64::from(per_em));
        let letters = width_of(&run, size, per_em);
        // The letters stand on the base; at the height of their heads the triangle is still as wide as they are.
        let tall = cap.scaled(21, 10);
        let over_heads = (tall - cap - CLEAR * 2).max(Mp(1));
        let wide = (letters + CLEAR * 2).scaled(i64::from(tall.0), i64::from(over_heads.0)).max(tall);
        // The middle of the letters stands beside that of the first line's.
        if wide > most {
            let side = most.min(tall);
            return self.sides(outward(side), passage.top + (cap + side) / 2, side);
        }
        let (ends, base) = (outward(wide), passage.top + cap + CLEAR);
        let mut items = self.sides(ends, base, tall);
        let (x, y) = ((ends.0 + ends.1 - letters) / 2, base - CLEAR);
        items.push(mark_item(Placed::Text { x, y, size, gray: 0, run }));
        items
    }

    fn sides(&self, (x1, x2): (Mp, Mp), base: Mp, tall: Mp) -> Vec<Item> {
        let (width, gray) = (self.theme.rule_strong, 0);
        let (top, middle) = (base - tall, (x1 + x2) / 2);
        let side = |(x1, y1), (x2, y2)| mark_item(Placed::Rule { x1, y1, x2, y2, width, gray });
        vec![side((x1, base), (middle, top)), side((middle, top), (x2, base)), side((x2, base), (x1, base))]
    }
}

/// Blocks that stand so close that they share a bar.
fn passages<'u>(units: impl Iterator<Item = &'u (BlockId, Extent)>, near: Mp) -> Vec<Passage> {
    let mut sorted: Vec<&(BlockId, Extent)> = units.collect();
    sorted.sort_by_key(|(block, extent)| (extent.top, *block));
    let mut passages: Vec<Passage> = Vec::new();
    for (carrier, extent) in sorted {
        match passages.last_mut() {
            Some(last) if extent.top <= last.bottom + near => last.bottom = last.bottom.max(extent.bottom),
            _ => passages.push(Passage { top: extent.top, bottom: extent.bottom, carrier: *carrier }),
        }
    }
    passages
}

fn drawn_height(drawing: &Drawing, width: Mp) -> Mp {
    Mp::from_points(width.as_points() * drawing.height / drawing.width.max(1.0))
}

fn mark_item(placed: Placed) -> Item {
    Item::new(Owner::Artifact(Artifact::Revision), placed)
}
