//! Pages of others in a package: suppliers' own sheets behind the product data, certificates behind the proofs; which pages of
//! which files, and what is marked on them.
//!
//! In: items taken off and proofs needed under a section, files that were read. Out: pages to enclose, with a stamp in words for each. May not know:
//! what stands on the pages.

use super::cut_sheet::{CutMark, CutPage, CutSheet};
use super::{Package, lines, products, proofs, sending};
use crate::catalog::MakersSheet;
use crate::documents::printing::DASH;
use crate::job::SubmittalPart;
use crate::takeoff::ProofGap;

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
