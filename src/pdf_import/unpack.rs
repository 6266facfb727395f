//! Packed data to plain data, within what may be spent.
//!
//! In: streams. Out: their data unpacked, or the word that they unpack. May not know: what the data are.

use std::io::{Read, Write};

use flate2::read::ZlibDecoder;

use super::budget::Budget;
use super::fault::Fault;
use super::parser::is_space;
use super::value::{Dict, Value};

/// The longest row of a predictor, in bytes.
const LONGEST_ROW: usize = 1 << 20;

const BROKEN: Fault = Fault::Damaged("packed data cannot be unpacked");

/// The filters of a stream and the parameters of each, everything resolved.
pub(super) type Filters<'f> = Vec<(Vec<u8>, Dict<'f>)>;

/// Filters that pack pictures, which stay as they are.
const OF_PICTURES: &[&[u8]] = &[b"DCTDecode", b"DCT", b"CCITTFaxDecode", b"CCF", b"JBIG2Decode", b"JPXDecode"];

/// Filters that pack anything.
const OF_DATA: &[&[u8]] = &[
    b"FlateDecode",
    b"Fl",
    b"LZWDecode",
    b"LZW",
    b"ASCII85Decode",
    b"A85",
    b"ASCIIHexDecode",
    b"AHx",
    b"RunLengthDecode",
    b"RL",
];

fn is_flate(filter: &[u8]) -> bool {
    filter == b"FlateDecode" || filter == b"Fl"
}

/// Data unpacked by all of its filters.
pub(super) fn unpack(data: &[u8], filters: &Filters, budget: &Budget) -> Result<Vec<u8>, Fault> {
    let mut data = std::borrow::Cow::Borrowed(data);
    for (filter, parameters) in filters {
        let plain = if is_flate(filter) {
            without_predictor(inflate(&data, budget)?, parameters)?
        } else if OF_DATA.contains(&filter.as_slice()) {
            match filter.as_slice() {
                b"LZWDecode" | b"LZW" => without_predictor(lzw(&data, parameters, budget)?, parameters)?,
                b"ASCII85Decode" | b"A85" => base_85(&data, budget)?,
                b"ASCIIHexDecode" | b"AHx" => hexadecimal(&data, budget)?,
                _ => runs(&data, budget)?,
            }
        } else {
            return Err(Fault::Damaged("its compression is not supported"));
        };
        data = std::borrow::Cow::Owned(plain);
    }
    Ok(data.into_owned())
}

/// Sees to it that data unpack, as far as they can be tried, before they are carried as they are.
pub(super) fn try_out(data: &[u8], filters: &Filters, budget: &Budget) -> Result<(), Fault> {
    let known = |(filter, _): &(Vec<u8>, Dict)| {
        OF_DATA.contains(&filter.as_slice()) || OF_PICTURES.contains(&filter.as_slice())
    };
    if !filters.iter().all(known) {
        return Err(Fault::Damaged("its compression is not supported"));
    }
    match filters.as_slice() {
        [(filter, _)] if is_flate(filter) => {
            let mut counted = Counted { budget, fault: None };
            let copied = std::io::copy(&mut ZlibDecoder::new(data), &mut counted);
            match (counted.fault, copied) {
                (Some(fault), _) => Err(fault),
                (None, Err(_)) => Err(BROKEN),
                (None, Ok(_)) => Ok(()),
            }
        }
        _ => {
            let before_picture = filters.iter().position(|(filter, _)| OF_PICTURES.contains(&filter.as_slice()));
            let tried: Filters = filters[..before_picture.unwrap_or(filters.len())].to_vec();
            if tried.is_empty() { Ok(()) } else { unpack(data, &tried, budget).map(|_| ()) }
        }
    }
}

/// Counts what is written and keeps nothing.
struct Counted<'b> {
    budget: &'b Budget,
    fault: Option<Fault>,
}

impl Write for Counted<'_> {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        if let Err(fault) = self.budget.unpacked(bytes.len()) {
            self.fault = Some(fault);
            return Err(std::io::ErrorKind::OutOfMemory.into());
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// Inflates (ISO 32000-1, 7.4.4), as far as there is something left to spend.
fn inflate(data: &[u8], budget: &Budget) -> Result<Vec<u8>, Fault> {
    let left = budget.left_to_unpack();
    let mut plain = Vec::new();
    let read = ZlibDecoder::new(data).take(left as u64 + 1).read_to_end(&mut plain);
    budget.unpacked(plain.len())?;
    read.map(|_| plain).map_err(|_| BROKEN)
}

/// Undoes LZW (ISO 32000-1, 7.4.4), by the library that reads encrypted files as well.
fn lzw(data: &[u8], parameters: &Dict, budget: &Budget) -> Result<Vec<u8>, Fault> {
    let early = parameters.get(b"EarlyChange".as_slice()).and_then(Value::whole).unwrap_or(1);
    let parameters = lopdf::dictionary! { "EarlyChange" => early };
    let dictionary = lopdf::dictionary! { "Filter" => "LZWDecode", "DecodeParms" => parameters };
    let stream = lopdf::Stream::new(dictionary, data.to_vec());
    match stream.decompressed_content_with_limit(budget.left_to_unpack()) {
        Ok(plain) => budget.unpacked(plain.len()).map(|()| plain),
        Err(lopdf::Error::Decompress(lopdf::DecompressError::MemoryLimitExceeded { .. })) => {
            Err(Fault::UnpacksTooLarge)
        }
        Err(_) => Err(BROKEN),
    }
}

/// Undoes ASCII base-85 (ISO 32000-1, 7.4.3).
fn base_85(data: &[u8], budget: &Budget) -> Result<Vec<u8>, Fault> {
    budget.unpacked(data.len() * 4)?; // no letter stands for more than four bytes
    let (mut plain, mut group) = (Vec::new(), Vec::new());
    let mut put = |group: &mut Vec<u8>| {
        let count = group.len();
        group.resize(5, 84);
        let sum = group.iter().fold(0u64, |sum, digit| sum * 85 + u64::from(*digit));
        group.clear();
        let bytes = u32::try_from(sum).map_err(|_| BROKEN)?.to_be_bytes();
        plain.extend_from_slice(&bytes[..count.saturating_sub(1)]);
        Ok(())
    };
    for byte in data.iter().copied().filter(|byte| !is_space(*byte)) {
        match byte {
            b'~' => break,
            b'z' if group.is_empty() => {
                group.resize(5, 0);
                put(&mut group)?;
            }
            b'!'..=b'u' => {
                group.push(byte - b'!');
                if group.len() == 5 {
                    put(&mut group)?;
                }
            }
            _ => return Err(BROKEN),
        }
    }
    if !group.is_empty() {
        put(&mut group)?;
    }
    Ok(plain)
}

/// Undoes ASCII hexadecimal (ISO 32000-1, 7.4.2).
fn hexadecimal(data: &[u8], budget: &Budget) -> Result<Vec<u8>, Fault> {
    let digit = |byte: &u8| char::from(*byte).to_digit(16).map(|it| it as u8).ok_or(BROKEN);
    let digits = data.iter().take_while(|byte| **byte != b'>').filter(|byte| !is_space(**byte));
    let digits = digits.map(digit).collect::<Result<Vec<u8>, Fault>>()?;
    budget.unpacked(digits.len())?;
    Ok(digits.chunks(2).map(|two| two[0] << 4 | two.get(1).copied().unwrap_or(0)).collect())
}

/// Undoes run lengths (ISO 32000-1, 7.4.5).
fn runs(data: &[u8], budget: &Budget) -> Result<Vec<u8>, Fault> {
    let (mut plain, mut rest) = (Vec::new(), data);
    while let Some((length, after)) = rest.split_first() {
        let length = usize::from(*length);
        let taken = match length {
            128 => break,
            0..128 => {
                plain.extend_from_slice(after.get(..=length).ok_or(BROKEN)?);
                length + 1
            }
            _ => {
                plain.extend(std::iter::repeat_n(*after.first().ok_or(BROKEN)?, 257 - length));
                1
            }
        };
        rest = &after[taken..];
    }
    budget.unpacked(plain.len())?;
    Ok(plain)
}

/// Undoes a PNG predictor (ISO 32000-1, 7.4.4.4).
fn without_predictor(data: Vec<u8>, parameters: &Dict) -> Result<Vec<u8>, Fault> {
    let count = |key: &[u8], otherwise| parameters.get(key).and_then(Value::count).unwrap_or(otherwise);
    match count(b"Predictor", 1) {
        1 => return Ok(data),
        10..=15 => {}
        _ => return Err(Fault::Damaged("its compression is not supported")),
    }
    let (colors, bits, columns) = (count(b"Colors", 1), count(b"BitsPerComponent", 8), count(b"Columns", 1));
    if colors > 32 || bits > 16 || columns > LONGEST_ROW {
        return Err(BROKEN);
    }
    let (row, pixel) = ((colors * bits * columns).div_ceil(8), (colors * bits).div_ceil(8));
    if row == 0 || row > LONGEST_ROW {
        return Err(BROKEN);
    }
    let mut plain: Vec<u8> = Vec::with_capacity(data.len());
    for line in data.chunks(row + 1) {
        let from = plain.len();
        for (at, byte) in line[1..].iter().enumerate() {
            let left = if at >= pixel { plain[from + at - pixel] } else { 0 };
            let up = if from >= row { plain[from + at - row] } else { 0 };
            let corner = if at >= pixel && from >= row { plain[from + at - row - pixel] } else { 0 };
            let guess = match line[0] {
                0 => 0,
                1 => left,
                2 => up,
                3 => ((u16::from(left) + u16::from(up)) / 2) as u8, // a mean of bytes is a byte
                4 => paeth(left, up, corner),
                _ => return Err(BROKEN),
            };
            plain.push(byte.wrapping_add(guess));
        }
    }
    Ok(plain)
}

/// The predictor of A. W. Paeth (ISO/IEC 15948, 9.4).
fn paeth(left: u8, up: u8, corner: u8) -> u8 {
    let [a, b, c] = [left, up, corner].map(i16::from);
    let guess = a + b - c;
    let [to_a, to_b, to_c] = [a, b, c].map(|it| (guess - it).abs());
    if to_a <= to_b && to_a <= to_c {
        left
    } else if to_b <= to_c {
        up
    } else {
        corner
    }
}
