//! Exact fractions of any size, for recomputing what the program computed. Shares no code with it.
//!
//! Whole numbers are lists of 32-bit digits with a sign; a fraction is two of them, never reduced. Slow and simple.

use std::cmp::Ordering;

/// A fraction; the lower number is above zero.
#[derive(Clone, Debug)]
pub struct Fraction {
    negative: bool,
    over: Vec<u32>,
    under: Vec<u32>,
}

fn trim(mut digits: Vec<u32>) -> Vec<u32> {
    while digits.last() == Some(&0) {
        digits.pop();
    }
    digits
}

fn whole(mut number: u128) -> Vec<u32> {
    let mut digits = Vec::new();
    while number > 0 {
        digits.push(number as u32);
        number >>= 32;
    }
    digits
}

fn add(a: &[u32], b: &[u32]) -> Vec<u32> {
    let mut carry = 0_u64;
    let mut out = Vec::new();
    for at in 0..a.len().max(b.len()) {
        carry += u64::from(*a.get(at).unwrap_or(&0)) + u64::from(*b.get(at).unwrap_or(&0));
        out.push(carry as u32);
        carry >>= 32;
    }
    out.push(carry as u32);
    trim(out)
}

/// The larger less the smaller.
fn sub(a: &[u32], b: &[u32]) -> Vec<u32> {
    let mut borrow = 0_i64;
    let mut out = Vec::new();
    for (at, digit) in a.iter().enumerate() {
        let mut left = i64::from(*digit) - i64::from(*b.get(at).unwrap_or(&0)) - borrow;
        borrow = i64::from(left < 0);
        left += borrow << 32;
        out.push(left as u32);
    }
    assert_eq!(borrow, 0, "the second is larger");
    trim(out)
}

fn mul(a: &[u32], b: &[u32]) -> Vec<u32> {
    let mut out = vec![0_u32; a.len() + b.len() + 1];
    for (i, x) in a.iter().enumerate() {
        let mut carry = 0_u64;
        for (j, y) in b.iter().enumerate() {
            carry += u64::from(*x) * u64::from(*y) + u64::from(out[i + j]);
            out[i + j] = carry as u32;
            carry >>= 32;
        }
        out[i + b.len()] = carry as u32;
    }
    trim(out)
}

fn order(a: &[u32], b: &[u32]) -> Ordering {
    a.len().cmp(&b.len()).then_with(|| a.iter().rev().cmp(b.iter().rev()))
}

/// Quotient and remainder, bit by bit.
fn divide(a: &[u32], b: &[u32]) -> (Vec<u32>, Vec<u32>) {
    assert!(!b.is_empty(), "division by zero");
    let mut quotient = vec![0_u32; a.len()];
    let mut rest: Vec<u32> = Vec::new();
    for bit in (0..a.len() * 32).rev() {
        rest = add(&rest, &rest);
        if a[bit / 32] >> (bit % 32) & 1 == 1 {
            rest = add(&rest, &[1]);
        }
        if order(&rest, b) != Ordering::Less {
            rest = sub(&rest, b);
            quotient[bit / 32] |= 1 << (bit % 32);
        }
    }
    (trim(quotient), rest)
}

impl Fraction {
    /// A whole number.
    pub fn whole(number: i128) -> Fraction {
        Fraction::decimal(number, 0)
    }

    /// A whole number with the point moved left by so many places.
    pub fn decimal(mantissa: i128, places: u32) -> Fraction {
        let under = (0..places).fold(vec![1], |under, _| mul(&under, &[10]));
        Fraction { negative: mantissa < 0, over: whole(mantissa.unsigned_abs()), under }
    }

    pub fn is_zero(&self) -> bool {
        self.over.is_empty()
    }

    pub fn is_negative(&self) -> bool {
        self.negative && !self.is_zero()
    }

    pub fn negated(&self) -> Fraction {
        Fraction { negative: !self.negative, ..self.clone() }
    }

    pub fn magnitude(&self) -> Fraction {
        Fraction { negative: false, ..self.clone() }
    }

    pub fn plus(&self, other: &Fraction) -> Fraction {
        let (a, b) = (mul(&self.over, &other.under), mul(&other.over, &self.under));
        let under = mul(&self.under, &other.under);
        if self.negative == other.negative {
            return Fraction { negative: self.negative, over: add(&a, &b), under };
        }
        match order(&a, &b) {
            Ordering::Less => Fraction { negative: other.negative, over: sub(&b, &a), under },
            _ => Fraction { negative: self.negative, over: sub(&a, &b), under },
        }
    }

    pub fn minus(&self, other: &Fraction) -> Fraction {
        self.plus(&other.negated())
    }

    pub fn times(&self, other: &Fraction) -> Fraction {
        let (over, under) = (mul(&self.over, &other.over), mul(&self.under, &other.under));
        Fraction { negative: self.negative != other.negative, over, under }
    }

    pub fn over(&self, other: &Fraction) -> Fraction {
        let (over, under) = (mul(&self.over, &other.under), mul(&self.under, &other.over));
        assert!(!under.is_empty(), "division by zero");
        Fraction { negative: self.negative != other.negative, over, under }
    }

    pub fn power(&self, times: u32) -> Fraction {
        (0..times).fold(Fraction::whole(1), |power, _| power.times(self))
    }

    /// The greatest whole number that is not above it.
    pub fn floor(&self) -> Fraction {
        let (quotient, rest) = divide(&self.over, &self.under);
        let one = if self.is_negative() && !rest.is_empty() { vec![1] } else { Vec::new() };
        Fraction { negative: self.negative, over: add(&quotient, &one), under: vec![1] }
    }

    pub fn is_whole(&self) -> bool {
        divide(&self.over, &self.under).1.is_empty()
    }

    pub fn compare(&self, other: &Fraction) -> Ordering {
        let less = self.minus(other);
        match (less.is_zero(), less.is_negative()) {
            (true, _) => Ordering::Equal,
            (_, true) => Ordering::Less,
            _ => Ordering::Greater,
        }
    }
}

#[test]
fn fractions_calculate_as_whole_numbers_of_the_machine_do() {
    let numbers = [-7_i128, -6, -1, 0, 1, 2, 3, 5, 1 << 33, (1 << 64) + 12_345, -(1 << 90)];
    for a in numbers {
        for b in numbers {
            let (x, y) = (Fraction::whole(a), Fraction::whole(b));
            assert_eq!(x.plus(&y).compare(&Fraction::whole(a + b)), Ordering::Equal, "{a} + {b}");
            assert_eq!(x.minus(&y).compare(&Fraction::whole(a - b)), Ordering::Equal, "{a} - {b}");
            assert_eq!(x.compare(&y), a.cmp(&b), "{a} ? {b}");
            if let Some(product) = a.checked_mul(b) {
                assert_eq!(x.times(&y).compare(&Fraction::whole(product)), Ordering::Equal, "{a} * {b}");
            }
            if b != 0 {
                let floor = a.div_euclid(b) - i128::from(b < 0 && a.rem_euclid(b) != 0);
                assert_eq!(x.over(&y).floor().compare(&Fraction::whole(floor)), Ordering::Equal, "{a} / {b}");
                assert_eq!(x.over(&y).is_whole(), a % b == 0, "{a} / {b}");
            }
        }
    }
}
