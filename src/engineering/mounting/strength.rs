//! The allowable pull and shear of one fastener.
//!
//! In: a fastener and what it goes into, in exact measures. Out: forces, down to a tenth of a lbf, and what they rest on.
//! May not know: how many there are.

use super::super::safe_rounding::{down_in, number, positive};
use super::steel_stud::{self, Screw, Sheet};
use super::wood;
use crate::measure::{Force, Length, Unit};

/// A sheet of steel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetSteel {
    /// Design thickness.
    pub thickness: Length,
    /// Tensile strength in lb/in².
    pub tensile: u32,
}

/// The sheet of a stud by its mils: design thickness (18, 27, 30: stud association's table, secondary; 33, 43, 54, 68, 97:
/// from memory) and the usual tensile strength, 33 ksi steel has 45 ksi (from memory); thin drywall studs are taken with
/// 33 ksi as the association's table does. Nothing for other mils.
pub fn stud_sheet(mils: u32) -> Option<SheetSteel> {
    let (ten_thousandths, tensile) = match mils {
        18 => (188, 33_000),
        27 => (283, 33_000),
        30 => (312, 33_000),
        33 => (346, 45_000),
        43 => (451, 45_000),
        54 => (566, 45_000),
        68 => (713, 45_000),
        97 => (1017, 45_000),
        _ => return None,
    };
    Some(SheetSteel { thickness: Length::nanometres(ten_thousandths * 2_540), tensile })
}

/// A fastener and what it goes into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fastener {
    /// A wood screw in side grain.
    WoodScrew {
        /// Diameter of the shank.
        diameter: Length,
        /// Thread in the wood.
        thread: Length,
    },
    /// A lag screw.
    Lag {
        /// Diameter of the shank.
        diameter: Length,
        /// Thread in the wood, without the tapered tip.
        thread: Length,
        /// Whether it goes into end grain.
        end_grain: bool,
    },
    /// A screw through a sheet into a sheet.
    SteelScrew {
        /// Diameter.
        diameter: Length,
        /// Diameter of head or washer.
        head: Length,
        /// Tested strength in shear, without safety factor.
        shear: Force,
        /// Tested strength in tension, without safety factor.
        tension: Force,
        /// The sheet under the head.
        under: SheetSteel,
        /// The sheet that holds the thread.
        into: SheetSteel,
    },
}

/// What one fastener may carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Strength {
    /// In pull.
    pub pull: Force,
    /// In shear; nothing where no value is held.
    pub shear: Option<Force>,
    /// What it rests on.
    pub basis: &'static str,
}

impl Fastener {
    /// Its allowable pull and shear. Framing that nobody identified is taken at a specific gravity of 0.42. Nothing where a
    /// dimension is missing.
    pub fn strength(&self) -> Option<Strength> {
        match *self {
            Fastener::WoodScrew { diameter, thread } => {
                let inch = wood::screw_withdrawal(wood::FRAMING, positive(diameter, Unit::Inch)?);
                let pull = tenth(inch * positive(thread, Unit::Inch)?)?;
                Some(Strength { pull, shear: None, basis: "NDS 12.2-2, G 0.42; shear not calculated" })
            }
            Fastener::Lag { diameter, thread, end_grain } => {
                let inch = wood::lag_withdrawal(wood::FRAMING, positive(diameter, Unit::Inch)?);
                let keeps = if end_grain { wood::LAG_IN_END_GRAIN } else { 1.0 };
                let pull = tenth(inch * keeps * positive(thread, Unit::Inch)?)?;
                Some(Strength { pull, shear: None, basis: "NDS 12.2-1, G 0.42; shear not calculated" })
            }
            Fastener::SteelScrew { diameter, head, shear, tension, under, into } => {
                let screw = Screw {
                    diameter: positive(diameter, Unit::Inch)?,
                    head: positive(head, Unit::Inch)?,
                    shear: positive(shear, Unit::PoundForce)?,
                    tension: positive(tension, Unit::PoundForce)?,
                };
                in_sheets(&screw, sheet(under)?, sheet(into)?)
            }
        }
    }
}

/// The least of pull-out, pull-over and the screw's own; the lesser of tilting and bearing and the screw's own.
fn in_sheets(screw: &Screw, under: Sheet, into: Sheet) -> Option<Strength> {
    let (own_pull, own_shear) = steel_stud::own_strength(screw);
    let pull = steel_stud::pull_out(into, screw).min(steel_stud::pull_over(under, screw)).min(own_pull);
    let shear = steel_stud::shear(under, into, screw).min(own_shear);
    Some(Strength { pull: tenth(pull)?, shear: Some(tenth(shear)?), basis: "AISI screw provisions, factor 3.0" })
}

fn sheet(it: SheetSteel) -> Option<Sheet> {
    Some(Sheet { thick: number(it.thickness, Unit::Inch)?, tensile: f64::from(it.tensile) })
}

fn tenth(pounds: f64) -> Option<Force> {
    down_in(pounds, Unit::PoundForce, 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rust_decimal::Decimal;

    fn lbf(force: Force) -> String {
        force.number_of(Unit::PoundForce).unwrap().to_string()
    }

    fn pounds(number: i64) -> Force {
        Force::new(Decimal::from(number), Unit::PoundForce).unwrap()
    }

    fn ten(under: u32, into: u32) -> Fastener {
        Fastener::SteelScrew {
            diameter: Length::nanometres(4_826_000),
            head: Length::nanometres(8_636_000),
            shear: pounds(1644),
            tension: pounds(1158),
            under: stud_sheet(under).unwrap(),
            into: stud_sheet(into).unwrap(),
        }
    }

    /// 33 mil of 45 ksi, #10: pull-out 83.8 governs, shear 177 (formulas of `steel_stud`; the cells agree with memory of the
    /// stud association's table).
    #[test]
    fn a_screw_in_a_stud() {
        let strength = ten(33, 33).strength().unwrap();
        assert_eq!(lbf(strength.pull), "83.8");
        assert!((number(strength.shear.unwrap(), Unit::PoundForce).unwrap() - 177.0).abs() < 0.6);
        assert_eq!(stud_sheet(20), None);
    }

    /// #12 wood screw, 0.216 in, G 0.42: 108.59 lb an inch (formula of `wood`), 162.8 for 1 1/2 in. Lag 3/8: 234.78 an inch.
    #[test]
    fn screws_and_lags_in_framing() {
        let thread = Length::sixty_fourths(96);
        let screw = Fastener::WoodScrew { diameter: Length::nanometres(5_486_400), thread };
        assert_eq!(lbf(screw.strength().unwrap().pull), "162.8");
        let lag = |end_grain: bool| Fastener::Lag {
            diameter: Length::sixty_fourths(24),
            thread: Length::inches(1),
            end_grain,
        };
        assert_eq!(lbf(lag(false).strength().unwrap().pull), "234.7");
        assert_eq!(lbf(lag(true).strength().unwrap().pull), "176");
        assert_eq!(lag(false).strength().unwrap().shear, None);
    }
}
