//! The papers for a browser: one file each, well-formed, with nothing from elsewhere, saying what the printed paper says.
//!
//! In: the demo's papers. Out: what the file for a browser lacks; the test wants nothing. A headless browser opens the same files in CI.

use std::collections::BTreeSet;

use hingewright::findings::Paper;
use hingewright::fonts::plain;
use hingewright::pipeline::{Form, IssuedPaper};
use roxmltree::{Document, Node};

use crate::demo::demo;

const XHTML: &str = "http://www.w3.org/1999/xhtml";

/// A paper as XML. It must be well-formed (Extensible Markup Language 1.0, 2.1), which HTML need not be.
fn read<'p>(paper: &'p IssuedPaper) -> Document<'p> {
    let text = std::str::from_utf8(&paper.bytes).expect("a paper is UTF-8");
    let body = text.strip_prefix("<!DOCTYPE html>\n").expect("it says that it is HTML");
    Document::parse(body).unwrap_or_else(|fault| panic!("{}: {fault}", paper.name))
}

/// Everything that a reader sees or hears of a paper, with single spaces.
pub fn words(paper: &IssuedPaper) -> String {
    let document = read(paper);
    let hidden = |node: &Node<'_, '_>| ["style", "script"].iter().any(|it| node.has_tag_name((XHTML, *it)));
    let mut words = Vec::new();
    for node in document.descendants().filter(|node| !node.ancestors().any(|it| hidden(&it))) {
        words.extend(node.text().filter(|_| node.is_text()).into_iter().flat_map(str::split_whitespace));
        words.extend(node.attribute("aria-label").into_iter().flat_map(str::split_whitespace));
    }
    plain(&words.join(" ")).into_owned()
}

/// The demo's papers for a browser.
fn papers() -> impl Iterator<Item = &'static IssuedPaper> {
    demo().issue.of_form(Form::Html)
}

#[test]
fn packets_and_shop_drawings_are_written_for_a_browser_beside_their_pages() {
    let names: BTreeSet<String> = papers().map(|it| it.name.replace(".html", ".pdf")).collect();
    let both = |it: &&IssuedPaper| [Paper::Packet, Paper::Drawings].contains(&it.paper);
    let printed = demo().issue.of_form(Form::Pdf).filter(both);
    assert_eq!(names, printed.map(|it| it.name.clone()).collect());
}

/// Nothing is fetched: no attribute that names a resource, no address but the two names of vocabularies, no import in the style.
#[test]
fn nothing_comes_from_elsewhere() {
    for paper in papers() {
        let document = read(paper);
        let text = String::from_utf8_lossy(&paper.bytes);
        let addresses: BTreeSet<&str> = text.match_indices("http").map(|(at, _)| &text[at..at + 28]).collect();
        let known = ["http://www.w3.org/1999/xhtml", "http://www.w3.org/2000/svg\" ", "http-equiv=\"Content-Security"];
        assert!(addresses.iter().all(|it| known.contains(it)), "{}: {addresses:?}", paper.name);
        for word in ["url(", "@import", "fetch(", "XMLHttpRequest", "import("] {
            assert!(!text.contains(word), "{}: {word}", paper.name);
        }
        for node in document.descendants() {
            let fetched = ["src", "srcset", "data", "poster", "action"].iter().find(|it| node.has_attribute(**it));
            assert_eq!(fetched, None, "{}: <{}>", paper.name, node.tag_name().name());
            let link = node.attribute("href").unwrap_or("#");
            assert!(link.starts_with('#'), "{}: {link}", paper.name);
        }
    }
}

#[test]
fn every_field_has_a_name_of_its_own_and_says_what_it_is_for() {
    for paper in papers() {
        let document = read(paper);
        let mut seen = BTreeSet::new();
        let named: BTreeSet<&str> = document.descendants().filter_map(|node| node.attribute("for")).collect();
        for node in document.descendants().filter(|it| ["input", "textarea"].contains(&it.tag_name().name())) {
            if let Some(id) = node.attribute("id") {
                // What serves the page itself: the two areas of its memory stand in labels, full sizes of drawings have theirs.
                let inside = node.parent().is_some_and(|it| it.has_tag_name((XHTML, "label")));
                assert!(inside || named.contains(id), "{}: {id} without a label", paper.name);
                continue;
            }
            let name = node.attribute("data-f").expect("a field has a name");
            assert!(seen.insert(name.to_owned()), "{}: {name} twice", paper.name);
            assert!(node.attribute("aria-label").is_some_and(|it| !it.trim().is_empty()), "{}: {name}", paper.name);
        }
        assert_eq!(document.root_element().attribute("data-fields"), Some(seen.len().to_string().as_str()));
        let wanted = if paper.paper == Paper::Packet { 100..10_000 } else { 0..1 };
        assert!(wanted.contains(&seen.len()), "{}: {} fields", paper.name, seen.len());
    }
}

/// Headings leave out no level downward, and every link leads somewhere (WCAG 2.1, 1.3.1 and 2.4.1).
#[test]
fn headings_come_in_order_and_links_lead_somewhere() {
    for paper in papers() {
        let document = read(paper);
        let mut level = 0;
        for node in document.descendants() {
            let now = match node.tag_name().name() {
                "h1" => 1,
                "h2" => 2,
                "h3" => 3,
                _ => continue,
            };
            assert!(now <= level + 1, "{}: h{now} after h{level}", paper.name);
            level = now;
        }
        let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
        let unlike: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(ids.len(), unlike.len(), "{}: an id twice", paper.name);
        let links = document.descendants().filter_map(|node| node.attribute("href"));
        for link in links {
            assert!(unlike.contains(&link[1..]), "{}: {link} leads nowhere", paper.name);
        }
    }
}

/// The two forms are made of one tree: every word that the printed paper shows stands in the file for a browser.
#[test]
fn the_phone_says_what_the_paper_says() {
    for paper in papers() {
        let printed = &demo().pdfs[&paper.name.replace(".html", ".pdf")];
        let all = words(paper);
        let said: BTreeSet<&str> = all.split_whitespace().collect();
        // A word of two looks stands in two texts.
        let document = read(paper);
        let joined: String = document.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect();
        let joined = plain(&joined).into_owned();
        let text = plain(&printed.text()).into_owned();
        // What the page adds: bullets and numbers of lists, boxes to check, page numbers, the mark of a row that goes on. Texts
        // of a drawing stand in the PDF without space between them.
        let adds = |word: &str| {
            ["\u{2022}", "\u{2610}", "\u{2611}", "continued", "Page"].contains(&word)
                || word.trim_end_matches('.').parse::<u32>().is_ok()
        };
        let drawn = |word: &str| word.replace("drive", "").replace("supply", "").is_empty();
        let lacking: BTreeSet<&str> = text
            .split_whitespace()
            .filter(|word| !adds(word) && !drawn(word) && !said.contains(word) && !joined.contains(*word))
            .collect();
        assert_eq!(lacking, BTreeSet::new(), "{}", paper.name);
    }
}
