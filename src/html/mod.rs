//! The block tree to one file that a browser opens: for a phone on the site and for a screen, with boxes and fields that can be
//! filled in where the paper has any.
//!
//! In: the block tree, its drawings, the faces that they were made for, the name under which a browser keeps what is typed. Out:
//! one self-contained HTML file, which is well-formed XML too. May not know: pages, doors, money.
//!
//! Nothing is fetched from anywhere: style, script and drawings stand in the file, and its own policy forbids the rest. What
//! is typed stays in the browser's storage under a name that holds the fingerprint of the values, so that a new issue starts
//! empty; since phones drop the storage of a local page, all of it can be copied out as text, and pasted back. A paper without
//! fields has none of this. How many fields a file has stands on its root, so that whoever opens it can tell that none is lost.

mod blocks;
mod fields;
mod picture;
mod sheet;
mod tables;
#[cfg(test)]
mod tests;
mod written;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::fonts::Faces;
use crate::markup::{BlockId, Body, Inline, Kind, Orientation, Scale, SheetSize, Slot, Tree};
use crate::shapes::Drawing;
use blocks::Browser;
use written::Written;

/// What the file is called in the browser's storage and in the text that is copied out.
#[derive(Clone, Copy, Debug)]
pub struct StorageNames<'k> {
    /// What the reader calls it, such as `Job 2611-07, packet-hall`.
    pub title: &'k str,
    /// The fingerprint of the values, short.
    pub fingerprint: &'k str,
}

/// What stands on a sheet that has drawings to scale.
const SCALES: &str = "A stated scale holds on paper, where the printed sheet of this paper is printed at full size. It does not \
    hold on a screen, nor where this file is printed: go by the written figures and measure nothing here.";

/// Writes a paper as one HTML file; `faces` are those that its drawings were made for.
pub fn write(
    tree: &Tree,
    drawings: &BTreeMap<String, Arc<Drawing>>,
    faces: &Faces,
    keeping: StorageNames<'_>,
) -> String {
    let mut browser = Browser::new(tree, drawings, faces);
    head(&mut browser.out, tree, keeping);
    running(&mut browser, tree.root(), Kind::Head, "header");
    let sheets = sheets(tree);
    contents(&mut browser.out, tree, &sheets);
    browser.out.raw("<main>\n");
    for (at, sheet) in sheets.iter().enumerate() {
        browser.out.raw(&format!("<section id=\"s{}\">", at + 1));
        section(&mut browser, *sheet);
        browser.out.raw("</section>\n");
    }
    if has_fields(tree) {
        browser.out.raw(include_str!("kept.xml"));
    }
    browser.out.raw("</main>\n");
    running(&mut browser, tree.root(), Kind::Foot, "footer");
    browser.out.raw("<script>\n");
    browser.out.raw(include_str!("menu.js"));
    if has_fields(tree) {
        browser.out.raw(include_str!("keep.js"));
    }
    browser.out.raw("</script>\n</body>\n</html>\n");
    browser.out.finished()
}

/// A sheet. Its title block stands at its foot, as on paper; what it says of scales before that.
fn section(browser: &mut Browser<'_>, sheet: BlockId) {
    let tree = browser.tree();
    browser.anchor(sheet);
    running(browser, sheet, Kind::Head, "header");
    let is_title = |id: &&BlockId| matches!(tree.block(**id).kind, Kind::TitleBlock { .. });
    tree.children(sheet).iter().filter(|id| !is_title(id)).for_each(|id| browser.block(*id));
    if browser.drawings_in(sheet).any(Drawing::is_to_scale) {
        browser.out.raw("<p class=\"scales\">");
        browser.out.text(SCALES);
        browser.out.raw("</p>\n");
    }
    tree.children(sheet).iter().filter(is_title).for_each(|id| browser.block(*id));
}

fn has_fields(tree: &Tree) -> bool {
    !tree.fields().is_empty()
}

/// Everything above the first words. The policy lets in nothing that does not stand in the file.
fn head(out: &mut Written, tree: &Tree, keeping: StorageNames<'_>) {
    out.raw("<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\"");
    out.attribute("lang", &tree.lang);
    out.attribute("data-fields", &tree.fields().len().to_string());
    if has_fields(tree) {
        out.attribute("data-key", &format!("hingewright {} {}", keeping.title, keeping.fingerprint));
        out.attribute("data-title", &format!("{}, values {}", keeping.title, keeping.fingerprint));
    }
    out.raw(">\n<head>\n<meta charset=\"utf-8\"/>\n<title>");
    out.text(&tree.title);
    out.raw("</title>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    out.raw(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\"/>\n<style>\n",
    );
    out.raw(include_str!("page.css"));
    out.raw("</style>\n</head>\n<body");
    let scale = if tree.scale == Scale::Field { "field" } else { "desk" };
    let wide = if sheets(tree).iter().any(|id| is_wide(&tree.block(*id).kind)) { " wide" } else { "" };
    out.attribute("class", &format!("{scale}{wide}"));
    out.raw(">\n");
}

/// The sheets of a paper, in order.
fn sheets(tree: &Tree) -> Vec<BlockId> {
    let children = tree.children(tree.root()).iter();
    children.copied().filter(|id| matches!(tree.block(*id).kind, Kind::Sheet { .. })).collect()
}

/// Whether a sheet is wider than a page of text.
fn is_wide(sheet: &Kind) -> bool {
    matches!(
        sheet,
        Kind::Sheet { size: SheetSize::Tabloid, .. } | Kind::Sheet { orientation: Orientation::Landscape, .. }
    )
}

/// Links to every sheet that has a heading of its own.
fn contents(out: &mut Written, tree: &Tree, sheets: &[BlockId]) {
    out.raw("<nav aria-label=\"Sheets\"><details><summary>Sheets</summary><ol>");
    for (at, sheet) in sheets.iter().enumerate() {
        let heading = tree.children(*sheet).iter().find(|id| matches!(tree.block(**id).kind, Kind::Heading(_)));
        let title = heading.map_or_else(|| format!("Sheet {}", at + 1), |id| tree.text(*id));
        out.raw(&format!("<li><a href=\"#s{}\">", at + 1));
        out.text(&title);
        out.raw("</a></li>");
    }
    let kept = if has_fields(tree) { "<a href=\"#kept\">Copy what was filled in</a>" } else { "" };
    out.raw(&format!("</ol></details>{kept}</nav>\n"));
}

/// The running head or foot of the paper or of a sheet, once; what counts pages has no meaning here and is left out.
fn running(browser: &mut Browser<'_>, of: BlockId, kind: Kind, element: &str) {
    let tree = browser.tree();
    let Some(found) = tree.children(of).iter().find(|id| tree.block(**id).kind == kind) else { return };
    browser.out.raw(&format!("<{element}>"));
    for slot in [Slot::Left, Slot::Middle, Slot::Right] {
        let of_slot = |id: &&BlockId| tree.block(**id).kind == Kind::Slot(slot) && !counts_pages(tree, **id);
        if let Some(slot) = tree.children(*found).iter().find(of_slot) {
            browser.out.raw("<span>");
            browser.text_of(*slot);
            browser.out.raw("</span> ");
        }
    }
    browser.out.raw(&format!("</{element}>\n"));
}

fn counts_pages(tree: &Tree, slot: BlockId) -> bool {
    let Body::Text(inlines) = &tree.block(slot).body else { return false };
    let counts = |inline: &Inline| {
        matches!(inline, Inline::PageNumber | Inline::PageCount | Inline::SheetPageNumber | Inline::SheetPageCount)
    };
    inlines.iter().any(counts)
}
