//! Openings made at random, for tests of every drawing: forms, hands, sizes, devices as a job could have them.
//!
//! In: a seed. Out: openings as they are drawn. May not know: which test asks.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};

use super::drawn::*;
use super::{Frame, Ruler};
use crate::engineering::{
    ArmOnHeader, Edge, FloorRoom, Hang, HingeAxis, OperatorSide, PullArm, PushArm, Room, Swing, axis_to_face,
    clear_width_at_90, header_place,
};
use crate::fonts::Faces;
use crate::job::{DeviceKind, DeviceMount, DeviceWall};
use crate::measure::{Angle, Length};
use crate::shapes::{Drawing, Extent, Shape};

/// Runs a law on 1,000 openings.
pub(super) fn each(law: impl Fn(&DrawnOpening, &Ruler)) {
    let config = Config { cases: 1000, failure_persistence: None, rng_seed: RngSeed::Fixed(11), ..Config::default() };
    let faces = Faces::built_in();
    let ruler = Ruler::new(&faces);
    let run = TestRunner::new(config).run(&opening(), |of| {
        law(&of, &ruler);
        Ok(())
    });
    run.expect("the law holds");
}

fn sixteenths(from: i64, to: i64) -> impl Strategy<Value = Length> {
    (from * 16..=to * 16).prop_map(|it| Length::sixty_fourths(it * 4))
}

prop_compose! {
    fn device()(
        kind in prop::sample::select(vec![
            DeviceKind::Plate, DeviceKind::Touchless, DeviceKind::KeySwitch, DeviceKind::DeskButton, DeviceKind::Reader,
            DeviceKind::Motion, DeviceKind::Safety, DeviceKind::Keypad, DeviceKind::LockButton, DeviceKind::ExitSensor,
        ]),
        mount in prop::sample::select(vec![
            DeviceMount::Wall, DeviceMount::Wall, DeviceMount::Jamb, DeviceMount::Post, DeviceMount::Header,
            DeviceMount::Leaf, DeviceMount::Desk,
        ]),
        wall in prop::option::weighted(0.1, Just(DeviceWall::Facing)),
        second in any::<bool>(),
        leaf in 0_usize..2,
        height in prop::option::weighted(0.95, prop_oneof![
            Just(Length::inches(36)), Just(Length::inches(16)), Just(Length::inches(40)), sixteenths(8, 60),
        ]),
        distance in prop::option::weighted(0.9, sixteenths(2, 110)),
        reached in prop::sample::select(vec![Reached::Cable, Reached::Cable, Reached::Harness, Reached::Radio]),
    ) -> DrawnDevice {
        let room = if second { Room::Second } else { Room::First };
        DrawnDevice { id: String::new(), kind, room, mount, wall, leaf, height, distance, reached }
    }
}

/// Numbers from which a leaf, its frame and its operator are made.
#[derive(Clone, Debug)]
struct Raw {
    width: Length,
    second_width: Length,
    height: Length,
    thickness: Length,
    form: usize,
    left: bool,
    toward: bool,
    pull: bool,
    axis: HingeAxis,
    inch: bool,
    frame: (Length, Length, Length, Length),
    operator: (Length, Length, Length),
    columns: Option<u32>,
    plate: bool,
    angle: u32,
    concealed: bool,
}

prop_compose! {
    fn raw()(
        width in sixteenths(30, 54), second_width in sixteenths(18, 48), height in sixteenths(78, 108),
        thickness in sixteenths(1, 3), form in 0_usize..3, left in any::<bool>(), toward in any::<bool>(),
        pull in any::<bool>(),
        axis in prop::sample::select(vec![HingeAxis::PullFace, HingeAxis::Offset, HingeAxis::Center]),
        inch in prop::bool::weighted(0.8),
        frame in (sixteenths(1, 4), sixteenths(4, 10), sixteenths(0, 6), sixteenths(6, 30)),
        operator in (sixteenths(4, 8), sixteenths(4, 7), sixteenths(1, 4)),
    )(
        columns in prop::option::weighted(0.7, 2_u32..10), plate in any::<bool>(),
        angle in prop::sample::select(vec![85_u32, 90, 90, 95, 110]), concealed in prop::bool::weighted(0.15),
        width in Just(width), second_width in Just(second_width), height in Just(height), thickness in Just(thickness),
        form in Just(form), left in Just(left), toward in Just(toward), pull in Just(pull), axis in Just(axis),
        inch in Just(inch), frame in Just(frame), operator in Just(operator),
    ) -> Raw {
        Raw {
            width, second_width, height, thickness, form, left, toward, pull, axis, inch, frame, operator, columns, plate,
            angle, concealed,
        }
    }
}

fn opening() -> impl Strategy<Value = DrawnOpening> {
    (raw(), prop::collection::vec(device(), 0..7), any::<bool>(), any::<bool>())
        .prop_map(|(raw, devices, asked, vestibule)| made(&raw, devices, asked, vestibule))
}

fn made(raw: &Raw, devices: Vec<DrawnDevice>, asked: bool, vestibule: bool) -> DrawnOpening {
    let swing = if raw.toward { Swing::Toward } else { Swing::Away };
    let edge = if raw.left { Edge::Left } else { Edge::Right };
    let first = leaf(raw, raw.width, Hang::seen_from(Room::First, edge, swing), raw.pull);
    let other_swing = if raw.form == 2 { Swing::seen_other(swing) } else { swing };
    let second = Hang::seen_from(Room::First, edge.other(), other_swing);
    let mut leaves = vec![first];
    if raw.form > 0 {
        let pull = if raw.form == 2 { !raw.pull } else { raw.pull };
        leaves.push(leaf(raw, if raw.form == 2 { raw.width } else { raw.second_width }, second, pull));
    }
    let place = header_place(leaves[0].hang, leaves[0].operator.expect("every generated leaf is powered"));
    let spans: Vec<usize> = (0..leaves.len()).collect();
    let width: Length = leaves.iter().map(|it| it.width).sum();
    let studs = |columns: Option<u32>| Length::inches(16) * i64::from(columns.unwrap_or(0));
    let length = width + Length::inches(4);
    let (face, depth, reveal, head_room) = raw.frame;
    let header = DrawnHeader {
        leaves: spans.clone(),
        drives: spans,
        room: place.room,
        supply_end: place.supply_end,
        length: Some(length),
        height: raw.operator.0,
        depth: raw.operator.1,
        concealed: raw.concealed,
        back: Some(DrawnBack {
            lower_row: Length::inches(1),
            upper_row: raw.operator.0 - Length::inches(1),
            edge: raw.operator.2,
            spindle: Length::inches(5),
            bracket: Length::inches(22),
            columns: raw.columns,
            plate: raw.plate.then_some(length + Length::inches(16)),
            plated: raw.plate,
            words: "wood screws".to_owned(),
            studs: (raw.plate && studs(raw.columns) < length).then_some(Length::inches(16)),
        }),
        fixed_to: Some("wood"),
        needs: (raw.operator.0 + Length::inches(1), raw.operator.1 + Length::inches(1)),
    };
    let count = leaves.len();
    let mut named = devices;
    for (number, device) in named.iter_mut().enumerate() {
        device.id = format!("P{}", number + 1);
        device.leaf = device.leaf.min(count - 1);
    }
    let clearance = |room: Room, deep: i64, beyond: i64| DrawnClearance {
        room,
        leaf: 0,
        asked: FloorRoom { deep: Length::inches(deep), beyond: Length::inches(beyond) },
    };
    let into = leaves[0].hang.into;
    DrawnOpening {
        mark: "T101".to_owned(),
        rooms: ["Street".to_owned(), "Lobby".to_owned()],
        inch: raw.inch,
        leaves,
        headers: vec![header],
        frame: DrawnFrame {
            face: Some(face),
            depth: Some(depth),
            reveal: Some(reveal.min(depth)),
            head_room: Some(head_room),
            face_clearance: Some(raw.operator.1 + Length::inches(3)),
            under_header: None,
            ceiling: Some(raw.height + face + head_room),
        },
        devices: named,
        clear: None,
        signs: Some((Length::inches(50), Length::inches(70))),
        clearances: if asked { vec![clearance(into, 60, 18), clearance(into.other(), 48, 12)] } else { Vec::new() },
        floor_space: Some((Length::inches(30), Length::inches(48))),
        vestibule: vestibule.then(|| (into, "T102".to_owned(), Length::inches(104))),
    }
}

fn leaf(raw: &Raw, width: Length, hang: Hang, pull: bool) -> DrawnLeaf {
    let side = if pull { OperatorSide::Pull } else { OperatorSide::Push };
    let axis_to_face = axis_to_face(raw.thickness, raw.axis, side);
    let reveal = raw.frame.2.min(raw.frame.1);
    let arm = if pull {
        ArmOnHeader::Pull(PullArm {
            spindle_along: Length::inches(5),
            spindle_out: Length::inches(3),
            main: Length::inches(17),
            track_out: Length::inches(1),
            track_from: Length::inches(10),
            track_to: Length::inches(28),
            axis_to_face,
            reveal,
        })
    } else {
        ArmOnHeader::Push(PushArm {
            spindle_along: Length::inches(5),
            spindle_out: Length::inches(2),
            pin_along: Length::inches(22),
            pin_out: Length::inches(1),
            main: Length::inches(13),
            shut: Angle::degrees(80),
            axis_to_face,
            reveal,
        })
    };
    DrawnLeaf {
        hang,
        width,
        height: raw.height,
        thickness: raw.thickness,
        axis: raw.axis,
        opens_to: Angle::degrees(raw.angle),
        operator: Some(side),
        hand: Some(hang.hand(Room::First)),
        arm: Some(arm),
        clear: Some(clear_width_at_90(width, raw.thickness)),
    }
}

impl Swing {
    fn seen_other(self) -> Swing {
        if self == Swing::Toward { Swing::Away } else { Swing::Toward }
    }
}

/// The texts of a drawing, with the parts that hold them and what they cover.
pub(super) fn texts<'d>(drawing: &'d Drawing, ruler: &Ruler) -> Vec<(&'d str, &'d str, Extent)> {
    let parts = drawing.parts.iter();
    let each = parts.flat_map(|part| {
        part.shapes.iter().filter_map(|shape| match shape {
            Shape::Text { text, .. } => Some((part.name.as_str(), text.as_str(), ruler.extent(shape)?)),
            _ => None,
        })
    });
    each.collect()
}

/// The laws of every drawing: no text on another, everything inside of the frame, no line through a text but below its white
/// ground, no text under 7 points, the same once more.
pub(super) fn hold_to_laws(drawing: &Drawing, frame: Frame, ruler: &Ruler) {
    let texts = texts(drawing, ruler);
    for (at, (_, one, extent)) in texts.iter().enumerate() {
        for (_, other, beside) in &texts[at + 1..] {
            assert!(!extent.meets(beside), "{one:?} stands on {other:?} in {}", drawing.title);
        }
    }
    let inside = |extent: &Extent| {
        extent.left >= 0.0 && extent.bottom >= 0.0 && extent.right <= frame.width && extent.top <= frame.height
    };
    let shapes: Vec<&Shape> = drawing.parts.iter().flat_map(|part| &part.shapes).collect();
    for shape in &shapes {
        let extent = ruler.extent(shape).expect("it covers something");
        assert!(inside(&extent), "{shape:?} of {} outside of its frame", drawing.title);
    }
    for (at, shape) in shapes.iter().enumerate() {
        let Shape::Text { size, text, .. } = shape else { continue };
        assert!(*size >= 7.0, "{text:?} is set in {size} pt");
        let extent = ruler.extent(shape).expect("a text covers something");
        let Shape::Fill { gray, .. } = shapes[at - 1] else { panic!("{text:?} has no ground") };
        assert_eq!(*gray, 1.0, "{text:?} stands on gray");
        for later in &shapes[at..] {
            if let Shape::Line { points, .. } = later {
                assert!(
                    points.windows(2).all(|two| !extent.is_crossed(two[0], two[1])),
                    "a line runs through {text:?}"
                );
            }
        }
        // The ground of a text hides no other one that was written before it.
        for earlier in
            shapes[..at].iter().filter(|it| matches!(it, Shape::Text { .. })).filter_map(|it| ruler.extent(it))
        {
            assert!(!earlier.meets(&extent), "the ground of {text:?} hides a text");
        }
    }
}

/// The figure of a named dimension, and the length of its line in points.
pub(super) fn dimension<'d>(drawing: &'d Drawing, name: &str) -> Option<(&'d str, f64)> {
    let figure = drawing.part(&format!("figure {name}"))?.shapes.iter().find_map(|shape| match shape {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    })?;
    let shapes = &drawing.part(&format!("dimension {name}"))?.shapes;
    // Ticks stand at the ends of the stretch, after both extension lines and the dimension line.
    let middle = |shape: &Shape| match shape {
        Shape::Line { points, .. } => ((points[0].x + points[1].x) / 2.0, (points[0].y + points[1].y) / 2.0),
        _ => panic!("a tick is a line"),
    };
    let (a, b) = (middle(&shapes[3]), middle(&shapes[4]));
    Some((figure, libm::hypot(a.0 - b.0, a.1 - b.1)))
}

/// Points for an inch, as a drawing states its scale.
pub(super) fn scale_of(drawing: &Drawing) -> f64 {
    let scales = super::scales::usual(true).iter().chain(super::scales::usual(false));
    scales.into_iter().find(|it| it.words == drawing.scale).map(|it| it.points).expect("a usual scale")
}
