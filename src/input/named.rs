//! Tables with names, such as `[kind.lobby]` and `[item.strike]`.
//!
//! In: a table of tables. Out: records by name, in order of names, with places. May not know: who refers to them.

use std::collections::{BTreeMap, BTreeSet};

use super::text::is_id;
use super::{
    Field, FieldInfo, Fix, Node, Origin, Reader, Record, References, Refusal, Shape, Slot, Spelling, Tree, codes,
};
use crate::findings::{Finding, Place, Subject};

/// Records by name; iterates in order of names.
#[derive(Clone, Debug)]
pub struct Named<R> {
    members: BTreeMap<String, (Place, R)>,
    /// Names under which something stands that is no record; it was reported, and whatever names it stays silent.
    unread: BTreeSet<String>,
}

impl<R> Default for Named<R> {
    fn default() -> Self {
        Named { members: BTreeMap::new(), unread: BTreeSet::new() }
    }
}

impl<R> Named<R> {
    /// The record of a name.
    pub fn get(&self, name: &str) -> Option<&R> {
        self.members.get(name).map(|(_, record)| record)
    }

    /// The record of a name, to change it.
    pub fn get_mut(&mut self, name: &str) -> Option<&mut R> {
        self.members.get_mut(name).map(|(_, record)| record)
    }

    /// Whether something stands under a name that is no record.
    pub fn is_unread(&self, name: &str) -> bool {
        self.unread.contains(name)
    }

    /// Names under which something stands that is no record.
    pub fn unread(&self) -> impl Iterator<Item = &str> {
        self.unread.iter().map(String::as_str)
    }

    /// Names and records, in order of names.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &R)> {
        self.members.iter().map(|(name, (_, record))| (name.as_str(), record))
    }

    /// Names, in order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.members.keys().map(String::as_str)
    }

    /// Takes in the records of another file. A name that is known already is a finding, and the first stands.
    pub fn absorb(&mut self, other: Named<R>, reader: &mut Reader<'_>)
    where
        R: Record,
    {
        self.unread.extend(other.unread);
        for (name, (place, record)) in other.members {
            match self.members.get(&name) {
                None => drop(self.members.insert(name, (place, record))),
                Some((first, _)) => {
                    let finding = Finding::new(&codes::DUPLICATE_NAME, Subject::Entry(R::NAME, name.clone()))
                        .at(place)
                        .near(first.clone(), "first defined here")
                        .found(name)
                        .asked(format!("one {} of a name", R::NAME))
                        .advise("give one of the two another name, or take it out");
                    reader.push(finding);
                }
            }
        }
    }
}

impl<R> Slot<Named<R>> {
    /// Name and value of every member, in order of names; none where nothing was given.
    pub fn members(&self) -> impl Iterator<Item = (&str, &R)> {
        self.get().into_iter().flat_map(Named::iter)
    }
}

impl<R: Record> Field for Named<R> {
    fn shape() -> Shape {
        Shape::Named(R::info())
    }

    fn read_node(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Self> {
        let Tree::Table(table) = &node.tree else {
            let asked = format!("tables with names, as [{}.name]", info.name);
            reader.refuse(node, info, "tables with names", Refusal::wrong_type().asked(asked));
            return None;
        };
        let mut named = Named::default();
        for entry in &table.entries {
            check_name(&entry.key, &entry.key_place, reader);
            let subject = Subject::Entry(R::NAME, entry.key.clone());
            let record = reader.about(subject, |reader| super::record::read::<R>(&entry.node, info, reader));
            match record {
                Some(record) => drop(named.members.insert(entry.key.clone(), (entry.key_place.clone(), record))),
                None => drop(named.unread.insert(entry.key.clone())),
            }
        }
        Some(named)
    }

    fn take(slot: &mut Slot<Self>, from: &Slot<Self>, how: super::Taking<'_>) {
        match (&mut *slot, from) {
            (Slot::Given(own), Slot::Given(other)) => {
                for (name, (place, record)) in &other.value.members {
                    let known = own.value.members.entry(name.clone());
                    let (_, known) = known.or_insert_with(|| (place.clone(), R::default()));
                    known.take_from(record, how);
                }
            }
            (Slot::Absent, _) => {
                *slot = from.clone();
                super::field::come_through(slot, how.through);
            }
            _ => {}
        }
    }

    fn mark(&mut self, through: &str) {
        for (_, record) in self.members.values_mut() {
            record.mark(through);
        }
    }

    fn refer(&mut self, info: &FieldInfo, _: Origin<'_>, references: &mut References<'_, '_>) -> bool {
        self.members.retain(|name, (place, record)| {
            references.about(Some(Subject::Entry(R::NAME, name.clone())), |references| references.walk(record));
            info.refers.is_none_or(|to| references.knows(to, name, Origin { place, through: None }))
        });
        true
    }

    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
        for (name, (_, record)) in &self.members {
            record.dump(&format!("{path}.{name}"), spelling, out);
        }
    }
}

fn check_name(name: &str, place: &Place, reader: &mut Reader<'_>) {
    if is_id(name) {
        return;
    }
    let refusal = super::text::bad_id(name).into_reasons();
    let finding = Finding::new(refusal.code, reader.subject())
        .at(place.clone())
        .found(format!("`{}`", super::quoting::visible(name)))
        .asked("letters, digits, `-`, `_` and `.`");
    reader.push(match refusal.fix {
        Fix::Text(text) => finding.type_at(place.clone(), text),
        _ => finding,
    });
}
