//! Papers made for tests of the print wing, from markup to pages.
//!
//! In: markup. Out: a tree, and pages. May not know: what is tested with them.

use std::sync::Arc;

use hingewright::findings::{Files, Findings};
use hingewright::fonts::Faces;
use hingewright::markup::{Kind, Source, Templates, Tree};
use hingewright::shapes::{Anchor, Drawing, Part, Shape, Stroke, at};
use hingewright::typeset::{Pages, Theme, typeset};

/// The tree of a template without values.
pub fn tree(markup: &str) -> Tree {
    let files = Files::new([("paper.xml".to_string(), markup.as_bytes().to_vec())]);
    let file = files.find("paper.xml").unwrap();
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "paper.xml", file, text: markup }], &mut findings);
    let tree = templates.render("paper.xml", &serde_json::json!({}), &mut findings);
    tree.unwrap_or_else(|| panic!("{:#?}", findings.iter().collect::<Vec<_>>()))
}

/// A drawing with something of every kind in it.
pub fn drawing() -> Drawing {
    let stroke = Stroke { width: 0.5, gray: 0.0, dash: None };
    let text = |text: &str, turn| Shape::Text {
        at: at(40.0, 20.0),
        text: text.into(),
        size: 8.0,
        bold: false,
        anchor: Anchor::Middle,
        turn,
    };
    let shapes = vec![
        Shape::Fill { points: vec![at(0.0, 0.0), at(80.0, 0.0), at(80.0, 5.0)], gray: 0.8 },
        Shape::Line { points: vec![at(0.0, 5.0), at(80.0, 5.0)], closed: false, stroke },
        Shape::Arc { center: at(10.0, 5.0), radius: 30.0, from: 0.0, sweep: 90.0, stroke },
        Shape::Line {
            points: vec![at(10.0, 5.0), at(10.0, 35.0), at(12.0, 35.0)],
            closed: true,
            stroke: Stroke { dash: Some((2.0, 1.0)), ..stroke },
        },
        text("36\u{A0}in", 0.0),
        text("swing", 30.0),
    ];
    Drawing {
        title: "Plan".into(),
        alt: "A leaf that swings to the left".into(),
        scale: "1/2 in = 1 ft".into(),
        width: 80.0,
        height: 40.0,
        parts: vec![Part { name: "all".into(), shapes }],
    }
}

/// Sets a paper in the default theme; every figure shows the drawing above.
pub fn set(tree: &Tree, faces: &Faces) -> Pages {
    let keys = tree.ids().filter_map(|id| match &tree.block(id).kind {
        Kind::Figure { drawing, .. } => Some(drawing.clone()),
        _ => None,
    });
    let shared = Arc::new(drawing());
    let drawings = keys.map(|key| (key, shared.clone())).collect();
    let mut findings = Findings::default();
    let pages = typeset(tree, faces, &Theme::default(), &drawings, &mut findings);
    pages.unwrap_or_else(|| panic!("{:#?}", findings.iter().collect::<Vec<_>>()))
}
