//! Files that the print wing writes, read back by a reader that shares no code with it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use hingewright::findings::Place;
use hingewright::fonts::Faces;
use hingewright::pdf::{Claim, Day, Properties, write};
use hingewright::pipeline::Form;
use hingewright::shapes::Shape;
use hingewright::typeset::Placed;

use crate::papers;
use crate::pdf_reader::{Array, Dict, Element, Entries, Kid, Mark, MaybeRef, Object, Pdf};

const PAPER: &str = r#"<document title="Head schedule – ½" lang="en-US">
<foot><left>Ashgrove</left><right>Page <page/> of <pages/></right></foot>
<sheet>
<h1>Schedule of openings</h1>
<p name="intro">Fluid office, 3'-0" x 7'-0", <b>bold</b> and <i>italic</i> and <b><i>both</i></b>.</p>
<h2>Ωmega, Київ, Łódź</h2>
<ul><li>first</li><li><check/> second <check on="yes"/></li></ul>
<dl><dt>Leaf</dt><dd name="leaf">3 ft</dd><dt>Hand</dt><dd>LHR</dd></dl>
<table><col w="*"/><col w="1in"/>
<thead><tr><th>Mark</th><th>Count</th></tr></thead>
<tbody><tr><th scope="row">101A</th><td name="count.101A">1</td></tr><tr><td colspan="2">both</td></tr>
<tr><td></td><td>2</td></tr></tbody></table>
<h3>Plan</h3>
<figure drawing="plan" alt="What it shows"><caption>The plan</caption></figure>
<side><part><p>left</p></part><part><box class="caution" title="Caution"><p>live</p></box></part></side>
</sheet></document>"#;

fn properties() -> Properties {
    Properties {
        author: "Ashgrove & Daughters".into(),
        subject: "Doors".into(),
        date: Some(Day { year: 2026, month: 12, day: 10 }),
        fingerprint: "00ff".repeat(16),
        claim: Claim::Accessible,
        internal: false,
    }
}

fn written(markup: &str) -> Vec<u8> {
    let faces = Faces::built_in();
    let tree = papers::tree(markup);
    let pages = papers::set(&tree, &faces);
    write(&pages, &tree, &faces, &properties()).unwrap_or_else(|found| panic!("{found:?}"))
}

/// The paper with so many more rows in its table, which then runs over pages.
fn with_rows(rows: usize) -> String {
    let more: String = (0..rows).map(|row| format!("<tr><th scope=\"row\">B{row}</th><td>{row}</td></tr>")).collect();
    PAPER.replace("</tbody>", &format!("{more}</tbody>"))
}

#[test]
fn text_comes_out_as_it_went_in() {
    let bytes = written(PAPER);
    let lines = [
        "Schedule of openings",
        "Fluid office, 3'-0\" x 7'-0\", bold and italic and both.",
        "Ωmega, Київ, Łódź",
        "•",
        "first",
        "•",
        "☐ second ☑",
        "Leaf",
        "3 ft",
        "Hand",
        "LHR",
        "Mark",
        "Count",
        "101A",
        "1",
        "both",
        "2",
        "Plan",
        "36 in swing",
        "The plan",
        "left",
        "Caution",
        "live",
    ];
    let text = Pdf::read(&bytes).text();
    let got: Vec<String> = text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    assert_eq!(got, lines);
}

#[test]
fn blocks_become_the_elements_that_a_reader_expects() {
    let bytes = written(PAPER);
    let pdf = Pdf::read(&bytes);
    fn outline(element: &Element) -> String {
        let children: Vec<String> = element.elements().map(outline).collect();
        let kids = if children.is_empty() { String::new() } else { format!("({})", children.join(" ")) };
        format!("{}{kids}", element.role)
    }
    assert_eq!(
        outline(pdf.structure()),
        "Document(H1 P H2 L(LI(Lbl LBody) LI(Lbl LBody(Form Form))) L(LI(Lbl LBody) LI(Lbl LBody)) \
         Table(THead(TR(TH TH)) TBody(TR(TH TD) TR(TD) TR(TD TD))) H3 Figure(Caption) P Div(P P))"
    );
    let mut attributes = Vec::new();
    pdf.structure().walk(&mut |element| {
        let said = pdf.dict(element.number).get::<Dict<'_>>("A").unwrap_or_default();
        match element.role.as_str() {
            "TH" => attributes.push(format!("TH {}", said.name("Scope").unwrap())),
            "TD" if !said.is_empty() => attributes.push(format!("TD {}", said.int("ColSpan").unwrap())),
            "L" if !said.is_empty() => attributes.push(format!("L {}", said.name("ListNumbering").unwrap())),
            "Figure" => {
                attributes.push(element.alt.clone().unwrap());
                let [left, bottom, right, top] = said.get::<[f64; 4]>("BBox").unwrap();
                assert_eq!((right - left, top - bottom), (80.0, 40.0));
            }
            _ => {}
        }
    });
    assert_eq!(attributes, ["L Disc", "TH Column", "TH Column", "TH Row", "TD 2", "What it shows"]);
    assert_eq!(pdf.named("count.101A"), ["1"]);
    assert_eq!(pdf.named("leaf"), ["3 ft"]);
    assert_eq!(pdf.named("intro").len(), 1);
    let rows = [vec!["Mark", "Count"], vec!["101A", "1"], vec!["both"], vec!["", "2"]];
    assert_eq!(pdf.tables(), [rows]);
}

#[test]
fn lines_of_a_paragraph_are_read_as_one_text() {
    let text = "Hang the header on the push side, 84 1/2 in above the floor, between the jambs; the low-energy operator \
                opens the leaf 3'-0\" x 7'-0\" in 4\u{A0}s at 120\u{202F}V, with\u{2011}out touching the stop. ";
    let markup =
        format!("<document title=\"t\" lang=\"en\"><sheet><h1>t</h1><p>{}</p></sheet></document>", text.repeat(9));
    let pdf = Pdf::read(&written(&markup));
    let (number, _) = pdf.pages()[0];
    let lines: BTreeSet<i64> = pdf.shown(number).iter().map(|shown| (shown.y * 100.0) as i64).collect();
    assert!(lines.len() > 10, "{} lines", lines.len());
    let expected = text.replace(['\u{A0}', '\u{202F}'], " ").replace('\u{2011}', "-").repeat(9);
    assert_eq!(pdf.text(), format!("t\n{}", expected.trim_end()));
}

/// ISO 32000-1, 14.7.4.4: the parent tree gives for every marked content the element that holds it, and no other.
#[test]
fn the_parent_tree_is_the_inverse_of_the_marks() {
    for rows in [0, 100, 1000] {
        let pdf = Pdf::read(&written(&with_rows(rows)));
        assert_eq!(pdf.pages().len() > 1, rows > 0);
        let mut held = BTreeMap::new();
        pdf.structure().walk(&mut |element| {
            for kid in &element.kids {
                if let Kid::Content(page, id) = kid {
                    assert_eq!(held.insert((*page, *id), element.number), None, "content in two elements");
                }
            }
        });
        let mut marked = BTreeMap::new();
        for ((number, page), (same, elements)) in pdf.pages().into_iter().zip(pdf.parents()) {
            assert_eq!(number, same);
            let ids = pdf.content_ids(&page);
            assert_eq!(ids, (0..elements.len() as u32).collect::<Vec<_>>(), "ids count from 0 in reading order");
            marked.extend(ids.into_iter().zip(elements).map(|(id, element)| ((number, id), element)));
        }
        assert!(!marked.is_empty());
        assert_eq!(held, marked);
    }
}

#[test]
fn everything_shown_is_content_or_artifact() {
    let pdf = Pdf::read(&written(&with_rows(100)));
    let pages = pdf.pages().len();
    let mut artifacts = Vec::new();
    for (number, _) in pdf.pages() {
        for shown in pdf.shown(number) {
            assert_ne!(shown.mark, Mark::None, "{}", shown.text);
            if shown.mark == Mark::Artifact {
                artifacts.push(shown.text.as_str());
            }
        }
    }
    // The foot of every page, and the head of the table where the table goes on.
    let of = |part: &str| artifacts.iter().filter(|text| **text == part).count();
    let has_row = |number: u32| pdf.shown(number).iter().any(|shown| shown.text.starts_with('B'));
    let heads = pdf.pages().iter().filter(|(number, _)| has_row(*number)).count() - 1;
    assert!(heads > 0);
    assert_eq!((of("Ashgrove"), of("Mark"), of("Count")), (pages, heads, heads));
    assert!((1..=pages).all(|page| of(&format!("Page {page} of {pages}")) == 1));
    assert_eq!(artifacts.len(), 2 * pages + 2 * heads);
}

/// ISO 14289-1, 7.21.4 and ISO 19005-2, 6.2.11: every font is embedded, with every glyph that is used.
#[test]
fn every_font_is_embedded_with_every_glyph_that_is_used() {
    let bytes = written(PAPER);
    let pdf = Pdf::read(&bytes);
    let mut embedded = BTreeMap::new();
    for object in pdf.objects() {
        let Object::Dict(font) = object else { continue };
        if font.name("Subtype").as_deref() == Some("Type0") {
            let descendant = font.get::<Vec<Dict<'_>>>("DescendantFonts").unwrap().remove(0);
            let descriptor = descendant.get::<Dict<'_>>("FontDescriptor").unwrap();
            let map = match descendant.get_raw::<Object<'_>>("CIDToGIDMap").unwrap() {
                MaybeRef::NotRef(_) => None,
                MaybeRef::Ref(_) => Some(pdf.stream(&descendant, "CIDToGIDMap")),
            };
            embedded.insert(font.name("BaseFont").unwrap(), (pdf.stream(&descriptor, "FontFile2"), map));
        }
    }
    let mut used: BTreeMap<String, BTreeSet<u16>> = BTreeMap::new();
    for (number, _) in pdf.pages() {
        for shown in pdf.shown(number).iter().filter(|shown| !shown.glyphs.is_empty()) {
            used.entry(shown.font.clone()).or_default().extend(shown.glyphs.iter().map(|(code, _)| code));
        }
    }
    assert_eq!(used.len(), 4, "four styles are used");
    assert_eq!(used.keys().collect::<Vec<_>>(), embedded.keys().collect::<Vec<_>>());
    for (name, codes) in used {
        let (file, map) = embedded[&name];
        let (tag, _) = name.split_once('+').expect("a subset is named as one");
        assert!(tag.len() == 6 && tag.bytes().all(|byte| byte.is_ascii_uppercase()), "{name}");
        for code in codes {
            let glyph =
                map.map_or(code, |map| u16::from_be_bytes([map[2 * code as usize], map[2 * code as usize + 1]]));
            assert!(glyph > 0 && glyph < glyph_count(file), "{name} holds glyph {glyph}");
        }
    }
}

/// The number of glyphs of a font file, from its `maxp` table (OpenType 1.9.1).
fn glyph_count(file: &[u8]) -> u16 {
    let tables = u16::from_be_bytes([file[4], file[5]]) as usize;
    let record = (0..tables).map(|at| &file[12 + 16 * at..]).find(|record| record.starts_with(b"maxp")).unwrap();
    let start = u32::from_be_bytes(record[8..12].try_into().unwrap()) as usize;
    u16::from_be_bytes([file[start + 4], file[start + 5]])
}

/// Positions on the page against the sums of the advances, which is where a glyph belongs.
#[test]
fn glyphs_stand_where_the_advances_put_them() {
    let faces = Faces::built_in();
    let tree = papers::tree(PAPER);
    let pages = papers::set(&tree, &faces);
    let pdf = Pdf::read(&write(&pages, &tree, &faces, &properties()).unwrap());
    let (number, _) = pdf.pages()[0];
    let in_drawing = |text: &str| ["36 in", "swing"].contains(&text);
    let shown = pdf.shown(number).iter().filter(|shown| !shown.glyphs.is_empty() && !in_drawing(&shown.text));
    let placed = pages.pages[0].items.iter().filter_map(|item| match &item.placed {
        Placed::Text { x, y, size, run, .. } => Some((x, y, size.as_points(), run)),
        _ => None,
    });
    let mut compared = 0;
    for ((x, y, size, run), shown) in placed.zip(shown) {
        let mut pen = 0;
        assert_eq!(size, shown.size);
        assert!((792.0 - y.as_points() - shown.y).abs() <= 0.005);
        assert!((x.as_points() - shown.x).abs() <= 0.015, "{} starts at {}", run.text, shown.x);
        assert!(
            (shown.end - shown.x - f64::from(run.advance) * size / 1000.0).abs() <= 0.02,
            "{} is as long",
            run.text
        );
        assert_eq!(run.glyphs.len(), shown.glyphs.len(), "{}", run.text);
        for (glyph, (_, at)) in run.glyphs.iter().zip(&shown.glyphs) {
            let exact = x.as_points() + f64::from(pen + glyph.dx) * size / 1000.0; // 1,000 units an em
            assert!((exact - at).abs() <= 0.01, "{}: {exact} is not {at}", run.text);
            pen += glyph.advance;
            compared += 1;
        }
    }
    assert!(compared > 150, "{compared}");
}

#[test]
fn the_outline_is_a_tree_of_the_headings() {
    let pdf = Pdf::read(&written(&with_rows(100)));
    fn level(pdf: &Pdf, parent: &Dict<'_>) -> Vec<String> {
        let mut entries = Vec::new();
        let mut next = parent.get::<Dict<'_>>("First");
        while let Some(entry) = next {
            let children = level(pdf, &entry);
            assert_eq!(entry.int("Count").unwrap_or(0).unsigned_abs() as usize, children.len());
            assert_eq!(entry.reference("Parent"), Some(Pdf::number(parent)));
            let title = entry.text("Title").unwrap();
            let target = Pdf::target(&entry);
            assert!(pdf.shown(target).iter().any(|shown| shown.text == title), "{title} is on the page");
            entries.push(format!("{title} [{}]", children.join(", ")));
            next = entry.get("Next");
        }
        entries
    }
    let outlines = pdf.catalog().get("Outlines").unwrap();
    let expected = ["Schedule of openings [Ωmega, Київ, Łódź [Plan []]]"];
    assert_eq!(level(&pdf, &outlines), expected);
}

#[test]
fn the_file_says_what_it_is() {
    let bytes = written(PAPER);
    let pdf = Pdf::read(&bytes);
    let catalog = pdf.catalog();
    assert_eq!(catalog.text("Lang").as_deref(), Some("en-US"));
    assert_eq!(catalog.get::<Dict<'_>>("MarkInfo").unwrap().get("Marked"), Some(true));
    assert_eq!(catalog.get::<Dict<'_>>("ViewerPreferences").unwrap().get("DisplayDocTitle"), Some(true));
    let metadata = String::from_utf8(pdf.stream(&catalog, "Metadata").to_vec()).unwrap();
    for part in [
        "Head schedule – ½",
        "Ashgrove &amp; Daughters",
        "<pdfaid:part>2</pdfaid:part>",
        "<pdfaid:conformance>A<",
        "<pdfuaid:part>1<",
        "2026-12-10T00:00:00Z",
        &"00ff".repeat(16),
    ] {
        assert!(metadata.contains(part), "{part}");
    }
    roxmltree::Document::parse(metadata.trim_start_matches('\u{FEFF}')).expect("the packet is XML");
    let information = pdf.trailer().get::<Dict<'_>>("Info").unwrap();
    assert_eq!(information.text("Title").as_deref(), Some("Head schedule – ½"));
    assert_eq!(information.text("CreationDate").as_deref(), Some("D:20261210000000Z"));
    assert!(pdf.pages().iter().all(|(_, page)| page.name("Tabs").as_deref() == Some("S")));
    let unclaimed = Properties { claim: Claim::Nothing, ..properties() };
    let (faces, tree) = (Faces::built_in(), papers::tree(PAPER));
    let bytes = write(&papers::set(&tree, &faces), &tree, &faces, &unclaimed).unwrap();
    let pdf = Pdf::read(&bytes);
    let metadata = String::from_utf8_lossy(pdf.stream(&pdf.catalog(), "Metadata")).into_owned();
    assert!(!metadata.contains("pdfaid:part") && !metadata.contains("pdfuaid:part"));
}

#[test]
fn the_same_paper_is_the_same_bytes_on_one_thread_and_on_many() {
    let paper = with_rows(200);
    let first = written(&paper);
    assert_eq!(written(&paper), first);
    for threads in [1, 4] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        assert_eq!(pool.install(|| written(&paper)), first, "{threads} threads");
    }
    let other = written(&paper.replace("live", "dead"));
    let id = |bytes: &[u8]| format!("{:?}", Pdf::read(bytes).trailer().get::<Array<'_>>("ID").unwrap());
    assert_ne!(id(&other), id(&first), "another paper has another identifier");
}

#[test]
fn a_character_without_a_glyph_is_a_finding_and_no_file() {
    let (faces, tree) = (Faces::built_in(), papers::tree(PAPER));
    let mut drawing = papers::drawing();
    for shape in &mut drawing.parts[0].shapes {
        if let Shape::Text { text, .. } = shape {
            *text = text.replace("swing", "葉 swing");
        }
    }
    let mut pages = papers::set(&tree, &faces);
    for item in pages.pages.iter_mut().flat_map(|page| &mut page.items) {
        if let Placed::Drawing { drawing: placed, .. } = &mut item.placed {
            *placed = Arc::new(drawing.clone());
        }
    }
    let findings = write(&pages, &tree, &faces, &properties()).unwrap_err();
    let found: Vec<_> = findings.iter().map(|finding| (finding.code.id, finding.found.as_str())).collect();
    assert_eq!(found, [("missing-character", "the character U+8449 (葉)")]);
    let figure = PAPER.find("<figure").unwrap() as u32;
    let place = findings.iter().next().unwrap().place().unwrap();
    assert!(matches!(place, Place::Text { span, .. } if span.start == figure), "{place:?}");
}

#[test]
fn two_characters_of_one_glyph_are_each_copied_as_themselves() {
    // The micro sign U+00B5 and the Greek letter U+03BC have one glyph in many faces; so have U+2126 and U+03A9.
    let text = "\u{B5} \u{3BC} \u{2126} \u{3A9}";
    let bytes = written(&format!("<document title=\"t\" lang=\"en\"><sheet><h1>{text}</h1></sheet></document>"));
    assert_eq!(Pdf::read(&bytes).text(), text);
}

#[test]
fn a_page_with_two_faces_is_small() {
    let paragraphs = "<p>The header hangs on the <b>push</b> side, 36 1/2 in above the floor.</p>".repeat(20);
    let markup = format!("<document title=\"t\" lang=\"en\"><sheet><h1>Size</h1>{paragraphs}</sheet></document>");
    let bytes = written(&markup);
    assert_eq!(Pdf::read(&bytes).pages().len(), 1);
    assert!(bytes.len() <= 25_000, "{} bytes", bytes.len());
}

/// The end of a stream's data is the end of line before `endstream` (ISO 32000-1, 7.3.8.1). Data that ends with CR, with LF
/// alone after it, would look a byte short to a reader that goes by line ends; a validator did so with one of 46 pages.
#[test]
fn streams_end_with_a_line_end_that_no_data_can_extend() {
    for paper in crate::demo::demo().issue.of_form(Form::Pdf) {
        let ends: Vec<usize> =
            paper.bytes.windows(9).enumerate().filter(|(_, it)| *it == b"endstream").map(|(at, _)| at).collect();
        assert!(ends.len() > 5, "{}: {} streams", paper.name, ends.len());
        let loose: Vec<&usize> = ends.iter().filter(|at| &paper.bytes[**at - 2..**at] != b"\r\n").collect();
        assert!(loose.is_empty(), "{}: endstream at {loose:?} does not stand after CR LF", paper.name);
    }
}
