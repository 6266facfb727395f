//! Heads of a table: dotted keys of a record, checked once before any row is read.
//!
//! In: head cells. Out: the path of each column; unknown and doubled heads are findings and their columns are left out.
//! May not know: what the cells below hold.

use super::nearest::nearest;
use super::tree::position;
use super::{FieldInfo, Reader, RecordInfo, Shape, codes};
use crate::findings::{Finding, Place};

/// A column: its path through nested tables, and where its head stands.
#[derive(Clone, Debug)]
pub(super) struct Head {
    /// Keys from the outside in; a number is a position in a list.
    pub(super) path: Vec<(String, Place)>,
}

/// Checks the heads of a file.
pub(super) fn check(cells: &[(&str, Place)], info: &'static RecordInfo, reader: &mut Reader<'_>) -> Vec<Option<Head>> {
    let mut seen: Vec<(&str, &Place)> = Vec::new();
    let mut heads = Vec::new();
    for (text, place) in cells {
        if text.is_empty() {
            heads.push(None);
        } else if let Some((_, first)) = seen.iter().find(|(known, _)| known == text) {
            let finding = Finding::new(&codes::DUPLICATE_HEAD, reader.subject()).at(place.clone());
            let finding = finding.near((*first).clone(), "first here").found(*text).asked("each column once");
            reader.push(finding.advise("delete one of the two"));
            heads.push(None);
        } else if is_legal(text, info) {
            seen.push((text, place));
            let path = text.split('.').map(|key| (key.to_owned(), place.clone())).collect();
            heads.push(Some(Head { path }));
        } else {
            report_unknown(text, place, info, reader);
            heads.push(None);
        }
    }
    heads
}

fn report_unknown(text: &str, place: &Place, info: &'static RecordInfo, reader: &mut Reader<'_>) {
    let legal = legal(info);
    let generic: Vec<&str> = text.split('.').map(|key| if position(key).is_some() { "1" } else { key }).collect();
    let hint = nearest(&generic.join("."), legal.iter().map(String::as_str));
    // The position that was typed goes back into the hint.
    let positions: Vec<&str> = text.split('.').filter(|key| position(key).is_some()).collect();
    let hint = hint.map(|head| {
        let mut positions = positions.iter();
        let part = |key: &str| match position(key).and_then(|_| positions.next()) {
            Some(typed) => (*typed).to_owned(),
            None => key.to_owned(),
        };
        head.split('.').map(part).collect::<Vec<_>>().join(".")
    });
    let finding = Finding::new(&codes::UNKNOWN_HEAD, reader.subject())
        .at(place.clone())
        .found(super::quoting::visible(text))
        .asked(format!("one of {}", beside(&generic.join("."), &legal).join(", ")));
    reader.push(match hint {
        Some(hint) => finding.type_at(place.clone(), hint),
        None => finding.advise("take the column out, or see the keys of this table in the reference"),
    });
}

/// The legal heads that begin as this one does; where none do, the first keys of all.
fn beside(head: &str, legal: &[String]) -> Vec<String> {
    let before = head.rsplit_once('.').map(|(before, _)| format!("{before}."));
    let alike = |before: String| legal.iter().filter(|head| head.starts_with(&before)).cloned().collect();
    let alike: Vec<String> = before.map(alike).unwrap_or_default();
    if !alike.is_empty() {
        return alike;
    }
    let mut first: Vec<String> = Vec::new();
    for head in legal {
        let key = match head.split_once('.') {
            Some((key, _)) => format!("{key}.…"),
            None => head.clone(),
        };
        if !first.contains(&key) {
            first.push(key);
        }
    }
    first
}

/// The fields of a record, those of standing among them.
pub(super) fn fields(info: &'static RecordInfo) -> impl Iterator<Item = &'static FieldInfo> {
    let standing = super::walk::STANDING_FIELDS.iter();
    let stated: Vec<&str> = info.standing_keys().collect();
    info.fields.iter().chain(standing.filter(move |field| stated.contains(&field.name)))
}

/// Whether a dotted head leads to a value in one piece.
fn is_legal(head: &str, info: &'static RecordInfo) -> bool {
    let (key, rest) = head.split_once('.').map_or((head, None), |(key, rest)| (key, Some(rest)));
    let Some(field) = fields(info).find(|field| field.name == key) else { return false };
    match ((field.shape)(), rest) {
        (Shape::Scalar { .. } | Shape::Choice(_) | Shape::List(_), None) => true,
        (Shape::List(_), Some(rest)) => position(rest).is_some(),
        (Shape::Record(inside), Some(rest)) => is_legal(rest, inside),
        (Shape::Records(inside), Some(rest)) => {
            rest.split_once('.').is_some_and(|(at, rest)| position(at).is_some() && is_legal(rest, inside))
        }
        (Shape::EachOrList(inside), Some(rest)) => match rest.split_once('.') {
            Some((at, rest)) if position(at).is_some() => is_legal(rest, inside),
            _ => is_legal(rest, inside),
        },
        // `none` for a whole table stands at the table's own key.
        (Shape::Record(_) | Shape::Records(_), None) => field.undoable,
        _ => false,
    }
}

/// Every legal head, positions as `1`.
pub fn legal(info: &'static RecordInfo) -> Vec<String> {
    let mut out = Vec::new();
    collect(info, "", 0, &mut out);
    out
}

fn collect(info: &'static RecordInfo, before: &str, depth: usize, out: &mut Vec<String>) {
    // A record may hold itself; nobody writes heads deeper than this.
    if depth > 3 {
        return;
    }
    for field in fields(info) {
        let head = format!("{before}{}", field.name);
        match (field.shape)() {
            Shape::Scalar { .. } | Shape::Choice(_) | Shape::List(_) => out.push(head),
            Shape::Record(inside) => collect(inside, &format!("{head}."), depth + 1, out),
            Shape::Records(inside) => collect(inside, &format!("{head}.1."), depth + 1, out),
            Shape::EachOrList(inside) => {
                collect(inside, &format!("{head}."), depth + 1, out);
                collect(inside, &format!("{head}.1."), depth + 1, out);
            }
            Shape::Named(_) => {}
        }
    }
}
