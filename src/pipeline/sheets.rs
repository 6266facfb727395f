//! How many pages each sheet of a set paper takes.
//!
//! In: a block tree and its pages. Out: pages by the name of the sheet, and openings that take too many.
//! May not know: what stands on a sheet.

use std::collections::BTreeMap;

use crate::documents::{self, Moved, Sources};
use crate::markup::{BlockId, Kind, Tree};
use crate::typeset::{Owner, Page, Pages};

/// Pages of every named sheet. A sheet begins a new page, so a page belongs to the sheet of whatever stands on it.
pub fn pages_of_sheets(tree: &Tree, pages: &Pages) -> BTreeMap<String, usize> {
    let mut sheet_of: Vec<Option<BlockId>> = vec![None; tree.len()];
    for id in tree.ids() {
        let own = matches!(tree.block(id).kind, Kind::Sheet { .. }).then_some(id);
        let sheet = own.or(sheet_of[id.0 as usize]);
        sheet_of[id.0 as usize] = sheet;
        for child in tree.children(id) {
            sheet_of[child.0 as usize] = sheet;
        }
    }
    let sheet = |page: &Page| {
        page.items.iter().find_map(|item| match item.owner {
            Owner::Block(block) | Owner::Label(block) => sheet_of[block.0 as usize],
            Owner::Artifact(_) => None,
        })
    };
    let mut counts = BTreeMap::new();
    for name in pages.pages.iter().filter_map(sheet).filter_map(|sheet| tree.block(sheet).name.clone()) {
        *counts.entry(name).or_insert(0) += 1;
    }
    counts
}

/// Marks of the openings whose sheets of a packet take more pages than they may: first those of which something may still
/// move, then those of which all has.
pub(super) fn overfull(
    sources: &Sources,
    sheets: &BTreeMap<String, usize>,
    moved: &Moved,
) -> (Vec<String>, Vec<String>) {
    let over = sheets
        .iter()
        .filter_map(|(name, pages)| Some((documents::mark_of_sheet(name)?, *pages)))
        .filter(|(mark, pages)| *pages > documents::pages_allowed(sources, mark))
        .map(|(mark, _)| mark.to_owned());
    over.partition(|mark| moved.get(mark).copied().unwrap_or(0) < documents::MOVES.len())
}
