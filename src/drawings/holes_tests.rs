//! The laws of hole layouts on openings made at random, by coordinates: even columns between both edges, the hinge line at the
//! hand of the leaf (hands: dimensions.com/element/door-hand-conventions).

use super::*;
use crate::drawings::generated::{dimension, each, hold_to_laws, scale_of};
use crate::engineering::PlanEnd;
use crate::shapes::{Extent, Shape};

const FRAME: Frame = Frame { width: 350.0, height: 150.0, text: 7.5 };

/// What a part of a layout covers.
fn covers(drawing: &Drawing, name: &str) -> Extent {
    let shapes: &[Shape] = &drawing.part(name).unwrap_or_else(|| panic!("no {name}")).shapes;
    let drawn = shapes.iter().filter(|shape| !matches!(shape, Shape::Text { .. }));
    drawn.filter_map(|shape| shape.extent(|_, _, _| 0.0)).reduce(Extent::with).expect("it has shapes")
}

fn drawn(of: &DrawnOpening, ruler: &Ruler) -> Drawing {
    hole_layout(of, 0, FRAME, ruler).unwrap_or_else(|| panic!("no scale fits {of:?}"))
}

#[test]
fn nothing_overlaps_everything_is_inside_and_the_same_comes_twice() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        hold_to_laws(&drawing, FRAME, ruler);
        assert_eq!(drawing, drawn(of, ruler));
    });
}

#[test]
fn holes_and_lines_stand_where_the_lengths_say() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let scale = scale_of(&drawing);
        let (header, back) = (&of.headers[0], of.headers[0].back.as_ref().unwrap());
        let outline = covers(&drawing, "header");
        let inches = |length: Length| length.to_inches_f64() * scale;
        assert!((outline.width() - inches(header.length.unwrap())).abs() < 1e-6);
        if let Some(count) = back.columns {
            for (number, row) in [(1, back.lower_row), (2, back.upper_row)] {
                let holes: Vec<Point> = drawing
                    .part(&format!("row {number}"))
                    .unwrap()
                    .shapes
                    .iter()
                    .map(|shape| match shape {
                        Shape::Arc { center, .. } => *center,
                        other => panic!("{other:?} is no hole"),
                    })
                    .collect();
                assert_eq!(holes.len(), count as usize);
                let even = (outline.width() - 2.0 * inches(back.edge)) / f64::from(count - 1);
                let step = back.studs.map_or(even, inches);
                let first = (outline.width() - step * f64::from(count - 1)) / 2.0;
                for (at, hole) in holes.iter().enumerate() {
                    assert!((hole.x - outline.left - first - step * at as f64).abs() < 1e-6);
                    assert!((hole.y - outline.bottom - inches(row)).abs() < 1e-6);
                }
            }
            let edge = dimension(&drawing, "edge").map(|(figure, _)| figure);
            let (columns, _) = dimension(&drawing, "columns").expect("the columns");
            match back.studs {
                Some(studs) => {
                    assert_eq!(columns, format!("{count} studs, {} apart", of.short(studs)));
                    assert_eq!(edge, None, "nobody knows where studs stand");
                }
                None => assert_eq!(edge, Some(of.short(back.edge).as_str())),
            }
        }
        for leaf in &header.drives {
            let x = covers(&drawing, &format!("hinge line {}", leaf + 1)).left;
            // Facing the wall in the second room, the plan's first end is at the right.
            let left = (of.leaves[*leaf].hang.hinges == PlanEnd::First) == (header.room == Room::First);
            let end = if left { outline.left } else { outline.right };
            // Headers of the test are 4 in longer than their leaves.
            assert!(((x - end).abs() - 2.0 * scale).abs() < 1e-6, "hinge line {} from its end", (x - end) / scale);
            let (figure, long) = dimension(&drawing, &format!("spindle {}", leaf + 1)).expect("the spindle");
            assert_eq!(figure, format!("{} to spindle", of.short(back.spindle)));
            assert!((long - inches(back.spindle)).abs() < 1e-6);
        }
    });
}
