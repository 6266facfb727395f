//! Inheritance from kinds: chains by `like`, and entries that name their kind.
//!
//! In: records by name, and the slot in which each says what it is like. Out: the same records with what their kinds give.
//! May not know: what a kind is a kind of.

use std::collections::{BTreeMap, BTreeSet};

use super::nearest::nearest;
use super::{Id, Named, Reader, Record, Slot, codes};
use crate::findings::{Finding, Place, Subject};

/// Resolves the chains of kinds: each takes what it lacks from the kind it is like, and so on up.
///
/// `like` gives the slot that names the kind above. A ring is one finding; an unknown name is one. What either would have
/// given is bad and stays silent. A value in a kind that cannot be handed on is a finding, except under `like` itself.
pub fn chain<R: Record>(kinds: &mut Named<R>, like: fn(&R) -> &Slot<Id>, reader: &mut Reader<'_>) {
    report_not_shared(kinds, like, reader);
    let parents = parents(kinds, like, reader);
    let in_ring = report_rings(&parents, reader);
    let mut done = BTreeSet::new();
    let names: Vec<String> = kinds.names().map(str::to_owned).collect();
    for name in &names {
        let mut path = vec![name.clone()];
        while let Some((parent, _)) = path.last().and_then(|last| parents.get(last)) {
            if done.contains(parent) || path.contains(parent) {
                break;
            }
            path.push(parent.clone());
        }
        for name in path.into_iter().rev() {
            if done.insert(name.clone()) {
                resolve(kinds, &name, parents.get(&name), in_ring.contains(&name), like);
            }
        }
    }
}

fn resolve<R: Record>(
    kinds: &mut Named<R>,
    name: &str,
    parent: Option<&(String, Place)>,
    in_ring: bool,
    like: fn(&R) -> &Slot<Id>,
) {
    let above = parent.and_then(|(parent, _)| kinds.get(parent)).cloned();
    let Some(kind) = kinds.get_mut(name) else { return };
    match (parent, above) {
        (Some((_, place)), _) if in_ring => kind.spoil_inherited(place),
        (Some((parent, _)), Some(above)) => kind.inherit(&above, parent),
        _ => {
            // An unknown or unreadable name: what it would have given is unknown.
            if let Some(place) = like(kind).place().cloned() {
                kind.spoil_inherited(&place);
            }
        }
    }
}

/// The kind above each, where it is named and known.
fn parents<R: Record>(
    kinds: &Named<R>,
    like: fn(&R) -> &Slot<Id>,
    reader: &mut Reader<'_>,
) -> BTreeMap<String, (String, Place)> {
    let mut parents = BTreeMap::new();
    for (name, kind) in kinds.iter() {
        let Some(given) = like(kind).given() else { continue };
        if kinds.is_unread(&given.value) {
            continue;
        }
        if kinds.get(&given.value).is_some() {
            parents.insert(name.to_owned(), (given.value.to_string(), given.place.clone()));
        } else {
            reader.about(Subject::Entry("kind", name.to_owned()), |reader| {
                report_unknown(&given.value, &given.place, kinds, reader);
            });
        }
    }
    parents
}

/// Reports every ring once, at the `like` of its first name; gives all names in rings.
fn report_rings(parents: &BTreeMap<String, (String, Place)>, reader: &mut Reader<'_>) -> BTreeSet<String> {
    let mut in_ring = BTreeSet::new();
    for name in parents.keys() {
        let mut path: Vec<&String> = vec![name];
        while let Some((parent, _)) = path.last().and_then(|last| parents.get(*last)) {
            if parent == name {
                break;
            }
            if path.contains(&parent) || in_ring.contains(parent) {
                path.clear();
                break;
            }
            path.push(parent);
        }
        let closed = path.last().and_then(|last| parents.get(*last)).is_some_and(|(parent, _)| parent == name);
        if !closed || in_ring.contains(name) {
            continue;
        }
        let words: Vec<&str> = path.iter().copied().chain([name]).map(String::as_str).collect();
        let mut finding =
            Finding::new(&codes::KIND_RING, Subject::Entry("kind", name.clone())).found(words.join(" → "));
        for (at, member) in path.iter().enumerate() {
            let says = if at == 0 { String::new() } else { format!("`{member}` leads on") };
            finding = finding.near(parents[*member].1.clone(), says);
        }
        reader.push(finding.asked("a chain with an end").advise("take `like` out of one of them"));
        in_ring.extend(path.into_iter().cloned());
    }
    in_ring
}

fn report_not_shared<R: Record>(kinds: &Named<R>, like: fn(&R) -> &Slot<Id>, reader: &mut Reader<'_>) {
    for (name, kind) in kinds.iter() {
        let like_place = like(kind).place();
        for (info, slot) in R::fields().iter().zip(kind.slots()) {
            let Some(place) = slot.place() else { continue };
            if info.inherits || like_place == Some(place) {
                continue;
            }
            let finding = Finding::new(&codes::NOT_SHARED, Subject::Entry("kind", name.to_owned()))
                .at(place.clone())
                .found(info.name)
                .asked(format!("keys that every {} of the kind can share", R::NAME))
                .advise(format!("write `{}` at each {}", info.name, R::NAME));
            reader.push(finding);
        }
    }
}

/// Fills an entry from the kind that it names. A name that is not there is one finding, and what the kind would have
/// given is bad. Kinds must have been through [`chain`].
pub fn inherit_kind<R: Record>(entry: &mut R, kind: fn(&R) -> &Slot<Id>, kinds: &Named<R>, reader: &mut Reader<'_>) {
    match kind(entry).clone() {
        Slot::Given(named) => match kinds.get(&named.value) {
            Some(above) => entry.inherit(above, &named.value),
            None if kinds.is_unread(&named.value) => entry.spoil_inherited(&named.place),
            None => {
                report_unknown(&named.value, &named.place, kinds, reader);
                entry.spoil_inherited(&named.place);
            }
        },
        Slot::Bad(place) => entry.spoil_inherited(&place),
        Slot::Absent | Slot::Undone(_) => {}
    }
}

fn report_unknown<R: Record>(name: &str, place: &Place, kinds: &Named<R>, reader: &mut Reader<'_>) {
    if !reader.whole() {
        return;
    }
    let known: Vec<&str> = kinds.names().collect();
    let asked = if known.is_empty() { "a kind, and none is defined".to_owned() } else { known.join(", ") };
    let finding =
        Finding::new(&codes::UNKNOWN_KIND, reader.subject()).at(place.clone()).found(name.to_owned()).asked(asked);
    let hint = nearest(name, known.iter().copied()).map(str::to_owned);
    let finding = match hint {
        Some(hint) => finding.type_at(place.clone(), reader.as_typed(place, &hint)),
        None => finding.advise(format!("define [kind.{name}], or name one that is defined")),
    };
    reader.push(finding);
}
