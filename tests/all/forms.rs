//! Places to fill in: fields of the file's form, each named, labeled, tagged, and with a look for each of its states.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::fonts::Faces;
use hingewright::pdf::{Properties, write};

use crate::papers;
use crate::pdf_reader::{Dict, Entries, Kid, Pdf};

const PAPER: &str = r#"<document title="Sign-off" lang="en-US"><foot><left><check/> kept</left></foot>
<sheet name="101A"><h1>Opening 101A</h1>
<p>By <blank w="1in"/>, <check/> closes <check on="yes"/> latches.</p>
<checks><li>Hang the header.</li><li on="yes">Level it.</li></checks>
<table class="grid"><thead><tr><th>Dimension</th><th>Found</th></tr></thead><tbody>
<tr><td>Opening width</td><td field="width"/></tr>
<tr><td h="1in">Way in</td><td field="way"/></tr></tbody></table>
<answer h="1in" label="What else?"/>
<sign><line>Installer, date</line></sign></sheet>
<sheet name="102"><h1>Opening 102</h1><p><check/> closes</p></sheet></document>"#;

fn written(markup: &str) -> Pdf {
    let (faces, tree) = (Faces::built_in(), papers::tree(markup));
    let pages = papers::set(&tree, &faces);
    Pdf::read(&write(&pages, &tree, &faces, &Properties::default()).unwrap_or_else(|found| panic!("{found:?}")))
}

/// The widgets of the pages: page, number, dictionary.
fn widgets(pdf: &Pdf) -> Vec<(u32, u32, Dict<'_>)> {
    let mut widgets = Vec::new();
    for (page, entries) in pdf.pages() {
        for annotation in Pdf::annotations(&entries) {
            if annotation.name("Subtype").expect("a kind") == "Widget" {
                widgets.push((page, Pdf::number(&annotation), annotation));
            }
        }
    }
    widgets
}

/// The whole name of a field: ISO 32000-1, 12.7.3.2.
fn whole_name(field: &Dict<'_>) -> String {
    let own = field.text("T").expect("a name");
    match field.get("Parent") {
        Some(parent) => format!("{}.{own}", whole_name(&parent)),
        None => own,
    }
}

#[test]
fn every_place_to_fill_in_is_a_field_with_name_label_and_state() {
    let pdf = written(PAPER);
    let got: Vec<String> = widgets(&pdf)
        .iter()
        .map(|(_, _, field)| {
            let state = field.name("AS").unwrap_or_default();
            let lines = if field.int("Ff") == Some(4096) { "lines" } else { "" };
            let [kind, label] = [field.name("FT"), field.text("TU")].map(Option::unwrap);
            format!("{kind} {state}{lines} {} | {label}", whole_name(field))
        })
        .collect();
    let asked = [
        "Tx  101A.By | By",
        "Btn Off 101A.closes | closes",
        "Btn Yes 101A.latches | latches.",
        "Btn Off 101A.Hang-the-header | Hang the header.",
        "Btn Yes 101A.Level-it | Level it.",
        "Tx  101A.width | Opening width: Found",
        "Tx lines 101A.way | Way in: Found",
        "Tx lines 101A.What-else | What else?",
        "Tx  101A.Installer-date | Installer, date",
        "Btn Off 102.closes | closes",
    ];
    assert_eq!(got, asked);
}

/// Holds the form of a file to what the standards ask of it; hands out how many fields there are.
fn check_form(pdf: &Pdf, name: &str) -> usize {
    let widgets = widgets(pdf);
    let Some(form) = pdf.catalog().get::<Dict<'_>>("AcroForm") else {
        assert!(widgets.is_empty(), "{name}: fields without a form");
        return 0;
    };
    assert!(!form.contains_key("NeedAppearances"), "{name}: ISO 19005-2, 6.4.1");
    let mut listed = BTreeSet::new();
    for sheet in form.get::<Vec<Dict<'_>>>("Fields").expect("fields") {
        for kid in sheet.get::<Vec<Dict<'_>>>("Kids").expect("fields of a sheet") {
            assert_eq!(kid.reference("Parent"), Some(Pdf::number(&sheet)), "{name}: a field knows its sheet");
            listed.insert(Pdf::number(&kid));
        }
    }
    assert_eq!(listed, widgets.iter().map(|(_, number, _)| *number).collect(), "{name}: the form lists every field");
    let names: BTreeSet<String> = widgets.iter().map(|(_, _, field)| whole_name(field)).collect();
    assert_eq!(names.len(), widgets.len(), "{name}: every name is one field's");
    let mut elements = BTreeMap::new();
    pdf.structure().walk(&mut |element| {
        for kid in &element.kids {
            if let Kid::Field(widget) = kid
                && element.role != "Link"
            {
                assert_eq!((element.role.as_str(), element.kids.len()), ("Form", 1), "ISO 32000-1, table 340");
                assert_eq!(elements.insert(*widget, element.number), None, "{name}: a field in two elements");
            }
        }
    });
    let parents = pdf.parent_tree();
    let boxes: BTreeMap<u32, Dict<'_>> = pdf.pages().into_iter().collect();
    let mut looks = BTreeSet::new();
    for (page, number, field) in &widgets {
        let element = &parents[&field.int("StructParent").expect("a key")];
        assert_eq!(*element, [elements[number]], "{name}: the parent tree is the inverse, ISO 32000-1, 14.7.4.4");
        assert!(!field.text("TU").unwrap().is_empty(), "{name}: ISO 14289-1, 7.18.1");
        assert_eq!(field.int("F"), Some(4), "{name}: printed and not hidden, ISO 19005-2, 6.3.2");
        assert_eq!(field.reference("P"), Some(*page), "{name}");
        let [left, bottom, right, top] = field.get::<[f64; 4]>("Rect").expect("a place");
        let [_, _, width, height] = boxes[page].get::<[f64; 4]>("MediaBox").expect("a page");
        assert!(0.0 < left && left < right && right < width, "{name}: {left} to {right} of {width}");
        assert!(0.0 < bottom && bottom < top && top < height, "{name}: {bottom} to {top} of {height}");
        check_looks(pdf, field, name);
        if field.name("FT").unwrap() == "Tx" {
            // A reader writes what is typed into the look, which must not be that of another field.
            let look = field.get::<Dict<'_>>("AP").and_then(|looks| looks.reference("N")).expect("a look");
            assert!(looks.insert(look), "{name}");
        }
    }
    widgets.len()
}

/// A dictionary inside a dictionary inside a dictionary.
fn inside<'a>(dict: &Dict<'a>, keys: &[&str]) -> Dict<'a> {
    keys.iter().fold(dict.clone(), |dict, key| dict.get(key).unwrap_or_else(|| panic!("no {key} in {dict:?}")))
}

/// A look for each state, and an embedded font for what is typed: ISO 19005-2, 6.3.3 and 6.2.11.4.
fn check_looks(pdf: &Pdf, field: &Dict<'_>, name: &str) {
    let looks = inside(field, &["AP"]);
    if field.name("FT").unwrap() == "Btn" {
        let looks = inside(&looks, &["N"]);
        let states: BTreeSet<String> = looks.keys().map(|it| it.as_str().to_owned()).collect();
        assert_eq!(states.into_iter().collect::<Vec<_>>(), ["Off", "Yes"], "{name}");
        assert_eq!((field.name("AS").is_some(), field.name("AS")), (true, field.name("V")), "{name}");
        assert!(pdf.stream(&looks, "Off").is_empty() && !pdf.stream(&looks, "Yes").is_empty(), "{name}");
        return;
    }
    assert_eq!(pdf.stream(&looks, "N"), b"/Tx BMC EMC", "{name}: ISO 32000-1, 12.7.3.3");
    let extent = |dict: &Dict<'_>, key: &str| {
        let [left, bottom, right, top] = dict.get::<[f64; 4]>(key).expect("a place");
        [right - left, top - bottom]
    };
    let (drawn, asked) = (extent(&inside(&looks, &["N"]), "BBox"), extent(field, "Rect"));
    assert!(drawn.iter().zip(asked).all(|(a, b)| (a - b).abs() < 1e-6), "{name}: {drawn:?} is not {asked:?}");
    let typed = field.text("DA").expect("how text looks");
    let font = typed.strip_prefix('/').and_then(|rest| rest.split(' ').next()).expect("a font");
    let font = inside(&pdf.catalog(), &["AcroForm", "DR", "Font", font]);
    let file = pdf.stream(&inside(&font, &["FontDescriptor"]), "FontFile2");
    assert!(file.windows(4).any(|tag| tag == b"cmap"), "{name}: typed text finds its glyphs");
    assert_eq!(font.name("Encoding").as_deref(), Some("WinAnsiEncoding"));
    let widths = font.get::<Vec<f64>>("Widths").expect("widths");
    let [first, last] = ["FirstChar", "LastChar"].map(|key| font.int(key).expect("a code"));
    assert_eq!(widths.len() as i64, last - first + 1, "{name}");
    // Digits are as wide as each other in this family, 497 units of 1,000: `hmtx` of the face that ships with the tool.
    let width = |code: i64| widths[(code - first) as usize];
    assert!(('0'..='9').all(|digit| width(i64::from(u32::from(digit))) == 497.0), "{name}");
}

#[test]
fn the_form_is_tagged_labeled_and_complete() {
    assert_eq!(check_form(&written(PAPER), "the paper of this test"), 10);
    let mut fields = 0;
    for paper in crate::demo::demo().issue.papers.iter().filter(|paper| paper.bytes.starts_with(b"%PDF")) {
        fields += check_form(&Pdf::read(&paper.bytes), &paper.name);
    }
    assert!(fields > 300, "{fields} fields in the papers of the demo");
}

#[test]
fn what_cannot_be_filled_in_has_no_form() {
    let pdf = written("<document title=\"t\" lang=\"en\"><sheet><h1>t</h1><p>words</p></sheet></document>");
    assert_eq!(check_form(&pdf, "words"), 0);
}
