//! Marks of what changed between two trees, and where they stand on the page: laws over generated documents.
//!
//! In: documents of sections with paragraphs, rows, items, terms and figures, each with words of its own, and copies with random
//! edits. Out: a unit that is marked and did not change, or changed and is not marked; a mark over text or off the paper.
//! What must be marked follows from the edits themselves (common practice for revision marks, no source).

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use hingewright::findings::{Files, Findings};
use hingewright::fonts::Faces;
use hingewright::markup::{EarlierTree, Mp, Source, Templates, Tree, mark_changes};
use hingewright::shapes::{Drawing, Part};
use hingewright::typeset::{Artifact, Item, Owner, Page, Pages, Placed, Theme, typeset};
use proptest::test_runner::TestRng;

use crate::counts::{below, random};

type Drawings = BTreeMap<String, Arc<Drawing>>;

/// What holds units of one kind.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Holder {
    Paragraphs,
    Rows,
    Items,
    Terms,
    Figures,
}

const HOLDERS: [Holder; 5] = [Holder::Paragraphs, Holder::Rows, Holder::Items, Holder::Terms, Holder::Figures];

/// A section: what stands in it, each with its units; a unit is told by its number.
#[derive(Clone)]
struct Section {
    name: u64,
    holders: Vec<(Holder, Vec<u64>)>,
}

/// A document, and what is known of its edits.
#[derive(Clone)]
struct Document {
    sections: Vec<Section>,
    next: u64,
}

impl Document {
    fn new(random: &mut TestRng) -> Document {
        let mut next = 0;
        let mut number = || {
            next += 1;
            next
        };
        let mut sections = Vec::new();
        for name in 0..1 + below(random, 4) {
            let holders = (0..1 + below(random, 4)).map(|_| {
                let holder = HOLDERS[below(random, 5) as usize];
                (holder, (0..1 + below(random, 7)).map(|_| number()).collect())
            });
            sections.push(Section { name, holders: holders.collect() });
        }
        Document { sections, next }
    }

    fn text(&self) -> String {
        let mut out =
            "<document title=\"T\" lang=\"en\"><head><left>R</left></head><foot><right><page/></right></foot><sheet><h1>Paper</h1>"
                .to_owned();
        for section in &self.sections {
            out += &format!("<h2 id=\"s{}\">Section</h2>", section.name);
            for (holder, units) in &section.holders {
                let each = |one: &dyn Fn(&u64) -> String| units.iter().map(one).collect::<String>();
                out += &match holder {
                    Holder::Paragraphs => format!("<keep>{}</keep>", each(&|it| format!("<p>unit {it}</p>"))),
                    Holder::Rows => {
                        let rows = each(&|it| format!("<tr><td>unit</td><td>{it}<br/>and more</td><td></td></tr>"));
                        format!("<table><tbody>{rows}</tbody></table>")
                    }
                    Holder::Items => format!("<ul>{}</ul>", each(&|it| format!("<li>unit {it}</li>"))),
                    Holder::Terms => {
                        format!("<dl columns=\"2\">{}</dl>", each(&|it| format!("<dt>term</dt><dd>unit {it}</dd>")))
                    }
                    Holder::Figures => {
                        let figure =
                            |it: &u64| format!("<figure drawing=\"k{it}\" alt=\"a\"><caption>c</caption></figure>");
                        format!("<keep>{}</keep>", each(&figure))
                    }
                };
            }
        }
        out + "</sheet></document>"
    }

    /// Every drawing by names that are others in each document: only what it shows counts.
    fn drawings(&self) -> Drawings {
        let figures = self.sections.iter().flat_map(|it| &it.holders).filter(|(holder, _)| *holder == Holder::Figures);
        let named = format!("of document {}", self.next);
        let drawing = |number: u64| Drawing {
            title: named.clone(),
            alt: named.clone(),
            scale: String::new(),
            width: 20.0,
            height: 10.0 + number as f64 / 100.0,
            parts: vec![Part { name: named.clone(), shapes: Vec::new() }],
        };
        figures.flat_map(|(_, units)| units).map(|it| (format!("k{it}"), Arc::new(drawing(*it)))).collect()
    }

    /// Changes, takes out or puts in a few units, the first of each holder left alone; gives the units that must be marked.
    fn edited(&self, random: &mut TestRng) -> (Document, BTreeSet<u64>) {
        let mut new = self.clone();
        for _ in 0..below(random, 6) {
            let section = below(random, new.sections.len() as u64) as usize;
            let holders = &mut new.sections[section].holders;
            let holder = below(random, holders.len() as u64) as usize;
            let units = &mut holders[holder].1;
            let at = 1 + below(random, units.len() as u64) as usize;
            new.next += 1;
            match below(random, 3) {
                0 if at < units.len() => units[at] = new.next,
                1 if at < units.len() => drop(units.remove(at)),
                _ => units.insert(at, new.next),
            }
        }
        let marked = self.must_be_marked(&new);
        (new, marked)
    }

    fn must_be_marked(&self, new: &Document) -> BTreeSet<u64> {
        let holders = |document: &Document| -> Vec<Vec<u64>> {
            document.sections.iter().flat_map(|it| &it.holders).map(|(_, units)| units.clone()).collect()
        };
        let mut marked = BTreeSet::new();
        for (was, is) in holders(self).iter().zip(holders(new)) {
            let fresh = |at: usize| is.get(at).is_some_and(|it| !was.contains(it));
            marked.extend(is.iter().filter(|it| !was.contains(it)));
            for (at, _) in was.iter().enumerate().filter(|(_, it)| !is.contains(it)) {
                let place = |unit: &u64| is.iter().position(|it| it == unit);
                match (was[at..].iter().find_map(place), was[..at].iter().rev().find_map(place)) {
                    (Some(next), _) if !fresh(next - 1) => drop(marked.insert(is[next])),
                    (None, Some(last)) if !fresh(last + 1) => drop(marked.insert(is[last])),
                    _ => {}
                }
            }
        }
        marked
    }
}

fn tree(text: &str) -> Tree {
    let files = Files::new([("a.xml".to_owned(), text.as_bytes().to_vec())]);
    let file = files.find("a.xml").unwrap();
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "a.xml", file, text }], &mut findings);
    let tree = templates.render("a.xml", &serde_json::json!({}), &mut findings);
    tree.unwrap_or_else(|| panic!("{findings:#?}\n{text}"))
}

/// Numbers of the units that carry a mark; of a figure the number stands in its key.
fn marked(tree: &Tree) -> BTreeSet<u64> {
    let carrying = tree.ids().filter(|id| tree.block(*id).revised.is_some());
    let number = |text: &str| text.split_whitespace().find_map(|word| word.parse().ok());
    let of = |id| match &tree.block(id).kind {
        hingewright::markup::Kind::Figure { drawing, .. } => drawing.strip_prefix('k')?.parse().ok(),
        // A term has the number in its detail, which carries the mark too.
        hingewright::markup::Kind::Term => None,
        hingewright::markup::Kind::Heading(_) => panic!("a heading is marked: {}", tree.text(id)),
        _ => Some(number(&tree.text(id)).unwrap_or_else(|| panic!("marked without a number: {:?}", tree.block(id)))),
    };
    carrying.filter_map(of).collect()
}

fn compared(was: (&str, &Drawings), is: (&str, &Drawings)) -> Tree {
    let mut new = tree(is.0);
    let was = EarlierTree { tree: &tree(was.0), drawings: was.1, now: &str::to_owned };
    mark_changes(&mut new, is.1, was, &"B".into());
    new
}

#[test]
fn exactly_what_changed_is_marked() {
    let mut random = random(41);
    let (mut edited, mut marks) = (0, 0);
    for _ in 0..crate::counts::documents() {
        let old = Document::new(&mut random);
        let (new, expected) = old.edited(&mut random);
        let reported = compared((&old.text(), &old.drawings()), (&new.text(), &new.drawings()));
        assert_eq!(marked(&reported), expected, "was {}\nis {}", old.text(), new.text());
        edited += usize::from(!expected.is_empty());
        marks += expected.len();
    }
    assert!(edited > crate::counts::documents() as usize / 2 && marks > edited, "{edited} documents, {marks} marks");
}

/// What stands around a change, and what does not count.
#[test]
fn what_moves_is_renumbered_or_stands_on_every_page_is_not_marked() {
    let none = Drawings::new();
    let sheet = |inside: &str| format!("<document title=\"T\" lang=\"en\">{inside}</document>");
    let marked_texts = |was: &str, is: &str| -> Vec<String> {
        let reported = compared((&sheet(was), &none), (&sheet(is), &none));
        reported.ids().filter(|id| reported.block(*id).revised.is_some()).map(|id| reported.text(id)).collect()
    };
    let cases: [(&str, &str, &[&str]); 9] = [
        // Running heads, feet, title blocks and numbers of pages.
        (
            "<foot><left>A</left></foot><sheet><titleblock><p>A</p></titleblock><p>one <pageof to=\"x\"/></p><p>two</p><h1 id=\"x\">X</h1></sheet>",
            "<foot><left>B</left></foot><sheet><titleblock><p>B</p></titleblock><p>two</p><p>one <pageof to=\"x\"/></p><h1 id=\"x\">X</h1></sheet>",
            &[],
        ),
        // A heading without an id that reads otherwise: what stands under it is the same.
        (
            "<sheet><h1>Two doors</h1><p>one</p></sheet>",
            "<sheet><h1>Three doors</h1><p>one</p></sheet>",
            &["Three doors"],
        ),
        // With an id it is the same heading, and the words under another one are other words.
        (
            "<sheet><h1 id=\"a\">A</h1><p>one</p><h1 id=\"b\">B</h1><p>two</p></sheet>",
            "<sheet><h1 id=\"a\">A</h1><p>two</p><h1 id=\"b\">B</h1><p>one</p></sheet>",
            &["two", "one"],
        ),
        // One of two that say the same came.
        ("<sheet><p>one</p><p>two</p></sheet>", "<sheet><p>one</p><p>two</p><p>one</p></sheet>", &["one"]),
        // All that stood under a heading is gone.
        (
            "<sheet><h1 id=\"a\">A</h1><p>one</p><h1>B</h1></sheet>",
            "<sheet><h1 id=\"a\">A</h1><h1>B</h1></sheet>",
            &["A"],
        ),
        // A table is gone, its head with it.
        (
            "<sheet><p>a</p><table><tbody><tr><td>x</td></tr></tbody></table><p>b</p></sheet>",
            "<sheet><p>a</p><p>b</p></sheet>",
            &["b"],
        ),
        // A detail of a pair.
        (
            "<sheet><dl><dt>k</dt><dd>one</dd></dl></sheet>",
            "<sheet><dl><dt>k</dt><dd>two</dd></dl></sheet>",
            &["k", "two"],
        ),
        // The title of a box speaks for what stands in it.
        (
            "<sheet><box class=\"note\" title=\"Old\"><p>one</p></box></sheet>",
            "<sheet><box class=\"note\" title=\"New\"><p>one</p></box></sheet>",
            &["one"],
        ),
        // A box that is checked now.
        ("<sheet><p><check/> done</p></sheet>", "<sheet><p><check on=\"yes\"/> done</p></sheet>", &[" done"]),
    ];
    for (was, is, expected) in cases {
        let reported = marked_texts(was, is);
        let trimmed = |all: &[&str]| all.iter().map(|it| it.trim().to_owned()).collect::<Vec<_>>();
        assert_eq!(
            reported.iter().map(|it| it.trim().to_owned()).collect::<Vec<_>>(),
            trimmed(expected),
            "{was}\n{is}"
        );
    }
}

/// A section whose heading reads otherwise is the one that it has most in common with, so that one of three that goes marks
/// nothing in the others but their headings; one that goes by another name is the same whatever it is called.
#[test]
fn sections_are_known_again_by_what_stands_in_them_or_by_another_name() {
    let none = Drawings::new();
    let section =
        |heading: &str, own: &str| format!("<keep><h2>{heading}</h2><p>{own}</p><p>the same in all</p></keep>");
    let sheet =
        |inside: String| format!("<document title=\"T\" lang=\"en\"><sheet><h1>What</h1>{inside}</sheet></document>");
    let was = sheet(section("one", "x") + &section("two", "y") + &section("three", "z"));
    let is = sheet(section("one, four", "x") + &section("drei", "z"));
    let texts = |tree: &Tree| -> Vec<String> {
        tree.ids().filter(|id| tree.block(*id).revised.is_some()).map(|id| tree.text(id)).collect()
    };
    assert_eq!(texts(&compared((&was, &none), (&is, &none))), ["one, four", "drei"]);

    let sheet = |mark: &str| {
        let heads = format!("<h1 id=\"sheet.{mark}\">{mark}, Library</h1><h2>{mark}: settings</h2>");
        format!(
            "<document title=\"T\" lang=\"en\"><sheet name=\"of.{mark}\">{heads}<p>6 s</p><p>5 lbf</p></sheet></document>"
        )
    };
    let mut new = tree(&sheet("106"));
    let now = |name: &str| name.replace("105", "106");
    mark_changes(&mut new, &none, EarlierTree { tree: &tree(&sheet("105")), drawings: &none, now: &now }, &"B".into());
    assert_eq!(texts(&new), ["106, Library", "106: settings"]);
}

/// Left, top, right, bottom.
type Frame = (Mp, Mp, Mp, Mp);

fn frame(item: &Item, faces: &Faces) -> Frame {
    match &item.placed {
        Placed::Text { x, y, size, run, .. } => {
            let per_em = i64::from(faces.units_per_em(run.style));
            let width = size.scaled(i64::from(run.advance), per_em);
            (*x, *y - size.scaled(i64::from(faces.cap_height(run.style)), per_em), *x + width, *y)
        }
        Placed::Rule { x1, y1, x2, y2, .. } => (*x1.min(x2), *y1.min(y2), *x1.max(x2), *y1.max(y2)),
        Placed::Fill { x, y, width, height, .. } | Placed::Field { x, y, width, height, .. } => {
            (*x, *y, *x + *width, *y + *height)
        }
        Placed::Check { x, y, side, .. } => (*x, *y, *x + *side, *y + *side),
        Placed::Drawing { x, y, width, .. } | Placed::Enclosed { x, y, width, .. } => (*x, *y, *x + *width, *y),
    }
}

fn set(tree: &Tree, drawings: &Drawings, theme: &Theme) -> Pages {
    let mut findings = Findings::default();
    typeset(tree, &Faces::built_in(), theme, drawings, &mut findings).unwrap_or_else(|| panic!("{findings:#?}"))
}

fn is_mark(item: &&Item) -> bool {
    item.owner == Owner::Artifact(Artifact::Revision)
}

/// Pages without their marks, as what stands where.
fn without_marks(page: &Page) -> Vec<String> {
    page.items.iter().filter(|item| !is_mark(item)).map(|item| format!("{item:?}")).collect()
}

/// Marks stand in the margins, on the paper, letters inside of triangles that touch no other; every unit that is marked has
/// one at its height; and nothing but marks is on the page that would not be there without.
#[test]
fn marks_stand_in_the_margin_and_move_nothing() {
    let mut random = random(42);
    let faces = Faces::built_in();
    let narrow = Theme { margin_side: Mp(18_000), ..Theme::default() };
    let mut letters = 0;
    for round in 0..crate::counts::documents() / 5 {
        let old = Document::new(&mut random);
        let (new, _) = old.edited(&mut random);
        let theme = if round % 3 == 0 { &narrow } else { &Theme::default() };
        let mut plain = tree(&new.text());
        let unmarked = set(&plain, &new.drawings(), theme);
        let revision = ["B", "12", "Rev-2027"][round as usize % 3];
        let was = EarlierTree { tree: &tree(&old.text()), drawings: &old.drawings(), now: &str::to_owned };
        let count = mark_changes(&mut plain, &new.drawings(), was, &revision.into());
        let pages = set(&plain, &new.drawings(), theme);
        let marks = pages.pages.iter().flat_map(|page| page.items.iter().filter(is_mark)).count();
        assert_eq!(marks > 0, count > 0);
        assert_eq!(pages.revised().is_empty(), count == 0);
        for (page, without) in pages.pages.iter().zip(&unmarked.pages) {
            assert_eq!(without_marks(page), without_marks(without));
            let mut triangles: Vec<Frame> = Vec::new();
            for item in page.items.iter().filter(is_mark) {
                let (left, top, right, bottom) = frame(item, &faces);
                let in_margin = right < theme.margin_side || left > page.width - theme.margin_side;
                assert!(in_margin, "{item:?}");
                assert!(
                    left >= Mp(4_000) && right <= page.width - Mp(4_000) && top > Mp::ZERO && bottom < page.height,
                    "{item:?}"
                );
                if let Placed::Text { run, size, .. } = &item.placed {
                    letters += 1;
                    assert_eq!((run.text.as_str(), *size), (revision, theme.desk.text));
                }
                if let Placed::Rule { x1, x2, y1, y2, .. } = &item.placed
                    && y1 == y2
                {
                    triangles.push((*x1.min(x2), *y1 - Mp(6_000), *x1.max(x2), *y1));
                }
            }
            for (at, one) in triangles.iter().enumerate() {
                let apart = |other: &Frame| one.2 < other.0 || other.2 < one.0 || one.3 < other.1 || other.3 < one.1;
                assert!(triangles[at + 1..].iter().all(apart), "{triangles:?}");
            }
            let heights: Vec<Frame> = page.items.iter().filter(is_mark).map(|item| frame(item, &faces)).collect();
            for item in &page.items {
                let Owner::Block(block) = item.owner else { continue };
                if plain.block(block).revised.is_none() {
                    continue;
                }
                let (_, top, _, bottom) = frame(item, &faces);
                let beside = heights.iter().any(|mark| mark.1 <= bottom && mark.3 >= top);
                assert!(beside, "{item:?} has no mark beside it");
            }
        }
    }
    // One in twenty-five documents at least has a triangle.
    assert!(letters > crate::counts::documents() / 25, "{letters} triangles with letters");
}
