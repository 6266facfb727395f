//! Papers made for tests of the print wing: a block tree from markup, and its words set down page by page.
//!
//! In: markup. Out: a tree, and pages on which every word stands. May not know: how real pages are made; lines are not
//! broken, and a page ends after a fixed number of lines.

use std::sync::Arc;

use hingewright::findings::{Files, Findings};
use hingewright::lettering::{Faces, Features, Setter, Style};
use hingewright::markup::{BlockId, Body, Inline, Kind, Mp, Source, Templates, Tree};
use hingewright::shapes::{Anchor, Drawing, Part, Shape, Stroke, at};
use hingewright::typeset::{Artifact, Heading, Item, Owner, Page, Pages, Placed};

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

/// Sets a tree down, so many lines a page.
pub fn set(tree: &Tree, faces: &Faces, lines_a_page: usize) -> Pages {
    let drawing = Arc::new(drawing());
    let mut pages = Pages::default();
    let mut setter = Setter::new(faces, Features::default());
    let mut line = lines_a_page;
    for id in tree.ids().filter(|id| !in_margin(tree, *id)) {
        let block = tree.block(id);
        let empty = matches!(block.body, Body::Blocks(_) | Body::Empty) && !matches!(block.kind, Kind::Figure { .. });
        if empty {
            continue;
        }
        if line == lines_a_page {
            pages.pages.push(blank_page(&mut setter, pages.pages.len() + 1));
            line = 0;
        }
        let page = pages.pages.last_mut().unwrap();
        let y = Mp::points(80 + 20 * line as i32);
        if let Kind::Heading(level) = block.kind {
            page.headings.push(Heading { block: id, level, text: tree.text(id), y: y - Mp::points(10) });
        }
        place(block_items(tree, id), y, id, page, &mut setter, &drawing);
        line += 1;
    }
    pages
}

fn in_margin(tree: &Tree, id: BlockId) -> bool {
    tree.ids().any(|slot| matches!(tree.block(slot).kind, Kind::Slot(_)) && slot == id)
}

fn block_items(tree: &Tree, id: BlockId) -> Vec<Inline> {
    match &tree.block(id).body {
        Body::Text(inlines) => inlines.clone(),
        Body::Blocks(_) | Body::Empty => Vec::new(),
    }
}

fn place(inlines: Vec<Inline>, y: Mp, id: BlockId, page: &mut Page, setter: &mut Setter<'_>, drawing: &Arc<Drawing>) {
    let owner = Owner::Block(id);
    if inlines.is_empty() {
        let placed = Placed::Drawing { x: Mp::points(72), y, width: Mp::points(40), drawing: drawing.clone() };
        page.items.push(Item { owner, placed });
    }
    let mut x = Mp::points(72);
    for inline in inlines {
        match inline {
            Inline::Text { text, weight } => {
                let run = setter.shape(Style::new(weight.bold, weight.italic), &text);
                let size = Mp::points(10);
                let wide = size.scaled(i64::from(run.advance), 1000);
                page.items.push(Item { owner, placed: Placed::Text { x, y, size, gray: 0, run } });
                x += wide;
            }
            Inline::Check { on, .. } => {
                let placed = Placed::Check { x, y: y - Mp::points(8), side: Mp::points(9), on };
                page.items.push(Item { owner, placed });
                x += Mp::points(10);
            }
            Inline::Break | Inline::Blank { .. } | Inline::PageNumber | Inline::PageCount => {}
        }
    }
}

fn blank_page(setter: &mut Setter<'_>, number: usize) -> Page {
    let run = setter.shape(Style::Regular, &format!("Page {number}"));
    let (x, size) = (Mp::points(72), Mp::points(9));
    let foot = Placed::Text { x, y: Mp::points(770), size, gray: 300, run };
    let ground = Placed::Fill { x, y: Mp::points(60), width: Mp::points(468), height: Mp::points(12), gray: 930 };
    let (y, width) = (Mp::points(760), Mp(250));
    let rule = Placed::Rule { x1: x, y1: y, x2: Mp::points(540), y2: y, width, gray: 0 };
    let item = |artifact, placed| Item { owner: Owner::Artifact(artifact), placed };
    Page {
        width: Mp::points(612),
        height: Mp::points(792),
        items: vec![item(Artifact::RunningFoot, foot), item(Artifact::Layout, ground), item(Artifact::Layout, rule)],
        headings: Vec::new(),
    }
}
