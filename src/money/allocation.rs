//! Splits a total into parts that add up to it: the method of the largest remainder.
//!
//! In: a total and a weight for each part. Out: parts in the same order, whose sum is the total to the last cent.
//! May not know: what the parts are.

use rust_decimal::Decimal;

use super::Money;

/// Why a total cannot be split.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AllocationFault {
    /// A weight below zero, by its index.
    NegativeWeight(usize),
    /// No weight above zero, and something to split.
    NoWeight,
    /// The total is not a whole number of cents.
    NotCents,
    /// Weights too large, or too unlike in their decimals, to be added exactly.
    TooLarge,
}

/// Splits an amount of whole cents in proportion to `weights`, each part within a cent of its share and the sum exact.
///
/// Cents left over go to the largest remainders, among equal ones to the earlier part. A total below zero is split as
/// its magnitude, so that a credit splits like the charge it takes back.
///
/// # Errors
/// See [`AllocationFault`].
pub fn allocate(total: Money, weights: &[Decimal]) -> Result<Vec<Money>, AllocationFault> {
    let cents = total.to_cents().ok_or(AllocationFault::NotCents)?;
    let parts = apportion(cents, weights)?;
    let part = |count: i128| Decimal::try_from_i128_with_scale(count, 2).map(Money::dollars);
    parts.into_iter().map(part).collect::<Result<_, _>>().map_err(|_| AllocationFault::TooLarge)
}

/// Splits a whole number of things in proportion to `weights`; see [`allocate`].
///
/// # Errors
/// See [`AllocationFault`].
pub fn apportion(total: i128, weights: &[Decimal]) -> Result<Vec<i128>, AllocationFault> {
    if let Some(index) = weights.iter().position(|weight| *weight < Decimal::ZERO) {
        return Err(AllocationFault::NegativeWeight(index));
    }
    let whole = whole_weights(weights).ok_or(AllocationFault::TooLarge)?;
    let sum = whole.iter().try_fold(0_u128, |sum, weight| sum.checked_add(*weight)).ok_or(AllocationFault::TooLarge)?;
    match sum {
        0 if total == 0 => return Ok(vec![0; weights.len()]),
        0 => return Err(AllocationFault::NoWeight),
        // `times_over` triples a number below the sum.
        _ if sum > u128::MAX / 4 => return Err(AllocationFault::TooLarge),
        _ => {}
    }
    let magnitude = total.unsigned_abs();
    let (floors, remainders): (Vec<u128>, Vec<u128>) =
        whole.iter().map(|weight| times_over(magnitude, *weight, sum)).unzip();
    let left = magnitude - floors.iter().sum::<u128>();
    let parts = hand_out(floors, &remainders, left);
    let signed = |part: u128| i128::try_from(part).map(|part| part * total.signum());
    parts.into_iter().map(signed).collect::<Result<_, _>>().map_err(|_| AllocationFault::TooLarge)
}

/// The weights as whole numbers of one scale.
fn whole_weights(weights: &[Decimal]) -> Option<Vec<u128>> {
    let normal: Vec<Decimal> = weights.iter().map(Decimal::normalize).collect();
    let scale = normal.iter().map(Decimal::scale).max().unwrap_or(0);
    let whole = |weight: &Decimal| {
        let factor = 10_u128.checked_pow(scale - weight.scale())?;
        weight.mantissa().unsigned_abs().checked_mul(factor)
    };
    normal.iter().map(whole).collect()
}

/// Quotient and remainder of `count * weight / sum`, bit by bit so that the product need not fit; `weight <= sum`.
fn times_over(count: u128, weight: u128, sum: u128) -> (u128, u128) {
    let (mut quotient, mut remainder) = (0_u128, 0_u128);
    for bit in (0..u128::BITS - count.leading_zeros()).rev() {
        let next = 2 * remainder + if count >> bit & 1 == 1 { weight } else { 0 };
        quotient = 2 * quotient + next / sum;
        remainder = next % sum;
    }
    (quotient, remainder)
}

/// One more for each of the `left` largest remainders, the earlier part first among equal ones.
fn hand_out(mut parts: Vec<u128>, remainders: &[u128], left: u128) -> Vec<u128> {
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by(|a, b| remainders[*b].cmp(&remainders[*a]));
    for (index, _) in order.into_iter().zip(0..left) {
        parts[index] += 1;
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weights(texts: &[&str]) -> Vec<Decimal> {
        texts.iter().map(|text| text.parse().unwrap()).collect()
    }

    #[test]
    fn published_apportionments() {
        // Quotas 78.26 / 17.39 / 4.35 of 100: 78 / 18 / 4:
        // digfir-published.macmillanusa.com fapp10e ch. 14 ex. 5.
        assert_eq!(apportion(100, &weights(&["78.26", "17.39", "4.35"])), Ok(vec![78, 18, 4]));
        // Quotas 3.5 / 2.1 / 1.4 of 7: 4 / 2 / 1: infinitelexicon.com.
        assert_eq!(apportion(7, &weights(&["50", "30", "20"])), Ok(vec![4, 2, 1]));
        // Six parties and ten seats, the example of an encyclopedia: from memory.
        let votes = weights(&["47000", "16000", "15800", "12000", "6100", "3100"]);
        assert_eq!(apportion(10, &votes), Ok(vec![5, 2, 1, 1, 1, 0]));
        // Quotas 2.67 / 6.92 / 4.17 of 13, which do not add up to 13; the one left over goes to the second:
        // mis.kyeop.go.ke 51469908.
        assert_eq!(hand_out(vec![2, 6, 4], &[67, 92, 17], 1), [2, 7, 4]);
    }

    #[test]
    fn thirds_of_a_hundred_dollars_favour_the_first() {
        let third = vec![Decimal::ONE; 3];
        let parts = |total: i64| allocate(Money::dollars(total), &third).unwrap();
        assert_eq!(parts(100), [3334, 3333, 3333].map(Money::cents));
        assert_eq!(parts(-100), [-3334, -3333, -3333].map(Money::cents));
    }

    #[test]
    fn what_cannot_be_split_is_refused() {
        use AllocationFault::*;
        let dollar = Money::dollars(1);
        assert_eq!(allocate(dollar, &weights(&["1", "-1"])), Err(NegativeWeight(1)));
        assert_eq!(allocate(dollar, &weights(&["0", "0"])), Err(NoWeight));
        assert_eq!(allocate(dollar, &[]), Err(NoWeight));
        assert_eq!(allocate(Money::ZERO, &weights(&["0", "0"])), Ok(vec![Money::ZERO; 2]));
        assert_eq!(allocate(Money::dollars(Decimal::new(1, 3)), &[Decimal::ONE]), Err(NotCents));
        assert_eq!(allocate(dollar, &[Decimal::MAX, Decimal::new(1, 28)]), Err(TooLarge));
        // Weights of 28 digits, such as unrounded prices, are no obstacle.
        let third = Decimal::ONE / Decimal::from(3);
        assert_eq!(allocate(dollar, &[third, third]), Ok(vec![Money::cents(50); 2]));
    }
}
