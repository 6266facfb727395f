//! Cells over several rows, and running totals, as dumps of what stands where.

use super::tests::{dump, set, try_set, words};
use super::{Artifact, Owner, Pages, Placed};

/// The numbers of lines in order, leaving out repeated words.
fn numbers(pages: &Pages) -> Vec<i32> {
    words(pages).iter().filter_map(|line| line.split(' ').nth(1)?.parse().ok()).collect()
}

#[test]
fn a_cell_over_rows_stands_beside_them_and_makes_the_last_grow() {
    let pages = set(
        "<table class=\"grid\"><col w=\"1in\"/><col w=\"1in\"/><tbody><tr><td rowspan=\"2\">a<br/>b<br/>c<br/>d</td><td>1</td></tr>\
         <tr><td>2</td></tr><tr><td>e</td><td>3</td></tr></tbody></table>",
    );
    // A line is 12.16 pt high, a cell has 2.6 pt above and below. Four lines need 53.84 pt; the first row has 17.36 pt, the
    // second grows to 36.48 pt, and the third begins 53.84 pt below the first. The second column begins at 54 + 72 + 4 pt.
    let expected = [
        "1 58.0 51.5 a ",
        "1 58.0 63.6 b ",
        "1 58.0 75.8 c ",
        "1 58.0 88.0 d",
        "1 130.0 51.5 1",
        "1 130.0 68.8 2",
        "1 58.0 105.3 e",
        "1 130.0 105.3 3",
    ];
    assert_eq!(dump(&pages), expected);
    // The rule between the first two rows stands beside the cell over both, not across it.
    let level = |y: f64| {
        let rules = pages.pages[0].items.iter().filter_map(move |item| match item.placed {
            Placed::Rule { x1, y1, x2, y2, .. } if y1 == y2 && (y1.as_points() - y).abs() < 0.05 => {
                Some((x1.as_points(), x2.as_points()))
            }
            _ => None,
        });
        rules.collect::<Vec<_>>()
    };
    assert_eq!(level(39.6 + 17.36), [(126.0, 198.0), (126.0, 198.0)]);
    assert_eq!(level(39.6 + 53.84), [(54.0, 198.0), (54.0, 198.0)]);
}

#[test]
fn rows_joined_by_a_cell_stay_on_one_page() {
    for filler in (500..690).step_by(9) {
        let pages = set(&format!(
            "<p>top</p><space h=\"{filler}pt\"/><table><col/><col/><tbody><tr><td>x</td><td>x</td></tr><tr><td rowspan=\"3\">r</td>\
             <td>r</td></tr><tr><td>r</td></tr><tr><td>r</td></tr><tr><td>x</td><td>x</td></tr></tbody></table>"
        ));
        let got = words(&pages);
        let page = |line: &String| line.ends_with(" r").then(|| line[..1].to_string());
        let pages: std::collections::BTreeSet<String> = got.iter().filter_map(page).collect();
        assert_eq!(pages.len(), 1, "{filler}: {got:?}");
    }
}

#[test]
fn rows_joined_beyond_a_page_go_on_below_a_mark_and_lose_nothing() {
    let rows = |from: i32, to: i32| (from..to).map(|at| format!("<tr><td>{at}</td></tr>")).collect::<String>();
    let pages = set(&format!(
        "<table><col w=\"1.5in\"/><col/><thead><tr><th>A</th><th>B</th></tr></thead><tbody><tr><td rowspan=\"90\">one</td><td>0</td></tr>{}\
         </tbody></table>",
        rows(1, 90)
    ));
    assert_eq!(numbers(&pages), (0..90).collect::<Vec<_>>());
    let others: Vec<String> =
        words(&pages).into_iter().filter(|it| it.ends_with(|c: char| !c.is_ascii_digit())).collect();
    let again = |page: i32| ["~A", "~B", "~one", "~continued"].map(|word| format!("{page} {word}"));
    let mut expected = ["1 A", "1 B", "1 one"].map(String::from).to_vec();
    (2..=3).for_each(|page| expected.extend(again(page)));
    assert_eq!(others, expected);
}

#[test]
fn a_cell_over_rows_that_is_taller_than_a_page_is_cut() {
    let lines = (0..130).map(|at| at.to_string()).collect::<Vec<_>>().join("<br/>");
    let pages = set(&format!(
        "<table><col/><col/><tbody><tr><td rowspan=\"2\">{lines}</td><td>a</td></tr><tr><td>b</td></tr></tbody></table>"
    ));
    assert_eq!(numbers(&pages), (0..130).collect::<Vec<_>>());
    for word in ["a", "b"] {
        assert_eq!(words(&pages).iter().filter(|line| line[2..] == *word).count(), 1, "{word}");
    }
}

#[test]
fn what_rows_come_to_is_said_at_the_foot_and_again_at_the_top() {
    let row = |at: usize| format!("<tr carry=\"sum {at}\"><td>r</td><td>{at}</td></tr>");
    let rows: String = (1..=60).map(row).collect();
    let pages = set(&format!(
        "<table><col/><col w=\"1in\" align=\"right\"/><thead><tr><th>A</th><th>B</th></tr></thead><tbody>{rows}</tbody>\
         <tfoot><tr class=\"total\"><td>all</td><td>60</td></tr></tfoot></table><p>after</p>"
    ));
    let got = words(&pages);
    let at = got.iter().position(|line| line == "1 ~carried forward").expect("the table goes on");
    let before: i32 = got[at - 1][2..].parse().expect("a row's number");
    let expected = [
        format!("1 ~sum {before}"),
        "2 ~A".into(),
        "2 ~B".into(),
        "2 ~brought forward".into(),
        format!("2 ~sum {before}"),
    ];
    assert_eq!(got[at + 1..at + 6], expected);
    assert_eq!(numbers(&pages), (1..=60).chain([60]).collect::<Vec<_>>());
    let said = got.iter().filter(|line| line.contains("forward")).count();
    assert_eq!(said, 2, "nothing is said where the table ends: {got:?}");
    let lowest = |page: usize| {
        let texts = pages.pages[page].items.iter().filter(|it| it.owner != Owner::Artifact(Artifact::RunningFoot));
        texts.filter_map(|item| if let Placed::Text { y, .. } = item.placed { Some(y) } else { None }).max()
    };
    // The foot of the page is 792 - 39.6 pt, less a line of 12.16 pt and the gap of 12 pt.
    assert!(lowest(0).is_some_and(|y| y.as_points() < 792.0 - 39.6 - 24.16), "{:?}", lowest(0));
}

#[test]
fn what_rows_come_to_stands_in_the_column_that_says_so() {
    let rows: String =
        (1..=60).map(|at| format!("<tr carry=\"sum {at}\"><td>{at}</td><td>r</td><td>s</td></tr>")).collect();
    // Left ends of the words and of the amount at the foot of the first page, by what the columns say.
    let foot = |columns: &str| {
        let pages = set(&format!("<table>{columns}<tbody>{rows}</tbody></table>"));
        ["carried forward", "sum"].map(|word| {
            let dumped = dump(&pages);
            let line = dumped.iter().find(|line| line.starts_with("1 ") && line.contains(word)).expect("it is said");
            line.split(' ').nth(1).and_then(|x| x.parse().ok()).expect("a place")
        })
    };
    // Columns of 2 in, 1 in and what is left, from the margin at 54 pt: edges at 54, 198 and 270 pt.
    let between = |x: f32, from: f32, to: f32| assert!(x > from && x < to, "{x} is between {from} and {to}");
    let [said, sum] = foot("<col w=\"2in\"/><col w=\"1in\" carry=\"yes\"/><col/>");
    between(said, 54.0, 198.0);
    between(sum, 198.0, 270.0);
    let [said, sum] = foot("<col w=\"2in\" carry=\"yes\"/><col w=\"1in\"/><col/>");
    between(sum, 54.0, 198.0);
    between(said, 198.0, 558.0);
    let [said, sum] = foot("<col w=\"2in\"/><col w=\"1in\"/><col/>");
    between(said, 54.0, 270.0);
    between(sum, 270.0, 558.0);
    let only = "<table><col/><tbody>";
    let rows: String = (1..=60).map(|at| format!("<tr carry=\"{at}\"><td>{at}</td></tr>")).collect();
    let pages = set(&format!("{only}{rows}</tbody></table>"));
    assert!(words(&pages).iter().any(|line| line.starts_with("1 ~carried forward ")));
}

#[test]
fn a_row_that_is_cut_carries_what_the_rows_before_it_come_to() {
    let lines = (1..=120).map(|at| at.to_string()).collect::<Vec<_>>().join("<br/>");
    let pages = set(&format!(
        "<table><col/><col w=\"1in\"/><tbody><tr carry=\"5\"><td>r</td><td>five</td></tr><tr carry=\"7\"><td>{lines}</td><td>two</td></tr>\
         <tr carry=\"9\"><td>r</td><td>two</td></tr></tbody></table>"
    ));
    let got: Vec<String> = words(&pages).into_iter().filter(|line| line.contains('~')).collect();
    let said = ["1 ~carried forward", "1 ~5", "2 ~brought forward", "2 ~5"];
    assert_eq!(
        got.iter().filter(|line| !line.contains("continued")).take(4).collect::<Vec<_>>(),
        said.iter().collect::<Vec<_>>()
    );
}

#[test]
fn a_long_table_is_the_same_on_any_number_of_threads() {
    let row = |at: usize| format!("<tr><td>{at}</td><td>of some words that take two lines here</td></tr>");
    let rows: String = (0..1700).map(row).collect();
    let table = format!("<table class=\"zebra\"><col w=\"1in\"/><col w=\"2in\"/><tbody>{rows}</tbody></table>");
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads can be had");
        let pages = pool.install(|| set(&table));
        let items = pages.pages.iter().map(|page| format!("{:?}", page.items));
        (numbers(&pages), items.collect::<Vec<String>>())
    };
    let (one, three) = (on(1), on(3));
    assert_eq!(one.0, (0..1700).collect::<Vec<_>>());
    assert!(one == three, "pages differ");
}

#[test]
fn what_is_wrong_in_a_long_table_is_found_in_every_share_of_it() {
    let row = |at: usize| match at {
        3 | 1203 => format!("<tr><td>\u{4E00}{at}</td></tr>\n"),
        _ => format!("<tr><td>{at}</td></tr>\n"),
    };
    let rows: String = (0..1700).map(row).collect();
    let found = try_set(&format!("<table><col/><tbody>\n{rows}</tbody></table>"), "portrait").expect_err("no glyph");
    let lines: Vec<&str> = found.iter().filter_map(|it| it.split(' ').nth(1)).collect();
    // Two lines stand above row 0: that of the document and that of the table.
    assert_eq!(lines, ["6", "1206"], "{found:?}");
}
