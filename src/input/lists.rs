//! Lists: of values in one piece, of tables, and of tables that share some of their fields.
//!
//! In: TOML lists, lists of tables, keys that are positions (`leaf.1.width`), cells with `;` between members.
//! Out: vectors. May not know: what is listed.

use super::field::come_through;
use super::{Field, FieldInfo, Given, Node, Origin, Reader, Record, References, Refusal, Shape, Slot};
use super::{Spelling, Taking, Tree, Written};
use crate::findings::Place;

impl<T: Field> Field for Vec<T> {
    fn shape() -> Shape {
        match T::shape() {
            Shape::Record(info) => Shape::Records(info),
            one => Shape::List(Box::new(one)),
        }
    }

    fn read_node(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Self> {
        match &node.tree {
            Tree::List(nodes) => read_all(nodes, info, reader),
            Tree::Cell(written) if !matches!(T::shape(), Shape::Record(record) if record.short.is_none()) => {
                read_all(&split_cell(written), info, reader)
            }
            Tree::Table(table) => {
                let (members, rest) = table.split_positions();
                if members.is_empty() || !rest.entries.is_empty() {
                    return refuse_list::<T>(node, info, reader);
                }
                let nodes: Vec<Node> = members.into_iter().map(|(_, entry)| entry.node.clone()).collect();
                read_all(&nodes, info, reader)
            }
            _ => refuse_list::<T>(node, info, reader),
        }
    }

    fn mark(&mut self, through: &str) {
        for member in self {
            member.mark(through);
        }
    }

    fn refer(&mut self, info: &FieldInfo, origin: Origin<'_>, references: &mut References<'_, '_>) -> bool {
        let mut at = 0..;
        self.retain_mut(|member| {
            let subject = at.next().and_then(|at| member.subject(at, references.subject()));
            references.about(subject, |references| member.refer(info, origin, references))
        });
        true
    }

    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
        for (at, member) in self.iter().enumerate() {
            member.dump(&format!("{path}.{}", at + 1), spelling, out);
        }
    }
}

/// Reads every member; one that is bad makes the list bad, for its length is then unknown, but all are looked at.
fn read_all<T: Field>(nodes: &[Node], info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Vec<T>> {
    let read: Vec<Option<T>> = nodes.iter().map(|node| T::read_node(node, info, reader)).collect();
    read.into_iter().collect()
}

fn refuse_list<T: Field>(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Vec<T>> {
    let asked = match T::shape() {
        Shape::Record(record) => format!("a list of tables, each a {}", record.name),
        Shape::Scalar { words, .. } => format!("a list, each member {words}"),
        _ => "a list".to_owned(),
    };
    reader.refuse(node, info, "a list", Refusal::wrong_type().asked(asked));
    None
}

/// The members of a cell such as `90; 90; 45`.
fn split_cell(written: &Written) -> Vec<Node> {
    let mut start = 0;
    let mut nodes = Vec::new();
    for piece in written.text.split(';') {
        let blank = piece.len() - piece.trim_start().len();
        let text = piece.trim();
        if !text.is_empty() {
            let member = written.part(start + blank..start + blank + text.len());
            nodes.push(Node { place: member.place(0..text.len()), tree: Tree::Cell(member) });
        }
        start += piece.len() + 1;
    }
    nodes
}

/// One table for what all members share (`leaf = { … }`), or a list of tables (`[[opening.leaf]]`), or both, as
/// `leaf.width` beside `leaf.1.hinges`.
///
/// Down a chain of kinds everything merges key by key: a member takes what it lacks from what its own entry shares, then from the
/// member at its position in the kind, then from what the kind shares. `leaf.2.weight` of an opening so changes that of its second
/// leaf and nothing else; members that only the kind has stay. No list means one member: the shared table.
#[derive(Clone, Debug)]
pub struct EachOrList<R> {
    /// What all members share.
    pub common: Slot<R>,
    /// The members one by one.
    pub list: Slot<Vec<R>>,
}

impl<R> Default for EachOrList<R> {
    fn default() -> Self {
        EachOrList { common: Slot::Absent, list: Slot::Absent }
    }
}

impl<R: Record> EachOrList<R> {
    /// The members, each with what all share filled in. None where the list or what is shared cannot be read.
    pub fn members(&self) -> Vec<R> {
        if self.is_bad() {
            return Vec::new();
        }
        let Some(list) = self.list.get() else { return self.common.cloned().into_iter().collect() };
        let mut members = list.clone();
        if let Some(common) = self.common.get() {
            for member in &mut members {
                member.fill_from(common);
            }
        }
        members
    }

    /// Puts members in the place of those there were: one alone as what all share, more as a list.
    pub fn replace_members(&mut self, members: Vec<R>) {
        match (self.list.given_mut(), self.common.given_mut(), members.as_slice()) {
            (Some(list), _, _) => list.value = members,
            (None, Some(common), [only]) => common.value = only.clone(),
            _ => {}
        }
    }

    /// Whether the list, or what its members share, was written and cannot be read.
    pub fn is_bad(&self) -> bool {
        self.common.is_bad() || self.list.is_bad()
    }
}

impl<R: Record> Slot<EachOrList<R>> {
    /// The members with what they share filled in; none where nothing was given.
    pub fn members(&self) -> Vec<R> {
        self.get().map(EachOrList::members).unwrap_or_default()
    }
}

impl<R: Record> Field for EachOrList<R> {
    fn shape() -> Shape {
        Shape::EachOrList(R::info())
    }

    fn read_node(node: &Node, info: &FieldInfo, reader: &mut Reader<'_>) -> Option<Self> {
        match &node.tree {
            Tree::List(nodes) => {
                let list = given(read_all(nodes, info, reader)?, &node.place, reader);
                Some(EachOrList { common: Slot::Absent, list })
            }
            Tree::Table(table) => {
                let (members, rest) = table.split_positions();
                let list = if members.is_empty() {
                    Slot::Absent
                } else {
                    let Some(nodes) = in_positions(&members) else {
                        let asked = format!("positions of a {} from 1 to {MOST_POSITIONS}", R::NAME);
                        reader.refuse(node, info, "a list", Refusal::wrong_type().asked(asked));
                        return None;
                    };
                    given(read_all(&nodes, info, reader)?, &node.place, reader)
                };
                let shared = !rest.entries.is_empty() || list.is_absent();
                let common =
                    if shared { given(R::read_table(&rest, reader), &node.place, reader) } else { Slot::Absent };
                Some(EachOrList { common, list })
            }
            _ => {
                let asked = format!("a table, or a list of tables, each a {}", R::NAME);
                reader.refuse(node, info, "a table", Refusal::wrong_type().asked(asked));
                None
            }
        }
    }

    fn take(slot: &mut Slot<Self>, from: &Slot<Self>, how: Taking<'_>) {
        match (&mut *slot, from) {
            (Slot::Given(own), Slot::Given(other)) => own.value.merge(&other.value, how),
            (Slot::Given(own), Slot::Bad(place)) => own.value.spoil(place),
            (Slot::Absent, Slot::Given(other)) => {
                let mut own = EachOrList::default();
                own.merge(&other.value, how);
                *slot = Slot::Given(Given { value: own, ..other.clone() });
                come_through(slot, how.through);
            }
            (Slot::Absent, _) => *slot = from.clone(),
            _ => {}
        }
    }

    fn overlay(slot: &mut Slot<Self>, change: &Slot<Self>) {
        match (&mut *slot, change) {
            (_, Slot::Absent) => {}
            (Slot::Given(own), Slot::Given(other)) => own.value.overlay_each(&other.value),
            (Slot::Bad(place), Slot::Given(other)) => {
                let mut changed = other.clone();
                Field::spoil(&mut changed.value, place);
                *slot = Slot::Given(changed);
            }
            _ => *slot = change.clone(),
        }
    }

    fn spoil(&mut self, place: &Place) {
        match &mut self.common {
            Slot::Given(common) => common.value.spoil_inherited(place),
            Slot::Absent => {
                let mut unknown = R::default();
                unknown.spoil_inherited(place);
                self.common = Slot::Given(Given {
                    value: unknown,
                    place: place.clone(),
                    standing: super::Standing::Stated,
                    through: None,
                });
            }
            Slot::Undone(_) | Slot::Bad(_) => {}
        }
    }

    fn mark(&mut self, through: &str) {
        super::AnySlot::mark(&mut self.common, through);
        super::AnySlot::mark(&mut self.list, through);
    }

    fn refer(&mut self, info: &FieldInfo, _: Origin<'_>, references: &mut References<'_, '_>) -> bool {
        super::AnySlot::refer(&mut self.common, info, references);
        super::AnySlot::refer(&mut self.list, info, references);
        true
    }

    fn dump(&self, path: &str, spelling: Spelling, out: &mut Vec<(String, String)>) {
        super::AnySlot::dump(&self.common, path, spelling, out);
        super::AnySlot::dump(&self.list, path, spelling, out);
    }
}

/// A member of a kind under what is shared here.
fn over<R: Record>(common: &Slot<R>, theirs: &R, how: Taking<'_>) -> R {
    let mut member = common.cloned().unwrap_or_default();
    member.take_from(theirs, how);
    member
}

/// The most members that may be written by their positions.
const MOST_POSITIONS: u32 = 100;

/// Members at their positions, with empty tables where none is written; nothing where a position is too great.
fn in_positions(members: &[(u32, &super::tree::Entry)]) -> Option<Vec<Node>> {
    let last = members.iter().map(|(at, _)| *at).max().filter(|last| *last <= MOST_POSITIONS)?;
    let node = |wanted: u32| {
        let written = members.iter().find(|(at, _)| *at == wanted).map(|(_, entry)| entry.node.clone());
        let near =
            members.iter().find(|(at, _)| *at > wanted).or(members.last()).map(|(_, entry)| entry.node.place.clone());
        written.or_else(|| Some(Node::empty_table(near?)))
    };
    (1..=last).map(node).collect()
}

impl<R: Record> EachOrList<R> {
    fn merge(&mut self, from: &Self, how: Taking<'_>) {
        self.merge_members(&from.list, how);
        R::take(&mut self.common, &from.common, how);
    }

    /// Before what a kind shares is known: what is shared here comes before the members there.
    fn merge_members(&mut self, from: &Slot<Vec<R>>, how: Taking<'_>) {
        let whole = Taking { all: true, ..how };
        match (&mut self.list, from) {
            (Slot::Given(own), Slot::Given(there)) => {
                let shared = own.value.len().min(there.value.len());
                for (member, theirs) in own.value.iter_mut().zip(&there.value) {
                    if let Some(common) = self.common.get() {
                        member.fill_from(common);
                    }
                    member.take_from(theirs, whole);
                }
                own.value.extend(there.value.iter().skip(shared).map(|theirs| over(&self.common, theirs, whole)));
            }
            (Slot::Given(own), Slot::Bad(place)) => {
                own.value.iter_mut().for_each(|member| member.spoil_inherited(place));
            }
            (Slot::Absent, Slot::Given(there)) => {
                let members = there.value.iter().map(|theirs| over(&self.common, theirs, whole)).collect();
                self.list = Slot::Given(Given { value: members, ..there.clone() });
            }
            (Slot::Absent, _) => self.list = from.clone(),
            _ => {}
        }
    }

    /// What a change shares goes on top of every member, then its members one by one on top of ours.
    fn overlay_each(&mut self, change: &Self) {
        R::overlay(&mut self.common, &change.common);
        if let (Slot::Given(list), Some(shared)) = (&mut self.list, change.common.get()) {
            for member in &mut list.value {
                member.overlay_with(shared);
            }
        }
        match (&mut self.list, &change.list) {
            (Slot::Given(own), Slot::Given(other)) => {
                for (at, member) in other.value.iter().enumerate() {
                    match own.value.get_mut(at) {
                        Some(known) => known.overlay_with(member),
                        None => own.value.push(member.clone()),
                    }
                }
            }
            (own, other) => Vec::<R>::overlay(own, other),
        }
    }
}

fn given<T>(value: T, place: &Place, reader: &Reader<'_>) -> Slot<T> {
    Slot::Given(Given { value, place: place.clone(), standing: reader.standing(), through: None })
}
