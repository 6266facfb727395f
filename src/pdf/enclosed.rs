//! Pages of other people's files as forms that our pages draw.
//!
//! In: the enclosed pages of a paper. Out: their objects in our file, each once, and the operators that draw them. May not know: how
//! such a file is read, or what its pages show.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use sha2::{Digest, Sha256};

use super::content::Pen;
use super::file::{File, Number};
use super::numbers::{Cp, decimal, integer, row};
use crate::markup::Mp;
use crate::pdf_import::{CopiedObject, Enclosure};
use crate::typeset::{EnclosedSheet, Page, Pages, Placed};

/// The enclosed pages of a paper, in the order in which they are first drawn.
#[derive(Default)]
pub(super) struct Sheets {
    sheets: Vec<EnclosedSheet>,
    /// By the address of the file and the page. Looked up and never walked.
    known: BTreeMap<(usize, usize), usize>,
}

fn key(sheet: &EnclosedSheet) -> (usize, usize) {
    (Arc::as_ptr(&sheet.enclosure) as usize, sheet.at)
}

/// The enclosed pages that a page draws.
fn drawn(page: &Page) -> impl Iterator<Item = &EnclosedSheet> {
    page.items.iter().filter_map(|item| match &item.placed {
        Placed::Enclosed { sheet, .. } => Some(sheet),
        _ => None,
    })
}

impl Sheets {
    /// Those of a paper.
    pub(super) fn gather(pages: &Pages) -> Self {
        let mut all = Sheets::default();
        for sheet in pages.pages.iter().flat_map(drawn) {
            if !all.known.contains_key(&key(sheet)) {
                all.known.insert(key(sheet), all.sheets.len());
                all.sheets.push(sheet.clone());
            }
        }
        all
    }

    /// Whether there is none.
    pub(super) fn is_empty(&self) -> bool {
        self.sheets.is_empty()
    }

    /// Puts the objects of all of them into the file, alike ones once; hands out the forms, in order.
    pub(super) fn put(&self, file: &mut File) -> Vec<Number> {
        let mut alike = BTreeMap::new();
        let mut forms = vec![Number(0); self.sheets.len()];
        let mut done = BTreeSet::new();
        for sheet in &self.sheets {
            let (of_file, _) = key(sheet);
            if !done.insert(of_file) {
                continue;
            }
            let own: Vec<usize> = (0..self.sheets.len()).filter(|at| key(&self.sheets[*at]).0 == of_file).collect();
            let needed: Vec<usize> = own.iter().map(|at| self.sheets[*at].page().form).collect();
            let numbers = put_objects(&sheet.enclosure, &needed, &mut alike, file);
            own.iter().zip(&needed).for_each(|(at, form)| forms[*at] = numbers[form]);
        }
        forms
    }

    /// Writes the entry of a page's resources for those that it draws, if any.
    pub(super) fn resources(&self, page: &Page, forms: &[Number], out: &mut Vec<u8>) {
        let used: BTreeSet<usize> = drawn(page).map(|sheet| self.known[&key(sheet)]).collect();
        if used.is_empty() {
            return;
        }
        out.extend_from_slice(b"/XObject<<");
        for at in used {
            name(at, out);
            out.push(b' ');
            forms[at].refer(out);
        }
        out.extend_from_slice(b">>");
    }
}

/// Writes the name by which content draws a form.
fn name(at: usize, out: &mut Vec<u8>) {
    out.extend_from_slice(b"/E");
    integer(out, at as i64);
}

/// Puts what the needed objects of a file are made of; hands out the numbers by position.
fn put_objects(
    enclosure: &Enclosure,
    needed: &[usize],
    alike: &mut BTreeMap<[u8; 32], Number>,
    file: &mut File,
) -> BTreeMap<usize, Number> {
    let mut reached: BTreeSet<usize> = needed.iter().copied().collect();
    for at in (0..enclosure.objects.len()).rev() {
        if reached.contains(&at) {
            reached.extend(enclosure.objects[at].refers_to());
        }
    }
    let mut numbers: BTreeMap<usize, Number> = BTreeMap::new();
    for at in reached {
        let carried = &enclosure.objects[at];
        let text = carried.write(|position| numbers[&position].0);
        let number = *alike.entry(digest(&text, carried)).or_insert_with(|| put(text, carried, file));
        numbers.insert(at, number);
    }
    numbers
}

fn digest(text: &[u8], carried: &CopiedObject) -> [u8; 32] {
    let mut digest = Sha256::new();
    digest.update((text.len() as u64).to_be_bytes());
    digest.update(text);
    if let Some(data) = &carried.data {
        digest.update([1 + u8::from(data.is_packed)]);
        digest.update(&data.bytes);
    }
    digest.finalize().into()
}

fn put(text: Vec<u8>, carried: &CopiedObject, file: &mut File) -> Number {
    let number = file.reserve(1);
    match &carried.data {
        None => file.put(number, text),
        Some(data) if data.is_packed => file.put_open_stream(number, text, data.bytes.clone()),
        Some(data) => file.put_stream(number, text, data.bytes.clone()),
    }
    number
}

/// The rectangle that an enclosed page takes: left, bottom, right, top.
pub(super) fn sheet_box((x, y): (Mp, Mp), width: Mp, sheet: &EnclosedSheet, page_height: Mp) -> [Cp; 4] {
    let bottom = page_height - y - sheet.height(width);
    [Cp::of(x), Cp::of(bottom), Cp::of(x + width), Cp::of(page_height - y)]
}

impl Pen<'_> {
    /// Draws an enclosed page with its upper left corner at a point. A form leaves the state of the page as it was.
    pub(super) fn sheet(&mut self, (x, y): (Mp, Mp), width: Mp, sheet: &EnclosedSheet) {
        let scale = (width.as_points() / sheet.page().width * 1e6).round() as i64; // at most 1: never enlarged
        self.out.extend_from_slice(b"q ");
        decimal(&mut self.out, scale, 1_000_000);
        self.out.extend_from_slice(b" 0 0 ");
        decimal(&mut self.out, scale, 1_000_000);
        self.out.push(b' ');
        let corner = [Cp::of(x), self.upward(y + sheet.height(width))];
        row(&mut self.out, &corner);
        self.operator(b"cm");
        name(self.sheets.known[&key(sheet)], &mut self.out);
        self.operator(b" Do");
        self.operator(b"Q");
    }
}
