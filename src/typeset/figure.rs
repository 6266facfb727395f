//! Figures: a drawing and its caption.
//!
//! In: the key of a drawing that came with the view, a width. Out: pieces, or findings where there is no such drawing or it leaves
//! its frame. May not know: what is drawn, where a page ends.

use super::flow::Flow;
use super::pages::{Item, Owner, Placed};
use super::piece::{self, KeepWith, Piece, set_gaps, tie_inside};
use super::setting::Setting;
use crate::fonts::Style;
use crate::markup::{BlockId, Mp};
use crate::shapes::{Drawing, Shape};

/// How far a shape may reach beyond the frame, in points: half of a thick line.
const SLACK: f64 = 0.5;

impl Flow<'_, '_> {
    /// A figure and its caption; it shrinks to what a page holds and is never cut.
    pub(super) fn figure(&mut self, id: BlockId, key: &str, wanted: Option<Mp>, width: Mp) -> Vec<Piece> {
        let Some(drawing) = self.shown.drawings.get(key).cloned() else {
            let place = self.block(id).place.clone();
            self.findings.push(super::unknown_drawing(&self.tree.template, key, place));
            return Vec::new();
        };
        for shape in drawing.parts.iter().flat_map(|part| &part.shapes) {
            if let Shape::Text { text, bold, .. } = shape {
                self.note_missing(id, Style::new(*bold, false), text);
            }
        }
        let outside = self.reach_beyond(&drawing);
        if outside > SLACK {
            let place = self.block(id).place.clone();
            self.findings.push(super::drawing_outside(&self.tree.template, key, outside, place));
        }
        let captions = self.tree.children(id).to_vec();
        let mut below: Vec<Piece> = Vec::new();
        for caption in captions {
            let setting = Setting { gray: self.theme.gray_quiet, ..self.plain(caption) };
            below.extend(self.inside(caption, width, setting));
        }
        let own = Mp::from_points(drawing.width);
        let tallest = (self.page.scaled(9, 10) - piece::height(&below)).max(Mp::points(36));
        let by_height = Mp::from_points(tallest.as_points() * drawing.width / drawing.height.max(1.0));
        let drawn = wanted.unwrap_or(own).min(width).min(by_height);
        let height = Mp::from_points(drawn.as_points() * drawing.height / drawing.width.max(1.0));
        let placed = Placed::Drawing { x: Mp::ZERO, y: Mp::ZERO, width: drawn, drawing };
        let mut pieces = vec![Piece::items(height, vec![Item::new(Owner::Block(id), placed)])];
        pieces[0].below = self.theme.item_gap;
        pieces.append(&mut below);
        tie_inside(&mut pieces, KeepWith::Bound);
        set_gaps(&mut pieces, self.theme.block_gap, self.theme.block_gap);
        pieces
    }

    /// How far the shapes of a drawing reach beyond its frame, at most, in points.
    fn reach_beyond(&mut self, drawing: &Drawing) -> f64 {
        let setter = &mut self.setter;
        let mut width = |text: &str, size: f64, bold: bool| setter.width(Style::new(bold, false), text, size);
        let shapes = drawing.parts.iter().flat_map(|part| &part.shapes);
        let extents = shapes.filter_map(|shape| shape.extent(&mut width));
        let beyond = extents.flat_map(|it| [-it.left, -it.bottom, it.right - drawing.width, it.top - drawing.height]);
        beyond.fold(0.0, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::sync::Arc;

    use super::super::tests::try_set_with;
    use crate::fonts::{Faces, Setter, Style};
    use crate::shapes::{Anchor, Drawing, Part, Shape, Stroke, at};

    #[test]
    fn a_drawing_that_leaves_its_frame_is_found() {
        let line = |x: f64| {
            let stroke = Stroke { width: 0.5, gray: 0.0, dash: None };
            Shape::Line { points: vec![at(0.0, 0.0), at(x, 20.0)], closed: false, stroke }
        };
        let word = |anchor: Anchor| Shape::Text {
            at: at(100.0, 10.0),
            text: "head".to_string(),
            size: 8.0,
            bold: false,
            anchor,
            turn: 0.0,
        };
        let found = |shape: Shape| {
            let parts = vec![Part { name: "a".to_string(), shapes: vec![shape] }];
            let (title, alt, scale) = Default::default();
            let drawing = Drawing { title, alt, scale, width: 100.0, height: 50.0, parts };
            let drawings = BTreeMap::from([("plan".to_string(), Arc::new(drawing))]);
            try_set_with("\n<figure drawing=\"plan\"/>", "portrait", &drawings).err().unwrap_or_default()
        };
        assert_eq!(found(line(112.0)), ["drawing-outside 3 plan / 12.0 pt"]);
        assert_eq!(found(line(100.2)), [""; 0], "the half of a line's weight is no fault");
        // The word ends at the frame, or begins there and is outside with all its width.
        assert_eq!(found(word(Anchor::End)), [""; 0]);
        let faces = Faces::built_in();
        let mut setter = Setter::new(&faces, Default::default());
        let style = Style::new(false, false);
        let width = f64::from(setter.shape(style, "head").advance) / f64::from(faces.units_per_em(style)) * 8.0;
        assert_eq!(found(word(Anchor::Start)), [format!("drawing-outside 3 plan / {width:.1} pt")]);
    }
}
