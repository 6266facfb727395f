//! The laws of elevations on openings made at random, by coordinates.
//!
//! Where things stand is worked out from the words of the trade (hands: dimensions.com/element/door-hand-conventions) and from
//! the lengths of the opening; scales are stated as on an architect's rule (common practice, no source).

use super::*;
use crate::drawings::generated::{dimension, each, hold_to_laws, scale_of};
use crate::engineering::PlanEnd;

const FRAME: Frame = Frame { width: 360.0, height: 270.0, text: 7.5 };

/// The elevations from both rooms.
fn drawn(of: &DrawnOpening, ruler: &Ruler) -> [(Room, Drawing); 2] {
    let [first, second] = elevations(of, FRAME, ruler).unwrap_or_else(|| panic!("no scale fits {of:?}"));
    assert_eq!(first.scale, second.scale, "both are at one scale");
    [(Room::First, first), (Room::Second, second)]
}

/// Whether a leaf's hinges are at the left of who looks from a room.
fn hinges_left(leaf: &DrawnLeaf, room: Room) -> bool {
    (leaf.hang.hinges == PlanEnd::First) == (room == Room::First)
}

#[test]
fn nothing_overlaps_everything_is_inside_and_the_same_comes_twice() {
    each(|of, ruler| {
        let both = drawn(of, ruler);
        both.iter().for_each(|(_, drawing)| hold_to_laws(drawing, FRAME, ruler));
        assert_eq!(both, drawn(of, ruler));
    });
}

#[test]
fn figures_are_those_of_the_opening_and_lines_are_as_long_as_their_scale_says() {
    each(|of, ruler| {
        for (room, drawing) in drawn(of, ruler) {
            let scale = scale_of(&drawing);
            let hold = |name: String, length: Length| {
                let (figure, long) = dimension(&drawing, &name).unwrap_or_else(|| panic!("no {name}"));
                assert_eq!(figure, of.size(length), "{name}");
                assert!((long - length.to_inches_f64() * scale).abs() < 1e-6, "{name} is {long} long");
            };
            for (number, leaf) in of.leaves.iter().enumerate() {
                hold(format!("width of leaf {}", number + 1), leaf.width);
            }
            hold("height of leaf 1".to_owned(), of.leaves[0].height);
            for header in of.headers.iter().filter(|it| it.room == room) {
                hold("length of header 1".to_owned(), header.length.unwrap());
            }
            // Every height of a device stands on the drawing, if not under its own name then under that of one as high.
            for height in of.devices.iter().filter(|it| it.room == room && it.wall.is_none()).filter_map(|it| it.height)
            {
                let figures = drawing.parts.iter().filter(|it| it.name.starts_with("figure "));
                let words = figures.flat_map(|it| &it.shapes).filter_map(|shape| match shape {
                    Shape::Text { text, .. } => Some(text.clone()),
                    _ => None,
                });
                assert!(words.into_iter().any(|it| it == of.size(height)), "{height:?} in {}", drawing.title);
            }
        }
    });
}

/// The middle of the first line or fill of a part.
fn middle(drawing: &Drawing, name: &str) -> Point {
    let shape = &drawing.part(name).unwrap_or_else(|| panic!("no {name}")).shapes[0];
    let extent = shape.extent(|_, _, _| 0.0).expect("a shape");
    at((extent.left + extent.right) / 2.0, (extent.bottom + extent.top) / 2.0)
}

#[test]
fn devices_stand_at_their_heights_and_hinges_drive_and_supply_at_their_hands() {
    each(|of, ruler| {
        for (room, drawing) in drawn(of, ruler) {
            let scale = scale_of(&drawing);
            let Shape::Line { points, .. } = &drawing.part("floor").unwrap().shapes[0] else {
                panic!("the floor is a line")
            };
            let floor = points[0].y;
            for device in of.devices.iter().filter(|it| it.room == room && it.wall.is_none()) {
                let Some(height) = device.height else { continue };
                let found = middle(&drawing, &format!("device {}", device.id));
                let wanted = floor + height.to_inches_f64() * scale;
                // The symbol of a sensor is a triangle about its middle, as high as the others.
                assert!((found.y - wanted).abs() < 1e-6, "{} at {}, not {wanted}", device.id, found.y);
            }
            for (number, leaf) in of.leaves.iter().enumerate() {
                let Shape::Line { points, .. } = &drawing.part(&format!("swing {}", number + 1)).unwrap().shapes[0]
                else {
                    panic!("the swing is a line")
                };
                // Seen from the second room left and right change places.
                let left = hinges_left(leaf, room);
                assert_eq!(points[1].x < points[0].x, left, "hinges of leaf {}", number + 1);
                assert!((points[1].x - points[0].x).abs() - leaf.width.to_inches_f64() * scale < 1e-6);
            }
            for header in of.headers.iter().filter(|it| it.room == room && it.leaves.len() == 1) {
                let (box_middle, drive) = (middle(&drawing, "header 1").x, middle(&drawing, "drive 1").x);
                assert_eq!(drive < box_middle, hinges_left(&of.leaves[0], room), "the drive is at the hinges");
                let supply = middle(&drawing, "supply 1").x;
                assert_eq!(supply < box_middle, header.supply_end == Edge::Left);
                assert!((supply - box_middle) * (drive - box_middle) < 0.0, "supply and drive at opposite ends");
            }
        }
    });
}
