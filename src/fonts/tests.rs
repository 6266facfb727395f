//! Unit tests of lettering.

use std::collections::BTreeSet;

use super::*;

fn advance(text: &str, features: Features) -> i32 {
    let faces = Faces::built_in();
    Setter::new(&faces, features).shape(Style::Regular, text).advance
}

#[test]
fn all_four_faces_are_read() {
    let faces = Faces::built_in();
    for style in Style::ALL {
        assert_eq!(Style::new(style.is_bold(), style.is_italic()), style);
        assert_eq!(faces.units_per_em(style), 1000);
        assert!(faces.ascent(style) > faces.cap_height(style));
        assert!(faces.descent(style) < 0);
        assert_eq!(faces.slant(style) < 0, style.is_italic());
        assert!(faces.name(style).starts_with("SourceSans3-"), "{}", faces.name(style));
    }
}

#[test]
fn threads_may_share_faces() {
    fn shared<T: Send + Sync>(_: &T) {}
    shared(&Faces::built_in());
}

#[test]
fn a_file_that_is_no_font_is_refused_with_its_style() {
    let faces = Faces::built_in();
    let bytes = |style| faces.bytes(style).to_vec();
    let files = [bytes(Style::Regular), b"not a font".to_vec(), bytes(Style::Italic), bytes(Style::BoldItalic)];
    let fault = "not a font file with TrueType outlines";
    assert_eq!(Faces::read(files).err(), Some(Unreadable { style: Style::Bold, fault }));
}

#[test]
fn no_break_characters_have_glyphs_of_the_ordinary_ones() {
    let features = Features::default();
    assert_eq!(advance("a\u{A0}b", features), advance("a b", features));
    assert_eq!(advance("3\u{2060}-\u{2060}0", features), advance("3-0", features));
    assert_eq!(advance("3\u{2011}0", features), advance("3\u{2010}0", features));
    assert!(advance("5\u{202F}V", features) > advance("5V", features));
    assert!(advance("5\u{202F}V", features) < advance("5 V", features));
}

#[test]
fn an_em_space_is_one_em_wide_though_the_face_lacks_it() {
    assert_eq!(advance("\u{2003}", Features::default()), 1000);
}

#[test]
fn glyphs_know_the_characters_that_they_show() {
    let faces = Faces::built_in();
    let mut setter = Setter::new(&faces, Features::default());
    for text in
        ["fluid office", "3\u{2060}'\u{2060}-\u{2060}0 1/2\"", "Łódź Ελλάδα Київ", "A\u{301}e\u{328}", "120\u{A0}V"]
    {
        let run = setter.shape(Style::Regular, text);
        let shown: String = (0..run.glyphs.len()).map(|glyph| run.text_of(glyph)).collect();
        assert_eq!(plain(&shown), plain(text));
        assert!(run.glyphs.iter().all(|glyph| glyph.id != 0), "{text}");
    }
}

#[test]
fn figures_are_tabular_unless_asked_otherwise() {
    let tabular = Features::default();
    assert_eq!(advance("1111", tabular), advance("8888", tabular));
    let proportional = Features { tabular: false, ..tabular };
    assert!(advance("1111", proportional) < advance("8888", proportional));
}

#[test]
fn pairs_are_kerned() {
    let features = Features::default();
    assert!(advance("AV", features) < advance("A", features) + advance("V", features));
}

#[test]
fn fractions_and_slashed_zero_change_glyphs_only_where_asked() {
    let faces = Faces::built_in();
    let plain = Features::default();
    let glyphs = |features, text: &str| -> Vec<u16> {
        Setter::new(&faces, features).shape(Style::Regular, text).glyphs.iter().map(|glyph| glyph.id).collect()
    };
    let fractions = Features { fractions: true, ..plain };
    assert_ne!(glyphs(fractions, "5 3/4\""), glyphs(plain, "5 3/4\""));
    assert_eq!(glyphs(fractions, "5 3/4\"")[..2], glyphs(plain, "5 3/4\"")[..2]);
    for text in ["11/25/2026", "room 3/4B", "120/208 V", "2/4", "1/2/4", "A1/2"] {
        assert_eq!(glyphs(fractions, text), glyphs(plain, text), "{text}");
    }
    let zero = Features { slashed_zero: true, ..plain };
    assert_ne!(glyphs(zero, "0"), glyphs(plain, "0"));
    assert_eq!(glyphs(zero, "O"), glyphs(plain, "O"));
}

#[test]
fn the_same_text_is_shaped_once() {
    let faces = Faces::built_in();
    let mut setter = Setter::new(&faces, Features::default());
    let first = setter.shape(Style::Bold, "Header");
    assert!(std::sync::Arc::ptr_eq(&first, &setter.shape(Style::Bold, "Header")));
    assert_ne!(first.advance, setter.shape(Style::Regular, "Header").advance);
}

#[test]
fn what_the_trade_writes_is_covered_in_every_style() {
    let faces = Faces::built_in();
    let signs = "′″½⅓⅔¼¾⅛⅜⅝⅞×≥≤±°→←↑↓☐☑✓–—“”‘’•§¶©®™µΩ№€£¢\u{A0}\u{202F}\u{2011}\u{2060}";
    let letters = ['A'..='Z', 'a'..='z', '0'..='9', 'À'..='ÿ', 'Α'..='Ρ', 'Σ'..='Ω', 'α'..='ω', 'А'..='я'];
    for style in Style::ALL {
        assert_eq!(faces.missing(style, signs), [], "{style:?}");
        let missing: Vec<char> =
            letters.clone().into_iter().flatten().filter(|letter| !faces.covers(style, *letter)).collect();
        assert_eq!(missing, [], "{style:?}");
    }
}

#[test]
fn a_missing_character_is_found_with_its_byte_and_named() {
    let faces = Faces::built_in();
    assert_eq!(faces.missing(Style::Regular, "To 山, or \u{1}"), [(3, '山'), (11, '\u{1}')]);
    let finding = missing_character(Subject::Job, '山');
    assert_eq!(finding.code.id, "missing-character");
    assert_eq!(finding.found, "the character U+5C71 (山)");
    assert!(!finding.blocks.iter().eq([]));
}

#[test]
fn a_subset_keeps_the_order_of_glyphs_and_is_smaller() {
    let faces = Faces::built_in();
    let mut setter = Setter::new(&faces, Features::default());
    let run = setter.shape(Style::Regular, "Hinge side Å ½");
    let used: BTreeSet<u16> = run.glyphs.iter().map(|glyph| glyph.id).collect();
    let subset = subset(&faces, Style::Regular, &used).unwrap();
    let new: Vec<u16> = subset.glyphs.values().copied().collect();
    assert_eq!(new, (0..=used.len() as u16).collect::<Vec<_>>());
    assert!(subset.bytes.len() < faces.bytes(Style::Regular).len() / 20, "{}", subset.bytes.len());
}

#[test]
fn a_part_of_a_run_is_what_it_is_alone() {
    let faces = Faces::built_in();
    let bare = |run: &Run| {
        let glyphs = run.glyphs.iter().map(|glyph| Glyph { parts: true, ..*glyph });
        Run { glyphs: glyphs.collect(), ..run.clone() }
    };
    let mut cut = 0;
    for features in [Features::default(), Features { fractions: true, ..Features::default() }] {
        for text in ["To Avery fluid, office 3/4\" VA. T o", "12 AV 3 Тo Київ, L'T", "1/2 11/25 ½\u{AD}x A\u{301}V"]
        {
            let mut setter = Setter::new(&faces, features);
            let whole = setter.shape(Style::Regular, text);
            let bytes: Vec<usize> = (0..=text.len()).filter(|at| text.is_char_boundary(*at)).collect();
            for start in &bytes {
                for end in bytes.iter().filter(|end| *end > start) {
                    let alone = Setter::new(&faces, features).shape(Style::Regular, &text[*start..*end]);
                    let advance = Setter::new(&faces, features).advance_of(&whole, *start..*end);
                    let part = Setter::new(&faces, features).shape_part(&whole, *start..*end);
                    assert_eq!((bare(&part), advance), (bare(&alone), alone.advance), "{text} {start}..{end}");
                    cut += usize::from(part.glyphs.iter().any(|glyph| glyph.parts));
                }
            }
        }
    }
    assert!(cut > 100, "{cut}");
}
