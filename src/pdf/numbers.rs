//! Numbers and strings as a PDF writes them.
//!
//! In: integers and hundredths of a point. Out: the shortest text. May not know: what is measured.
//!
//! Coordinates are rounded once, to hundredths of a point (0.0035 mm), and are integers from then on, so that no system
//! prints another digit.

use crate::markup::Mp;

/// Hundredths of a point: what the file holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cp(pub(super) i32);

impl Cp {
    /// The nearest hundredth, halves upward.
    pub(super) fn of(extent: Mp) -> Cp {
        Cp((extent.0 + 5).div_euclid(10))
    }

    /// The nearest hundredth of a number of points, halves away from zero.
    pub(super) fn points(points: f64) -> Cp {
        Cp((points * 100.0).round() as i32) // a page is far smaller than the range of i32
    }
}

/// Writes an integer.
pub(super) fn integer(out: &mut Vec<u8>, number: i64) {
    let mut digits = [0u8; 20];
    let mut at = digits.len();
    let mut rest = number.unsigned_abs();
    loop {
        at -= 1;
        digits[at] = b'0' + (rest % 10) as u8;
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    if number < 0 {
        out.push(b'-');
    }
    out.extend_from_slice(&digits[at..]);
}

/// Writes hundredths as a decimal, without zeros that say nothing.
pub(super) fn hundredths(out: &mut Vec<u8>, number: Cp) {
    decimal(out, i64::from(number.0), 100);
}

/// Writes several hundredths, each with a space behind it.
pub(super) fn row(out: &mut Vec<u8>, numbers: &[Cp]) {
    for number in numbers {
        hundredths(out, *number);
        out.push(b' ');
    }
}

/// Writes a number of units, each being one part of `whole`, which is a power of ten.
pub(super) fn decimal(out: &mut Vec<u8>, number: i64, whole: u64) {
    let (units, mut part) = (number.unsigned_abs() / whole, number.unsigned_abs() % whole);
    if number < 0 {
        out.push(b'-');
    }
    if units > 0 || part == 0 {
        integer(out, units as i64);
    }
    if part > 0 {
        out.push(b'.');
        let mut place = whole / 10;
        while part > 0 {
            out.push(b'0' + (part / place) as u8);
            part %= place;
            place /= 10;
        }
    }
}

/// Writes a text string: plain where it is ASCII, else UTF-16 with its mark (ISO 32000-1, 7.9.2.2).
pub(super) fn text(out: &mut Vec<u8>, words: &str) {
    if words.bytes().all(|byte| (0x20..0x7F).contains(&byte)) {
        out.push(b'(');
        words.bytes().for_each(|byte| escaped(out, byte));
        out.push(b')');
        return;
    }
    out.extend_from_slice(b"<FEFF");
    for unit in words.encode_utf16() {
        unit.to_be_bytes().into_iter().for_each(|byte| hex(out, byte));
    }
    out.push(b'>');
}

/// Writes a byte of a string in parentheses (ISO 32000-1, 7.3.4.2).
pub(super) fn escaped(out: &mut Vec<u8>, byte: u8) {
    match byte {
        b'(' | b')' | b'\\' => out.extend_from_slice(&[b'\\', byte]),
        b'\r' => out.extend_from_slice(b"\\r"), // a bare one would be read as a line feed
        _ => out.push(byte),
    }
}

/// Writes a byte as two hex digits.
pub(super) fn hex(out: &mut Vec<u8>, byte: u8) {
    const DIGITS: &[u8; 16] = b"0123456789ABCDEF";
    out.extend_from_slice(&[DIGITS[usize::from(byte >> 4)], DIGITS[usize::from(byte & 15)]]);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(write: impl Fn(&mut Vec<u8>)) -> String {
        let mut out = Vec::new();
        write(&mut out);
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn hundredths_have_no_idle_digits() {
        let cases = [(0, "0"), (5, ".05"), (-5, "-.05"), (50, ".5"), (100, "1"), (-1230, "-12.3"), (61_234, "612.34")];
        for (number, expected) in cases {
            assert_eq!(written(|out| hundredths(out, Cp(number))), expected);
        }
    }

    #[test]
    fn thousandths_of_a_point_are_rounded_once() {
        for (mp, cp) in [(0, 0), (4, 0), (5, 1), (-5, 0), (-6, -1), (612_000, 61_200)] {
            assert_eq!(Cp::of(Mp(mp)), Cp(cp));
        }
    }

    #[test]
    fn strings_are_escaped_or_utf16() {
        assert_eq!(written(|out| text(out, "a (b\\)")), "(a \\(b\\\\\\))");
        assert_eq!(written(|out| text(out, "½")), "<FEFF00BD>");
        assert_eq!(written(|out| text(out, "𝄞")), "<FEFFD834DD1E>");
    }

    #[test]
    fn integers_reach_to_both_ends() {
        assert_eq!(written(|out| integer(out, i64::MIN)), i64::MIN.to_string());
        assert_eq!(written(|out| integer(out, 0)), "0");
    }
}
