//! Conductors pulled through a run: how long they are cut, and how hard they are pulled.
//!
//! In: lengths, bends, weight, friction. Out: lengths and forces. May not know: which circuit.
//!
//! Free conductor: at least 6 in from where it leaves the raceway, and 3 in outside of an opening of less than 8 in, NEC
//! 300.14 (diy.stackexchange.com/q/301646, secondary). At the header about 12 in are left (common practice, no source).

use crate::measure::Length;

/// Free conductor at a box, 300.14.
pub const FREE_AT_BOX: Length = Length::inches(6);
/// Free conductor at a header (common practice, no source).
pub const FREE_AT_HEADER: Length = Length::inches(12);

/// One conductor through a run with so many boxes or panels and headers at its ends and pull points: the run, and the free
/// length at each. A pull box between has a conductor on either side of it where it is cut there.
pub fn pull_length(run: Length, boxes: u32, headers: u32) -> Option<Length> {
    let free =
        FREE_AT_BOX.checked_times(i64::from(boxes))?.checked_plus(FREE_AT_HEADER.checked_times(headers.into())?)?;
    run.checked_plus(free)
}

/// A part of a run in the order in which it is pulled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stretch {
    /// Straight, of so many feet.
    Straight(f64),
    /// A bend of so many degrees, of so many feet of radius.
    Bend {
        /// Degrees.
        degrees: f64,
        /// Radius, in feet.
        radius: f64,
    },
}

/// Force of a pull.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// At the end, in lb.
    pub tension: f64,
    /// Greatest pressure on the wall of a bend, in lb/ft.
    pub sidewall: f64,
}

/// Tension along a pull: straight `T + w L μ`, bend `T e^(μ θ)`, sidewall pressure `T / R` (the usual formulas of cable
/// pulling, as in tools.gera.services/wire-pulling-tension-calculator, secondary).
pub fn pull(weight_per_foot: f64, friction: f64, way: &[Stretch]) -> Pull {
    way.iter().fold(Pull { tension: 0.0, sidewall: 0.0 }, |pull, stretch| match *stretch {
        Stretch::Straight(feet) => Pull { tension: pull.tension + weight_per_foot * feet * friction, ..pull },
        Stretch::Bend { degrees, radius } => {
            let tension = pull.tension * libm::exp(friction * degrees * std::f64::consts::PI / 180.0);
            let pressure = if radius > 0.0 { tension / radius } else { 0.0 };
            Pull { tension, sidewall: pull.sidewall.max(pressure) }
        }
    })
}

/// The easier of the two directions: tension is not the same both ways. True where it is the order given.
pub fn easier_pull(weight_per_foot: f64, friction: f64, way: &[Stretch]) -> (Pull, bool) {
    let back: Vec<Stretch> = way.iter().rev().copied().collect();
    let (forth, back) = (pull(weight_per_foot, friction, way), pull(weight_per_foot, friction, &back));
    if forth.tension <= back.tension { (forth, true) } else { (back, false) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn free_conductor_is_added_at_each_end() {
        // 300.14 and common practice: 38 ft from a panel to a header, 6 in and 12 in.
        assert_eq!(pull_length(Length::feet(38), 1, 1), Some(Length::inches(38 * 12 + 18)));
        // A pull box in between: free conductor on both sides of it.
        assert_eq!(pull_length(Length::feet(38), 3, 1), Some(Length::inches(38 * 12 + 30)));
        assert_eq!(pull_length(Length::ZERO, 0, 0), Some(Length::ZERO));
    }

    /// 1.5 lb/ft, 200 ft, μ 0.3: 90 lb; then 90 degrees: 144.18 lb, and on a radius of 2 ft 72 lb/ft
    /// (tools.gera.services/wire-pulling-tension-calculator; 144.178 computed).
    #[test]
    fn the_published_pull() {
        assert!((pull(1.5, 0.3, &[Stretch::Straight(200.0)]).tension - 90.0).abs() < 1e-12);
        let way = [Stretch::Straight(200.0), Stretch::Bend { degrees: 90.0, radius: 2.0 }];
        let found = pull(1.5, 0.3, &way);
        assert!((found.tension - 144.178).abs() < 5e-4, "{found:?}");
        assert!((found.sidewall - 72.089).abs() < 5e-4, "{found:?}");
        // From the other end the bend comes while nothing pulls yet.
        let (easier, as_given) = easier_pull(1.5, 0.3, &way);
        assert!(!as_given && (easier.tension - 90.0).abs() < 1e-12);
    }

    /// The same pull in newtons and metres, to 1e-12.
    #[test]
    fn both_unit_systems_agree() {
        let bend = |radius| Stretch::Bend { degrees: 135.0, radius };
        let pounds = pull(0.06, 0.5, &[Stretch::Straight(38.0), bend(0.5), Stretch::Straight(12.0)]);
        let newton = 4.448_221_615_260_5;
        let way = [Stretch::Straight(38.0 * 0.3048), bend(0.5 * 0.3048), Stretch::Straight(12.0 * 0.3048)];
        let newtons = pull(0.06 * newton / 0.3048, 0.5, &way);
        assert!((newtons.tension / newton - pounds.tension).abs() < 1e-12);
        assert!((newtons.sidewall * 0.3048 / newton - pounds.sidewall).abs() < 1e-12);
    }
}
