//! The laws of plans on openings made at random, by coordinates.
//!
//! Arms are held to the linkage solver of `engineering`, whose own tests rest on plane geometry; hands as in the plan sketch.

use super::*;
use crate::drawings::generated::{dimension, each, hold_to_laws, scale_of};
use crate::engineering::OperatorSide;

const FRAME: Frame = Frame { width: 360.0, height: 260.0, text: 7.5 };

fn drawn(of: &DrawnOpening, ruler: &Ruler) -> Drawing {
    swing_plan(of, FRAME, ruler).unwrap_or_else(|| panic!("no scale fits {of:?}"))
}

fn center(drawing: &Drawing, name: &str) -> Point {
    drawing
        .part(name)
        .and_then(|part| {
            part.shapes.iter().find_map(|shape| match shape {
                Shape::Arc { center, .. } => Some(*center),
                _ => None,
            })
        })
        .unwrap_or_else(|| panic!("no {name}"))
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
fn arms_stand_where_the_linkage_says_shut_and_open() {
    let mut seen = [0; 2];
    let counted = std::cell::RefCell::new(&mut seen);
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let scale = scale_of(&drawing);
        for (number, leaf) in of.leaves.iter().enumerate() {
            let n = number + 1;
            let axis = center(&drawing, &format!("hinge {n}"));
            let header = of.header_over(number).expect("every leaf has a header");
            let along = if leaf.hang.hinges == PlanEnd::First { 1.0 } else { -1.0 };
            let toward = if header.room == Room::Second { 1.0 } else { -1.0 };
            for (word, angle) in [("shut", Angle::degrees(0)), ("open", leaf.opens_to)] {
                let part = drawing.part(&format!("arm {n} {word}"));
                let Some(stands) = leaf.arm.expect("an arm").stand(angle) else {
                    assert!(part.is_none(), "an arm that does not reach is not drawn");
                    continue;
                };
                let Shape::Line { points, .. } = &part.expect("the arm").shapes[0] else { panic!("an arm is a line") };
                let joints = [Some(stands.spindle), stands.elbow, Some(stands.end)].into_iter().flatten();
                let wanted: Vec<Point> =
                    joints.map(|it| at(axis.x + along * it.x * scale, axis.y + toward * it.y * scale)).collect();
                assert_eq!(points.len(), wanted.len());
                for (found, wanted) in points.iter().zip(&wanted) {
                    assert!(
                        (found.x - wanted.x).abs() < 1e-6 && (found.y - wanted.y).abs() < 1e-6,
                        "{found:?} {wanted:?}"
                    );
                }
                counted.borrow_mut()[usize::from(leaf.operator == Some(OperatorSide::Pull))] += 1;
            }
            // The spindle stands before the face of the wall: as far as the operator says.
            let spindle_out = match leaf.arm.expect("an arm") {
                ArmOnHeader::Push(arm) => arm.spindle_out,
                ArmOnHeader::Pull(arm) => arm.spindle_out,
            };
            let spindle =
                leaf.arm.expect("an arm").stand(Angle::degrees(0)).map(|it| axis.y + toward * it.spindle.y * scale);
            let Some(spindle) = spindle else { continue };
            let wall =
                middle_of_frame(&drawing) + toward * of.frame.depth.expect("a depth").to_inches_f64() / 2.0 * scale;
            let out = (spindle - wall) * toward / scale;
            assert!((out - spindle_out.to_inches_f64()).abs() < 1e-6, "spindle {out} in before the wall");
        }
    });
    assert!(seen.iter().all(|count| *count > 200), "{seen:?}");
}

fn middle_of_frame(drawing: &Drawing) -> f64 {
    let extent = drawing.part("frame").expect("a frame").shapes[0].extent(|_, _, _| 0.0).expect("a jamb");
    (extent.bottom + extent.top) / 2.0
}

#[test]
fn leaves_turn_about_their_hinges_and_the_floor_is_as_deep_as_asked() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let scale = scale_of(&drawing);
        for (number, leaf) in of.leaves.iter().enumerate() {
            let Shape::Arc { center, radius, from, sweep, .. } =
                &drawing.part(&format!("swing {}", number + 1)).unwrap().shapes[0]
            else {
                panic!("the swing is an arc")
            };
            assert!((radius - leaf.width.to_inches_f64() * scale).abs() < 1e-9);
            assert_eq!(*from, if leaf.hang.hinges == PlanEnd::First { 0.0 } else { 180.0 });
            // Halfway open its edge is in the room into which it swings.
            let (sin, _) = libm::sincos((from + sweep / 2.0).to_radians());
            assert_eq!(sin > 0.0, leaf.hang.into == Room::Second, "{center:?}");
            assert!((sweep.abs() - in_degrees(leaf.opens_to)).abs() < 1e-9);
        }
        for clearance in &of.clearances {
            let side = DrawnOpening::side_word(clearance.room);
            let (figure, long) = dimension(&drawing, &format!("depth of maneuvering {side}")).expect("its depth");
            assert_eq!(figure, of.short(clearance.asked.deep));
            assert!((long - clearance.asked.deep.to_inches_f64() * scale).abs() < 1e-6);
            let (figure, long) = dimension(&drawing, &format!("width beyond {side}")).expect("its width");
            assert_eq!(figure, of.short(clearance.asked.beyond));
            assert!((long - clearance.asked.beyond.to_inches_f64() * scale).abs() < 1e-6);
        }
        let (figure, long) = dimension(&drawing, "depth of frame").expect("the frame");
        let depth = of.frame.depth.unwrap();
        assert_eq!(figure, of.short(depth));
        assert!((long - depth.to_inches_f64() * scale).abs() < 1e-6);
    });
}

#[test]
fn clear_widths_and_the_floor_at_devices_are_measured() {
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let scale = scale_of(&drawing);
        let hold = |name: &str, length: Length| {
            let (figure, long) = dimension(&drawing, name).unwrap_or_else(|| panic!("no {name}"));
            assert!(figure.starts_with(&of.short(length)), "{name}: {figure}");
            assert!((long - length.to_inches_f64() * scale).abs() < 1e-6, "{name}: {long}");
        };
        for (number, leaf) in of.leaves.iter().enumerate() {
            hold(&format!("clear width of leaf {}", number + 1), leaf.clear.expect("a leaf with a drive"));
        }
        for word in ["outside", "inside"] {
            if drawing.parts.iter().any(|it| it.name == format!("dimension depth of floor {word}")) {
                hold(&format!("width of floor {word}"), of.floor_space.expect("a floor").0);
            }
        }
    });
}

/// Where power enters is read beside a device, too.
#[test]
fn the_arrow_of_the_supply_meets_no_device() {
    let mut turned = 0;
    let counted = std::cell::RefCell::new(&mut turned);
    each(|of, ruler| {
        let drawing = drawn(of, ruler);
        let covered = |name: &str| -> Vec<Extent> {
            let parts = drawing.parts.iter().filter(|it| it.name.starts_with(name));
            parts.filter_map(|it| it.shapes.iter().filter_map(|it| ruler.extent(it)).reduce(Extent::with)).collect()
        };
        for supply in covered("supply ") {
            assert!(covered("device ").iter().all(|it| !it.meets(&supply)), "{}", drawing.title);
            **counted.borrow_mut() += usize::from(supply.height() > supply.width());
        }
    });
    assert!(turned > 10, "{turned} arrows had to come from the room");
}
