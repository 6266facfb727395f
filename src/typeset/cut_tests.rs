//! What is cut inside of what is cut: tables with joined rows in a part beside another, which no page holds.
//!
//! What is expected follows from what was asked: every row once and in order, on a page and not below it, under its head.

use super::tests::{dump, set, try_set};
use super::{Artifact, Mp, Owner, Pages, Placed};

/// A table of three joined rows, so many joined ones and one more, in a part beside a word.
fn beside(joined: usize, carry: bool, head: bool, tall: usize) -> String {
    let more = "<br/>x".repeat(tall);
    let row = |at: usize, first: &str| {
        let carry = if carry { format!(" carry=\"sum {at}\"") } else { String::new() };
        let more = if at == joined / 2 { more.as_str() } else { "" };
        format!("<tr{carry}>{first}<td>{at}{more}</td></tr>")
    };
    let over = |rows: usize| format!("<td rowspan=\"{rows}\">over</td>");
    let mut rows = row(0, &over(3)) + &row(1, "") + &row(2, "") + &row(3, &over(joined));
    rows.extend((4..joined + 3).map(|at| row(at, "")));
    rows.push_str(&row(joined + 3, "<td>alone</td>"));
    let head = if head { "<thead><tr><th>Head</th><th>of it</th></tr></thead>" } else { "" };
    format!(
        "<side><part w=\"1in\"><p>beside</p></part><part><table class=\"plain\"><col w=\"1in\"/><col/>{head}\
         <tbody>{rows}</tbody><tfoot><tr><td colspan=\"2\">end</td></tr></tfoot></table></part></side><p>after</p>"
    )
}

/// The foot of a page is 792 - 39.6 pt, less a line of 12.16 pt and the gap of 12 pt.
const FOOT: Mp = Mp(792_000 - 39_600 - 24_160);

/// The lowest baseline of all pages, without their running feet.
fn lowest(pages: &Pages) -> Mp {
    let items = pages.pages.iter().flat_map(|page| &page.items);
    let texts = items.filter(|it| it.owner != Owner::Artifact(Artifact::RunningFoot));
    let ys = texts.filter_map(|item| if let Placed::Text { y, .. } = item.placed { Some(y) } else { None });
    ys.max().unwrap_or_default()
}

#[test]
fn joined_rows_beside_something_go_on_and_end() {
    for (carry, head) in [(false, false), (true, false), (false, true), (true, true)] {
        for joined in (2..90).step_by(3) {
            for tall in [0, 20, 50, 90] {
                let pages = set(&beside(joined, carry, head, tall));
                let said = format!("{joined} rows, {tall} lines, carry {carry}, head {head}");
                let texts = dump(&pages);
                let rows = texts.iter().filter_map(|line| line.split(' ').nth(3)?.parse::<usize>().ok());
                assert_eq!(rows.collect::<Vec<_>>(), (0..joined + 4).collect::<Vec<_>>(), "{said}");
                assert!(lowest(&pages) < FOOT, "{said}: {texts:#?}");
            }
        }
    }
}

#[test]
fn what_no_page_holds_and_nothing_cuts_is_found() {
    // A page has 728.24 - 39.6 pt = 9.56 in. An answer of four fifths of that, below a head of 20 lines of 12.16 pt and insets
    // of 5.2 pt: 550.9 + 5.2 + 248.4 pt = 11.174 in, rounded up.
    let head = "h<br/>".repeat(19);
    let table = format!(
        "<table><col/><thead><tr><th>{head}h</th></tr></thead><tbody><tr><td><answer h=\"12in\"/></td></tr></tbody></table>"
    );
    let found = try_set(&table, "portrait").expect_err("it does not fit");
    assert_eq!(found, ["no-room 2 7.00 in by 11.18 in / 7.00 in by 9.56 in"]);
}
