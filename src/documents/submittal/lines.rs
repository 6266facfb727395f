//! The lines of a transmittal: what is in the package, item by item.
//!
//! In: a package and its view. Out: a line for each part that has content. May not know: pages.
//!
//! Columns as on a public transmittal form (USACE ENG Form 4025-R, columns a to i, notes 3, 6, 8 and 9, read); types stand in
//! words, since codes differ by owner.

use serde::Serialize;

use super::{CutSheet, Package, SubmittalView};
use crate::documents::printing::{DASH, or_dash};
use crate::job::SubmittalPart;
use crate::measure::Noun;

/// A line of the transmittal.
#[derive(Clone, Debug, Serialize)]
pub struct TransmittalLine {
    /// Name of the row, such as `line.3`.
    pub name: String,
    /// Its number.
    pub number: String,
    /// What it is.
    pub description: String,
    /// The block with which it begins.
    pub to: String,
    /// Type of submittal.
    pub kind: String,
    /// Copies.
    pub copies: String,
    /// Paragraphs of the specification that ask for it.
    pub paragraph: String,
    /// Drawing sheets.
    pub sheets: String,
    /// `yes`, with the numbers of the deviations; blank where there is none.
    pub variation: String,
}

/// A line before it is numbered.
struct Content<'a> {
    part: SubmittalPart,
    description: String,
    to: &'a str,
    sheets: &'a str,
    deviations: Vec<&'a str>,
}

/// The lines of a package, in the order of its pages.
pub(super) fn lines(package: &Package, view: &SubmittalView, sheets: &str) -> Vec<TransmittalLine> {
    let contents = contents(view, sheets);
    let each = contents.into_iter().enumerate().map(|(at, it)| TransmittalLine {
        name: format!("line.{}", at + 1),
        number: (at + 1).to_string(),
        description: it.description,
        to: it.to.to_owned(),
        kind: kind(it.part).to_owned(),
        copies: view.sending.copies.clone(),
        paragraph: paragraphs(package, it.part),
        sheets: if it.sheets.is_empty() { DASH.to_owned() } else { it.sheets.to_owned() },
        variation: if it.deviations.is_empty() { String::new() } else { format!("yes: {}", it.deviations.join(", ")) },
    });
    each.collect()
}

fn contents<'a>(view: &'a SubmittalView, sheets: &'a str) -> Vec<Content<'a>> {
    let mut all: Vec<Content> = Vec::new();
    let mut add = |part, description: String, to: &'a str, deviations| {
        all.push(Content { part, description, to, sheets: "", deviations });
    };
    if !view.compliance.is_empty() {
        let every = view.deviations.iter().map(|it| it.number.as_str()).collect();
        let count = view.compliance.len();
        add(
            SubmittalPart::Compliance,
            format!("Compliance with the specification, {}", Noun::PARAGRAPH.len(count)),
            "compliance",
            every,
        );
    }
    for group in &view.products {
        let touches = view.deviations.iter().filter(|it| group.group.is_some_and(|group| it.groups.contains(&group)));
        let deviations = touches.map(|it| it.number.as_str()).collect();
        let count = group.sheets.len();
        let items = Noun::SHEET.len(count);
        add(SubmittalPart::ProductData, format!("{}, {items}", group.title), &group.id, deviations);
    }
    if let Some(pages) = pages(&view.cut_sheets) {
        add(SubmittalPart::ProductData, format!("Supplier cut sheets, {pages}"), "cut-sheets", Vec::new());
    }
    if !view.proofs.is_empty() || !view.gaps.is_empty() {
        let gaps = match view.gaps.len() {
            0 => String::new(),
            gaps => format!(", {gaps} outstanding"),
        };
        add(SubmittalPart::Certificates, format!("Certificates and listings{gaps}"), "certificates", Vec::new());
    }
    if let Some(pages) = pages(&view.certificates) {
        let what = format!("Certificates, enclosed, {pages}");
        add(SubmittalPart::Certificates, what, "certificates-enclosed", Vec::new());
    }
    if let Some(warranty) = view.warranty.first() {
        add(SubmittalPart::Warranty, format!("Warranty, {}", warranty.term), "warranty", Vec::new());
    }
    if !view.upkeep.is_empty() {
        add(SubmittalPart::MaintenanceData, "Maintenance data".to_owned(), "maintenance", Vec::new());
    }
    if !view.prepared.is_empty() {
        add(SubmittalPart::Templates, "Requirements for doors, frames and walls".to_owned(), "prepared", Vec::new());
    }
    for bound in &view.bound {
        add(bound.part, format!("{}, {}", bound.title, bound.revision), &bound.id, Vec::new());
    }
    for line in all.iter_mut().filter(|it| it.part == SubmittalPart::ShopDrawings) {
        line.sheets = sheets;
    }
    all
}

/// How many pages are enclosed; nothing where there are none.
fn pages(sheets: &[CutSheet]) -> Option<String> {
    match sheets.iter().map(|it| it.pages.len()).sum() {
        0 => None,
        pages => Some(Noun::PAGE.len(pages)),
    }
}

/// The type of submittal in words.
fn kind(part: SubmittalPart) -> &'static str {
    match part {
        SubmittalPart::Schedule => "schedule",
        SubmittalPart::ProductData => "product data",
        SubmittalPart::Compliance => "statement",
        SubmittalPart::Templates => "templates",
        SubmittalPart::Certificates => "certificates",
        SubmittalPart::Warranty => "warranty",
        SubmittalPart::MaintenanceData => "operation and maintenance data",
        SubmittalPart::ShopDrawings => "shop drawings",
    }
}

/// The paragraphs of the section that ask for a part.
pub(super) fn paragraphs(package: &Package, part: SubmittalPart) -> String {
    let all = package.sources.reviewed.job().paragraphs.iter();
    let asking = all.filter(|it| it.section == package.transmittal.section && it.submits.contains(&part));
    let numbers: Vec<&str> = asking.map(|it| it.number.as_str()).collect();
    or_dash(Some(&numbers.join(", ")))
}
