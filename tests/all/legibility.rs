//! What a reader's eye asks of every page of the demo: type that is large enough, few sizes, thin rules, nothing over the
//! edge of the paper, no text over another.
//!
//! In: the demo's papers, read back. Out: the page and the text that breaks a law. Bounds are our own for papers read on a
//! ladder and copied in black and white (common practice, no source).

use std::collections::BTreeSet;

use hingewright::findings::Paper;

use crate::demo::demo;
use crate::pdf_reader::{Entries, Pdf, Shown};

/// Least size of type in points.
const LEAST: f64 = 9.0;
/// Least size of the figures of shop drawings, which have a size of their own.
const LEAST_IN_DRAWINGS: f64 = 7.0;
/// Most sizes of type on a page.
const MOST_SIZES: usize = 3;
/// Least side of a box to check in points: it is checked with gloves on.
const LEAST_BOX: f64 = 8.5;
/// Thickest rule in points.
const THICKEST: f64 = 0.5;

/// Everything with type on a page: drawn signs have no size.
fn typed(pdf: &Pdf, page: u32) -> impl Iterator<Item = &Shown> {
    pdf.shown(page).iter().filter(|it| it.size > 0.0 && !it.text.trim().is_empty())
}

/// Runs a look over every page of every paper of the demo.
fn each_page(mut look: impl FnMut(&str, &Pdf, usize, u32)) {
    let mut pages = 0;
    for (name, pdf) in &demo().pdfs {
        for (at, (page, _)) in pdf.pages().into_iter().enumerate() {
            look(name, pdf, at + 1, page);
            pages += 1;
        }
    }
    assert!(pages > Paper::ALL.iter().count(), "{pages} pages");
}

/// Whether a page is a shop drawing, by itself or bound into a package: they alone are on tabloid paper.
fn is_drawing(pdf: &Pdf, number: usize) -> bool {
    let (_, dict) = &pdf.pages()[number - 1];
    dict.get::<[f64; 4]>("MediaBox").unwrap()[2] > 1_000.0
}

#[test]
fn type_is_large_enough_and_of_few_sizes() {
    let mut faults = Vec::new();
    each_page(|name, pdf, number, page| {
        let sizes: BTreeSet<i64> = typed(pdf, page).map(|it| (it.size * 100.0).round() as i64).collect();
        let drawn = is_drawing(pdf, number);
        let (least, most) = if drawn { (LEAST_IN_DRAWINGS, MOST_SIZES + 1) } else { (LEAST, MOST_SIZES) };
        if sizes.len() > most {
            faults.push(format!("{name} page {number}: sizes {sizes:?} in hundredths of a point"));
        }
        let small = typed(pdf, page).find(|it| it.size < least - 1e-6);
        faults.extend(small.map(|it| format!("{name} page {number}: {:?} at {} pt", it.text, it.size)));
    });
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn rules_are_thin() {
    let mut faults = BTreeSet::new();
    let mut rules = 0;
    each_page(|name, pdf, number, page| {
        for width in pdf.rules(page) {
            rules += 1;
            if width > THICKEST + 1e-6 {
                faults.insert(format!("{name} page {number}: a rule of {width} pt"));
            }
        }
    });
    assert!(rules > 1000, "{rules} rules");
    assert!(faults.is_empty(), "{faults:#?}");
}

/// The box of a level text: from a fifth of its size below the baseline, where tails end, to two thirds above it.
fn area(it: &Shown) -> [f64; 4] {
    [it.x, it.y - 0.2 * it.size, it.end, it.y + 0.66 * it.size]
}

#[test]
fn texts_stay_on_the_paper_and_clear_of_each_other() {
    let mut faults = Vec::new();
    each_page(|name, pdf, number, page| {
        let (_, dict) = &pdf.pages()[number - 1];
        let paper = dict.get::<[f64; 4]>("MediaBox").unwrap();
        let level: Vec<&Shown> = typed(pdf, page).filter(|it| it.end > it.x + 0.1).collect();
        for (at, it) in level.iter().enumerate() {
            let [left, low, right, high] = area(it);
            if left < 18.0 || low < 18.0 || right > paper[2] - 18.0 || high > paper[3] - 18.0 {
                faults.push(format!("{name} page {number}: {:?} stands within a quarter inch of the edge", it.text));
            }
            for other in &level[at + 1..] {
                let [a, b, c, d] = area(other);
                let (wide, tall) = (right.min(c) - left.max(a), high.min(d) - low.max(b));
                if wide > 1.0 && tall > 1.0 {
                    faults.push(format!("{name} page {number}: {:?} and {:?} overlap", it.text, other.text));
                }
            }
        }
    });
    assert!(faults.is_empty(), "{} of them: {:#?}", faults.len(), &faults[..faults.len().min(20)]);
}

#[test]
fn boxes_to_check_are_large_enough_for_a_gloved_hand() {
    let (mut seen, mut faults) = (0, Vec::new());
    for (name, pdf) in &demo().pdfs {
        for (number, (_, page)) in pdf.pages().into_iter().enumerate() {
            for field in Pdf::annotations(&page).iter().filter(|it| it.name("FT").as_deref() == Some("Btn")) {
                let at = field.get::<[f64; 4]>("Rect").unwrap();
                let side = (at[2] - at[0]).min(at[3] - at[1]);
                seen += 1;
                if side < LEAST_BOX {
                    faults.push(format!("{name} page {}: a box of {side} pt", number + 1));
                }
            }
        }
    }
    assert!(seen > 1_000, "{seen} boxes");
    assert!(faults.is_empty(), "{} of them: {:#?}", faults.len(), &faults[..faults.len().min(20)]);
}
