//! The pages of a file: which there are, how large each is seen, what it shows.
//!
//! In: the objects of a file. Out: its pages in order, with what they take over from the nodes above them. May not know: how
//! a page is carried.

use std::collections::BTreeSet;

use super::fault::Fault;
use super::limits::{DEEPEST, MOST_PAGES};
use super::store::Store;
use super::value::{Dict, Value};

/// The most nodes of a tree of pages.
const MOST_NODES: usize = 4 * MOST_PAGES;

/// Entries that a page takes over from the nodes above it: ISO 32000-1, table 30.
const TAKEN_OVER: [&str; 4] = ["Resources", "MediaBox", "CropBox", "Rotate"];

/// The dictionaries of all pages, in order, each with what it takes over.
pub(super) fn pages<'f>(store: &Store<'f>, catalog: &Dict<'f>) -> Result<Vec<Dict<'f>>, Fault> {
    let Some(Value::Refer(root)) = catalog.get(b"Pages".as_slice()) else { return Err(Fault::NoPages) };
    let mut pages = Vec::new();
    let mut seen = BTreeSet::new();
    let mut open = vec![(*root, Dict::new(), 0)];
    while let Some((number, above, depth)) = open.pop() {
        if depth > DEEPEST {
            return Err(Fault::TooDeep);
        }
        let value = store.object(number)?;
        let Some(node) = value.dict() else { return Err(Fault::Damaged("a page is missing")) };
        let mut own = above;
        for key in TAKEN_OVER {
            if let Some(value) = node.get(key.as_bytes()) {
                own.insert(key.as_bytes().to_vec(), value.clone());
            }
        }
        match store.entry(node, "Kids")? {
            Value::List(kids) => {
                // A page may stand in its tree more than once; what holds pages may not, or it could hold itself.
                if !seen.insert(number) || seen.len() > MOST_NODES {
                    return Err(Fault::Damaged("its tree of pages leads in a ring"));
                }
                for kid in kids.iter().rev() {
                    let Value::Refer(kid) = kid else { return Err(Fault::Damaged("a page is missing")) };
                    open.push((*kid, own.clone(), depth + 1));
                }
                if open.len() > MOST_NODES {
                    return Err(Fault::TooManyPages);
                }
            }
            _ => {
                let mut page = node.clone();
                page.extend(own);
                pages.push(page);
            }
        }
        if pages.len() > MOST_PAGES {
            return Err(Fault::TooManyPages);
        }
    }
    if pages.is_empty() { Err(Fault::NoPages) } else { Ok(pages) }
}

/// What is seen of a page, in its own coordinates, and how it is turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    /// Left, bottom, right and top of what is seen.
    pub(super) frame: [f64; 4],
    /// Quarter turns clockwise, 0 to 3.
    turns: i64,
    /// Points to one unit of the page.
    unit: f64,
}

/// Letter size, for a page that does not say how large it is.
const LETTER: [f64; 4] = [0.0, 0.0, 612.0, 792.0];

/// The largest side of a page, in its own units, that any reader shows: ISO 32000-1, annex C.
const LARGEST_SIDE: f64 = 14_400.0;

impl View {
    /// That of a page (ISO 32000-1, 14.11.2 and table 30).
    pub(super) fn of<'f>(store: &Store<'f>, page: &Dict<'f>) -> Result<View, Fault> {
        let media = rectangle(store, &store.entry(page, "MediaBox")?)?.unwrap_or(LETTER);
        let crop = rectangle(store, &store.entry(page, "CropBox")?)?.map(|crop| overlap(crop, media));
        let frame = crop.filter(|it| it[2] - it[0] >= 1.0 && it[3] - it[1] >= 1.0).unwrap_or(media);
        let sides = [frame[2] - frame[0], frame[3] - frame[1]];
        let far = frame.iter().any(|it| it.abs() > 1e6);
        if far || sides.iter().any(|side| !(1.0..=LARGEST_SIDE).contains(side)) {
            return Err(Fault::Damaged("a page has no size"));
        }
        let turns = store.entry(page, "Rotate")?.number().unwrap_or(0.0);
        let unit = store.entry(page, "UserUnit")?.number().filter(|it| (0.01..=100.0).contains(it)).unwrap_or(1.0);
        Ok(View { frame, turns: ((turns / 90.0).round() as i64).rem_euclid(4), unit })
    }

    /// Width and height as it is seen, in points.
    pub(super) fn size(&self) -> (f64, f64) {
        let [left, bottom, right, top] = self.frame;
        let (width, height) = ((right - left) * self.unit, (top - bottom) * self.unit);
        if self.turns % 2 == 0 { (width, height) } else { (height, width) }
    }

    /// The matrix that brings what is seen upright, with its lower left corner at the origin.
    pub(super) fn upright(&self) -> [f64; 6] {
        let [left, bottom, right, top] = self.frame;
        let matrix = match self.turns {
            0 => [1.0, 0.0, 0.0, 1.0, -left, -bottom],
            1 => [0.0, -1.0, 1.0, 0.0, -bottom, right],
            2 => [-1.0, 0.0, 0.0, -1.0, right, top],
            _ => [0.0, 1.0, -1.0, 0.0, top, -left],
        };
        matrix.map(|it| it * self.unit)
    }
}

/// A rectangle with its corners in order; none where there is none, or it is empty.
pub(super) fn rectangle<'f>(store: &Store<'f>, value: &Value<'f>) -> Result<Option<[f64; 4]>, Fault> {
    let Some([a, b, c, d]) = numbers(store, value)? else { return Ok(None) };
    let ordered = [a.min(c), b.min(d), a.max(c), b.max(d)];
    Ok((ordered[2] > ordered[0] && ordered[3] > ordered[1]).then_some(ordered))
}

/// So many numbers of a list, where it holds just these.
pub(super) fn numbers<'f, const N: usize>(store: &Store<'f>, value: &Value<'f>) -> Result<Option<[f64; N]>, Fault> {
    let Some(list) = value.list().filter(|list| list.len() == N) else { return Ok(None) };
    let mut numbers = [0.0; N];
    for (number, value) in numbers.iter_mut().zip(list) {
        match store.follow(value)?.number() {
            Some(known) => *number = known,
            None => return Ok(None),
        }
    }
    Ok(Some(numbers))
}

fn overlap(one: [f64; 4], other: [f64; 4]) -> [f64; 4] {
    [one[0].max(other[0]), one[1].max(other[1]), one[2].min(other[2]), one[3].min(other[3])]
}
