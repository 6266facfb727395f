//! Extents on paper, exact, in thousandths of a point.
//!
//! In: text such as `1.2in`, `9pt`, `20mm`. Out: integers, so that the same input gives the same page on every system.
//! May not know: what is measured.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Thousandths of a point (1/72,000 in): a position or an extent on paper. What is larger than 414 ft stays at that: no sheet is
/// as large, and whoever looks for room for it finds none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mp(pub i32);

impl Mp {
    /// Nothing.
    pub const ZERO: Mp = Mp(0);

    /// Whole points.
    pub const fn points(points: i32) -> Mp {
        Mp(points * 1000)
    }

    /// Thousandths of an inch; 1 in is 72 points.
    pub const fn mils(thousandths: i32) -> Mp {
        Mp(thousandths * 72)
    }

    /// The extent in points, for whoever draws.
    pub fn as_points(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// Points rounded to the nearest thousandth, halves away from zero.
    pub fn from_points(points: f64) -> Mp {
        Mp((points * 1000.0).round() as i32)
    }

    /// This extent times a fraction, rounded toward zero; none of it where the fraction is over nothing.
    pub fn scaled(self, by: i64, over: i64) -> Mp {
        let part = i64::from(self.0).saturating_mul(by).checked_div(over).unwrap_or_default();
        Mp(part.clamp(i64::from(i32::MIN), i64::from(i32::MAX)) as i32)
    }

    /// Reads a decimal number followed by `in`, `pt` or `mm`; none where it is not one, is negative, or exceeds 200 in.
    pub fn read(text: &str) -> Option<Mp> {
        let unit_at = text.len().checked_sub(2).filter(|at| text.is_char_boundary(*at))?;
        let (number, unit) = text.split_at(unit_at);
        let thousandths = i64::from(read_thousandths(number)?);
        let mp = match unit {
            "pt" => thousandths,
            "in" => thousandths * 72,
            "mm" => (thousandths * 720 + 127) / 254,
            _ => return None,
        };
        (mp <= 200 * 72_000).then_some(Mp(mp as i32))
    }
}

/// Reads a plain decimal with at most three digits after its point, as thousandths.
fn read_thousandths(text: &str) -> Option<i32> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.is_empty() || whole.len() > 5 || part.len() > 3 || !digits(whole) || !digits(part) {
        return None;
    }
    let whole: i32 = whole.parse().ok()?;
    let part: i32 = format!("{part:0<3}").parse().ok()?;
    Some(whole * 1000 + part)
}

/// Reads a share such as `35 %` or `12.5%`, from nothing to the whole, in ten-thousandths.
pub(super) fn read_share(text: &str) -> Option<u16> {
    let thousandths = read_thousandths(text.strip_suffix('%')?.trim())?;
    u16::try_from(thousandths / 10).ok().filter(|share| *share <= 10_000)
}

impl Add for Mp {
    type Output = Mp;
    fn add(self, other: Mp) -> Mp {
        Mp(self.0.saturating_add(other.0))
    }
}

impl Sub for Mp {
    type Output = Mp;
    fn sub(self, other: Mp) -> Mp {
        Mp(self.0.saturating_sub(other.0))
    }
}

impl AddAssign for Mp {
    fn add_assign(&mut self, other: Mp) {
        *self = *self + other;
    }
}

impl SubAssign for Mp {
    fn sub_assign(&mut self, other: Mp) {
        *self = *self - other;
    }
}

impl Mul<i32> for Mp {
    type Output = Mp;
    fn mul(self, by: i32) -> Mp {
        Mp(self.0.saturating_mul(by))
    }
}

impl Div<i32> for Mp {
    type Output = Mp;
    fn div(self, by: i32) -> Mp {
        Mp(self.0 / by)
    }
}

impl Neg for Mp {
    type Output = Mp;
    fn neg(self) -> Mp {
        Mp(self.0.saturating_neg())
    }
}

impl Sum for Mp {
    fn sum<I: Iterator<Item = Mp>>(all: I) -> Mp {
        all.fold(Mp::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::Mp;

    #[test]
    fn reads_shares() {
        let cases = [("35 %", Some(3_500)), ("12.5%", Some(1_250)), ("100%", Some(10_000)), ("0 %", Some(0))];
        for (text, share) in cases.into_iter().chain([("100.1 %", None), ("0.35", None), ("-1 %", None), ("%", None)]) {
            assert_eq!(super::read_share(text), share, "{text}");
        }
    }

    #[test]
    fn what_is_larger_than_any_sheet_stays_at_the_largest() {
        let largest = Mp(i32::MAX);
        assert_eq!(largest + Mp(1), largest);
        assert_eq!([largest, largest].into_iter().sum::<Mp>(), largest);
        assert_eq!(Mp(2) * i32::MAX, largest);
        assert_eq!(largest.scaled(3, 2), largest);
        assert_eq!(-largest - largest, Mp(i32::MIN));
        assert_eq!(Mp(7).scaled(1, 0), Mp::ZERO);
    }

    #[test]
    fn reads_inches_points_and_millimetres() {
        // 1 in = 72 pt = 25.4 mm by the definition of the desktop point; 20 mm = 56.6929 pt.
        let cases = [
            ("1.2in", Some(86_400)),
            ("9pt", Some(9_000)),
            ("0.25pt", Some(250)),
            ("25.4mm", Some(72_000)),
            ("20mm", Some(56_693)),
            ("8.5in", Some(612_000)),
            ("0in", Some(0)),
            ("", None),
            ("in", None),
            ("1,2in", None),
            ("-1in", None),
            ("1e2pt", None),
            ("12", None),
            ("1.2345in", None),
            ("201in", None),
            ("é", None),
        ];
        for (text, expected) in cases {
            assert_eq!(Mp::read(text).map(|mp| mp.0), expected, "{text}");
        }
    }
}
