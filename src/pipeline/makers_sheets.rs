//! Makers' own sheets and certificates: which files a catalog may name, and those of the items that a job takes off and of the
//! proofs that it needs, read.
//!
//! In: a snapshot, a checked catalog, a takeoff. Out: files to load; enclosures by their paths in the catalog. May not know: the disk,
//! or how such a file is read.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;
use sha2::{Digest, Sha256};

use super::hex;
use crate::catalog::{Catalog, MakersSheet};
use crate::findings::{Files, Finding, Findings, Subject};
use crate::input::unread;
use crate::job::Job;
use crate::pdf_import::{self, ENCLOSURE_MISSING, ENCLOSURE_PAGE, Enclosure, Named};
use crate::takeoff::{ProofGap, Takeoff, needed_proofs};

/// Enclosures by the paths of their files in the catalog.
pub(super) type Enclosures = BTreeMap<String, Arc<Enclosure>>;

/// The path of a file that is named from a folder.
pub(super) fn from_folder(folder: &str, path: &str) -> String {
    if folder.is_empty() { path.to_owned() } else { format!("{folder}/{path}") }
}

/// Every text between quotes in the files of a catalog's folder that ends as the name of a PDF or of a font does. Some may name nothing that is
/// enclosed; reading the catalog for this alone would cost as much as all the rest.
pub(super) fn may_be_named(files: &Files, folder: &str) -> BTreeSet<String> {
    let ends = |text: &str| [".pdf", ".ttf"].iter().any(|ending| text.to_ascii_lowercase().ends_with(ending));
    let is_name = |text: &&str| ends(text) && !text.contains('\n');
    let catalog = files.ids().filter(|file| {
        let rest = files.path(*file).strip_prefix(folder).map(|rest| rest.trim_start_matches('/'));
        rest.is_some_and(|rest| rest.ends_with(".toml") && !rest.contains('/'))
    });
    let texts = catalog.filter_map(|file| files.text(file).ok());
    texts.flat_map(|text| text.split(['"', '\''])).filter(is_name).map(|name| from_folder(folder, name)).collect()
}

/// Reads the sheets of all items that are taken off and the certificates of proofs in hand, each file once.
pub(super) fn enclosed(
    files: &Files,
    (folder, catalog): (&str, &Catalog),
    (takeoff, job): (&Takeoff, &Job),
    findings: &mut Findings,
) -> Enclosures {
    let used: BTreeSet<&str> = takeoff.lines.iter().map(|line| &*line.item).collect();
    let items = catalog.items.values().filter(|item| used.contains(item.id.as_str()));
    let of_items = items.filter_map(|item| Some((Subject::Entry("item", item.id.clone()), item.sheet.as_ref()?)));
    // What is not in hand is a gap, whatever file is named for it.
    let proofs = needed_proofs(takeoff, job, catalog).into_iter().filter(|it| it.gap != Some(ProofGap::Missing));
    let of_proofs =
        proofs.filter_map(|it| Some((Subject::Entry("proof", it.proof.id.clone()), it.proof.sheet.as_ref()?)));
    let named: Vec<(Subject, &MakersSheet)> = of_items.chain(of_proofs).collect();
    let mut first: BTreeMap<&str, &(Subject, &MakersSheet)> = BTreeMap::new();
    for one in &named {
        first.entry(one.1.path.as_str()).or_insert(one);
    }
    let each: Vec<(&str, Option<Enclosure>, Findings)> = first
        .into_par_iter()
        .map(|(path, (about, sheet))| {
            let mut found = Findings::default();
            (path, read(files, &from_folder(folder, path), (about, sheet), &mut found), found)
        })
        .collect();
    let mut enclosures = Enclosures::new();
    for (path, enclosure, found) in each {
        findings.extend(found);
        enclosures.extend(enclosure.map(|it| (path.to_owned(), Arc::new(it))));
    }
    for (about, sheet) in &named {
        if let Some(enclosure) = enclosures.get(&sheet.path) {
            check_pages(about, sheet, enclosure.pages.len(), findings);
        }
    }
    enclosures
}

/// SHA-256 of every file that the catalog names, by its path there: another file under the same name is another value. One that is
/// not there has none.
pub(super) fn digests(files: &Files, folder: &str, catalog: &Catalog) -> BTreeMap<String, String> {
    let of_items = catalog.items.values().filter_map(|item| item.sheet.as_ref());
    let named = of_items.chain(catalog.proofs.iter().filter_map(|proof| proof.sheet.as_ref()));
    let paths: BTreeSet<&str> = named.map(|sheet| sheet.path.as_str()).collect();
    let digest = |path: &str| {
        let file = files.find(&from_folder(folder, path))?;
        Some((path.to_owned(), hex(Sha256::digest(files.bytes(file)).as_slice())))
    };
    paths.into_iter().filter_map(digest).collect()
}

fn read(
    files: &Files,
    path: &str,
    (about, sheet): (&Subject, &MakersSheet),
    findings: &mut Findings,
) -> Option<Enclosure> {
    let Some(file) = files.find(path) else {
        if let Some(finding) = unread(files, path, "the catalog's folder", about.clone()) {
            findings.push(finding.at(sheet.place.clone()).blocking(ENCLOSURE_MISSING.blocks));
            return None;
        }
        let finding = Finding::new(&ENCLOSURE_MISSING, about.clone()).at(sheet.place.clone()).found(path);
        findings.push(finding.advise("put the PDF there, or name it from the catalog's folder with its ending .pdf"));
        return None;
    };
    // As it is typed: a path of the office does not go on a paper.
    let named = Named { name: &sheet.path, subject: about.clone(), place: sheet.place.clone() };
    pdf_import::read(files.bytes(file), &named, findings)
}

/// Pages that are asked for or marked must be among those of the file.
fn check_pages(about: &Subject, sheet: &MakersSheet, pages: usize, findings: &mut Findings) {
    let asked = sheet.pages.iter().copied().chain(sheet.marks.iter().map(|mark| mark.page));
    if let Some(page) = asked.max().filter(|page| usize::from(*page) > pages) {
        let finding = Finding::new(&ENCLOSURE_PAGE, about.clone()).at(sheet.place.clone());
        let finding = finding.found(page.to_string()).asked(pages.to_string());
        findings.push(finding.advise("ask for pages that it has in sheet_pages, and mark these"));
    }
}
