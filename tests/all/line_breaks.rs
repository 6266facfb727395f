//! Line breaks on the page against cases of the Unicode line breaking test, and glyph positions against another shaper.
//!
//! Sources: `tests/fonts/line-breaks.txt`, which names its own; `tests/fonts/harfbuzz.tsv`, written by HarfBuzz.

use std::collections::BTreeMap;

use hingewright::fonts::{Faces, Features, Setter, Style};
use hingewright::pdf::{Properties, write};
use hingewright::typeset::{Owner, Pages, Placed};

use crate::papers;
use crate::pdf_reader::Pdf;

/// The size of plain text on a desk paper, in points.
const SIZE: f64 = 9.5;

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
}

/// The lines of a text in a column so many thousandths of a point wide.
fn printed(text: &str, width: i64, faces: &Faces) -> Vec<String> {
    let markup = format!(
        "<document title=\"t\" lang=\"en\"><sheet><side><part w=\"{}.{:03}pt\"><p>{}</p></part><part><p/></part></side></sheet></document>",
        width / 1000,
        width % 1000,
        escaped(text)
    );
    let pages: Pages = papers::set(&papers::tree(&markup), faces);
    let mut lines: BTreeMap<i32, String> = BTreeMap::new();
    for item in &pages.pages[0].items {
        if let (Owner::Block(_), Placed::Text { y, run, .. }) = (item.owner, &item.placed) {
            lines.entry(y.0).or_default().push_str(&run.text);
        }
    }
    lines.into_values().map(|line| line.trim_end_matches(' ').to_string()).collect()
}

/// The lines of a case that a column holds: as many pieces on each as fit.
fn expected(pieces: &[String], fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for piece in pieces {
        match lines.last_mut().filter(|line| fits(&format!("{line}{piece}"))) {
            Some(line) => line.push_str(piece),
            None => lines.push(piece.clone()),
        }
    }
    lines.iter().map(|line| line.trim_end_matches(' ').to_string()).collect()
}

#[test]
fn lines_break_where_the_unicode_cases_say() {
    let faces = Faces::built_in();
    let (mut compared, mut broken) = (0, 0);
    let mut faults = Vec::new();
    for case in include_str!("../fonts/line-breaks.txt").lines().filter(|line| !line.starts_with('#')) {
        let mut pieces = vec![String::new()];
        for mark in case.split_whitespace().skip(1) {
            match mark {
                "÷" => pieces.push(String::new()),
                "×" => {}
                code => {
                    let letter = char::from_u32(u32::from_str_radix(code, 16).expect("hex")).expect("a character");
                    assert!(faces.covers(Style::Regular, letter), "{case}: the face has U+{code}");
                    pieces.last_mut().expect("one was put there").push(letter);
                }
            }
        }
        assert_eq!(pieces.pop().as_deref(), Some(""), "{case}: a case ends with a break");
        let text = pieces.concat();
        let mut setter = Setter::new(&faces, Features::default());
        let mut wide = |text: &str| {
            let run = setter.shape(Style::Regular, text.trim_end_matches(' '));
            (f64::from(run.advance) * SIZE).ceil() as i64 + 1 // 1,000 units an em
        };
        // From the widest piece to the whole: the columns between which the lines change.
        let least = pieces.iter().map(|piece| wide(piece)).max().unwrap_or(0);
        let mut widths: Vec<i64> = (1..=pieces.len()).map(|count| wide(&pieces[..count].concat())).collect();
        widths.retain(|width| *width >= least);
        widths.push(least);
        for width in widths {
            let mut measure = Setter::new(&faces, Features::default());
            let mut fits = |text: &str| {
                let run = measure.shape(Style::Regular, text.trim_end_matches(' '));
                (f64::from(run.advance) * SIZE).ceil() as i64 <= width
            };
            let fits = std::cell::RefCell::new(&mut fits);
            let asked = expected(&pieces, |text| (fits.borrow_mut())(text));
            let lines = printed(&text, width, &faces);
            if lines != asked {
                faults.push(format!("{case} in {width} thousandths of a point: {lines:?}, not {asked:?}"));
            }
            compared += 1;
            broken += usize::from(asked.len() > 1);
        }
    }
    assert!(faults.is_empty(), "{} of {compared}: {:#?}", faults.len(), &faults[..faults.len().min(30)]);
    assert!(compared > 1000 && broken > 300, "{compared} compared, {broken} broken");
}

/// Every text of the file on one page; where each glyph stands in the PDF, against the advances and offsets of HarfBuzz.
#[test]
fn glyphs_on_the_page_stand_where_harfbuzz_puts_them() {
    let faces = Faces::built_in();
    let mut texts: Vec<(Style, &str, Vec<[i32; 4]>)> = Vec::new();
    for line in include_str!("../fonts/harfbuzz.tsv").lines().filter(|line| !line.starts_with('#')) {
        let fields: Vec<&str> = line.split('\t').collect();
        let style = Style::ALL.into_iter().find(|known| format!("{known:?}") == fields[0]).expect("a style");
        let number = |part: &str| part.parse::<i32>().expect("a number");
        let glyphs: Vec<[i32; 4]> = fields[3]
            .split(' ')
            .map(|glyph| glyph.split(',').map(number).collect::<Vec<_>>().try_into().expect("four numbers"))
            .collect();
        let length: i32 = glyphs.iter().map(|glyph| glyph[1]).sum();
        let single = !fields[2].contains("  ") && fields[2].trim() == fields[2];
        if fields[1] == "plain" && single && f64::from(length) * SIZE / 1000.0 < 490.0 {
            texts.push((style, fields[2], glyphs));
        }
    }
    let look = |style: Style, text: &str| match style {
        Style::Regular => escaped(text),
        Style::Bold => format!("<b>{}</b>", escaped(text)),
        Style::Italic => format!("<i>{}</i>", escaped(text)),
        Style::BoldItalic => format!("<b><i>{}</i></b>", escaped(text)),
    };
    let body: String = texts.iter().map(|(style, text, _)| format!("<p>{}</p>", look(*style, text))).collect();
    let tree = papers::tree(&format!("<document title=\"t\" lang=\"en\"><sheet>{body}</sheet></document>"));
    let pages = papers::set(&tree, &faces);
    let pdf =
        Pdf::read(&write(&pages, &tree, &faces, &Properties::default()).unwrap_or_else(|found| panic!("{found:?}")));
    let shown: Vec<_> =
        pdf.pages().iter().flat_map(|(page, _)| pdf.shown(*page)).filter(|it| !it.glyphs.is_empty()).collect();
    let mut at = shown.iter().peekable();
    let mut compared = 0;
    for (style, text, glyphs) in &texts {
        // A run with raised glyphs is shown in parts; they follow each other.
        let first = at.peek().expect("the text is shown").x;
        let mut pen = 0;
        let mut places = Vec::new();
        while places.len() < glyphs.len() {
            places.extend(at.next().expect("all of it is shown").glyphs.iter().map(|(_, x)| *x));
        }
        assert_eq!(places.len(), glyphs.len(), "{style:?}: {text}");
        for ([_, advance, dx, _], place) in glyphs.iter().zip(places) {
            let exact = first + f64::from(pen + dx) * SIZE / 1000.0; // 1,000 units an em
            assert!((exact - place).abs() <= 0.01, "{style:?}: {text}: {exact} is not {place}");
            pen += advance;
            compared += 1;
        }
    }
    assert!(compared > 900, "{compared} glyphs compared in {} texts", texts.len());
}
