//! Money that adds up, over many random splits.

use hingewright::money::{Money, allocate};
use rust_decimal::Decimal;

use crate::counts::{allocations, below, random};

/// The sum is the total to the cent; each part is within a cent of its exact share and on its side of zero; a part of no
/// weight gets nothing.
#[test]
fn random_splits_add_up() {
    let random = &mut random(11);
    for _ in 0..allocations() {
        let cents = below(random, 2_000_000_000) as i64 - 1_000_000_000;
        let count = 1 + below(random, 12);
        let weights: Vec<Decimal> = (0..count).map(|_| Decimal::new(below(random, 100_000) as i64, 3)).collect();
        let sum: Decimal = weights.iter().sum();
        if sum.is_zero() {
            continue;
        }
        let total = Money::cents(cents);
        let parts = allocate(total, &weights).unwrap();
        assert_eq!(parts.iter().copied().sum::<Money>(), total, "{cents} over {weights:?}");
        for (part, weight) in parts.iter().zip(&weights) {
            // |part * sum - total * weight| < cent * sum, without a division.
            let off = (part.to_dollars() * sum - total.to_dollars() * weight).abs();
            assert!(off < Decimal::new(1, 2) * sum, "{cents} over {weights:?}: {part:?}");
            assert!(part.is_zero() || (part.is_negative() == total.is_negative() && !weight.is_zero()));
        }
    }
}

/// Equal weights differ by a cent at most and never rise along the list, whatever the order of the rest.
#[test]
fn equal_weights_are_served_in_order() {
    let random = &mut random(12);
    for _ in 0..allocations() / 10 {
        let total = Money::cents(below(random, 1_000_000) as i64);
        let count = 1 + below(random, 40) as usize;
        let parts = allocate(total, &vec![Decimal::ONE; count]).unwrap();
        assert!(parts.windows(2).all(|pair| pair[0] >= pair[1]), "{parts:?}");
        assert!(parts[0] - parts[count - 1] <= Money::cents(1), "{parts:?}");
    }
}
