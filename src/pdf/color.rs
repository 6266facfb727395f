//! The color space that grays on paper are meant in: an ICC profile of sRGB, made here.
//!
//! In: nothing. Out: a version 4 ICC profile. May not know: pages.
//!
//! Primaries, white and curve: IEC 61966-2-1:1999. Adapted to D50 with the linear Bradford transform of ICC.1:2010 annex E.
//! Form of the file: ICC.1:2010 (version 4.3), clauses 7 and 9, 10.

/// Red, green and blue primaries as XYZ relative to D50, and the D50 white itself (ICC.1:2010, 7.2.16).
const COLORANTS: [(&[u8; 4], [f64; 3]); 4] = [
    (b"wtpt", [0.9642, 1.0, 0.8249]),
    (b"rXYZ", [0.43604, 0.22248, 0.01392]),
    (b"gXYZ", [0.38511, 0.71691, 0.09707]),
    (b"bXYZ", [0.14305, 0.06061, 0.71391]),
];

/// From D65 to D50, row by row.
const ADAPTATION: [f64; 9] = [1.04789, 0.02292, -0.05022, 0.02958, 0.99048, -0.01708, -0.00925, 0.01507, 0.75168];

/// The curve of sRGB: gamma, a, b, c, d of a parametric curve of type 3 (ICC.1:2010, 10.16).
const CURVE: [f64; 5] = [2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045];

/// The profile.
pub(super) fn srgb() -> Vec<u8> {
    let mut tags: Vec<(&[u8; 4], Vec<u8>)> = vec![(b"desc", words("sRGB")), (b"cprt", words("no copyright"))];
    tags.extend(COLORANTS.iter().map(|(name, value)| (*name, numbers(b"XYZ ", value))));
    tags.push((b"chad", numbers(b"sf32", &ADAPTATION)));
    let mut curve = b"para\0\0\0\0\0\x03\0\0".to_vec();
    CURVE.iter().for_each(|value| curve.extend(fixed(*value)));
    tags.extend([b"rTRC", b"gTRC", b"bTRC"].map(|name| (name, curve.clone())));
    assemble(&tags)
}

fn assemble(tags: &[(&[u8; 4], Vec<u8>)]) -> Vec<u8> {
    let mut table = (tags.len() as u32).to_be_bytes().to_vec();
    let mut data: Vec<u8> = Vec::new();
    let base = 128 + 4 + 12 * tags.len();
    let mut previous: Option<(&Vec<u8>, u32)> = None;
    for (name, value) in tags {
        // The three curves are one, so they share their bytes.
        let start = match previous {
            Some((same, start)) if same == value => start,
            _ => {
                let start = (base + data.len()) as u32;
                data.extend(value);
                data.resize(data.len().next_multiple_of(4), 0);
                start
            }
        };
        table.extend_from_slice(*name);
        table.extend(start.to_be_bytes());
        table.extend((value.len() as u32).to_be_bytes());
        previous = Some((value, start));
    }
    let mut profile = header((base + data.len()) as u32);
    profile.extend(table);
    profile.extend(data);
    profile
}

/// The header: size, version 4.3, a display profile from RGB to XYZ, a date as the form asks for one, D50.
fn header(size: u32) -> Vec<u8> {
    let mut header = size.to_be_bytes().to_vec();
    header.extend(b"\0\0\0\0\x04\x30\0\0mntrRGB XYZ ");
    header.extend([1999u16, 10, 18, 0, 0, 0].iter().flat_map(|part| part.to_be_bytes())); // the standard's own year
    header.extend(b"acsp");
    header.resize(68, 0);
    header.extend(COLORANTS[0].1.iter().flat_map(|value| fixed(*value)));
    header.resize(128, 0);
    header
}

/// A text in one language (ICC.1:2010, 10.13).
fn words(text: &str) -> Vec<u8> {
    let letters: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let mut value = b"mluc\0\0\0\0\0\0\0\x01\0\0\0\x0CenUS".to_vec();
    value.extend((letters.len() as u32).to_be_bytes());
    value.extend(28u32.to_be_bytes());
    value.extend(letters);
    value
}

fn numbers(kind: &[u8; 4], values: &[f64]) -> Vec<u8> {
    let mut value = kind.to_vec();
    value.extend([0; 4]);
    values.iter().for_each(|number| value.extend(fixed(*number)));
    value
}

/// A number with sixteen bits before and sixteen behind its point.
fn fixed(number: f64) -> [u8; 4] {
    ((number * 65536.0).round() as i32).to_be_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;

    type Matrix = [[f64; 3]; 3];

    fn times(a: Matrix, b: Matrix) -> Matrix {
        std::array::from_fn(|row| std::array::from_fn(|column| (0..3).map(|k| a[row][k] * b[k][column]).sum()))
    }

    fn inverse(m: Matrix) -> Matrix {
        let minor = |r: usize, c: usize| {
            let (r1, r2, c1, c2) = ((r + 1) % 3, (r + 2) % 3, (c + 1) % 3, (c + 2) % 3);
            m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1]
        };
        let determinant: f64 = (0..3).map(|c| m[0][c] * minor(0, c)).sum();
        std::array::from_fn(|row| std::array::from_fn(|column| minor(column, row) / determinant))
    }

    fn apply(m: Matrix, v: [f64; 3]) -> [f64; 3] {
        std::array::from_fn(|row| (0..3).map(|k| m[row][k] * v[k]).sum())
    }

    fn diagonal(v: [f64; 3]) -> Matrix {
        std::array::from_fn(|row| std::array::from_fn(|column| if row == column { v[row] } else { 0.0 }))
    }

    fn xyz((x, y): (f64, f64)) -> [f64; 3] {
        [x / y, 1.0, (1.0 - x - y) / y]
    }

    /// Primaries and white by IEC 61966-2-1:1999, table 1; the Bradford matrix by ICC.1:2010, annex E.
    #[test]
    fn colorants_follow_from_the_primaries_by_the_bradford_transform() {
        let primaries = [(0.64, 0.33), (0.30, 0.60), (0.15, 0.06)].map(xyz);
        let white = xyz((0.3127, 0.3290));
        let columns: Matrix = std::array::from_fn(|row| std::array::from_fn(|column| primaries[column][row]));
        let to_d65 = times(columns, diagonal(apply(inverse(columns), white)));
        let bradford = [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];
        let (from, to) = (apply(bradford, white), apply(bradford, COLORANTS[0].1));
        let gain = diagonal(std::array::from_fn(|k| to[k] / from[k]));
        let adaptation = times(inverse(bradford), times(gain, bradford));
        let to_d50 = times(adaptation, to_d65);
        for row in 0..3 {
            for column in 0..3 {
                let (ours, exact) = (ADAPTATION[3 * row + column], adaptation[row][column]);
                assert!((ours - exact).abs() < 2e-5, "adaptation {row} {column}: {ours} is not {exact}");
                let (ours, exact) = (COLORANTS[column + 1].1[row], to_d50[row][column]);
                assert!((ours - exact).abs() < 2e-5, "colorant {column} {row}: {ours} is not {exact}");
            }
        }
    }

    #[test]
    fn the_profile_says_its_own_size_and_every_tag_lies_inside() {
        let profile = srgb();
        let word = |at: usize| u32::from_be_bytes(profile[at..at + 4].try_into().unwrap()) as usize;
        assert_eq!(word(0), profile.len());
        assert_eq!(&profile[36..40], b"acsp");
        for tag in 0..word(128) {
            let (start, size) = (word(136 + 12 * tag), word(140 + 12 * tag));
            assert!(start % 4 == 0 && start >= 132 + 12 * word(128) && start + size <= profile.len());
        }
    }
}
