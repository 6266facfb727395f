//! Courses against the plain way to find them: every value by itself at every half degree, narrowed by thirds.
//!
//! In: 10,000 generated arms. Out: what is reported is never on the less safe side of what the plain way gives.

use rust_decimal::Decimal;

use super::course::{AtAngle, Course, LinkageFault};
use super::lever::Lever;
use super::place::{PullArm, PushArm, inches};
use super::plane::Vector;
use super::track::Track;
use crate::engineering::safe_rounding::{number, radians};
use crate::measure::{Angle, Length, Unit};

const STEP: f64 = std::f64::consts::PI / 360.0;

/// The least value from shut to an angle, sampled every half degree and narrowed by thirds.
fn plain_least(end: f64, value: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let steps = (end / STEP).ceil() as usize;
    let samples = (0..=steps).filter_map(|step| {
        let phi = (step as f64 * STEP).min(end);
        Some((value(phi)?, phi))
    });
    let best = samples.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (mut low, mut high) = ((best.1 - STEP).max(0.0), (best.1 + STEP).min(end));
    while high - low > 1e-7 {
        let third = (high - low) / 3.0;
        match (value(low + third), value(high - third)) {
            (Some(left), Some(right)) if left <= right => high -= third,
            (Some(_), Some(_)) => low += third,
            _ => return Some(best.0),
        }
    }
    Some(value((low + high) / 2.0).unwrap_or(best.0).min(best.0))
}

/// The angle up to which something holds.
fn plain_reach(most: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let steps = (most / STEP).ceil() as usize;
    let fails = (0..=steps).map(|step| (step as f64 * STEP).min(most)).find(|phi| !holds(*phi));
    let Some(first) = fails else { return most };
    let (mut low, mut high) = ((first - STEP).max(0.0), first);
    while high - low > 1e-6 {
        let middle = (low + high) / 2.0;
        if holds(middle) { low = middle } else { high = middle }
    }
    low
}

/// What a course has to say of an arm, each the plain way.
struct Plain {
    reaches: bool,
    ratio: f64,
    /// In radians.
    transmission: f64,
    /// In inches; none of a track arm.
    clearance: Option<f64>,
    /// In inches beyond an end of the track, below none inside; none of a push arm.
    inside: Option<f64>,
    past: f64,
}

fn plain_push(arm: &PushArm, open: f64, half: f64) -> Option<Plain> {
    let lever: Lever = arm.lever()?;
    let (face, wall) = (inches(arm.axis_to_face)?, inches(arm.axis_to_face + arm.reveal)?);
    let end = plain_reach(open, |phi| lever.at(phi).is_some());
    let leaf = |phi: f64| {
        let elbow = lever.at(phi)?.elbow.turned(-lever.sense * phi);
        Some(if elbow.x > 0.0 { elbow.y - face } else { f64::INFINITY } - half)
    };
    let stop = |phi: f64| {
        let state = lever.at(phi)?;
        let near = |corner: Vector| {
            corner.to_segment(lever.spindle, state.elbow).min(corner.to_segment(state.elbow, state.pin))
        };
        Some(near(Vector::new(0.625, face)).min(near(Vector::new(0.625, wall))) - half)
    };
    let clearances = [plain_least(end, leaf), plain_least(end, stop)];
    let past = |phi: f64| lever.at(phi).map(|it| if it.elbow.y > wall { it.elbow.x } else { f64::INFINITY });
    Some(Plain {
        reaches: end >= open,
        ratio: plain_least(end, |phi| lever.at(phi).map(|it| it.ratio))?,
        transmission: plain_least(end, |phi| lever.at(phi).map(|it| it.transmission))?,
        clearance: clearances.into_iter().flatten().min_by(f64::total_cmp),
        inside: None,
        past: (half - plain_least(end, past)?).max(0.0),
    })
}

fn plain_pull(arm: &PullArm, open: f64, half: f64) -> Option<Plain> {
    let track: Track = arm.track()?;
    let end = plain_reach(open, |phi| track.at(phi).is_some());
    let past = |phi: f64| track.at(phi).map(|it| it.roller.x.min(track.spindle.x));
    Some(Plain {
        reaches: end >= open,
        ratio: plain_least(end, |phi| track.at(phi).map(|it| it.ratio))?,
        transmission: plain_least(end, |phi| track.at(phi).map(|it| it.drive))?,
        clearance: None,
        inside: Some(plain_least(end, |phi| track.at(phi).map(|it| -track.beyond(&it)))?),
        past: (half - plain_least(end, past)?).max(0.0),
    })
}

/// Numbers that look random and are the same in every run (a linear congruential generator with the constants of Knuth's MMIX).
struct Draws(u64);

impl Draws {
    /// A length between two numbers of sixteenths of an inch.
    fn sixteenths(&mut self, from: i64, to: i64) -> Length {
        Length::sixty_fourths(4 * self.between(from, to))
    }

    fn between(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + ((self.0 >> 33) as i64).rem_euclid(to - from + 1)
    }
}

/// What is reported is not above what the plain way gives, but for what one step of rounding and its noise hide.
fn not_above(reported: f64, plain: f64, what: &str, arm: &dyn std::fmt::Debug) {
    assert!(reported <= plain + 1e-9, "{what}: {reported} reported, {plain} the plain way, {arm:?}");
}

fn hold(course: Option<Course>, plain: Option<Plain>, arm: &dyn std::fmt::Debug) -> bool {
    let (Some(course), Some(plain)) = (&course, &plain) else {
        assert!(course.is_none() && plain.is_none(), "one of the two follows {arm:?}: {course:?}");
        return false;
    };
    let decimal = |it: Decimal| f64::try_from(it).unwrap();
    let in_inches = |it: Length| inches(it).unwrap();
    not_above(decimal(course.least_ratio.value), plain.ratio, "ratio", arm);
    not_above(
        decimal(course.least_transmission.value.to_degrees()),
        plain.transmission.to_degrees(),
        "transmission",
        arm,
    );
    if let (Some(AtAngle { value, .. }), Some(plain)) = (course.clearance, plain.clearance) {
        not_above(in_inches(value), plain, "clearance", arm);
    }
    not_above(-in_inches(course.past_hinges), -plain.past, "past the hinges", arm);
    let has = |wanted: fn(&LinkageFault) -> bool| course.faults.iter().any(wanted);
    assert_eq!(!plain.reaches, has(|it| matches!(it, LinkageFault::OutOfReach { .. })), "{arm:?}");
    if plain.clearance.is_some_and(|it| it < 0.0) {
        assert!(has(|it| matches!(it, LinkageFault::Collides { .. })), "{arm:?}");
    }
    if plain.inside.is_some_and(|it| it < 0.0) {
        assert!(has(|it| matches!(it, LinkageFault::OffTrack { .. })), "{arm:?}");
    }
    true
}

#[test]
fn no_course_is_less_safe_than_the_plain_way_finds_it() {
    let mut draws = Draws(20_261_201);
    let mut followed = 0;
    for _ in 0..5_000 {
        let push = PushArm {
            spindle_along: draws.sixteenths(48, 240),
            spindle_out: draws.sixteenths(8, 64),
            pin_along: draws.sixteenths(240, 480),
            pin_out: draws.sixteenths(0, 32),
            main: draws.sixteenths(128, 288),
            shut: Angle::degrees(draws.between(-60, 120)),
            axis_to_face: draws.sixteenths(0, 36),
            reveal: draws.sixteenths(0, 128),
        };
        let pull = PullArm {
            spindle_along: draws.sixteenths(48, 240),
            spindle_out: draws.sixteenths(8, 64),
            main: draws.sixteenths(160, 320),
            track_out: draws.sixteenths(8, 40),
            track_from: draws.sixteenths(120, 260),
            track_to: draws.sixteenths(300, 500),
            axis_to_face: draws.sixteenths(0, 36),
            reveal: draws.sixteenths(0, 64),
        };
        let width = draws.sixteenths(8, 32);
        let open = Angle::degrees(draws.between(60, 120));
        let (most, half) = (radians(number(open, Unit::Degree).unwrap()), inches(width).unwrap() / 2.0);
        followed += usize::from(hold(push.course(open, width), plain_push(&push, most, half), &push));
        followed += usize::from(hold(pull.course(open, width), plain_pull(&pull, most, half), &pull));
    }
    assert!(followed > 5_000, "of 10,000 arms only {followed} can be followed");
}
