//! The figure of the survey form: what each dimension is, shown on an elevation and on a section through the head.
//!
//! In: a frame. Out: one drawing for every form, and the list of its letters. May not know: any one opening.

use super::Frame;
use super::pen::*;
use crate::shapes::{Anchor, Drawing, NOT_TO_SCALE, Part, Point, Stroke, at};

/// A dimension of the survey, by the letter that the figure gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// Leaf width.
    LeafWidth,
    /// Leaf height.
    LeafHeight,
    /// Leaf thickness.
    Thickness,
    /// Width of the stile at the latch side.
    Stile,
    /// Face of the frame at the head.
    Face,
    /// Depth of the frame.
    Depth,
    /// From the face that carries the header to the face of the leaf.
    Reveal,
    /// Free height above the frame.
    HeadRoom,
    /// Free depth in front of the face.
    FaceClearance,
    /// Floor to ceiling.
    Ceiling,
    /// Hinge edge to the nearest wall or obstruction.
    HingeSide,
    /// Latch edge to the nearest wall or obstruction.
    LatchSide,
}

impl Dimension {
    /// Every dimension, in the order of letters.
    pub const ALL: [Dimension; 12] = [
        Dimension::LeafWidth,
        Dimension::LeafHeight,
        Dimension::Thickness,
        Dimension::Stile,
        Dimension::Face,
        Dimension::Depth,
        Dimension::Reveal,
        Dimension::HeadRoom,
        Dimension::FaceClearance,
        Dimension::Ceiling,
        Dimension::HingeSide,
        Dimension::LatchSide,
    ];

    /// Its letter; I and O are left out.
    pub fn letter(self) -> &'static str {
        ["A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M"][self as usize]
    }

    /// What it is, in words.
    pub fn words(self) -> &'static str {
        match self {
            Dimension::LeafWidth => "Leaf width",
            Dimension::LeafHeight => "Leaf height",
            Dimension::Thickness => "Leaf thickness",
            Dimension::Stile => "Stile, latch side",
            Dimension::Face => "Frame face at the head",
            Dimension::Depth => "Frame depth",
            Dimension::Reveal => "Reveal, header face to leaf",
            Dimension::HeadRoom => "Headroom above the opening",
            Dimension::FaceClearance => "Clear depth for the header",
            Dimension::Ceiling => "Ceiling height",
            Dimension::HingeSide => "Hinge edge to nearest wall",
            Dimension::LatchSide => "Latch edge to nearest wall",
        }
    }
}

/// The figure: an elevation at the left, a section through the head at the right.
pub fn survey_figure(frame: Frame) -> Drawing {
    let size = frame.text;
    let split = frame.width * 0.52;
    let floor = size * 2.6;
    let ceiling = frame.height - size * 1.8;
    let captions = vec![
        bold(at(split / 2.0, size * 0.3), "Elevation, from the header's side", size, Anchor::Middle),
        bold(at((split + frame.width) / 2.0, size * 0.3), "Section through the head", size, Anchor::Middle),
    ];
    let mut parts = elevation(size, split, floor, ceiling);
    parts.extend(section(size, split + size, frame.width, floor, ceiling));
    parts.push(part("captions", captions));
    let letters: Vec<String> = Dimension::ALL.iter().map(|it| format!("{} {}", it.letter(), it.words())).collect();
    Drawing {
        title: "What each dimension is".to_owned(),
        alt: format!("An elevation of a door and a section through its head, with dimensions: {}.", letters.join(", ")),
        scale: NOT_TO_SCALE.to_owned(),
        width: frame.width,
        height: frame.height,
        parts,
    }
}

/// A dimension line between two points along a direction, with ticks, and its letter in the middle.
fn dimension(of: Dimension, from: Point, to: Point, size: f64) -> Part {
    let upright = (from.x - to.x).abs() < (from.y - to.y).abs();
    let tick = |end: Point| line(&[at(end.x - 2.2, end.y - 2.2), at(end.x + 2.2, end.y + 2.2)], OUTLINE);
    let middle = at((from.x + to.x) / 2.0, (from.y + to.y) / 2.0);
    let letter = if upright {
        bold(at(middle.x + size * 0.3, middle.y - size * 0.35), of.letter(), size, Anchor::Start)
    } else {
        bold(at(middle.x, middle.y + size * 0.25), of.letter(), size, Anchor::Middle)
    };
    part(format!("dimension {}", of.letter()), vec![line(&[from, to], THIN), tick(from), tick(to), letter])
}

fn elevation(size: f64, right: f64, floor: f64, ceiling: f64) -> Vec<Part> {
    let wall = (size * 1.2, right - size);
    let leaf_left = right * 0.40;
    let leaf_right = right * 0.66;
    let height = ceiling - floor;
    let leaf_top = floor + height * 0.60;
    let face = size * 0.9;
    let header = (leaf_top + face, leaf_top + face + size * 1.5);
    let stile = leaf_right - size * 1.3;
    let built = vec![
        line(&[at(wall.0, floor), at(wall.1, floor)], OUTLINE),
        line(&[at(wall.0, ceiling), at(wall.1, ceiling)], OUTLINE),
        line(&[at(wall.0, floor), at(wall.0, ceiling)], OUTLINE),
        line(&[at(wall.1, floor), at(wall.1, ceiling)], OUTLINE),
        rectangle(leaf_left - face, floor, leaf_right + face, leaf_top + face, OUTLINE),
        rectangle(leaf_left, floor, leaf_right, leaf_top, OUTLINE),
        line(&[at(stile, floor), at(stile, leaf_top)], DASHED),
        line(&[at(leaf_right, leaf_top), at(leaf_left, (floor + leaf_top) / 2.0), at(leaf_right, floor)], THIN),
        rectangle(leaf_left - face, header.0, leaf_right + face, header.1, DASHED),
    ];
    let words = vec![text(at((leaf_left + leaf_right) / 2.0, header.0 + size * 0.42), "header", size, Anchor::Middle)];
    let low = floor + height * 0.16;
    vec![
        part("elevation", built),
        part("elevation words", words),
        dimension(
            Dimension::LeafWidth,
            at(leaf_left, floor + height * 0.44),
            at(leaf_right, floor + height * 0.44),
            size,
        ),
        dimension(
            Dimension::LeafHeight,
            at(leaf_right + face * 2.2, floor),
            at(leaf_right + face * 2.2, leaf_top),
            size,
        ),
        dimension(Dimension::Stile, at(stile, low), at(leaf_right, low), size),
        dimension(Dimension::Ceiling, at(wall.1 - size * 1.6, floor), at(wall.1 - size * 1.6, ceiling), size),
        dimension(Dimension::HeadRoom, at(leaf_left - face * 2.6, leaf_top), at(leaf_left - face * 2.6, ceiling), size),
        dimension(Dimension::HingeSide, at(wall.0, low), at(leaf_left, low), size),
        dimension(Dimension::LatchSide, at(leaf_right, low), at(wall.1, low), size),
    ]
}

fn section(size: f64, left: f64, right: f64, floor: f64, ceiling: f64) -> Vec<Part> {
    let width = right - left;
    let (front, back) = (left + width * 0.48, left + width * 0.80);
    let height = ceiling - floor;
    let head = floor + height * 0.46;
    let face = size * 1.6;
    let leaf = (back - size * 2.6, back - size * 1.2);
    let header = (front - size * 3.4, front);
    let built = vec![
        filled(front, head + face, back, ceiling, WALL),
        line(&[at(front, head + face), at(front, ceiling)], OUTLINE),
        line(&[at(back, head + face), at(back, ceiling)], OUTLINE),
        line(&[at(left, ceiling), at(front, ceiling)], OUTLINE),
        rectangle(front, head, back, head + face, OUTLINE),
        rectangle(leaf.0, floor, leaf.1, head - 1.0, OUTLINE),
        rectangle(header.0, head + face, header.1, head + face + size * 2.6, DASHED),
        line(&[at(front, head), at(front, floor)], Stroke { dash: Some((1.0, 2.0)), ..THIN }),
    ];
    let words = vec![text(at((header.0 + header.1) / 2.0, head + face + size * 0.95), "header", size, Anchor::Middle)];
    let (upper, lower) = (floor + height * 0.28, floor + height * 0.10);
    vec![
        part("section", built),
        part("section words", words),
        dimension(Dimension::Depth, at(front, head + face + size * 2.2), at(back, head + face + size * 2.2), size),
        dimension(Dimension::Face, at(back + size, head), at(back + size, head + face), size),
        dimension(Dimension::Reveal, at(front, upper), at(leaf.0, upper), size),
        dimension(Dimension::Thickness, at(leaf.0, lower), at(leaf.1, lower), size),
        dimension(
            Dimension::FaceClearance,
            at(left + size * 0.4, head + face + size * 3.4),
            at(front, head + face + size * 3.4),
            size,
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shapes::Shape;

    #[test]
    fn every_letter_stands_once_in_the_figure_and_inside_of_it() {
        let drawing = survey_figure(Frame { width: 500.0, height: 200.0, text: 9.5 });
        for dimension in Dimension::ALL {
            let parts = drawing.parts.iter().filter(|part| part.name == format!("dimension {}", dimension.letter()));
            let parts: Vec<&Part> = parts.collect();
            assert_eq!(parts.len(), 1, "{dimension:?}");
            for shape in &parts[0].shapes {
                if let Shape::Line { points, .. } = shape {
                    assert!(points.iter().all(|it| it.x >= 0.0 && it.x <= 500.0 && it.y >= 0.0 && it.y <= 200.0));
                }
            }
        }
    }
}
