//! A paper that encloses a page: where the page stands, how it is tagged, and what the paper claims.

use std::collections::BTreeMap;
use std::sync::Arc;

use hingewright::fonts::Faces;
use hingewright::pdf::{Properties, write};
use hingewright::pdf_import::{Enclosure, enclose};
use hingewright::typeset::{Pages, Placed, Shown};
use serde_json::json;

use super::made::Made;
use crate::pdf_reader::Pdf;
use crate::specimen::{set, try_set};

/// A paper with the first page of an enclosure, and marks.
fn template(marks: &str) -> String {
    format!(
        "<document title=\"Package\" lang=\"en-US\"><sheet><h1>Cut sheets</h1>\
         <enclosed key=\"plate\" page=\"1\" alt=\"Cut sheet of a push plate\">{marks}</enclosed></sheet></document>"
    )
}

fn pages_of(enclosure: Enclosure, marks: &str) -> (hingewright::markup::Tree, Pages) {
    let (drawings, enclosures) = (BTreeMap::new(), BTreeMap::from([("plate".to_owned(), Arc::new(enclosure))]));
    set(&template(marks), &json!({}), Shown { drawings: &drawings, enclosures: &enclosures })
}

/// Such a paper as a file.
pub fn paper(enclosure: Enclosure, marks: &str) -> Vec<u8> {
    let (tree, pages) = pages_of(enclosure, marks);
    write(&pages, &tree, &Faces::built_in(), &Properties::default()).unwrap_or_else(|found| panic!("{found:?}"))
}

/// Every byte of a file as a reader sees it: as it is, and every stream unpacked.
pub fn unpacked(bytes: &[u8]) -> String {
    let pdf = Pdf::read(bytes);
    let streams = pdf.streams.values().map(|data| String::from_utf8_lossy(data).into_owned());
    let whole = String::from_utf8_lossy(bytes).into_owned();
    streams.chain([whole]).collect()
}

fn enclosed(made: &Made) -> Enclosure {
    enclose(&made.plain()).unwrap_or_else(|fault| panic!("{fault:?}")).0
}

/// Width and height of the enclosed page on its page, in points.
fn drawn(pages: &Pages) -> (f64, f64) {
    let items = pages.pages.iter().flat_map(|page| &page.items);
    let mut sheets = items.filter_map(|item| match &item.placed {
        Placed::Enclosed { width, sheet, .. } => Some((width.as_points(), sheet.height(*width).as_points())),
        _ => None,
    });
    sheets.next_back().expect("an enclosed page")
}

#[test]
fn the_page_is_a_figure_and_the_paper_claims_no_standard() {
    let bytes = paper(enclosed(&Made::sheet()), "<marked at=\"20 %\">Selected: square</marked>");
    let pdf = Pdf::read(&bytes);
    let mut figures = Vec::new();
    pdf.structure().walk(&mut |element| {
        if element.role == "Figure" {
            figures.push((element.alt.clone(), element.text(&pdf)));
        }
    });
    assert_eq!(figures, [(Some("Cut sheet of a push plate".to_owned()), "Selected: square".to_owned())]);
    let all = unpacked(&bytes);
    for claim in ["pdfuaid:part", "pdfaid:part", "OutputIntent"] {
        assert!(!all.contains(claim), "{claim} in a paper that holds another's page");
    }
    assert!(all.contains("(Push plate) Tj") && all.contains("/E0 Do"), "the page is drawn");
    assert_eq!(
        bytes,
        paper(enclosed(&Made::sheet()), "<marked at=\"20 %\">Selected: square</marked>"),
        "same input, same bytes"
    );
}

#[test]
fn a_page_is_made_smaller_to_fit_and_never_larger() {
    let (_, pages) = pages_of(enclosed(&Made::sheet()), "");
    let (width, height) = drawn(&pages);
    assert!((width - 300.0).abs() < 0.01 && (height - 400.0).abs() < 0.01, "{width} by {height}: as large as it is");
    let large = Made::page("/MediaBox[0 0 2448 1728]", "");
    let (_, pages) = pages_of(enclosed(&large), "");
    let (width, height) = drawn(&pages);
    assert!((width / height - 2448.0 / 1728.0).abs() < 0.001 && width < 612.0, "{width} by {height}: in proportion");
    let (_, pages) = pages_of(enclosed(&large), "<marked at=\"50 %\">This one</marked>");
    assert!(drawn(&pages).0 < width, "marks take a margin from it");
    let tall = Made::page("/MediaBox[0 0 200 2000]", "");
    let (_, pages) = pages_of(enclosed(&tall), "");
    assert!(drawn(&pages).1 < 792.0, "no page is cut");
}

#[test]
fn an_arrow_points_as_far_down_as_its_mark_says_and_words_stand_apart() {
    let marks = "<marked at=\"50 %\">First of two that point to one place</marked><marked at=\"50%\">Second</marked>\
                 <marked at=\"100 %\">At the foot</marked>";
    let (tree, pages) = pages_of(enclosed(&Made::sheet()), marks);
    let page = &pages.pages[0];
    let (top, height) = page
        .items
        .iter()
        .find_map(|item| match &item.placed {
            Placed::Enclosed { y, width, sheet, .. } => Some((y.as_points(), sheet.height(*width).as_points())),
            _ => None,
        })
        .unwrap();
    let mut tips: Vec<f64> = Vec::new();
    for item in &page.items {
        if let Placed::Rule { x2, y2, .. } = &item.placed
            && (x2.as_points() - (54.0 + 84.0)).abs() < 30.0
        {
            tips.push((y2.as_points() - top) / height);
        }
    }
    for share in [0.5, 1.0] {
        assert!(tips.iter().any(|tip| (tip - share).abs() < 0.001), "an arrow at {share}: {tips:?}");
    }
    let mut lines: Vec<f64> = Vec::new();
    for item in &page.items {
        if let (Placed::Text { y, .. }, hingewright::typeset::Owner::Block(block)) = (&item.placed, item.owner)
            && matches!(tree.block(block).kind, hingewright::markup::Kind::Marked { .. })
        {
            lines.push(y.as_points());
        }
    }
    lines.dedup();
    assert!(lines.len() >= 4 && lines.windows(2).all(|two| two[1] - two[0] > 6.0), "lines stand apart: {lines:?}");
    assert!(lines.iter().all(|y| *y > top && *y < top + height + 1.0), "beside the page: {lines:?}");
}

#[test]
fn a_page_that_is_not_there_is_a_finding() {
    let found = try_set(&template(""), &json!({}), &BTreeMap::new()).unwrap_err();
    assert!(found[0].starts_with("unknown-enclosure no file of the key plate"), "{found:?}");
    let text = template("").replace("page=\"1\"", "page=\"2\"");
    let (drawings, enclosures) =
        (BTreeMap::new(), BTreeMap::from([("plate".to_owned(), Arc::new(enclosed(&Made::sheet())))]));
    let found = try_set(&text, &json!({}), Shown { drawings: &drawings, enclosures: &enclosures }).unwrap_err();
    assert!(found[0].starts_with("unknown-enclosure page 2 of plate, which has 1"), "{found:?}");
    for (broken, code) in [
        (template("<marked at=\"0.35\">x</marked>"), "bad-attribute"),
        (template("<marked>x</marked>"), "missing-attribute"),
        (template("<p>x</p>"), "misplaced-element"),
        (template("").replace("page=\"1\"", "page=\"0\""), "bad-attribute"),
        (template("").replace(" alt=\"Cut sheet of a push plate\"", ""), "missing-attribute"),
    ] {
        let found = try_set(&broken, &json!({}), &BTreeMap::new()).unwrap_err();
        assert!(found.iter().any(|it| it.starts_with(code)), "{code}: {found:?}");
    }
}

#[test]
fn a_file_that_is_drawn_twice_is_carried_once() {
    let one = Arc::new(enclosed(&Made::sheet()));
    let again = Arc::new(enclosed(&Made::sheet()));
    let text = "<document title=\"Package\" lang=\"en-US\"><sheet><enclosed key=\"a\" page=\"1\" alt=\"A\"/>\
                <enclosed key=\"a\" page=\"1\" alt=\"A again\"/><enclosed key=\"b\" page=\"1\" alt=\"B\"/></sheet></document>";
    let (drawings, enclosures) = (BTreeMap::new(), BTreeMap::from([("a".to_owned(), one), ("b".to_owned(), again)]));
    let (tree, pages) = set(text, &json!({}), Shown { drawings: &drawings, enclosures: &enclosures });
    let bytes = write(&pages, &tree, &Faces::built_in(), &Properties::default()).unwrap();
    let pdf = Pdf::read(&bytes);
    let sheets = pdf.streams.values().filter(|data| String::from_utf8_lossy(data).contains("(Push plate)")).count();
    assert_eq!(sheets, 1, "two files that are alike share their objects");
    assert_eq!(unpacked(&bytes).matches(" Do\n").count(), 3, "and are drawn three times");
}
