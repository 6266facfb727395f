//! Fonts in the file: subsets of the faces, embedded, with widths and the map to characters.
//!
//! In: the letters that a paper uses. Out: font objects in the file and the dictionary that names them.
//! May not know: pages, tags.
//!
//! printpdf writes the font dictionaries; a page that shows every letter once tells it which. What it cannot know without
//! its own font parser (the height of capitals, the slant, codes that share a glyph) is put in afterwards.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use lopdf::{Dictionary, Object, ObjectId};
use printpdf::{
    Codepoint, FontId, FontMetrics, FontType, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle,
    PdfFontMetricsStub, PdfPage, PdfSaveOptions, Pt, TextItem,
};
use sha2::{Digest, Sha256};

use super::alphabet::{Alphabet, Letters};
use super::file::{File, Number};
use super::objects::{references, write_object};
use crate::fonts::{Faces, NotSubset, Style, Subset, subset};

/// The name that content streams use for the font of a style.
pub(super) fn resource_name(style: Style) -> &'static str {
    ["F0", "F1", "F2", "F3"][style as usize]
}

/// Puts the fonts used into the file; hands out the dictionary that names them.
pub(super) fn embed(alphabet: &Alphabet, faces: &Faces, file: &mut File) -> Result<Number, NotSubset> {
    let mut document = PdfDocument::new("");
    let mut ops = Vec::new();
    let mut maps = BTreeMap::new();
    for style in Style::ALL {
        let letters = &alphabet.styles[style as usize];
        if letters.letters.is_empty() {
            continue;
        }
        let subset = subset(faces, style, &letters.glyphs())?;
        let name = FontId(resource_name(style).to_string());
        maps.insert(style, glyph_map(letters, &subset));
        document.resources.fonts.map.insert(name.clone(), PdfFont::new(parsed(style, letters, subset, faces)));
        ops.push(Op::SetFont { font: PdfFontHandle::External(name), size: Pt(9.0) });
        ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(codepoints(letters))] });
    }
    document.pages.push(PdfPage::new(Mm(10.0), Mm(10.0), ops));
    let mut lo = printpdf::serialize::to_lopdf_doc(&document, &PdfSaveOptions::default(), &mut Vec::new());
    let names = font_names(&lo);
    for (style, map) in maps {
        mend(&mut lo, &names, style, map, faces);
    }
    Ok(take_over(&lo, names, file))
}

fn codepoints(letters: &Letters) -> Vec<Codepoint> {
    let coded = letters.letters.iter().zip(1u16..);
    coded.map(|(letter, code)| Codepoint { gid: code, offset: 0.0, cid: Some(letter.text.to_string()) }).collect()
}

/// The subset as printpdf takes it, with all measures in thousandths of an em, as the file has them.
fn parsed(style: Style, letters: &Letters, subset: Subset, faces: &Faces) -> ParsedFont {
    let per_mille = |units: i32| (units * 1000 / faces.units_per_em(style)) as i16;
    let [x_min, y_min, x_max, y_max] = faces.bounds(style).map(per_mille);
    let tag: String = Sha256::digest(&subset.bytes)[..6].iter().map(|byte| char::from(b'A' + byte % 26)).collect();
    ParsedFont {
        font_name: Some(format!("{tag}+{}", faces.name(style))),
        original_bytes: subset.bytes,
        font_index: 0,
        codepoint_to_glyph: BTreeMap::new(),
        glyph_widths: (1..).zip(letters.letters.iter().map(|letter| letter.width as u16)).collect(),
        units_per_em: 1000,
        font_metrics: FontMetrics { ascent: per_mille(faces.ascent(style)), descent: per_mille(faces.descent(style)) },
        font_type: FontType::TrueType,
        pdf_font_metrics: PdfFontMetricsStub {
            units_per_em: 1000,
            x_min,
            y_min,
            x_max,
            y_max,
            us_weight_class: if style.is_bold() { 700 } else { 400 },
            ..Default::default()
        },
    }
}

/// The glyph of every code, from 0 on, where a code is not its own glyph; none where every code is.
fn glyph_map(letters: &Letters, subset: &Subset) -> Option<Vec<u8>> {
    let glyphs: Vec<u16> = std::iter::once(0)
        .chain(letters.letters.iter().map(|letter| subset.glyphs.get(&letter.glyph).copied().unwrap_or(0)))
        .collect();
    let same = glyphs.iter().zip(0u16..).all(|(glyph, code)| *glyph == code);
    (!same).then(|| glyphs.into_iter().flat_map(u16::to_be_bytes).collect())
}

/// The dictionary of font names that printpdf gave its page.
fn font_names(lo: &lopdf::Document) -> Dictionary {
    let page = lo.page_iter().next().and_then(|page| lo.get_dictionary(page).ok());
    let resources = page.and_then(|page| lo.get_dict_in_dict(page, b"Resources").ok());
    resources.and_then(|resources| lo.get_dict_in_dict(resources, b"Font").ok()).cloned().unwrap_or_default()
}

/// Puts into a font what printpdf leaves out.
fn mend(lo: &mut lopdf::Document, names: &Dictionary, style: Style, map: Option<Vec<u8>>, faces: &Faces) {
    let map = map.map(|glyphs| lo.add_object(lopdf::Stream::new(Dictionary::new(), glyphs)));
    let font = names.get(resource_name(style).as_bytes()).and_then(Object::as_reference);
    let Some(font) = font.ok().and_then(|font| lo.get_object_mut(font).ok()?.as_dict_mut().ok()) else { return };
    let descendants = font.get_mut(b"DescendantFonts").and_then(Object::as_array_mut);
    let descendant = descendants.ok().and_then(|fonts| fonts.first_mut()?.as_dict_mut().ok());
    let Some(descendant) = descendant else { return };
    if let Some(map) = map {
        descendant.set("CIDToGIDMap", Object::Reference(map));
    }
    let descriptor = descendant.get(b"FontDescriptor").and_then(Object::as_reference);
    let descriptor = descriptor.ok().and_then(|id| lo.get_object_mut(id).ok()?.as_dict_mut().ok());
    let Some(descriptor) = descriptor else { return };
    let per_mille = |units: i32| i64::from(units) * 1000 / i64::from(faces.units_per_em(style));
    descriptor.set("CapHeight", per_mille(faces.cap_height(style)));
    if style.is_italic() {
        descriptor.set("ItalicAngle", faces.slant(style));
        descriptor.set("Flags", 32 + 64); // nonsymbolic, italic: ISO 32000-1, table 123
    }
}

/// Copies the fonts, and what they refer to, under numbers of our own.
fn take_over(lo: &lopdf::Document, names: Dictionary, file: &mut File) -> Number {
    let mut numbers: BTreeMap<ObjectId, Number> = BTreeMap::new();
    let names = Object::Dictionary(names);
    let mut open = references(&names);
    while let Some(id) = open.pop() {
        if let Entry::Vacant(entry) = numbers.entry(id) {
            entry.insert(file.reserve(1));
            open.extend(lo.get_object(id).map(references).unwrap_or_default());
        }
    }
    for (id, number) in &numbers {
        match lo.get_object(*id) {
            Ok(Object::Stream(stream)) => {
                let mut entries = Vec::new();
                for (key, value) in stream.dict.iter().filter(|(key, _)| *key != b"Length" && *key != b"Filter") {
                    write_object(&Object::Name(key.clone()), &numbers, &mut entries);
                    entries.push(b' ');
                    write_object(value, &numbers, &mut entries);
                }
                file.put_stream(*number, entries, stream.content.clone());
            }
            Ok(object) => file.put(*number, written(object, &numbers)),
            Err(_) => file.put(*number, b"null".to_vec()),
        }
    }
    file.add(written(&names, &numbers))
}

fn written(object: &Object, numbers: &BTreeMap<ObjectId, Number>) -> Vec<u8> {
    let mut out = Vec::new();
    write_object(object, numbers, &mut out);
    out
}
