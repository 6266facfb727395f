//! A font file without what only steers coarse screens: instructions of glyphs, their programs and tables, names.
//!
//! In: a TrueType file. Out: a smaller one with the same outlines and widths; or none where the file does not hold together.
//! May not know: which glyphs are wanted, text, PDF.
//!
//! Readers set type from the outlines, and nobody has to read the instructions: they are two fifths of a small subset.
//! Tables: ISO/IEC 14496-22 (Open Font Format), `glyf`, `loca`, `head`, `post`.

/// Bytes of the file's head and of one entry in its directory.
const HEAD: usize = 12;
const ENTRY: usize = 16;

/// Tables that a file without instructions does not need. The names of a subset stand in the PDF.
const DROPPED: [&[u8; 4]; 6] = [b"cvt ", b"fpgm", b"prep", b"gasp", b"name", b"hdmx"];

/// Bits of what the maker of a font allows.
const RESTRICTED: u16 = 0x0002;
const WHOLE_ONLY: u16 = 0x0100;

/// What the checksum of a whole file and its adjustment add up to.
const WHOLE: u32 = 0xB1B0_AFBA;

/// Flags of a part of a composite glyph.
const WORDS: u16 = 0x0001;
const ONE_SCALE: u16 = 0x0008;
const MORE_PARTS: u16 = 0x0020;
const TWO_SCALES: u16 = 0x0040;
const MATRIX: u16 = 0x0080;
const INSTRUCTIONS: u16 = 0x0100;

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}

/// The tables of a font file by their tags, as they stand in it.
fn tables(file: &[u8]) -> Option<Vec<([u8; 4], &[u8])>> {
    let table = |at: usize| {
        let entry = file.get(HEAD + at * ENTRY..HEAD + (at + 1) * ENTRY)?;
        let (from, length) = (u32_at(entry, 8)? as usize, u32_at(entry, 12)? as usize);
        Some((entry[..4].try_into().ok()?, file.get(from..from.checked_add(length)?)?))
    };
    (0..usize::from(u16_at(file, 4)?)).map(table).collect()
}

/// Why a font may not be put into a paper in part, if its maker forbids that (ISO/IEC 14496-22, `OS/2`, `fsType`).
pub(super) fn forbidden(file: &[u8]) -> Option<&'static str> {
    let tables = tables(file)?;
    let (_, metrics) = tables.iter().find(|(tag, _)| tag == b"OS/2")?;
    match u16_at(metrics, 8)? {
        rights if rights & 0x000E == RESTRICTED => Some("its maker forbids embedding"),
        rights if rights & WHOLE_ONLY != 0 => Some("its maker forbids embedding it in part"),
        _ => None,
    }
}

/// The same font without instructions.
pub(super) fn without_hints(file: &[u8]) -> Option<Vec<u8>> {
    let mut tables: Vec<([u8; 4], Vec<u8>)> =
        tables(file)?.into_iter().map(|(tag, bytes)| (tag, bytes.to_vec())).collect();
    let table = |name: &[u8; 4]| tables.iter().find(|(tag, _)| tag == name).map(|(_, bytes)| bytes.as_slice());
    let (head, loca, glyf) = (table(b"head")?, table(b"loca")?, table(b"glyf")?);
    let (loca, glyf) = bare_glyphs(loca, glyf, u16_at(head, 50)? != 0)?;
    tables.retain(|(tag, _)| !DROPPED.contains(&tag));
    for (tag, bytes) in &mut tables {
        match &*tag {
            b"loca" => bytes.clone_from(&loca),
            b"glyf" => bytes.clone_from(&glyf),
            b"head" => {
                bytes.get_mut(8..12)?.fill(0); // the adjustment, which is calculated last
                bytes.get_mut(50..52)?.copy_from_slice(&1_u16.to_be_bytes()); // `loca` counts bytes
            }
            // Without names of glyphs.
            b"post" => {
                bytes.truncate(32);
                bytes.get_mut(..4)?.copy_from_slice(&0x0003_0000_u32.to_be_bytes());
            }
            _ => {}
        }
    }
    whole(file.get(..4)?, &tables)
}

/// Places and outlines of all glyphs, without their instructions.
fn bare_glyphs(loca: &[u8], glyf: &[u8], long: bool) -> Option<(Vec<u8>, Vec<u8>)> {
    let offset = |at: usize| {
        if long {
            u32_at(loca, at * 4).map(|it| it as usize)
        } else {
            u16_at(loca, at * 2).map(|it| usize::from(it) * 2)
        }
    };
    let count = loca.len() / if long { 4 } else { 2 };
    let (mut places, mut outlines) = (0_u32.to_be_bytes().to_vec(), Vec::new());
    for at in 1..count {
        let glyph = glyf.get(offset(at - 1)?..offset(at)?)?;
        match u16_at(glyph, 0) {
            None => {}
            Some(contours) if contours < 0x8000 => simple(glyph, contours.into(), &mut outlines)?,
            Some(_) => composite(glyph, &mut outlines)?,
        }
        outlines.resize(outlines.len().next_multiple_of(4), 0);
        places.extend(u32::try_from(outlines.len()).ok()?.to_be_bytes());
    }
    Some((places, outlines))
}

/// A glyph of contours: what stands before the instructions, none of them, and what stands behind.
fn simple(glyph: &[u8], contours: usize, out: &mut Vec<u8>) -> Option<()> {
    let before = 10 + contours * 2;
    let length = usize::from(u16_at(glyph, before)?);
    out.extend(glyph.get(..before)?);
    out.extend([0, 0]);
    out.extend(glyph.get(before + 2 + length..)?);
    Some(())
}

/// A glyph of other glyphs: its parts, none of which says that instructions follow.
fn composite(glyph: &[u8], out: &mut Vec<u8>) -> Option<()> {
    out.extend(glyph.get(..10)?);
    let mut at = 10;
    loop {
        let flags = u16_at(glyph, at)?;
        let places = if flags & WORDS == 0 { 2 } else { 4 };
        let scales = match flags {
            _ if flags & ONE_SCALE != 0 => 2,
            _ if flags & TWO_SCALES != 0 => 4,
            _ if flags & MATRIX != 0 => 8,
            _ => 0,
        };
        let end = at + 4 + places + scales;
        out.extend((flags & !INSTRUCTIONS).to_be_bytes());
        out.extend(glyph.get(at + 2..end)?);
        at = end;
        if flags & MORE_PARTS == 0 {
            return Some(());
        }
    }
}

/// A file of tables: directory, tables at multiples of four bytes, checksums.
fn whole(version: &[u8], tables: &[([u8; 4], Vec<u8>)]) -> Option<Vec<u8>> {
    let count = u16::try_from(tables.len()).ok().filter(|count| *count > 0)?;
    let power = count.ilog2() as u16;
    let range = 16 << power;
    let mut out = version.to_vec();
    for value in [count, range, power, count * 16 - range] {
        out.extend(value.to_be_bytes());
    }
    let (mut from, mut head) = (HEAD + tables.len() * ENTRY, 0);
    for (tag, bytes) in tables {
        if tag == b"head" {
            head = from;
        }
        out.extend(tag);
        for value in [sum(bytes), u32::try_from(from).ok()?, u32::try_from(bytes.len()).ok()?] {
            out.extend(value.to_be_bytes());
        }
        from += bytes.len().next_multiple_of(4);
    }
    for (_, bytes) in tables {
        out.extend(bytes);
        out.resize(out.len().next_multiple_of(4), 0);
    }
    let adjustment = WHOLE.wrapping_sub(sum(&out));
    out.get_mut(head + 8..head + 12)?.copy_from_slice(&adjustment.to_be_bytes());
    Some(out)
}

/// The checksum of a table: its words of four bytes, added up, the last filled with zeros.
fn sum(bytes: &[u8]) -> u32 {
    let word = |chunk: &[u8]| {
        let mut word = [0; 4];
        word[..chunk.len()].copy_from_slice(chunk);
        u32::from_be_bytes(word)
    };
    bytes.chunks(4).map(word).fold(0, u32::wrapping_add)
}

#[cfg(test)]
mod tests {
    use super::super::{Faces, Style};
    use super::*;
    use read_fonts::tables::glyf::{Glyph, SimpleGlyph};
    use read_fonts::types::GlyphId;
    use read_fonts::{FontRef, TableProvider};

    /// The points of a glyph of contours, and where its contours end.
    fn points(glyph: &SimpleGlyph) -> (Vec<(i16, i16, bool)>, Vec<u16>) {
        let ends = glyph.end_pts_of_contours().iter().map(|end| end.get()).collect();
        (glyph.points().map(|point| (point.x, point.y, point.on_curve)).collect(), ends)
    }

    fn glyph<'f>(font: &FontRef<'f>, id: GlyphId) -> Option<Glyph<'f>> {
        font.loca(None).unwrap().get_glyf(id, &font.glyf().unwrap()).unwrap()
    }

    /// Every outline and every width, as an independent reader of font files (read-fonts) sees them, before and after.
    #[test]
    fn outlines_and_widths_stay_and_instructions_go() {
        let faces = Faces::built_in();
        for style in Style::ALL {
            let file = faces.bytes(style);
            let bare = without_hints(file).expect("the face holds together");
            let (old, new) = (FontRef::new(file).unwrap(), FontRef::new(&bare).unwrap());
            assert!(new.table_data(read_fonts::types::Tag::new(b"fpgm")).is_none() && bare.len() < file.len());
            let glyphs = |font: &FontRef<'_>| (font.loca(None).unwrap().len(), font.maxp().unwrap().num_glyphs());
            assert_eq!(glyphs(&old), glyphs(&new));
            let (mut simple, mut composite) = (0, 0);
            for id in (0..glyphs(&new).1).map(GlyphId::from) {
                let width = |font: &FontRef<'_>| font.hmtx().unwrap().advance(id);
                assert_eq!(width(&old), width(&new), "{style:?} {id}");
                match (glyph(&old, id), glyph(&new, id)) {
                    (Some(Glyph::Simple(was)), Some(Glyph::Simple(is))) => {
                        assert_eq!(points(&was), points(&is), "{style:?} {id}");
                        assert_eq!(is.instruction_length(), 0);
                        simple += 1;
                    }
                    (Some(Glyph::Composite(was)), Some(Glyph::Composite(is))) => {
                        let parts = |it: &read_fonts::tables::glyf::CompositeGlyph<'_>| {
                            it.components().map(|part| (part.glyph, part.anchor)).collect::<Vec<_>>()
                        };
                        assert_eq!(format!("{:?}", parts(&was)), format!("{:?}", parts(&is)), "{style:?} {id}");
                        composite += 1;
                    }
                    (None, None) => {}
                    _ => panic!("{style:?} {id}: another kind of glyph"),
                }
            }
            assert!(simple > 900 && composite > 0, "{style:?}: {simple} glyphs of contours, {composite} of others");
            // The file and its parts have the checksums that the format asks for.
            assert_eq!(sum(&bare), WHOLE, "{style:?}");
            for record in new.table_directory().table_records().iter().filter(|it| &it.tag().into_bytes() != b"head") {
                let bytes = new.table_data(record.tag()).unwrap();
                assert_eq!(sum(bytes.as_bytes()), record.checksum(), "{style:?} {}", record.tag());
            }
        }
    }

    #[test]
    fn what_the_maker_forbids_is_reported() {
        let file = Faces::built_in().bytes(Style::Regular).to_vec();
        let (_, metrics) = tables(&file).unwrap().into_iter().find(|(tag, _)| tag == b"OS/2").unwrap();
        let at = metrics.as_ptr() as usize - file.as_ptr() as usize + 8;
        let with = |rights: u16| {
            let mut file = file.clone();
            file[at..at + 2].copy_from_slice(&rights.to_be_bytes());
            Faces::read([(); 4].map(|()| file.clone())).err().map(|it| it.fault)
        };
        assert_eq!(with(0x0000), None, "may be installed: no restriction");
        assert_eq!(with(0x0008), None, "editable");
        assert_eq!(with(0x0002), Some("its maker forbids embedding"));
        assert_eq!(with(0x0108), Some("its maker forbids embedding it in part"));
    }

    #[test]
    fn a_file_that_is_cut_off_has_no_such_form() {
        let file = Faces::built_in().bytes(Style::Regular).to_vec();
        for end in [0, 3, 11, 40, 300, file.len() / 2] {
            assert_eq!(without_hints(&file[..end]), None, "{end} bytes");
        }
    }
}
