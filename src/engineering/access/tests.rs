//! Access geometry against published rows and check values.
//!
//! In: rows of the 2010 standard's table 404.2.4.1 and of the 2022 California code. Out: assertions.
//! May not know: catalogs.

use super::*;

const IN: fn(i64) -> Length = Length::inches;

fn room(deep: i64, beyond: i64) -> FloorRoom {
    FloorRoom { deep: IN(deep), beyond: IN(beyond) }
}

fn row(deep: i64, beyond: i64, more: (i64, i64), grows: Grows, exterior: i64) -> ManeuverRow {
    ManeuverRow { least: room(deep, beyond), more: room(more.0, more.1), grows, exterior_beyond: IN(exterior) }
}

fn leaf(closer: bool, latch: bool, exterior: bool) -> ManeuverLeaf {
    ManeuverLeaf { closer, latch, exterior }
}

/// ADA 2010 table 404.2.4.1 with notes 1, 2 and 4 (access-board.gov, read).
#[test]
fn the_federal_table_grows_by_its_notes() {
    let front_push = row(48, 0, (0, 12), Grows::WithCloserAndLatch, 0);
    assert_eq!(front_push.needed(leaf(true, true, false)), room(48, 12));
    assert_eq!(front_push.needed(leaf(true, false, false)), room(48, 0));
    let latch_pull = row(48, 24, (6, 0), Grows::WithCloser, 0);
    // Negative: the figure's text says closer and latch; the table's note says closer alone and governs.
    assert_eq!(latch_pull.needed(leaf(true, false, false)), room(54, 24));
    assert_eq!(latch_pull.needed(leaf(false, true, false)), room(48, 24));
    let hinge_push = row(42, 22, (6, 0), Grows::WithCloserAndLatch, 0);
    assert_eq!(hinge_push.needed(leaf(true, false, false)), room(42, 22));
    assert_eq!(hinge_push.needed(leaf(true, true, false)), room(48, 22));
}

/// Hinge approach, pull side: 60 × 36 or 54 × 42; 56 × 40 meets neither (figure (f), read). California has the first alone.
#[test]
fn two_rows_of_one_approach_are_alternatives() {
    let rows = [row(60, 36, (0, 0), Grows::Never, 0), row(54, 42, (0, 0), Grows::Never, 0)];
    let plain = leaf(true, true, false);
    assert_eq!(maneuver_shortfall(&rows, plain, room(54, 42)), None);
    assert_eq!(maneuver_shortfall(&rows, plain, room(60, 36)), None);
    let (needed, missing) = maneuver_shortfall(&rows, plain, room(56, 40)).unwrap();
    assert_eq!((needed, missing), (room(54, 42), room(0, 2)));
    assert_eq!(maneuver_shortfall(&rows[..1], plain, room(54, 42)).unwrap().1, room(6, 0));
    assert_eq!(maneuver_shortfall(&[], plain, room(0, 0)), None);
}

/// CBC 2022 table 11B-404.2.4.1 (corada.com, read): 48 × 22, 48 × 24, and 60 × 24 outside of an exterior door.
#[test]
fn the_california_table_differs() {
    let hinge_push = row(44, 22, (4, 0), Grows::WithCloserAndLatch, 0);
    assert_eq!(hinge_push.needed(leaf(true, true, false)), room(48, 22));
    assert_eq!(row(44, 24, (4, 0), Grows::WithCloser, 0).needed(leaf(true, false, false)), room(48, 24));
    let front_pull = row(60, 18, (0, 0), Grows::Never, 6);
    assert_eq!(front_pull.needed(leaf(true, true, true)), room(60, 24));
    assert_eq!(front_pull.needed(leaf(true, true, false)), room(60, 18));
}

/// Two 36 in leaves in a vestibule, both swinging in, one, none: 120, 84, 48 in (ADA 2010 404.2.6, read).
#[test]
fn doors_in_series() {
    let needed = |count: usize| series_needed(IN(48), &vec![IN(36); count], None);
    assert_eq!([2, 1, 0].map(needed), [120, 84, 48].map(IN));
    // A117.1-2003 404.2.5 asks for turning space too: 60 in beside the leaves.
    assert_eq!(series_needed(IN(48), &[IN(36)], Some(IN(60))), IN(96));
    assert_eq!(series_needed(IN(48), &[], Some(IN(60))), IN(60));
}

/// ADA 2010 308.2.2 and 308.3.2 (read): forward over 22 in 44 in passes and 46 in does not; sideways over 12 in 46 in passes
/// and 47 in does not.
#[test]
fn reach_over_what_stands_before_it() {
    let limit = |depth, high| ReachLimit { depth: IN(depth), low: IN(15), high: IN(high) };
    let forward = [limit(20, 48), limit(25, 44)];
    assert_eq!(reach_fault(&forward, IN(22), IN(44)), None);
    assert_eq!(reach_fault(&forward, IN(22), IN(46)), Some(ReachFault::High(forward[1], IN(2))));
    assert_eq!(reach_fault(&forward, IN(20), IN(48)), None);
    assert_eq!(reach_fault(&forward, IN(0), IN(14)), Some(ReachFault::Low(forward[0], IN(1))));
    assert_eq!(reach_fault(&forward, IN(26), IN(40)), Some(ReachFault::Deep(forward[1], IN(1))));
    let sideways = [limit(10, 48), limit(24, 46)];
    assert_eq!(reach_fault(&sideways, IN(12), IN(46)), None);
    assert_eq!(reach_fault(&sideways, IN(12), IN(47)), Some(ReachFault::High(sideways[1], IN(1))));
    assert_eq!(reach_fault(&[], IN(12), IN(90)), None);
}

/// Common practice, no source: a 3 ft leaf of 1 3/4 in leaves 33 1/2 in, a 2 ft 10 in leaf less than 32 in.
#[test]
fn clear_widths_of_usual_leaves() {
    let thickness = Length::sixty_fourths(112);
    assert_eq!(clear_width_at_90(IN(36), thickness), Length::sixty_fourths(33 * 64 + 32));
    assert!(clear_width_at_90(IN(34), thickness) < IN(32));
    assert_eq!(clear_width_at_90(IN(1), thickness), Length::ZERO);
}

/// Geometry: half of 30 in less the distance from the latch edge.
#[test]
fn a_centered_floor_space_and_the_swing() {
    assert_eq!(floor_in_swing(IN(30), IN(15)), None);
    assert_eq!(floor_in_swing(IN(30), IN(4)), Some(IN(11)));
    assert_eq!(floor_in_swing(IN(30), IN(0)), Some(IN(15)));
}

/// The same clearances in millimetres and in inches.
#[test]
fn both_unit_systems_agree() {
    let inches = row(48, 24, (6, 0), Grows::WithCloser, 0).needed(leaf(true, false, false));
    let mm = |tenths: i64| Length::nanometres(tenths * 100_000);
    let metric = ManeuverRow {
        least: FloorRoom { deep: mm(12_192), beyond: mm(6_096) },
        more: FloorRoom { deep: mm(1_524), beyond: Length::ZERO },
        grows: Grows::WithCloser,
        exterior_beyond: Length::ZERO,
    };
    assert_eq!(metric.needed(leaf(true, false, false)), inches);
}
