//! The pages of blocks, told in the text of a paper: settled over a few passes.
//!
//! In: pages as they were set with the numbers known so far. Out: the numbers to set next, and whether what was printed is
//! true. May not know: how a page is set.
//!
//! A number is set in as many figures as any pass has needed for it, a shorter one after spaces of one figure each. So the
//! room it takes never shrinks, and once no number needs more room the pages stay as they are.

use std::collections::BTreeMap;

use super::pages::{Item, Owner, Page, Placed, Target};
use crate::markup::{BlockId, Mp, Tree};

/// So many passes at most: two where no number grows longer, one more for each that makes another grow.
pub const PASSES: usize = 10;

/// What the last pass told of the page of one block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct PageOfBlock {
    number: usize,
    figures: usize,
}

/// What is known of the pages of blocks.
#[derive(Clone, Debug, Default)]
pub struct Numbers {
    reported: BTreeMap<BlockId, PageOfBlock>,
}

impl Numbers {
    /// The number of the page where a block begins, as far as it is known, in as many figures as it ever needed.
    pub fn of(&mut self, block: BlockId) -> String {
        let PageOfBlock { number, figures } =
            *self.reported.entry(block).or_insert(PageOfBlock { number: 1, figures: 1 });
        let number = number.to_string();
        let figure_spaces = "\u{2007}".repeat(figures - number.len());
        figure_spaces + &number
    }

    /// Takes over the blocks that others were asked for.
    pub fn join(&mut self, others: Numbers) {
        for (block, reported) in others.reported {
            self.reported.entry(block).or_insert(reported);
        }
    }

    /// Takes the true numbers from pages; whether all that were told are true.
    pub fn settle(&mut self, pages: &[Page], tree: &Tree) -> bool {
        let firsts = FirstPositions::of(pages, tree);
        let mut settled = true;
        for (block, reported) in &mut self.reported {
            let number = firsts.target(tree, *block).page + 1;
            settled &= reported.number == number;
            *reported = PageOfBlock { number, figures: reported.figures.max(number.to_string().len()) };
        }
        settled
    }
}

/// Where the blocks begin that anything on the pages leads to.
pub fn targets(pages: &[Page], tree: &Tree) -> BTreeMap<BlockId, Target> {
    let mut leads: Vec<BlockId> = pages.iter().flat_map(|page| &page.items).filter_map(|item| item.to).collect();
    if leads.is_empty() {
        return BTreeMap::new();
    }
    leads.sort_unstable();
    leads.dedup();
    let firsts = FirstPositions::of(pages, tree);
    leads.into_iter().map(|block| (block, firsts.target(tree, block))).collect()
}

/// The first thing of each block.
struct FirstPositions {
    by_block: Vec<Option<Target>>,
    last_page: usize,
}

impl FirstPositions {
    fn of(pages: &[Page], tree: &Tree) -> Self {
        let mut by_block = vec![None; tree.len()];
        for (page, item) in pages.iter().enumerate().flat_map(|(at, page)| page.items.iter().map(move |it| (at, it))) {
            if let Owner::Block(block) | Owner::Label(block) = item.owner {
                by_block[block.0 as usize].get_or_insert(Target { page, y: top(item) });
            }
        }
        FirstPositions { by_block, last_page: pages.len().saturating_sub(1) }
    }

    /// Where a block begins: with the first thing of it or of a block inside. One that prints nothing begins with what follows it.
    fn target(&self, tree: &Tree, block: BlockId) -> Target {
        let (from, last) = (block.0 as usize, tree.last_inside(block).0 as usize);
        let inside = self.by_block[from..=last].iter().flatten().min_by_key(|target| (target.page, target.y));
        let after = || self.by_block[last + 1..].iter().flatten().next();
        inside.or_else(after).copied().unwrap_or(Target { page: self.last_page, y: Mp::ZERO })
    }
}

/// The upper edge of an item.
fn top(item: &Item) -> Mp {
    match item.placed {
        Placed::Text { y, size, .. } => y - size,
        Placed::Rule { y1, y2, .. } => y1.min(y2),
        Placed::Fill { y, .. }
        | Placed::Drawing { y, .. }
        | Placed::Enclosed { y, .. }
        | Placed::Check { y, .. }
        | Placed::Field { y, .. } => y,
    }
}

#[cfg(test)]
mod tests {
    use crate::findings::Findings;
    use crate::markup::Mp;
    use crate::typeset::tests::{set, tree_of, words};
    use crate::typeset::{Item, Placed, paper};

    /// Where each text that leads somewhere leads, and what it says.
    fn leads(items: &[Item]) -> Vec<(u32, &str)> {
        let texts = items.iter().filter_map(|item| match (&item.placed, item.to) {
            (Placed::Text { run, .. }, Some(to)) => Some((to.0, run.text.as_str())),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn texts_report_the_page_and_lead_there() {
        // Blocks are numbered in reading order: document 0, foot 1, its slot 2, sheet 3, then paragraph, break, paragraph, table.
        let pages =
            set("<p>See <see to=\"t\">the <b>table</b></see>, page <pageof to=\"t\"/>.</p><pagebreak/><p>b</p>\
             <table id=\"t\"><tbody><tr><td>c</td></tr></tbody></table>");
        assert_eq!(leads(&pages.pages[0].items), [(7, "the "), (7, "table"), (7, "2")]);
        let target = pages.targets[&crate::markup::BlockId(7)];
        assert_eq!(target.page, 1);
        // The second page begins at 39.6 pt with a line of 12.16 pt, 8 pt above the table and 2.6 pt inside its cell.
        let top = Mp::points(39) + Mp(600) + Mp(12_160) + Mp(8_000);
        assert!(target.y >= top && target.y <= top + Mp(6_000), "{target:?}");
    }

    #[test]
    fn contents_list_the_headings_that_follow_down_to_a_level() {
        let pages = set(
            "<h1>Before</h1><contents depth=\"2\"/><h1>One</h1><h2>Two</h2><h3>Three</h3><pagebreak/><h2>Four</h2><p>x</p>",
        );
        let got = words(&pages);
        assert_eq!(got[..7], ["1 Before", "1 One ", "1 1", "1 Two ", "1 1", "1 Four ", "1 2"], "{got:?}");
        let heading = |text: &str| pages.pages.iter().flat_map(|page| &page.headings).find(|it| it.text == text);
        let four = heading("Four").expect("it is printed").block;
        assert_eq!(pages.targets[&four].page, 1);
        assert_eq!(leads(&pages.pages[0].items).iter().filter(|(to, _)| *to == four.0).count(), 2);
    }

    #[test]
    fn numbers_are_true_where_their_own_length_moves_pages() {
        // The lines before the last page are filled so that every further figure of a number may push one over.
        for lines in (30..60).step_by(3) {
            let tell = "<p>see page <pageof to=\"end\"/> and page <pageof to=\"end\"/> for it</p>".repeat(lines * 9);
            let pages = set(&format!("<columns count=\"4\">{tell}</columns><p id=\"end\">end</p>"));
            let last = words(&pages).pop().expect("the end is printed");
            let page = last.split(' ').next().expect("it begins with its page");
            let reported: Vec<String> =
                words(&pages).into_iter().filter(|it| it.ends_with(|c: char| c.is_ascii_digit())).collect();
            assert_eq!(reported.len(), lines * 9 * 2);
            assert!(
                reported.iter().all(|it| it.ends_with(&format!("\u{2007}{page}")) || it.ends_with(&format!(" {page}")))
            );
        }
    }

    #[test]
    fn what_does_not_settle_in_the_passes_allowed_is_found() {
        let tree = tree_of("<p>page <pageof to=\"end\"/></p><pagebreak/><p id=\"end\">end</p>");
        let mut findings = Findings::default();
        paper::set(&tree, 1, &mut findings);
        let codes: Vec<&str> = findings.iter().map(|it| it.code.id).collect();
        assert_eq!(codes, ["pages-do-not-settle"]);
        let mut none = Findings::default();
        paper::set(&tree, 2, &mut none);
        assert!(none.is_empty());
    }
}
