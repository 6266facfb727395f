//! Pages of others in a package: suppliers' own sheets behind the product data, certificates behind the proofs; which pages of
//! which files, and what is marked on them.
//!
//! In: items taken off and proofs needed under a section, files that were read. Out: pages to enclose, with a stamp in words for each. May not know:
//! what stands on the pages.

use serde::Serialize;

use super::{Package, lines, products, proofs, sending};
use crate::catalog::{MakersSheet, Proof};
use crate::documents::printing::DASH;
use crate::job::SubmittalPart;
use crate::takeoff::ProofGap;

/// The sheet of a product, or a certificate; of several that one file describes.
#[derive(Clone, Debug, Serialize)]
pub struct CutSheet {
    /// The block with which it begins.
    pub id: String,
    /// What it is about.
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
    let used = products::items(package.sources, &package.transmittal.section);
    let named = used.iter().filter_map(|used| {
        let id = format!("cut-sheet-{}", used.item.id);
        let alt = format!("supplier’s cut sheet for: {}", used.item.name);
        Some(Named {
            own: used.item.sheet.as_ref()?,
            id,
            title: used.item.name.clone(),
            alt,
            also: used.item.name.clone(),
        })
    });
    sheets(package, (SubmittalPart::ProductData, "supplier’s cut sheet"), named)
}

/// The certificates of a package's proofs, in the order of the proofs; each file once.
pub(super) fn certificates(package: &Package) -> Vec<CutSheet> {
    let here = proofs::here(package);
    let in_hand = here.iter().filter(|it| it.gap != Some(ProofGap::Missing)).filter_map(|it| {
        let proof = it.proof;
        let title = match &proof.number {
            Some(number) => format!("{}, {number}", proof.says),
            None => proof.says.clone(),
        };
        let alt = format!("certificate: {}", proof.says);
        Some(Named {
            own: proof.sheet.as_ref()?,
            id: format!("certificate-{}", proof.id),
            title,
            alt,
            also: proof.says.clone(),
        })
    });
    sheets(package, (SubmittalPart::Certificates, "certificate"), in_hand)
}

/// The block with which the certificate of a proof begins, also where another proof named the same file; empty without any.
pub(super) fn enclosing(proof: &Proof, certificates: &[CutSheet]) -> String {
    let path = proof.sheet.as_ref().map(|it| &it.path);
    let known = certificates.iter().find(|it| Some(&it.path) == path);
    known.map(|it| it.id.clone()).unwrap_or_default()
}

/// A file that a record of the catalog names, with what it is called on paper.
struct Named<'c> {
    own: &'c MakersSheet,
    id: String,
    title: String,
    alt: String,
    /// What it is about, where an earlier record named the same file.
    also: String,
}

fn sheets<'c>(package: &Package, of: (SubmittalPart, &str), named: impl Iterator<Item = Named<'c>>) -> Vec<CutSheet> {
    let mut sheets: Vec<CutSheet> = Vec::new();
    for one in named {
        match sheets.iter_mut().find(|it| it.path == one.own.path) {
            Some(known) => join(known, &one),
            None => sheets.push(sheet(package, of, one)),
        }
    }
    sheets
}

/// A file whose pages are not known is asked for its first, so that the package is held rather than sent without it.
fn sheet(package: &Package, (part, word): (SubmittalPart, &str), named: Named) -> CutSheet {
    let Named { own, id, title, alt, .. } = named;
    let all = package.sources.enclosures.get(&own.path).map_or(1, |it| it.pages.len());
    let each: Vec<u16> =
        if own.pages.is_empty() { (1..=u16::try_from(all).unwrap_or(u16::MAX)).collect() } else { own.pages.clone() };
    let number = sending::number(package.sources, package.transmittal);
    let paragraph = lines::paragraphs(package, part);
    let asked = if paragraph == DASH { String::new() } else { format!(", paragraph {paragraph}") };
    let page = |page: &u16| CutPage {
        key: own.path.clone(),
        page: *page,
        stamp: format!("Submittal {number}{asked}; page {page} of {all} of the {word}"),
        alt: format!("Page {page} of the {alt}"),
        marks: marks(own, *page),
    };
    CutSheet { id, title, pages: each.iter().map(page).collect(), path: own.path.clone() }
}

/// Another record that names a file which is already there brings its name and its marks.
fn join(known: &mut CutSheet, named: &Named) {
    known.title = format!("{}; {}", known.title, named.title);
    for page in &mut known.pages {
        page.alt = format!("{}; {}", page.alt, named.also);
        page.marks.extend(marks(named.own, page.page));
    }
}

fn marks(own: &MakersSheet, page: u16) -> Vec<CutMark> {
    let here = own.marks.iter().filter(|it| it.page == page);
    here.map(|it| CutMark { at: format!("{} %", it.at.hundredths().normalize()), says: it.says.clone() }).collect()
}
