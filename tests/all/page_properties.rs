//! Laws of the page, over generated documents: nothing lost, nothing twice, nothing outside the margins, nothing on top of
//! another, heads where their tables are, no heading left behind.
//!
//! Every document comes from a fixed seed; the count stands here and is multiplied like every random check.

use std::collections::{BTreeMap, BTreeSet};

use hingewright::fonts::Faces;
use hingewright::markup::{BlockId, Body, Inline, Kind, Tree};
use hingewright::typeset::{Artifact, Item, Mp, Owner, Page, Pages, Placed, Theme};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};
use serde_json::json;

use super::specimen::{plan, try_set};

/// Words of the trade and worse: long ones, ones with no-break characters, figures.
const WORDS: &[&str] = &[
    "header",
    "arm",
    "3\u{202f}ft\u{202f}0\u{202f}1/2\u{202f}in",
    "101A",
    "a",
    "1,284.50",
    "low-energy",
    "x",
    "electromagneticallyheldopenandreleasedbythefirealarmsystem",
    "B101A/B102",
    "(see",
    "note)",
    "Ω",
    "é",
    "—",
    "7'-0\"",
];

fn words(most: usize) -> impl Strategy<Value = String> {
    proptest::collection::vec(proptest::sample::select(WORDS), 0..most)
        .prop_map(|words| words.join(" ").replace('"', "&quot;"))
}

fn cell() -> BoxedStrategy<String> {
    prop_oneof![
        8 => words(8),
        1 => words(120),
        1 => words(6).prop_map(|text| format!("<p>x {text}</p><checks><li>{text} y</li><li on=\"yes\">z</li></checks>")),
        1 => words(5).prop_map(|text| format!("<b>{text} k</b> <check/> m <blank w=\"0.4in\"/>")),
        1 => Just("<answer h=\"0.5in\" label=\"why\"/>".to_string()),
    ]
    .boxed()
}

fn table(most_columns: usize) -> BoxedStrategy<String> {
    let width = prop_oneof![Just("*"), Just("2*"), Just("0.7in"), Just("fit")];
    let align = prop_oneof![Just("left"), Just("right"), Just("center"), Just("decimal")];
    let class = prop_oneof![Just("rows"), Just("grid"), Just("zebra"), Just("plain")];
    let kind = prop_oneof![6 => Just("plain"), 1 => Just("group"), 1 => Just("subtotal"), 1 => Just("total")];
    let columns = proptest::collection::vec((width, align), 2..=most_columns);
    (columns, class, 1..3_usize, any::<bool>())
        .prop_flat_map(move |(columns, class, head, foot)| {
            let over = prop_oneof![8 => Just(1_usize), 1 => 2..5_usize, 1 => 9..20_usize];
            let row = (kind.clone(), over, proptest::collection::vec(cell(), columns.len()));
            (Just(columns), Just(class), Just(head), Just(foot), proptest::collection::vec(row, 0..30), any::<bool>())
        })
        .prop_map(|(columns, class, head, foot, rows, carry)| {
            let cols: String = columns.iter().map(|(w, a)| format!("<col w=\"{w}\" align=\"{a}\"/>")).collect();
            let heads: String = (0..columns.len()).map(|at| format!("<th>Head {at}</th>")).collect();
            let head = format!("<tr>{heads}</tr>").repeat(head);
            let mut left = 0;
            let body: String = rows
                .iter()
                .enumerate()
                .map(|(at, (kind, over, cells))| {
                    let covered = std::mem::take(&mut left);
                    let rows_left = rows.len() - at;
                    // The first cell of a plain row may cover those below, which then have none of their own there.
                    let rows_covered = if *kind == "plain" && covered == 0 { (*over).min(rows_left) } else { 1 };
                    left = if covered > 0 { covered - 1 } else { rows_covered - 1 };
                    let skipped = usize::from(covered > 0);
                    let cell = |(at, cell): (usize, &String)| match at {
                        0 if rows_covered > 1 => format!("<td rowspan=\"{rows_covered}\">{cell}</td>"),
                        _ => format!("<td>{cell}</td>"),
                    };
                    let cells: String = cells.iter().enumerate().skip(skipped).map(cell).collect();
                    let carry = if carry { format!(" carry=\"{at}.5\"") } else { String::new() };
                    format!("<tr class=\"{kind}\"{carry}>{cells}</tr>")
                })
                .collect();
            let span = columns.len();
            let foot =
                if foot { format!("<tfoot><tr><td colspan=\"{span}\">Sum</td></tr></tfoot>") } else { String::new() };
            format!("<table class=\"{class}\">{cols}<thead>{head}</thead><tbody>{body}</tbody>{foot}</table>")
        })
        .boxed()
}

fn block() -> BoxedStrategy<String> {
    prop_oneof![
        3 => words(90).prop_map(|text| format!("<p>{text}</p>")),
        1 => (words(30), 0..9_u8).prop_map(|(text, to)| format!("<p>{text} <see to=\"r{to}\">see {text}</see>, page <pageof to=\"r{to}\"/>.</p>")),
        1 => (1..4_u8).prop_map(|depth| format!("<contents depth=\"{depth}\"/>")),
        2 => words(6).prop_map(|text| format!("<h2>Part {text}</h2>")),
        1 => words(4).prop_map(|text| format!("<h3>Inner {text}</h3>")),
        3 => table(5),
        1 => (words(30), words(3)).prop_map(|(a, b)| format!("<ol><li>{a} q</li><li><p>{b} r</p><ul><li>{a}</li></ul></li></ol>")),
        1 => (words(60), words(9)).prop_map(|(a, b)| format!("<box class=\"hold\" title=\"Hold {b}\"><p>{a}</p><sign><line>N</line><line w=\"2in\">D</line></sign></box>")),
        1 => (words(20), words(9)).prop_map(|(a, b)| format!("<dl columns=\"2\"><dt>{b} t</dt><dd>{a}</dd><dt>u</dt><dd>v</dd><dt>w</dt><dd>{b}</dd></dl>")),
        1 => (words(90), words(30)).prop_map(|(a, b)| format!("<columns count=\"3\"><p>{a}</p><p>{b}</p><ul><li>{b} l</li></ul></columns>")),
        1 => (words(90), table(3)).prop_map(|(a, b)| format!("<side><part w=\"2in\"><figure drawing=\"plan\"/><p>{a}</p></part><part>{b}</part></side>")),
        1 => (words(90), words(30)).prop_map(|(a, b)| format!("<keep><p>{a}</p><figure drawing=\"plan\"><caption>c {b}</caption></figure></keep>")),
        1 => (words(9), 2..90_usize).prop_map(|(a, count)| format!("<keep>{}</keep>", format!("<p>{a} n</p>").repeat(count))),
        1 => (words(9), table(3)).prop_map(|(a, b)| format!("<keep><keep><h2>Kept {a}</h2><p>{a}</p><space h=\"4pt\"/></keep>{b}</keep>")),
        1 => Just("<pagebreak/>".to_string()),
        1 => Just("<answer h=\"2in\"/>".to_string()),
        1 => Just("<space h=\"1in\"/><rule/>".to_string()),
    ]
    .boxed()
}

/// Gives the blocks the ids that texts lead to, in turn; those that no block is left for go to the last.
fn with_ids(blocks: Vec<String>) -> String {
    let count = blocks.len();
    let with_id = |(at, block): (usize, String)| {
        let end = block.find(['>', '/', ' ']).expect("a block begins with a tag");
        format!("{} id=\"r{at}\"{}", &block[..end], &block[end..])
    };
    let rest: String = (count..9).map(|at| format!("<p id=\"r{at}\">rest</p>")).collect();
    blocks.into_iter().enumerate().map(with_id).collect::<String>() + &rest
}

fn document() -> impl Strategy<Value = String> {
    let scale = prop_oneof![Just("desk"), Just("field")];
    let turned = prop_oneof![Just("portrait"), Just("landscape")];
    (scale, turned, proptest::collection::vec(block(), 1..14)).prop_map(|(scale, turned, blocks)| {
        format!(
            "<document title=\"T\" lang=\"en\" scale=\"{scale}\"><foot><right>Page <page/> of <pages/></right></foot>\
             <sheet orientation=\"{turned}\"><h1>Title</h1><h2>First</h2>{}</sheet></document>",
            with_ids(blocks)
        )
    })
}

/// What is printed, as the laws look at it.
struct Printed<'a> {
    tree: &'a Tree,
    pages: &'a Pages,
    faces: &'a Faces,
    theme: &'a Theme,
}

impl Printed<'_> {
    fn letters(&self, body: &Body) -> Option<String> {
        let Body::Text(inlines) = body else { return None };
        let texts = inlines.iter().map(|inline| match inline {
            Inline::Text { text, .. } => text.clone(),
            Inline::PageOf { to, .. } => self.page_of(self.tree.target(to).expect("every id that is told is there")),
            _ => String::new(),
        });
        Some(texts.collect())
    }

    /// What a table of contents prints.
    fn listed(&self, id: BlockId, depth: u8) -> String {
        let after = self.tree.ids().filter(|heading| *heading > id);
        let headings = after.filter(|it| matches!(self.tree.block(*it).kind, Kind::Heading(level) if level <= depth));
        headings.map(|heading| self.tree.text(heading) + " " + &self.page_of(heading)).collect()
    }

    /// The page of the first letters of a block, or of what follows it, found anew; how a number was made longer is not known here.
    fn page_of(&self, block: BlockId) -> String {
        let mut inside = vec![block];
        let mut at = 0;
        while let Some(id) = inside.get(at) {
            inside.extend(self.tree.children(*id));
            at += 1;
        }
        let last = inside.into_iter().max().unwrap_or(block);
        let first = |of: &dyn Fn(BlockId) -> bool| {
            self.pages.pages.iter().position(|page| {
                page.items.iter().any(|item| matches!(item.owner, Owner::Block(id) | Owner::Label(id) if of(id)))
            })
        };
        let page = first(&|id| (block..=last).contains(&id));
        let after = || {
            let all = self.pages.pages.iter().flat_map(|page| &page.items);
            let next =
                all.filter_map(|it| if let Owner::Block(id) | Owner::Label(id) = it.owner { Some(id) } else { None });
            first(&|id| Some(id) == next.clone().filter(|id| *id > last).min())
        };
        (page.or_else(after).unwrap_or(self.pages.pages.len() - 1) + 1).to_string()
    }

    fn width(&self, item: &Item) -> f64 {
        let Placed::Text { size, run, .. } = &item.placed else { return 0.0 };
        let kept = run.text.trim_end_matches(' ').len();
        let units: i32 = run.glyphs.iter().filter(|it| (it.cluster as usize) < kept).map(|it| it.advance).sum();
        f64::from(units) * size.as_points() / f64::from(self.faces.units_per_em(run.style))
    }

    /// Every block's text is printed once, whole and in order.
    fn texts(&self) -> Result<(), String> {
        let mut printed: BTreeMap<BlockId, String> = BTreeMap::new();
        for item in self.pages.pages.iter().flat_map(|page| &page.items) {
            if let (Owner::Block(id), Placed::Text { run, .. }) = (item.owner, &item.placed) {
                printed.entry(id).or_default().push_str(&run.text);
            }
        }
        for id in self.tree.ids().filter(|id| !matches!(self.tree.block(*id).kind, Kind::Slot(_))) {
            let asked = match self.tree.block(id).kind {
                Kind::Contents { depth } => self.listed(id, depth),
                _ => self.letters(&self.tree.block(id).body).unwrap_or_default(),
            };
            let got = printed.remove(&id).unwrap_or_default();
            // A number may stand after spaces of one figure each, where it needed more room before.
            if asked != got.replace('\u{2007}', "") {
                return Err(format!("block {id:?} holds {asked:?} and prints {got:?}"));
            }
        }
        if printed.is_empty() { Ok(()) } else { Err(format!("printed without a block: {printed:?}")) }
    }

    /// The corners of an item.
    fn extent(&self, item: &Item) -> [f64; 4] {
        match &item.placed {
            Placed::Text { x, y, size, .. } => {
                let (x, y) = (x.as_points(), y.as_points());
                [x, y - size.as_points() * 0.75, x + self.width(item), y + size.as_points() * 0.2]
            }
            Placed::Rule { x1, y1, x2, y2, .. } => {
                let [x1, y1, x2, y2] = [x1, y1, x2, y2].map(|mp| mp.as_points());
                [x1.min(x2), y1.min(y2), x1.max(x2), y1.max(y2)]
            }
            Placed::Fill { x, y, width, height, .. } | Placed::Field { x, y, width, height, .. } => {
                [*x, *y, *x + *width, *y + *height].map(Mp::as_points)
            }
            Placed::Drawing { x, y, width, drawing } => {
                let [x, y, width] = [x, y, width].map(|mp| mp.as_points());
                [x, y, x + width, y + width * drawing.height / drawing.width]
            }
            Placed::Enclosed { x, y, width, sheet } => {
                [*x, *y, *x + *width, *y + sheet.height(*width)].map(Mp::as_points)
            }
            Placed::Check { x, y, side, .. } => [*x, *y, *x + *side, *y + *side].map(Mp::as_points),
        }
    }

    fn margins(&self, page: &Page) -> Result<(), String> {
        let theme = self.theme;
        let side = theme.margin_side.as_points();
        let (top, bottom) = (theme.margin_top.as_points(), (page.height - theme.margin_bottom).as_points());
        let right = page.width.as_points() - side;
        for item in &page.items {
            let [x1, y1, x2, y2] = self.extent(item);
            if x1 < side - 0.01 || x2 > right + 0.01 || y1 < top - 0.01 || y2 > bottom + 0.01 {
                return Err(format!("outside the margins: {:?}", item));
            }
        }
        Ok(())
    }

    fn overlaps(&self, page: &Page) -> Result<(), String> {
        let solid =
            |item: &&Item| matches!(item.placed, Placed::Text { .. } | Placed::Check { .. } | Placed::Drawing { .. });
        let boxes: Vec<([f64; 4], &Item)> = page.items.iter().filter(solid).map(|it| (self.extent(it), it)).collect();
        for (at, (a, first)) in boxes.iter().enumerate() {
            for (b, second) in &boxes[at + 1..] {
                let wide = a[2].min(b[2]) - a[0].max(b[0]);
                let high = a[3].min(b[3]) - a[1].max(b[1]);
                if wide > 0.05 && high > 0.05 {
                    return Err(format!("on top of each other: {first:?} and {second:?}"));
                }
            }
        }
        Ok(())
    }

    /// The table that a block is part of, and whether it stands in its head.
    fn tables(&self) -> BTreeMap<BlockId, (BlockId, bool)> {
        fn walk(tree: &Tree, id: BlockId, of: Option<(BlockId, bool)>, into: &mut BTreeMap<BlockId, (BlockId, bool)>) {
            let of = match tree.block(id).kind {
                Kind::Table { .. } => Some((id, false)),
                Kind::TableHead => of.map(|(table, _)| (table, true)),
                _ => of,
            };
            into.extend(of.map(|of| (id, of)));
            tree.children(id).iter().for_each(|child| walk(tree, *child, of, into));
        }
        let mut into = BTreeMap::new();
        walk(self.tree, self.tree.root(), None, &mut into);
        into
    }

    /// Where rows of a table stand, its head stands above them; a table in a part of a side-by-side layout counts too.
    fn heads(&self, page: &Page, tables: &BTreeMap<BlockId, (BlockId, bool)>) -> Result<(), String> {
        let mut open: BTreeSet<BlockId> = BTreeSet::new();
        let mut repeated = false;
        for item in &page.items {
            let Placed::Text { run, .. } = &item.placed else { continue };
            match item.owner {
                Owner::Artifact(Artifact::Repeated) => repeated |= "Head 0".starts_with(run.text.trim_end()),
                Owner::Block(id) | Owner::Label(id) => match tables.get(&id) {
                    Some((table, true)) => {
                        open.insert(*table);
                    }
                    Some((table, false)) if !open.contains(table) && !repeated => {
                        return Err(format!("a row of {table:?} without its head above: {:?}", run.text));
                    }
                    _ => {}
                },
                Owner::Artifact(_) => {}
            }
        }
        Ok(())
    }

    /// No heading is the last thing on a page, unless the paper ends there or breaks by its own wish.
    fn headings(&self) -> Result<(), String> {
        let order: Vec<BlockId> = self.tree.ids().collect();
        for page in &self.pages.pages {
            let content = page.items.iter().rev().find_map(|item| match item.owner {
                Owner::Block(id) | Owner::Label(id) => Some(id),
                Owner::Artifact(Artifact::Layout) if matches!(item.placed, Placed::Rule { .. }) => {
                    Some(self.tree.root())
                }
                Owner::Artifact(_) => None,
            });
            let Some(last) = content.filter(|id| matches!(self.tree.block(*id).kind, Kind::Heading(_))) else {
                continue;
            };
            let followed = order.iter().skip_while(|id| **id != last).skip(1);
            let mut followed = followed.skip_while(|id| {
                let block = self.tree.block(**id);
                let lists_nothing =
                    matches!(block.kind, Kind::Contents { depth } if self.listed(**id, depth).is_empty());
                matches!(block.kind, Kind::Heading(_) | Kind::Space(_) | Kind::Rule)
                    || lists_nothing
                    || is_empty(&block.body, &block.kind)
            });
            if followed.next().is_some_and(|next| self.tree.block(*next).kind != Kind::PageBreak) {
                return Err(format!("the heading {last:?} is the last on its page"));
            }
        }
        Ok(())
    }

    /// Every place to fill in is on a page once.
    fn fields(&self) -> Result<(), String> {
        let mut placed = vec![0; self.tree.fields().len()];
        for item in self.pages.pages.iter().flat_map(|page| &page.items) {
            if let Placed::Field { field, .. } = item.placed {
                placed[field.0 as usize] += 1;
            }
        }
        match placed.iter().position(|count| *count != 1) {
            Some(at) => Err(format!("{:?} is placed {} times", self.tree.fields()[at], placed[at])),
            None => Ok(()),
        }
    }

    /// What is read from the file, in the order in which it is read aloud, is what was set, in the order of the blocks.
    fn read_back(&self) -> Result<(), String> {
        let properties = hingewright::pdf::Properties::default();
        let bytes = hingewright::pdf::write(self.pages, self.tree, self.faces, &properties);
        let bytes = bytes.map_err(|findings| format!("{findings:?}"))?;
        let letters =
            |text: &str| text.chars().filter(|it| !it.is_whitespace() && !"☐☑".contains(*it)).collect::<String>();
        let read = letters(&crate::pdf_reader::Pdf::read(&bytes).text());
        let mut set: BTreeMap<Owner, String> = BTreeMap::new();
        for item in self.pages.pages.iter().flat_map(|page| &page.items) {
            let texts = set.entry(item.owner).or_default();
            match &item.placed {
                Placed::Text { run, .. } => texts.push_str(&hingewright::fonts::plain(&run.text)),
                Placed::Drawing { drawing, .. } => {
                    for shape in drawing.parts.iter().flat_map(|part| &part.shapes) {
                        if let hingewright::shapes::Shape::Text { text, .. } = shape {
                            texts.push_str(text);
                        }
                    }
                }
                _ => {}
            }
        }
        let blocks = self.tree.ids().flat_map(|id| [Owner::Label(id), Owner::Block(id)]);
        let asked: String = blocks.filter_map(|owner| set.get(&owner)).map(|text| letters(text)).collect();
        if asked == read { Ok(()) } else { Err(format!("set {asked:?}, read {read:?}")) }
    }

    fn laws(&self) -> Result<(), String> {
        self.texts()?;
        self.fields()?;
        self.headings()?;
        let tables = self.tables();
        for page in &self.pages.pages {
            self.margins(page)?;
            self.overlaps(page)?;
            self.heads(page, &tables)?;
        }
        Ok(())
    }
}

fn is_empty(body: &Body, kind: &Kind) -> bool {
    *body == Body::Empty && matches!(kind, Kind::Paragraph | Kind::Item { .. })
}

#[test]
fn generated_documents_keep_the_laws_of_the_page() {
    let cases = crate::counts::documents();
    let config = Config { cases, rng_seed: RngSeed::Fixed(20_261_125), failure_persistence: None, ..Config::default() };
    let (faces, theme) = (Faces::built_in(), Theme::default());

    let (refused, count) = (std::cell::Cell::new(0), std::cell::Cell::new(0u32));
    let result = TestRunner::new(config).run(&document(), |text| {
        let (tree, pages) = match try_set(&text, &json!({}), &plan()) {
            Ok(set) => set,
            // A table that no page is wide enough for has its finding and no pages.
            Err(found) if found.iter().all(|it| it.starts_with("too-narrow") || it.starts_with("table-too-wide")) => {
                refused.set(refused.get() + 1);
                return Ok(());
            }
            Err(found) => return Err(TestCaseError::fail(format!("{found:?}\n{text}"))),
        };

        let printed = Printed { tree: &tree, pages: &pages, faces: &faces, theme: &theme };
        let broken = |law: String| TestCaseError::fail(format!("{law}\n{text}"));
        printed.laws().map_err(broken)?;
        count.set(count.get() + 1);
        if count.get() % crate::counts::READ_BACK == 0 { printed.read_back().map_err(broken) } else { Ok(()) }
    });
    if let Err(fault) = result {
        panic!("{fault}");
    }
    assert!(refused.get() * 10 < cases, "{} of {cases} documents could not be set", refused.get());
}
