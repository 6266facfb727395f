//! The laws of sections through the head on openings made at random, by coordinates worked out from the opening's lengths.

use super::*;
use crate::drawings::generated::{dimension, each, hold_to_laws, scale_of};

const FRAME: Frame = Frame { width: 360.0, height: 250.0, text: 7.5 };

fn drawn(of: &DrawnOpening, ruler: &Ruler) -> Drawing {
    section(of, 0, FRAME, ruler).unwrap_or_else(|| panic!("no scale fits {of:?}"))
}

fn box_of(drawing: &Drawing, name: &str) -> Extent {
    let shapes = &drawing.part(name).unwrap_or_else(|| panic!("no {name}")).shapes;
    let drawn = shapes.iter().filter(|shape| !matches!(shape, Shape::Text { .. }));
    drawn.filter_map(|shape| shape.extent(|_, _, _| 0.0)).reduce(Extent::with).expect("it has shapes")
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
fn header_leaf_and_fasteners_stand_where_the_lengths_say() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let scale = scale_of(&drawing);
        let inches = |length: Length| length.to_inches_f64() * scale;
        let near = |found: f64, wanted: f64, what: &str| {
            assert!((found - wanted).abs() < 1e-6, "{what}: {found}, not {wanted}")
        };
        let (frame, leaf, header) = (box_of(&drawing, "frame"), box_of(&drawing, "leaf"), box_of(&drawing, "header"));
        let inside = of.headers[0].room == Room::Second;
        let wall = if inside { frame.right } else { frame.left };
        let leaf_face = if inside { leaf.right } else { leaf.left };
        near((wall - leaf_face).abs(), inches(of.frame.reveal.unwrap()), "reveal");
        near(leaf.right - leaf.left, inches(of.leaves[0].thickness), "thickness");
        near(frame.top - frame.bottom, inches(of.frame.face.unwrap()), "face");
        near(header.top - header.bottom, inches(of.headers[0].height), "height of the header");
        near(header.right - header.left, inches(of.headers[0].depth), "depth of the header");
        if !of.headers[0].concealed {
            near(header.bottom, frame.top, "the header stands on the head of the frame");
            near(if inside { header.left } else { header.right }, wall, "the header's back is on the wall");
            if of.headers[0].back.as_ref().unwrap().columns.is_some() {
                let row = box_of(&drawing, "fastener 1");
                let middle = (row.bottom + row.top) / 2.0;
                near(middle - header.bottom, inches(of.headers[0].back.as_ref().unwrap().lower_row), "lower row");
            }
        }
        let hold = |name: &str, length: Length| {
            let (figure, long) = dimension(&drawing, name).unwrap_or_else(|| panic!("no {name}"));
            // A word may say what it is.
            assert!(
                figure == of.short(length) || figure.starts_with(&format!("{} ", of.short(length))),
                "{name}: {figure}"
            );
            near(long, inches(length), name);
        };
        hold("reveal", of.frame.reveal.unwrap());
        hold("thickness of leaf", of.leaves[0].thickness);
        hold("depth of frame", of.frame.depth.unwrap());
        hold("depth of header", of.headers[0].depth);
        hold("height of header", of.headers[0].height);
        hold("face of frame", of.frame.face.unwrap());
    });
}

#[test]
fn a_ceiling_is_named_and_has_its_height() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        assert_eq!(drawing.part("ceiling").is_some(), drawing.part("label ceiling").is_some());
    });
}

#[test]
fn a_header_below_the_head_hangs_on_a_plate_and_no_fastener_ends_in_the_air() {
    each(|of, ruler| {
        let mut of = of.clone();
        if of.headers[0].concealed {
            return;
        }
        of.frame.under_header = Some(of.height() - of.headers[0].height - Length::inches(1));
        of.headers[0].back.as_mut().expect("a back").plated = true;
        let drawing = drawn(&of, ruler);
        hold_to_laws(&drawing, FRAME, ruler);
        assert!(drawing.part("fastener 1").is_none());
        let (plate, header, frame) = (box_of(&drawing, "plate"), box_of(&drawing, "header"), box_of(&drawing, "frame"));
        assert!((plate.bottom - header.bottom).abs() < 1.0, "the plate carries the header");
        assert!((plate.top - frame.top).abs() < 1.0, "the plate hangs from the frame");
        of.headers[0].back.as_mut().expect("a back").plated = false;
        assert!(drawn(&of, ruler).part("plate").is_none(), "a plate that nobody takes off is not drawn");
    });
}
