//! Bends of a run and the pull boxes they make necessary.
//!
//! In: bends in the order of the run. Out: where a pull box must come. May not know: lengths, what is pulled.

use rust_decimal::Decimal;

use crate::measure::Angle;

/// Most bends between two pull points, in degrees: NEC 358.26 for EMT, 348.26 and 350.26 for flexible conduit (from
/// memory).
pub const MOST_BETWEEN_PULL_POINTS: i64 = 360;

/// Why bends cannot be counted; the index is that of the bend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BendFault {
    /// Not above zero.
    NotABend(usize),
    /// More than a pull allows, by itself.
    TooMuch(usize),
}

/// Before which bends, by index, a pull box must come so that no pull has more than
/// [`MOST_BETWEEN_PULL_POINTS`]: the fewest boxes, each as late as it may.
///
/// # Errors
/// The first bend that is none or is too much by itself.
pub fn pull_boxes(bends: &[Angle]) -> Result<Vec<usize>, BendFault> {
    let most = Decimal::from(MOST_BETWEEN_PULL_POINTS);
    let mut boxes = Vec::new();
    let mut turned = Decimal::ZERO;
    for (index, bend) in bends.iter().enumerate() {
        let bend = bend.to_degrees();
        match bend {
            _ if bend <= Decimal::ZERO => return Err(BendFault::NotABend(index)),
            _ if bend > most => return Err(BendFault::TooMuch(index)),
            // Both are at most 360.
            _ if turned + bend > most => {
                boxes.push(index);
                turned = bend;
            }
            _ => turned += bend,
        }
    }
    Ok(boxes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boxes(bends: &[i64]) -> Result<Vec<usize>, BendFault> {
        pull_boxes(&bends.iter().map(|bend| Angle::degrees(*bend)).collect::<Vec<_>>())
    }

    #[test]
    fn four_quarter_bends_pass_and_ten_degrees_more_do_not() {
        assert_eq!(boxes(&[]), Ok(vec![]));
        assert_eq!(boxes(&[90, 90, 90, 90]), Ok(vec![]));
        assert_eq!(boxes(&[90, 90, 90, 90, 10]), Ok(vec![4]));
        assert_eq!(boxes(&[90, 90, 90, 45, 90, 90, 90, 90, 45]), Ok(vec![4, 8]));
        assert_eq!(boxes(&[90, 0]), Err(BendFault::NotABend(1)));
        assert_eq!(boxes(&[400]), Err(BendFault::TooMuch(0)));
    }
}
