//! A character map for a font file that has none, so that text typed by hand finds its glyphs.
//!
//! In: a font file and the glyph of each character. Out: the same file with a `cmap` table of format 4 for Unicode, and
//! with its checksums (OpenType 1.9.1). May not know: where the file came from, or PDF.

use std::collections::BTreeMap;

/// The bytes of a table record in the head of the file.
const RECORD: usize = 16;

/// The file with a map. Characters beyond the basic plane are left out, since format 4 has none. A file that is no font comes back
/// as it is.
pub fn with_characters(file: &[u8], glyphs: &BTreeMap<char, u16>) -> Vec<u8> {
    let Some(mut tables) = tables(file) else { return file.to_vec() };
    tables.insert(*b"cmap", character_map(glyphs));
    if let Some(adjustment) = tables.get_mut(b"head").and_then(|head| head.get_mut(8..12)) {
        adjustment.fill(0);
    }
    let mut out = head(&file[..4], &tables);
    let data = out.len();
    let starts: Vec<usize> = tables
        .values()
        .map(|table| {
            let start = out.len();
            out.extend_from_slice(table);
            out.resize(out.len().next_multiple_of(4), 0);
            start
        })
        .collect();
    debug_assert_eq!(starts.first(), Some(&data));
    // The sum of the whole file is 0xB1B0AFBA once this is in the head table: OpenType 1.9.1, `head`, checksumAdjustment.
    let adjustment = 0xB1B0_AFBA_u32.wrapping_sub(checksum(&out)).to_be_bytes();
    if let Some(at) = tables.keys().position(|tag| tag == b"head") {
        out[starts[at] + 8..starts[at] + 12].copy_from_slice(&adjustment);
    }
    out
}

/// The tables of a file by their tags.
fn tables(file: &[u8]) -> Option<BTreeMap<[u8; 4], Vec<u8>>> {
    let count = usize::from(u16::from_be_bytes(file.get(4..6)?.try_into().ok()?));
    let mut tables = BTreeMap::new();
    for record in file.get(12..12 + RECORD * count)?.chunks_exact(RECORD) {
        let word =
            |at: usize| u32::from_be_bytes([record[at], record[at + 1], record[at + 2], record[at + 3]]) as usize;
        let table = file.get(word(8)..word(8).checked_add(word(12))?)?;
        tables.insert([record[0], record[1], record[2], record[3]], table.to_vec());
    }
    Some(tables)
}

/// The head of a file: its version and the records of its tables, with the sums of tables whose adjustment is 0.
fn head(version: &[u8], tables: &BTreeMap<[u8; 4], Vec<u8>>) -> Vec<u8> {
    let mut out = version.to_vec();
    let count = tables.len() as u16; // a file has a dozen tables
    out.extend(search(count, 16).iter().flat_map(|part| part.to_be_bytes()));
    let mut start = 12 + RECORD * tables.len();
    for (tag, table) in tables {
        out.extend_from_slice(tag);
        for part in [checksum(table), start as u32, table.len() as u32] {
            out.extend_from_slice(&part.to_be_bytes());
        }
        start += table.len().next_multiple_of(4);
    }
    out
}

/// A count with the figures for a binary search among records of a size.
fn search(count: u16, size: u16) -> [u16; 4] {
    let steps = count.max(1).ilog2() as u16;
    let range = size << steps;
    [count, range, steps, count * size - range]
}

fn checksum(table: &[u8]) -> u32 {
    let word = |bytes: &[u8]| (0..4).fold(0u32, |word, at| word << 8 | u32::from(bytes.get(at).copied().unwrap_or(0)));
    table.chunks(4).map(word).fold(0, u32::wrapping_add)
}

/// A `cmap` table with one part, for Unicode on Windows.
fn character_map(glyphs: &BTreeMap<char, u16>) -> Vec<u8> {
    let mut segments: Vec<(u16, u16, u16)> = Vec::new();
    for (character, glyph) in glyphs {
        let Ok(code) = u16::try_from(u32::from(*character)) else { continue };
        let shift = glyph.wrapping_sub(code);
        match segments.last_mut() {
            Some((_, end, same)) if end.checked_add(1) == Some(code) && *same == shift => *end = code,
            _ => segments.push((code, code, shift)),
        }
    }
    segments.push((0xFFFF, 0xFFFF, 1)); // the last segment, which maps to the glyph of what is missing
    let count = segments.len() as u16;
    let [_, range, steps, rest] = search(count, 2);
    let mut words = vec![0, 1, 3, 1, 0, 12, 4, 16 + 8 * count, 0, 2 * count, range, steps, rest];
    words.extend(segments.iter().map(|(_, end, _)| *end));
    words.push(0);
    words.extend(segments.iter().map(|(start, ..)| *start));
    words.extend(segments.iter().map(|(.., shift)| *shift));
    words.extend(segments.iter().map(|_| 0));
    words.into_iter().flat_map(u16::to_be_bytes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fonts::{Faces, Style, subset};

    #[test]
    fn every_character_finds_the_glyph_that_it_had_before() {
        let faces = Faces::built_in();
        let letters: Vec<char> = (' '..='~').chain('\u{A1}'..='ÿ').chain("€–—’Ωя".chars()).collect();
        let glyph = |letter: &char| faces.glyph(Style::Regular, *letter).expect("the face has it");
        let cut = subset(&faces, Style::Regular, &letters.iter().map(glyph).collect()).expect("it can be cut");
        let map = letters.iter().map(|letter| (*letter, cut.glyphs[&glyph(letter)])).collect();
        let file = with_characters(&cut.bytes, &map);
        assert_eq!(checksum(&file), 0xB1B0_AFBA, "OpenType 1.9.1, head table");
        // Read back by the shaping library, which shares no code with the writer.
        let font = harfrust::Font::new(file, 0).expect("a font");
        for letter in &letters {
            let read = font.charmap().map_unicode(*letter).map(|glyph| glyph.to_u32());
            assert_eq!(read, Some(u32::from(map[letter])), "{letter}");
        }
        assert_eq!(font.charmap().map_unicode('葉'), None);
    }
}
