//! Checks of the arms against a textbook four-bar, worked figures, and numeric derivatives.

use super::lever::Lever;
use super::plane::{Vector, wrapped};
use super::track::Track;
use crate::engineering::safe_rounding::{degrees, radians};

/// A four-bar in the textbook's frame: crank pivot at the left, ground along x, rocker pivot at the right.
fn four_bar(crank: f64, coupler: f64, rocker: f64, ground: f64, bend: f64) -> Lever {
    Lever {
        spindle: Vector::new(-ground, 0.0),
        pin: Vector::new(rocker, 0.0),
        main: crank,
        rod: coupler,
        sense: 1.0,
        bend,
    }
}

/// Textbook linkage of crank 40, coupler 120, rocker 80, ground 100 ("Example 4.1 p.194", lengths at github
/// orxshi/fourbar e41.py; printed answers 57.33 and -98.01 from memory, digits recomputed): rocker and coupler angles,
/// transmission, speed ratio. And 40/90/70/100 at 45°, posed at mechsimulator.com, answers recomputed.
#[test]
fn the_textbook_four_bar() {
    let rows = [
        ([40.0, 120.0, 80.0, 100.0], 40.0, 57.3249, 20.2979, 37.0270, Some(0.279_92)),
        ([40.0, 120.0, 80.0, 100.0], 40.0, -98.0050, -60.9780, 37.0270, Some(-0.815_11)),
        ([40.0, 120.0, 80.0, 100.0], 30.0, 55.2678, 22.4090, 32.8588, None),
        ([40.0, 120.0, 80.0, 100.0], 30.0, -89.2962, -56.4375, 32.8588, None),
        ([40.0, 90.0, 70.0, 100.0], 45.0, 83.2000, 27.2605, 55.9395, None),
    ];
    for ([crank, coupler, rocker, ground], turned, leaf, rod, transmission, speed) in rows {
        let near = |bend: f64| {
            let state = four_bar(crank, coupler, rocker, ground, bend).at(radians(leaf)).unwrap();
            (wrapped(state.arm - radians(turned)).abs(), state)
        };
        let (one, other) = (near(1.0), near(-1.0));
        let (off, state) = if one.0 < other.0 { one } else { other };
        assert!(off < 2e-5, "{leaf}: {}", degrees(state.arm));
        let found = degrees((state.pin - state.elbow).angle());
        assert!((found - rod).abs() < 1e-3, "{found} {rod}");
        assert!((degrees(state.transmission) - transmission).abs() < 1e-3);
        if let Some(speed) = speed {
            assert!((1.0 / state.ratio - f64::abs(speed)).abs() < 1e-4, "{}", state.ratio);
        }
    }
}

/// Freudenstein's equation solved for the crank by the half-angle, as an independent way to the same angle:
/// `K1 cos t4 - K2 cos t2 + K3 = cos(t2 - t4)`.
fn freudenstein(lever: &Lever, rocker: f64) -> Vec<f64> {
    let (g, a, r, c) = (lever.spindle.length(), lever.main, lever.rod, lever.pin.length());
    let (k1, k2, k3) = (g / a, g / c, (a * a - r * r + c * c + g * g) / (2.0 * a * c));
    // (K2 + cos t4) cos t2 + sin t4 sin t2 = K1 cos t4 + K3.
    let (p, q, s) = (k2 + libm::cos(rocker), libm::sin(rocker), k1 * libm::cos(rocker) + k3);
    let root = libm::sqrt((p * p + q * q - s * s).max(0.0));
    [1.0, -1.0].map(|sign| 2.0 * libm::atan2(q + sign * root, p + s)).to_vec()
}

/// A fixed stream of numbers between 0 and 1 (SplitMix64).
struct Stream(u64);

impl Stream {
    fn next(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        low + (high - low) * ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// The derivative of an angle by central differences of the fourth order; nothing beyond the reach.
fn derivative(phi: f64, angle: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let step = 2e-5;
    let over = |steps: f64| Some(wrapped(angle(phi + steps * step)? - angle(phi - steps * step)?));
    Some((8.0 * over(1.0)? - over(2.0)?) / (12.0 * step))
}

fn any_lever(stream: &mut Stream) -> Lever {
    let spindle = Vector::new(stream.next(2.0, 14.0), stream.next(1.0, 14.0));
    let pin = Vector::new(stream.next(14.0, 34.0), stream.next(0.5, 4.0));
    let sense = if stream.next(0.0, 1.0) < 0.7 { -1.0 } else { 1.0 };
    Lever::fitted(spindle, pin, stream.next(8.0, 20.0), sense, radians(stream.next(20.0, 150.0)))
}

/// The torque ratio is the derivative of the main arm's angle by the leaf's (virtual work), for ten thousand geometries;
/// and the angle is the one of Freudenstein's equation.
#[test]
fn the_ratio_is_the_derivative_and_freudenstein_agrees() {
    let mut stream = Stream(20_261_125);
    let mut tried = 0;
    while tried < crate::engineering::random_tests::times(10_000) {
        let lever = any_lever(&mut stream);
        let phi = stream.next(0.0, radians(110.0));
        let (Some(at), Some(numeric)) = (lever.at(phi), derivative(phi, |phi| Some(lever.at(phi)?.arm))) else {
            continue;
        };
        // The derivative has no end at a dead point; five degrees off it the step is fine enough.
        if at.drive < radians(5.0) {
            continue;
        }
        tried += 1;
        assert!((numeric.abs() - at.ratio).abs() < 1e-7 * at.ratio.max(1.0), "{lever:?} {phi}: {numeric} {}", at.ratio);
        let ground = (lever.spindle * -1.0).angle();
        let rocker = at.pin.angle() - ground;
        let crank = at.arm - ground;
        let off = freudenstein(&lever, rocker).into_iter().map(|it| wrapped(it - crank).abs()).fold(9.0, f64::min);
        assert!(off < 1e-10, "{off}");
    }
}

/// Every dead point is one: the pin is as far as arm and rod reach, or as near as they fold.
#[test]
fn dead_points_are_where_arm_and_rod_are_in_line() {
    let mut stream = Stream(7);
    let mut found = 0;
    for _ in 0..crate::engineering::random_tests::times(2_000) {
        let lever = any_lever(&mut stream);
        for phi in lever.dead_points(radians(180.0)) {
            found += 1;
            let far = (lever.pin_at(phi) - lever.spindle).length();
            let off = (far - lever.main - lever.rod).abs().min((far - (lever.main - lever.rod).abs()).abs());
            assert!(off < 1e-9, "{off}");
        }
    }
    assert!(found > 500);
}

/// Figures worked for the reference of this project with illustrative dimensions: spindle (9, 4), arm 13.5, pin (25, 1.5),
/// arm at 75° while shut. Rod 19.9472; then arm angle, transmission and ratio at five angles.
#[test]
fn a_push_arm_worked_through_its_swing() {
    let fitted = |arm: f64| Lever::fitted(Vector::new(9.0, 4.0), Vector::new(25.0, 1.5), 13.5, -1.0, radians(arm));
    let lever = fitted(75.0);
    assert!((lever.rod - 19.9472).abs() < 5e-5);
    let rows = [
        (0.0, 75.000, 54.61, 1.8735),
        (30.0, 20.518, 61.26, 1.7137),
        (60.0, -27.720, 54.44, 1.5197),
        (90.0, -71.935, 39.30, 1.4537),
        (110.0, -101.780, 25.58, 1.5845),
    ];
    for (phi, arm, transmission, ratio) in rows {
        let at = lever.at(radians(phi)).unwrap();
        assert!((degrees(at.arm) - arm).abs() < 1e-3, "{phi}: {}", degrees(at.arm));
        assert!((degrees(at.transmission) - transmission).abs() < 1e-2);
        assert!((at.ratio - ratio).abs() < 1e-4);
    }
    // At 60° the rod is 16.9398: near its limit at 90° (drive angle 20.6°, ratio 2.396), out of reach at 100°.
    let short = fitted(60.0);
    assert!((short.rod - 16.9398).abs() < 5e-5);
    let at = short.at(radians(90.0)).unwrap();
    assert!((degrees(at.drive) - 20.6).abs() < 0.05 && (at.ratio - 2.396).abs() < 1e-3);
    assert!(short.at(radians(100.0)).is_none() && short.beyond(radians(100.0)) > 0.0);
    assert!(short.dead_points(radians(110.0)).iter().any(|it| (90.0..100.0).contains(&degrees(*it))));
    // At 90° the rod is 22.6274; ratio 1.63656997856 at 45°.
    assert!((fitted(90.0).rod - 22.6274).abs() < 5e-5);
    assert!((fitted(90.0).at(radians(45.0)).unwrap().ratio - 1.636_569_978_560_5).abs() < 1e-11);
}

/// Spindle (9, 3), arm 17, track 1.25 off the hinge line: arm angle, place of the roller and ratio at four angles, worked
/// for the reference of this project; the ratio is the derivative of the arm's angle.
#[test]
fn a_track_arm_worked_through_its_swing() {
    let track = Track { spindle: Vector::new(9.0, 3.0), main: 17.0, offset: 1.25, start: 10.0, end: 30.0 };
    let rows = [
        (0.0, -5.909, 25.910, 1.5322),
        (45.0, 63.850, 24.574, 1.5274),
        (90.0, 127.081, 16.562, 1.2212),
        (110.0, 149.151, 12.924, 0.9803),
    ];
    for (phi, arm, place, ratio) in rows {
        let at = track.at(radians(phi)).unwrap();
        assert!((degrees(at.arm) - arm).abs() < 1e-3, "{phi}: {}", degrees(at.arm));
        assert!((at.place - place).abs() < 1e-3 && (at.ratio - ratio).abs() < 1e-4);
        assert!(track.beyond(&at) < 0.0);
    }
    let mut stream = Stream(99);
    for _ in 0..crate::engineering::random_tests::times(10_000) {
        let track = Track {
            spindle: Vector::new(stream.next(1.0, 12.0), stream.next(0.5, 6.0)),
            main: stream.next(12.0, 22.0),
            offset: stream.next(-1.0, 3.0),
            start: 0.0,
            end: 60.0,
        };
        let phi = stream.next(0.0, radians(100.0));
        let (Some(at), Some(numeric)) = (track.at(phi), derivative(phi, |phi| Some(track.at(phi)?.arm))) else {
            continue;
        };
        if at.drive < radians(5.0) {
            continue;
        }
        assert!((numeric - at.ratio).abs() < 1e-7 * at.ratio.abs().max(1.0), "{track:?} {phi}: {numeric} {}", at.ratio);
    }
}

/// Lengths in millimetres give the angles and ratios of lengths in inches.
#[test]
fn both_systems_agree() {
    let mut stream = Stream(3);
    for _ in 0..crate::engineering::random_tests::times(1_000) {
        let inch = any_lever(&mut stream);
        let scale = 25.4;
        let metric = Lever {
            spindle: inch.spindle * scale,
            pin: inch.pin * scale,
            main: inch.main * scale,
            rod: inch.rod * scale,
            ..inch
        };
        let phi = radians(stream.next(0.0, 100.0));
        let (Some(one), Some(other)) = (inch.at(phi), metric.at(phi)) else { continue };
        // Near a dead point the angle is the arc cosine of almost one, which loses half of the digits.
        if one.drive > radians(10.0) {
            assert!((one.ratio / other.ratio - 1.0).abs() < 1e-12, "{inch:?}");
        }
    }
}
