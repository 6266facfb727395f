//! Where hinge, arc, drive and supply lie, for every way a single leaf can hang and be operated.

use hingewright::engineering::{Edge, Hang, OperatorSide, Room, Swing, plan};
use hingewright::measure::Length;

/// One case of the table, as it is drawn by hand: outside, hinges, swing, operator; letters; hinge x, arc end y, header
/// room, drive end and supply end seen from the header's own side. x in leaf widths, y as a sign.
type Case = (&'static str, &'static str, i64, i64, &'static str, &'static str, &'static str);

/// The plan has the first room below the wall, so that its observer has x = 0 at his left. Read off a sketch, case by
/// case: common practice, no source; the letters by dimensions.com/element/door-hand-conventions.
const CASES: [Case; 16] = [
    ("first left away push", "LH", 0, 1, "first", "left", "right"),
    ("first left away pull", "LH", 0, 1, "second", "right", "left"),
    ("first right away push", "RH", 1, 1, "first", "right", "left"),
    ("first right away pull", "RH", 1, 1, "second", "left", "right"),
    ("first left toward push", "LHR", 0, -1, "second", "right", "left"),
    ("first left toward pull", "LHR", 0, -1, "first", "left", "right"),
    ("first right toward push", "RHR", 1, -1, "second", "left", "right"),
    ("first right toward pull", "RHR", 1, -1, "first", "right", "left"),
    ("second left away push", "LH", 1, -1, "second", "left", "right"),
    ("second left away pull", "LH", 1, -1, "first", "right", "left"),
    ("second right away push", "RH", 0, -1, "second", "right", "left"),
    ("second right away pull", "RH", 0, -1, "first", "left", "right"),
    ("second left toward push", "LHR", 1, 1, "first", "right", "left"),
    ("second left toward pull", "LHR", 1, 1, "second", "left", "right"),
    ("second right toward push", "RHR", 0, 1, "first", "left", "right"),
    ("second right toward pull", "RHR", 0, 1, "second", "right", "left"),
];

const WIDTH: Length = Length::feet(3);
const OFF_WALL: Length = Length::inches(3);

fn facts(words: &str) -> (Room, Edge, Swing, OperatorSide) {
    let words: Vec<&str> = words.split(' ').collect();
    let outside = if words[0] == "first" { Room::First } else { Room::Second };
    let hinges = if words[1] == "left" { Edge::Left } else { Edge::Right };
    let swing = if words[2] == "toward" { Swing::Toward } else { Swing::Away };
    let operator = if words[3] == "push" { OperatorSide::Push } else { OperatorSide::Pull };
    (outside, hinges, swing, operator)
}

fn word(edge: Edge) -> &'static str {
    if edge == Edge::Left { "left" } else { "right" }
}

#[test]
fn sixteen_cases_in_the_plan() {
    for (words, letters, hinge_x, arc_y, room, drive_end, supply_end) in CASES {
        let (outside, hinges, swing, operator) = facts(words);
        let hang = Hang::seen_from(outside, hinges, swing);
        let plan = plan(hang, operator, WIDTH, OFF_WALL);
        assert_eq!(hang.hand(outside).letters(), letters, "{words}");
        assert_eq!((plan.hinge.x, plan.hinge.y), (WIDTH * hinge_x, Length::ZERO), "{words}: hinge");
        assert_eq!((plan.shut.x, plan.shut.y), (WIDTH * (1 - hinge_x), Length::ZERO), "{words}: shut");
        assert_eq!((plan.arc_end.x, plan.arc_end.y), (WIDTH * hinge_x, WIDTH * arc_y), "{words}: arc end");
        let header_y = if room == "first" { -OFF_WALL } else { OFF_WALL };
        assert_eq!((plan.drive.x, plan.drive.y), (WIDTH * hinge_x, header_y), "{words}: drive");
        assert_eq!((plan.supply.x, plan.supply.y), (WIDTH * (1 - hinge_x), header_y), "{words}: supply");
        assert_eq!(plan.header.room, if room == "first" { Room::First } else { Room::Second }, "{words}");
        let ends = [plan.header.drive_end, plan.header.supply_end, plan.header.bracket].map(word);
        assert_eq!(ends, [drive_end, supply_end, drive_end], "{words}: ends");
    }
}

/// LH and RHR, RH and LHR are one leaf called from its two sides; its header does not care who calls.
#[test]
fn one_leaf_has_one_header_whatever_it_is_called() {
    for hinges in Edge::ALL {
        for swing in Swing::ALL {
            for operator in OperatorSide::ALL {
                let hang = Hang::seen_from(Room::First, hinges, swing);
                let (other_hinges, other_swing) = hang.hand(Room::Second).facts();
                assert_ne!(hang.hand(Room::First), hang.hand(Room::Second));
                let again = Hang::seen_from(Room::Second, other_hinges, other_swing);
                assert_eq!(plan(again, operator, WIDTH, OFF_WALL), plan(hang, operator, WIDTH, OFF_WALL));
            }
        }
    }
}

/// In the mirror every x is turned round, every left is right, and the rooms stay.
#[test]
fn the_mirror_turns_ends_and_keeps_rooms() {
    for (words, ..) in CASES {
        let (outside, hinges, swing, operator) = facts(words);
        let hang = Hang::seen_from(outside, hinges, swing);
        let (one, other) = (plan(hang, operator, WIDTH, OFF_WALL), plan(hang.mirrored(), operator, WIDTH, OFF_WALL));
        for (a, b) in [(one.hinge, other.hinge), (one.arc_end, other.arc_end), (one.drive, other.drive)] {
            assert_eq!((b.x, b.y), (WIDTH - a.x, a.y), "{words}");
        }
        assert_eq!(other.header.room, one.header.room, "{words}");
        assert_eq!(other.header.drive_end, one.header.supply_end, "{words}");
    }
}

/// Push and pull put the header on opposite sides of the same wall, so its ends change hands and its drive stays at the
/// hinge.
#[test]
fn push_and_pull_are_the_two_sides_of_one_hinge() {
    for (words, ..) in CASES {
        let (outside, hinges, swing, _) = facts(words);
        let hang = Hang::seen_from(outside, hinges, swing);
        let [push, pull] = OperatorSide::ALL.map(|operator| plan(hang, operator, WIDTH, OFF_WALL));
        assert_eq!(push.header.room, pull.header.room.other(), "{words}");
        assert_eq!(push.header.drive_end, pull.header.supply_end, "{words}");
        assert_eq!(push.drive.x, pull.drive.x, "{words}");
    }
}
