//! Suppliers' own sheets behind the product data: which pages of which files, and what is marked on them.
//!
//! In: items taken off under a section, files that were read. Out: pages to enclose, with a stamp in words for each. May not know:
//! what stands on the pages.

use serde::Serialize;

use super::{Package, lines, products, sending};
use crate::catalog::{Item, MakersSheet};
use crate::documents::printing::DASH;
use crate::job::SubmittalPart;

/// The sheet of a product, or of several that one file describes.
#[derive(Clone, Debug, Serialize)]
pub struct CutSheet {
    /// The block with which it begins.
    pub id: String,
    /// The products.
    pub title: String,
    /// Its pages.
    pub pages: Vec<CutPage>,
    /// The file, by its path in the catalog.
    #[serde(skip)]
    path: String,
}

/// A page that is enclosed.
#[derive(Clone, Debug, Serialize)]
pub struct CutPage {
    /// The key of its file.
    pub key: String,
    /// Which page, from 1.
    pub page: u16,
    /// What stands above it: submittal, paragraph, which page of how many.
    pub stamp: String,
    /// What it is, for who cannot see it.
    pub alt: String,
    /// What is marked in its margin.
    pub marks: Vec<CutMark>,
}

/// A mark in the margin.
#[derive(Clone, Debug, Serialize)]
pub struct CutMark {
    /// How far down the page, such as `35 %`.
    pub at: String,
    /// What it says.
    pub says: String,
}

/// The sheets of the products of a package, in the order of its product data; each file once.
pub(super) fn cut_sheets(package: &Package) -> Vec<CutSheet> {
    if !package.holds(SubmittalPart::ProductData) {
        return Vec::new();
    }
    let mut sheets: Vec<CutSheet> = Vec::new();
    for used in products::items(package.sources, &package.transmittal.section) {
        let Some(own) = &used.item.sheet else { continue };
        match sheets.iter_mut().find(|it| it.path == own.path) {
            Some(known) => join(known, used.item, own),
            None => sheets.push(sheet(package, used.item, own)),
        }
    }
    sheets
}

/// A file whose pages are not known is asked for its first, so that the package is held rather than sent without it.
fn sheet(package: &Package, item: &Item, own: &MakersSheet) -> CutSheet {
    let all = package.sources.enclosures.get(&own.path).map_or(1, |it| it.pages.len());
    let each: Vec<u16> =
        if own.pages.is_empty() { (1..=u16::try_from(all).unwrap_or(u16::MAX)).collect() } else { own.pages.clone() };
    let number = sending::number(package.sources, package.transmittal);
    let paragraph = lines::paragraphs(package, SubmittalPart::ProductData);
    let asked = if paragraph == DASH { String::new() } else { format!(", paragraph {paragraph}") };
    let page = |page: &u16| CutPage {
        key: own.path.clone(),
        page: *page,
        stamp: format!("Submittal {number}{asked}; page {page} of {all} of the supplier’s sheet"),
        alt: format!("Page {page} of the supplier’s own sheet of: {}", item.name),
        marks: marks(own, *page),
    };
    CutSheet {
        id: format!("cut-sheet-{}", item.id),
        title: title(item),
        pages: each.iter().map(page).collect(),
        path: own.path.clone(),
    }
}

/// Another product on a sheet that is already there brings its name and its marks.
fn join(known: &mut CutSheet, item: &Item, own: &MakersSheet) {
    known.title = format!("{}; {}", known.title, title(item));
    for page in &mut known.pages {
        page.alt = format!("{}; {}", page.alt, item.name);
        page.marks.extend(marks(own, page.page));
    }
}

fn title(item: &Item) -> String {
    format!("{}, {}", item.name, item.id)
}

fn marks(own: &MakersSheet, page: u16) -> Vec<CutMark> {
    let here = own.marks.iter().filter(|it| it.page == page);
    here.map(|it| CutMark { at: format!("{} %", it.at.hundredths().normalize()), says: it.says.clone() }).collect()
}
