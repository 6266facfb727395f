//! What lies over a page: filled-in fields, stamps and notes are drawn as they look; what does something is left behind.
//!
//! In: the annotations of a page. Out: where the look of each is drawn, and what is lost. May not know: how a page is carried.

use super::fault::{Fault, LeftBehind};
use super::pages::{numbers, rectangle};
use super::store::Store;
use super::value::{Dict, Value};

/// The most annotations of a page.
const MOST: usize = 4000;

/// Flags of what is not seen, hidden and without a view: ISO 32000-1, table 165.
const UNSEEN: i64 = 2 | 32;

/// A look: the object that draws it, and the matrix that brings it to its place.
pub(super) struct Appearance {
    pub(super) form: u32,
    pub(super) matrix: [f64; 6],
}

/// The looks of a page, in order.
pub(super) fn appearances<'f>(
    store: &Store<'f>,
    page: &Dict<'f>,
    lost: &mut LeftBehind,
) -> Result<Vec<Appearance>, Fault> {
    let Value::List(annotations) = store.entry(page, "Annots")? else { return Ok(Vec::new()) };
    if annotations.len() > MOST {
        return Err(Fault::Damaged("more lies over a page than any holds"));
    }
    let mut appearances = Vec::new();
    for annotation in annotations.iter() {
        let value = store.follow(annotation)?;
        let Some(annotation) = value.dict() else { continue };
        let subtype = store.entry(annotation, "Subtype")?;
        let acts = ["A", "AA"].iter().any(|key| annotation.contains_key(key.as_bytes()));
        match subtype.name() {
            Some(b"Link") => lost.links = true,
            Some(b"Popup") => {}
            subtype => {
                lost.scripts |= acts;
                lost.files |= subtype == Some(b"FileAttachment");
                if store.entry(annotation, "F")?.whole().unwrap_or(0) & UNSEEN != 0 {
                    continue;
                }
                match look(store, annotation)? {
                    Some(look) => appearances.push(look),
                    None => lost.unseen_notes |= subtype != Some(b"Widget") || annotation.contains_key(b"V".as_slice()),
                }
            }
        }
    }
    Ok(appearances)
}

/// The look of an annotation (ISO 32000-1, 12.5.5): the box that its form fills once it is turned is brought to its rectangle.
fn look<'f>(store: &Store<'f>, annotation: &Dict<'f>) -> Result<Option<Appearance>, Fault> {
    let Some(form) = normal(store, annotation)? else { return Ok(None) };
    let value = store.object(form)?;
    let Some(stream) = value.stream() else { return Ok(None) };
    let own = rectangle(store, &store.entry(&stream.dict, "BBox")?)?;
    let place = rectangle(store, &store.entry(annotation, "Rect")?)?;
    let (Some(own), Some(place)) = (own, place) else { return Ok(None) };
    let matrix = numbers(store, &store.entry(&stream.dict, "Matrix")?)?.unwrap_or([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
    let [left, bottom, right, top] = turned(own, matrix);
    let (width, height) = (right - left, top - bottom);
    let fits = [width, height].iter().all(|it| it.is_finite() && *it > 1e-6);
    if !fits || place.iter().any(|it| it.abs() > 1e6) {
        return Ok(None);
    }
    let (across, up) = ((place[2] - place[0]) / width, (place[3] - place[1]) / height);
    Ok(Some(Appearance { form, matrix: [across, 0.0, 0.0, up, place[0] - left * across, place[1] - bottom * up] }))
}

/// The object that draws an annotation as it is; of several states, the one that it is in.
fn normal<'f>(store: &Store<'f>, annotation: &Dict<'f>) -> Result<Option<u32>, Fault> {
    let appearances = store.entry(annotation, "AP")?;
    let Some(normal) = appearances.dict().and_then(|it| it.get(b"N".as_slice())) else { return Ok(None) };
    let state = store.entry(annotation, "AS")?;
    let known = match (store.follow(normal)?, state.name()) {
        (Value::Stream(_), _) => Some(normal.clone()),
        (Value::Dict(states), Some(state)) => states.get(state).cloned(),
        _ => None,
    };
    Ok(match known {
        Some(Value::Refer(number)) => Some(number),
        _ => None,
    })
}

/// The box around a rectangle that a matrix has turned.
fn turned([left, bottom, right, top]: [f64; 4], [a, b, c, d, e, f]: [f64; 6]) -> [f64; 4] {
    let corners = [(left, bottom), (right, bottom), (left, top), (right, top)];
    let at = corners.map(|(x, y)| (a * x + c * y + e, b * x + d * y + f));
    let ends = |of: fn(&(f64, f64)) -> f64| {
        let all = at.iter().map(of);
        (all.clone().fold(f64::INFINITY, f64::min), all.fold(f64::NEG_INFINITY, f64::max))
    };
    let ((left, right), (bottom, top)) = (ends(|it| it.0), ends(|it| it.1));
    [left, bottom, right, top]
}
