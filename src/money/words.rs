//! Amounts in words, as bid forms ask for them beside the figures.
//!
//! In: an amount. Out: its words, such as `one thousand twelve dollars and five cents`. May not know: where it is printed.

use rust_decimal::prelude::ToPrimitive;

use super::Money;

const BELOW_TWENTY: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
const GROUPS: [&str; 5] = ["", " thousand", " million", " billion", " trillion"];

impl Money {
    /// The amount in words; none where it is below zero, not whole cents, or a thousand trillion dollars and more.
    pub fn in_words(self) -> Option<String> {
        let cents = self.to_cents()?.to_u64()?;
        let (dollars, cents) = (cents / 100, cents % 100);
        let unit = |number: u64, one: &str, more: &str| if number == 1 { one.to_owned() } else { more.to_owned() };
        Some(format!(
            "{} {} and {} {}",
            number_words(dollars)?,
            unit(dollars, "dollar", "dollars"),
            if cents == 0 { "no".to_owned() } else { number_words(cents)? },
            unit(cents, "cent", "cents")
        ))
    }
}

fn number_words(number: u64) -> Option<String> {
    if number == 0 {
        return Some(BELOW_TWENTY[0].to_owned());
    }
    let mut parts = Vec::new();
    let mut rest = number;
    for group in GROUPS {
        let part = (rest % 1000) as usize;
        rest /= 1000;
        if part > 0 {
            parts.push(format!("{}{group}", hundreds(part)));
        }
    }
    parts.reverse();
    (rest == 0).then(|| parts.join(" "))
}

/// A number from 1 to 999.
fn hundreds(number: usize) -> String {
    let below = number % 100;
    let tens = match (below / 10, below % 10) {
        (0 | 1, _) => BELOW_TWENTY[below].to_owned(),
        (ten, 0) => TENS[ten].to_owned(),
        (ten, one) => format!("{}-{}", TENS[ten], BELOW_TWENTY[one]),
    };
    match (number / 100, below) {
        (0, _) => tens,
        (hundred, 0) => format!("{} hundred", BELOW_TWENTY[hundred]),
        (hundred, _) => format!("{} hundred {tens}", BELOW_TWENTY[hundred]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers in words as English writes them: hyphen from twenty-one to ninety-nine (common practice, no source).
    #[test]
    fn amounts_are_written_out() {
        for (cents, words) in [
            (0, "zero dollars and no cents"),
            (1, "zero dollars and one cent"),
            (10_105, "one hundred one dollars and five cents"),
            (1_00, "one dollar and no cents"),
            (101_320, "one thousand thirteen dollars and twenty cents"),
            (21_871_190, "two hundred eighteen thousand seven hundred eleven dollars and ninety cents"),
            (200_004_099, "two million forty dollars and ninety-nine cents"),
        ] {
            assert_eq!(Money::cents(cents).in_words().as_deref(), Some(words));
        }
        assert_eq!(Money::cents(-5).in_words(), None);
    }
}
