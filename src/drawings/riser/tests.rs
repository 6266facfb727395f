//! The laws of risers on 1,000 trees made at random: no node on a node, no word on a word, no line across a line, everything
//! inside of the frame, every node on some sheet, the same twice.
//!
//! That a tree drawn in one order of its nodes has no crossings is plane geometry; here it is held by coordinates.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};

use super::*;
use crate::drawings::generated::hold_to_laws;
use crate::fonts::Faces;
use crate::shapes::{Extent, Point, Shape};

const FRAME: Frame = Frame { width: 740.0, height: 540.0, text: 7.5 };

/// What a node is made of, before it has a name.
#[derive(Clone, Debug)]
struct Raw {
    seeds: Vec<u32>,
    panels: usize,
}

fn raw() -> impl Strategy<Value = Raw> {
    (prop::collection::vec(any::<u32>(), 2..80), 1_usize..4).prop_map(|(seeds, panels)| Raw { seeds, panels })
}

/// Trees from numbers: each node feeds on one before it whose class is not beyond its own.
fn trees(raw: &Raw) -> Vec<RiserNode> {
    const ALL: [RiserClass; 5] =
        [RiserClass::Panel, RiserClass::Box, RiserClass::Disconnect, RiserClass::Operator, RiserClass::Device];
    let mut nodes: Vec<(RiserClass, Option<usize>, RiserLine)> = Vec::new();
    for _ in 0..raw.panels {
        nodes.push((RiserClass::Panel, None, RiserLine::default()));
    }
    for (at, seed) in raw.seeds.iter().enumerate() {
        let class = ALL[1 + (*seed as usize % 4)];
        let feeders: Vec<usize> = (0..nodes.len())
            .filter(|it| {
                let deep = depth(&nodes, *it, nodes[*it].0);
                nodes[*it].0 < class || (nodes[*it].0 == class && class < RiserClass::Operator && deep < 4)
            })
            .collect();
        let feeder = feeders[(*seed as usize / 7) % feeders.len()];
        let under = (0..(*seed / 64) % 3).map(|row| format!("{row}: 4 × 12 AWG, gnd")).collect();
        let line = RiserLine { over: format!("{at} EMT 1/2, 38'-0\""), under, dashed: seed % 5 == 0 };
        nodes.push((class, Some(feeder), line));
    }
    let roots = (0..raw.panels).map(|root| grown(&nodes, root, &raw.seeds));
    roots.collect()
}

/// How many nodes of one class feed one another down to this one.
fn depth(nodes: &[(RiserClass, Option<usize>, RiserLine)], at: usize, class: RiserClass) -> usize {
    match nodes[at].1 {
        Some(feeder) if nodes[feeder].0 == class => 1 + depth(nodes, feeder, class),
        _ => 0,
    }
}

fn grown(nodes: &[(RiserClass, Option<usize>, RiserLine)], at: usize, seeds: &[u32]) -> RiserNode {
    let feeds = (0..nodes.len()).filter(|it| nodes[*it].1 == Some(at));
    let lines = 1 + seeds.get(at).map_or(0, |seed| *seed as usize / 1000 % 3);
    let words = (0..lines).map(|row| if row == 0 { format!("node {at}") } else { format!("208 V, {row}.9 A") });
    RiserNode {
        name: format!("n{at}"),
        class: nodes[at].0,
        words: words.collect(),
        feeds: feeds.map(|it| (nodes[it].2.clone(), grown(nodes, it, seeds))).collect(),
    }
}

fn names(node: &RiserNode, into: &mut Vec<String>) {
    into.push(node.name.clone());
    node.feeds.iter().for_each(|(_, fed)| names(fed, into));
}

/// Whether two straight pieces, level or upright, cross away from their ends, or lie on each other.
fn cross(a: (Point, Point), b: (Point, Point)) -> bool {
    let level = |it: &(Point, Point)| (it.0.y - it.1.y).abs() < 1e-9;
    let meets =
        |(a1, a2): (f64, f64), (b1, b2): (f64, f64)| a1.min(a2) + 1e-6 < b1.max(b2) && b1.min(b2) + 1e-6 < a1.max(a2);
    let inside = |it: f64, (a, b): (f64, f64)| it > a.min(b) + 1e-6 && it < a.max(b) - 1e-6;
    match (level(&a), level(&b)) {
        (true, true) => (a.0.y - b.0.y).abs() < 1e-9 && meets((a.0.x, a.1.x), (b.0.x, b.1.x)),
        (false, false) => (a.0.x - b.0.x).abs() < 1e-9 && meets((a.0.y, a.1.y), (b.0.y, b.1.y)),
        (true, false) => inside(b.0.x, (a.0.x, a.1.x)) && inside(a.0.y, (b.0.y, b.1.y)),
        (false, true) => cross(b, a),
    }
}

#[test]
fn no_node_word_or_line_meets_another_and_every_node_is_drawn() {
    let config = Config { cases: 1000, failure_persistence: None, rng_seed: RngSeed::Fixed(23), ..Config::default() };
    let faces = Faces::built_in();
    let ruler = Ruler::new(&faces);
    let run = TestRunner::new(config).run(&raw(), |raw| {
        let trees = trees(&raw);
        let sheets = riser("Riser", &trees, FRAME, &ruler).expect("it fits");
        assert_eq!(riser("Riser", &trees, FRAME, &ruler).as_ref(), Some(&sheets), "the same twice");
        let mut wanted = Vec::new();
        trees.iter().for_each(|tree| names(tree, &mut wanted));
        for name in &wanted {
            assert!(sheets.iter().any(|sheet| sheet.part(&format!("node {name}")).is_some()), "{name} is missing");
        }
        sheets.iter().for_each(|sheet| hold_sheet(sheet, &ruler));
        Ok(())
    });
    run.expect("the laws hold");
}

fn hold_sheet(sheet: &Drawing, ruler: &Ruler) {
    hold_to_laws(sheet, FRAME, ruler);
    let of = |start: &str| -> Vec<(&str, &Shape)> {
        let parts = sheet.parts.iter().filter(|part| part.name.starts_with(start));
        parts.map(|part| (part.name.as_str(), &part.shapes[0])).collect()
    };
    let boxes: Vec<(&str, Extent)> =
        of("node n").into_iter().map(|(name, it)| (name, it.extent(|_, _, _| 0.0).expect("a box"))).collect();
    for (at, (name, one)) in boxes.iter().enumerate() {
        for (other, two) in &boxes[at + 1..] {
            assert!(!one.meets(two), "{name} stands on {other}");
        }
    }
    let lines: Vec<(&str, Vec<Point>)> = of("line ")
        .into_iter()
        .map(|(name, shape)| match shape {
            Shape::Line { points, .. } => (name, points.clone()),
            other => panic!("{other:?} is no line"),
        })
        .collect();
    for (at, (name, one)) in lines.iter().enumerate() {
        for (other, two) in &lines[at + 1..] {
            for a in one.windows(2) {
                for b in two.windows(2) {
                    // Lines of one feeder run together until they part; they cross nowhere.
                    let together = one[0] == two[0];
                    let crossed = cross((a[0], a[1]), (b[0], b[1]));
                    assert!(together || !crossed, "{name} crosses {other}");
                }
            }
        }
        for (other, area) in &boxes {
            let inner = Extent {
                left: area.left + 0.01,
                bottom: area.bottom + 0.01,
                right: area.right - 0.01,
                top: area.top - 0.01,
            };
            for piece in one.windows(2) {
                assert!(!inner.is_crossed(piece[0], piece[1]), "{name} runs through {other}");
            }
        }
    }
}

#[test]
fn what_does_not_fit_a_sheet_goes_on_with_its_way_repeated() {
    let device = |at: usize| {
        let node = RiserNode {
            name: format!("d{at}"),
            class: RiserClass::Device,
            words: vec![format!("P{at}")],
            feeds: Vec::new(),
        };
        (RiserLine { over: "cable".to_owned(), ..RiserLine::default() }, node)
    };
    let panel = RiserNode {
        name: "panel".to_owned(),
        class: RiserClass::Panel,
        words: vec!["LP-1".to_owned()],
        feeds: (0..60).map(device).collect(),
    };
    let faces = Faces::built_in();
    let ruler = Ruler::new(&faces);
    let sheets = riser("Riser", &[panel], FRAME, &ruler).expect("it fits");
    assert!(sheets.len() > 1);
    for (at, sheet) in sheets.iter().enumerate() {
        assert!(sheet.part("node panel").is_some(), "the panel is on every sheet");
        assert_eq!(sheet.title, format!("Riser ({} of {})", at + 1, sheets.len()));
    }
}
