//! Torque that opening a leaf demands, at the leaf and at the spindle, beside what an operator gives.
//!
//! In: the parts of the demand at the leaf, the torque ratio of the arm, the efficiency of the joints.
//! Out: torques and the used part of a rating. May not know: arms, operators, where a part of the demand comes from.

use rust_decimal::Decimal;

use super::safe_rounding::{above_zero, number, positive, up, up_in};
use crate::measure::{Torque, Unit};

/// What opening asks for at the leaf.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LeafDemand {
    /// To gather speed.
    pub inertia: Torque,
    /// Against air.
    pub pressure: Torque,
    /// Against a closing spring or device that the drive has to overcome.
    pub closing: Torque,
    /// Against friction of hinges and seals.
    pub friction: Torque,
}

/// What opening asks for at the spindle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SpindleDemand {
    /// At the leaf, in all.
    pub leaf: Torque,
    /// At the spindle.
    pub spindle: Torque,
}

impl LeafDemand {
    /// The sum at the leaf, up to a hundredth of a lbf·ft.
    pub fn in_all(&self) -> Option<Torque> {
        let parts = [self.inertia, self.pressure, self.closing, self.friction];
        let pounds: Option<Vec<f64>> = parts.into_iter().map(|it| number(it, Unit::PoundForceFoot)).collect();
        up_in(pounds?.into_iter().sum(), Unit::PoundForceFoot, 2)
    }

    /// The demand at the spindle, up to a hundredth of a lbf·ft: `τ / (G η)`, G the torque at the leaf for one at the
    /// spindle (virtual work), η the efficiency of arm and joints.
    pub fn at_spindle(&self, ratio: Decimal, efficiency: Decimal) -> Option<SpindleDemand> {
        let leaf = self.in_all()?;
        let divisor = f64::try_from(ratio).ok().and_then(above_zero)? * f64::try_from(efficiency).ok()?;
        let spindle = number(leaf, Unit::PoundForceFoot)? / above_zero(divisor)?;
        Some(SpindleDemand { leaf, spindle: up_in(spindle, Unit::PoundForceFoot, 2)? })
    }
}

impl SpindleDemand {
    /// The used part of a rating, up to a thousandth; above one it is not enough.
    pub fn used(&self, rating: Torque) -> Option<Decimal> {
        up(number(self.spindle, Unit::PoundForceFoot)? / positive(rating, Unit::PoundForceFoot)?, 3)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn torque(text: &str) -> Torque {
        Torque::new(text.parse().unwrap(), Unit::PoundForceFoot).unwrap()
    }

    /// Arithmetic: 8.59 + 16.38 + 6 + 2 = 32.97 at the leaf; over 1.5 and 0.9 it is 24.43 at the spindle.
    #[test]
    fn parts_add_and_the_arm_divides() {
        let demand = LeafDemand {
            inertia: torque("8.59"),
            pressure: torque("16.38"),
            closing: torque("6"),
            friction: torque("2"),
        };
        let found = demand.at_spindle(Decimal::new(15, 1), Decimal::new(9, 1)).unwrap();
        assert_eq!(found.leaf, torque("32.97"));
        assert_eq!(found.spindle, torque("24.43"));
        assert_eq!(found.used(torque("30")), Some(Decimal::new(815, 3)));
        assert!(found.used(torque("24")).unwrap() > Decimal::ONE);
        assert_eq!(demand.at_spindle(Decimal::ZERO, Decimal::ONE), None);
    }
}
