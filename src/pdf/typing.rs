//! The font of what is filled in: the plain face with the characters that a keyboard gives.
//!
//! In: the faces. Out: a font of the file, simple and embedded, that any reader can set typed text in.
//! May not know: fields, pages.
//!
//! The fonts of the pages hold only the glyphs of the paper and are addressed by glyph; a reader that types needs one it can
//! address by character, with all of an encoding (ISO 32000-1, 9.6.6, WinAnsiEncoding).

use std::collections::{BTreeMap, BTreeSet};

use super::file::{File, Number};
use super::numbers::integer;
use crate::fonts::{Faces, NotSubset, Style, subset, with_characters};

/// Its name in the form's resources.
pub(super) const NAME: &[u8] = b"/Typed";

/// The first code that stands for a character.
const FIRST: u8 = 0x20;

/// The characters of the codes 0x80 to 0x9F of WinAnsiEncoding (ISO 32000-1, annex D.2); 0 where there is none.
const MIDDLE: [u16; 32] = [
    0x20AC, 0, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017D, 0, 0,
    0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0, 0x017E, 0x0178,
];

/// The character of a code, if it has one.
fn character(code: u8) -> Option<char> {
    match code {
        FIRST..=0x7E | 0xA0.. => Some(char::from(code)),
        0x80..0xA0 => char::from_u32(u32::from(MIDDLE[usize::from(code) - 0x80])).filter(|letter| *letter != '\0'),
        _ => None,
    }
}

/// Puts the font into the file.
pub(super) fn put(faces: &Faces, file: &mut File) -> Result<Number, NotSubset> {
    let style = Style::Regular;
    let characters = (FIRST..=u8::MAX).filter_map(character);
    let glyphs: BTreeMap<char, u16> =
        characters.filter_map(|letter| Some((letter, faces.glyph(style, letter)?))).collect();
    let mut cut = subset(faces, style, &glyphs.values().copied().collect::<BTreeSet<u16>>())?;
    let map: BTreeMap<char, u16> = glyphs.iter().map(|(letter, glyph)| (*letter, cut.glyphs[glyph])).collect();
    cut.bytes = with_characters(&cut.bytes, &map);
    let program = file.reserve(1);
    file.put_stream(program, format!("/Length1 {}", cut.bytes.len()).into_bytes(), cut.bytes);
    let name = format!("TYPEDX+{}", faces.name(style));
    let per_mille = |units: i32| i64::from(units) * 1000 / i64::from(faces.units_per_em(style));
    let [x_min, y_min, x_max, y_max] = faces.bounds(style).map(per_mille);
    let mut descriptor = format!(
        "<</Type/FontDescriptor/FontName/{name}/Flags 32/FontBBox[{x_min} {y_min} {x_max} {y_max}]/ItalicAngle 0\
         /Ascent {}/Descent {}/CapHeight {}/StemV 0/FontFile2 ",
        per_mille(faces.ascent(style)),
        per_mille(faces.descent(style)),
        per_mille(faces.cap_height(style)),
    )
    .into_bytes();
    program.refer(&mut descriptor);
    descriptor.extend_from_slice(b">>");
    let descriptor = file.add(descriptor);
    let mut font = format!(
        "<</Type/Font/Subtype/TrueType/BaseFont/{name}/FirstChar {FIRST}/LastChar 255/Encoding/WinAnsiEncoding/Widths["
    )
    .into_bytes();
    for code in FIRST..=u8::MAX {
        let glyph = character(code).and_then(|letter| glyphs.get(&letter));
        integer(&mut font, glyph.map_or(0, |glyph| per_mille(faces.advance(style, *glyph))));
        font.push(b' ');
    }
    font.extend_from_slice(b"]/FontDescriptor ");
    descriptor.refer(&mut font);
    font.extend_from_slice(b">>");
    Ok(file.add(font))
}
