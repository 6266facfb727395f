use hingewright::*;
use std::sync::Arc;
use std::time::Instant;
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let out = std::env::args().nth(2).unwrap();
    let markup = std::fs::read_to_string(path).unwrap();
    let t0 = Instant::now();
    let files = findings::Files::new([("p.xml".to_string(), markup.as_bytes().to_vec())]);
    let file = files.find("p.xml").unwrap();
    let mut f = findings::Findings::default();
    let t = markup::Templates::load([markup::Source { name: "p.xml", file, text: &markup }], &mut f);
    let rows: Vec<u32> = (0..std::env::args().nth(3).map_or(0, |n| n.parse().unwrap())).collect();
    let tree = t.render("p.xml", &serde_json::json!({"rows": rows}), &mut f);
    let Some(tree) = tree else { panic!("{:#?}", f) };
    let t1 = Instant::now();
    let faces = lettering::Faces::built_in();
    let d = shapes::Drawing {
        title: "t".into(),
        alt: "an opening in plan: the leaf swings toward you, hinges at the left".into(),
        scale: "".into(),
        width: 160.0,
        height: 120.0,
        parts: vec![shapes::Part {
            name: "x".into(),
            shapes: vec![
                shapes::Shape::Fill {
                    points: vec![
                        shapes::at(0.0, 20.0),
                        shapes::at(20.0, 20.0),
                        shapes::at(20.0, 30.0),
                        shapes::at(0.0, 30.0),
                    ],
                    gray: 0.7,
                },
                shapes::Shape::Fill {
                    points: vec![
                        shapes::at(110.0, 20.0),
                        shapes::at(160.0, 20.0),
                        shapes::at(160.0, 30.0),
                        shapes::at(110.0, 30.0),
                    ],
                    gray: 0.7,
                },
                shapes::Shape::Line {
                    points: vec![
                        shapes::at(20.0, 30.0),
                        shapes::at(20.0, 120.0),
                        shapes::at(25.0, 120.0),
                        shapes::at(25.0, 30.0),
                    ],
                    closed: true,
                    stroke: shapes::Stroke { width: 0.7, gray: 0.0, dash: None },
                },
                shapes::Shape::Arc {
                    center: shapes::at(20.0, 30.0),
                    radius: 90.0,
                    from: 0.0,
                    sweep: 90.0,
                    stroke: shapes::Stroke { width: 0.35, gray: 0.0, dash: Some((3.0, 2.0)) },
                },
                shapes::Shape::Line {
                    points: vec![shapes::at(20.0, 10.0), shapes::at(110.0, 10.0)],
                    closed: false,
                    stroke: shapes::Stroke { width: 0.35, gray: 0.0, dash: None },
                },
                shapes::Shape::Text {
                    at: shapes::at(65.0, 12.0),
                    text: "3'-0\"".into(),
                    size: 8.0,
                    bold: false,
                    anchor: shapes::Anchor::Middle,
                    turn: 0.0,
                },
                shapes::Shape::Text {
                    at: shapes::at(15.0, 75.0),
                    text: "leaf LHR".into(),
                    size: 8.0,
                    bold: true,
                    anchor: shapes::Anchor::Middle,
                    turn: 90.0,
                },
            ],
        }],
    };
    let mut drawings = std::collections::BTreeMap::new();
    drawings.insert("plan".to_string(), Arc::new(d));
    let pages = typeset::typeset(&tree, &faces, &typeset::Theme::default(), &drawings, &mut f)
        .unwrap_or_else(|| panic!("{f:#?}"));
    let t2 = Instant::now();
    let p = pdf::Properties {
        author: "Ashgrove & Daughters".into(),
        subject: "x".into(),
        date: Some(pdf::Day { year: 2026, month: 11, day: 25 }),
        fingerprint: "ab".repeat(32),
        claim: pdf::Claim::Accessible,
    };
    let b = pdf::write(&pages, &tree, &faces, &p).unwrap();
    let t3 = Instant::now();
    eprintln!(
        "tree {:?} typeset {:?} pdf {:?} pages {} bytes {}",
        t1 - t0,
        t2 - t1,
        t3 - t2,
        pages.pages.len(),
        b.len()
    );
    std::fs::write(out, b).unwrap();
}
