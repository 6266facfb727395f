//! The shop drawings of the demo as one file for a browser: the same drawings as on the pages, line by line and figure by figure.
//!
//! In: the file, the pages read back, the drawings that both were made from. Out: where they differ; the test wants nothing.
//! Elements and attributes are those of SVG 1.1 (W3C): 9.7 the points property, 8.3 path data, 10.5 text and `textLength`.

use std::collections::BTreeMap;

use hingewright::documents::drawing_set;
use hingewright::findings::Paper;
use hingewright::fonts::{Faces, plain};
use hingewright::pipeline::{Form, IssuedPaper};
use hingewright::shapes::{Drawing, Point, Shape};
use roxmltree::{Document, Node};

use crate::demo::{demo, of_sources};
use crate::pdf_reader::{Element, Kid, Mark, Pdf, Shown};

const SVG: &str = "http://www.w3.org/2000/svg";
/// Coordinates are written to a hundredth of a point.
const HALF: f64 = 0.005 + 1e-9;

fn on_screen() -> &'static IssuedPaper {
    demo().issue.of_form(Form::Html).find(|it| it.paper == Paper::Drawings).expect("drawings for a browser")
}

/// The file as XML, and what it says of the demo's drawings.
fn read(paper: &IssuedPaper) -> Document<'_> {
    let text = std::str::from_utf8(&paper.bytes).expect("a paper is UTF-8");
    Document::parse(text.strip_prefix("<!DOCTYPE html>\n").expect("HTML")).unwrap_or_else(|fault| panic!("{fault}"))
}

fn pictures<'d>(document: &'d Document<'_>) -> Vec<Node<'d, 'd>> {
    document.descendants().filter(|node| node.has_tag_name((SVG, "svg"))).collect()
}

/// The drawings in the order of the sheets.
fn drawings() -> Vec<Drawing> {
    let demo = demo();
    let faces = Faces::built_in();
    let draft = of_sources(demo.reviewed, demo.catalog, &demo.priced.takeoff, |sources| drawing_set(sources, &faces));
    let of_openings = draft.view.openings.iter().flat_map(|sheet| {
        let views = sheet.rows.iter().flatten().chain(&sheet.holes);
        views.map(|view| view.key.clone()).filter(|key| !key.is_empty()).collect::<Vec<_>>()
    });
    let keys = of_openings.chain(draft.view.risers.iter().map(|sheet| sheet.key.clone()));
    keys.map(|key| Drawing::clone(&draft.drawings[&key])).collect()
}

fn figures(page: &Pdf) -> Vec<Element> {
    let mut figures = Vec::new();
    page.structure().walk(&mut |element| figures.extend((element.role == "Figure").then(|| element.clone())));
    figures
}

fn attribute(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).and_then(|it| it.parse().ok()).unwrap_or_else(|| panic!("{name} of {node:?}"))
}

/// The numbers of a list of points or of a path.
fn numbers(text: &str) -> Vec<f64> {
    let parts = text.split(|it: char| it.is_ascii_whitespace() || ",MA".contains(it));
    parts.filter(|part| !part.is_empty()).map(|part| part.parse().expect("a number")).collect()
}

fn same_points(said: &[f64], points: &[Point], height: f64, of: &str) {
    assert_eq!(said.len(), 2 * points.len(), "{of}");
    for (pair, point) in said.chunks(2).zip(points) {
        let off = (pair[0] - point.x).abs().max((pair[1] - (height - point.y)).abs());
        assert!(off <= HALF, "{of}: {pair:?} is not {point:?}, height {height}");
    }
}

/// Where an arc begins and ends.
fn ends(center: Point, radius: f64, from: f64, sweep: f64) -> [Point; 2] {
    [from, from + sweep].map(|degrees| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Point { x: center.x + radius * cos, y: center.y + radius * sin }
    })
}

#[test]
fn every_shape_stands_where_the_drawing_has_it() {
    let document = read(on_screen());
    let (pictures, drawings) = (pictures(&document), drawings());
    assert_eq!(pictures.len(), drawings.len());
    let mut count = 0;
    for (picture, drawing) in pictures.iter().zip(&drawings) {
        assert_eq!(picture.attribute("aria-label"), Some(drawing.alt.as_str()));
        let frame = numbers(picture.attribute("viewBox").expect("a view box"));
        same_points(&frame[2..], &[Point { x: drawing.width, y: 0.0 }], drawing.height, "the frame");
        let parts: Vec<Node<'_, '_>> = picture.children().collect();
        assert_eq!(parts.len(), drawing.parts.len(), "{}", drawing.title);
        for (group, part) in parts.iter().zip(&drawing.parts) {
            assert_eq!(group.attribute("class"), Some(part.name.as_str()));
            let drawn: Vec<Node<'_, '_>> = group.children().collect();
            assert_eq!(drawn.len(), part.shapes.len(), "{} {}", drawing.title, part.name);
            for (node, shape) in drawn.into_iter().zip(&part.shapes) {
                same_shape(node, shape, drawing.height, &format!("{} {}", drawing.title, part.name));
                count += 1;
            }
        }
    }
    assert!(count > 8_000, "{count} shapes");
}

fn same_shape(node: Node<'_, '_>, shape: &Shape, height: f64, of: &str) {
    let points = || numbers(node.attribute("points").expect("points"));
    let name = node.tag_name().name();
    match shape {
        Shape::Line { points: own, closed, .. } => {
            assert_eq!(name, if *closed { "polygon" } else { "polyline" }, "{of}");
            same_points(&points(), own, height, of);
        }
        Shape::Fill { points: own, .. } => {
            assert_eq!((name, node.attribute("stroke")), ("polygon", None), "{of}");
            same_points(&points(), own, height, of);
        }
        Shape::Arc { center, radius, from, sweep, .. } => {
            assert_eq!(name, "path", "{of}");
            let said = numbers(node.attribute("d").expect("a path"));
            let ends = ends(*center, *radius, *from, *sweep);
            same_points(&[&said[..2], &said[said.len() - 2..]].concat(), &ends, height, of);
            assert!((said[2] - radius).abs() <= HALF, "{of}: radius {} is not {radius}", said[2]);
        }
        Shape::Text { at, text, size, .. } => {
            assert_eq!((name, node.text()), ("text", Some(text.as_str())), "{of}");
            same_points(&[attribute(node, "x"), attribute(node, "y")], &[*at], height, of);
            assert!((attribute(node, "font-size") - size).abs() <= HALF, "{of}");
        }
    }
}

/// What a page shows of a figure, in order.
fn shown_in<'p>(pdf: &'p Pdf, figure: &Element) -> (u32, Vec<&'p Shown>) {
    let marks: Vec<(u32, u32)> = figure
        .kids
        .iter()
        .filter_map(|kid| match kid {
            Kid::Content(page, id) => Some((*page, *id)),
            Kid::Element(_) | Kid::Field(_) => None,
        })
        .collect();
    let page = marks.first().expect("a figure has contents").0;
    let own = |it: &&Shown| matches!(it.mark, Mark::Content(id) if marks.contains(&(page, id)));
    (page, pdf.shown(page).iter().filter(own).collect())
}

/// The words of each sheet's heading, by the picture's place in the file.
fn heading_of(picture: Node<'_, '_>) -> String {
    let section = picture.ancestors().find(|node| node.tag_name().name() == "section").expect("a sheet");
    let heading = section.descendants().find(|node| node.tag_name().name() == "h1").expect("a heading");
    heading.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect()
}

#[test]
fn every_text_of_a_drawing_is_that_of_its_page_and_takes_the_same_room() {
    let document = read(on_screen());
    let pdf = demo().pdf(Paper::Drawings);
    let (pictures, figures) = (pictures(&document), figures(pdf));
    assert_eq!(pictures.len(), figures.len());
    let mut dimensions: BTreeMap<u32, usize> = BTreeMap::new();
    for (picture, figure) in pictures.iter().zip(&figures) {
        assert_eq!(figure.alt.as_deref().map(plain), picture.attribute("aria-label").map(plain));
        let (page, shown) = shown_in(pdf, figure);
        let heading = plain(&heading_of(*picture)).into_owned();
        let titled = pdf.shown(page).iter().any(|it| it.size > 14.0 && heading.starts_with(&*plain(&it.text)));
        assert!(titled, "{heading} stands on another page");
        let texts: Vec<Node<'_, '_>> = picture.descendants().filter(|node| node.has_tag_name((SVG, "text"))).collect();
        let said: Vec<String> = texts.iter().map(|it| plain(it.text().unwrap_or_default()).into_owned()).collect();
        let printed: Vec<String> = shown.iter().map(|it| plain(&it.text).into_owned()).collect();
        assert_eq!(said, printed, "{heading}");
        *dimensions.entry(page).or_default() += said.iter().filter(|it| it.contains(['\'', '"'])).count();
        for (text, on_page) in texts.iter().zip(&shown).filter(|(text, _)| !text.has_attribute("transform")) {
            let scale = on_page.size / attribute(*text, "font-size");
            let room = (on_page.end - on_page.x) / scale;
            assert!((attribute(*text, "textLength") - room).abs() < 0.05, "{heading}: {on_page:?} takes {room}");
        }
    }
    let openings = demo().priced.takeoff.arrangement.openings.len();
    assert!(dimensions.values().filter(|count| **count >= 8).count() >= openings, "{dimensions:?}");
}

/// Every sheet has its title block with its number, and says where a stated scale holds.
#[test]
fn every_sheet_has_its_title_block_and_says_where_its_scale_holds() {
    let document = read(on_screen());
    let sections: Vec<Node<'_, '_>> =
        document.descendants().filter(|it| it.tag_name().name() == "section" && it.has_attribute("id")).collect();
    let has =
        |section: &Node<'_, '_>, class: &str| section.descendants().any(|it| it.attribute("class") == Some(class));
    let mut scaled = 0;
    for section in &sections {
        let words: String = section.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect();
        assert!(has(section, "titleblock") && words.contains("SheetD-"), "{words}");
        let states = plain(&words).contains("in = 1 ft.");
        assert_eq!(has(section, "scales"), states, "{words}");
        scaled += usize::from(states);
    }
    assert!(scaled >= demo().priced.takeoff.arrangement.openings.len(), "{scaled} sheets with drawings to scale");
    let bytes = on_screen().bytes.len();
    assert!(bytes < 3_000_000, "{bytes} bytes are much for a phone");
}
