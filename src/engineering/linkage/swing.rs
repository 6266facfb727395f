//! An arm followed through a swing: where it is every half degree, and the least of what is read off it.
//!
//! In: the place of an arm by the angle of the leaf. Out: how far the leaf gets, least values and the angles at which they
//! occur. May not know: what kind of arm it is, what the values mean.

/// Half a degree.
const STEP: f64 = std::f64::consts::PI / 360.0;
/// How far apart two angles are that are told apart when a least value is narrowed down, in radians.
const NARROW: f64 = 1e-7;
/// The same for the angle up to which the arm reaches.
const NARROW_REACH: f64 = 1e-6;
/// The greater part of a whole that is cut so that the lesser is to the greater as that to the whole.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// An arm followed from shut to the end of its swing. `S` is where it is at one angle, `F` finds that.
pub(super) struct Swing<S, F> {
    /// The angle to which the arm reaches, in radians: that of the open leaf, or where it stops to reach.
    pub end: f64,
    /// Angles and places, every half degree and at the end.
    samples: Vec<(f64, S)>,
    place: F,
}

impl<S, F: Fn(f64) -> Option<S>> Swing<S, F> {
    /// Follows an arm from shut up to an angle; `place` gives where it is, and nothing where it does not reach.
    pub fn of(most: f64, place: F) -> Self {
        let steps = libm::ceil(most / STEP) as usize;
        let at = |step: usize| (step as f64 * STEP).min(most);
        let mut samples: Vec<(f64, S)> = Vec::with_capacity(steps + 1);
        for phi in (0..=steps).map(at) {
            let Some(there) = place(phi) else {
                let end = reach((phi - STEP).max(0.0), phi, |phi| place(phi).is_some());
                if samples.last().is_none_or(|last| last.0 < end) {
                    samples.extend(place(end).map(|there| (end, there)));
                }
                return Swing { end, samples, place };
            };
            samples.push((phi, there));
        }
        Swing { end: most, samples, place }
    }

    /// The least value of the swing, and the angle at which it occurs; nothing where the arm reaches nowhere.
    pub fn least(&self, value: impl Fn(f64, &S) -> f64) -> Option<(f64, f64)> {
        let each = self.samples.iter().map(|(phi, there)| (value(*phi, there), *phi));
        let best = each.min_by(|a, b| a.0.total_cmp(&b.0))?;
        let (low, high) = ((best.1 - STEP).max(0.0), (best.1 + STEP).min(self.end));
        let narrowed = valley(low, high, |phi| Some(value(phi, &(self.place)(phi)?)));
        Some(narrowed.filter(|it| it.0 < best.0).unwrap_or(best))
    }
}

/// The greatest angle of an interval up to which something holds. It holds at `low` and not at `high`.
fn reach(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    while high - low > NARROW_REACH {
        let middle = (low + high) / 2.0;
        if holds(middle) { low = middle } else { high = middle }
    }
    low
}

/// The least value of an interval in which it has one valley, and where it occurs; nothing where there is no value. The section
/// of the interval is golden, so that each step needs one value.
fn valley(mut low: f64, mut high: f64, value: impl Fn(f64) -> Option<f64>) -> Option<(f64, f64)> {
    let (mut left, mut right) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_left, mut at_right) = (value(left)?, value(right)?);
    while high - low > NARROW {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - GOLDEN * (high - low);
            at_left = value(left)?;
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + GOLDEN * (high - low);
            at_right = value(right)?;
        }
    }
    Some(if at_left <= at_right { (at_left, left) } else { (at_right, right) })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The cosine from 100° on has its least value, -1, at 180° (arithmetic).
    #[test]
    fn a_valley_between_two_samples_is_found() {
        let offset = 100.0_f64.to_radians() + 0.001;
        let swing = Swing::of(2.0, |phi| Some(libm::cos(phi + offset)));
        let (least, at) = swing.least(|_, it| *it).unwrap();
        assert!((least + 1.0).abs() < 1e-14, "{least}");
        assert!((at + offset - std::f64::consts::PI).abs() < 1e-6, "{at}");
    }

    #[test]
    fn an_arm_that_stops_to_reach_ends_there() {
        let swing = Swing::of(2.0, |phi| (phi <= 1.2345).then_some(-phi));
        assert!((swing.end - 1.2345).abs() < 1e-6 && swing.end <= 1.2345, "{}", swing.end);
        let (least, _) = swing.least(|_, it| *it).unwrap();
        assert!((least + 1.2345).abs() < 1e-6, "the end is one of the samples: {least}");
        assert_eq!(Swing::of(2.0, |_| None::<f64>).least(|_, it| *it), None);
    }
}
