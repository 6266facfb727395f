//! A paper with every element, from template to file.
//!
//! The file is written below `target/`, for whoever wants to look at it.

use std::collections::BTreeMap;
use std::sync::Arc;

use hingewright::findings::{Files, Finding, Findings};
use hingewright::fonts::Faces;
use hingewright::markup::{ELEMENTS, Source, Templates, Tree};
use hingewright::pdf_import::{Enclosure, enclose};
use hingewright::shapes::{Anchor, Drawing, Part, Shape, Stroke, at};
use hingewright::typeset::{Pages, Shown, Theme, typeset};
use serde_json::{Value, json};

use crate::pdf_import::made::Made;

/// Renders and sets a template, or lists the codes of what is wrong.
pub fn try_set<'s>(text: &str, view: &Value, shown: impl Into<Shown<'s>>) -> Result<(Tree, Pages), Vec<String>> {
    let files = Files::new([("paper.xml".to_string(), text.as_bytes().to_vec())]);
    let file = files.find("paper.xml").expect("it was just put there");
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "paper.xml", file, text }], &mut findings);
    let tree = templates.render("paper.xml", view, &mut findings);
    let set = tree.and_then(|tree| {
        let pages = typeset(&tree, &Faces::built_in(), &Theme::default(), shown, &mut findings)?;
        Some((tree, pages))
    });
    let shown = |it: &Finding| format!("{} {} / {}", it.code.id, it.found, it.asked);
    set.ok_or_else(|| findings.iter().map(shown).collect())
}

/// Renders and sets a template that must have no fault.
pub fn set<'s>(text: &str, view: &Value, shown: impl Into<Shown<'s>>) -> (Tree, Pages) {
    try_set(text, view, shown).unwrap_or_else(|found| panic!("{found:#?}"))
}

/// A leaf in a wall, seen from above.
pub fn plan() -> BTreeMap<String, Arc<Drawing>> {
    let stroke = Stroke { width: 1.0, gray: 0.0, dash: None };
    let line = |points: Vec<_>, closed| Shape::Line { points, closed, stroke };
    let wall = |x: f64| line(vec![at(x, 60.0), at(x + 40.0, 60.0), at(x + 40.0, 72.0), at(x, 72.0)], true);
    let swing = Shape::Arc { center: at(45.0, 66.0), radius: 60.0, from: 0.0, sweep: -60.0, stroke };
    let leaf = Shape::Fill { points: vec![at(45.0, 64.0), at(74.0, 13.0), at(77.0, 15.0), at(48.0, 66.0)], gray: 0.6 };
    let text = Shape::Text {
        at: at(90.0, 90.0),
        text: "outside".into(),
        size: 9.0,
        bold: false,
        anchor: Anchor::Middle,
        turn: 0.0,
    };
    let parts = vec![
        Part { name: "wall".into(), shapes: vec![wall(5.0), wall(105.0)] },
        Part { name: "leaf".into(), shapes: vec![leaf, swing] },
        Part { name: "text".into(), shapes: vec![text] },
    ];
    let (title, alt) = ("Plan".to_string(), "A leaf hinged at the left, opening away".to_string());
    let drawing = Drawing { title, alt, scale: "not to scale".into(), width: 180.0, height: 105.0, parts };
    BTreeMap::from([("plan".to_string(), Arc::new(drawing))])
}

/// A sheet of somebody else's.
fn sheets() -> BTreeMap<String, Arc<Enclosure>> {
    let (enclosure, _) = enclose(&Made::sheet().plain()).expect("a whole file");
    BTreeMap::from([("plate".to_string(), Arc::new(enclosure))])
}

fn rows() -> Value {
    let row = |at: usize| {
        let parts = if at == 20 {
            "Forty lines of parts that go on. ".repeat(70)
        } else {
            ["header", "header, arm, two plates", "arm"][at % 3].to_string()
        };
        let place =
            ["Lobby to street", "Corridor to stair, fire rated, staged access from the north", "Vestibule"][at % 3];
        let hours = format!("{}.{:02}", at % 13, at * 7 % 100);
        json!({"mark": format!("{}A", 100 + at), "where": place, "parts": parts, "hand": "LHR", "hours": hours})
    };
    Value::Array((0..60).map(row).collect())
}

/// Elements of our own, of which a file keeps both standards, and those of others, of which it keeps none.
const OWN: &str = include_str!("../pages/every-element.xml");
const OF_OTHERS: &str = include_str!("../pages/enclosed.xml");

/// Writes a specimen below `target/`, and says whether it claims the standards.
fn written(name: &str, (tree, pages): &(Tree, Pages)) -> bool {
    let bytes = hingewright::pdf::write(pages, tree, &Faces::built_in(), &hingewright::pdf::Properties::default());
    let bytes = bytes.unwrap_or_else(|findings| panic!("{findings:?}"));
    assert!(bytes.starts_with(b"%PDF-"));
    let claims = bytes.windows(12).any(|it| it == b"pdfuaid:part");
    std::fs::write(format!("{}/specimen-{name}.pdf", env!("CARGO_TARGET_TMPDIR")), bytes)
        .expect("it can be written to");
    claims
}

#[test]
fn the_specimens_hold_every_element_and_become_files() {
    let shown = |name: &str| [OWN, OF_OTHERS].iter().any(|text| text.contains(&format!("<{name}")));
    let missing: Vec<&str> = ELEMENTS.iter().map(|it| it.name).filter(|name| !shown(name)).collect();
    assert_eq!(missing, Vec::<&str>::new(), "elements that no specimen shows");
    for scale in ["desk", "field"] {
        assert!(written(scale, &set(OWN, &json!({"scale": scale, "rows": rows()}), &plan())));
    }
    let (drawings, enclosures) = (BTreeMap::new(), sheets());
    let shown = Shown { drawings: &drawings, enclosures: &enclosures };
    assert!(!written("enclosed", &set(OF_OTHERS, &json!({}), shown)));
}
