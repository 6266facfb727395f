//! The sixteen cases of the plan sketch: four hands, push or pull, outside below or above the wall.
//!
//! Where things must stand is worked out here from the words of the trade alone (hands: dimensions.com/element/
//! door-hand-conventions; drive at the hinge end, header on the pull side where the leaf swings: common practice, no source),
//! in the observer's own left and right, and turned to the page by where he stands.

use super::*;
use crate::engineering::{OperatorSide, Swing};

const FRAME: Frame = Frame { width: 220.0, height: 280.0, text: 9.5 };
const WIDTH: f64 = 36.0;

fn sketch(outside: Room, hand: Hand, operator: OperatorSide) -> PlanSketch {
    let (hinges, swing) = hand.facts();
    let hang = Hang::seen_from(outside, hinges, swing);
    let place = crate::engineering::header_place(hang, operator);
    PlanSketch {
        mark: "T1".into(),
        outside,
        rooms: ["Below".into(), "Above".into()],
        wall: Length::inches(6),
        leaves: vec![PlanLeaf {
            hang,
            width: Length::inches(36),
            opens_to: 90.0,
            operator: Some(operator),
            hand: Some(hang.hand(outside)),
        }],
        headers: vec![PlanHeader {
            leaves: vec![0],
            room: place.room,
            supply_end: place.supply_end,
            depth: Length::inches(5),
        }],
        arm_offsets: Some((Length::inches(5), Length::inches(21))),
        inch: true,
    }
}

/// The middle of all points of a part's lines and fills.
fn middle(drawing: &Drawing, name: &str) -> Point {
    let part = drawing.part(name).unwrap_or_else(|| panic!("no part {name}"));
    let points: Vec<Point> = part
        .shapes
        .iter()
        .flat_map(|shape| match shape {
            Shape::Line { points, .. } | Shape::Fill { points, .. } => points.clone(),
            Shape::Arc { center, .. } => vec![*center],
            Shape::Text { at, .. } => vec![*at],
        })
        .collect();
    let count = points.len() as f64;
    at(points.iter().map(|it| it.x).sum::<f64>() / count, points.iter().map(|it| it.y).sum::<f64>() / count)
}

/// Both ends of the swing: leaf edge shut, leaf edge open.
fn swing_ends(drawing: &Drawing) -> (Point, Point, Point) {
    let shape = &drawing.part("swing 1").unwrap().shapes[0];
    let Shape::Arc { center, radius, from, sweep, .. } = shape else { panic!("the swing is an arc") };
    let end = |degrees: f64| {
        let radians = degrees.to_radians();
        at(center.x + radius * libm::cos(radians), center.y + radius * libm::sin(radians))
    };
    (*center, end(*from), end(from + sweep))
}

fn near(found: Point, wanted: Point, what: &str) {
    assert!(
        (found.x - wanted.x).abs() < 1e-6 && (found.y - wanted.y).abs() < 1e-6,
        "{what}: {found:?}, not {wanted:?}"
    );
}

#[test]
fn hinge_arc_and_drive_stand_where_the_hand_says_in_all_sixteen_cases() {
    // Hand; hinges at the observer's left or right; swings toward or away from him.
    let hands = [
        (Hand::Lh, Edge::Left, Swing::Away),
        (Hand::Rh, Edge::Right, Swing::Away),
        (Hand::Lhr, Edge::Left, Swing::Toward),
        (Hand::Rhr, Edge::Right, Swing::Toward),
    ];
    let mut cases = 0;
    for (outside, looks_up) in [(Room::First, true), (Room::Second, false)] {
        for (hand, hinges, swing) in hands {
            for operator in OperatorSide::ALL {
                let drawing = sketch(outside, hand, operator).draw(FRAME);
                let scale = scale_of(&drawing);
                let center = at(FRAME.width / 2.0, wall_line(&drawing));
                // An observer below looks up and has his left at the page's left; above, everything is turned round.
                let turn = if looks_up { 1.0 } else { -1.0 };
                let left = if hinges == Edge::Left { -turn } else { turn };
                let toward_reader = if swing == Swing::Away { turn } else { -turn };
                let hinge = at(center.x + left * scale * WIDTH / 2.0, center.y);
                let (found, shut, open) = swing_ends(&drawing);
                near(found, hinge, "hinge");
                near(middle(&drawing, "hinge 1"), hinge, "hinge pin");
                near(shut, at(center.x - left * scale * WIDTH / 2.0, center.y), "leaf edge shut");
                near(open, at(hinge.x, center.y + toward_reader * scale * WIDTH), "leaf edge open");
                let header = if operator == OperatorSide::Pull { toward_reader } else { -toward_reader };
                // Wall 6 in, header 5 in: its middle 5.5 in off the wall line. The drive, 11 in long, ends at the hinge line.
                let drive = at(hinge.x - left * scale * 5.5, center.y + header * scale * 5.5);
                near(middle(&drawing, "drive 1"), drive, "drive");
                let tip = middle(&drawing, "supply 1");
                assert!((tip.x - center.x) * left < 0.0, "supply at the drive end in {hand:?} {operator:?}");
                let observer = middle(&drawing, "observer").y - center.y;
                assert!(observer * turn < 0.0, "the observer stands in the outside room");
                cases += 1;
            }
        }
    }
    assert_eq!(cases, 16);
}

/// Points for an inch, as the drawing states it: so many inches of paper to a foot.
fn scale_of(drawing: &Drawing) -> f64 {
    let inches = drawing.scale.strip_suffix(" in = 1 ft").expect("inches to the foot");
    let inches = match inches.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => inches.parse().unwrap(),
    };
    inches * 72.0 / 12.0
}

/// The middle of the jambs, on which the wall line lies.
fn wall_line(drawing: &Drawing) -> f64 {
    middle(drawing, "frame").y
}

#[test]
fn leaves_of_a_double_egress_swing_apart_under_one_header() {
    let first = Hang::seen_from(Room::First, Edge::Left, Swing::Toward);
    let second = Hang::seen_from(Room::First, Edge::Right, Swing::Away);
    let leaf = |hang: Hang, operator| PlanLeaf {
        hang,
        width: Length::inches(36),
        opens_to: 90.0,
        operator: Some(operator),
        hand: Some(hang.hand_in_double_egress()),
    };
    let sketch = PlanSketch {
        leaves: vec![leaf(first, OperatorSide::Push), leaf(second, OperatorSide::Pull)],
        headers: vec![PlanHeader {
            leaves: vec![0, 1],
            room: Room::Second,
            supply_end: Edge::Left,
            depth: Length::inches(5),
        }],
        ..sketch(Room::First, Hand::Lhr, OperatorSide::Push)
    };
    let drawing = sketch.draw(FRAME);
    let line = wall_line(&drawing);
    let (one, two) = (middle(&drawing, "hinge 1"), middle(&drawing, "hinge 2"));
    assert!(one.x < two.x, "leaf 1 hangs at the observer's left");
    assert!((two.x - one.x - 72.0 * scale_of(&drawing)).abs() < 1e-6, "two leaves of 36 in");
    assert!(middle(&drawing, "hand 1").y < line && middle(&drawing, "hand 2").y > line);
    assert!(middle(&drawing, "drive 1").y > line && middle(&drawing, "drive 2").y > line, "both in one header");
    // Seen from the second room, its left is the page's right.
    assert!(middle(&drawing, "supply 1").x > FRAME.width / 2.0);
    assert!(drawing.alt.contains("Leaf 1: LHR") && drawing.alt.contains("Leaf 2: LHR"), "{}", drawing.alt);
}

#[test]
fn everything_stays_inside_of_the_frame() {
    let faces = Faces::built_in();
    let ruler = Ruler::new(&faces);
    let long = "Corridor along the long east wing, past the reading room and the stair to the store ".repeat(4);
    for name in [None, Some(long)] {
        for outside in Room::ALL {
            for (hand, operator) in Hand::ALL.into_iter().flat_map(|hand| OperatorSide::ALL.map(|side| (hand, side))) {
                let mut sketch = sketch(outside, hand, operator);
                if let Some(name) = &name {
                    sketch.rooms = [name.clone(), name.clone()];
                }
                let drawing = sketch.draw(FRAME);
                assert!(drawing.height <= FRAME.height + 1e-9);
                for shape in drawing.parts.iter().flat_map(|part| &part.shapes) {
                    let it = ruler.extent(shape).expect("it covers something");
                    let inside =
                        it.left >= 0.0 && it.bottom >= 0.0 && it.right <= drawing.width && it.top <= drawing.height;
                    assert!(inside, "{shape:?} of {hand:?} {operator:?}");
                }
                let rooms = &drawing.part("rooms").expect("both are named").shapes;
                let ends = [outside == Room::First, outside == Room::Second]
                    .map(|it| if it { " (outside)" } else { " (inside)" });
                for (shape, end) in rooms.iter().zip(ends) {
                    let Shape::Text { text, .. } = shape else { panic!("{shape:?}") };
                    assert!(text.ends_with(end) && text.contains('…') == name.is_some(), "{text}");
                }
            }
        }
    }
}
