//! Hard tables and hard texts, as dumps of what stands where.

use std::collections::BTreeMap;

use super::{Artifact, Item, Mp, Owner, Pages, Placed, Theme, typeset};
use crate::findings::{Files, Findings, Place};
use crate::fonts::Faces;
use crate::markup::{Source, Templates};

type Drawings = BTreeMap<String, std::sync::Arc<crate::shapes::Drawing>>;

/// Sets the markup of a sheet; findings as `code line found / asked`.
pub(super) fn try_set(inside: &str, orientation: &str) -> Result<Pages, Vec<String>> {
    try_set_with(inside, orientation, &BTreeMap::new())
}

/// A paper of one sheet.
fn document(inside: &str, orientation: &str) -> String {
    format!(
        "<document title=\"T\" lang=\"en\"><foot><right>Page <page/> of <pages/></right></foot>\
         <sheet orientation=\"{orientation}\">\n{inside}</sheet></document>"
    )
}

/// The block tree of a sheet that has no fault.
pub(super) fn tree_of(inside: &str) -> crate::markup::Tree {
    let text = document(inside, "portrait");
    let files = Files::new([("a.xml".to_string(), text.clone().into_bytes())]);
    let file = files.find("a.xml").expect("just put there");
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "a.xml", file, text: &text }], &mut findings);
    templates.render("a.xml", &serde_json::json!({}), &mut findings).unwrap_or_else(|| panic!("{findings:#?}"))
}

pub(super) fn try_set_with(inside: &str, orientation: &str, drawings: &Drawings) -> Result<Pages, Vec<String>> {
    let text = document(inside, orientation);
    let files = Files::new([("a.xml".to_string(), text.clone().into_bytes())]);
    let file = files.find("a.xml").expect("just put there");
    let mut findings = Findings::default();
    let templates = Templates::load([Source { name: "a.xml", file, text: &text }], &mut findings);
    let tree = templates.render("a.xml", &serde_json::json!({}), &mut findings);
    let theme = Theme::default();
    let pages = tree.and_then(|tree| typeset(&tree, &Faces::built_in(), &theme, drawings, &mut findings));
    let shown = |it: &crate::findings::Finding| {
        let line = match it.place() {
            Some(Place::Text { span, .. }) => text[..span.start as usize].matches('\n').count() + 1,
            _ => 0,
        };
        format!("{} {line} {} / {}", it.code.id, it.found, it.asked)
    };
    pages.ok_or_else(|| findings.iter().map(shown).collect())
}

pub(super) fn set(inside: &str) -> Pages {
    try_set(inside, "portrait").unwrap_or_else(|found| panic!("{found:#?}"))
}

/// Every text: page, left end and baseline in points, `~` before what is repeated, the letters. Running feet are left out.
pub(super) fn dump(pages: &Pages) -> Vec<String> {
    let line = |page: usize, item: &Item| {
        let Placed::Text { x, y, run, .. } = &item.placed else { return None };
        let mark = match item.owner {
            Owner::Artifact(Artifact::RunningFoot) => return None,
            Owner::Artifact(_) => "~",
            _ => "",
        };
        Some(format!("{} {:.1} {:.1} {mark}{}", page + 1, x.as_points(), y.as_points(), run.text))
    };
    let items = pages.pages.iter().enumerate().flat_map(|(at, page)| page.items.iter().map(move |item| (at, item)));
    items.filter_map(|(page, item)| line(page, item)).collect()
}

/// Only the letters, with their pages.
pub(super) fn words(pages: &Pages) -> Vec<String> {
    let short = |line: String| {
        let mut parts = line.splitn(4, ' ');
        let page = parts.next().unwrap_or_default().to_string();
        format!("{page} {}", parts.nth(2).unwrap_or_default())
    };
    dump(pages).into_iter().map(short).collect()
}

#[test]
fn a_word_wider_than_its_column_is_broken_and_whole() {
    let pages =
        set("<table><col w=\"0.9in\"/><col w=\"1in\" align=\"right\"/><tbody><tr><td>electromagnetically held</td>\
                     <td>12</td></tr></tbody></table>");
    assert_eq!(
        dump(&pages),
        // The first column begins at 54 pt and is 64.8 pt wide, with 4 pt at each side; the second ends at 190.8 pt. Two figures
        // of 497 units (the face's hmtx table) at 9.5 pt are 9.4 pt wide: 190.8 - 4 - 9.4 = 177.4. Lines are 12.16 pt apart.
        ["1 58.0 51.5 electromagne", "1 58.0 63.6 tically held", "1 177.4 51.5 12"]
    );
}

#[test]
fn decimal_points_stand_in_line() {
    let pages = set(
        "<table><col w=\"1in\" align=\"decimal\"/><thead><tr><th>USD</th></tr></thead><tbody><tr><td>1,284.50</td></tr>\
                     <tr><td>8.125</td></tr><tr><td>14</td></tr></tbody><tfoot><tr class=\"total\"><td>7.5</td></tr></tfoot></table>",
    );
    let faces = Faces::built_in();
    let mut points = Vec::new();
    for item in &pages.pages[0].items {
        let (Owner::Block(_), Placed::Text { x, size, run, .. }) = (item.owner, &item.placed) else { continue };
        let before = run.text.find('.').unwrap_or(run.text.len()) as u32;
        let units: i32 = run.glyphs.iter().filter(|glyph| glyph.cluster < before).map(|glyph| glyph.advance).sum();
        let width = f64::from(units) * size.as_points() / f64::from(faces.units_per_em(run.style));
        points.push((run.text.as_str(), x.as_points() + width));
    }
    let (first, rest) = points.split_first().expect("there is a head");
    assert!((first.1 - 122.0).abs() < 0.01, "the head ends at the right edge of its cell: {first:?}");
    let line = rest[0].1;
    assert!(rest.iter().all(|(_, point)| (point - line).abs() < 0.01), "{rest:?}");
    assert!(line < 122.0 - 10.0, "three decimals stand right of the point: {line}");
}

#[test]
fn a_cell_of_forty_lines_stays_whole_on_one_page() {
    let filler = "<p>filler</p>".repeat(20);
    let lines = (1..=40).map(|at| at.to_string()).collect::<Vec<_>>().join("<br/>");
    let pages = set(&format!(
        "{filler}<table><col w=\"1in\"/><col/><thead><tr><th>A</th><th>B</th></tr></thead><tbody><tr><td>one</td><td>{lines}</td></tr>\
         <tr><td>two</td><td>x</td></tr></tbody></table>"
    ));
    let mut expected = vec!["1 filler".to_string(); 20];
    expected.extend(["2 A", "2 B", "2 one"].map(String::from));
    // A space ends every line but the last, so that words do not run together in the file's text.
    expected.extend((1..40).map(|at| format!("2 {at} ")).chain(["2 40".to_string()]));
    expected.extend(["2 two", "2 x"].map(String::from));
    assert_eq!(words(&pages), expected);
}

#[test]
fn a_row_taller_than_a_page_goes_on_with_its_mark_below_a_repeated_head_of_two_lines() {
    let lines = (1..=130).map(|at| at.to_string()).collect::<Vec<_>>().join("<br/>");
    let pages = set(&format!(
        "<table><col w=\"1in\"/><col/><thead><tr><th>A</th><th>B<br/>b</th></tr></thead><tbody><tr><td>one<br/>uno</td>\
         <td>{lines}</td></tr><tr><td>two</td><td>x</td></tr></tbody></table>"
    ));
    let got = words(&pages);
    let numbers: Vec<i32> = got.iter().filter_map(|line| line.split(' ').nth(1)?.parse().ok()).collect();
    assert_eq!(numbers, (1..=130).collect::<Vec<_>>(), "every line once, in order");
    let others: Vec<&String> =
        got.iter().filter(|it| it.split(' ').nth(1).is_none_or(|it| it.parse::<i32>().is_err())).collect();
    assert_eq!(
        others,
        [
            "1 A",
            "1 B ",
            "1 b",
            "1 one ",
            "1 uno",
            "2 ~A",
            "2 ~B ",
            "2 ~b",
            "2 ~one ",
            "2 ~continued",
            "3 ~A",
            "3 ~B ",
            "3 ~b",
            "3 ~one ",
            "3 ~continued",
            "3 two",
            "3 x"
        ]
    );
    let tops = |page: &str| -> Vec<String> {
        dump(&pages).into_iter().filter(|line| line.starts_with(page)).take(3).collect()
    };
    let first: Vec<String> = tops("1 ").iter().map(|line| line[2..].to_string()).collect();
    let second: Vec<String> = tops("2 ").iter().map(|line| line[2..].replace('~', "")).collect();
    assert_eq!(first, second, "a repeated head stands where the first one stood");
}

#[test]
fn sums_and_group_titles_keep_company() {
    // 53 rows of 12.16 + 5.2 pt do not fit 700 pt; wherever the page ends, the title is with its row and the sum with one.
    for before in 30..44 {
        let rows = "<tr><td>r</td></tr>".repeat(before);
        let pages = set(&format!(
            "<table><col/><tbody>{rows}<tr class=\"group\"><td>title</td></tr><tr><td>first</td></tr><tr class=\"subtotal\"><td>sum</td></tr>\
             </tbody><tfoot><tr><td>end</td></tr></tfoot></table>"
        ));
        let got = words(&pages);
        let page = |word: &str| got.iter().find(|line| line.ends_with(word)).map(|line| line[..1].to_string());
        assert_eq!(page("title"), page("first"), "{before}");
        assert_eq!(page("first"), page("sum"), "{before}");
        assert_eq!(page("sum"), page("end"), "{before}");
    }
}

/// How many of the rows `r` stand on each page, for a table of so many below filler of a height.
fn rows_by_page(filler: i32, table: &str) -> Vec<usize> {
    let pages = set(&format!("<p>top</p><space h=\"{filler}pt\"/>{table}"));
    let got = words(&pages);
    let on = |page: usize| got.iter().filter(|line| **line == format!("{} r", page + 1)).count();
    (0..pages.pages.len()).map(on).filter(|count| *count > 0).collect()
}

#[test]
fn no_row_stands_alone_before_or_after_the_end_of_a_page() {
    // A row is 17.36 pt high and a page holds 700 pt, so the steps of 9 pt try every place of the break at least once.
    for filler in (400..680).step_by(9) {
        for count in [2, 3, 9, 60] {
            let rows = "<tr><td>r</td></tr>".repeat(count);
            let table = format!("<table><thead><tr><th>h</th></tr></thead><tbody>{rows}</tbody></table>");
            let by_page = rows_by_page(filler, &table);
            assert_eq!(by_page.iter().sum::<usize>(), count);
            assert!(by_page.iter().all(|rows| *rows > 1), "{filler} pt, {count} rows: {by_page:?}");
            let group = format!(
                "<table><tbody><tr class=\"group\"><td>g</td></tr>{rows}<tr class=\"subtotal\"><td>s</td></tr></tbody></table>"
            );
            let by_page = rows_by_page(filler, &group);
            assert!(by_page.iter().all(|rows| *rows > 1), "{filler} pt, group of {count} rows: {by_page:?}");
        }
    }
}

#[test]
fn a_heading_keeps_with_a_table_a_figure_and_a_list() {
    let drawings = BTreeMap::from([("d".to_string(), drawing())]);
    let followed = [
        "<table><thead><tr><th>h</th></tr></thead><tbody><tr><td>x</td></tr><tr><td>y</td></tr></tbody></table>",
        "<figure drawing=\"d\"/><p>x</p>",
        "<ul><li>x</li><li>y</li></ul>",
        "<box class=\"note\"><p>x</p></box>",
    ];
    for filler in (500..690).step_by(9) {
        for next in followed {
            let inside = format!("<p>top</p><space h=\"{filler}pt\"/><h1>Heading</h1>{next}");
            let pages = try_set_with(&inside, "portrait", &drawings).unwrap_or_else(|found| panic!("{found:#?}"));
            let page_of = |is: &dyn Fn(&Item) -> bool| pages.pages.iter().position(|page| page.items.iter().any(is));
            let text = |word: &'static str| move |item: &Item| matches!(&item.placed, Placed::Text { run, .. } if run.text == word);
            let heading = page_of(&text("Heading"));
            let figure = page_of(&|item: &Item| matches!(item.placed, Placed::Drawing { .. }));
            assert_eq!(heading, figure.or(page_of(&text("x"))), "{filler} pt: {next}");
        }
    }
}

/// A drawing of 100 pt by 50 pt.
fn drawing() -> std::sync::Arc<crate::shapes::Drawing> {
    let (title, alt, scale) = ("d".to_string(), "a line".to_string(), String::new());
    std::sync::Arc::new(crate::shapes::Drawing { title, alt, scale, width: 100.0, height: 50.0, parts: Vec::new() })
}

#[test]
fn two_lines_of_a_paragraph_stay_together_at_the_foot_and_at_the_top() {
    for spaces in 0..12 {
        let height = 560 + spaces * 9;
        let pages = set(&format!("<p>top</p><space h=\"{height}pt\"/><p>a<br/>b<br/>c<br/>d<br/>e<br/>f</p>"));
        let on = |page: &str| {
            words(&pages).iter().filter(|line| line.starts_with(page) && line.trim_end().len() == 3).count()
        };
        let (first, second) = (on("1 "), on("2 "));
        assert_eq!(first + second, 6, "{height}");
        assert!(first != 1 && second != 1, "{height}: {first} and {second}");
    }
}

#[test]
fn no_break_characters_hold_and_boxes_stay_with_their_words() {
    for hundredths in (90..250).step_by(10) {
        let width = format!("{}.{:02}", hundredths / 100, hundredths % 100);
        let pages = set(&format!(
            "<table><col w=\"{width}in\"/><tbody><tr><td>wide 3'-0\"\u{a0}x\u{a0}7'-0\" for the low\u{2011}energy leaf <check/> plumb \
             <check/> level</td></tr></tbody></table>"
        ));
        let items: Vec<&Placed> = pages.pages[0].items.iter().map(|item| &item.placed).collect();
        let mut boxed = Vec::new();
        for pair in items.windows(2) {
            if let (Placed::Field { y: top, .. }, Placed::Text { y, run, .. }) = (pair[0], pair[1]) {
                let word = run.text.trim().split(' ').next().unwrap_or_default();
                boxed.push((word.to_string(), *y - *top < Theme::default().line(Mp(9_500))));
            }
        }
        assert_eq!(boxed, [("plumb".to_string(), true), ("level".to_string(), true)], "{width} in");
        let lines: Vec<String> = words(&pages);
        for whole in ["3'-0\"\u{a0}x\u{a0}7'-0\"", "low\u{2011}energy"] {
            assert!(lines.iter().any(|line| line.contains(whole)), "{width} in: {whole} is broken: {lines:?}");
        }
    }
}

#[test]
fn what_cannot_be_set_is_found_at_its_line() {
    let cases = [
        (
            "<p>a</p>\n<table><col w=\"5in\"/><col w=\"4in\"/><tbody><tr><td>x</td><td>y</td></tr></tbody></table>",
            "table-too-wide 3 9.00 in / 7.00 in",
        ),
        ("<table><col w=\"0.15in\"/><tbody>\n<tr>\n<td>W</td></tr></tbody></table>", "too-narrow 4 0.03 in / 0.11 in"),
        ("\n<stamp w=\"8in\" h=\"2in\"/>", "no-room 3 8.00 in by 2.00 in / 7.00 in by 9.56 in"),
        ("\n<figure drawing=\"plan\"/>", "unknown-drawing 3 plan / "),
        (
            "<p>山田 <b>工</b></p>\n",
            "missing-character 2 the character U+5C71 (山), the character U+5DE5 (工), the character U+7530 (田) / ",
        ),
    ];
    for (inside, expected) in cases {
        assert_eq!(try_set(inside, "portrait").err(), Some(vec![expected.to_string()]), "{inside}");
    }
}

#[test]
fn pages_count_themselves_and_turn() {
    let page = |inside: &str, turned: &str| try_set(inside, turned).unwrap_or_else(|found| panic!("{found:?}"));
    let pages = page("<p>a</p><space h=\"9pt\"/><pagebreak/><p>b</p><pagebreak/>", "landscape");
    let feet: Vec<String> = pages
        .pages
        .iter()
        .flat_map(|page| &page.items)
        .filter_map(|item| match (&item.owner, &item.placed) {
            (Owner::Artifact(Artifact::RunningFoot), Placed::Text { run, .. }) => Some(run.text.clone()),
            _ => None,
        })
        .collect();
    assert_eq!(feet, ["Page 1 of 2", "Page 2 of 2"], "a page break at the end makes no empty page");
    assert_eq!((pages.pages[0].width, pages.pages[0].height), (Mp::points(792), Mp::points(612)));
}

#[test]
fn pages_of_a_sheet_are_counted_apart() {
    let foot = "<foot><left>Leaf <sheetpage/> of <sheetpages/></left></foot>";
    let pages = set(&format!("<p>a</p></sheet><sheet>{foot}<p>b</p><pagebreak/><p>c</p></sheet><sheet>{foot}<p>d</p>"));
    let feet = pages.pages.iter().flat_map(|page| &page.items).filter_map(|item| match (&item.owner, &item.placed) {
        (Owner::Artifact(Artifact::RunningFoot), Placed::Text { run, .. }) => Some(run.text.as_str()),
        _ => None,
    });
    assert_eq!(feet.collect::<Vec<_>>(), ["Page 1 of 4", "Leaf 1 of 2", "Leaf 2 of 2", "Leaf 1 of 1"]);
}

#[test]
fn what_is_kept_with_the_next_stays_with_the_first_rows_of_a_table() {
    let table = "<table><col/><thead><tr><th>T</th></tr></thead><tbody><tr><td>1</td></tr><tr><td>2</td></tr>\
                 <tr><td>3</td></tr></tbody></table>";
    let pages_of = |fillers: usize, with: &str| {
        let words = words(&set(&format!("{}<keep{with}><p>k</p></keep>{table}", "<p>filler</p>".repeat(fillers))));
        ["1 k", "1 T"].map(|word| words.iter().any(|it| it == word))
    };
    let parting = (30..50).find(|fillers| pages_of(*fillers, "") == [true, false]);
    let fillers = parting.expect("at some height the page ends between them");
    assert_eq!(pages_of(fillers, " with=\"next\""), [false, false], "after {fillers} paragraphs");
}

#[test]
fn a_sheet_that_begins_on_the_front_leaves_the_back_before_it_empty() {
    let pages =
        set("<p>a</p></sheet><sheet side=\"front\"><p>b</p></sheet><sheet side=\"front\"><p>c</p><pagebreak/><p>d</p>\
                     </sheet><sheet side=\"front\"><p>e</p></sheet><sheet><p>f</p>");
    assert_eq!(words(&pages), ["1 a", "3 b", "5 c", "6 d", "7 e", "8 f"]);
}

#[test]
fn an_item_taller_than_its_share_of_short_columns_stays_in_one() {
    let pages =
        set("<columns count=\"3\"><checks><li>a</li><li>h1<br/>h2<br/>h3<br/>h4</li><li>e</li></checks></columns>");
    let lines = dump(&pages);
    let left = |word: &str| {
        lines.iter().find(|it| it.trim_end().ends_with(&format!(" {word}"))).and_then(|it| it.split(' ').nth(1))
    };
    assert!(left("h1").is_some());
    assert_eq!(["h2", "h3", "h4"].map(left), [left("h1"); 3], "{lines:#?}");
}

#[test]
fn a_running_head_stands_on_one_baseline_whatever_its_sizes() {
    let pages = set("<head><left><large>101A</large></left><right>Job 7</right></head><p>x</p>");
    let head = pages.pages[0].items.iter().filter_map(|item| match (&item.owner, &item.placed) {
        (Owner::Artifact(Artifact::RunningHead), Placed::Text { y, size, .. }) => Some((*y, *size)),
        _ => None,
    });
    let [left, right] = head.collect::<Vec<_>>().try_into().expect("two texts");
    assert!(left.1 > right.1, "the left one is larger");
    assert_eq!(left.0, right.0);
}
