//! Themes, sheets, title blocks, stamps and hyphens, as dumps of what stands where.

use std::collections::BTreeMap;

use super::tests::{dump, set, tree_of, words};
use super::{Artifact, Item, Mp, Owner, Pages, Placed, Theme, typeset};
use crate::findings::Findings;
use crate::fonts::Faces;
use crate::markup::Tree;

fn set_in(tree: &Tree, theme: &Theme) -> Pages {
    let mut findings = Findings::default();
    let pages = typeset(tree, &Faces::built_in(), theme, &BTreeMap::new(), &mut findings);
    pages.unwrap_or_else(|| panic!("{findings:#?}"))
}

/// The texts of running heads, feet and repeated things of a kind, page by page.
fn artifacts(pages: &Pages, of: Artifact) -> Vec<Vec<String>> {
    let text = |item: &Item| match (&item.placed, item.owner) {
        (Placed::Text { run, .. }, Owner::Artifact(own)) if own == of => Some(run.text.clone()),
        _ => None,
    };
    pages.pages.iter().map(|page| page.items.iter().filter_map(text).collect()).collect()
}

#[test]
fn words_are_broken_only_where_the_theme_asks() {
    let text = "<columns count=\"4\"><p>documentation hyphenation documentation hyphenation</p></columns>";
    let tree = tree_of(text);
    let hyphenated = Theme { hyphenation: true, ..Theme::default() };
    let letters = |pages: &Pages| {
        let content = dump(pages)
            .into_iter()
            .filter(|line| !line.contains('~'))
            .map(|line| line.splitn(4, ' ').nth(3).unwrap_or_default().to_string());
        content.collect::<String>()
    };
    let (plain, broken) = (set_in(&tree, &Theme::default()), set_in(&tree, &hyphenated));
    assert_eq!(letters(&plain), letters(&broken), "no letter is added to the text or lost");
    let hyphens = |pages: &Pages| artifacts(pages, Artifact::Layout).concat().iter().filter(|it| *it == "-").count();
    assert_eq!(hyphens(&plain), 0);
    assert!(hyphens(&broken) > 0, "{:?}", dump(&broken));
    // Four columns with gutters of 18 pt share 504 pt: each is 112.5 pt wide, and the hyphen stands inside.
    for item in &broken.pages[0].items {
        if let Placed::Text { x, size, run, .. } = &item.placed {
            let end = x.as_points() + f64::from(run.advance) * size.as_points() / 1000.0;
            let column = ((x.as_points() - 54.0) / 130.5).floor();
            assert!(run.text != "-" || end <= 54.0 + column * 130.5 + 112.5 + 0.01, "{run:?} at {x:?}");
        }
    }
}

#[test]
fn a_soft_hyphen_shows_where_a_line_ends_at_it_and_nowhere_else() {
    let narrow = set("<table><col w=\"0.9in\"/><tbody><tr><td>electro\u{ad}magnetically</td></tr></tbody></table>");
    assert_eq!(words(&narrow), ["1 electro\u{ad}", "1 ~-", "1 magnetically"]);
    let wide = set("<p>electro\u{ad}magnetically</p>");
    assert_eq!(words(&wide), ["1 electro\u{ad}magnetically"]);
}

#[test]
fn sheets_have_their_sizes_and_turn_inside_a_document() {
    let text =
        "<p>a</p></sheet><sheet size=\"tabloid\" orientation=\"landscape\"><p>b</p></sheet><sheet size=\"a4\"><p>c</p>";
    let pages = set(text);
    let sizes: Vec<(f64, f64)> =
        pages.pages.iter().map(|page| (page.width.as_points(), page.height.as_points())).collect();
    // Letter and tabloid by ANSI/ASME Y14.1 sizes A and B, 72 points to the inch; A4 by ISO 216, 210 mm by 297 mm.
    assert_eq!(sizes, [(612.0, 792.0), (1224.0, 792.0), (595.276, 841.89)]);
}

#[test]
fn a_title_block_stands_in_the_corner_of_every_page_and_nothing_stands_on_it() {
    let lines = "<p>line</p>".repeat(90);
    let pages = set(&format!("<titleblock w=\"2in\"><p>Sheet<br/>A-1</p></titleblock>{lines}"));
    assert_eq!(pages.pages.len(), 3);
    assert_eq!(artifacts(&pages, Artifact::Repeated), [vec![], vec!["Sheet ", "A-1"], vec!["Sheet ", "A-1"]]);
    for page in &pages.pages {
        let text = |word: &'static str| {
            page.items.iter().filter_map(move |item| match &item.placed {
                Placed::Text { x, y, run, .. } if run.text.trim_end() == word => Some((x.as_points(), y.as_points())),
                _ => None,
            })
        };
        let (x, y) = text("Sheet").next().expect("it is on every page");
        assert_eq!(x, 612.0 - 54.0 - 144.0);
        assert!(text("line").all(|(_, line)| line < y - 12.16), "lines end above it");
    }
}

#[test]
fn a_stamp_has_its_size() {
    let pages = set("<stamp w=\"3in\" h=\"1.5in\" label=\"Stamp\"/>");
    let rules = pages.pages[0].items.iter().filter_map(|item| match item.placed {
        Placed::Rule { x1, y1, x2, y2, .. } if item.owner == Owner::Artifact(Artifact::Layout) => {
            Some([x1, y1, x2, y2])
        }
        _ => None,
    });
    let all: Vec<[Mp; 4]> = rules.collect();
    let over = |of: fn(&[Mp; 4]) -> [Mp; 2]| {
        let ends: Vec<Mp> = all.iter().flat_map(of).collect();
        ends.iter().max().zip(ends.iter().min()).map(|(most, least)| *most - *least)
    };
    assert_eq!(over(|rule| [rule[0], rule[2]]), Some(Mp::mils(3_000)));
    assert_eq!(over(|rule| [rule[1], rule[3]]), Some(Mp::mils(1_500)));
}

#[test]
fn the_mark_of_the_company_stands_at_the_left_of_running_heads() {
    let head = "<head><left>Bid</left></head><p>a</p><pagebreak/><p>b</p>";
    let theme = Theme { mark: "Tallow".to_string(), ..Theme::default() };
    let heads = artifacts(&set_in(&tree_of(head), &theme), Artifact::RunningHead);
    assert_eq!(heads, [["Tallow", " · ", "Bid"], ["Tallow", " · ", "Bid"]]);
    let without = artifacts(&set_in(&tree_of(head), &Theme::default()), Artifact::RunningHead);
    assert_eq!(without, [["Bid"], ["Bid"]]);
}
