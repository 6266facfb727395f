//! Where a page ends in what is to be kept together: too tall for a page, at the foot of one, and inside another keep.
//!
//! What is expected is set without the keep in question, from the same words, with the page broken by hand or not at all.

use super::tests::{dump, set, words};

/// Paragraphs of one line of 12.16 pt and a gap of 5 pt; a page holds about 690 pt, which is 40 of them.
fn paragraphs(count: usize) -> String {
    (1..=count).map(|at| format!("<p>{at}</p>")).collect()
}

/// Lays something out below so many points of something else.
fn below(filler: usize, inside: &str) -> Vec<String> {
    dump(&set(&format!("<p>top</p><space h=\"{filler}pt\"/>{inside}")))
}

#[test]
fn a_keep_that_no_page_holds_flows_from_where_it_stands_or_waits_once() {
    for count in [42, 50, 60, 79, 80, 81, 120, 170] {
        let inside = paragraphs(count);
        let kept = format!("<keep>{inside}</keep><p>after</p>");
        for filler in (0..680).step_by(20) {
            let got = below(filler, &kept);
            let flowing = below(filler, &format!("{inside}<p>after</p>"));
            let waiting = below(filler, &format!("<pagebreak/>{inside}<p>after</p>"));
            // A third of a page is 230 pt; what stands above is 17 pt and the filler.
            match filler {
                0..=430 => assert_eq!(got, flowing, "{count} paragraphs below {filler} pt"),
                460.. => assert_eq!(got, waiting, "{count} paragraphs below {filler} pt"),
                _ => assert!(got == flowing || got == waiting, "{count} paragraphs below {filler} pt: {got:?}"),
            }
        }
    }
}

#[test]
fn a_keep_that_a_page_holds_is_on_one() {
    for count in [2, 10, 39] {
        let kept = format!("<keep>{}</keep>", paragraphs(count));
        for filler in (0..680).step_by(20) {
            let got = words(&set(&format!("<p>top</p><space h=\"{filler}pt\"/>{kept}")));
            let pages: Vec<&str> = got[1..].iter().map(|line| &line[..1]).collect();
            assert_eq!(pages.len(), count);
            assert!(pages.iter().all(|page| *page == pages[0]), "{count} paragraphs below {filler} pt: {pages:?}");
        }
    }
}

#[test]
fn of_keeps_inside_each_other_the_inner_ones_hold_longest() {
    let inner = "<keep><h1>a</h1><p>b</p><p>c</p></keep>";
    let outer = format!("<keep>{inner}{}</keep>", paragraphs(30));
    let tall = format!("<keep><box class=\"note\"><keep>{inner}</keep></box>{}</keep>", paragraphs(90));
    for filler in (0..680).step_by(20) {
        // A page holds the outer one: it stands on one.
        let got = words(&set(&format!("<p>top</p><space h=\"{filler}pt\"/>{outer}")));
        assert!(got[1..].iter().all(|line| line[..1] == got[1][..1]), "below {filler} pt: {got:?}");
        // No page holds it: it gives way, and the inner one stands on one still.
        let got = words(&set(&format!("<p>top</p><space h=\"{filler}pt\"/>{tall}")));
        assert!(got[1..4].iter().all(|line| line[..1] == got[1][..1]), "below {filler} pt: {got:?}");
    }
}

#[test]
fn rows_and_items_keep_company_in_a_keep_that_gives_way() {
    let rows: String = (0..60).map(|at| format!("<tr><td>r{at}</td></tr>")).collect();
    for filler in (0..680).step_by(7) {
        let kept =
            format!("<keep><p>top</p><space h=\"{filler}pt\"/><table><col/><tbody>{rows}</tbody></table></keep>");
        let got = words(&set(&kept));
        let page = |row: &str| got.iter().find(|line| line[2..] == *row).map(|line| line[..1].to_string());
        assert_eq!(page("r0"), page("r1"), "below {filler} pt");
        assert_eq!(page("r58"), page("r59"), "below {filler} pt");
    }
}
